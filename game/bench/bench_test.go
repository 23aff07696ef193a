package bench

import (
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
)

// Property tests here march heat, so the ordinary run draws few.
func TestMain(m *testing.M) {
	flag.Parse()
	set := false
	flag.Visit(func(f *flag.Flag) { set = set || f.Name == "rapid.checks" })
	if !set && !longRun {
		if err := flag.Set("rapid.checks", "10"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// TestTable: a fault of the table is told with its place, and every row of the
// vocabulary that needs one has one.
func TestTable(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`"radius_mm": 0.25`, `"radius_mm": 9`, `bench.json:4:40: "tips[0].radius_mm" is 9`},
		{`"electrode": "fine"`, `"electrode": "wire"`, `unknown electrode "wire"`},
		{`"every_time": true`, `"every": true`, `unknown key "hazards[0].every"`},
	} {
		_, err := readTable("bench.json", []byte(strings.Replace(string(benchJSON), c.old, c.new, 1)))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want %q", err, c.want)
		}
	}
	for _, id := range cases.Vocab.IDs("bench_hazard") {
		if find(rows.Hazards, func(r *hazardRow) bool { return r.Hazard == id }) == nil {
			t.Errorf("the hazard %s has no row", id)
		}
	}
	for _, list := range []string{"agent", "topical_agent"} {
		for _, id := range cases.Vocab.IDs(list) {
			if find(rows.Numbing, func(r *numbingRow) bool { return r.Agent == id }) == nil {
				t.Errorf("the agent %s has no row", id)
			}
		}
	}
	for act, tools := range toolOf {
		for _, tool := range tools {
			if !cases.Vocab.Has("bench_act", act) || !cases.Vocab.Has("bench_tool", tool) {
				t.Errorf("%s with %s: not in the vocabulary", act, tool)
			}
		}
	}
	for act, step := range stepOf {
		if !cases.Vocab.Has("bench_act", act) || !cases.Vocab.Has("bench_step", step) {
			t.Errorf("%s is the step %s: not in the vocabulary", act, step)
		}
	}
}

// TestRefused: what cannot be done is refused with the reason, changes nothing
// and is not kept.
func TestRefused(t *testing.T) {
	s := ready(t, func(c *cases.Case) {
		c.Setting.SmokeEvacuator = false
		c.Setting.Unit = &cases.Unit{Return: "single_ended", MaxW: m(20), StepW: m(0.5)}
	}, nil)
	events, before := len(s.events), s.digest()
	for _, c := range []struct {
		e    cases.SessionEvent
		want string
	}{
		{cases.SessionEvent{Tool: "cotton", Pedal: yes(true)}, "needs the electrode"},
		{cases.SessionEvent{PowerW: m(20.5)}, "goes up to 20 W by 0.5 W"},
		{cases.SessionEvent{PowerW: m(1.2)}, "goes up to 20 W by 0.5 W"},
		{cases.SessionEvent{Tip: "forceps"}, "not on the bench"},
		{cases.SessionEvent{Act: "shave", Tool: "curette"}, "take the blade"},
		{cases.SessionEvent{Act: "shave", Tool: "blade"}, "needs the depth"},
		{cases.SessionEvent{Act: "inject", Tool: "syringe"}, "needs its volume"},
		{cases.SessionEvent{Act: "inject", Tool: "syringe", VolumeML: m(50)}, "50 mL"},
		{cases.SessionEvent{Act: "evacuator_near"}, "no smoke evacuator"},
		{cases.SessionEvent{Act: "undo"}, "no burst to undo"},
		{cases.SessionEvent{Act: "wait"}, "needs its seconds"},
	} {
		if err := s.Do(c.e); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: got %v, want %q", c.e, err, c.want)
		}
	}
	if len(s.events) != events || s.digest() != before {
		t.Error("a refused act was kept")
	}
	s.just("stop")
	if s.Do(cases.SessionEvent{}) == nil {
		t.Error("after the stop an act is taken")
	}
}

func TestOpenRefuses(t *testing.T) {
	p, c := sample(t, nil)
	for _, x := range []struct{ plan, want string }{
		{`{"disposition":"refer"}`, `"refer"; the bench opens for treat`},
		{`{"disposition":"treat","technique":"cryotherapy"}`, `"cryotherapy" is not done on the bench`},
		{`{"disposition":"treat","technique":"punch_biopsy"}`, `"punch_biopsy" is not done on the bench`},
	} {
		if _, err := Open(p, c, planOf(t, p, c, x.plan), coarse); err == nil || !strings.Contains(err.Error(), x.want) {
			t.Errorf("%s: got %v, want %q", x.plan, err, x.want)
		}
	}
	plan := planOf(t, p, c, samplePlan)
	plan.Case = "test/other"
	if _, err := Open(p, c, plan, coarse); err == nil {
		t.Error("a plan of another case is taken")
	}
}

