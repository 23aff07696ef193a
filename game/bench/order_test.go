package bench

import (
	"slices"
	"testing"

	"leastwatt/cases"
)

var orderTests = []struct {
	fault string
	plan  func(*cases.Plan)
	play  func(s script)
}{
	{"border_unmarked", nil, func(s script) { s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.2)}, 100) }},
	{"not_numb", nil, func(s script) {
		s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
		s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.2)}, 1000)
		s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
	}},
	{"prep_wet", func(p *cases.Plan) { p.Prep, p.Anaesthetic = &cases.Prep{Agent: "alcohol"}, cold() }, func(s script) {
		s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
		s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
		s.burst(0, 0, 20)
	}},
	{"specimen_late", func(p *cases.Plan) { p.Specimen, p.Anaesthetic = &cases.Specimen{Send: yes(true)}, cold() }, func(s script) {
		s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
		s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
		s.burst(0, 0, 20)
		s.burst(0, 0, 20)
	}},
	{"coagulated_before_curette", func(p *cases.Plan) { p.Anaesthetic = cold() }, func(s script) {
		s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
		s.burst(0, 0, 20)
	}},
	{"char_left", func(p *cases.Plan) { p.Anaesthetic, p.PowerW, p.Output, p.Contact = cold(), m(30), "high", "gap" }, func(s script) {
		s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
		s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
		s.do(cases.SessionEvent{GapMM: m(0.2)})
		s.sweep(1.5, 0.5, 4)
		s.with("curette", "curette", 2.5, 2.5, cases.SessionEvent{RadiusMM: m(0.5)}, 100) // beside the char
		s.burst(0, 0, 20)
	}},
	{"cycle_missed", func(p *cases.Plan) { p.Cycles, p.Anaesthetic = m(3), cold() }, func(s script) {
		s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
		for range 2 {
			s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
			s.burst(0, 0, 20)
		}
	}},
}

// cold numbs for some seconds, so that short tests need not wait.
func cold() *cases.Anaesthetic { return &cases.Anaesthetic{Topical: &cases.Topical{Agent: "cold"}} }

// TestOrderFaults: each fault of order is met alone by its own slip.
func TestOrderFaults(t *testing.T) {
	for _, f := range orderTests {
		t.Run(f.fault, func(t *testing.T) {
			t.Parallel()
			p, c := sample(t, nil)
			plan := planOf(t, p, c, samplePlan)
			if f.plan != nil {
				f.plan(plan)
			}
			s := opened(t, p, c, plan, coarse)
			f.play(s)
			var got []string
			for _, id := range s.Outcome().OrderFaults {
				if id != "cycle_missed" || f.fault == id { // a slip ends the round early
					got = append(got, id)
				}
			}
			if !slices.Equal(got, []string{f.fault}) {
				t.Errorf("faults are %q, want %q alone", got, f.fault)
			}
		})
	}
}
