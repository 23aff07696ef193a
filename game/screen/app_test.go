package screen

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

// A whole case by keyboard messages alone, as a window would send them.
func TestAWholeCaseByKeyboard(t *testing.T) {
	cfg := quiet(config())
	var kept *cases.Plan
	cfg.SaveDraft = func(p *cases.Plan) error { kept = p; return nil }
	var copied string
	cfg.Copy = func(text string) error { copied = text; return nil }
	a := newApp(t, cfg)
	h := ui.NewHost(a)
	h.Frame()

	keys(h, "Down", "Enter")
	if a.at != atCase || a.session.Ref != a.today()[1].ref {
		t.Fatalf("Enter on the second row opened %v", a.session)
	}
	keys(h, " ", "Down", " ", "Tab", "Down", "Down", " ")
	if want := []string{"feel", "pinch", "blood_thinners"}; !slices.Equal(a.session.Plan.Asked, want) {
		t.Fatalf("asked %v, should be %v", a.session.Plan.Asked, want)
	}
	if !strings.Contains(textOf(a), PlainText(cases.AnswerFor(a.session.Case, "pinch", cases.UK).Text)) {
		t.Error("the answer is not on the screen")
	}
	keys(h, "alt+2")
	if h.Focus() != "disposition" || !a.WantsText() {
		t.Fatalf("the plan begins on %q", h.Focus())
	}
	keys(h, "Down", "Tab", "Down") // treat; electrodesiccation
	keys(h, "Tab", "Down", "Tab", "Down", "Tab", "Down", "Tab", "2", ".", "5", "Enter", "Tab", "0", ",", "5", "Enter")
	keys(h, "Tab", "Up", "Tab", "PageUp")
	want := mustPlan(a.session.Ref, cases.Plan{
		Asked: []string{"feel", "pinch", "blood_thinners"}, Disposition: "treat", Technique: "electrodesiccation",
		Electrode: "fine", Output: "low", Contact: "touch", PowerW: milli(2500), ActivationS: milli(500), Cycles: milli(1000), RimMM: milli(0),
	})
	if diff := cmp.Diff(want, a.session.Plan); diff != "" {
		t.Fatal(diff)
	}
	if diff := cmp.Diff(want, kept); diff != "" {
		t.Errorf("what was handed out to be kept differs: %s", diff)
	}
	keys(h, "ctrl+c")
	if !strings.HasPrefix(copied, "TRAINING - not a patient record, not a prescription\n") || !strings.Contains(copied, "at 2.5 W for at most 0.5 s at a time") {
		t.Errorf("copied: %q", copied)
	}
	h.KeyDown(ui.Key{Name: "Enter", Ctrl: true})
	if a.at != atDebrief || a.session.Grade == nil {
		t.Fatal("Ctrl Enter did not grade")
	}
	if len(a.done) != 1 || a.done[0].grade != a.session.First {
		t.Error("the case does not count as done")
	}
	if _, err := cases.ReadPlan("draft", cases.Canonical(kept)); err != nil {
		t.Errorf("the kept plan is no valid plan: %v", err)
	}
	tryWhatIf(t, a, h)
	keys(h, "Escape", "t")
	if a.at != atToday {
		t.Fatal("T did not lead to today")
	}
	if text := textOf(a); !strings.Contains(text, "of 1 case") {
		t.Errorf("today does not count the case:\n%s", text)
	}
}

// tryWhatIf goes to a finding's phrase, changes it, and sees the marks move.
func tryWhatIf(t *testing.T, a *App, h *ui.Host) {
	t.Helper()
	at := slices.IndexFunc(a.numbered(), func(f Numbered) bool { return slices.Contains(f.Phrases, "record") })
	if at < 0 {
		t.Fatal("no finding asks for a record")
	}
	for range at {
		keys(h, "n")
	}
	if a.marks.chosen != at+1 || h.Focus() != findingID(at+1) {
		t.Fatalf("N leads to %q, chosen %d", h.Focus(), a.marks.chosen)
	}
	before := a.session.Grade
	keys(h, "Enter")
	if h.Focus() != "record" || !a.WantsText() {
		t.Fatalf("Enter on the finding leads to %q", h.Focus())
	}
	keys(h, "1", "2", "3")
	if a.session.Grade == before || a.session.Grade.Points <= before.Points {
		t.Error("the better plan was not graded again")
	}
	if a.session.First != a.done[0].grade {
		t.Error("what-if changed the first grade")
	}
	keys(h, "ctrl+z", "ctrl+z", "ctrl+z")
	if diff := cmp.Diff(before, a.session.Grade); diff != "" {
		t.Errorf("after undo the grade differs: %s", diff)
	}
}

