package skin

import (
	"bytes"
	"math"
	"runtime"
	"testing"

	"pgregory.net/rapid"
)

// familyIDs is the family vocabulary of the case format, section 9.
var familyIDs = []string{
	"cherry_angioma", "spider_angioma", "venous_lake", "facial_telangiectasia", "leg_veins", "seborrhoeic_keratosis",
	"dermatosis_papulosa_nigra", "skin_tag", "common_wart", "filiform_wart", "plantar_wart", "periungual_wart", "genital_wart",
	"molluscum", "pyogenic_granuloma", "intradermal_naevus", "pigmented_suspicious", "melanoma", "actinic_keratosis",
	"scc_in_situ", "scc_invasive", "keratoacanthoma", "bcc_superficial", "bcc_nodular", "bcc_infiltrative",
	"sebaceous_hyperplasia", "syringoma", "milia", "dermatofibroma", "keloid", "hypertrophic_scar", "cutaneous_horn", "wound_bleeding",
}

// siteIDs is the site vocabulary of the case format, section 9.
var siteIDs = []string{
	"scalp", "forehead", "temple", "eyebrow", "eyelid", "inner_canthus", "nose", "nasolabial_fold", "cheek", "preauricular",
	"postauricular", "ear", "lip", "chin", "jaw", "neck", "chest", "breast", "shoulder", "back", "abdomen", "axilla", "upper_arm",
	"elbow", "forearm", "wrist", "hand_back", "palm", "finger", "nail_fold", "groin", "genital", "perianal", "buttock", "thigh",
	"knee", "shin", "calf", "ankle", "foot_back", "sole", "toe",
}

var featureIDs = []string{
	"irregular_pigment", "asymmetric", "many_colours", "bleeding", "ulcerated", "pearly", "branching_vessels", "horn_plugs",
	"warty", "umbilicated", "on_a_stalk", "dimples_when_pinched", "blanches", "inflamed", "infected", "perilesional_scar",
	"hair_bearing", "well_defined", "ill_defined", "stuck_on", "multiple", "no_such_feature",
}

func TestEveryFamilyAndSiteHasADrawing(t *testing.T) {
	for _, id := range familyIDs {
		if families[id].paint == nil {
			t.Errorf("family %q has no painter", id)
		}
	}
	if len(families) != len(familyIDs) {
		t.Errorf("%d painters, %d families", len(families), len(familyIDs))
	}
	for _, id := range siteIDs {
		if siteOf(id).id != id {
			t.Errorf("site %q is missing from sites.tsv", id)
		}
	}
	if len(siteTable()) != len(siteIDs) {
		t.Errorf("%d rows, %d sites", len(siteTable()), len(siteIDs))
	}
}

func TestSameBytesForAnyNumberOfWorkers(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for i, s := range examples() {
		v := DefaultView(s, 96+i%3)
		v.Exam = Exam(i % 5)
		var first []byte
		for _, n := range []int{1, 2, 7} {
			runtime.GOMAXPROCS(n)
			got := Draw(s, v).Pix
			if first == nil {
				first = got
			} else if !bytes.Equal(first, got) {
				t.Errorf("%s: %d workers draw another picture", s.Family, n)
			}
		}
	}
}

func TestSeedChangesThePicture(t *testing.T) {
	s := examples()[0]
	v := DefaultView(s, 64)
	a := Draw(s, v)
	s.Seed++
	if bytes.Equal(a.Pix, Draw(s, v).Pix) {
		t.Error("another seed drew the same picture")
	}
}

// Any subject is drawn, opaque, without a panic.
func TestAnySubjectDraws(t *testing.T) {
	numbers := rapid.OneOf(
		rapid.Float64Range(-10, 250), rapid.SampledFrom([]float64{0, 0.1, 200, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300}),
	)
	rapid.Check(t, func(t *rapid.T) {
		s := Subject{
			SkinType: rapid.IntRange(-1, 8).Draw(t, "skin type"),
			AgeYears: numbers.Draw(t, "age"),
			Site:     rapid.SampledFrom(append([]string{"", "moon"}, siteIDs...)).Draw(t, "site"),
			Family:   rapid.SampledFrom(append([]string{"", "unheard_of"}, familyIDs...)).Draw(t, "family"),
			WidthMM:  numbers.Draw(t, "width"),
			HeightMM: numbers.Draw(t, "height"),
			Count:    rapid.SampledFrom([]int{-1, 0, 1, 2, 9, 500, 1 << 40}).Draw(t, "count"),
			Features: rapid.SliceOfN(rapid.SampledFrom(featureIDs), 0, 5).Draw(t, "features"),
			Seed:     rapid.Uint64().Draw(t, "seed"),
		}
		v := DefaultView(s, 48)
		if rapid.Bool().Draw(t, "own view") {
			v = View{SizePx: rapid.IntRange(-3, 70).Draw(t, "px"), WidthMM: numbers.Draw(t, "view")}
		}
		v.Exam = Exam(rapid.IntRange(0, 6).Draw(t, "exam"))
		img := Draw(s, v)
		if got, want := img.Bounds().Dx(), v.bounded().SizePx; got != want {
			t.Fatalf("picture is %d px wide, want %d", got, want)
		}
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] != 255 {
				t.Fatalf("pixel %d is not opaque", i/4)
			}
		}
	})
}

