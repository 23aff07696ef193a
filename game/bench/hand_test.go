package bench

import (
	"testing"

	"leastwatt/cases"
	"leastwatt/cases/packs"
)

// script is a steady hand: it drives a bench as a screen would, and ends the
// test at the first act that is refused.
type script struct {
	t testing.TB
	*Bench
}

func m(x float64) *cases.Milli { v := milli(x); return &v }

func yes(b bool) *bool { return &b }

// builtIn returns a case of the built-in packs.
func builtIn(t testing.TB, packID, caseID string) (*cases.Pack, *cases.Case) {
	t.Helper()
	all, err := packs.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all {
		for i := range l.Pack.Cases {
			if l.Pack.ID == packID && l.Pack.Cases[i].ID == caseID {
				return l.Pack, &l.Pack.Cases[i]
			}
		}
	}
	t.Fatalf("no built-in case %s/%s", packID, caseID)
	return nil, nil
}

func opened(t testing.TB, p *cases.Pack, c *cases.Case, plan *cases.Plan, o Options) script {
	t.Helper()
	b, err := Open(p, c, plan, o)
	if err != nil {
		t.Fatal(err)
	}
	return script{t, b}
}

func (s script) do(e cases.SessionEvent) {
	s.t.Helper()
	if err := s.Do(e); err != nil {
		s.t.Fatalf("%+v: %v", e, err)
	}
}

// with takes a tool and uses it once at a place, for ms.
func (s script) with(tool, act string, x, y float64, e cases.SessionEvent, ms int) {
	s.t.Helper()
	e.Tool, e.Act, e.XMM, e.YMM = tool, act, m(x), m(y)
	s.do(e)
	s.Advance(ms)
}

// just does an act of the other hand.
func (s script) just(act string) { s.t.Helper(); s.do(cases.SessionEvent{Act: act}) }

// wait lets whole seconds pass.
func (s script) wait(seconds int) {
	s.t.Helper()
	s.do(cases.SessionEvent{Act: "wait", WaitS: m(float64(seconds))})
	s.Advance(seconds * 1000)
}

// burst holds the tip at a place with the pedal down for ms.
func (s script) burst(x, y float64, ms int) {
	s.t.Helper()
	s.do(cases.SessionEvent{Tool: "electrode", XMM: m(x), YMM: m(y)})
	s.do(cases.SessionEvent{Pedal: yes(true)})
	s.Advance(ms)
	s.do(cases.SessionEvent{Pedal: yes(false)})
	s.Advance(100)
}

// sweep goes over a disc in lines, speed in mm a second, one burst a line.
func (s script) sweep(radius, lines, speed float64) {
	s.t.Helper()
	for y, right := -radius+lines/2, true; y < radius; y, right = y+lines, !right {
		half := 0.0
		for half*half+y*y < radius*radius {
			half += 0.1
		}
		from, to := -half, half
		if !right {
			from, to = half, -half
		}
		s.do(cases.SessionEvent{Tool: "electrode", XMM: m(from), YMM: m(y)})
		s.do(cases.SessionEvent{Pedal: yes(true)})
		const tick = 32
		n := int(2*half/speed*1000/tick) + 1
		for k := range n {
			s.do(cases.SessionEvent{XMM: m(from + (to-from)*float64(k)/float64(n))})
			s.Advance(tick)
		}
		s.do(cases.SessionEvent{Pedal: yes(false)})
		s.Advance(100)
	}
}
