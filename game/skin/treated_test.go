package skin

import (
	"bytes"
	"image"
	"runtime"
	"slices"
	"testing"

	"pgregory.net/rapid"

	thermal "leastwatt/scoring/tissue"
)

// plainPatch is a patch of skin at a site as the model makes it.
func plainPatch(t testing.TB, site string, lesion *thermal.LesionSpec, gridMM float64) (*thermal.Tissue, *thermal.Maps) {
	t.Helper()
	patch, err := thermal.New(site, lesion, thermal.Options{GridMM: gridMM, WetMM: 0.8})
	if err != nil {
		t.Fatal(err)
	}
	m := &thermal.Maps{}
	patch.Snapshot(m)
	return patch, m
}

var forearm = Subject{SkinType: 3, AgeYears: 40, Site: "forearm", Seed: 4}

func TestUntreatedIsTheSamePicture(t *testing.T) {
	s := exampleOf(t, "cherry_angioma")
	_, m := plainPatch(t, s.Site, nil, 0.4)
	v := BenchView{WidthPx: 160, HeightPx: 160, ShownMM: 12}
	got := NewTreated(s, v, m)
	if want := Draw(s, View{SizePx: 160, WidthMM: 12}); !bytes.Equal(got.Picture().Pix, want.Pix) {
		t.Error("untreated skin on the bench is another picture than the case's")
	}
	if r := got.Update(m, TreatExtra{}); !r.Empty() {
		t.Errorf("nothing happened and %v was drawn again", r)
	}
}

// scripted brings a treated skin through acts by the real model, on a coarse
// grid, and calls each after every one of them.
func scripted(t testing.TB, v BenchView, each func(k int, skin *Treated)) *Treated {
	patch, m := plainPatch(t, "forearm", nil, 0.2)
	skin := NewTreated(forearm, v, m)
	var x TreatExtra
	acts := []func(){
		func() { patch.Take(thermal.Tool{RadiusMM: 0.5, Output: "low", PowerW: 9}) },
		func() { patch.Step(thermal.Pose{XMM: -0.8}, true, 320) },
		func() { patch.Wipe(thermal.Spot{RadiusMM: 2}) },
		func() { x.Bleeders = []Bleeder{{1, 1, 0.2}, {1.3, 1, 0.15}} },
		func() { patch.Flood(thermal.Spot{XMM: 1, YMM: -1, RadiusMM: 0.8}, "blood", 0.4) },
		func() { patch.Shave(thermal.Spot{XMM: -1, YMM: 1.5, RadiusMM: 0.7}, 0.4) },
		func() { x.Marker = []InkRing{{0, 0, 2.5}}; x.Bleeders = x.Bleeders[:1] },
	}
	for k, act := range acts {
		act()
		patch.Snapshot(m)
		skin.Update(m, x)
		each(k, skin)
	}
	return skin
}

// What is drawn piece by piece looks like the whole drawn at once.
func TestPieceByPieceIsTheWhole(t *testing.T) {
	v := BenchView{WidthPx: 240, HeightPx: 200, ShownMM: 9, CentreXMM: 0.3}
	scripted(t, v, func(k int, skin *Treated) {
		piece := image.NewRGBA(skin.pic.Rect)
		copy(piece.Pix, skin.pic.Pix)
		fields := slices.Clone(skin.canvas.Height)
		skin.Show(v)
		if !slices.Equal(fields, skin.canvas.Height) {
			t.Errorf("act %d: the fields differ", k)
		}
		if mean, most := difference(piece, skin.pic); mean > 0.4 || most > 4 {
			t.Errorf("act %d: mean difference %.2f (at most 0.4), 99th percentile %.0f (at most 4)", k, mean, most)
		}
	})
}

