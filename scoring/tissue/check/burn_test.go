package check

import (
	"math"
	"testing"

	"leastwatt/scoring/tissue"
)

// skinColumn is skin in one dimension, its surface held at one temperature: an
// implicit march over layers, for exposures from tenths of a second to hours.
// Constants: Jiang, Ma, Li and Zhang, Burns 2002;28:713 (epidermis 0.08 mm,
// dermis 2 mm, then fat). The basal layer, where a burn is read, lies at the
// foot of the epidermis.
type skinColumn struct {
	dzM, tempC, kWmK, rhoC, blood []float64
	basal                         int
}

func newSkinColumn() *skinColumn {
	c := &skinColumn{}
	add := func(thickM, dz, k, rhoC, blood float64) {
		for range int(math.Round(thickM / dz)) {
			c.dzM, c.kWmK, c.rhoC, c.blood = append(c.dzM, dz), append(c.kWmK, k), append(c.rhoC, rhoC), append(c.blood, blood)
		}
	}
	const bloodRhoC = 1060 * 3770
	add(80e-6, 4e-6, 0.24, 1200*3590, 0)
	c.basal = len(c.dzM) - 1
	add(0.4e-3, 10e-6, 0.45, 1200*3300, 0.00125*bloodRhoC)
	add(1.6e-3, 50e-6, 0.45, 1200*3300, 0.00125*bloodRhoC)
	add(10e-3, 0.5e-3, 0.19, 1000*2500, 0.00125*bloodRhoC)
	c.tempC = make([]float64, len(c.dzM))
	// From 34 C at the surface to 37 C at the bottom, as skin at rest is.
	depth, whole := 0.0, 0.0
	for _, dz := range c.dzM {
		whole += dz
	}
	for i, dz := range c.dzM {
		c.tempC[i] = 34 + 3*(depth+dz/2)/whole
		depth += dz
	}
	return c
}

// step is one implicit step with the surface at surfaceC, the bottom at 37 C
// and blood at 37 C.
func (c *skinColumn) step(dt, surfaceC float64) {
	n := len(c.tempC)
	g := func(i int) float64 { // from cell i-1 to cell i, W/(m2 K)
		switch i {
		case 0:
			return c.kWmK[0] / (c.dzM[0] / 2)
		case n:
			return c.kWmK[n-1] / (c.dzM[n-1] / 2)
		}
		return 1 / (c.dzM[i-1]/(2*c.kWmK[i-1]) + c.dzM[i]/(2*c.kWmK[i]))
	}
	upper, right := make([]float64, n), make([]float64, n)
	for i := range n {
		hold := c.rhoC[i] * c.dzM[i] / dt
		drain := c.blood[i] * c.dzM[i]
		diagonal, rhs := hold+drain+g(i)+g(i+1), hold*c.tempC[i]+drain*37
		if i == 0 {
			rhs += g(0) * surfaceC
		} else {
			diagonal -= g(i) * upper[i-1]
			rhs += g(i) * right[i-1]
		}
		if i == n-1 {
			rhs += g(n) * 37
		}
		upper[i], right[i] = g(i+1)/diagonal, rhs/diagonal
	}
	c.tempC[n-1] = right[n-1]
	for i := n - 2; i >= 0; i-- {
		c.tempC[i] = right[i] + upper[i]*c.tempC[i+1]
	}
}

// burnTimeS is how long the surface must be held at surfaceC until the damage
// integral at the basal layer reaches 1; +Inf past 30 hours.
func burnTimeS(set *tissue.DamageSet, surfaceC float64) float64 {
	c := newSkinColumn()
	omega, t, before := 0.0, 0.0, 0.0
	for t < 1.1e5 {
		dt := math.Max(1e-3, t*0.01)
		c.step(dt, surfaceC)
		// The last epidermal cell ends at the basal layer.
		rate := set.RatePerS(tissue.Epidermis, (c.tempC[c.basal]+c.tempC[c.basal+1])/2)
		grow := (before + rate) / 2 * dt
		if omega+grow >= 1 {
			return t + dt*(1-omega)/grow
		}
		omega, t, before = omega+grow, t+dt, rate
	}
	return math.Inf(1)
}

// experiment is a row of Moritz and Henriques, American Journal of Pathology
// 1947;23:695, skin of pig and man under flowing water or oil: exposures up to
// harmlessS left no lasting injury, from burntS the epidermis died. The figures
// are from memory, but for 6 h at 44 C, which reviews of the work repeat.
var experiment = []struct{ surfaceC, harmlessS, burntS float64 }{
	{44, 5 * 3600, 6 * 3600},
	{45, 2 * 3600, 3 * 3600},
	{47, 20 * 60, 45 * 60},
	{48, 10 * 60, 18 * 60},
	{49, 8 * 60, 10 * 60},
	{51, 2 * 60, 6 * 60},
	{53, 30, 90},
	{55, 20, 30},
	{60, 3, 5},
}

