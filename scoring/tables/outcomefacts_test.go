package tables

import (
	"strings"
	"testing"
	"testing/fstest"

	"leastwatt/cases"
)

// benchTable is a rule file of the bench with one row, at line 2, column 1.
func benchTable(row string) fstest.MapFS {
	return fstest.MapFS{
		"terms.json":       {Data: []byte(noTerms)},
		"rules/bench.json": {Data: []byte("{\"about\": \"x\", \"domain\": \"bench\", \"rows\": [\n" + row + "\n]}")},
	}
}

const goodBenchRow = `{"rule": "b", "for": ["treat"], "points": 1, "ok": "outcome.rim_mm.high <= 1", "measures": "outcome.rim_mm", "tells": "A rim of {figure}; {limit} is asked.", "phrases": ["rim_mm"], "says": "s", "fault": "f", "why": "w", "source": "Body, Title, 2020, Place", "source_kind": "published", "certainty": "one_source"}`

func TestBenchRowFaults(t *testing.T) {
	if _, err := Load(benchTable(goodBenchRow)); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ name, old, new, says string }{
		{"reads the plan", `"ok": "`, `"ok": "power_w < 5 and `, `the bench row "b" reads the plan`},
		{"reads the plan by a term", `"ok": "`, `"ok": "hot and `, `the bench row "b" reads the plan`},
		{"outcome in if", `"ok"`, `"if": "outcome.bursts > 0", "ok"`, `"if" reads the plan`},
		{"no such figure", `"measures": "outcome.rim_mm"`, `"measures": "outcome.rim"`, `"outcome.rim" is no figure`},
		{"an end of the range is no figure", `"measures": "outcome.rim_mm"`, `"measures": "outcome.rim_mm.low"`, "is no figure"},
		{"a figure without measures", `"measures": "outcome.rim_mm", `, ``, `needs "measures"`},
		{"two limits", `<= 1"`, `<= 1 and outcome.rim_mm.low > 0.5"`, `"{limit}" needs an "ok"`},
		{"no such phrase", `["rim_mm"]`, `["rim"]`, `"rim" is no plan path`},
		{"no such hazard", `"ok": "`, `"ok": "not outcome.hazard has oxygen_of and `, `did you mean "oxygen_on"?`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			row := strings.Replace(goodBenchRow, tt.old, tt.new, 1)
			if row == goodBenchRow {
				t.Fatal("the change does nothing")
			}
			_, err := Load(benchTable(row))
			if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.Contains(err.Error(), "scoring/tables/rules/bench.json:2:") {
				t.Fatalf("error %v; want one at bench.json:2: with %q", err, tt.says)
			}
		})
	}
}

func TestPlanRowMayNotReadTheOutcome(t *testing.T) {
	for _, tt := range []struct{ old, new, says string }{
		{"power_w < 5", "power_w < 5 or outcome.bursts = 0", `reads the outcome`},
		{`"says"`, `"tells": "x", "says"`, `belong to rows of the domain "bench"`},
	} {
		_, err := Load(tableOf(strings.Replace(goodRow, tt.old, tt.new, 1)))
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%v; want %q", err, tt.says)
		}
	}
	for _, name := range PlanFacts() {
		if strings.HasPrefix(name, "outcome.") {
			t.Errorf("%s is listed as a fact of the plan", name)
		}
	}
}

func TestFillOutcome(t *testing.T) {
	var f Facts
	c := &cases.Case{Lesion: cases.Lesion{Family: "cherry_angioma", Site: "back", DepthMM: 800}}
	f.FillCase(c)
	second, rim := cases.Milli(300), cases.Milli(4000)
	f.FillOutcome(&Measured{
		Destroyed: Spread{620, 550, 700}, RimMM: Spread{2500, 3000, 2000}, DermisDepthMM: 950, LongestBurstS: 650, Bursts: 3,
		Hazards: []string{"felt_pain", "no_such_word"}, PlannedBurstS: &second, PlannedRimMM: &rim,
	})
	for _, tt := range []struct {
		condition string
		want      bool
	}{
		{"outcome.destroyed.low = 0.55 and outcome.destroyed = 0.62 and outcome.destroyed.high = 0.7", true},
		{"outcome.rim_mm.low = 2.5 and outcome.rim_mm.high = 2.5", true}, // a range the wrong way round holds its figure
		{"outcome.beyond_lesion_mm = 0.15", true},
		{"outcome.burst_share = 2.167", true}, // 0.65 s of 0.3 s, rounded
		{"outcome.rim_short_mm = 1.5", true},
		{"outcome.bursts = 3 and outcome.contact_breaks = 0", true},
		{"outcome.hazard has felt_pain and not outcome.order_fault has any char_left|not_numb", true},
	} {
		cond, err := Compile(tt.condition, nil)
		if err != nil {
			t.Fatal(err)
		}
		if cond.Holds(&f) != tt.want {
			t.Errorf("%s is %v", tt.condition, !tt.want)
		}
	}
	f.FillOutcome(&Measured{})
	for _, gone := range []string{"decided(outcome.burst_share)", "decided(outcome.rim_short_mm)", "outcome.hazard has felt_pain"} {
		if cond, _ := Compile(gone, nil); cond.Holds(&f) {
			t.Errorf("%s still holds of the next outcome", gone)
		}
	}
	f.FillPlan(c, &cases.Plan{}, "cautious")
	if cond, _ := Compile("decided(outcome.bursts)", nil); cond.Holds(&f) {
		t.Error("a new plan keeps the outcome of the last")
	}
}

// TestBenchSentences: what a bench row says is short enough to be read at the
// bench: at most 20 words a sentence, and no praise.
func TestBenchSentences(t *testing.T) {
	for _, r := range Builtin.Rows {
		if !r.Bench() {
			continue
		}
		told := strings.NewReplacer("{figure}", "0.62 (range 0.55 to 0.70)", "{limit}", "0.95").Replace(r.Tells)
		for _, text := range []string{told, r.Why, r.Says, r.Right, r.Fault} {
			for _, sentence := range strings.Split(text, ". ") {
				if n := len(strings.Fields(sentence)); n > 20 {
					t.Errorf("%s: %d words: %q", r.Rule, n, sentence)
				}
			}
			if strings.ContainsAny(text, "!?") {
				t.Errorf("%s: %q", r.Rule, text)
			}
		}
	}
}
