package check

import (
	"math"
	"testing"
)

// converges prints the errors of a row of halved grids and holds the order
// between neighbours against least. Errors under floor are at the end of what
// single precision and the time step leave, and are not asked for an order.
func converges(t *testing.T, gridsMM, errs []float64, least, floor float64) {
	t.Helper()
	o := orders(errs)
	t.Logf("grids %v mm: errors %.3g of the largest value, orders %.2f", gridsMM, errs, o)
	for i, order := range o {
		if order < least && math.Abs(errs[i+1]) > floor {
			t.Errorf("from %g to %g mm the error goes from %.3g to %.3g: order %.2f, want at least %g", gridsMM[i], gridsMM[i+1], errs[i], errs[i+1], order, least)
		}
	}
}

// onAxis are probes on the axis at these depths.
func onAxis(depthsMM ...float64) []probeFile {
	var p []probeFile
	for _, z := range depthsMM {
		p = append(p, probeFile{ZMM: z})
	}
	return p
}

// rises are the rises over 37 C at one sample.
func rises(a answer, sample int) []float64 {
	var r []float64
	for _, p := range a.Probes {
		r = append(r, p.TempC[sample]-37)
	}
	return r
}

// TestSurfaceFlux is the half-space under an even flux (Carslaw and Jaeger,
// Conduction of Heat in Solids, Oxford 1959, section 2.9): a smooth case. The
// flux enters through a disc so wide that its rim is not felt on the axis.
func TestSurfaceFlux(t *testing.T) {
	const powerW, aM, tS = 1.25, 2e-3, 0.5
	depths := []float64{0.2, 0.4, 0.6}
	hs := grids(0.2, 0.1, 0.05)
	var errs []float64
	for _, h := range hs {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{4.8, 4.8, 2.4}, Electrode: electrodeFile{RadiusMM: aM * 1e3, Contact: "touch"},
			PowerW: powerW, ActivationS: tS, Layers: sheeted(skin, h), Physics: plain(),
			Probes: onAxis(depths...), SampleS: []float64{tS},
		})
		r := flux(t, a, h)
		var want []float64
		for _, z := range depths {
			want = append(want, halfSpaceFluxK(skin, powerW/(math.Pi*r*r), z*1e-3, tS))
		}
		errs = append(errs, norm(rises(a, 0), want))
	}
	converges(t, hs, errs, 1.8, 1e-3)
	if last := errs[len(errs)-1]; last > 0.01 {
		t.Errorf("on the finest grid the error is %.3g of the largest rise, want at most 0.01", last)
	}
}

// TestDiscSource is an even flux through a disc on a half-space (Carslaw and
// Jaeger 1959, section 10.5), singular at the rim: within 5 % at 6 voxels a
// radius, within 2 % at 16.
func TestDiscSource(t *testing.T) {
	const pW, aMM, tS = 0.3, 0.8, 0.6
	probes := []probeFile{{ZMM: 0.2}, {ZMM: 0.4}, {ZMM: 0.8}, {ZMM: 1.2}, {XMM: 0.8, ZMM: 0.2}, {XMM: 0.8, ZMM: 0.4}, {XMM: 1.2, ZMM: 0.2}, {XMM: 0.4, YMM: 0.4, ZMM: 0.4}}
	run := func(h float64) (got, want []float64) {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{6.4, 6.4, 3.2}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: pW, ActivationS: tS, Layers: sheeted(skin, h), Physics: plain(), Probes: probes, SampleS: []float64{tS},
		})
		r := flux(t, a, h)
		for _, p := range probes {
			want = append(want, discFluxK(skin, pW/(math.Pi*r*r), r, math.Hypot(p.XMM, p.YMM)*1e-3, p.ZMM*1e-3, tS))
		}
		return rises(a, 0), want
	}
	got, want := run(aMM / 6)
	worst(t, "6 voxels a radius", got, want, 0.05)
	hs := grids(0.2, 0.1, 0.05)
	var errs []float64
	for _, h := range hs {
		got, want = run(h)
		errs = append(errs, norm(got, want))
	}
	worst(t, "16 voxels a radius or more", got, want, 0.02)
	converges(t, hs, errs, 0.8, 5e-4)
}

// flux is the disc through which the heat of a sheeted run enters: as wide as
// the sheet's resistance says. It is a little wider than the tip, by a part of
// a voxel, since some current creeps sideways in the sheet at the rim, and
// since a model may widen its tip to meet the spreading resistance on a grid.
// The excess must shrink with the grid: TestSheetIsTheTip.
func flux(t *testing.T, a answer, gridMM float64) (radiusM float64) {
	t.Helper()
	if a.Impedance == nil || a.Impedance.First == nil {
		t.Fatal("the answer holds no impedance")
	}
	return math.Sqrt(gridMM * 1e-3 / (math.Pi * sheetSm * *a.Impedance.First))
}

// TestSheetIsTheTip: the disc of heat under a resistive sheet becomes the tip
// as the grid is refined.
func TestSheetIsTheTip(t *testing.T) {
	hs := grids(0.2, 0.1, 0.05)
	var errs []float64
	for _, h := range hs {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{4, 4, 2}, Electrode: electrodeFile{RadiusMM: 0.8, Contact: "touch"},
			PowerW: 0.1, ActivationS: 0.002, Layers: sheeted(skin, h), Physics: plain(),
		})
		errs = append(errs, flux(t, a, h)*1e3/0.8-1)
	}
	converges(t, hs, errs, 0.8, 1e-3)
	if last := errs[len(errs)-1]; math.Abs(last) > 0.05 {
		t.Errorf("at 16 voxels a radius the tip's heat enters through a disc %+.1f %% too wide, want within 5", 100*last)
	}
}