// A lesion as large as the formats allow has its vessels drawn in bounded work.
func TestVesselsOfAHugeLesionEnd(t *testing.T) {
	s := Subject{SkinType: 6, AgeYears: 120, Site: "scalp", Family: "bcc_nodular", WidthMM: 200, HeightMM: 50, Seed: 0x7e37e43c8800759c}
	c := paint(s, View{SizePx: 48, WidthMM: 60})
	p := c.patch(lesion{r: 100, seed: 5}, 100)
	v := p.vessels(1)
	v.grow(walk{width: 0.3, length: 400, curl: 0.75, branch: 3, depth: 12})
	if v.steps > walksSteps+400 {
		t.Errorf("%d steps, want about %d at most", v.steps, walksSteps)
	}
}

func TestDefaultViewFramesTheLesion(t *testing.T) {
	for _, c := range []struct {
		family      string
		width, want float64
		count       int
	}{
		{"cherry_angioma", 3, 12, 1},            // never closer than 12 mm
		{"seborrhoeic_keratosis", 12, 30, 1},    // two fifths of the picture
		{"keloid", 80, 60, 1},                   // never wider than 60 mm
		{"dermatosis_papulosa_nigra", 4, 24, 9}, // a crowd gets room
		{"leg_veins", 20, 50, 9},                // here Count is of vessels
		{"bcc_nodular", math.NaN(), 12.5, 1},
	} {
		v := DefaultView(Subject{Family: c.family, WidthMM: c.width, Count: c.count}, 512)
		if math.Abs(v.WidthMM-c.want) > 1e-9 || v.SizePx != 512 {
			t.Errorf("%s of %g mm: view %+v, want %g mm", c.family, c.width, v, c.want)
		}
	}
	v := View{SizePx: 100, WidthMM: 22, Exam: ExamMagnified}
	if got := v.ShownMM(); math.Abs(got-10) > 1e-9 {
		t.Errorf("a lens of %g shows %g mm of 22", lensPower, got)
	}
}

// A closer view shows the same skin larger: the place of the lesion's pixels
// does not jump.
func TestLensShowsTheSameLesion(t *testing.T) {
	s := examples()[9] // melanoma: an uneven colour map
	far := Draw(s, View{SizePx: 440, WidthMM: 22})
	near := Draw(s, View{SizePx: 200, WidthMM: 22, Exam: ExamMagnified})
	var diff, n float64
	for y := 20; y < 180; y += 8 {
		for x := 20; x < 180; x += 8 {
			// 22 mm over 440 px and 10 mm over 200 px are the same scale.
			a, b := LabAt(near, x, y), LabAt(far, 120+x, 120+y)
			diff += math.Abs(a.L - b.L)
			n++
		}
	}
	if diff/n > 6 {
		t.Errorf("lightness differs by %.1f on average between the two views", diff/n)
	}
}

// Fields drawn now and coloured later give the picture that Draw gives, but
// for the sensor's noise: whoever changes fields in between starts from there.
func TestFieldsCanBeShadedLater(t *testing.T) {
	s := examples()[2]
	v := DefaultView(s, 96)
	whole, later := Draw(s, v), DrawFields(s, v).Shade(v.Exam)
	if mean, most := difference(whole, later); mean > 2 || most > 9 {
		t.Errorf("mean difference %.2f, 99th percentile %.0f", mean, most)
	}
	f := DrawFields(s, v)
	for i := range f.Blood {
		f.Blood[i] = 0.001
	}
	if mean, _ := difference(whole, f.Shade(v.Exam)); mean < 3 {
		t.Errorf("bloodless fields look the same (mean difference %.2f)", mean)
	}
}
