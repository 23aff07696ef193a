package check

import (
	"math"
	"testing"
)

// TestDryingFront is a front that the source alone drives, since next to no
// heat is conducted: every place dries when it has been given the heat to boil
// and nine tenths of its latent heat. Boiling at 100 C, 2.257 MJ/kg.
func TestDryingFront(t *testing.T) {
	const pW, aMM, tS = 500.0, 0.4, 0.022
	const rho, c, water = 1100.0, 3400.0, 0.65
	drying := rho*c*(100-37) + 0.9*rho*water*2.257e6
	front := localFrontM(pW, aMM*1e-3, drying, tS) * 1e3
	volume := 2 * math.Pi / 3 * (math.Pow(front, 3) - math.Pow(aMM, 3))
	physics := plain()
	physics.Source, physics.Vaporise = "hemisphere", true
	layer := layerFile{Name: "even", ThicknessMM: 100, KWmK: 0.001, RhoKgM3: rho, CJKgK: c, SigmaSm: 0.3, Water: water}
	hs := grids(0.1, 0.05, 0.025)
	var errs []float64
	for _, h := range hs {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{3.2, 3.2, 1.6}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: pW, ActivationS: tS, Layers: []layerFile{layer}, Physics: physics,
		})
		if a.Dried == nil {
			t.Fatal("the answer holds no dried tissue")
		}
		t.Logf("grid %g mm: dried to %.3f mm, %.4f mm3; the source alone gives %.3f mm and %.4f mm3", h, a.Dried.DepthMM, a.Dried.VolumeMM3, front, volume)
		if math.Abs(a.Dried.DepthMM-front) > 1.2*h {
			t.Errorf("grid %g mm: the front stands at %.3f mm, want %.3f within a voxel", h, a.Dried.DepthMM, front)
		}
		errs = append(errs, a.Dried.VolumeMM3/volume-1)
	}
	converges(t, hs, errs, 0.8, 0.02)
	if last := errs[len(errs)-1]; math.Abs(last) > 0.05 {
		t.Errorf("on the finest grid the dried volume is off by %+.1f %%, want within 5", 100*last)
	}
}

// TestDryingWithConduction is the same source in skin that conducts: the front
// and the temperatures on both sides of it against the fine radial line, which
// is itself held against the front of Neumann and Stefan (Carslaw and Jaeger
// 1959, section 11.2). The line takes the model's stated law for dried tissue:
// its water gone with its heat, 0.2 W/(m K), straight between.
func TestDryingWithConduction(t *testing.T) {
	const pW, aMM, tS = 10.0, 0.4, 0.3
	const k, rho, c, water = 0.4, 1100.0, 3400.0, 0.65
	l := line{
		radial: true, drM: 5e-6, n: 640, firstC: 37, boilC: 100, latJm3: rho * water * 2.257e6,
		wet: medium{kWmK: k, rhoCJm3: rho * c}, dry: medium{kWmK: 0.2, rhoCJm3: rho * (c - 4200*water)}, sourceW: inverseFourth(pW, aMM*1e-3),
	}
	l.start()
	l.run(tS)
	var want []float64
	probes := []probeFile{{ZMM: 0.2}, {ZMM: 0.6}, {ZMM: 0.8}, {ZMM: 1}, {XMM: 0.7, ZMM: 0.7}, {ZMM: 1.1}}
	for _, p := range probes {
		want = append(want, l.at(math.Hypot(p.XMM, p.ZMM)*1e-3)-37)
	}
	steamM3, front := 0.0, 0.0
	for i := range l.n {
		steamM3 += l.volM3[i] * (1 - l.wetness(i))
		if l.wetness(i) < 0.1 {
			front = float64(i+1) * l.drM * 1e3
		}
	}
	// The steam takes its latent heat and the heat of the water at 100 C.
	latent := steamM3 * (l.latJm3 + (l.wet.rhoCJm3-l.dry.rhoCJm3)*(100-37))
	physics := plain()
	physics.Source, physics.Vaporise = "hemisphere", true
	layer := layerFile{Name: "even", ThicknessMM: 100, KWmK: k, RhoKgM3: rho, CJKgK: c, SigmaSm: 0.3, Water: water}
	hs := grids(0.1, 0.05)
	var errs, latents, got []float64
	for _, h := range hs {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{3.2, 3.2, 1.6}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: pW, ActivationS: tS, Layers: []layerFile{layer}, Physics: physics, Probes: probes, SampleS: []float64{tS},
		})
		got = rises(a, 0)
		errs, latents = append(errs, norm(got, want)), append(latents, a.Balance.LatentJ/latent-1)
		t.Logf("grid %g mm: dried to %.3f mm, the line %.3f; steam took %.4f J, the line %.4f; rises %.4g, the line %.4g", h, a.Dried.DepthMM, front, a.Balance.LatentJ, latent, got, want)
		if math.Abs(a.Dried.DepthMM-front) > 1.2*h {
			t.Errorf("grid %g mm: dried to %.3f mm, want %.3f within a voxel", h, a.Dried.DepthMM, front)
		}
	}
	t.Log("steam:")
	converges(t, hs, latents, 0.8, 0.01)
	t.Log("temperatures:")
	converges(t, hs, errs, 0.8, 0.015)
	worst(t, "finest grid", got, want, 0.05)
}
