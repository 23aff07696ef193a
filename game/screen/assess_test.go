package screen

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/logbook"
)

// clockAt is a clock that a test moves.
type clockAt struct{ t time.Time }

func (c *clockAt) now() time.Time { return c.t }

// fullStore is a logbook in memory whose disk may be full.
type fullStore struct {
	logbook.Memory
	full bool
}

func (s *fullStore) Append(b []byte) error {
	if s.full {
		return errors.New("the disk is full")
	}
	return s.Memory.Append(b)
}

// counter gives identities.
func counter() func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("id-%d", n) }
}

var nextID = counter()

func keptSteps(t *testing.T, d *Desk) []assess.Step {
	t.Helper()
	var steps []assess.Step
	for e, err := range d.Record.Book.Entries() {
		if err != nil {
			t.Fatal(err)
		}
		var s assess.Step
		if err := json.Unmarshal(e.Assessment, &s); err != nil {
			t.Fatal(err)
		}
		steps = append(steps, s)
	}
	return steps
}

func runDesk(t *testing.T, c *clockAt, rc RunConfig, store logbook.Store) *Desk {
	t.Helper()
	cfg := config()
	book, _, err := logbook.Open(store)
	if err != nil {
		t.Fatal(err)
	}
	cfg.Today, cfg.Assess = c.now, rc
	cfg.Record = RecordConfig{Book: book, NewID: nextID}
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
	store := &fullStore{}
	d := runDesk(t, c, RunConfig{}, store)
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
	store.full = true
	if err := d.HandIn(s); err == nil || d.run.Answered() != 0 {
		t.Errorf("a step that is not kept counts: %v, %d answered", err, d.run.Answered())
	}
	store.full = false
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
	if d.run.Ending != assess.Done {
		t.Errorf("ended by %q", d.run.Ending)
	}
	kept := keptSteps(t, d)
	if len(kept) != len(d.run.Given)+2 {
		t.Errorf("%d steps are kept", len(kept))
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
	store := &fullStore{}
	d := runDesk(t, c, RunConfig{}, store)
	if err := d.BeginRun(d.Blueprints()[0], 5, "a supervisor"); err != nil {
		t.Fatal(err)
	}
	s, _ := d.Open(d.run.Ref(0))
	if err := d.HandIn(s); err != nil {
		t.Fatal(err)
	}
	heard := c.t.UnixMilli()
	c.t = c.t.Add(10 * time.Minute)
	back := runDesk(t, c, RunConfig{Steps: keptSteps(t, d), HeardMS: heard}, store)
	if !back.Running() || back.run.Answered() != 1 || len(back.run.Away) != 1 {
		t.Fatalf("taken up as %+v, trouble %q", back.run, back.saveErr)
	}
	c.t = c.t.Add(51 * time.Minute)
	late, _ := back.Open(back.run.Ref(1))
	if err := back.HandIn(late); err == nil || back.run.Ending != assess.TimeUp || back.run.Answered() != 1 {
		t.Errorf("past the limit: %v, ending %q", err, back.run.Ending)
	}
	kept := keptSteps(t, back)
	over := runDesk(t, c, RunConfig{Steps: kept}, &fullStore{})
	if over.Running() {
		t.Error("a run that is over is taken up")
	}
	broken := runDesk(t, c, RunConfig{Steps: kept[1:]}, &fullStore{})
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
