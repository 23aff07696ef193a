package skin

import (
	"image"
	"image/draw"
	"math"
	"testing"
)

func exampleOf(t *testing.T, id string) Subject {
	t.Helper()
	for _, s := range examples() {
		if s.Family == id {
			return s
		}
	}
	t.Fatalf("no example of %s", id)
	return Subject{}
}

// draw draws a family's example on a skin type.
func drawn(t *testing.T, id string, skinType, px int, e Exam, features ...string) *image.RGBA {
	s := exampleOf(t, id)
	s.SkinType = skinType
	s.Features = append(append([]string(nil), s.Features...), features...)
	v := DefaultView(s, px)
	v.Exam = e
	return Draw(s, v)
}

func hueOf(c Lab) float64 { return math.Atan2(c.B, c.A) * 180 / math.Pi }

// Cherry angiomas are red, naevi and keratoses brown, on every skin: the hue
// angle of the middle tells them apart (0 is red-pink, 90 yellow).
func TestHueOfTheFamilies(t *testing.T) {
	for skinType := 1; skinType <= 6; skinType++ {
		angioma, _ := MeanLab(drawn(t, "cherry_angioma", skinType, 160, ExamNone), centre(image.NewRGBA(image.Rect(0, 0, 160, 160)), 0.2))
		for _, id := range []string{"intradermal_naevus", "seborrhoeic_keratosis", "pigmented_suspicious"} {
			brown, _ := MeanLab(drawn(t, id, skinType, 160, ExamNone), centre(image.NewRGBA(image.Rect(0, 0, 160, 160)), 0.2))
			if hueOf(brown) < hueOf(angioma)+12 {
				t.Errorf("type %d: %s has hue %.0f, the angioma %.0f", skinType, id, hueOf(brown), hueOf(angioma))
			}
		}
		if angioma.A < 20 || hueOf(angioma) > 40 {
			t.Errorf("type %d: angioma is not red: %.1f (hue %.0f)", skinType, angioma, hueOf(angioma))
		}
	}
}

// edgeMM measures how wide the step of colour at a lesion's edge is: along
// rays from the middle, the way from 20 to 80 % of the colour change, in mm;
// the median over the rays.
func edgeMM(img *image.RGBA, radiusMM, widthMM float64) float64 {
	px := widthMM / float64(img.Bounds().Dx())
	half := float64(img.Bounds().Dx()) / 2
	at := func(a, r float64) Lab {
		// A small fan of pixels stands for one place: noise must not count.
		var s Lab
		for _, d := range []float64{-0.05, -0.025, 0, 0.025, 0.05} {
			c := LabAt(img, int(half+r/px*math.Cos(a+d)), int(half+r/px*math.Sin(a+d)))
			s.L, s.A, s.B = s.L+c.L/5, s.A+c.A/5, s.B+c.B/5
		}
		return s
	}
	var widths []float64
	for ray := range 24 {
		a := float64(ray) * math.Pi / 12
		in, out := at(a, radiusMM*0.55), at(a, radiusMM*1.75)
		axis := Lab{out.L - in.L, out.A - in.A, out.B - in.B}
		n := axis.L*axis.L + axis.A*axis.A + axis.B*axis.B
		last20, first80 := 0.0, 0.0
		for r := radiusMM * 0.55; r < radiusMM*1.75; r += px {
			c := at(a, r)
			k := ((c.L-in.L)*axis.L + (c.A-in.A)*axis.A + (c.B-in.B)*axis.B) / n
			if k < 0.2 {
				last20 = r
			}
			if k > 0.8 && first80 == 0 && r > last20 && last20 > 0 {
				first80 = r
				break
			}
		}
		if first80 > 0 {
			widths = append(widths, first80-last20)
		}
	}
	return median(widths)
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	for i := range v {
		for j := i; j > 0 && v[j] < v[j-1]; j-- {
			v[j], v[j-1] = v[j-1], v[j]
		}
	}
	return v[len(v)/2]
}

