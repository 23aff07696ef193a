package check

import (
	"context"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// freefem runs one of our scripts in the finite-element program FreeFem++
// (Hecht, Journal of Numerical Mathematics 2012;20:251) and reads what it
// prints: rises in K at every probe for each sample, first temperatures, and
// resistances. It shares neither grid nor code with the model.
type freefem struct {
	firstC [][]float64 // by sample, then probe
	riseK  [][]float64
	peakK  float64 // largest rise anywhere at any sample
	ohm    float64
	last   float64
}

func runFreefem(t testing.TB, script string, probes []probeFile, sampleS []float64, figures ...any) freefem {
	t.Helper()
	program := ""
	for _, name := range []string{"FreeFem++-nw", "FreeFem++"} {
		if path, err := exec.LookPath(name); err == nil {
			program = path
			break
		}
	}
	if program == "" {
		if _, err := exec.LookPath("apt-get"); err == nil {
			t.Fatal("FreeFem++ is not installed; run .ci/packages test")
		}
		t.Skip("FreeFem++ is not installed and this is not a Debian system")
	}
	args := []string{"-v", "0", "-nw", script}
	for i := 0; i < len(figures); i += 2 {
		args = append(args, "-"+figures[i].(string), fmt.Sprint(figures[i+1]))
	}
	list := func(name string, values []float64) {
		args = append(args, "-"+name, strconv.Itoa(len(values)))
		for _, v := range values {
			args = append(args, strconv.FormatFloat(v, 'g', -1, 64))
		}
	}
	var r, z []float64
	for _, p := range probes {
		r, z = append(r, p.XMM*1e-3), append(z, p.ZMM*1e-3)
	}
	list("probe_r", r)
	list("probe_z", z)
	list("sample", sampleS)
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Dir = "../../../testdata/freefem"
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", script, err, out)
	}
	f := freefem{firstC: table(len(sampleS), len(probes)), riseK: table(len(sampleS), len(probes))}
	seen := 0
	for line := range strings.Lines(string(out)) {
		var p, s int
		var first, rise float64
		if n, _ := fmt.Sscanf(line, "probe %d %d %g %g", &p, &s, &first, &rise); n == 4 {
			f.firstC[s][p], f.riseK[s][p] = first, rise
			seen++
		}
		if n, _ := fmt.Sscanf(line, "peak %g", &rise); n == 1 {
			f.peakK = math.Max(f.peakK, rise)
		}
		_, _ = fmt.Sscanf(line, "ohm %g", &f.ohm)
		_, _ = fmt.Sscanf(line, "last_ohm %g", &f.last)
	}
	if seen != len(sampleS)*len(probes) {
		t.Fatalf("%s printed %d of %d figures:\n%s", script, seen, len(sampleS)*len(probes), out)
	}
	return f
}

func table(rows, columns int) [][]float64 {
	out := make([][]float64, rows)
	for i := range out {
		out[i] = make([]float64, columns)
	}
	return out
}

// roundMM is the radius of the circle with the area of a square of 6.4 mm: the
// elements work in a cylinder, the model in a box, with the same condition on
// the far faces.
const roundMM = 3.611

// agree holds the model's rises at 0.1 and 0.05 mm against the elements: 5 and
// 3 % of the peak rise at every probe.
func agree(t *testing.T, want freefem, f runFile, firstC []float64) (last answer) {
	t.Helper()
	for _, g := range []struct{ mm, within float64 }{{0.1, 0.05}, {0.05, 0.03}} {
		f.GridMM = g.mm
		last = solve(t, f)
		off, note := 0.0, ""
		for s := range f.SampleS {
			for p := range f.Probes {
				got := last.Probes[p].TempC[s] - firstC[p]
				d := math.Abs(got-want.riseK[s][p]) / want.peakK
				if d > off {
					off, note = d, fmt.Sprintf("probe r %g z %g mm at %g s: %.4g K against %.4g K", f.Probes[p].XMM, f.Probes[p].ZMM, f.SampleS[s], got, want.riseK[s][p])
				}
			}
		}
		t.Logf("grid %g mm: worst difference %.2f %% of the peak rise %.4g K (%s)", g.mm, 100*off, want.peakK, note)
		if off > g.within || math.IsNaN(off) {
			t.Errorf("grid %g mm: %.2f %% of the peak rise apart, want within %g: %s", g.mm, 100*off, 100*g.within, note)
		}
	}
	return last
}

// same37 is a first temperature of 37 C at n probes.
func same37(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = 37
	}
	return out
}

