package tissue

import (
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"
)

// loadRun is the run of testdata/bench-load as the bench would make it.
func loadRun(b *testing.B, workers int) *run {
	b.Helper()
	data, err := os.ReadFile("../../testdata/bench-load/run.json")
	if err != nil {
		b.Fatal(err)
	}
	spec, err := ReadRun("run.json", data)
	if err != nil {
		b.Fatal(err)
	}
	spec.FaintKs, spec.Workers = benchFaintKs, workers
	r, err := newRun(spec)
	if err != nil {
		b.Fatal(err)
	}
	f := r.source.(*field)
	f.tolerance, f.stepS = benchTolerance, benchSolveS
	return r
}

// BenchmarkLoad is wall over simulated time of testdata/bench-load from rest,
// 7 W for 2 s on a curetted base, and the longest 16 ms of it.
func BenchmarkLoad(b *testing.B) {
	for _, workers := range []int{1, 2} {
		b.Run(map[int]string{1: "one worker", 2: "two workers"}[workers], func(b *testing.B) {
			worst, total, simulated := time.Duration(0), time.Duration(0), 0.0
			for b.Loop() {
				b.StopTimer()
				r := loadRun(b, workers)
				b.StartTimer()
				for k := range 125 {
					start := time.Now()
					r.marchTo(float64(k)*0.016, float64(k+1)*0.016)
					d := time.Since(start)
					worst, total = max(worst, d), total+d
				}
				simulated += 2
			}
			b.ReportMetric(total.Seconds()/simulated, "wall/simulated")
			b.ReportMetric(float64(worst.Microseconds())/1000, "ms/worst-16ms")
		})
	}
}

// BenchmarkTreatment is the same through the bench's own way in: 7 W for a second
// on a patch with a lesion, and on one that blood lies on, which asks for shorter
// steps.
func BenchmarkTreatment(b *testing.B) {
	for _, name := range []string{"dry", "bloody"} {
		b.Run(name, func(b *testing.B) {
			worst, total, n := time.Duration(0), time.Duration(0), 0
			for b.Loop() {
				b.StopTimer()
				t, err := New("cheek", &LesionSpec{"cherry_angioma", 3, 1, 0.5}, Options{Workers: 2, WetMM: 0.5})
				if err != nil {
					b.Fatal(err)
				}
				if name == "bloody" {
					t.Flood(Spot{XMM: 4, RadiusMM: 1}, "blood", 0.3)
				}
				t.Take(Tool{RadiusMM: 0.25, Output: "low", PowerW: 7})
				b.StartTimer()
				for range 62 {
					start := time.Now()
					t.Step(Pose{}, true, 16)
					d := time.Since(start)
					worst, total = max(worst, d), total+d
				}
				n += 62
			}
			b.ReportMetric(total.Seconds()/(float64(n)*0.016), "wall/simulated")
			b.ReportMetric(float64(worst.Microseconds())/1000, "ms/worst-16ms")
		})
	}
}

// BenchmarkField is one solution of the field that starts from nought.
func BenchmarkField(b *testing.B) {
	r := loadRun(b, 1)
	r.marchTo(0, 0.3)
	f := r.source.(*field)
	for b.Loop() {
		clear(f.phi)
		f.grid.solve(f.phi, f.right, benchTolerance, 60)
	}
}

// BenchmarkStencil holds the march of heat against the same stencil in C,
// built here by gcc -O3 -march=native: 128 by 128 by 48 voxels, the best of
// many on one core. It reports the time a voxel, the ratio to C, and the
// traffic with the memory that the march makes.
func BenchmarkStencil(b *testing.B) {
	const nx, ny, nz, row = 128, 128, 48, 130
	const plane = row * (ny + 2)
	inC := stencilInC(b)
	random := func(v float32) []float32 {
		s := make([]float32, plane*(nz+2))
		for i := range s {
			s[i] = v + 1e-4*float32(i%97)
		}
		return s
	}
	s := stencil{gx: random(0.1), gy: random(0.1), gz: random(0.1), loss: random(0.01), gain: random(0), weight: random(1), rowStep: row, planeStep: plane}
	u, to := random(1), random(1)
	all := block{first: plane + row + 1, nx: nx, ny: ny, nz: nz}
	var l lanes
	for _, c := range []struct {
		name   string
		inC    float64
		arrays float64 // read or written once a voxel
		march  func()
	}{
		{"every voxel its own", inC[0], 9, func() { s.march(to, u, 0.1, all, &l) }},
		{"planes all alike", inC[1], 2, func() {
			even := s
			even.gain = nil
			for z := range nz {
				p := block{first: all.first + z*plane, nx: nx, ny: ny, nz: 1}
				even.marchLayer(to, u, 0.1, p, layerFlow{0.1, 0.1, 0.1, 0.01, 1}, &l)
			}
		}},
	} {
		b.Run(c.name, func(b *testing.B) {
			best := time.Duration(1 << 62)
			for b.Loop() {
				start := time.Now()
				c.march()
				best = min(best, time.Since(start))
				u, to = to, u
			}
			const voxels = nx * ny * nz
			b.ReportMetric(float64(best.Nanoseconds())/voxels, "ns/voxel")
			b.ReportMetric(best.Seconds()/c.inC, "times-C")
			b.ReportMetric(4*c.arrays*voxels/best.Seconds()/1e9, "GB/s")
			b.ReportMetric(4*c.arrays*voxels/best.Seconds()/1e9/inC[2], "of-triad")
		})
	}
}

// stencilInC builds and runs testdata/stencil.c; it returns the seconds of one
// march for voxels that differ and for voxels all alike, and the GB/s of a
// triad.
func stencilInC(b *testing.B) [3]float64 {
	b.Helper()
	gcc, err := exec.LookPath("gcc")
	if err != nil {
		b.Skip("gcc is not installed")
	}
	program := b.TempDir() + "/stencil"
	if out, err := exec.Command(gcc, "-O3", "-march=native", "-o", program, "testdata/stencil.c").CombinedOutput(); err != nil {
		b.Fatalf("gcc: %v\n%s", err, out)
	}
	out, err := exec.Command(program, "60").Output()
	if err != nil {
		b.Fatal(err)
	}
	var s [3]float64
	if _, err := fmt.Sscan(string(out), &s[0], &s[1], &s[2]); err != nil {
		b.Fatalf("the C program printed %q: %v", out, err)
	}
	return s
}

// BenchmarkNew is a patch made from site and lesion: the usual one, and the
// largest.
func BenchmarkNew(b *testing.B) {
	for _, c := range []struct {
		name    string
		widthMM float64
	}{{"usual", 3}, {"largest", 28}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := New("cheek", &LesionSpec{"seborrhoeic_keratosis", c.widthMM, 1, 0.3}, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSnapshot is the maps of the usual patch.
func BenchmarkSnapshot(b *testing.B) {
	t, err := New("cheek", &LesionSpec{"seborrhoeic_keratosis", 3, 1, 0.3}, Options{})
	if err != nil {
		b.Fatal(err)
	}
	var m Maps
	for b.Loop() {
		t.Snapshot(&m)
	}
}

// BenchmarkWipe is an act, with all that settles after it.
func BenchmarkWipe(b *testing.B) {
	t, err := New("cheek", nil, Options{})
	if err != nil {
		b.Fatal(err)
	}
	t.Take(Tool{RadiusMM: 0.5, Output: "low", PowerW: 10})
	for b.Loop() {
		b.StopTimer()
		t.Step(Pose{}, true, 60)
		b.StartTimer()
		t.Wipe(Spot{RadiusMM: 2})
	}
}
