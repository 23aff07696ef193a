package screen

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/tables"
)

// PastAttempt is an attempt as a list shows it.
type PastAttempt struct {
	ID      string
	When    string // local date and time
	Ref     string
	Quote   string // the patient's words, or the case's name when it is not at hand
	Verdict string
	Counts  string // "1 never event, 2 cautions"
}

// mostPast is how many attempts a list goes back.
const mostPast = 60

// PastAttempts lists the learner's newest attempts, newest first.
func (d *Desk) PastAttempts() []PastAttempt {
	if d.Record.Book == nil {
		return nil
	}
	var heads []*logbook.Entry
	for e, err := range d.Record.Book.Entries() {
		if err == nil && e.Kind == logbook.KindAttempt && e.Learner == d.Settings.Learner {
			heads = append(heads, e)
			if len(heads) > 2*mostPast {
				heads = append(heads[:0], heads[len(heads)-mostPast:]...)
			}
		}
	}
	var list []PastAttempt
	for i := len(heads) - 1; i >= 0 && len(list) < mostPast; i-- {
		list = append(list, d.pastAttempt(heads[i]))
	}
	return list
}

func (d *Desk) pastAttempt(e *logbook.Entry) PastAttempt {
	a := e.Attempt
	p := PastAttempt{
		ID: e.ID, Ref: a.Case, Verdict: a.Verdict, Quote: a.Case,
		When: time.UnixMilli(e.UTC).In(time.FixedZone("", e.OffsetMin*60)).Format("2 January 2006, 15:04"),
	}
	if _, c := d.caseOf(a.Case); c != nil {
		p.Quote = "“" + cases.Spell(c.Presenting, d.words()) + "”"
	}
	kinds := map[string]int{}
	for _, f := range a.Findings {
		kinds[f.Kind]++
	}
	p.Counts = "no never event, no caution"
	if kinds["never"]+kinds["caution"] > 0 {
		p.Counts = digits(kinds["never"], "never event") + ", " + digits(kinds["caution"], "caution")
	}
	return p
}

// caseOf finds a case by its name, a made one too; nil when it is not at hand.
func (d *Desk) caseOf(ref string) (*cases.Pack, *cases.Case) {
	for _, e := range d.order {
		if e.ref == ref {
			return e.pack, e.c
		}
	}
	if code, made := strings.CutPrefix(ref, cases.MadePackID+"/"); made {
		if c, err := cases.MadeCase(code); err == nil {
			return cases.MadePack(), c
		}
	}
	return nil, nil
}

// ThenAndNow is an attempt's grade as it was given, and what differs by
// today's rules.
type ThenAndNow struct {
	Then  *scoring.Grade
	Notes []string // by which tables, and whether they are today's
	Now   string   // today's verdict; "" when it cannot be told
	Diffs []string // one a rule that is judged otherwise today
}

// ThenAndNow reads an attempt whole and sets its grade beside today's.
func (d *Desk) ThenAndNow(id string) (*ThenAndNow, error) {
	plan, a, err := d.attemptPlan(id)
	if err != nil {
		return nil, err
	}
	t := &ThenAndNow{Then: &scoring.Grade{}}
	if err := json.Unmarshal(a.Grade, t.Then); err != nil {
		return nil, fmt.Errorf("the grade cannot be read: %w", err)
	}
	if a.TablesDigest == d.Set.Digest {
		t.Notes = append(t.Notes, "Graded by the tables of today.")
	} else {
		t.Notes = append(t.Notes, fmt.Sprintf("Graded by tables %s; today's are %s. The grade stands as it was.", a.TablesVersion, d.Set.Version))
	}
	if a.Bench == scoring.BenchDone {
		t.Notes = append(t.Notes, "Treated on the bench, with model "+a.ModelVersion+".")
	}
	pack, c := d.caseOf(a.Case)
	if c == nil {
		t.Notes = append(t.Notes, "The case is not at hand, so it cannot be graded again.")
		return t, nil
	}
	if c.Digest() != a.CaseDigest {
		t.Notes = append(t.Notes, "The case has changed since.")
	}
	j, err := scoring.NewJudge(d.Set, c, pack.LocalRules, a.Labels)
	if err != nil {
		return t, nil
	}
	now := j.GradeDone(plan, t.Then.Outcome, d.words())
	t.Now = now.Verdict
	t.Diffs = differences(d.Set, t.Then, now, d.words())
	return t, nil
}

// differences lists the rules that two grades judge unlike.
func differences(set *tables.Set, then, now *scoring.Grade, words cases.Words) []string {
	kind := map[string]string{}
	for _, f := range then.Findings {
		kind[f.Rule] = f.Kind
	}
	var diffs []string
	seen := map[string]bool{}
	say := func(rule, was, is string) {
		name := rule
		if r := set.Row(rule); r != nil {
			name = cases.Spell(r.Says, words)
		}
		diffs = append(diffs, fmt.Sprintf("%s Then %s, now %s.", sentence(name), was, is))
	}
	for _, f := range now.Findings {
		seen[f.Rule] = true
		switch was, had := kind[f.Rule]; {
		case !had && f.Kind != "credit":
			say(f.Rule, "not judged", kindWord(f.Kind))
		case had && was != f.Kind:
			say(f.Rule, kindWord(was), kindWord(f.Kind))
		}
	}
	for _, f := range then.Findings {
		if !seen[f.Rule] && f.Kind != "credit" {
			say(f.Rule, kindWord(f.Kind), "not judged")
		}
	}
	return diffs
}

func kindWord(kind string) string {
	switch kind {
	case "never":
		return "a never event"
	case "caution":
		return "a caution"
	case "advice":
		return "advice"
	}
	return "right"
}