// TestElementsThemselves holds the scripts against closed forms, so that an
// agreement of two wrong answers cannot pass.
func TestElementsThemselves(t *testing.T) {
	probes := []probeFile{{ZMM: 0.3}, {ZMM: 0.8}, {XMM: 0.6, ZMM: 0.1}}
	const a, pW, k, rhoc = 0.5, 0.3, 0.4, 3.5e6
	el := runFreefem(t, "disc.edp", probes, []float64{0.2}, "k1", k, "k2", k, "rhoc1", rhoc, "rhoc2", rhoc, "sigma1", 0.3, "sigma2", 0.3,
		"deep", 1e-3, "power", pW, "radius", a*1e-3, "wide", 20e-3, "bottom", 20e-3, "dt", 0.005)
	if want := spreadingOhm(0.3, a*1e-3); math.Abs(el.ohm/want-1) > 0.002 {
		t.Errorf("resistance %g ohm, the closed form gives %g", el.ohm, want)
	}
	same := runFreefem(t, "coupled.edp", probes, []float64{0.2}, "k", k, "rhoc", rhoc, "sigma", 0.3, "slope", 0,
		"power", pW, "radius", a*1e-3, "wide", 20e-3, "bottom", 20e-3, "dt", 0.02, "fine", a*1e-5, "growth", 0.16)
	for p := range probes {
		if math.Abs(same.riseK[0][p]/el.riseK[0][p]-1) > 0.01 {
			t.Errorf("coupled with no coupling, probe %d: rise %g K, the plain script gives %g", p, same.riseK[0][p], el.riseK[0][p])
		}
	}
	el = runFreefem(t, "perfusion.edp", probes, []float64{0.4}, "k", k, "rhoc", rhoc, "blood", 2e5, "h", 0, "ambient", 37, "core", 37,
		"power", pW, "radius", a*1e-3, "wide", 6.4e-3, "deep", 6.4e-3, "dt", 0.005)
	l := line{radial: true, drM: 10e-6, n: 640, wet: medium{kWmK: k, rhoCJm3: rhoc}, firstC: 37, bloodW: 2e5, sourceW: inverseFourth(pW, a*1e-3)}
	l.start()
	l.run(0.4)
	for p, at := range probes {
		want := l.at(math.Hypot(at.XMM, at.ZMM)*1e-3) - 37
		if math.Abs(el.riseK[0][p]/want-1) > 0.01 {
			t.Errorf("perfusion, probe %d: rise %g K, the radial line gives %g", p, el.riseK[0][p], want)
		}
	}
	// The perfused slab at rest, in one dimension.
	el = runFreefem(t, "perfusion.edp", probes, []float64{0.01}, "k", k, "rhoc", rhoc, "blood", 2e5, "h", 50, "ambient", 5, "core", 37,
		"power", 0, "radius", a*1e-3, "wide", 3e-3, "deep", 3.2e-3, "dt", 0.005)
	for p, at := range probes {
		want := pennesC(k, 2e5, 3.2e-3, 50, 5, 37, at.ZMM*1e-3)
		if math.Abs(el.firstC[0][p]-want) > 0.01 {
			t.Errorf("at rest, probe %d: %g C, the closed form gives %g", p, el.firstC[0][p], want)
		}
	}
}

// TestElementsPerfusion: conduction with perfusion and a surface that cools.
func TestElementsPerfusion(t *testing.T) {
	const k, rhoc, perfusion, blood, h, ambient, core, pW, aMM, deep = 0.4, 3.5e6, 0.05, 3.8e6, 50.0, 22.0, 37.0, 1.5, 0.8, 3.2
	f := runFile{
		SizeMM: []float64{6.4, 6.4, deep}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
		PowerW: pW, ActivationS: 1, Layers: even(medium{kWmK: k, rhoCJm3: rhoc}, 0.3), Physics: plain(),
		Probes:  []probeFile{{ZMM: 0.2}, {ZMM: 0.5}, {ZMM: 0.8}, {ZMM: 1.2}, {XMM: 0.8, ZMM: 0.2}, {XMM: 0.7, ZMM: 0.7}, {XMM: 1.4, ZMM: 0.1}},
		SampleS: []float64{0.2, 1},
	}
	f.Layers[0].Perfusion1S = perfusion
	f.Physics.Source, f.Physics.SurfaceHWm2K, f.Physics.AmbientC, f.Physics.CoreC, f.Physics.BloodRhoCJm3K = "hemisphere", h, ambient, core, blood
	el := runFreefem(t, "perfusion.edp", f.Probes, f.SampleS, "k", k, "rhoc", rhoc, "blood", perfusion*blood, "h", h, "ambient", ambient, "core", core,
		"power", pW, "radius", aMM*1e-3, "wide", roundMM*1e-3, "deep", deep*1e-3, "dt", 0.005)
	agree(t, el, f, el.firstC[0])
}