// worst prints and judges the largest difference over the largest value.
func worst(t *testing.T, name string, got, want []float64, within float64) {
	t.Helper()
	top, off, at := 0.0, 0.0, 0
	for _, w := range want {
		top = math.Max(top, math.Abs(w))
	}
	for i := range got {
		if d := math.Abs(got[i] - want[i]); d > off {
			off, at = d, i
		}
	}
	t.Logf("%s: worst difference %.3g of the largest value (probe %d: %.4g, want %.4g)", name, off/top, at, got[at], want[at])
	if off > within*top {
		t.Errorf("%s: probe %d is %.4g, want %.4g within %g of the largest value %.4g", name, at, got[at], want[at], within, top)
	}
}

// TestContinuousPoint is a steady point source on a half-space (Carslaw and
// Jaeger 1959, section 10.4). A small disc stands for the point: the order is
// asked against the disc, 2 % against the point. The probes lie where the
// second Legendre polynomial is nought, where the two are nearly the same.
func TestContinuousPoint(t *testing.T) {
	const pW, tS, aMM = 0.1, 3.0, 0.2
	cos := math.Sqrt(1.0 / 3)
	sin := math.Sqrt(2.0 / 3)
	var probes []probeFile
	var point []float64
	for _, r := range []float64{0.8, 1, 1.2, 1.6} {
		probes = append(probes, probeFile{XMM: r * sin, ZMM: r * cos})
		point = append(point, steadyPointK(skin, pW, r*1e-3, tS))
	}
	hs := grids(0.2, 0.1, 0.05)
	var errs, got []float64
	for _, h := range hs {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{6.4, 6.4, 3.2}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: pW, ActivationS: tS, Layers: sheeted(skin, h), Physics: plain(), Probes: probes, SampleS: []float64{tS},
		})
		got = rises(a, 0)
		r := flux(t, a, h)
		var disc []float64
		for _, p := range probes {
			disc = append(disc, discFluxK(skin, pW/(math.Pi*r*r), r, p.XMM*1e-3, p.ZMM*1e-3, tS))
		}
		errs = append(errs, norm(got, disc))
	}
	worst(t, "point source, finest grid", got, point, 0.02)
	converges(t, hs, errs, 0.8, 5e-3)
}

// TestSuddenDisc is heat set free at once at the surface (Carslaw and Jaeger
// 1959, sections 10.2 and 10.3): a disc of 0.2 mm, and far below it a point.
func TestSuddenDisc(t *testing.T) {
	const pW, pulseS, tS, aMM = 2.0, 0.05, 1.0, 0.2
	depths := []float64{0.2, 0.4, 0.6, 1}
	var point []float64
	for _, z := range depths {
		point = append(point, instantPointK(skin, pW*pulseS, z*1e-3, tS-pulseS/2))
	}
	hs := grids(0.2, 0.1, 0.05)
	var errs, got, want []float64
	for _, h := range hs {
		a := solve(t, runFile{
			GridMM: h, SizeMM: []float64{6.4, 6.4, 3.2}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
			PowerW: pW, ActivationS: pulseS, CoolS: tS - pulseS, Layers: sheeted(skin, h), Physics: plain(), Probes: onAxis(depths...), SampleS: []float64{tS},
		})
		got, want = rises(a, 0), nil
		for _, z := range depths {
			sum := 0.0
			const n = 100
			for i := range n { // the pulse is short, yet not a moment
				sum += instantDiscAxisK(skin, pW*pulseS/n, flux(t, a, h), z*1e-3, tS-(float64(i)+0.5)/n*pulseS)
			}
			want = append(want, sum)
		}
		errs = append(errs, norm(got, want))
	}
	worst(t, "sudden disc, finest grid", got, want, 0.02)
	worst(t, "as a point, finest grid", got, point, 0.08) // 1 - a^2/(8 alpha t) is 0.95
	converges(t, hs, errs, 0.8, 2e-3)
}

// TestPerfusedSlab is the steady state of Pennes' equation in one dimension
// (Journal of Applied Physiology 1948;1:93): the temperature a run starts
// from, and must keep while nothing heats it.
func TestPerfusedSlab(t *testing.T) {
	const k, perfusion, blood, deepMM, h, ambient, core = 0.4, 0.05, 3.8e6, 4.8, 200, 5.0, 37.0
	depths := []float64{0, 0.4, 0.8, 1.6, 3.2}
	var want []float64
	for _, z := range depths {
		want = append(want, pennesC(k, perfusion*blood, deepMM*1e-3, h, ambient, core, z*1e-3)-core)
	}
	layers := even(medium{kWmK: k, rhoCJm3: 3.5e6}, 0.3)
	layers[0].Perfusion1S = perfusion
	physics := plain()
	physics.Source, physics.SurfaceHWm2K, physics.AmbientC, physics.CoreC = "hemisphere", h, ambient, core
	hs := grids(0.4, 0.2, 0.1)
	var errs []float64
	for _, grid := range hs {
		a := solve(t, runFile{
			GridMM: grid, SizeMM: []float64{2.4, 2.4, deepMM}, Electrode: electrodeFile{RadiusMM: 0.5, Contact: "touch"},
			PowerW: 0, ActivationS: 0.05, CoolS: 2, Layers: layers, Physics: physics, Probes: onAxis(depths...), SampleS: []float64{0, 2},
		})
		errs = append(errs, norm(rises(a, 0), want))
		for i, p := range a.Probes {
			if drift := math.Abs(p.TempC[1] - p.TempC[0]); drift > 1e-3 {
				t.Errorf("grid %g mm, depth %g mm: drifts by %.3g K in 2 s with no power", grid, depths[i], drift)
			}
		}
	}
	converges(t, hs, errs, 1.8, 1e-5)
}
