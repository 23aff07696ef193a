package screen

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// Every finding that asks for something has a phrase in the note, and its mark
// and number are on the screen.
func TestEveryFindingHasItsPlace(t *testing.T) {
	judges := map[string]*scoring.Judge{}
	rapid.Check(t, func(t *rapid.T) {
		pack, c := anyCase(t)
		j := judges[c.ID]
		if j == nil {
			var err error
			if j, err = scoring.NewJudge(tables.Builtin, c, pack.LocalRules, "cautious"); err != nil {
				t.Fatal(err)
			}
			judges[c.ID] = j
		}
		p := anyPlan(t, c)
		note := NoteOf(c, p, Future, cases.UK)
		list := NumberFindings(j.Grade(p, cases.UK), note)
		n := 0
		for _, f := range list {
			if f.Kind == "credit" {
				if f.Number != 0 {
					t.Fatal("a credit has a number")
				}
				continue
			}
			if n++; f.Number != n {
				t.Fatalf("finding %d has the number %d", n, f.Number)
			}
			if len(f.Phrases) == 0 {
				t.Fatalf("the finding of %s, phrases %v, has no place in\n%s", f.Rule, f.Finding.Phrases, wholeText(note))
			}
		}
	})
}

func TestPhrasesCarryTheirWorstMark(t *testing.T) {
	a := &App{}
	list := []Numbered{
		{Finding: scoring.Finding{Kind: "never"}, Number: 1, Phrases: []string{"prep.agent", "prep.dry_wait_s"}},
		{Finding: scoring.Finding{Kind: "caution"}, Number: 2, Phrases: []string{"prep.agent", "advice"}},
		{Finding: scoring.Finding{Kind: "credit"}, Phrases: []string{"advice", "technique"}},
	}
	a.marks.chosen = 2
	for _, test := range []struct {
		id     string
		mark   ui.Mark
		number int
		chosen bool
	}{
		{"prep.agent", ui.MarkNever, 1, true},
		{"prep.dry_wait_s", ui.MarkNever, 1, false},
		{"advice", ui.MarkCaution, 2, true},
		{"technique", ui.MarkCredit, 0, false},
		{"record", ui.MarkNone, 0, false},
	} {
		p := ui.Phrase{ID: test.id}
		a.dressMark(&p, list)
		if p.Mark != test.mark || p.Number != test.number || p.Chosen != test.chosen {
			t.Errorf("%s: mark %d, number %d, chosen %v", test.id, p.Mark, p.Number, p.Chosen)
		}
	}
}

func TestWordsOfAGrade(t *testing.T) {
	kinds := func(names ...string) *scoring.Grade {
		g := &scoring.Grade{Points: 12, Of: 20}
		for _, k := range names {
			g.Findings = append(g.Findings, scoring.Finding{Kind: k})
		}
		return g
	}
	for _, test := range []struct {
		grade          *scoring.Grade
		counts, points string
	}{
		{kinds("never", "caution", "caution"), "1 never event, 2 cautions", ""},
		{kinds("never", "never", "advice"), "2 never events, 1 piece of advice", ""},
		{kinds("caution", "advice", "advice", "credit"), "1 caution, 2 pieces of advice", "12 of 20 points"},
		{kinds("credit"), "no never event, no caution", "12 of 20 points"},
	} {
		if got := CountsText(test.grade); got != test.counts {
			t.Errorf("counts %q, should be %q", got, test.counts)
		}
		if got := PointsText(test.grade); got != test.points {
			t.Errorf("points %q, should be %q", got, test.points)
		}
	}
	for _, test := range []struct{ certainty, want string }{
		{"agreed", "Right: wait 3 minutes."},
		{"one_source", "Right: wait 3 minutes."},
		{"common_practice", "Many teach: wait 3 minutes."},
		{"memory", "Many teach: wait 3 minutes."},
	} {
		if got := RightOf(scoring.Finding{Expected: "Wait 3 minutes", Certainty: test.certainty}); got != test.want {
			t.Errorf("%s: %q, should be %q", test.certainty, got, test.want)
		}
	}
	if got := HeadingOf(scoring.Finding{Kind: "never", Heading: "The prep was still wet."}); got != "Never: the prep was still wet." {
		t.Error(got)
	}
	if got := HeadingOf(scoring.Finding{Kind: "caution", Heading: "INR was not asked"}); got != "Caution: INR was not asked." {
		t.Error(got)
	}
	if got := CreditsText(11); got != "Eleven choices were right." {
		t.Error(got)
	}
}

// The debrief tells what the case was, and only there.
func TestTheDebriefTellsTheTruth(t *testing.T) {
	a := newApp(t, quiet(config()))
	_, c := caseOf(t, "first-list/wedding")
	a.openCase("first-list/wedding")
	a.goTo(atPlan)
	a.session.Change("", func(p *cases.Plan) { p.Disposition = "leave" })
	a.gradeNow()
	text := textOf(a)
	for _, want := range []string{capital(c.Truth.Diagnosis), c.Teaching, "choices were right", CountsText(a.session.Grade)} {
		if !strings.Contains(text, want) {
			t.Errorf("the debrief does not tell %q", want)
		}
	}
	for _, f := range a.numbered() {
		if f.Number > 0 && !strings.Contains(text, HeadingOf(f.Finding)) {
			t.Errorf("the debrief does not tell %q", HeadingOf(f.Finding))
		}
	}
	a.Update(ui.Activate{ID: "credits"})
	shown := textOf(a)
	for _, f := range a.numbered() {
		if f.Kind == "credit" && !strings.Contains(shown, sentence(f.Heading)) {
			t.Errorf("the unfolded credits do not tell %q", f.Heading)
		}
	}
	if i := slices.IndexFunc(a.numbered(), func(f Numbered) bool { return f.Number == 1 }); i >= 0 {
		a.Update(ui.Key{Name: "s"})
		if a.at != atRules || a.rules.query != a.numbered()[i].Rule {
			t.Errorf("S leads to place %d with %q", a.at, a.rules.query)
		}
	}
}