// An angioma and a stuck-on keratosis end sharply; a doubtful mole fades.
func TestSharpnessOfBorders(t *testing.T) {
	for _, skinType := range []int{2, 5} {
		edge := func(id string) float64 {
			s := exampleOf(t, id)
			s.SkinType = skinType
			// Even light, and room for the rays to reach plain skin.
			v := View{SizePx: 320, WidthMM: 2.4 * lensPower * s.WidthMM, Exam: ExamDermoscope}
			return edgeMM(Draw(s, v), s.WidthMM/2, v.ShownMM()) / (s.WidthMM / 2)
		}
		angioma, keratosis, mole := edge("cherry_angioma"), edge("seborrhoeic_keratosis"), edge("pigmented_suspicious")
		t.Logf("type %d: edges as share of the radius: angioma %.3f, keratosis %.3f, mole %.3f", skinType, angioma, keratosis, mole)
		if !(angioma < 0.15) || !(keratosis < 0.15) {
			t.Errorf("type %d: edges are %.3f (angioma) and %.3f (keratosis) of the radius, want under 0.15", skinType, angioma, keratosis)
		}
		if !(mole > 1.5*angioma) {
			t.Errorf("type %d: the mole's edge %.3f is not softer than the angioma's %.3f", skinType, mole, angioma)
		}
	}
}

// ringPeaks counts the red lines that cross a circle of r mm.
func ringPeaks(img *image.RGBA, r, widthMM, rise float64) int {
	half, px := float64(img.Bounds().Dx())/2, widthMM/float64(img.Bounds().Dx())
	const n = 720
	a := make([]float64, n)
	for i := range a {
		t := float64(i) * 2 * math.Pi / n
		a[i] = LabAt(img, int(half+r/px*math.Cos(t)), int(half+r/px*math.Sin(t))).A
	}
	count := 0
	above := false
	for i := range a {
		local := 0.0
		for d := -45; d <= 45; d++ {
			local += a[(i+d+n)%n] / 91
		}
		now := a[i] > local+rise
		if now && !above {
			count++
		}
		above = now
	}
	return count
}

func TestSpiderLegsCanBeCountedAndEmpty(t *testing.T) {
	s := exampleOf(t, "spider_angioma")
	v := DefaultView(s, 400)
	free, pressed := drawn(t, "spider_angioma", 2, 400, ExamNone), drawn(t, "spider_angioma", 2, 400, ExamPressed)
	legs := ringPeaks(free, s.WidthMM*0.2, v.WidthMM, 3)
	if legs < 6 || legs > 24 {
		t.Errorf("%d legs cross the ring, want 6 to 24", legs)
	}
	if n := ringPeaks(pressed, s.WidthMM*0.2, v.WidthMM, 3); n > 1 {
		t.Errorf("%d legs are left under the glass", n)
	}
}

func TestAngiomaBlanchesInPart(t *testing.T) {
	for skinType := 1; skinType <= 6; skinType++ {
		mid := centre(image.NewRGBA(image.Rect(0, 0, 160, 160)), 0.2)
		free, _ := MeanLab(drawn(t, "cherry_angioma", skinType, 160, ExamNone), mid)
		pressed, _ := MeanLab(drawn(t, "cherry_angioma", skinType, 160, ExamPressed), mid)
		if pressed.A > 0.9*free.A {
			t.Errorf("type %d: redness %.1f, under glass %.1f", skinType, free.A, pressed.A)
		}
		if pressed.A < 12 {
			t.Errorf("type %d: the angioma vanished under glass (%.1f)", skinType, pressed.A)
		}
	}
}

