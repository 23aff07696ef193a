package check

import (
	"math"
	"testing"
	"time"
)

// BenchmarkAgainstElements is the coupled problem at equal error: this model at
// 0.1 mm in three dimensions on one core, and the elements, which need only the
// two dimensions of the cylinder, with the coarsest of a row of meshes and
// steps whose worst error at the probes is no larger. Errors are held against
// the elements on the fine mesh of the test, over the peak rise. The time of the
// elements is that of the whole program, with what it takes to begin.
func BenchmarkAgainstElements(b *testing.B) {
	f := coupledRun()
	f.GridMM = 0.1
	fine := coupledElements(b, f, coupledRadiusMM/100, 0.12, 0.005)
	worst := func(riseK func(sample, probe int) float64) float64 {
		off := 0.0
		for s := range f.SampleS {
			for p := range f.Probes {
				off = math.Max(off, math.Abs(riseK(s, p)-fine.riseK[s][p])/fine.peakK)
			}
		}
		return off
	}
	ours := answer{}
	start := time.Now()
	n := 0
	for b.Loop() {
		ours = solve(b, f)
		n++
	}
	oursS := time.Since(start).Seconds() / float64(n)
	oursOff := worst(func(s, p int) float64 { return ours.Probes[p].TempC[s] - 37 })
	b.ReportMetric(100*oursOff, "%-error")
	for _, try := range []struct{ fineMM, growth, dtS float64 }{
		{0.2, 0.6, 0.1}, {0.1, 0.5, 0.1}, {0.05, 0.4, 0.05}, {0.03, 0.3, 0.04}, {0.026, 0.28, 0.03}, {0.02, 0.25, 0.02}, {0.008, 0.16, 0.01},
	} {
		start := time.Now()
		el := coupledElements(b, f, try.fineMM, try.growth, try.dtS)
		took := time.Since(start).Seconds()
		off := worst(func(s, p int) float64 { return el.riseK[s][p] })
		b.Logf("elements, %g mm at the rim, %g s a step: %.2f %% in %.3g s; the model: %.2f %% in %.3g s", try.fineMM, try.dtS, 100*off, took, 100*oursOff, oursS)
		if off <= oursOff {
			b.ReportMetric(100*off, "%-error-of-elements")
			b.ReportMetric(oursS/took, "times-elements")
			return
		}
	}
	b.Error("none of the meshes of the elements comes as near as the model")
}
