package scoring_test

import (
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/benchexample"
	"leastwatt/scoring/tables"
)

func judge(t testing.TB, c *cases.Case, local ...cases.LocalRule) *scoring.Judge {
	t.Helper()
	j, err := scoring.NewJudge(tables.Builtin, c, local, "cautious")
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// TestBenchRows fires every graded row of the bench both ways.
func TestBenchRows(t *testing.T) {
	fired := map[string]bool{}
	for _, e := range benchexample.All() {
		fired[e.Rule] = true
		t.Run(e.Rule, func(t *testing.T) {
			j := judge(t, e.Case)
			row := tables.Builtin.Row(e.Rule)
			if row == nil || !slices.Contains(j.BenchRows(), row) {
				t.Fatalf("the row does not concern the case")
			}
			f, ok := e.Find(j, &e.Satisfied)
			if ok != (row.Points > 0) || ok && f.Kind != "credit" {
				t.Errorf("satisfied: %v %+v", ok, f)
			}
			f, ok = e.Find(j, &e.Broken)
			if !ok || f.Kind != e.As || f.Domain != "bench" || f.Points != 0 {
				t.Fatalf("broken: %+v, want %s", f, e.As)
			}
			if f.Choice == "did not happen" || f.Choice == "" || f.Certainty != row.Certainty {
				t.Errorf("broken: %+v", f)
			}
			if row.Measures != "" && (!strings.HasPrefix(f.Why, "The ") && !strings.HasPrefix(f.Why, "Your ") || strings.ContainsAny(f.Why, "{}")) {
				t.Errorf("the reason does not begin with what was found: %q", f.Why)
			}
		})
	}
	for _, r := range tables.Builtin.Rows {
		if r.Bench() && !r.Knowledge && !fired[r.Rule] {
			t.Errorf("%s has no example", r.Rule)
		}
	}
}

// TestRangeGivesAdvice: credit where the whole range is right, a caution where
// none of it is, and advice that rests on the model where the limit lies in it.
func TestRangeGivesAdvice(t *testing.T) {
	wart := benchexample.All()[0]
	for _, tt := range []struct {
		name, kind, certainty string
		at, low, high         cases.Milli
	}{
		{"the whole range above the limit", "credit", "common_practice", 970, 950, 990},
		{"the figure above, its least below", "advice", "model", 970, 940, 990},
		{"the figure below, its greatest above", "advice", "model", 900, 850, 960},
		{"the whole range below", "caution", "common_practice", 620, 550, 700},
		{"a range the wrong way round is read by its figure", "caution", "common_practice", 620, 700, 550},
	} {
		t.Run(tt.name, func(t *testing.T) {
			o := &scoring.Outcome{Bursts: 3, LesionDestroyedFraction: tt.at, Range: &scoring.OutcomeRange{
				LesionDestroyedFraction: [2]cases.Milli{tt.low, tt.high},
			}}
			f, _ := wart.Find(judge(t, wart.Case), o)
			if f.Kind != tt.kind || f.Certainty != tt.certainty {
				t.Fatalf("%s, %s; want %s, %s", f.Kind, f.Certainty, tt.kind, tt.certainty)
			}
			if strings.Contains(f.Why, "inside the model's range") != (tt.certainty == "model") {
				t.Error(f.Why)
			}
		})
	}
}

// TestBetweenSourcesIsNotTheModel: a rim that one source allows is advice by
// the sources, whatever the range.
func TestBetweenSourcesIsNotTheModel(t *testing.T) {
	rim := example(t, "bench-rim-tumour")
	f, _ := rim.Find(judge(t, rim.Case), &scoring.Outcome{Bursts: 9, RimMM: 1500})
	if f.Kind != "advice" || f.Certainty != "sources_differ" {
		t.Errorf("%+v", f)
	}
}

func example(t *testing.T, rule string) benchexample.Example {
	t.Helper()
	for _, e := range benchexample.All() {
		if e.Rule == rule {
			return e
		}
	}
	t.Fatalf("no example of %s", rule)
	return benchexample.Example{}
}

func TestBenchWords(t *testing.T) {
	wart := example(t, "bench-gone-growth")
	o := &scoring.Outcome{Bursts: 3, LesionDestroyedFraction: 620, Range: &scoring.OutcomeRange{LesionDestroyedFraction: [2]cases.Milli{550, 700}}}
	f, _ := wart.Find(judge(t, wart.Case), o)
	if want := "The model destroyed or removed 0.62 (range 0.55 to 0.70) of the lesion; at least 0.95 is asked. "; !strings.HasPrefix(f.Why, want) {
		t.Errorf("%q does not begin with %q", f.Why, want)
	}
	if want := "share of the lesion destroyed: 0.62 (range 0.55 to 0.70)"; f.Choice != want {
		t.Errorf("%q, want %q", f.Choice, want)
	}
	numb := example(t, "bench-felt")
	if f, _ = numb.Find(judge(t, numb.Case), &numb.Broken); f.Choice != cases.Vocab.Label("order_fault", "not_numb", cases.UK) {
		t.Errorf("%q", f.Choice)
	}
	if f, _ = numb.Find(judge(t, numb.Case), &numb.Satisfied); f.Choice != "did not happen" {
		t.Errorf("%q", f.Choice)
	}
	base := example(t, "bench-base-covered")
	if f, _ = base.Find(judge(t, base.Case), &scoring.Outcome{}); f.Kind != "credit" || strings.Contains(f.Why, "0.00") {
		t.Errorf("a base without current: %+v", f)
	}
}

// TestLocalLimit: a supervisor's limit is the one that is told.
func TestLocalLimit(t *testing.T) {
	wart := example(t, "bench-gone-growth")
	for _, tt := range []struct {
		value, kind, told string
		local             bool
		at                cases.Milli
	}{
		{"0.6", "credit", "at least 0.60 is asked", true, 620},
		{"0.98", "caution", "at least 0.98 is asked", true, 960},
		{"0.8", "caution", "at least 0.95 is asked", false, 620}, // broken by either
		{"outcome.destroyed >= 0.5 and outcome.destroyed <= 0.9", "caution", "0.96 of the lesion. ", true, 960},
	} {
		j := judge(t, wart.Case, cases.LocalRule{Rule: wart.Rule, Value: tt.value, Reason: "Ours come back soon."})
		f, _ := wart.Find(j, &scoring.Outcome{Bursts: 3, LesionDestroyedFraction: tt.at})
		if f.Kind != tt.kind || f.Local != tt.local || !strings.Contains(f.Why, tt.told) {
			t.Errorf("%s: %s, local %v: %q", tt.value, f.Kind, f.Local, f.Why)
		}
	}
}

// TestBenchIsTold: what was done against safety is told even where the
// decision to treat was wrong, for no marks.
func TestBenchIsTold(t *testing.T) {
	c := &cases.Case{
		ID: "dark", Patient: cases.Patient{AgeYears: 60000, WeightKG: 70000, Sex: "male", SkinType: 2},
		Setting: cases.Setting{PathologyService: true},
		Lesion:  cases.Lesion{Family: "melanoma", LooksLike: "pigmented_suspicious", Site: "back", WidthMM: 9000, Features: []string{"irregular_pigment", "recent_change"}},
	}
	j := judge(t, c)
	g := j.GradeDone(benchexample.Plan(), &scoring.Outcome{Bursts: 2, Hazards: []string{"alcohol_wet", "specimen_late"}}, cases.UK)
	told := map[string]string{}
	for _, f := range g.Findings {
		told[f.Rule] = f.Kind
	}
	if j.Acceptable("treat") || told["bench-alcohol-wet"] != "never" || told["bench-specimen-first"] != "never" {
		t.Errorf("acceptable %v, told %v", j.Acceptable("treat"), told)
	}
}

// TestBenchLimit: what the debrief's curve calls gone is what the rows ask.
func TestBenchLimit(t *testing.T) {
	for _, tt := range []struct {
		rule, fact string
		limit      cases.Milli
		ok         bool
	}{
		{"bench-gone-growth", "outcome.destroyed", 950, true},
		{"bench-gone-vascular", "outcome.destroyed", 800, true},
		{"bench-depth-dermal", "outcome.dermis_fraction", 500, true},
		{"bench-rim-tumour", "outcome.rim_mm", 0, false}, // from 2 to 4 mm
		{"bench-rim-tumour", "outcome.destroyed", 0, false},
	} {
		if limit, ok := judge(t, example(t, tt.rule).Case).BenchLimit(tt.fact); limit != tt.limit || ok != tt.ok {
			t.Errorf("%s: %s %v; want %s %v", tt.fact, limit, ok, tt.limit, tt.ok)
		}
	}
}

// TestPlannedTouch: a burst is measured by the longest touch of the plan, that
// of stopping bleeding by current among them.
func TestPlannedTouch(t *testing.T) {
	e := example(t, "bench-burst-planned")
	half, four := cases.Milli(500), cases.Milli(4000)
	for _, tt := range []struct {
		plan cases.Plan
		want string
	}{
		{cases.Plan{Disposition: "treat", ActivationS: &half}, "caution"},
		{cases.Plan{Disposition: "treat", ActivationS: &half, Haemostasis: &cases.Haemostasis{Method: "electrocoagulation", ActivationS: &four}}, "credit"},
		{cases.Plan{Disposition: "treat", ActivationS: &half, Haemostasis: &cases.Haemostasis{Method: "pressure", ActivationS: &four}}, "caution"},
		{cases.Plan{Disposition: "treat"}, "credit"}, // nothing planned to measure by; the plan's own row says so
	} {
		g := judge(t, e.Case).GradeDone(&tt.plan, &scoring.Outcome{Bursts: 1, LongestBurstS: 2000}, cases.UK)
		for _, f := range g.Findings {
			if f.Rule == e.Rule && f.Kind != tt.want {
				t.Errorf("%+v: %s, want %s", tt.plan, f.Kind, tt.want)
			}
		}
	}
}
