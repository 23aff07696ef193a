package sheet

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/tables"
)

// Statement stands on every sheet.
const Statement = "This trains and does not certify. It shows what was shown in this run, on invented patients. Your supervisor, local codes, the unit's own manual and your licence decide."

// Unwatched stands on the sheet of a run that nobody watched.
const Unwatched = "Nobody watched this run: who answered, and with what help, is not known."

// Sheet is the result of a run in words.
type Sheet struct {
	Title     string
	Outcome   string // one sentence
	Facts     []Fact // what the run was
	Domains   []DomainRow
	Notes     []string // how to read the figures
	Cases     []CaseRow
	Statement string
	words     cases.Words
	made      time.Time
}

// Fact is a labelled text.
type Fact struct{ Label, Text string }

// DomainRow is a line of the table of domains.
type DomainRow struct {
	Domain, Right, Share, Interval, Standard, Says string
	Result                                         assess.DomainResult
}

// CaseRow is a case with its cautions and why.
type CaseRow struct {
	Code, Verdict string
	Cautions      []CautionRow
}

// CautionRow is one never event or caution.
type CautionRow struct{ Kind, Heading, Why, Source string }

// Make writes the sheet of a run as it stands at a time.
func Make(set *tables.Set, run *assess.Run, res *assess.Result, words cases.Words, zone *time.Location) *Sheet {
	s := &Sheet{
		Title: "Self-assessment", Outcome: outcome(run, res), Facts: facts(run, zone), Statement: Statement,
		words: words, made: time.UnixMilli(max(run.EndedMS, run.BeganMS)).UTC(),
	}
	for _, d := range res.Domains {
		s.Domains = append(s.Domains, domainRow(d, words))
	}
	s.Notes = notes(run, res)
	for _, c := range res.Cases {
		row := CaseRow{Code: c.Code, Verdict: "not answered"}
		if c.Answered {
			row.Verdict = c.Verdict
		}
		for _, f := range c.Cautions {
			row.Cautions = append(row.Cautions, cautionRow(set, f))
		}
		s.Cases = append(s.Cases, row)
	}
	s.spell(words)
	return s
}

func outcome(run *assess.Run, res *assess.Result) string {
	switch {
	case !res.Whole && run.Ending == assess.TimeUp:
		return fmt.Sprintf("Not passed: the time was up after %d of %d cases.", run.Answered(), len(run.Given))
	case !res.Whole:
		return fmt.Sprintf("Not passed: %d of %d cases were answered.", run.Answered(), len(run.Given))
	case res.Nevers > 0:
		return "Not passed: " + counted(res.Nevers, "never event") + "."
	}
	var below []string
	for _, d := range res.Domains {
		if d.Judged && !d.Reached {
			below = append(below, cases.Vocab.Label("domain", d.Domain, cases.UK))
		}
	}
	if !res.Judged() {
		return "Not passed: no domain had enough items to be judged."
	}
	if len(below) > 0 {
		return "Not passed: below the standard in " + strings.Join(below, ", ") + "."
	}
	return "Passed: no never event, and every judged domain at its standard."
}

func facts(run *assess.Run, zone *time.Location) []Fact {
	st := run.Start
	at := func(ms int64) string { return time.UnixMilli(ms).In(zone).Format("2 January 2006, 15:04 (MST)") }
	watched := "by " + st.WatchedBy
	if st.WatchedBy == "" {
		watched = "no"
	}
	limit := "none"
	if st.LimitMin > 0 {
		limit = counted(st.LimitMin, "minute")
	}
	list := []Fact{
		{"Run", st.Title + ", " + counted(len(st.Codes), "case")},
		{"Began", at(run.BeganMS)},
		{"Took", lasted(run.ElapsedMS(run.EndedMS)) + ", limit " + limit},
		{"Watched", watched},
		{"Seed", fmt.Sprint(st.Seed)},
		{"Tables", st.Tables},
		{"Labels", st.Labels + "; words " + st.Words},
		{"Bench", map[bool]string{true: "with the bench", false: "plans only"}[st.Bench]},
	}
	for _, g := range run.Away {
		list = append(list, Fact{"Away", "for " + lasted(g.ToMS-g.FromMS) + " from " + at(g.FromMS) + "; the clock went on"})
	}
	if run.SetBack {
		list = append(list, Fact{"Clock", "set back during the run; the latest time counts"})
	}
	return list
}

func domainRow(d assess.DomainResult, words cases.Words) DomainRow {
	row := DomainRow{
		Domain: capital(cases.Vocab.Label("domain", d.Domain, words)), Result: d,
		Right: fmt.Sprintf("%d of %d", d.Right, d.Items), Share: percent(d.Share()), Standard: percent(d.Least.Float()),
		Interval: fmt.Sprintf("%s to %s", percent(d.Low), percent(d.High)),
	}
	switch {
	case d.Items == 0:
		row.Share, row.Interval, row.Says = "–", "–", "not met"
	case !d.Judged:
		row.Says = "too few to judge"
	case d.Reached:
		row.Says = "reached"
	default:
		row.Says = "below"
	}
	return row
}

func notes(run *assess.Run, res *assess.Result) []string {
	list := []string{
		"An item is one graded rule of one case. The interval holds the true share with 95 % credibility (Jeffreys prior).",
		fmt.Sprintf("A domain with fewer than %d items is told and not judged.", run.Start.LeastItems),
		fmt.Sprintf("%s had no published source: they teach and do not judge.", capital(counted(res.LeftOut, "further item"))),
	}
	reasons := map[string]bool{}
	for _, d := range res.Domains {
		if d.Judged && !reasons[d.Reason] {
			reasons[d.Reason] = true
			list = append(list, "The standard: "+d.Reason)
		}
	}
	if run.Start.WatchedBy == "" {
		list = append(list, Unwatched)
	}
	return list
}

func cautionRow(set *tables.Set, f scoring.Finding) CautionRow {
	row := CautionRow{Kind: f.Kind, Heading: capital(f.Expected), Why: f.Why, Source: f.Source}
	if r := set.Row(f.Rule); r != nil {
		row.Heading = r.Heading(kindOf(f.Kind))
	}
	if !strings.HasSuffix(row.Heading, ".") {
		row.Heading += "."
	}
	if f.Kind == "never" {
		row.Kind = "never event"
	}
	return row
}

func kindOf(kind string) tables.Kind {
	if kind == "never" {
		return tables.Never
	}
	return tables.Caution
}

func (s *Sheet) spell(words cases.Words) {
	spell := func(t *string) { *t = cases.Spell(*t, words) }
	spell(&s.Outcome)
	spell(&s.Statement)
	for i := range s.Notes {
		spell(&s.Notes[i])
	}
	for i := range s.Cases {
		for k := range s.Cases[i].Cautions {
			c := &s.Cases[i].Cautions[k]
			spell(&c.Heading)
			spell(&c.Why)
		}
	}
}

func percent(share float64) string { return fmt.Sprintf("%.0f %%", share*100) }

func counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

func lasted(ms int64) string {
	s := ms / 1000
	if s < 60 {
		return counted(int(s), "second")
	}
	return counted(int(s/60), "minute")
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