// darkSpots counts separate spots inside share of the picture that are darker
// than their surroundings by drop units of lightness.
func darkSpots(img *image.RGBA, share, drop float64) int {
	box := centre(img, share)
	w, h := box.Dx(), box.Dy()
	g := grid{w: w, h: h, px: 1}
	l := g.plane()
	for y := range h {
		for x := range w {
			l[y*w+x] = float32(LabAt(img, box.Min.X+x, box.Min.Y+y).L)
		}
	}
	around, near := g.blur(l, 9), g.blur(l, 0.8)
	dark := make([]bool, len(l))
	for i := range l {
		dark[i] = around[i]-near[i] > float32(drop)
	}
	count := 0
	var stack []int
	for i := range dark {
		if !dark[i] {
			continue
		}
		size := 0
		for stack = append(stack[:0], i); len(stack) > 0; {
			j := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if !dark[j] {
				continue
			}
			dark[j] = false
			size++
			x := j % w
			if x > 0 {
				stack = append(stack, j-1)
			}
			if x < w-1 {
				stack = append(stack, j+1)
			}
			if j >= w {
				stack = append(stack, j-w)
			}
			if j < len(dark)-w {
				stack = append(stack, j+w)
			}
		}
		if size >= 3 {
			count++
		}
	}
	return count
}

func TestDotsAndPlugsCanBeCounted(t *testing.T) {
	for _, skinType := range []int{2, 5} {
		for _, c := range []struct {
			id       string
			share    float64
			drop     float64
			min, max int
		}{
			{"plantar_wart", 0.6, 8, 8, 45},
			{"seborrhoeic_keratosis", 0.55, 4, 5, 80},
			{"common_wart", 0.6, 7, 3, 40},
		} {
			if n := darkSpots(drawn(t, c.id, skinType, 400, ExamDermoscope), c.share, c.drop); n < c.min || n > c.max {
				t.Errorf("type %d: %s shows %d dark spots, want %d to %d", skinType, c.id, n, c.min, c.max)
			}
		}
	}
}

// Features change the picture where they should.
func TestVisibleFeaturesShow(t *testing.T) {
	for _, c := range []struct{ id, feature string }{
		{"intradermal_naevus", "hair_bearing"},
		{"bcc_infiltrative", "ulcerated"},
		{"pyogenic_granuloma", "ulcerated"},
		{"common_wart", "inflamed"},
		{"skin_tag", "inflamed"},
		{"molluscum", "infected"},
		{"bcc_nodular", "perilesional_scar"},
		{"pigmented_suspicious", "many_colours"},
		{"pigmented_suspicious", "asymmetric"},
		{"cherry_angioma", "bleeding"},
		{"seborrhoeic_keratosis", "warty"},
		{"bcc_superficial", "irregular_pigment"},
	} {
		for _, skinType := range []int{2, 5} {
			mean, most := difference(middle(drawn(t, c.id, skinType, 160, ExamNone)), middle(drawn(t, c.id, skinType, 160, ExamNone, c.feature)))
			if most < 10 && mean < 2 {
				t.Errorf("type %d: %s with %s looks the same (mean %.2f, 99th percentile %.0f)", skinType, c.id, c.feature, mean, most)
			}
		}
	}
}

// middle cuts the half of a picture that holds the lesion.
func middle(img *image.RGBA) *image.RGBA {
	box := centre(img, 0.5)
	out := image.NewRGBA(image.Rect(0, 0, box.Dx(), box.Dy()))
	draw.Draw(out, out.Rect, img, box.Min, draw.Src)
	return out
}

// Pinched, a dermatofibroma sinks below the skin around it.
func TestDermatofibromaDimples(t *testing.T) {
	s := exampleOf(t, "dermatofibroma")
	v := DefaultView(s, 160)
	depth := func(e Exam, family string) float32 {
		s.Family = family
		v.Exam = e
		f := DrawFields(s, v)
		low := f.blur(f.Height, 0.8)
		mid := low[80*160+80]
		around := (low[80*160+80-72] + low[80*160+80+72] + low[(80-72)*160+80] + low[(80+72)*160+80]) / 4
		return mid - around
	}
	free, pinched := depth(ExamNone, "dermatofibroma"), depth(ExamPinched, "dermatofibroma")
	other := depth(ExamPinched, "intradermal_naevus")
	if pinched > free-0.3 || other < pinched+1 {
		t.Errorf("middle against surroundings: free %.2f mm, pinched %.2f mm; a naevus pinched %.2f mm", free, pinched, other)
	}
}
