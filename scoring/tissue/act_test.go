package tissue

import (
	"math"
	"testing"
)

func bench(t *testing.T, site string, l *LesionSpec, o Options) *Tissue {
	t.Helper()
	tissue, err := New(site, l, o)
	if err != nil {
		t.Fatal(err)
	}
	return tissue
}

// TestSnip: a skin tag comes off at the level of the skin, all of it, and
// nothing of the skin.
func TestSnip(t *testing.T) {
	tissue := bench(t, "neck", &LesionSpec{"skin_tag", 3, 3, 0}, Options{GridMM: 0.1})
	r := tissue.Snip(0)
	if r.VolumeMM3 != r.LesionMM3 || r.DeepestMM != 0 || r.EdgeMM != 0 {
		t.Errorf("the snip took %+v; want lesion alone, nothing below the skin, no burnt edge", r)
	}
	if share := tissue.Outcome().LesionDestroyedFraction; share != 1 {
		t.Errorf("%v of the tag is gone, want 1", share)
	}
	ball, stalk := math.Pi/6*3*3*2.25, math.Pi*0.36*0.75
	if want := ball + stalk; math.Abs(r.VolumeMM3-want) > 0.15*want {
		t.Errorf("the tag held %.3g mm3, want about %.3g", r.VolumeMM3, want)
	}
}

// TestShave: the cut is level, the specimen's edge is burnt only when the
// tissue was.
func TestShave(t *testing.T) {
	l := &LesionSpec{"intradermal_naevus", 4, 2, 1}
	cold := bench(t, "back", l, Options{GridMM: 0.2})
	r := cold.Shave(Spot{RadiusMM: 3}, 0.2)
	if math.Abs(r.DeepestMM-0.2) > 1e-6 || r.EdgeMM != 0 {
		t.Errorf("the shave took %+v; want 0.2 mm deep and no burnt edge", r)
	}
	var m Maps
	cold.Snapshot(&m)
	if h := m.HeightMM[m.NY/2*m.NX+m.NX/2]; math.Abs(float64(h)+0.2) > 1e-6 {
		t.Errorf("the middle lies at %v mm, want -0.2", h)
	}
	hot := bench(t, "back", l, Options{GridMM: 0.2})
	hot.Take(Tool{RadiusMM: 1, Output: "low", PowerW: 30})
	hot.Step(Pose{}, true, 1500)
	if r := hot.Shave(Spot{RadiusMM: 3}, -1.2); r.EdgeMM <= 0 || hot.Outcome().SpecimenEdgeMM <= 0 {
		t.Errorf("the shave of burnt tissue took %+v; want a burnt edge", r)
	}
}

// TestCurette: it takes a soft tumour and spares the dermis round and under
// it, and takes dermis only after that has been dried.
func TestCurette(t *testing.T) {
	tissue := bench(t, "back", &LesionSpec{"bcc_nodular", 3, 1, 0.8}, Options{GridMM: 0.2})
	total := 0.0
	for range 20 {
		total += tissue.Curette(Spot{RadiusMM: 4}).LesionMM3
	}
	if share := tissue.Outcome().LesionDestroyedFraction; share < 0.95 {
		t.Errorf("twenty strokes took %v of the tumour, want 0.95 and more", share)
	}
	if r := tissue.Curette(Spot{RadiusMM: 4}); r.VolumeMM3 > 0 {
		t.Errorf("a further stroke took %v mm3 of sound dermis, want nothing", r.VolumeMM3)
	}
	tissue.Take(Tool{RadiusMM: 0.5, Output: "low", PowerW: 10})
	tissue.Step(Pose{}, true, 400)
	if r := tissue.Curette(Spot{RadiusMM: 4}); r.VolumeMM3 == 0 {
		t.Error("a stroke over dried dermis took nothing")
	}
}

// TestWipe takes what has dried, and nothing else.
func TestWipe(t *testing.T) {
	tissue := bench(t, "cheek", nil, Options{GridMM: 0.1})
	if r := tissue.Wipe(Spot{RadiusMM: 3}); r.VolumeMM3 != 0 {
		t.Errorf("wiping sound skin took %v mm3", r.VolumeMM3)
	}
	tissue.Take(Tool{RadiusMM: 0.3, Output: "low", PowerW: 8})
	tissue.Step(Pose{}, true, 300)
	dried := tissue.body.region(tissue.body.dried).VolumeMM3
	r := tissue.Wipe(Spot{RadiusMM: 3})
	if dried == 0 || r.VolumeMM3 == 0 || r.VolumeMM3 > dried+1e-9 {
		t.Errorf("%v mm3 had dried and %v mm3 was wiped off", dried, r.VolumeMM3)
	}
}

// TestWetField: under blood the same power destroys less.
func TestWetField(t *testing.T) {
	destroyed := func(wet bool) float64 {
		tissue := bench(t, "cheek", nil, Options{GridMM: 0.1, WetMM: 1})
		if wet {
			tissue.Flood(Spot{RadiusMM: 3}, "blood", 0.8)
		}
		tissue.Take(Tool{RadiusMM: 0.3, Output: "low", PowerW: 4})
		tissue.Step(Pose{}, true, 300)
		return tissue.Outcome().DermisDepthMM
	}
	if dry, wet := destroyed(false), destroyed(true); wet >= dry {
		t.Errorf("a dry field is destroyed to %v mm and a wet one to %v; want less", dry, wet)
	}
}