// Undo of any run of changes gives back the very plans, and redo the others.
func TestUndoReturnsExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pack, c := anyCase(t)
		s := newSession(pack, c, nil, nil)
		states := []*cases.Plan{clonePlan(s.Plan)}
		for range rapid.IntRange(1, 25).Draw(t, "changes") {
			changed := false
			if rapid.IntRange(0, 4).Draw(t, "ask") == 0 {
				changed = s.Ask(rapid.SampledFrom(cases.Vocab.IDs("topic")).Draw(t, "topic"))
			} else {
				phrases := Phrases(s.Note(cases.UK))
				id := rapid.SampledFrom(phrases).Draw(t, "phrase").ID
				changed = s.Change("", func(p *cases.Plan) { anyEdit(t, p, id) })
			}
			if changed {
				states = append(states, clonePlan(s.Plan))
			}
		}
		for i := len(states) - 2; i >= 0; i-- {
			if !s.Undo() {
				t.Fatalf("undo stopped %d states before the first", i+1)
			}
			if diff := cmp.Diff(states[i], s.Plan); diff != "" {
				t.Fatalf("undo to state %d: %s", i, diff)
			}
		}
		if s.Undo() {
			t.Fatal("undo went on before the first state")
		}
		for i := 1; i < len(states); i++ {
			if !s.Redo() || cmp.Diff(states[i], s.Plan) != "" {
				t.Fatalf("redo to state %d: %s", i, cmp.Diff(states[i], s.Plan))
			}
		}
	})
}

// A run of steps on one dial is one change.
func TestARunOfStepsIsUndoneTogether(t *testing.T) {
	pack, c := caseOf(t, "first-list/wedding")
	s := newSession(pack, c, nil, nil)
	up := func(e *Editor) { e.Step(1) }
	for range 5 {
		s.Edit("power_w", "power_w", cases.UK, up)
	}
	s.EndRun()
	s.Edit("power_w", "power_w", cases.UK, up)
	s.Undo()
	if n, _ := numberAt(s.Plan, "power_w"); n != 500 {
		t.Errorf("after one undo the power is %s W, should be 0.5", n)
	}
	s.Undo()
	if s.Plan.PowerW != nil {
		t.Error("the run was not undone together")
	}
}

// No screen before the debrief says what the lesion is.
func TestNothingIsToldBeforeTheDebrief(t *testing.T) {
	a := newApp(t, quiet(config()))
	a.showAll(true)
	list := textOf(a)
	for _, e := range a.order {
		a.openCase(e.ref)
		before := list + textOf(a)
		a.goTo(atPlan)
		before += textOf(a)
		for _, id := range []string{e.c.Lesion.Family, e.c.Lesion.LooksLike} {
			family := cases.Vocab.Label("family", id, cases.UK)
			if id != "" && strings.Contains(strings.ToLower(before), strings.ToLower(family)) && !inVocabulary(family) {
				t.Errorf("%s: a screen names the family %q", e.ref, family)
			}
		}
		answers := ""
		for _, topic := range cases.Vocab.IDs("topic") {
			a.session.Ask(topic)
			answers += strings.ToLower(cases.AnswerFor(e.c, topic, cases.UK).Text)
		}
		for _, d := range []string{"treat", "biopsy_first", "refer", "leave"} {
			a.session.Change("", func(p *cases.Plan) { p.Disposition = d })
			before += textOf(a)
		}
		a.goTo(atCase)
		before += textOf(a)
		for what, secret := range map[string]string{
			"title": e.c.Title, "diagnosis": e.c.Truth.Diagnosis, "histology": e.c.Truth.Histology, "teaching": e.c.Teaching,
		} {
			told := e.c.Lesion.Report != nil || secret == "" || strings.Contains(answers, strings.ToLower(secret)) || inVocabulary(secret)
			if !told && strings.Contains(strings.ToLower(before), strings.ToLower(secret)) {
				t.Errorf("%s: a screen tells the %s %q", e.ref, what, secret)
			}
		}
	}
}

// inVocabulary tells whether a text is also an everyday word of the choices,
// such as "keloid" among what may be asked.
func inVocabulary(text string) bool {
	for _, table := range []string{"topic", "advice", "technique", "other_care"} {
		for _, w := range cases.Vocab.List(table) {
			if strings.Contains(strings.ToLower(w.UK+" "+w.Line), strings.ToLower(text)) {
				return true
			}
		}
	}
	return false
}

// Hazards are told only when they are asked for.
func TestHazardsWaitToBeAsked(t *testing.T) {
	a := newApp(t, quiet(config()))
	met := 0
	for _, e := range a.order {
		if len(e.c.Patient.Devices) == 0 {
			continue
		}
		met++
		a.openCase(e.ref)
		answer := cases.AnswerFor(e.c, "devices", cases.UK).Text
		if strings.Contains(textOf(a), answer) {
			t.Errorf("%s tells of a device before it is asked", e.ref)
		}
		a.Update(ui.Choose{ID: "ask", Index: 0})
		if !strings.Contains(textOf(a), answer) {
			t.Errorf("%s does not tell of the device when asked", e.ref)
		}
	}
	if met == 0 {
		t.Error("no built-in case has a device")
	}
}

