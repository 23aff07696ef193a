package skin

import (
	"math"
	"testing"

	thermal "leastwatt/scoring/tissue"
)

// treatment is a short scripted treatment with the real model of tissue, and
// what the bench would add to the picture.
type treatment struct {
	name    string
	subject Subject
	lesion  thermal.LesionSpec
	options thermal.Options
	play    func(h *hand)
	extra   TreatExtra // when it is over
}

// hand treats a patch and lets every watcher see it in time.
type hand struct {
	patch *thermal.Tissue
	maps  thermal.Maps
	peakC []float32
	kept  recording
}

// see follows the highest temperature of every surface.
func (h *hand) see() {
	var old []float32
	old = append(old, h.maps.HeightMM...)
	h.patch.Snapshot(&h.maps)
	if h.peakC == nil {
		h.peakC = make([]float32, len(h.maps.TempC))
	}
	for k, c := range h.maps.TempC {
		if old != nil && abs32(old[k]-h.maps.HeightMM[k]) > 0.01 {
			h.peakC[k] = 0
		}
		h.peakC[k] = max(h.peakC[k], c)
	}
}

// keep records the state that a picture must have seen.
func (h *hand) keep() {
	h.see()
	h.kept.keep(&h.maps, h.peakC)
}

// press holds the pedal down at a place for ms milliseconds.
func (h *hand) press(x, y, gap float64, ms int) {
	for ms > 0 {
		step := min(ms, 48)
		h.patch.Step(thermal.Pose{XMM: x, YMM: y, GapMM: gap}, true, step)
		h.see()
		ms -= step
	}
}

// spots visits places gapMM apart within a circle, as a careful hand would.
func spots(radius, gapMM float64) [][2]float64 {
	var out [][2]float64
	row := 0
	for y := -math.Floor(radius/gapMM) * gapMM; y <= radius; y += gapMM {
		shift := gapMM / 2 * float64(row%2)
		for x := -math.Floor(radius/gapMM) * gapMM; x <= radius; x += gapMM {
			if px := x + shift; px*px+y*y <= radius*radius {
				out = append(out, [2]float64{px + 0.07*math.Sin(9*px+5*y), y + 0.07*math.Cos(7*px-4*y)})
			}
		}
		row++
	}
	return out
}

// turns visits places along circles, stepMM apart, from the middle out.
func turns(radius, stepMM float64) [][2]float64 {
	out := [][2]float64{{0.05, -0.04}}
	for r := stepMM; r <= radius; r += stepMM {
		n := math.Round(2 * math.Pi * r / stepMM)
		for k := range int(n) {
			a := 2 * math.Pi * (float64(k) + 0.3*r) / n
			out = append(out, [2]float64{r * math.Cos(a), r * math.Sin(a)})
		}
	}
	return out
}

func (h *hand) dab(radius, gapMM float64, ms int) {
	for _, p := range spots(radius, gapMM) {
		h.press(p[0], p[1], 0, ms)
	}
}

// curette takes up to so many strokes, as long as something comes.
func (h *hand) curette(radius float64, strokes int) {
	for range strokes {
		if h.patch.Curette(thermal.Spot{RadiusMM: radius}).VolumeMM3 == 0 {
			break
		}
	}
	h.see()
}