// TestBurnExperiments holds every damage set against the experiments. A ratio
// is the set's time over the nearer edge of the band, 1 within the band. A set
// must stay within the ratios written here; where these are wide the set is
// known to fail there, for the reason given, and must go on failing so.
func TestBurnExperiments(t *testing.T) {
	for _, c := range []struct {
		set      string
		lo, hi   float64 // allowed ratios at 44 to 51 C
		lo2, hi2 float64 // at 53 to 60 C
		known    string
	}{
		{"henriques", 0.9, 1.1, 0.9, 1.1, "nothing: it keeps within the band"},
		{"henriques_si", 1.5, 5, 1.5, 2.5, "too slow, two to five times: the SI quotation sets 628 kJ/mol beside the A that was fitted with 75,000 K"},
		{"weaver_stoll", 0.15, 0.4, 0.4, 1.1, "too quick below 60 C, three to five times: fitted to blisters after seconds of radiant heat (from memory)"},
		{"takata", 0.35, 1.2, 0.9, 1.1, "too quick at 44 and 45 C, up to two and a half times: its lower branch is flat (from memory: fitted to flame burns)"},
		{"mehta_wong", 0.07, 0.5, 0.6, 1.1, "too quick below 53 C, up to twelve times at 44 C: one flat branch (from memory: fitted to flame burns)"},
		{"collagen", 3, 20, 15, 30, "no burn set: collagen outlives cells, so it must be slower than every burn"},
	} {
		set := tissue.DamageByID(c.set)
		if set == nil {
			t.Errorf("there is no damage set %q", c.set)
			continue
		}
		for _, e := range experiment {
			time := burnTimeS(set, e.surfaceC)
			ratio := 1.0
			if time < e.harmlessS {
				ratio = time / e.harmlessS
			} else if time > e.burntS {
				ratio = time / e.burntS
			}
			lo, hi := c.lo, c.hi
			if e.surfaceC > 52 {
				lo, hi = c.lo2, c.hi2
			}
			t.Logf("%-12s %g C: %.4g s; pig and man between %g and %g s; ratio %.2g", c.set, e.surfaceC, time, e.harmlessS, e.burntS, ratio)
			if ratio < lo || ratio > hi {
				t.Errorf("%s at %g C: %.4g s is %.2g times the band %g to %g s, want %g to %g times (known: %s)", c.set, e.surfaceC, time, ratio, e.harmlessS, e.burntS, lo, hi, c.known)
			}
		}
	}
}

// TestContactStandard holds the set of Henriques, and prints the others,
// against the burn thresholds for bare metal of ISO 13732-1 (Ergonomics of the
// thermal environment, hot surfaces, Geneva 2006; the figures are from
// memory). Metal holds its temperature, so the skin's surface takes it on
// nearly. The standard draws its lines on the safe side, at the least that ever
// burnt, so the set may stand up to 2 K above them and hardly below. Above
// 60 C nothing is judged: no set was fitted there.
func TestContactStandard(t *testing.T) {
	for _, row := range []struct {
		timeS, thresholdC float64
		judged            bool
	}{{1, 65, false}, {10, 55, true}, {60, 51, true}, {600, 48, true}, {8 * 3600, 43, true}} {
		for _, id := range tissue.DamageIDs() {
			set := tissue.DamageByID(id)
			lo, hi := 40.0, 100.0
			for range 30 {
				mid := (lo + hi) / 2
				if burnTimeS(set, mid) > row.timeS {
					lo = mid
				} else {
					hi = mid
				}
			}
			t.Logf("%-12s %6g s: burns from %.2f C; the standard says %g C", id, row.timeS, lo, row.thresholdC)
			if id == "henriques" && row.judged && (lo > row.thresholdC+2 || lo < row.thresholdC-0.5) {
				t.Errorf("%s, %g s: burns from %.2f C, the standard says %g C; want from 0.5 K below to 2 K above", id, row.timeS, lo, row.thresholdC)
			}
		}
	}
}

// TestDamageIntegral holds the marched integral of a run against A exp(-B/T) t
// with the published constants, in tissue that rests at one temperature.
func TestDamageIntegral(t *testing.T) {
	for _, c := range []struct {
		set        string
		tempC      float64
		perS, bK   float64
		publishedB string
	}{
		{"henriques", 50, 3.1e98, 75000, "Henriques, Archives of Pathology 1947;43:489"},
		{"henriques", 55, 3.1e98, 75000, "the same"},
		{"henriques_si", 55, 3.1e98, 6.28e5 / 8.3145, "Jiang and others, Burns 2002;28:713"},
		{"weaver_stoll", 48, 2.185e124, 93534.9, "Weaver and Stoll, Aerospace Medicine 1969;40:24"},
		{"weaver_stoll", 55, 1.823e51, 39109.8, "the same"},
		{"takata", 48, 4.32e64, 50000, "Takata, Aerospace Medicine 1974;45:634"},
		{"takata", 55, 9.39e104, 80000, "the same"},
		{"mehta_wong", 55, 1.43e72, 55000, "Mehta and Wong 1973, MIT, Cambridge"},
		{"collagen", 70, math.Exp(130), 3.724e5 / 8.3145, "Maitland and Walsh, Lasers in Surgery and Medicine 1997;20:310"},
	} {
		const tS = 2.0
		physics := plain()
		physics.Damage, physics.Source, physics.AmbientC, physics.CoreC = c.set, "hemisphere", c.tempC, c.tempC
		layers := even(skin, 0.3)
		layers[0].Kind = "epidermis"
		a := solve(t, runFile{
			GridMM: 0.2, SizeMM: []float64{1.6, 1.6, 1.2}, Electrode: electrodeFile{RadiusMM: 0.3, Contact: "touch"},
			PowerW: 0, ActivationS: tS, Layers: layers, Physics: physics, Probes: onAxis(0.5), SampleS: []float64{tS},
		})
		want := math.Exp(math.Log(c.perS)-c.bK/(c.tempC+273.15)) * tS
		if a.Probes[0].Omega == nil || math.Abs(*a.Probes[0].Omega/want-1) > 0.02 {
			got := math.NaN()
			if a.Probes[0].Omega != nil {
				got = *a.Probes[0].Omega
			}
			t.Errorf("%s at %g C for %g s: omega %.4g, the published constants (%s) give %.4g", c.set, c.tempC, tS, got, c.publishedB, want)
		}
	}
}
