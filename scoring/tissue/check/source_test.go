package check

import (
	"math"
	"testing"
)

// TestInverseFourth is the hemispherical source P a/(2 pi r^4) against the
// fine radial line: within 5 % at 6 voxels a radius, within 2 % at 16. The
// source leaps at its radius, so the order asked is 0.8.
func TestInverseFourth(t *testing.T) {
	const pW, aMM, tS = 1.0, 0.8, 0.3
	l := line{radial: true, drM: 10e-6, n: 640, wet: skin, firstC: 37, sourceW: inverseFourth(pW, aMM*1e-3)}
	l.start()
	l.run(tS)
	probes := []probeFile{{ZMM: 0.4}, {ZMM: 0.8}, {ZMM: 1}, {ZMM: 1.4}, {XMM: 0.6, ZMM: 0.6}, {XMM: 0.9, ZMM: 0.1}, {XMM: 0.6, YMM: 0.6, ZMM: 0.6}}
	var want []float64
	for _, p := range probes {
		want = append(want, l.at(1e-3*math.Sqrt(p.XMM*p.XMM+p.YMM*p.YMM+p.ZMM*p.ZMM))-37)
	}
	physics := plain()
	physics.Source = "hemisphere"
	run := func(h float64) []float64 {
		return rises(solve(t, runFile{
			GridMM: h, SizeMM: []float64{6.4, 6.4, 3.2}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: pW, ActivationS: tS, Layers: even(skin, 0.3), Physics: physics, Probes: probes, SampleS: []float64{tS},
		}), 0)
	}
	worst(t, "6 voxels a radius", run(aMM/6), want, 0.05)
	hs := grids(0.2, 0.1, 0.05)
	var errs, got []float64
	for _, h := range hs {
		got = run(h)
		errs = append(errs, norm(got, want))
	}
	worst(t, "16 voxels a radius or more", got, want, 0.02)
	converges(t, hs, errs, 0.8, 5e-4)
}

// TestSpreadingResistance is the resistance of a disc on a half-space, rho/4a
// (Holm, Electric Contacts, Springer, Berlin 1967). The field is singular at
// the rim.
func TestSpreadingResistance(t *testing.T) {
	const sigma, aMM = 0.3, 0.4
	want := spreadingOhm(sigma, aMM*1e-3)
	run := func(voxels float64, sizeMM ...float64) float64 {
		a := solve(t, runFile{
			GridMM: aMM / voxels, SizeMM: sizeMM, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: 0.01, ActivationS: 0.002, Layers: even(skin, sigma), Physics: plain(),
		})
		if a.Impedance == nil || a.Impedance.First == nil {
			t.Fatal("the answer holds no impedance")
		}
		return *a.Impedance.First
	}
	at6 := run(6, 4, 4, 2)/want - 1
	t.Logf("6 voxels a radius: %+.2f %%", 100*at6)
	if math.Abs(at6) > 0.05 {
		t.Errorf("at 6 voxels a radius the resistance is off by %+.2f %%, want within 5", 100*at6)
	}
	voxels := []float64{4, 8, 16}
	var hs, errs []float64
	for _, n := range voxels {
		hs, errs = append(hs, aMM/n), append(errs, run(n, 4, 4, 2)/want-1)
	}
	if last := errs[len(errs)-1]; math.Abs(last) > 0.02 {
		t.Errorf("at 16 voxels a radius the resistance is off by %+.2f %%, want within 2", 100*last)
	}
	converges(t, hs, errs, 0.8, 3e-3)
	// The open far field must make the size of the patch matter little.
	small, large := run(6, 2.4, 2.4, 1.2), run(6, 6.4, 6.4, 3.2)
	t.Logf("patch of 2.4 mm against 6.4 mm: %+.2f %%", 100*(small/large-1))
	if math.Abs(small/large-1) > 0.02 {
		t.Errorf("a patch of 2.4 mm gives %.4g ohm and one of 6.4 mm %.4g; they must agree within 2 %%", small, large)
	}
}