// treatments lists the states whose pictures are kept.
func treatments() []treatment {
	subject := func(family, site string, width, height, age float64, features ...string) Subject {
		return Subject{AgeYears: age, Site: site, Family: family, WidthMM: width, HeightMM: height, Count: 1, Features: features, Seed: 7}
	}
	return []treatment{
		{
			name: "cherry_desiccated", extra: TreatExtra{Flush: FlushStrength(90_000)}, subject: subject("cherry_angioma", "chest", 3.4, 0.8, 52),
			lesion: thermal.LesionSpec{Family: "cherry_angioma", WidthMM: 3.4, HeightMM: 0.8, DepthMM: 0.5},
			play: func(h *hand) {
				h.patch.Take(thermal.Tool{RadiusMM: 0.4, Output: "low", PowerW: 8})
				h.dab(1.5, 0.85, 210)
			},
		},
		{
			name: "keratosis_gap", extra: TreatExtra{Flush: FlushStrength(60_000)}, subject: subject("seborrhoeic_keratosis", "back", 6, 1, 66, "stuck_on"),
			lesion: thermal.LesionSpec{Family: "seborrhoeic_keratosis", WidthMM: 6, HeightMM: 1, DepthMM: 0.1}, options: thermal.Options{GridMM: 0.1},
			play: func(h *hand) {
				h.patch.Take(thermal.Tool{RadiusMM: 0.25, Output: "high", PowerW: 6, Gap: true})
				for row := -3; row <= 3; row++ {
					y := float64(row) * 0.8
					half := math.Sqrt(math.Max(7.8-y*y, 0))
					for x := -half; x <= half; x += 0.35 {
						h.press(x, y, 0.4, 48)
					}
				}
			},
		},
		{
			name: "naevus_shaved", extra: TreatExtra{Flush: FlushStrength(60_000), Bleeders: []Bleeder{{-0.4, 0.9, 0.13}, {1.1, -0.6, 0.09}}}, subject: subject("intradermal_naevus", "chin", 5, 1.8, 44, "soft"),
			lesion: thermal.LesionSpec{Family: "intradermal_naevus", WidthMM: 5, HeightMM: 1.8, DepthMM: 1}, options: thermal.Options{GridMM: 0.2},
			play: func(h *hand) {
				h.patch.Shave(thermal.Spot{RadiusMM: 3}, 0)
				h.see()
				h.patch.Take(thermal.Tool{RadiusMM: 0.5, Output: "low", PowerW: 8})
				for i, p := range spots(2.1, 1.1) {
					if i%7 == 3 {
						continue
					}
					h.press(p[0], p[1], 0, 240)
				}
			},
		},
		{
			name: "carcinoma_curetted", extra: TreatExtra{Marker: []InkRing{{0, 0, 4.6}}, Bleeders: weeping(26, 2.4), Flush: FlushStrength(40_000)}, subject: subject("bcc_nodular", "back", 5.5, 1.2, 71, "pearly", "branching_vessels"),
			lesion: thermal.LesionSpec{Family: "bcc_nodular", WidthMM: 5.5, HeightMM: 1.2, DepthMM: 0.7},
			play: func(h *hand) {
				h.curette(3.2, 14)
			},
		},
		{
			name: "carcinoma_three_cycles", extra: TreatExtra{Marker: []InkRing{{0, 0, 4.6}}, Flush: FlushStrength(120_000)}, subject: subject("bcc_nodular", "back", 5.5, 1.2, 71, "pearly", "branching_vessels"),
			lesion: thermal.LesionSpec{Family: "bcc_nodular", WidthMM: 5.5, HeightMM: 1.2, DepthMM: 0.7}, options: thermal.Options{GridMM: 0.2},
			play: func(h *hand) {
				h.patch.Take(thermal.Tool{RadiusMM: 0.5, Output: "low", PowerW: 6})
				for round, strokes := range []int{14, 1, 1} {
					h.curette(3.4, strokes)
					for _, p := range turns(2.7, 1.0) {
						h.press(p[0], p[1], 0, 90+90*round)
					}
				}
			},
		},
		{
			name: "wound_pool", extra: TreatExtra{Flush: FlushStrength(30_000)}, subject: subject("wound_bleeding", "forearm", 6, 0, 42, "bleeding"),
			lesion: thermal.LesionSpec{Family: "wound_bleeding", WidthMM: 6, HeightMM: 0, DepthMM: 0.2}, options: thermal.Options{WetMM: 1},
			play: func(h *hand) {
				h.patch.Flood(thermal.Spot{RadiusMM: 2.5}, "blood", 0.4)
				h.keep()
				h.patch.Take(thermal.Tool{RadiusMM: 0.5, Output: "low", PowerW: 10})
				h.press(-0.6, 0.2, 0, 700)
				h.press(0.9, -0.5, 0, 700)
			},
		},
		{
			name: "wound_dry_field", extra: TreatExtra{Flush: FlushStrength(30_000), Bleeders: []Bleeder{{0.1, 1.1, 0.16}}}, subject: subject("wound_bleeding", "forearm", 6, 0, 42, "bleeding"),
			lesion: thermal.LesionSpec{Family: "wound_bleeding", WidthMM: 6, HeightMM: 0, DepthMM: 0.2},
			play: func(h *hand) {
				h.patch.Wipe(thermal.Spot{RadiusMM: 3})
				h.keep()
				h.patch.Take(thermal.Tool{RadiusMM: 0.5, Output: "low", PowerW: 10})
				h.press(-0.6, 0.2, 0, 350)
				h.press(0.9, -0.5, 0, 350)
			},
		},
	}
}

// weeping scatters bleeding points of unequal size.
func weeping(n int, radius float64) []Bleeder {
	r := newRNG(11, 3)
	var out []Bleeder
	for range n {
		a, d := 6.2831853*float64(r.unit()), radius*math.Sqrt(float64(r.unit()))
		u := float64(r.unit())
		out = append(out, Bleeder{d * math.Cos(a), d * math.Sin(a), 0.06 + 0.16*u*u*u})
	}
	return out
}

const treatedPx = 320

func benchView() BenchView { return BenchView{WidthPx: treatedPx, HeightPx: treatedPx, ShownMM: 10} }

var treatedTypes = []int{2, 4, 6}

// run plays the treatment with the real model.
func (c treatment) run() (recording, error) {
	h := &hand{}
	var err error
	c.options.Workers, c.options.Seed = 2, 3
	if h.patch, err = thermal.New(c.subject.Site, &c.lesion, c.options); err != nil {
		return nil, err
	}
	h.keep()
	c.play(h)
	h.keep()
	return h.kept, nil
}

// drawn is the treated skin of a type at the end of the recording.
func (c treatment) drawn(r recording, skinType int, v BenchView) *Treated {
	s := c.subject
	s.SkinType = skinType
	t := NewTreated(s, v, &r[0])
	for i := range r[1:] {
		t.follow(&r[i+1], &c.extra)
	}
	t.bleeding(c.extra.Bleeders)
	t.inking(c.extra.Marker)
	t.Show(v)
	return t
}

func treatmentOf(t testing.TB, name string) treatment {
	t.Helper()
	for _, c := range treatments() {
		if c.name == name {
			return c
		}
	}
	t.Fatalf("no treatment %q", name)
	return treatment{}
}