// TestElementsTwoLayers: a disc on dermis over fat.
func TestElementsTwoLayers(t *testing.T) {
	const k1, k2, rhoc1, rhoc2, sigma1, sigma2, deep, pW, aMM = 0.4, 0.2, 3.5e6, 2.2e6, 0.3, 0.035, 1.0, 0.4, 0.8
	f := runFile{
		SizeMM: []float64{6.4, 6.4, 3.2}, Electrode: electrodeFile{RadiusMM: aMM, Contact: "touch"},
		PowerW: pW, ActivationS: 1, Physics: plain(),
		Probes:  []probeFile{{ZMM: 0.15}, {ZMM: 0.4}, {ZMM: 0.8}, {ZMM: 1.2}, {XMM: 0.8, ZMM: 0.25}, {XMM: 1.1, ZMM: 0.15}, {XMM: 1.1, ZMM: 0.6}},
		SampleS: []float64{0.2, 1},
	}
	f.Layers = append(even(medium{k1, rhoc1}, sigma1), even(medium{k2, rhoc2}, sigma2)...)
	f.Layers[0].ThicknessMM = deep
	el := runFreefem(t, "disc.edp", f.Probes, f.SampleS, "k1", k1, "k2", k2, "rhoc1", rhoc1, "rhoc2", rhoc2, "sigma1", sigma1, "sigma2", sigma2,
		"deep", deep*1e-3, "power", pW, "radius", aMM*1e-3, "wide", roundMM*1e-3, "bottom", 3.2e-3, "dt", 0.005)
	a := agree(t, el, f, same37(len(f.Probes)))
	sameOhm(t, "two layers", a.Impedance.First, el.ohm, 0.05)
	// The same in a patch of the default size against nearly endless layers.
	// The open condition is exact for even tissue only: over fat the current
	// spreads sideways beyond the patch, which the condition sees too well.
	endless := runFreefem(t, "disc.edp", f.Probes, f.SampleS, "k1", k1, "k2", k2, "rhoc1", rhoc1, "rhoc2", rhoc2, "sigma1", sigma1, "sigma2", sigma2,
		"deep", deep*1e-3, "power", pW, "radius", aMM*1e-3, "wide", 60e-3, "bottom", 60e-3, "dt", 0.1)
	f.GridMM, f.SizeMM, f.ActivationS, f.Probes, f.SampleS = 0.1, []float64{12.8, 12.8, 4.8}, 0.002, nil, nil
	sameOhm(t, "two layers, default patch against endless layers", solve(t, f).Impedance.First, endless.ohm, 0.08)
}

// The coupled problem: a second of heating with conductivity that rises by 2 %
// a kelvin, at steady power, in a box of the area of the cylinder.
const (
	coupledK, coupledRhoC, coupledSigma, coupledSlope = 0.4, 3.5e6, 0.3, 0.02
	coupledPowerW, coupledRadiusMM                    = 0.5, 0.8
)

func coupledRun() runFile {
	f := runFile{
		SizeMM: []float64{6.4, 6.4, 3.2}, Electrode: electrodeFile{RadiusMM: coupledRadiusMM, Contact: "touch"},
		PowerW: coupledPowerW, ActivationS: 1, Layers: even(medium{coupledK, coupledRhoC}, coupledSigma), Physics: plain(),
		Probes:  []probeFile{{ZMM: 0.15}, {ZMM: 0.4}, {ZMM: 0.8}, {XMM: 0.8, ZMM: 0.25}, {XMM: 1.1, ZMM: 0.15}, {XMM: 1.1, ZMM: 0.6}},
		SampleS: []float64{0.2, 1},
	}
	f.Physics.SigmaOfTemperature = true
	return f
}

// coupledElements solves it with triangles of edge fineMM at the disc's rim,
// growing by growth of the distance from it, in steps of dtS.
func coupledElements(t testing.TB, f runFile, fineMM, growth, dtS float64) freefem {
	return runFreefem(t, "coupled.edp", f.Probes, f.SampleS, "k", coupledK, "rhoc", coupledRhoC, "sigma", coupledSigma, "slope", coupledSlope,
		"power", coupledPowerW, "radius", coupledRadiusMM*1e-3, "wide", roundMM*1e-3, "bottom", 3.2e-3, "dt", dtS, "fine", fineMM*1e-3, "growth", growth)
}

// TestElementsCoupled holds the model against the elements on the coupled
// problem.
func TestElementsCoupled(t *testing.T) {
	f := coupledRun()
	el := coupledElements(t, f, coupledRadiusMM/100, 0.16, 0.01)
	a := agree(t, el, f, same37(len(f.Probes)))
	sameOhm(t, "coupled, first", a.Impedance.First, el.ohm, 0.05)
	sameOhm(t, "coupled, last", a.Impedance.Last, el.last, 0.05)
}

func sameOhm(t *testing.T, name string, got *float64, want, within float64) {
	t.Helper()
	if got == nil {
		t.Fatalf("%s: the answer holds no impedance", name)
	}
	t.Logf("%s: %.4g ohm against %.4g, %+.2f %%", name, *got, want, 100*(*got/want-1))
	if math.Abs(*got/want-1) > within {
		t.Errorf("%s: %g ohm, the elements give %g; want within %g", name, *got, want, within)
	}
}
