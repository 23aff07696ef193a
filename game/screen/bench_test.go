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