func TestTreatedSameBytesForAnyNumberOfWorkers(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var first []byte
	for _, n := range []int{1, 2, 7} {
		runtime.GOMAXPROCS(n)
		skin := scripted(t, BenchView{WidthPx: 120, HeightPx: 90, ShownMM: 6}, func(int, *Treated) {})
		if first == nil {
			first = slices.Clone(skin.pic.Pix)
		} else if !bytes.Equal(first, skin.pic.Pix) {
			t.Errorf("%d workers draw another picture", n)
		}
	}
}

// Only what changed is drawn again.
func TestOnlyTheChangeIsDrawn(t *testing.T) {
	patch, m := plainPatch(t, "forearm", nil, 0.2)
	v := BenchView{WidthPx: 620, HeightPx: 480, ShownMM: 13}
	skin := NewTreated(forearm, v, m)
	patch.Take(thermal.Tool{RadiusMM: 0.5, Output: "low", PowerW: 9})
	patch.Step(thermal.Pose{XMM: 2, YMM: -1}, true, 96)
	patch.Snapshot(m)
	r := skin.Update(m, TreatExtra{})
	x, y := v.Place(2, -1)
	if !image.Pt(int(x), int(y)).In(r) {
		t.Errorf("%v was drawn again; the tip stood at %.0f, %.0f", r, x, y)
	}
	if wide := float64(r.Dx()) / v.PxPerMM(); wide > 6 {
		t.Errorf("%.1f mm were drawn again for a spot of a millimetre; want 6 at most", wide)
	}
}

// The flare comes band by band and comes to rest.
func TestFlushComesToRest(t *testing.T) {
	patch, m := plainPatch(t, "forearm", nil, 0.2)
	skin := NewTreated(forearm, BenchView{WidthPx: 200, HeightPx: 200, ShownMM: 13}, m)
	patch.Shave(thermal.Spot{RadiusMM: 1.5}, 0.3)
	patch.Snapshot(m)
	skin.Update(m, TreatExtra{})
	x := TreatExtra{Flush: 1}
	n := 0
	for !skin.Update(m, x).Empty() {
		if n++; n > 60 {
			t.Fatal("after sixty updates it is still being drawn")
		}
	}
	if n < 2 {
		t.Errorf("the flare came in %d updates; want several, so that none takes long", n)
	}
}

// Deeper blood is never lighter, on any ground.
func TestDeeperBloodIsDarker(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := plainTissue(rapid.IntRange(1, 6).Draw(r, "type"))
		s.scatter = rapid.Float32Range(0.5, 4).Draw(r, "scatter")
		s.cooked = rapid.Float32Range(0, 0.2).Draw(r, "cooked")
		a := rapid.Float32Range(0.005, 1).Draw(r, "depth")
		s.poolMM = a
		thin := light(s)
		s.poolMM = a * rapid.Float32Range(1, 3).Draw(r, "deeper")
		if deep := light(s); deep > thin+0.3 && thin > 20 {
			r.Errorf("%.3f mm gives lightness %.1f and %.3f mm gives %.1f", a, thin, s.poolMM, deep)
		}
	})
}

func light(t tissue) float64 { return labOfTissue(t).L }

func labOfTissue(t tissue) Lab {
	r, g, b := t.colour()
	return labOf(float64(r), float64(g), float64(b))
}

// Heat turns blood from red to brown: the hue angle rises, on every skin
// ("Visible and near infrared absorption spectra of human and animal
// haemoglobin", Utrecht 2000, from memory: the ferric form absorbs red).
func TestCookedBloodIsBrown(t *testing.T) {
	for skinType := 1; skinType <= 6; skinType++ {
		s := plainTissue(skinType)
		s.blood, s.epidermis = 0.3, 0.25
		red := labOfTissue(s)
		s.cooked, s.oxygen = 1, 0.2
		brown := labOfTissue(s)
		if brown.A > 0.7*red.A || hueOf(brown) < hueOf(red) {
			t.Errorf("type %d: red %.1f turns to %.1f", skinType, red, brown)
		}
	}
}

