package screen

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

func planApp(t testing.TB, p cases.Plan) (*App, *ui.Host) {
	t.Helper()
	a := newApp(t, quiet(config()))
	a.openCase("first-list/wedding")
	a.session.Plan = mustPlan("first-list/wedding", p)
	a.goTo(atPlan)
	return a, ui.NewHost(a)
}

func focusOn(t testing.TB, h *ui.Host, id string) {
	t.Helper()
	for range 100 {
		if h.Focus() == id {
			return
		}
		keys(h, "Tab")
	}
	t.Fatalf("Tab does not reach %q", id)
}

// A number that cannot be stays on show with what would be right; Escape drops
// it, and leaving the phrase keeps the old value and says so.
func TestNumbersThatCannotBe(t *testing.T) {
	a, h := planApp(t, cases.Plan{Disposition: "treat", Technique: "electrodesiccation", PowerW: milli(3000)})
	focusOn(t, h, "power_w")
	keys(h, "9", "9", "g", "Enter")
	if *a.session.Plan.PowerW != 3000 || a.edit.fault != "0.1 to 35"+thinSpace+"W, by 0.1" || a.edit.typed != "99" {
		t.Errorf("power %v, fault %q, typed %q", a.session.Plan.PowerW, a.edit.fault, a.edit.typed)
	}
	keys(h, "Backspace", "Enter")
	if *a.session.Plan.PowerW != 9000 || a.edit.typing {
		t.Errorf("after Backspace and Enter the power is %v", a.session.Plan.PowerW)
	}
	keys(h, "5", "Escape", "Escape")
	if *a.session.Plan.PowerW != 9000 || a.WantsText() {
		t.Errorf("Escape leaves %v, the editor open: %v", a.session.Plan.PowerW, a.WantsText())
	}
	keys(h, "Enter", "4", ".", "5", "Tab")
	if *a.session.Plan.PowerW != 4500 {
		t.Errorf("leaving a good number behind gives %v", a.session.Plan.PowerW)
	}
	keys(h, "8", "8", "Tab")
	if a.session.Plan.ActivationS != nil || !strings.Contains(a.toast, "“88” was left out") {
		t.Errorf("leaving a bad number behind: %v, %q", a.session.Plan.ActivationS, a.toast)
	}
	focusOn(t, h, "power_w")
	keys(h, "Delete")
	if a.session.Plan.PowerW != nil {
		t.Error("Delete does not leave the phrase open")
	}
	keys(h, "7", "?")
	if !a.help || a.edit.typed != "7" {
		t.Error("? does not show the keys while a number is typed")
	}
}

func TestChoicesByLetterNumberAndWheel(t *testing.T) {
	a, h := planApp(t, cases.Plan{Disposition: "treat", Technique: "electrodesiccation"})
	focusOn(t, h, "technique")
	keys(h, "p")
	if a.session.Plan.Technique != "punch_biopsy" {
		t.Errorf("P chooses %q", a.session.Plan.Technique)
	}
	keys(h, "2")
	if a.session.Plan.Technique != "electrofulguration" {
		t.Errorf("2 chooses %q", a.session.Plan.Technique)
	}
	a.Update(ui.Step{ID: "output", By: 1}) // the wheel over a phrase that has no focus
	a.Update(ui.Step{ID: "output", By: 1})
	if a.session.Plan.Output != "high" || a.edit.id != "output" {
		t.Errorf("the wheel gives output %q, editor of %q", a.session.Plan.Output, a.edit.id)
	}
	a.Update(ui.Choose{ID: editorID("output"), Index: 0})
	a.Update(ui.Choose{ID: editorID("power_w"), Index: 0}) // an editor that is not open
	if a.session.Plan.Output != "low" || a.session.Plan.PowerW != nil {
		t.Errorf("a click gives output %q", a.session.Plan.Output)
	}
	keys(h, "ctrl+z", "ctrl+z", "ctrl+y")
	if a.session.Plan.Output != "high" {
		t.Errorf("undo twice and redo give output %q", a.session.Plan.Output)
	}
	a.Update(ui.Activate{ID: "asked"})
	if a.at != atCase {
		t.Error("what was asked does not lead to the case")
	}
}

func TestConfidenceIsDialled(t *testing.T) {
	a, h := planApp(t, cases.Plan{Disposition: "leave"})
	focusOn(t, h, "confidence")
	keys(h, "Up", "Up", "Up")
	if got := *a.session.Plan.Confidence; got != 700 {
		t.Errorf("three steps give %s", got)
	}
	a.Update(ui.SetFraction{ID: "confidence", F: 0.9})
	if got := *a.session.Plan.Confidence; got != 900 {
		t.Errorf("dragging gives %s", got)
	}
	keys(h, "ctrl+z")
	if a.session.Plan.Confidence != nil {
		t.Error("steps and drags on one dial are not undone together")
	}
}

// Whatever messages come, in whatever place, the program stands, shows
// something, and keeps a plan that can be read.
func TestAnyMessagesAreTaken(t *testing.T) {
	ids := []string{
		"cases", "begin", "any", "tabs", "ask", "examine", "to plan", "look pinch", "grade", "ask more", "confidence", "editor", "",
		"next case", "change", "credits", "finding 1", "finding 9", "packs", "rules search", "rules domain", "clear search", "set text", "set words",
	}
	for path := range phraseRows {
		ids = append(ids, path, editorID(path))
	}
	ids = append(ids, "anaesthetic.injected.0.agent", "anaesthetic.injected.0.volume_ml", "anaesthetic.injected.7.agent")
	slices.Sort(ids)
	names := []string{"Escape", "Enter", "Backspace", "Delete", "n", "s", "c", "g", "t", "k", "r", ",", "?", "v", "a", "x"}
	rapid.Check(t, func(t *rapid.T) {
		cfg := quiet(config())
		cfg.Copy = func(string) error { return fmt.Errorf("no") }
		cfg.LoadPack = func(_ fs.FS, name string) PackReport { return PackReport{Name: name} }
		a, err := NewApp(cfg)
		if err != nil {
			t.Fatal(err)
		}
		for range rapid.IntRange(1, 40).Draw(t, "messages") {
			id := rapid.SampledFrom(ids).Draw(t, "id")
			n := rapid.IntRange(-2, 40).Draw(t, "n")
			switch rapid.IntRange(0, 9).Draw(t, "kind") {
			case 0:
				a.Update(ui.Activate{ID: id})
			case 1:
				a.Update(ui.Choose{ID: id, Index: n})
			case 2:
				a.Update(ui.Step{ID: id, By: n})
			case 3:
				a.Update(ui.SetFraction{ID: id, F: float64(n) / 10})
			case 4:
				a.Update(ui.TextInput{ID: id, Text: fmt.Sprint(n)})
			case 5:
				a.Update(ui.Focused{ID: id})
			case 6:
				a.Update(ui.Key{Name: rapid.SampledFrom(names).Draw(t, "key"), Ctrl: n%3 == 0})
			case 7:
				a.Update(ui.Key{Name: fmt.Sprint(1 + max(n, 0)%4), Alt: true})
			case 8:
				a.Update(ui.Resize{W: 960 + 30*n, H: 640, TextScale: 1 + float64(max(n, 0)%2)})
			default:
				a.Update(ui.Drop{Name: "dropped", FS: fstest.MapFS{}})
			}
			if textOf(a) == "" {
				t.Fatal("nothing is shown")
			}
		}
		for _, s := range a.sessions {
			if _, err := cases.ReadPlan("plan", cases.Canonical(s.Plan)); err != nil {
				t.Fatal(err)
			}
		}
	})
}
