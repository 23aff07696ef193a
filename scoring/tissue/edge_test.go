package tissue

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
)

// TestAnyRun looks for a panic or a figure that is none, on small runs of
// every family and site, with tips of any size anywhere on the patch.
func TestAnyRun(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		size := func(name string) float64 { return rapid.SampledFrom([]float64{1, 2.2, 5, 9.7, 17}).Draw(r, name) }
		s := &RunSpec{
			GridMM: rapid.SampledFrom([]float64{0.1, 0.25, 0.37}).Draw(r, "grid"), PowerW: rapid.Float64Range(0, 40).Draw(r, "power"), ActivationS: 0.02, CoolS: 0.01,
			Output: rapid.SampledFrom([]string{"low", "high"}).Draw(r, "output"), Site: rapid.SampledFrom(cases.Vocab.IDs("site")).Draw(r, "site"),
			Physics: DefaultPhysics(), Seed: 3, Workers: rapid.IntRange(1, 3).Draw(r, "workers"), FaintKs: rapid.SampledFrom([]float64{0, 1}).Draw(r, "faint"),
		}
		s.SizeMM = [3]float64{size("x"), size("y"), rapid.SampledFrom([]float64{0.8, 3, 4.8}).Draw(r, "z")}
		s.Electrode.RadiusMM = rapid.SampledFrom([]float64{0.01, 0.15, 0.5, 3, 20}).Draw(r, "radius")
		if s.Electrode.Gap = rapid.Bool().Draw(r, "gap"); s.Electrode.Gap {
			s.Electrode.GapMM = rapid.Float64Range(0, 2).Draw(r, "gap_mm")
		}
		at := func(name string, mm float64) float64 { return rapid.Float64Range(-mm/2, mm/2).Draw(r, name) }
		s.Path = []PathPoint{{0, at("ax", s.SizeMM[0]), at("ay", s.SizeMM[1]), false, s.Electrode.GapMM}, {0.02, at("bx", s.SizeMM[0]), at("by", s.SizeMM[1]), false, s.Electrode.GapMM}}
		if rapid.Bool().Draw(r, "lesion") {
			s.Lesion = &LesionSpec{rapid.SampledFrom(cases.Vocab.IDs("family")).Draw(r, "family"), rapid.Float64Range(0.1, 9).Draw(r, "width"), rapid.Float64Range(0, 5).Draw(r, "height"), rapid.Float64Range(0.01, 4).Draw(r, "depth")}
		}
		out, err := Run(s)
		if err != nil {
			r.Fatal(err)
		}
		for _, v := range []float64{out.EnergyJ, out.DeliveredW, out.Balance.InJ, out.Balance.StoredJ, out.Balance.LatentJ, out.Balance.SurfaceJ, out.Balance.FarJ} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				r.Fatalf("a figure is none: %+v", out)
			}
		}
		if out.EnergyJ > s.PowerW*s.ActivationS*1.0001 {
			r.Fatalf("%v J passed the tip, more than the dial's %v", out.EnergyJ, s.PowerW*s.ActivationS)
		}
	})
}
