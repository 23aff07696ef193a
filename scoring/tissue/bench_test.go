package tissue

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"flag"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// digest is a hash of everything that the tissue is.
func (b *body) digest() string {
	h := sha256.New()
	buffer := make([]byte, 0, 32)
	for z := range b.nz {
		for y := range b.ny {
			for x := range b.nx {
				i := b.at(x, y, z)
				buffer = buffer[:0]
				for _, f := range []float32{b.rise[i], b.water[i], b.omega[i], b.stasis[i], b.loss[i]} {
					buffer = binary.LittleEndian.AppendUint32(buffer, math.Float32bits(f))
				}
				buffer = append(buffer, b.mat[i], b.mark[i])
				h.Write(buffer)
			}
		}
	}
	for _, f := range []float64{b.ledger.in, b.ledger.surface, b.ledger.far, b.ledger.blood, b.ledger.removed} {
		_ = binary.Write(h, binary.LittleEndian, f)
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// session is a short treatment for the tests.
type session struct {
	name   string
	site   string
	lesion *LesionSpec
	o      Options
	play   func(t *Tissue)
	want   string // digest after it
}

// sessions use every part of the model: touch, sparks, crust, acts, liquids.
// A change of a digest is a change of the model, and raises its version.
var sessions = []session{
	{
		name: "touch on a cheek", site: "cheek", o: Options{GridMM: 0.2},
		play: func(t *Tissue) {
			t.Take(Tool{RadiusMM: 0.4, Output: "low", PowerW: 7})
			t.Step(Pose{}, true, 80)
			t.Step(Pose{XMM: 0.5}, true, 24)
			t.Step(Pose{XMM: 0.5}, false, 24)
		},
		want: "d2ab39d6a9e637ca",
	},
	{
		name: "sparks on a keratosis", site: "back", lesion: &LesionSpec{"seborrhoeic_keratosis", 4, 0.8, 0.2}, o: Options{GridMM: 0.2, Seed: 5},
		play: func(t *Tissue) {
			t.Take(Tool{RadiusMM: 0.25, Output: "high", PowerW: 12, Gap: true})
			for k := range 5 {
				t.Step(Pose{XMM: float64(k)*0.4 - 1, GapMM: 0.4}, true, 16)
			}
			t.Wipe(Spot{RadiusMM: 3})
		},
		want: "36b2a1fad07f67b3",
	},
	{
		name: "snip, then dry the stump", site: "neck", lesion: &LesionSpec{"skin_tag", 3, 3, 0.2}, o: Options{GridMM: 0.2, Adrenaline: true, InjectedML: 0.3},
		play: func(t *Tissue) {
			t.Snip(0)
			t.Take(Tool{RadiusMM: 0.5, Output: "low", PowerW: 4})
			t.Step(Pose{}, true, 80)
		},
		want: "50f98c0950204d0e",
	},
	{
		name: "curette and desiccate", site: "nose", lesion: &LesionSpec{"bcc_nodular", 4, 1, 1}, o: Options{GridMM: 0.2, WetMM: 1},
		play: func(t *Tissue) {
			for range 6 {
				t.Curette(Spot{RadiusMM: 2.5})
			}
			t.Flood(Spot{RadiusMM: 1}, "blood", 0.4)
			t.Take(Tool{RadiusMM: 0.5, Output: "low", PowerW: 7})
			t.Step(Pose{}, true, 32)
			t.Wipe(Spot{RadiusMM: 2})
			t.Step(Pose{XMM: 0.4, YMM: -0.2}, true, 64)
			t.Curette(Spot{RadiusMM: 2.5})
		},
		want: "07595bf6876f9261",
	},
	{
		name: "sweep with arcs", site: "forearm", o: Options{GridMM: 0.2},
		play: func(t *Tissue) {
			t.Take(Tool{RadiusMM: 0.4, Output: "low", PowerW: 20})
			for k := range 6 {
				t.Step(Pose{XMM: float64(k)*0.1 - 0.3}, true, 16)
			}
		},
		want: "f28131683811e383",
	},
	{
		name: "press a vessel", site: "cheek", lesion: &LesionSpec{"facial_telangiectasia", 3, 0, 0.5}, o: Options{GridMM: 0.2},
		play: func(t *Tissue) {
			t.Press(Spot{RadiusMM: 2})
			t.Take(Tool{RadiusMM: 0.2, Output: "low", PowerW: 3})
			t.Step(Pose{}, true, 40)
			t.Release()
			t.Step(Pose{}, false, 20)
		},
		want: "3c50a8799d643c89",
	},
}

func (s session) run(t testing.TB, workers int) *Tissue {
	t.Helper()
	o := s.o
	o.Workers = workers
	tissue, err := New(s.site, s.lesion, o)
	if err != nil {
		t.Fatal(err)
	}
	s.play(tissue)
	return tissue
}

// TestSameBits: any number of workers, and the vector or the plain code, end
// in the same state, which is the committed one. The short test has one worker.
func TestSameBits(t *testing.T) {
	for _, s := range sessions {
		t.Run(s.name, func(t *testing.T) {
			if testing.Short() {
				t.Parallel()
			}
			counts := []int{1, 2, 7}
			if testing.Short() {
				counts = counts[:1]
			}
			for _, workers := range counts {
				if got := s.run(t, workers).body.digest(); got != s.want {
					t.Errorf("%d workers end in %s, want %s", workers, got, s.want)
				}
			}
			if testing.Short() {
				return
			}
			forPlain(func() {
				if got := s.run(t, 1).body.digest(); got != s.want {
					t.Errorf("plain code ends in %s, want %s", got, s.want)
				}
			})
		})
	}
}

// TestGroupingOfSteps: how milliseconds are grouped into calls changes nothing.
func TestGroupingOfSteps(t *testing.T) {
	run := func(group int) string {
		tissue, err := New("cheek", nil, Options{GridMM: 0.2})
		if err != nil {
			t.Fatal(err)
		}
		tissue.Take(Tool{RadiusMM: 0.4, Output: "low", PowerW: 7})
		for ms := 0; ms < 60; ms += group {
			tissue.Step(Pose{}, ms < 30, group)
		}
		return tissue.body.digest()
	}
	one := run(1)
	for _, group := range []int{2, 5, 15, 30} {
		if got := run(group); got != one {
			t.Errorf("in groups of %d ms it ends in %s, one by one in %s", group, got, one)
		}
	}
}

// draws sets how many random cases a property is tried on: ordinary ones, or
// twenty times as many with LEASTWATT_LONG, unless the command line says it.
func draws(t *testing.T, ordinary int) {
	checks := flag.Lookup("rapid.checks").Value
	before := checks.String()
	if before != "100" { // rapid's own number
		return
	}
	if os.Getenv("LEASTWATT_LONG") != "" {
		ordinary *= 20
	}
	if err := checks.Set(strconv.Itoa(ordinary)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = checks.Set(before) })
}

// TestEnergyWithActs is the first law on random treatments, acts among them:
// within 0.5 % or 1 mJ.
func TestEnergyWithActs(t *testing.T) {
	draws(t, 300)
	rapid.Check(t, func(r *rapid.T) {
		families := []string{"cherry_angioma", "skin_tag", "seborrhoeic_keratosis", "bcc_nodular", "cutaneous_horn"}
		l := &LesionSpec{rapid.SampledFrom(families).Draw(r, "family"), rapid.Float64Range(1, 4).Draw(r, "width"), rapid.Float64Range(0.4, 2).Draw(r, "height"), rapid.Float64Range(0, 1).Draw(r, "depth")}
		tissue, err := New("back", l, Options{GridMM: 0.4, WetMM: 0.8, Seed: rapid.Uint64().Draw(r, "seed")})
		if err != nil {
			r.Fatal(err)
		}
		for range rapid.IntRange(1, 8).Draw(r, "acts") {
			spot := Spot{rapid.Float64Range(-2, 2).Draw(r, "x"), rapid.Float64Range(-2, 2).Draw(r, "y"), rapid.Float64Range(0.5, 3).Draw(r, "radius")}
			switch rapid.IntRange(0, 7).Draw(r, "act") {
			case 0:
				tissue.Shave(spot, rapid.Float64Range(-1, 0.5).Draw(r, "z"))
			case 1:
				tissue.Curette(spot)
			case 2:
				tissue.Wipe(spot)
			case 3:
				tissue.Flood(spot, "blood", 0.5)
			case 4:
				tissue.Press(spot)
				tissue.Release()
			default:
				gap := rapid.Bool().Draw(r, "gap")
				tissue.Take(Tool{RadiusMM: 0.5, Output: "high", PowerW: rapid.Float64Range(1, 35).Draw(r, "power"), Gap: gap})
				pose := Pose{XMM: spot.XMM, YMM: spot.YMM}
				if gap {
					pose.GapMM = 0.3
				}
				tissue.Step(pose, true, rapid.IntRange(8, 80).Draw(r, "ms"))
			}
		}
		b := tissue.body
		stored, latent := b.stored()
		sum := stored + latent + b.ledger.surface + b.ledger.far + b.ledger.blood + b.ledger.removed
		if off := math.Abs(b.ledger.in - sum); off > max(0.005*b.ledger.in, 1e-3) || math.IsNaN(sum) {
			r.Fatalf("in %.5g J, found again %.5g J: off by %.3g", b.ledger.in, sum, off)
		}
		if tissue.energyJ < b.ledger.in*(1-1e-3)-1e-6 {
			r.Fatalf("the grid got %v J, more than the %v J that passed the tip", b.ledger.in, tissue.energyJ)
		}
	})
}

// TestJumpLeavesNoHeat: when the tip leaps with the pedal down, the place it
// left gets no more heat. What was there would be new energy from nowhere.
func TestJumpLeavesNoHeat(t *testing.T) {
	tissue, err := New("back", nil, Options{GridMM: 0.2})
	if err != nil {
		t.Fatal(err)
	}
	tissue.Take(Tool{RadiusMM: 0.5, Output: "low", PowerW: 3.5})
	for _, x := range []float64{-3, 3, -3, 3} {
		tissue.Step(Pose{XMM: x}, true, 8)
		if in := tissue.body.ledger.in; in > tissue.energyJ*(1+1e-3) {
			t.Fatalf("at %g mm: the grid got %.4g J and only %.4g J passed the tip", x, in, tissue.energyJ)
		}
	}
}

// TestNoAllocation: a step takes no memory once the tip has been down.
func TestNoAllocation(t *testing.T) {
	for _, workers := range []int{1, 2} {
		tissue, err := New("cheek", nil, Options{GridMM: 0.2, Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		tissue.Take(Tool{RadiusMM: 0.4, Output: "low", PowerW: 7})
		tissue.Step(Pose{}, true, 100)
		if n := testing.AllocsPerRun(5, func() { tissue.Step(Pose{}, true, 16) }); n > 0 {
			t.Errorf("%d workers: 16 ms take %v allocations, want none", workers, n)
		}
		x := 0.0
		if n := testing.AllocsPerRun(5, func() { x += 0.5; tissue.Step(Pose{XMM: x}, true, 16) }); n > 0 {
			t.Errorf("%d workers, moving: 16 ms take %v allocations, want none", workers, n)
		}
	}
}
