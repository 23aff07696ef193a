package skin

import (
	"image"
	"math"
	"slices"
	"testing"
)

// seen is a treated state on a skin type, and the same skin untreated.
type seen struct {
	skin, before *Treated
	view         BenchView
}

func see(t *testing.T, name string, skinType int) seen {
	t.Helper()
	c := treatmentOf(t, name)
	r, err := readRecording(name)
	if err != nil {
		t.Fatal(err)
	}
	s := c.subject
	s.SkinType = skinType
	return seen{c.drawn(r, skinType, benchView()), NewTreated(s, benchView(), &r[0]), benchView()}
}

// round is the mean colour within a circle, mm, now and before.
func (s seen) round(x, y, radius float64) (now, before Lab) {
	px, py := s.view.Place(x, y)
	n := radius * s.view.PxPerMM()
	part := image.Rect(int(px-n), int(py-n), int(px+n), int(py+n))
	now, _ = MeanLab(s.skin.Picture(), part)
	before, _ = MeanLab(s.before.Picture(), part)
	return now, before
}

// ring is the mean colour of a circle's line, mm.
func (s seen) ring(radius float64) (now, before Lab) {
	const n = 48
	for k := range n {
		a := 2 * math.Pi * float64(k) / n
		p, q := s.round(radius*math.Cos(a), radius*math.Sin(a), 0.12)
		now.L, now.A, now.B = now.L+p.L/n, now.A+p.A/n, now.B+p.B/n
		before.L, before.A, before.B = before.L+q.L/n, before.A+q.A/n, before.B+q.B/n
	}
	return now, before
}

// darkest is the lightness that a share of the pixels of the middle are under.
func (s seen) darkest(share float64) float64 {
	var all []float64
	img := s.skin.Picture()
	for y := treatedPx / 4; y < treatedPx*3/4; y++ {
		for x := treatedPx / 4; x < treatedPx*3/4; x++ {
			all = append(all, LabAt(img, x, y).L)
		}
	}
	slices.Sort(all)
	return all[int(share*float64(len(all)))]
}

// An angioma that has been desiccated is no longer red ("Cherry angioma",
// DermNet, Hamilton, on its treatment: from memory), and it has sunk.
func TestDesiccatedAngioma(t *testing.T) {
	for _, ty := range treatedTypes {
		s := see(t, "cherry_desiccated", ty)
		now, before := s.round(0, 0, 1)
		t.Logf("type %d: %.1f to %.1f, darkest %.0f", ty, before, now, s.darkest(0.001))
		if before.A < 18 || now.A > 9 {
			t.Errorf("type %d: redness went from %.1f to %.1f; want red to grey-brown", ty, before.A, now.A)
		}
		if c := s.darkest(0.001); c > 22 {
			t.Errorf("type %d: the darkest specks have lightness %.0f; char has 22 at most", ty, c)
		}
		g := s.skin.canvas.grid
		mid := g.h/2*g.w + g.w/2
		if high, was := s.skin.canvas.Height[mid], s.before.canvas.Height[mid]; high > 0.8*was {
			t.Errorf("type %d: the dome is %.2f mm high, it was %.2f; want it sunk by a fifth and more", ty, high, was)
		}
	}
}

// Curdled tissue is lighter and less red than the raw bed beside it (whitening
// of skin at 60 to 65 C: "Birefringence and whitening", SPIE 1882, 1993, from
// memory), on every skin; dried middles are browner than their white rims.
func TestWhiteningInADryField(t *testing.T) {
	for _, ty := range treatedTypes {
		s := see(t, "wound_dry_field", ty)
		white, before := s.round(0.15, -0.15, 0.14)
		raw, _ := s.round(-1.9, 0.1, 0.2)
		t.Logf("type %d: raw %.1f, curdled %.1f (before %.1f)", ty, raw, white, before)
		if white.L < before.L+10 || white.L < raw.L+10 || white.A > raw.A-8 {
			t.Errorf("type %d: raw bed %.1f, coagulum %.1f; want it lighter by 10 and less red by 8", ty, raw, white)
		}
	}
}

// In a pool the current cooks the blood: it turns dark and brown, and the
// tissue beneath is hidden.
func TestPoolHidesTheField(t *testing.T) {
	for _, ty := range treatedTypes {
		s := see(t, "wound_pool", ty)
		pool, before := s.round(-1.6, 1.0, 0.2)
		t.Logf("type %d: pool %.1f, before %.1f", ty, pool, before)
		if pool.L > before.L-12 || pool.L > 35 {
			t.Errorf("type %d: the pool has lightness %.1f over a bed of %.1f; want it darker by 12 and under 35", ty, pool.L, before.L)
		}
	}
}

// A curetted floor lies deep, without the pigment of the skin: it looks alike
// on light and dark skin ("Cutaneous surgery" texts: from memory).
func TestCurettedFloor(t *testing.T) {
	var floors []Lab
	for _, ty := range treatedTypes {
		s := see(t, "carcinoma_curetted", ty)
		floor, _ := s.round(-0.6, -0.4, 0.5)
		floors = append(floors, floor)
		g := s.skin.canvas.grid
		if h := s.skin.canvas.Height[g.h/2*g.w+g.w/2]; h > -0.4 {
			t.Errorf("type %d: the floor lies at %.2f mm, want -0.4 or deeper", ty, h)
		}
		if floor.A < 9 {
			t.Errorf("type %d: the floor is not pink: %.1f", ty, floor)
		}
	}
	if d := math.Abs(floors[0].L - floors[2].L); d > 6 {
		t.Errorf("the floor's lightness differs by %.1f between types 2 and 6; want 6 at most", d)
	}
}

// Round an injury the skin reddens; on dark skin the redness is weaker but
// there ("Skin of color" texts; the same optics give 2.5 times less).
func TestFlushRing(t *testing.T) {
	for _, name := range []string{"naevus_shaved", "carcinoma_three_cycles", "keratosis_gap"} {
		var rise []float64
		for _, ty := range treatedTypes {
			s := see(t, name, ty)
			radius := treatmentOf(t, name).lesion.WidthMM/2 + 1.1
			now, before := s.ring(radius)
			rise = append(rise, now.A-before.A)
		}
		t.Logf("%s: redness rises by %.1f", name, rise)
		if rise[0] < 3 || rise[2] < 0.8 || rise[2] > rise[0] {
			t.Errorf("%s: round it redness rises by %.1f on types 2, 4 and 6; want 3 and more on type 2, and less but some on type 6", name, rise)
		}
	}
}