// TestNumbness: an injection works after the agent's onset, a cream after its
// minutes under a cover, cold at once and for some seconds.
func TestNumbness(t *testing.T) {
	topical := func(agent string, minutes float64) *cases.Anaesthetic {
		return &cases.Anaesthetic{Topical: &cases.Topical{Agent: agent, Minutes: m(minutes)}}
	}
	for _, c := range []struct {
		name  string
		a     *cases.Anaesthetic
		afS   int
		numb  bool
		again bool // inject first
	}{
		{"lidocaine, at once", nil, 119, false, true},
		{"lidocaine, in two minutes", nil, 121, true, true},
		{"not injected", nil, 300, false, false},
		{"cream for an hour", topical("lidocaine_prilocaine_cream", 60), 0, true, false},
		{"cream for half an hour", topical("lidocaine_prilocaine_cream", 30), 0, false, false},
		{"gel for half an hour", topical("tetracaine_gel", 30), 0, true, false},
		{"cold", cold(), 9, true, false},
		{"cold, worn off", cold(), 11, false, false},
	} {
		p, k := sample(t, nil)
		plan := planOf(t, p, k, samplePlan)
		if c.a != nil {
			plan.Anaesthetic = c.a
		}
		s := opened(t, p, k, plan, coarse)
		if c.again {
			s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.2)}, 0)
		}
		s.Advance(c.afS * 1000)
		if got := s.State().Numb; got != c.numb {
			t.Errorf("%s after %d s: numb is %v, want %v", c.name, c.afS, got, c.numb)
		}
	}
}

// TestNextSpot: going from spot to spot by keys alone treats the lesion, and
// then there is none.
func TestNextSpot(t *testing.T) {
	s := ready(t, nil, func(p *cases.Plan) { p.Electrode = "ball" })
	done := false
	for range 80 {
		x, y, ok := s.NextSpot()
		if done = !ok; done {
			break
		}
		if x%100 != 0 || y%100 != 0 {
			t.Fatalf("the next spot is (%v, %v): not in steps of 0.1 mm", x, y)
		}
		s.burst(x.Float(), y.Float(), 300)
	}
	if o := s.Outcome(); !done || o.BaseCoveredFraction < 950 {
		t.Errorf("by keys alone %v of the base is covered, done is %v", o.BaseCoveredFraction, done)
	}
}

// TestBleeding: a cut bleeds and goes on bleeding; adrenaline lessens it; a
// cotton tip stops it while it presses; current closes the vessels.
func TestBleeding(t *testing.T) {
	shed := func(adrenaline, press, heat bool) (nl, open int) {
		s := ready(t, func(c *cases.Case) { c.Lesion.Family = "pyogenic_granuloma" }, func(p *cases.Plan) {
			if !adrenaline {
				p.Anaesthetic.Injected[0].Adrenaline = ""
			}
			p.Electrode, p.PowerW = "ball", m(10)
		})
		s.with("blade", "shave", 0, 0, cases.SessionEvent{DepthMM: m(0.2)}, 0)
		if press {
			s.with("gauze_dry", "press", 0, 0, cases.SessionEvent{}, 0)
		}
		if heat {
			for _, p := range [][2]float64{{0, 0}, {1.2, 0}, {-1.2, 0}, {0, 1.2}, {0, -1.2}} {
				s.with("gauze_dry", "wipe", 0, 0, cases.SessionEvent{}, 0)
				s.burst(p[0], p[1], 400)
			}
		}
		before := s.field.shedNL
		s.Advance(10000)
		for _, p := range s.State().Spots {
			if !p.Closed {
				open++
			}
		}
		return s.field.shedNL - before, open
	}
	free, open := shed(false, false, false)
	if free == 0 || open < 3 {
		t.Fatalf("the cut sheds %d nl from %d spots", free, open)
	}
	if less, _ := shed(true, false, false); less >= free {
		t.Errorf("with adrenaline it sheds %d nl, without %d", less, free)
	}
	if pressed, _ := shed(false, true, false); pressed != 0 {
		t.Errorf("under pressure it sheds %d nl", pressed)
	}
	if after, left := shed(false, false, true); left >= open || after >= free {
		t.Errorf("after current %d of %d spots are open and shed %d of %d nl", left, open, after, free)
	}
}

