package screen

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

func TestVerdictsAtAGlance(t *testing.T) {
	d, err := NewDesk(quiet(config()))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		ref, disposition string
		send             *bool
		verdict, rule    string // a rule among the findings
		tissue           bool   // a row judges the tissue
	}{
		{"first-list/collar", "treat", no(), scoring.Safe, "tissue-needless", true},
		{"first-list/collar", "treat", yes(), scoring.Safe, "tissue-needless", true}, // advice
		{"first-list/collar", "leave", nil, scoring.Safe, "decision-harmless", false},
		{"first-list/collar", "refer", nil, scoring.Safe, "decision-harmless", false}, // advice
		{"trunk-and-limbs/itchy-one", "treat", yes(), scoring.NeedsWork, "decision-melanoma-signs", false},
		{"trunk-and-limbs/itchy-one", "leave", nil, scoring.NeedsWork, "decision-melanoma-signs", false},
		{"trunk-and-limbs/itchy-one", "biopsy_first", nil, scoring.Safe, "decision-melanoma-signs", false},
		{"trunk-and-limbs/deckchair", "treat", no(), scoring.NeedsWork, "tissue-send-pyogenic-granuloma", true},
		{"trunk-and-limbs/deckchair", "treat", yes(), scoring.Safe, "tissue-send-pyogenic-granuloma", true},
		{"first-list/glasses", "treat", no(), scoring.NeedsWork, "tissue-send-naevus", true},
		{"first-list/strap", "treat", no(), scoring.Safe, "decision-harmless", false}, // depends on the technique
		{"trunk-and-limbs/itchy-one", "", nil, notDecided, "decision-melanoma-signs", false},
		{"first-list/glasses", "treat", nil, notDecided, "tissue-send-naevus", true},
	} {
		pack, c := caseOf(t, test.ref)
		g := Glance{entry: entry{test.ref, pack, c}, Disposition: test.disposition, Send: test.send}
		m, err := d.MarkGlance(&g)
		if err != nil {
			t.Fatal(err)
		}
		hasRule := slices.ContainsFunc(m.Findings, func(f scoring.Finding) bool { return f.Rule == test.rule })
		hasTissue := slices.ContainsFunc(m.Findings, func(f scoring.Finding) bool { return f.Domain == "tissue" })
		if m.Verdict != test.verdict || !hasRule || hasTissue != test.tissue {
			t.Errorf("%s, %s: %q with %v, should be %q with %s", test.ref, g.Choice(cases.UK), m.Verdict, m.Findings, test.verdict, test.rule)
		}
		if want := test.ref == "first-list/strap"; m.TissueDepends(&g) != want {
			t.Errorf("%s, %s: the tissue depends on the technique: %v", test.ref, g.Choice(cases.UK), !want)
		}
	}
}

// A round never judges what it did not ask: its findings are those of the real
// judge in decision and tissue that no further choice of the plan can change.
func TestARoundJudgesNoMoreThanItAsks(t *testing.T) {
	d, err := NewDesk(quiet(config()))
	if err != nil {
		t.Fatal(err)
	}
	fair := d.fair()
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom(fair).Draw(t, "case")
		g := Glance{entry: e.entry, Disposition: rapid.SampledFrom(scoring.Dispositions).Draw(t, "decision")}
		if g.AsksTissue() {
			send := rapid.Bool().Draw(t, "send")
			g.Send = &send
		}
		m, err := d.MarkGlance(&g)
		if err != nil {
			t.Fatal(err)
		}
		j, err := scoring.NewJudge(tables.Builtin, e.c, e.pack.LocalRules, "cautious")
		if err != nil {
			t.Fatal(err)
		}
		whole := anyPlan(t, e.c)
		whole.Disposition = g.Disposition
		if g.AsksTissue() {
			if whole.Specimen == nil {
				whole.Specimen = &cases.Specimen{}
			}
			whole.Specimen.Send = g.Send
		}
		full := j.Grade(whole, cases.UK)
		for _, f := range m.Findings {
			if f.Domain != "decision" && f.Domain != "tissue" {
				t.Fatalf("a round judges %s of %s", f.Rule, f.Domain)
			}
			at := slices.IndexFunc(full.Findings, func(o scoring.Finding) bool { return o.Rule == f.Rule })
			if at < 0 || full.Findings[at].Kind != f.Kind {
				t.Fatalf("%s is %s in the round, and other in a full plan that decides the same", f.Rule, f.Kind)
			}
		}
	})
}

func TestWordsOfARound(t *testing.T) {
	marks := func(verdicts ...string) []GlanceMark {
		var list []GlanceMark
		for _, v := range verdicts {
			list = append(list, GlanceMark{Verdict: v})
		}
		return list
	}
	for _, test := range []struct {
		marks        []GlanceMark
		counts, open string
	}{
		{marks("safe", "safe"), "Two safe", "Any of them can be opened as a full case."},
		{marks("safe", "needs work"), "One safe and one needs work", "Open number 2 as a full case."},
		{marks("needs work", "safe", "needs work", "not decided"), "One safe, two need work and one not decided", "Open numbers 1, 3 and 4 as full cases."},
		{marks("unsafe"), "One unsafe", "Open number 1 as a full case."},
	} {
		if got := RoundCounts(test.marks); got != test.counts {
			t.Errorf("%q, should be %q", got, test.counts)
		}
		if got := OpenText(test.marks); got != test.open {
			t.Errorf("%q, should be %q", got, test.open)
		}
	}
}
