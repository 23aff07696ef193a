package plain

import (
	"bufio"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/game/screen"
)

// atBench is a player with a plan that the bench takes, and the lines typed.
func atBench(t *testing.T, ref, technique string, lines ...string) (*player, *strings.Builder) {
	t.Helper()
	desk, err := screen.NewDesk(screen.Config{Packs: builtin(t), Settings: screen.DefaultSettings(), Today: func() time.Time { return time.Unix(0, 0).UTC() }})
	if err != nil {
		t.Fatal(err)
	}
	out := &strings.Builder{}
	p := &player{lines: bufio.NewScanner(strings.NewReader(strings.Join(lines, "\n"))), printer: printer{out: out}, desk: desk}
	if p.s, err = desk.Open(ref); err != nil {
		t.Fatal(err)
	}
	planFor(p.s, technique)
	return p, out
}

func planFor(s *screen.Session, technique string) {
	s.Change("", func(p *cases.Plan) {
		power := cases.Milli(5000)
		p.Disposition, p.Technique, p.Electrode, p.Output, p.Contact, p.PowerW = "treat", technique, "fine", "low", "touch", &power
		p.Protection = []string{"gloves", "hand_contact", "smoke_evacuator"}
	})
}

// Blade, pot and gauze by words: what is cut is told, bleeds, and is dried.
func TestCutByWords(t *testing.T) {
	p, out := atBench(t, "hazards/painted-egg", "shave_excision", "pot", "shave 0.3", "shave 0.3 above", "wait 5", "press", "burst 40", "release", "pot", "done")
	at, err := p.treat()
	if err != nil || at != toDebrief || p.s.Treatment == nil {
		t.Fatalf("it goes to %v (%v)", at, err)
	}
	said := flat(out.String())
	for _, want := range []string{
		"Nothing has been taken yet.", `"shave 0.3 above" or "shave 0.3 below"`, "You cut 0.3 mm above the skin. The patient: “I can feel that.” Stopped: the patient felt pain.", "It takes", "raw", "Bleeding points:",
		"You press with the dry gauze", "A burst can be 0.05 to 30 s, by 0.01.", "You let go.", "What was taken is in the pot.", "The treatment has ended.",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if strings.Contains(said, "It takes nothing") {
		t.Error("the cut took nothing")
	}
	p.powers()
	if !strings.HasSuffix(flat(out.String()), "No current was used, so power changes nothing.") {
		t.Error("powers are told though no current was used")
	}
	checkWidth(t, out.String())
	if t.Failed() {
		t.Log(out.String())
	}
}

// In a self-assessment meters are hidden, nothing is undone, a treatment that
// has begun cannot be left, and the case is handed in with its outcome.
func TestBenchInAnAssessment(t *testing.T) {
	p, out := atBench(t, "first-list/collar", "electrodesiccation", "plan", "next", "burst 0.1", "undo", "restart", "plan", "look", "done")
	if err := p.desk.BeginRun(p.desk.Blueprints()[0], 7, ""); err != nil {
		t.Fatal(err)
	}
	run := p.desk.Run()
	s, err := p.desk.Open(run.Ref(run.Next()))
	if err != nil {
		t.Fatal(err)
	}
	p.s = s
	planFor(s, "electrodesiccation")
	if at, err := p.treat(); err != nil || at != toPlan {
		t.Fatalf("an untouched bench is left for %v (%v)", at, err)
	}
	if at, err := p.treat(); err != nil || at != toDebrief {
		t.Fatalf("it goes to %v (%v)", at, err)
	}
	said := flat(out.String())
	for _, want := range []string{"Nothing can be undone in a self-assessment.", "Nothing can be begun again in a self-assessment.", `A treatment that has begun ends with "done"`, "Done on the bench:", "To the eye"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	for _, hidden := range []string{"delivered", "Resistance", "So far:", "What it did:"} {
		if strings.Contains(said, hidden) {
			t.Errorf("it tells of %q", hidden)
		}
	}
	if at, err := p.treat(); err != nil || at != toPlan {
		t.Errorf("a case that is treated opens the bench again: %v (%v)", at, err)
	}
	if err := p.desk.HandIn(s); err != nil {
		t.Fatal(err)
	}
	if g := run.Given[0]; g == nil || len(g.Session) == 0 {
		t.Error("the session is not handed in")
	}
	if t.Failed() {
		t.Log(out.String())
	}
}

// A plan that the bench does not take says so.
func TestBenchNeedsATechnique(t *testing.T) {
	p, out := atBench(t, "first-list/collar", "cryotherapy")
	if at, err := p.treat(); err != nil || at != toPlan || !strings.Contains(out.String(), "The bench opens once") {
		t.Errorf("it goes to %v (%v): %s", at, err, out)
	}
}

func TestShareText(t *testing.T) {
	for n, want := range map[int]string{1: "a little", 10: "some", 39: "some", 40: "about half", 60: "most", 90: "nearly all", 99: "nearly all", 100: "all"} {
		if got := shareText(n, 100); got != want {
			t.Errorf("%d of 100 is %q, should be %q", n, got, want)
		}
	}
}
