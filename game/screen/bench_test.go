package screen

import (
	"testing"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/solve"
)

// benchCase is the first case of the built-in ones that the solver treats on
// the bench.
func benchApp(t testing.TB, ref string) *App {
	t.Helper()
	cfg := config()
	a, err := NewApp(cfg)
	if err != nil {
		t.Fatal(err)
	}
	a.openCase(ref)
	j, err := a.session.Judge(a.Set, a.Settings.Labels)
	if err != nil {
		t.Fatal(err)
	}
	plan := solve.Solve(j, ref).Plan
	a.session.Change("", func(p *cases.Plan) { *p = *plan })
	a.Update(ui.Key{Name: "3", Alt: true})
	if a.at != atBench {
		t.Fatalf("the bench does not open: %q", a.toast)
	}
	return a
}

// BenchmarkBenchFrame is what one frame of the bench costs with the pedal down,
// less the painting: tissue, state and picture.
func BenchmarkBenchFrame(b *testing.B) {
	a := benchApp(b, "first-list/towel")
	pedalDown(b, a)
	for b.Loop() {
		if a.Update(ui.Elapsed{MS: 33}); !a.work.state.Live {
			b.Fatal("the current has stopped")
		}
	}
}

// pedalDown presses the pedal again after each caution that stops the bench,
// until current flows.
func pedalDown(t testing.TB, a *App) {
	t.Helper()
	for range 12 {
		a.Update(ui.Key{Name: "Space"})
		if a.Update(ui.Elapsed{MS: 33}); a.work.state.Live {
			return
		}
		a.Update(ui.KeyUp{Name: "Space"})
	}
	t.Fatalf("no current flows: caution %q", a.work.state.Caution)
}

func BenchmarkBenchFrameAtRest(b *testing.B) {
	a := benchApp(b, "first-list/towel")
	for b.Loop() {
		a.Update(ui.Elapsed{MS: 33})
	}
}

// With full marks in the plan and the room made safe, the pedal heats; undo
// gives the tissue back; the end is graded with the bench, kept, and can be
// looked at again.
func TestBenchInTheWindow(t *testing.T) {
	a := benchApp(t, "first-list/wedding")
	a.Update(ui.Key{Name: "n"})
	pedalDown(t, a)
	for range 12 {
		a.Update(ui.Elapsed{MS: 33})
	}
	if s := &a.work.state; s.BurstMS < 300 || s.DialW == 0 || a.ToneHz() == 0 || !a.Live() {
		t.Errorf("the pedal is down: %d ms at %s W, tone %d, live %v", s.BurstMS, s.DialW, a.ToneHz(), a.Live())
	}
	drawn := a.work.version
	a.Update(ui.FocusLost{})
	if a.work.state.Live || a.ToneHz() != 0 {
		t.Error("the current flows on though the window is no longer in use")
	}
	if drawn < 3 {
		t.Errorf("the picture was drawn %d times", drawn)
	}
	energy := a.work.bench.Outcome().EnergyJ
	a.Update(ui.Key{Name: "z", Ctrl: true})
	if got := a.work.bench.Outcome().EnergyJ; got >= energy {
		t.Errorf("after going back a burst %s J are in the tissue, of %s", got, energy)
	}
	pedalDown(t, a)
	for range 20 {
		a.Update(ui.Elapsed{MS: 33})
	}
	a.Update(ui.KeyUp{Name: "Space"})
	was := a.work.state.XMM
	a.Update(ui.Key{Name: "Right"})
	a.Update(ui.Key{Name: "Right", Shift: true})
	if got := a.work.state.XMM - was; got != 1100 {
		t.Errorf("the arrows moved by %s mm", got)
	}
	before := a.work.view
	for range 9 {
		a.Update(ui.Key{Name: "Right", Shift: true})
	}
	if v := a.work.view; v.CentreXMM <= before.CentreXMM {
		t.Errorf("the tip is out of sight: centre at %v mm, tip at %s", v.CentreXMM, a.work.state.XMM)
	}
	a.Update(ui.Key{Name: "+"})
	if v := a.work.view; v.ShownMM >= before.ShownMM {
		t.Errorf("zooming in shows %v mm, before %v", v.ShownMM, before.ShownMM)
	}
	a.Update(ui.Key{Name: "p"})
	if a.Live() || a.at != atBench {
		t.Error("P does not pause")
	}
	a.Update(ui.Key{Name: "Enter", Ctrl: true})
	if a.at != atDebrief || a.session.Treatment == nil || a.session.Grade.Bench != "done" {
		t.Fatalf("not graded: at %v, %q", a.at, a.toast)
	}
	if a.session.Treatment.Outcome.Range == nil {
		t.Error("the figures have no range")
	}
	a.Update(ui.Key{Name: "3", Alt: true})
	if a.review.curve == nil || a.review.at != a.session.Treatment.EndMS() {
		t.Fatalf("the look back: %+v", a.review)
	}
	a.Update(ui.Key{Name: "Home"})
	if a.review.at != 0 || a.work.state.ClockMS != 0 {
		t.Errorf("Home shows %d ms, the skin at %d", a.review.at, a.work.state.ClockMS)
	}
	a.Update(ui.SetFraction{ID: "bench acts", F: 1})
	if end := a.session.Treatment.EndMS(); a.review.at != end || a.work.state.ClockMS != end {
		t.Errorf("the end shows %d of %d ms", a.review.at, end)
	}
}

// A plan that cannot be carried out on the bench does not open it.
func TestBenchNeedsItsTechnique(t *testing.T) {
	cfg := config()
	a, err := NewApp(cfg)
	if err != nil {
		t.Fatal(err)
	}
	a.openCase(a.order[0].ref)
	for _, d := range []string{"leave", "refer", ""} {
		a.session.Change("", func(p *cases.Plan) { p.Disposition = d })
		a.Update(ui.Key{Name: "3", Alt: true})
		if a.at == atBench || a.toast == "" {
			t.Errorf("the bench opens for %q", d)
		}
	}
}
