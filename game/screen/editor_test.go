package screen

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
)

// Whatever the editors reach is a plan that the plan reader takes.
func TestEditorsReachOnlyValidPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, c := anyCase(t)
		p := anyPlan(t, c)
		if _, err := cases.ReadPlan("plan", cases.Canonical(p)); err != nil {
			t.Fatal(err)
		}
		if !samePlan(p, clonePlan(p)) {
			t.Fatal("a clone differs from its plan")
		}
	})
}

func TestDataFilesRead(t *testing.T) {
	for _, test := range []struct{ name, file, data, want string }{
		{"a word that is none", "notewords.json", `{"about":"x","words":[{"table":"electrode","id":"broad","text":"x"}]}`, `1:49: there is no electrode "broad"`},
		{"a word twice", "notewords.json", `{"about":"x","words":[{"table":"electrode","id":"fine","text":"x"},{"table":"electrode","id":"fine","text":"x"}]}`, `stands twice`},
	} {
		if _, err := readNoteWords(test.file, []byte(test.data)); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, should hold %q", test.name, err, test.want)
		}
	}
	for _, test := range []struct{ name, data, want string }{
		{"a path that is none", `{"about":"x","phrases":[{"path":"watts","name":"x","says":"x"}]}`, `1:33: a plan has no "watts"`},
		{"a mark out of range", `{"about":"x","phrases":[{"path":"power_w","name":"x","says":"x","marks":["70"]}]}`, `"70" is no number up to 35`},
	} {
		if _, err := readPhrases("phrases.json", []byte(test.data)); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, should hold %q", test.name, err, test.want)
		}
	}
}

// Every key of a plan has a phrase, so that no key can be reached by file only.
func TestEveryPlanKeyHasAPhrase(t *testing.T) {
	heads := map[string]bool{"format": true, "case": true}
	for path := range phraseRows {
		head, _, _ := strings.Cut(path, ".")
		heads[head] = true
	}
	full := cases.Plan{
		Format: "x", Case: "x", Asked: []string{}, Disposition: "x", Technique: "x", Electrode: "x", Output: "x", Contact: "x",
		PowerW: milli(1), ActivationS: milli(1), Cycles: milli(1), RimMM: milli(1), MarginMM: milli(1), Haemostasis: &cases.Haemostasis{},
		Anaesthetic: &cases.Anaesthetic{}, Prep: &cases.Prep{}, Protection: []string{}, EvacuatorCM: milli(1), Record: []string{},
		Specimen: &cases.Specimen{}, BloodThinner: "x", Prescribe: []string{}, FollowUpDays: milli(1), Referral: &cases.Referral{},
		OtherCare: "x", Advice: []string{}, Confidence: milli(1),
	}
	keys := append(cases.DecidedKeys(&full), "disposition", "confidence")
	for _, key := range keys {
		if !heads[key] {
			t.Errorf("the key %q has no phrase", key)
		}
	}
	if len(keys) < 24 {
		t.Errorf("only %d keys were looked at", len(keys))
	}
}

func TestTypedNumbers(t *testing.T) {
	for _, test := range []struct{ id, typed, want string }{
		{"power_w", "7", "7"},
		{"power_w", "7.3", "7.3"},
		{"power_w", "7,3", "7.3"},
		{"power_w", ".5", "0.5"},
		{"power_w", " 2.0 W", "2"},
		{"power_w", "35", "35"},
		{"power_w", "35.1", ""},
		{"power_w", "0", ""},
		{"power_w", "0.05", ""},
		{"power_w", "-2", ""},
		{"power_w", "1e1", ""},
		{"power_w", "two", ""},
		{"power_w", "", ""},
		{"power_w", "NaN", ""},
		{"power_w", "1/2", ""},
		{"activation_s", "0.05", "0.05"},
		{"activation_s", "0.07", ""},
		{"cycles", "3", "3"},
		{"cycles", "1 cycle", "1"},
		{"cycles", "2 cycles", "2"},
		{"cycles", "3.5", ""},
		{"cycles", "11", ""},
		{"rim_mm", "0.5", "0.5"},
		{"rim_mm", "0.3", ""},
		{"follow_up_days", "730", "730"},
		{"follow_up_days", "731", ""},
		{"evacuator_cm", "2.5", "2.5"},
		{"anaesthetic.needle_gauge", "30", "30"},
		{"anaesthetic.needle_gauge", "35", ""},
	} {
		p := &cases.Plan{}
		e, ok := EditorFor(p, test.id, cases.UK)
		if !ok {
			t.Fatalf("%s has no editor", test.id)
		}
		err := e.Type(test.typed)
		got := ""
		if n, ok := e.Number(); ok {
			got = n.String()
		}
		if got != test.want || (err == nil) != (test.want != "") {
			t.Errorf("%s, typed %q: %q (%v), should be %q", test.id, test.typed, got, err, test.want)
		}
	}
}

