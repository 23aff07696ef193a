package screen

import (
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

// clockwork stands for the window's clock: it notes which clock runs, and
// ticks when the test says so.
type clockwork struct {
	of      int
	running bool
	begun   int
}

func (c *clockwork) start(of int) (stop func()) {
	c.of, c.running = of, true
	c.begun++
	return func() { c.running = false }
}

// drawnApp is the program with its pictures drawn at once, so that clocks run.
func drawnApp(t testing.TB) (*App, *ui.Host, *clockwork) {
	t.Helper()
	cfg := config()
	var c clockwork
	cfg.Ticks = c.start
	cfg.Packs = fewPacks(t)
	a := newApp(t, cfg)
	h := ui.NewHost(a)
	h.Frame()
	return a, h, &c
}

// fewPacks holds as many cases as a round needs, so that few pictures are drawn.
func fewPacks(t testing.TB) []*cases.Pack {
	p := &cases.Pack{ID: "few", Author: "Harrow Fell teaching clinic"}
	for _, ref := range []string{"first-list/collar", "first-list/strap", "trunk-and-limbs/itchy-one"} {
		_, c := caseOf(t, ref)
		p.Cases = append(p.Cases, *c)
	}
	return []*cases.Pack{p}
}

// press sends a key down and up again.
func press(h *ui.Host, names ...string) {
	for _, n := range names {
		keys(h, n)
		h.KeyUp(n)
		h.Frame()
	}
}

func TestAWholeRoundByKeyboard(t *testing.T) {
	a, h, clock := drawnApp(t)
	press(h, "s")
	if a.at != atRound || clock.running {
		t.Fatalf("S leads to place %d, the clock runs: %v", a.at, clock.running)
	}
	press(h, "Enter")
	r := a.play.round
	if r == nil || len(r.Items) != 3 || !clock.running || h.Focus() != "lens" {
		t.Fatalf("Enter begins %+v, focus on %q", r, h.Focus())
	}
	press(h, "1")
	if h.Focus() != "send yes" || r.At != 0 {
		t.Fatalf("after treat the focus is on %q", h.Focus())
	}
	press(h, "Backspace")
	if r.Items[0].Disposition != "" {
		t.Fatal("Backspace does not take the decision back")
	}
	press(h, "l", "1", "n", "2")
	if r.At != 2 || !r.Items[0].Lens || *r.Items[0].Send || r.Items[1].Disposition != "biopsy_first" {
		t.Fatalf("the round holds %+v", r.Items)
	}
	press(h, "ctrl+z", "3")
	if r.Items[1].Disposition != "refer" {
		t.Fatal("Ctrl Z does not lead back to the picture before")
	}
	for range RoundSeconds {
		a.Update(Tick{Of: clock.of})
	}
	if !r.Over() || !r.Items[2].TimeUp || clock.running {
		t.Fatalf("after a minute the round is over: %v, the clock runs: %v", r.Over(), clock.running)
	}
	text := textOf(a)
	for _, g := range r.Items {
		if !strings.Contains(text, capital(g.c.Truth.Diagnosis)) {
			t.Errorf("the end does not name %q", g.c.Truth.Diagnosis)
		}
	}
	for _, want := range []string{"one not decided", "The time was over.", "Through a lens: ", "Open number"} {
		if !strings.Contains(text, want) {
			t.Errorf("the end does not say %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "%") {
		t.Error("the end shows a percentage")
	}
	press(h, "ctrl+z")
	if !r.Over() {
		t.Error("a round that named its pictures can be changed")
	}
	want := a.glanceChosen().ref
	press(h, "Enter")
	if a.at != atCase || a.session.Ref != want {
		t.Errorf("Enter opens %v at place %d, should be %s", a.session.Ref, a.at, want)
	}
	press(h, "t")
	if !strings.Contains(textOf(a), "seen in a short round") || !strings.Contains(textOf(a), "Your short round") {
		t.Errorf("today does not tell of the round:\n%s", textOf(a))
	}
	press(h, "s", "s")
	if a.play.round != nil || h.Focus() != "round begin" {
		t.Error("another round does not begin with what a round is")
	}
}

// The clock runs only while a picture is in sight, and a tick of an earlier
// clock counts nothing.
func TestTheClockRunsOnlyAtAPicture(t *testing.T) {
	a, h, clock := drawnApp(t)
	press(h, "s", "Enter")
	left := func() int { return a.play.round.Now().LeftS }
	a.Update(Tick{Of: clock.of})
	if left() != RoundSeconds-1 {
		t.Fatalf("%d s are left", left())
	}
	a.Update(Tick{Of: clock.of - 1})
	press(h, "?")
	a.Update(Tick{Of: clock.of})
	press(h, "?")
	if left() != RoundSeconds-1 {
		t.Errorf("a late tick or one under the keys counted: %d s are left", left())
	}
	for key, back := range map[string]string{"t": "s", "r": "Escape", ",": "Escape", "k": "Escape", "Escape": "s"} {
		press(h, key)
		if clock.running {
			t.Errorf("the clock runs on after %s", key)
		}
		a.Update(Tick{Of: clock.of})
		press(h, back)
		if a.at != atRound || !clock.running || left() != RoundSeconds-1 {
			t.Errorf("after %s and back the clock runs: %v, with %d s left", key, clock.running, left())
		}
	}
	was := clock.of
	press(h, "4")
	if clock.of == was || left() != RoundSeconds {
		t.Error("the next picture has no clock of its own")
	}
}

func TestWithoutTheClock(t *testing.T) {
	a, h, clock := drawnApp(t)
	press(h, "s", "w")
	if clock.begun > 0 || a.play.round.Timed || !strings.Contains(textOf(a), "No clock runs") {
		t.Error("a round without the clock has one")
	}
	a.Update(Tick{Of: 1})
	if a.play.round.Now().LeftS != RoundSeconds {
		t.Error("a tick counted")
	}
	a.Ticks = nil
	a.anotherRound()
	a.beginRound(true)
	if a.play.round.Timed {
		t.Error("without a way to tick the round claims a clock")
	}
}

// A key held down decides one picture, not all that follow.
func TestAHeldKeyDecidesOnce(t *testing.T) {
	a, h, _ := drawnApp(t)
	press(h, "s", "Enter")
	keys(h, "4", "4", "4")
	if a.play.round.At != 1 {
		t.Fatalf("holding 4 decided %d pictures", a.play.round.At)
	}
	h.KeyUp("4")
	keys(h, "4")
	h.KeyUp("4")
	keys(h, "1", "s", "s", "s")
	if r := a.play.round; r == nil || !r.Over() || a.focus != "round list" {
		t.Error("S held at the last picture began another round")
	}
}

// Until the end no screen of a round tells what a picture is, nor does the
// word family stand anywhere.
func TestARoundTellsNothingEarly(t *testing.T) {
	cfg := quiet(config())
	cfg.Ticks = (&clockwork{}).start
	a := newApp(t, cfg)
	a.goTo(atRound)
	if about := strings.ToLower(textOf(a)); strings.Contains(about, "family") {
		t.Error("the round's own page speaks of families")
	}
	for _, e := range a.fair() {
		r := &Round{Timed: true, Items: []Glance{{entry: e.entry, LeftS: RoundSeconds}}}
		a.play = roundPlay{round: r}
		a.goTo(atRound)
		for _, lens := range []bool{false, true} {
			r.Items[0].Lens = lens
			text := strings.ToLower(textOf(a))
			spoken := strings.ToLower(e.c.Presenting + r.Items[0].Touch(cases.UK))
			if lens {
				spoken += strings.ToLower(r.Items[0].Closer(cases.UK))
			}
			secrets := []string{e.c.Title, e.c.Truth.Diagnosis, e.c.Truth.Histology, e.c.Teaching, "family", cases.Vocab.Label("family", e.c.Lesion.Family, cases.UK), cases.Vocab.Label("family", e.c.Lesion.Looks(), cases.UK)}
			for _, s := range secrets {
				if s = strings.ToLower(s); s != "" && strings.Contains(text, s) && !strings.Contains(spoken, s) {
					t.Errorf("%s: the round tells %q", e.ref, s)
				}
			}
		}
	}
}