func TestDraftsComeBackAndFailuresShow(t *testing.T) {
	cfg := quiet(config())
	draft := mustPlan("first-list/wedding", cases.Plan{Disposition: "leave", Asked: []string{"change"}})
	cfg.Drafts = map[string]*cases.Plan{"first-list/wedding": draft}
	fails := errors.New("the disk is full")
	cfg.SaveDraft = func(*cases.Plan) error { return fails }
	a := newApp(t, cfg)
	a.openCase("first-list/wedding")
	if diff := cmp.Diff(draft, a.session.Plan); diff != "" {
		t.Error(diff)
	}
	a.session.Ask("feel")
	if len(draft.Asked) != 1 {
		t.Error("the plan handed in was changed")
	}
	if !strings.Contains(textOf(a), "could not be kept: the disk is full") {
		t.Error("nothing says that the plan could not be kept")
	}
	fails = nil
	a.session.Ask("pinch")
	if strings.Contains(textOf(a), "could not be kept") {
		t.Error("the warning stays after the plan was kept")
	}
}

func TestUsualKitIsDashedUntilLookedAt(t *testing.T) {
	a := newApp(t, quiet(config()))
	a.Desk.usual = &cases.Plan{Protection: []string{"gloves", "mask"}, Advice: []string{"infection_signs"}}
	a.openCase("first-list/wedding")
	a.session.Change("", func(p *cases.Plan) { p.Disposition = "treat"; p.Advice = []string{"sun_protection"} })
	a.goTo(atPlan)
	h := ui.NewHost(a)
	keys(h, "ctrl+k")
	if !slices.Equal(a.session.Plan.Protection, []string{"gloves", "mask"}) || !slices.Equal(a.session.Plan.Advice, []string{"sun_protection"}) {
		t.Fatalf("protection %v, advice %v", a.session.Plan.Protection, a.session.Plan.Advice)
	}
	state := func() State {
		for _, p := range Phrases(a.session.Note(cases.UK)) {
			if p.ID == "protection" {
				return p.State
			}
		}
		return Open
	}
	if state() != Unseen {
		t.Error("what was filled in by one key does not say so")
	}
	for h.Focus() != "protection" {
		keys(h, "Tab")
	}
	if state() != Decided {
		t.Error("looking at it does not settle it")
	}
}

func TestSettingsTakeEffectAtOnce(t *testing.T) {
	cfg := quiet(config())
	var kept Settings
	cfg.SaveSettings = func(s Settings) error { kept = s; return nil }
	a := newApp(t, cfg)
	h := ui.NewHost(a)
	keys(h, ",")
	keys(h, "Down", "Tab", "Down", "Tab", "Down", "Tab", "Down", "Tab", "Down", "Tab", "Up")
	want := Settings{TextScale: 125, Dark: true, Words: cases.US, Labels: "us", Learner: "learner", ReducedMotion: true, Sound: false}
	if diff := cmp.Diff(want, a.Settings); diff != "" {
		t.Error(diff)
	}
	if kept != a.Settings || !a.Dark() || a.TextScale() != 1.25 || !a.ReducedMotion() || a.Sound() {
		t.Errorf("handed out: %+v", kept)
	}
	if !strings.Contains(textOf(a), "your license decide") && !strings.Contains(textOf(a), "license") {
		t.Error("the caution keeps its British spelling")
	}
	keys(h, "ctrl+-", "ctrl+-", "Escape")
	if a.Settings.TextScale != 100 || a.at != atToday {
		t.Errorf("text size %d, place %d", a.Settings.TextScale, a.at)
	}
}

func TestTheCautionStandsEverywhere(t *testing.T) {
	a := newApp(t, quiet(config()))
	a.openCase(a.order[0].ref)
	if err := a.Grade(a.session); err != nil {
		t.Fatal(err)
	}
	for at := atToday; at <= atSettings; at++ {
		a.goTo(at)
		if text := textOf(a); !strings.Contains(text, Caution(cases.UK)) {
			t.Errorf("place %d has no caution:\n%s", at, text)
		}
		a.help = true
		if a.viewKeys() == nil || len(keyRows(everywhere)) == 0 {
			t.Errorf("place %d has no keys", at)
		}
	}
}

func TestSeedOrdersCasesWithinALevel(t *testing.T) {
	orders := map[string]bool{}
	for seed := range uint64(4) {
		cfg := quiet(config())
		cfg.Seed = seed
		d, err := NewDesk(cfg)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := NewDesk(cfg)
		if !slices.Equal(d.Cases(), again.Cases()) {
			t.Fatal("the same seed gives another order")
		}
		orders[strings.Join(d.Cases(), " ")] = true
		for i := 1; i < len(d.order); i++ {
			if d.order[i].c.Level < d.order[i-1].c.Level {
				t.Fatalf("%s comes after a harder case", d.order[i].ref)
			}
		}
	}
	if len(orders) < 2 {
		t.Error("the seed does not change the order")
	}
}
