package bench

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"leastwatt/cases"
)

// digest is a hash of the surface and of all that the bench keeps.
func (b *Bench) digest() string {
	b.look()
	h := sha256.New()
	m := &b.p.maps
	var buffer []byte
	for i := range m.HeightMM {
		for _, f := range [...]float32{m.HeightMM[i], m.TempC[i], m.Omega[i], m.Stasis[i], m.Water[i], m.WhitenMM[i], b.p.dryMM[i], b.p.floorMM[i]} {
			buffer = binary.LittleEndian.AppendUint32(buffer, math.Float32bits(f))
		}
		for _, f := range [...]bool{m.Charred[i], m.Lesion[i], m.Wet[i], b.p.cut[i]} {
			if f {
				buffer = append(buffer, 1)
			} else {
				buffer = append(buffer, 0)
			}
		}
	}
	h.Write(buffer)
	for i := range b.field.spots {
		s := &b.field.spots[i]
		_ = binary.Write(h, binary.LittleEndian, []int64{int64(s.nl), int64(s.level), int64(s.pressedMS), int64(b.clockMS)})
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// randomEvent draws something that a hand may do.
func randomEvent(r *rapid.T) cases.SessionEvent {
	x := func(name string) *cases.Milli { return m(float64(rapid.IntRange(-20, 20).Draw(r, name)) / 10) }
	switch rapid.IntRange(0, 15).Draw(r, "what") {
	case 0:
		return cases.SessionEvent{Tool: "curette", Act: "curette", XMM: x("x"), YMM: x("y")}
	case 1:
		return cases.SessionEvent{Tool: "gauze_dry", Act: "wipe", XMM: x("x")}
	case 2:
		return cases.SessionEvent{Tool: "cotton", Act: "press", XMM: x("x")}
	case 3:
		return cases.SessionEvent{Act: "release"}
	case 4:
		return cases.SessionEvent{Tool: "blade", Act: "shave", DepthMM: x("depth"), XMM: m(0), YMM: m(0)}
	case 5:
		return cases.SessionEvent{Tool: "syringe", Act: "inject", VolumeML: m(0.2)}
	case 6:
		return cases.SessionEvent{Act: "undo"}
	case 7:
		return cases.SessionEvent{PowerW: m(float64(rapid.IntRange(1, 35).Draw(r, "power")))}
	case 8:
		return cases.SessionEvent{Contact: rapid.SampledFrom([]string{"touch", "gap"}).Draw(r, "contact"), Output: "high"}
	case 9:
		return cases.SessionEvent{Act: rapid.SampledFrom([]string{"hand_on", "hand_off", "specimen_to_pot", "oxygen_off", "evacuator_near"}).Draw(r, "act")}
	case 10, 11:
		return cases.SessionEvent{XMM: x("x"), YMM: x("y")}
	case 12:
		return cases.SessionEvent{Pedal: yes(false)}
	}
	return cases.SessionEvent{Tool: "electrode", Pedal: yes(true)}
}

// randomSession does random things; what is refused is not done.
func randomSession(r *rapid.T, b *Bench) {
	for range rapid.IntRange(1, 12).Draw(r, "events") {
		_ = b.Do(randomEvent(r))
		b.Advance(rapid.IntRange(0, 150).Draw(r, "ms"))
	}
}

// TestReplayIsExact: whatever was done, undos and refusals among it, the file
// of it read again and replayed ends in the same outcome and the same bits,
// however the time is cut up and with other workers.
func TestReplayIsExact(t *testing.T) {
	p, c := sample(t, func(c *cases.Case) { c.Lesion.Family = "pyogenic_granuloma"; c.Lesion.HeightMM = 2000 })
	plan := planOf(t, p, c, samplePlan)
	rapid.Check(t, func(r *rapid.T) {
		b, err := Open(p, c, plan, Options{GridMM: 0.4, Seed: rapid.IntRange(0, 99).Draw(r, "seed"), Workers: 1})
		if err != nil {
			r.Fatal(err)
		}
		randomSession(r, b)
		session, err := cases.ReadSession("session", b.Session().JSON())
		if err != nil {
			r.Fatal(err)
		}
		player, err := NewPlayer(p, c, session, Options{Workers: 2})
		if err != nil {
			r.Fatal(err)
		}
		for done := false; !done; {
			if done, err = player.Step(player.EndMS(), rapid.IntRange(1, 200).Draw(r, "piece")); err != nil {
				r.Fatal(err)
			}
		}
		if diff := cmp.Diff(b.Outcome(), player.Bench.Outcome()); diff != "" {
			r.Fatalf("the replay has another outcome:\n%s", diff)
		}
		if player.Bench.digest() != b.digest() {
			r.Fatal("the replay ends in other bits")
		}
	})
}

// TestScrub: going back to a tick and on again ends in the same bits.
func TestScrub(t *testing.T) {
	s := ready(t, nil, nil)
	s.burst(0, 0, 120)
	s.burst(0.5, 0.5, 120)
	player, err := NewPlayer(s.pack, s.c, s.Session(), Options{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	half := player.EndMS() - 150
	for _, tick := range []int{half, player.EndMS(), half, player.EndMS()} {
		if err := player.To(tick); err != nil {
			t.Fatal(err)
		}
		if player.Bench.clockMS != tick {
			t.Errorf("asked for %d ms, the player stands at %d", tick, player.Bench.clockMS)
		}
	}
	if player.Bench.digest() != s.digest() {
		t.Error("scrubbed to and fro, the session ends in other bits")
	}
}

// TestUndo: after an undo the tissue is what it was before the burst, and
// what is done then ends as if the burst had never been; its hazards stay.
func TestUndo(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		p, c := sample(t, nil)
		plan := planOf(t, p, c, samplePlan)
		b, err := Open(p, c, plan, coarse)
		if err != nil {
			r.Fatal(err)
		}
		s := script{t, b}
		s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 50)
		s.burst(0, 0, rapid.IntRange(10, 80).Draw(r, "first"))
		before, spots := b.Outcome(), len(b.field.spots)
		s.do(cases.SessionEvent{PowerW: m(float64(rapid.IntRange(1, 35).Draw(r, "power")))})
		s.burst(0.4, 0, rapid.IntRange(10, 200).Draw(r, "second"))
		s.just("hand_off")
		if rapid.Bool().Draw(r, "wiped") {
			s.with("gauze_wet", "wipe", 0, 0, cases.SessionEvent{}, 20)
		}
		if err := b.Undo(); err != nil {
			r.Fatal(err)
		}
		after := b.Outcome()
		if after.Hazards = before.Hazards; cmp.Diff(before, after) != "" || len(b.field.spots) != spots {
			r.Fatalf("the undo gives another tissue back:\n%s", cmp.Diff(before, after))
		}
		last := b.events[len(b.events)-1]
		if last.Act != "undo" || !b.burst.list[1].Undone || b.burst.list[0].Undone {
			r.Fatalf("the undo is not kept: last event %+v, bursts %+v", last, b.burst.list)
		}
	})
	s := ready(t, nil, func(p *cases.Plan) { p.Protection = without(p.Protection, "hand_contact") })
	s.burst(0, 0, 20) // stopped
	s.burst(0, 0, 20) // told once, so it flows
	if err := s.Undo(); err != nil {
		t.Fatal(err)
	}
	if o := s.Outcome(); len(o.Hazards) != 1 || o.Bursts != 0 {
		t.Errorf("after the undo %d bursts and hazards %q; want none and contact_broken", o.Bursts, o.Hazards)
	}
	if err := s.Undo(); err == nil {
		t.Error("with no burst left an undo is taken")
	}
}

// TestAssessed: a self-assessment gives nothing back.
func TestAssessed(t *testing.T) {
	p, c := sample(t, nil)
	b, err := Open(p, c, planOf(t, p, c, samplePlan), Options{GridMM: 0.4, Assessed: true})
	if err != nil {
		t.Fatal(err)
	}
	script{t, b}.burst(0, 0, 20)
	if b.Undo() == nil || b.Restart() == nil {
		t.Error("a self-assessment was undone or restarted")
	}
	if s := b.Session(); s.Assessed == nil || !*s.Assessed {
		t.Error("the session does not tell that it was assessed")
	}
}

// TestMemoryIsFlat: ten minutes on the bench, with bursts, leave no more on
// the heap than a fixed room. In long mode.
func TestMemoryIsFlat(t *testing.T) {
	minutes, bound := 10, uint64(8<<20)
	if testing.Short() {
		t.Skip("ten minutes on the bench: not in short mode")
	}
	if !longRun {
		minutes = 1
	}
	s := ready(t, nil, nil)
	heap := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	s.burst(0, 0, 200)
	before := heap()
	for k := range minutes * 12 {
		s.burst(float64(k%5)/5-0.4, 0, 100)
		s.Advance(4800)
	}
	if after := heap(); after > before+bound {
		t.Errorf("after %d minutes the heap holds %d bytes more, want at most %d", minutes, after-before, bound)
	}
	runtime.KeepAlive(s)
}