func TestCarbonIsBlack(t *testing.T) {
	for skinType := 1; skinType <= 6; skinType++ {
		s := plainTissue(skinType)
		s.char = 1
		if c := labOfTissue(s); c.L > 20 || c.A > 6 || c.B > 8 {
			t.Errorf("type %d: carbon has colour %.1f", skinType, c)
		}
	}
}

func TestFlushStrength(t *testing.T) {
	for _, c := range []struct {
		ms       int
		from, to float32
	}{{0, 0, 0}, {3000, 0, 0}, {20_000, 0.1, 0.5}, {60_000, 1, 1}, {300_000, 1, 1}, {3_600_000, 0.1, 0.3}} {
		if s := FlushStrength(c.ms); s < c.from || s > c.to {
			t.Errorf("after %d ms the flare has strength %v, want %v to %v", c.ms, s, c.from, c.to)
		}
	}
}

// Wisps and sparks depend on seed and tick alone, and stay near their place.
func TestWispsAndSparks(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		seed, tick := rapid.Uint64().Draw(r, "seed"), rapid.IntRange(0, 1_000_000).Draw(r, "tick")
		a, b := Wisps(nil, seed, tick, 1, -2, 0.8, 0.5), Wisps(nil, seed, tick, 1, -2, 0.8, 0.5)
		if !slices.Equal(a, b) {
			r.Error("the same seed and tick give other wisps")
		}
		for _, w := range a {
			if w.Alpha < 0 || w.Alpha > 0.3 || abs32(w.XMM-1) > 1.5 || w.YMM > -2 || w.YMM < -6 || w.RadiusMM > 1.5 {
				r.Errorf("a wisp strays: %+v", w)
			}
		}
		s, again := Sparks(nil, seed, tick, 1, -2, 0.5), Sparks(nil, seed, tick, 1, -2, 0.5)
		if !slices.Equal(s, again) || len(s) < 2 {
			r.Error("the same seed and tick give other sparks, or none")
		}
		for _, k := range s {
			if k.Points[0] != [2]float32{1, -2} {
				r.Errorf("a spark does not start at the tip: %+v", k)
			}
			end := k.Points[sparkPoints-1]
			if dx, dy := end[0]-1, end[1]+2; dx*dx+dy*dy > 0.26 {
				r.Errorf("a spark lands out of reach: %+v", k)
			}
		}
	})
	if n := len(Wisps(nil, 1, 5000, 0, 0, 0, 0)) + len(Sparks(nil, 1, 5000, 0, 0, 0)); n != 0 {
		t.Errorf("no heat and no reach give %d shapes", n)
	}
}

// BenchmarkUpdate is one update of the bench's picture while a tip of 3 mm
// heats, at 13 mm over 620 pixels: the maps change over the whole spot.
func BenchmarkUpdate(b *testing.B) {
	patch, m := plainPatch(b, "forearm", nil, 0.1)
	skin := NewTreated(forearm, BenchView{WidthPx: 620, HeightPx: 560, ShownMM: 13}, m)
	patch.Take(thermal.Tool{RadiusMM: 1.5, Output: "low", PowerW: 30})
	patch.Step(thermal.Pose{}, true, 320)
	patch.Snapshot(m)
	var area float64
	n := 0
	for b.Loop() {
		// The spot grows and shrinks a little, so that every update has work.
		for k := range m.Omega {
			m.Omega[k] *= 1 + 0.5*float32(n%2*2-1)*boolMark(m.Omega[k] > 0.01)
		}
		n++
		r := skin.Update(m, TreatExtra{})
		area += float64(r.Dx() * r.Dy())
	}
	b.ReportMetric(area/float64(n), "pixels/op")
}

func BenchmarkShow(b *testing.B) {
	_, m := plainPatch(b, "forearm", nil, 0.2)
	v := BenchView{WidthPx: 720, HeightPx: 560, ShownMM: 13}
	skin := NewTreated(forearm, v, m)
	for b.Loop() {
		skin.Show(v)
	}
}
