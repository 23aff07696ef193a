package screen

import (
	"errors"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/assess"
)

// clockAt is a clock that a test moves.
type clockAt struct{ t time.Time }

func (c *clockAt) now() time.Time { return c.t }

func runDesk(t *testing.T, c *clockAt, rc RunConfig) *Desk {
	t.Helper()
	cfg := config()
	cfg.Today, cfg.Assess = c.now, rc
	d, err := NewDesk(cfg)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// A run goes from case to case, keeps each step before it counts, and ends
// with its last case.
func TestRunOnTheDesk(t *testing.T) {
	c := &clockAt{time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	var kept []assess.Step
	var full error
	d := runDesk(t, c, RunConfig{SaveStep: func(s assess.Step) error {
		if full == nil {
			kept = append(kept, s)
		}
		return full
	}})
	b := d.Blueprints()[0]
	if err := d.BeginRun(b, 5, ""); err != nil {
		t.Fatal(err)
	}
	if err := d.BeginRun(b, 6, ""); err == nil {
		t.Error("a second run begins inside the first")
	}
	s, err := d.Open(d.run.Ref(0))
	if err != nil {
		t.Fatal(err)
	}
	full = errors.New("the disk is full")
	if err := d.HandIn(s); err == nil || d.run.Answered() != 0 {
		t.Errorf("a step that is not kept counts: %v, %d answered", err, d.run.Answered())
	}
	full = nil
	other, _ := d.Open(d.run.Ref(3))
	if err := d.HandIn(other); err == nil {
		t.Error("a case that is not in hand is taken")
	}
	for d.Running() {
		s, err := d.Open(d.run.Ref(d.run.Next()))
		if err != nil {
			t.Fatal(err)
		}
		c.t = c.t.Add(2 * time.Minute)
		if err := d.HandIn(s); err != nil {
			t.Fatal(err)
		}
	}
	if d.run.Ending != assess.Done || len(kept) != len(d.run.Given)+2 {
		t.Errorf("ended by %q with %d steps kept", d.run.Ending, len(kept))
	}
	again, err := assess.Fold(kept)
	if err != nil || again.Answered() != len(d.run.Given) || again.ElapsedMS(0) != 24*60_000 {
		t.Errorf("the kept steps give %+v: %v", again, err)
	}
	if text := d.RunSheet().Text(); text == "" {
		t.Error("no sheet")
	}
}

// A program that comes back takes the run up where it was, with the clock gone
// on; past the limit the run is over and nothing more is taken.
func TestRunIsTakenUp(t *testing.T) {
	c := &clockAt{time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	var kept []assess.Step
	save := func(s assess.Step) error { kept = append(kept, s); return nil }
	d := runDesk(t, c, RunConfig{SaveStep: save})
	if err := d.BeginRun(d.Blueprints()[0], 5, "a supervisor"); err != nil {
		t.Fatal(err)
	}
	s, _ := d.Open(d.run.Ref(0))
	if err := d.HandIn(s); err != nil {
		t.Fatal(err)
	}
	heard := c.t.UnixMilli()
	c.t = c.t.Add(10 * time.Minute)
	back := runDesk(t, c, RunConfig{SaveStep: save, Steps: append([]assess.Step(nil), kept...), HeardMS: heard})
	if !back.Running() || back.run.Answered() != 1 || len(back.run.Away) != 1 {
		t.Fatalf("taken up as %+v, trouble %q", back.run, back.saveErr)
	}
	c.t = c.t.Add(51 * time.Minute)
	late, _ := back.Open(back.run.Ref(1))
	if err := back.HandIn(late); err == nil || back.run.Ending != assess.TimeUp || back.run.Answered() != 1 {
		t.Errorf("past the limit: %v, ending %q", err, back.run.Ending)
	}
	over := runDesk(t, c, RunConfig{Steps: kept})
	if over.Running() {
		t.Error("a run that is over is taken up")
	}
	broken := runDesk(t, c, RunConfig{Steps: kept[1:]})
	if broken.Running() || broken.Trouble() == "" {
		t.Error("a broken record is not told of")
	}
}

// While a run is under way, what could help is closed.
func TestNoHelpInARun(t *testing.T) {
	cfg := config()
	c := &clockAt{time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	cfg.Today = c.now
	a, err := NewApp(cfg)
	if err != nil {
		t.Fatal(err)
	}
	a.Update(ui.Key{Name: "e"})
	a.Update(ui.Key{Name: "Enter", Ctrl: true})
	if !a.Running() || a.at != atCase {
		t.Fatalf("not begun: %q", a.toast)
	}
	for _, key := range []string{"r", "t", "k"} {
		a.Update(ui.Key{Name: key})
		if a.at != atCase || a.toast == "" {
			t.Errorf("%q leads to %v, toast %q", key, a.at, a.toast)
		}
	}
	a.Update(ui.Key{Name: "2", Alt: true})
	a.Update(ui.Key{Name: "Enter", Ctrl: true})
	if a.at != atCase || a.run.Answered() != 1 || a.session.Ref != a.run.Ref(1) {
		t.Errorf("after handing in: at %v, %d answered", a.at, a.run.Answered())
	}
	a.Update(ui.Key{Name: "4", Alt: true})
	a.Update(ui.Activate{ID: "run give up"})
	if !a.Running() {
		t.Error("one press gives up")
	}
	a.Update(ui.Activate{ID: "run give up"})
	if a.Running() || a.at != atAssess {
		t.Error("two presses do not give up")
	}
	a.Update(ui.Activate{ID: "run list"})
	if a.at != atDebrief || a.session.Ref != a.run.Ref(0) {
		t.Errorf("the debrief of the case handed in: at %v", a.at)
	}
}

// A pack's own blueprint sets the cases and the standards.
func TestBlueprintOfAPack(t *testing.T) {
	limit := cases.Milli(30_000)
	cfg := config()
	cfg.Packs = append(cfg.Packs, &cases.Pack{ID: "own", Title: "Our run", Cases: []cases.Case{cfg.Packs[0].Cases[0]}, Assessment: &cases.Assessment{
		Kinds: []cases.AssessmentKind{{Count: 2, Families: []string{"skin_tag"}, LevelMin: 1, LevelMax: 1}}, TimeLimitMin: &limit,
		Standards: []cases.Standard{{Domain: "room", Least: 1000, Reason: "ours"}},
	}})
	d, err := NewDesk(cfg)
	if err != nil {
		t.Fatal(err)
	}
	list := d.Blueprints()
	if len(list) != 2 || list[1].Title != "Our run" || list[1].LimitMin != 30 || list[1].Blueprint.Cases() != 2 {
		t.Fatalf("%+v", list)
	}
	if err := d.BeginRun(list[1], 1, ""); err != nil {
		t.Fatal(err)
	}
	for _, s := range d.run.Start.Standards {
		if want := cases.Milli(900); s.Domain == "room" && s.Least != 1000 || s.Domain != "room" && s.Least != want {
			t.Errorf("%+v", s)
		}
	}
}
