package scoring

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// A small set of rules whose marks can be counted by hand.
const (
	testTerms = `{"about": "none", "terms": [{"term": "wet", "means": "prep.agent = alcohol and not prep.dry_wait_s >= 60", "says": "wet"}]}`
	testRules = `{"about": "x", "domain": "room", "rows": [
{"rule": "d-growth", "domain": "decision", "for": ["treat","biopsy_first","refer","leave"], "points": 4, "if": "lesion.features has ulcerated", "never": "disposition = treat", "ok": "disposition = biopsy_first", "advice": "disposition = refer", "phrases": ["disposition"], "says": "Biopsy it.", "fault": "no tissue first", "why": "w", "source": "Body, 2020", "source_kind": "published", "certainty": "agreed"},
{"rule": "d-plain", "domain": "decision", "for": ["treat","biopsy_first","refer","leave"], "points": 4, "if": "not lesion.features has ulcerated", "ok": "disposition = treat", "advice": "disposition = refer", "phrases": ["disposition"], "says": "Treat it.", "fault": "nothing done", "why": "w", "source": "Body, 2020", "source_kind": "published", "certainty": "one_source"},
{"rule": "p-low", "domain": "power", "for": ["treat"], "points": 2, "slot": "power", "acts": "technique = electrodesiccation", "ok": "power_w >= 1 and power_w <= 3", "advice": "power_w >= 0.5 and power_w <= 6", "phrases": ["power_w"], "says": "1 to 3 W.", "fault": "power", "why": "w", "source": "common practice, no source", "source_kind": "common_practice", "certainty": "common_practice"},
{"rule": "p-none", "domain": "power", "for": ["treat"], "points": 2, "slot": "power", "acts": "decided(technique)", "ok": "always", "else": "credit", "phrases": ["technique"], "says": "No watts.", "why": "w", "source": "common practice, no source", "source_kind": "common_practice", "certainty": "common_practice"},
{"rule": "r-wet", "for": ["treat","biopsy_first"], "points": 3, "acts": "prep.agent = alcohol", "never": "wet", "ok": "prep.dry_wait_s >= 180", "phrases": ["prep.dry_wait_s"], "says": "Dry.", "fault": "wet", "why": "w", "right": "Wait.", "source": "Label, 2024", "source_kind": "published", "certainty": "agreed"},
{"rule": "r-asked", "domain": "patient", "for": ["treat","biopsy_first"], "points": 1, "if": "patient.devices has pacemaker", "ok": "asked has devices", "phrases": ["asked"], "says": "Ask.", "fault": "not asked", "why": "w", "source": "Body, 2020", "source_kind": "published", "certainty": "agreed"},
{"rule": "x-dose", "domain": "anaesthesia", "for": ["treat","biopsy_first"], "points": 3, "slot": "dose", "acts": "not anaesthetic.injects", "ok": "always", "else": "credit", "phrases": ["anaesthetic"], "says": "Nothing injected.", "why": "w", "source": "common practice, no source", "source_kind": "common_practice", "certainty": "common_practice"},
{"rule": "a-heard", "domain": "aftercare", "for": ["treat"], "points": 0, "acts": "prescribe has antibiotic", "else": "advice", "phrases": ["prescribe"], "says": "No antibiotic.", "fault": "not needed", "why": "w", "source": "Body, 2020", "source_kind": "published", "certainty": "agreed"}
]}`
)