func TestStepsOfADial(t *testing.T) {
	for _, test := range []struct {
		id    string
		from  *cases.Milli
		steps []int
		want  int64
	}{
		{"power_w", nil, []int{1}, 100},
		{"power_w", milli(7000), []int{1, 1}, 7200},
		{"power_w", milli(7000), []int{10}, 8000},
		{"power_w", milli(34900), []int{10}, 35000},
		{"power_w", milli(100), []int{-1}, 100},
		{"margin_mm", milli(1200), []int{1}, 1500},
		{"margin_mm", milli(1200), []int{-1}, 1000},
		{"prep.dry_wait_s", milli(60000), []int{1}, 90000},
		{"prep.dry_wait_s", milli(61000), []int{-1}, 60000},
		{"anaesthetic.wait_min", milli(120000), []int{1}, 120000},
		{"confidence", nil, []int{1}, 500},
	} {
		p := &cases.Plan{}
		e, _ := EditorFor(p, test.id, cases.UK)
		if test.from != nil {
			if err := e.Set(*test.from); err != nil {
				t.Fatal(err)
			}
		}
		for _, by := range test.steps {
			e.Step(by)
		}
		if n, _ := e.Number(); int64(n) != test.want {
			t.Errorf("%s from %v by %v: %d, should be %d", test.id, test.from, test.steps, n, test.want)
		}
	}
}

// Nothing is filled in by choosing to inject: agent, strength and volume are
// open until somebody decides.
func TestInjectingStartsOpen(t *testing.T) {
	p := &cases.Plan{Disposition: "treat"}
	for _, kind := range []string{"An injection", "Injections of two agents", "No anaesthetic", "A surface agent and an injection"} {
		e, _ := EditorFor(p, "anaesthetic", cases.UK)
		for i, it := range e.Items {
			if it.Label == kind {
				e.Pick(i)
			}
		}
		for _, in := range p.Anaesthetic.Injected {
			if in.Agent != "" || in.Percent != nil || in.VolumeML != nil || in.Adrenaline != "" {
				t.Errorf("%s fills in %+v", kind, in)
			}
		}
	}
	if p.Anaesthetic.None != nil || len(p.Anaesthetic.Injected) != 1 || p.Anaesthetic.Topical == nil {
		t.Errorf("both ways: %+v", p.Anaesthetic)
	}
}

// A whole word stands in the singular after 1, on the dial and in the note.
func TestUnitsAgreeWithTheirNumber(t *testing.T) {
	for _, test := range []struct{ id, typed, unit string }{
		{"cycles", "1", "cycle"}, {"cycles", "2", "cycles"}, {"follow_up_days", "1", "day"}, {"follow_up_days", "0", "days"}, {"power_w", "1", "W"},
	} {
		e, _ := EditorFor(&cases.Plan{}, test.id, cases.UK)
		if err := e.Type(test.typed); err != nil {
			t.Fatal(err)
		}
		if e.Unit() != test.unit || e.row.unitTyped(test.typed) != test.unit {
			t.Errorf("%s %s: %s, while typing %s; should be %s", test.id, test.typed, e.Unit(), e.row.unitTyped(test.typed), test.unit)
		}
	}
}