// TestRecord: like acts are one line, in order, with their figures; what was
// planned and not done is told as skipped.
func TestRecord(t *testing.T) {
	p, c := sample(t, nil)
	plan := planOf(t, p, c, samplePlan)
	plan.Specimen, plan.Cycles = &cases.Specimen{Send: yes(true)}, m(2)
	s := opened(t, p, c, plan, coarse)
	s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.2)}, 0)
	s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.3)}, 0)
	s.wait(120)
	for range 3 {
		s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 10)
	}
	s.burst(0, 0, 20) // stopped: the specimen is not in the pot
	s.burst(0, 0, 200)
	s.do(cases.SessionEvent{PowerW: m(7)})
	s.burst(0, 0, 100)
	s.just("undo")
	s.burst(0, 0, 120)
	var got []string
	record := s.Record()
	for _, a := range record {
		name := a.Step
		if a.Skipped {
			name = "not " + name
		}
		got = append(got, name)
		if !cases.Vocab.Has("bench_step", a.Step) {
			t.Errorf("%s is not in the vocabulary", a.Step)
		}
	}
	want := []string{"injected", "waited", "curetted", "treated", "undone", "treated", "not specimen_potted", "not rounds"}
	if !slices.Equal(got, want) {
		t.Fatalf("the record is %q, want %q", got, want)
	}
	if a := record[0]; a.Count != 2 || a.VolumeML != 500 {
		t.Errorf("injected: %+v", a)
	}
	if a := record[2]; a.Count != 3 {
		t.Errorf("curetted: %+v", a)
	}
	if a := record[3]; a.Count != 1 || a.PowerW != [2]cases.Milli{5000, 5000} || a.LongestS != 200 {
		t.Errorf("treated: %+v", a)
	}
	if strip := s.Strip(); len(strip) != 9 || strip[0].Step != "injected" {
		t.Errorf("the strip is %+v", strip)
	}
}

// TestCurve: more power destroys no less of a touched lesion, and the sum of
// small budgets is the whole.
func TestCurve(t *testing.T) {
	s := ready(t, nil, nil)
	s.burst(0, 0, 150)
	whole, parts := s.Curve(), s.Curve()
	if done, err := whole.Step(1 << 60); !done || err != nil {
		t.Fatal(done, err)
	}
	turns := 0
	for done := false; !done; turns++ {
		var err error
		if done, err = parts.Step(500_000); err != nil {
			t.Fatal(err)
		}
	}
	if !slices.Equal(whole.Points, parts.Points) || turns < 8 {
		t.Errorf("in %d parts the curve is %+v, at once %+v", turns, parts.Points, whole.Points)
	}
	if len(whole.Points) != 8 || whole.Points[7].DermisDepthMM <= whole.Points[0].DermisDepthMM {
		t.Errorf("the curve is %+v: 25 W should go deeper than 1 W", whole.Points)
	}
}

// TestSweep: the range holds the outcome itself and is not empty.
func TestSweep(t *testing.T) {
	p, c := sample(t, func(c *cases.Case) { c.Lesion.WidthMM = 2000 })
	plan := planOf(t, p, c, samplePlan)
	plan.Anaesthetic = cold()
	s := opened(t, p, c, plan, Options{GridMM: 0.2, Workers: 1})
	s.burst(0, 0, 250)
	w := s.Sweep()
	if done, err := w.Step(1 << 60); !done || err != nil {
		t.Fatal(done, err)
	}
	r, o := w.Range(), s.Outcome()
	if v := o.LesionDestroyedFraction; v < r.LesionDestroyedFraction[0] || v > r.LesionDestroyedFraction[1] || r.LesionDestroyedFraction[0] == r.LesionDestroyedFraction[1] {
		t.Errorf("the destroyed share is %v, its range %v", v, r.LesionDestroyedFraction)
	}
	if v := o.DermisFraction; v < r.DermisFraction[0] || v > r.DermisFraction[1] {
		t.Errorf("the dermis fraction is %v, its range %v", v, r.DermisFraction)
	}
}

// TestInjectedTwice: fluid given before any current lifts the dermis, by its
// sum.
func TestInjectedTwice(t *testing.T) {
	p, c := sample(t, nil)
	s := opened(t, p, c, planOf(t, p, c, samplePlan), coarse)
	thin := s.p.dermisMM()
	for range 2 {
		s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.1)}, 100)
	}
	if got := s.p.spec.o; got.InjectedML != 0.2 || !got.Adrenaline || s.p.dermisMM() <= thin {
		t.Errorf("the patch was made with %+v, the dermis is %v mm after %v", got, s.p.dermisMM(), thin)
	}
}

// BenchmarkAdvance is 16 ms with the pedal down, the tip creeping, on the
// bench's own grid.
func BenchmarkAdvance(b *testing.B) {
	p, c := sample(b, nil)
	s := opened(b, p, c, planOf(b, p, c, samplePlan), Options{Workers: 1})
	s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
	s.do(cases.SessionEvent{Tool: "electrode", XMM: m(-1), YMM: m(0)})
	s.do(cases.SessionEvent{Pedal: yes(true)})
	s.do(cases.SessionEvent{Pedal: yes(false)})
	s.do(cases.SessionEvent{Pedal: yes(true)})
	if !s.State().Live {
		b.Fatal("no current flows")
	}
	k := 0
	for b.Loop() {
		s.do(cases.SessionEvent{XMM: m(float64(k%40)/20 - 1)})
		s.Advance(16)
		k++
	}
}