func testSet(t testing.TB) *tables.Set {
	t.Helper()
	s, err := tables.Load(fstest.MapFS{"terms.json": {Data: []byte(testTerms)}, "rules/test.json": {Data: []byte(testRules)}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func testCase(features ...string) *cases.Case {
	return &cases.Case{
		ID: "one", Patient: cases.Patient{AgeYears: 40000, WeightKG: 70000, Sex: "female", SkinType: 3},
		Lesion: cases.Lesion{Family: "cherry_angioma", Site: "back", WidthMM: 3000, Features: features},
	}
}

func number(n cases.Milli) *cases.Milli { return &n }

// marks is a score as a line: each finding as rule=kind points/of.
func marks(s Score) string {
	var parts []string
	for _, m := range s.Marks {
		parts = append(parts, m.Row.Rule+"="+m.Kind.String()+" "+cases.Milli(m.Points*1000).String()+"/"+cases.Milli(m.Of*1000).String())
	}
	return strings.Join(parts, ", ")
}

func TestScore(t *testing.T) {
	set := testSet(t)
	for _, tt := range []struct {
		name, want string
		features   []string
		plan       cases.Plan
		points, of int
	}{
		{
			"all right: an avoided hazard is credit", "d-plain=credit 4/4, p-low=credit 2/2, r-wet=credit 3/3, x-dose=credit 3/3", nil,
			cases.Plan{Disposition: "treat", Technique: "electrodesiccation", PowerW: number(2000)},
			12, 12,
		},
		{
			"wet prep, power between the figures", "d-plain=credit 4/4, p-low=advice 0/0, r-wet=never 0/3, x-dose=credit 3/3", nil,
			cases.Plan{Disposition: "treat", Technique: "electrodesiccation", PowerW: number(5000), Prep: &cases.Prep{Agent: "alcohol"}},
			7, 12,
		},
		{
			"the slot falls to its next row", "d-plain=credit 4/4, p-none=credit 2/2, r-wet=caution 0/3, x-dose=credit 3/3, a-heard=advice 0/0", nil,
			cases.Plan{Disposition: "treat", Technique: "curettage", Prep: &cases.Prep{Agent: "alcohol", DryWaitS: number(100000)}, Prescribe: []string{"antibiotic"}},
			9, 12,
		},
		{
			"referral is acceptable and loses its point as advice", "d-plain=advice 0/0", nil,
			cases.Plan{Disposition: "refer"},
			0, 4,
		},
		{
			"wrong decision: measured by the right one, told of its own acts", "d-growth=never 0/4, r-wet=never 0/3, x-dose=credit 3/3",
			[]string{"ulcerated"},
			cases.Plan{Disposition: "treat", Technique: "electrodesiccation", PowerW: number(30000), Prep: &cases.Prep{Agent: "alcohol"}},
			3, 10,
		},
		{
			"nothing decided", "d-plain=caution 0/4", nil,
			cases.Plan{},
			0, 12,
		},
	} {
		t.Run(tt.name, func(t *testing.T) {
			j, err := NewJudge(set, testCase(tt.features...), nil, "")
			if err != nil {
				t.Fatal(err)
			}
			s := j.Score(&tt.plan, nil)
			if diff := cmp.Diff(tt.want, marks(s)); diff != "" {
				t.Error(diff)
			}
			if s.Points != tt.points || s.Of != tt.of {
				t.Errorf("%d of %d, want %d of %d", s.Points, s.Of, tt.points, tt.of)
			}
		})
	}
}

func TestAcceptable(t *testing.T) {
	set := testSet(t)
	for _, tt := range []struct {
		features []string
		want     string
	}{{nil, "treat refer"}, {[]string{"ulcerated"}, "biopsy_first refer"}} {
		j, err := NewJudge(set, testCase(tt.features...), nil, "")
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, d := range Dispositions {
			if j.Acceptable(d) {
				got = append(got, d)
			}
		}
		if strings.Join(got, " ") != tt.want {
			t.Errorf("%v: %v acceptable, want %s", tt.features, got, tt.want)
		}
	}
}

func TestOverrides(t *testing.T) {
	set := testSet(t)
	wet := &cases.Plan{Disposition: "treat", Technique: "curettage", Prep: &cases.Prep{Agent: "alcohol", DryWaitS: number(30000)}}
	dry := &cases.Plan{Disposition: "treat", Technique: "curettage", Prep: &cases.Prep{Agent: "alcohol", DryWaitS: number(200000)}}
	antibiotic := &cases.Plan{Disposition: "treat", Technique: "curettage", Prescribe: []string{"antibiotic"}}
	local := func(value string) []cases.LocalRule {
		return []cases.LocalRule{{Rule: "r-wet", Value: value, Reason: "Our rooms are cold."}}
	}
	for _, tt := range []struct {
		name   string
		local  []cases.LocalRule
		expect []cases.Expect
		plan   *cases.Plan
		want   string
		mark   bool
	}{
		{"tightened by a number", local("300"), nil, dry, "caution", true},
		{"not broken", local("200"), nil, dry, "credit", false},
		{"a never event loosens to a caution only", local("prep.dry_wait_s >= 20"), nil, wet, "caution", true},
		{"a kind of fault", nil, []cases.Expect{{Rule: "a-heard", Kind: "caution", Reason: "Resistance is high here."}}, antibiotic, "caution", true},
		{"a kind cannot excuse a never event", nil, []cases.Expect{{Rule: "r-wet", Kind: "advice", Reason: "x"}}, wet, "caution", true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := testCase()
			c.Expect = tt.expect
			j, err := NewJudge(set, c, tt.local, "")
			if err != nil {
				t.Fatal(err)
			}
			rule := "r-wet"
			if len(tt.expect) > 0 {
				rule = tt.expect[0].Rule
			}
			for _, f := range j.Grade(tt.plan, cases.UK).Findings {
				if f.Rule == rule {
					if f.Kind != tt.want || f.Local != tt.mark {
						t.Fatalf("%s local=%v, want %s local=%v", f.Kind, f.Local, tt.want, tt.mark)
					}
					if f.Local && (!strings.Contains(f.Why, "The usual rule") || !strings.Contains(f.Source, "the usual rule: ")) {
						t.Fatalf("a local finding must show both rules: %+v", f)
					}
					return
				}
			}
			t.Fatal("no finding")
		})
	}
}

func TestOverrideMistakes(t *testing.T) {
	set := testSet(t)
	for _, tt := range []struct{ rule, value, kind, says string }{
		{"r-wett", "1", "", `unknown rule "r-wett"; did you mean "r-wet"?`},
		{"p-low", "3", "", "holds more than one number"},
		{"r-wet", "prep.dry >= 3", "", "cannot be read"},
		{"d-plain", "3", "", "holds no number"},
		{"r-wet", "", "", "without a value or a kind"},
		{"dose-cream-counts", "3", "", "taught, never graded"},
	} {
		err := CheckOverride(set, tt.rule, tt.value, tt.kind)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s %q: %v; want %q", tt.rule, tt.value, err, tt.says)
		}
	}
}

func TestGradeOrderAndWords(t *testing.T) {
	j, err := NewJudge(testSet(t), testCase(), nil, "uk")
	if err != nil {
		t.Fatal(err)
	}
	p := &cases.Plan{
		Case: "p/one", Disposition: "treat", Technique: "curettage", OtherCare: "none",
		Prep: &cases.Prep{Agent: "alcohol"}, Prescribe: []string{"antibiotic"},
	}
	g := j.Grade(p, cases.UK)
	var order []string
	for _, f := range g.Findings {
		order = append(order, f.Rule)
	}
	if diff := cmp.Diff([]string{"r-wet", "a-heard", "d-plain", "p-none", "x-dose"}, order); diff != "" {
		t.Error(diff)
	}
	if g.Verdict != Unsafe || g.Labels != "uk" || g.Bench != "none" {
		t.Errorf("%+v", g)
	}
	if diff := cmp.Diff([]string{"other_care"}, g.Ignored); diff != "" {
		t.Error(diff)
	}
	if f := g.Findings[0]; f.Choice != cases.NotDecided || f.Expected != "Wait." {
		t.Errorf("%+v", f)
	}
}