// TestPress: a pressed vessel holds no blood to cool it, and after release it
// bleeds into place again.
func TestPress(t *testing.T) {
	l := &LesionSpec{"facial_telangiectasia", 3, 0, 0.5}
	tissue := bench(t, "cheek", l, Options{GridMM: 0.1})
	before := tissue.body.digest()
	tissue.Press(Spot{RadiusMM: 3})
	if tissue.body.digest() == before {
		t.Fatal("pressing changed nothing")
	}
	tissue.Release()
	if tissue.body.digest() != before {
		t.Error("after release with no heat between, the tissue is not as before")
	}
}

// TestSparksStopWhenWide: with the low output a gap takes no spark that the
// high output takes, and no output jumps a wide one.
func TestSparksStopWhenWide(t *testing.T) {
	energy := func(output string, gapMM float64) float64 {
		tissue := bench(t, "cheek", nil, Options{GridMM: 0.2})
		tissue.Take(Tool{RadiusMM: 0.25, Output: output, PowerW: 10, Gap: true})
		tissue.Step(Pose{GapMM: gapMM}, true, 64)
		return tissue.Outcome().EnergyJ
	}
	if high, low := energy("high", 0.5), energy("low", 0.5); high <= 0 || low != 0 {
		t.Errorf("across 0.5 mm the high output gives %v J and the low one %v J; want some and none", high, low)
	}
	if far := energy("high", 3); far != 0 {
		t.Errorf("across 3 mm the high output gives %v J, want none", far)
	}
}

// TestArcFollowsTheTip: an arc that burns across a crust burns on while the tip
// creeps over crust, and goes out when it comes to stand on wet tissue.
func TestArcFollowsTheTip(t *testing.T) {
	tissue := bench(t, "forearm", nil, Options{GridMM: 0.2})
	tissue.Take(Tool{RadiusMM: 0.4, Output: "low", PowerW: 20})
	tissue.Step(Pose{}, true, 160)
	if !tissue.Sparking() {
		t.Fatal("after 160 ms at 20 W no arc burns across the crust")
	}
	for k := range 4 {
		tissue.Step(Pose{XMM: 0.03 * float64(k)}, true, 8)
		if !tissue.Sparking() {
			t.Fatalf("the arc went out when the tip had crept %.2f mm", 0.03*float64(k))
		}
	}
	tissue.Step(Pose{XMM: 3}, true, 8)
	if tissue.Sparking() {
		t.Error("an arc burns to wet tissue that the tip touches")
	}
}

// TestArcNeedsItsVoltage: a dial whose bursts do not reach the burning voltage
// of an arc dries a crust and then gives next to nothing; a little more crosses
// it.
func TestArcNeedsItsVoltage(t *testing.T) {
	unit := outputByID("low")
	barelyW := unit.MaxDialW * square(unit.ArcV*math.Sqrt2/unit.OpenPeakV)
	late := func(dialW float64) float64 {
		tissue := bench(t, "cheek", nil, Options{GridMM: 0.1})
		tissue.Take(Tool{RadiusMM: 0.15, Output: "low", PowerW: dialW})
		tissue.Step(Pose{}, true, 500)
		before := tissue.energyJ
		tissue.Step(Pose{}, true, 200)
		return tissue.energyJ - before
	}
	if under, over := late(0.95*barelyW), late(2.2*barelyW); under > 0.2*over {
		t.Errorf("late in the touch %.3g J enter at %.2f W and %.3g J at %.2f W; want far less under the arc's voltage", under, 0.95*barelyW, over, 2.2*barelyW)
	}
}

// TestOutcomeCounts: bursts, the longest of them, and breaks of contact.
func TestOutcomeCounts(t *testing.T) {
	tissue := bench(t, "cheek", nil, Options{GridMM: 0.4})
	tissue.Take(Tool{RadiusMM: 0.5, Output: "low", PowerW: 1})
	tissue.Step(Pose{}, true, 100)
	tissue.Step(Pose{}, false, 50)
	tissue.Step(Pose{}, true, 30)
	tissue.Step(Pose{GapMM: 1}, true, 40)
	tissue.Step(Pose{}, true, 50)
	tissue.Step(Pose{}, false, 1)
	o := tissue.Outcome()
	if o.Bursts != 2 || o.LongestBurstS != 0.12 || o.ContactBreaks != 1 {
		t.Errorf("bursts %d, longest %v s, breaks %d; want 2, 0.12 and 1", o.Bursts, o.LongestBurstS, o.ContactBreaks)
	}
}

// TestSection shows the same tissue as the maps.
func TestSection(t *testing.T) {
	tissue := bench(t, "neck", &LesionSpec{"skin_tag", 3, 3, 0}, Options{GridMM: 0.2})
	s := tissue.Section(0)
	var m Maps
	tissue.Snapshot(&m)
	for x := range s.NX {
		top := 0
		for top < s.NZ && !s.Solid[top*s.NX+x] {
			top++
		}
		if h := s.TopMM - float64(top)*s.GridMM; math.Abs(h-float64(m.HeightMM[m.NY/2*m.NX+x])) > 1e-5 {
			t.Fatalf("column %d is %v mm high in the section and %v in the map", x, h, m.HeightMM[m.NY/2*m.NX+x])
		}
	}
}
