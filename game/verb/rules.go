package verb

import (
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	"leastwatt/cases"
	"leastwatt/game/screen"
	"leastwatt/scoring/tables"
)

// RuleRow is one rule as the rules verb lists it.
type RuleRow struct {
	Rule       string   `json:"rule"`
	Domain     string   `json:"domain"`
	Says       string   `json:"says"`
	Applies    string   `json:"applies"`
	Value      string   `json:"value"`
	Source     string   `json:"source"`
	SourceKind string   `json:"source_kind"`
	Certainty  string   `json:"certainty"`
	Phrases    []string `json:"phrases"`
}

// Rules prints every row with its source, or with audit how many rows stand on
// what kind of source.
func Rules(s *Shell, audit bool) int {
	if audit {
		return auditRules(s)
	}
	rows := []RuleRow{}
	for _, r := range tables.Builtin.Rows {
		phrases := r.Phrases
		if phrases == nil {
			phrases = []string{}
		}
		rows = append(rows, RuleRow{
			r.Rule, r.Domain, cases.Spell(r.Says, s.Words), r.Scope(), r.Value(), r.Source, r.SourceKind, r.Certainty, phrases,
		})
	}
	if s.JSON {
		return s.printJSON(rows)
	}
	var b strings.Builder
	for _, r := range rows {
		fmt.Fprintf(&b, "%s (%s)\n  %s\n  When: %s\n", r.Rule, r.Domain, r.Says, r.Applies)
		if r.Value != "" {
			fmt.Fprintf(&b, "  Asks: %s\n", r.Value)
		}
		fmt.Fprintf(&b, "  Source: %s (%s)\n\n", r.Source, cases.Vocab.Label("certainty", r.Certainty, s.Words))
	}
	return s.print(b.String())
}

// auditRules prints, by subject and kind of source and by certainty, how many
// rows are graded and how many are only taught.
func auditRules(s *Shell) int {
	a := screen.AuditRules(tables.Builtin)
	if s.JSON {
		return s.printJSON(a)
	}
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 4, 2, ' ', tabwriter.AlignRight)
	row := func(name string, groups []screen.RuleAuditGroup, total screen.RuleCount) {
		fmt.Fprintf(w, "%s\t", name)
		for _, g := range groups {
			fmt.Fprintf(w, "%s\t", graded(g.RuleCount))
		}
		fmt.Fprintf(w, "%s\t\n", graded(total))
	}
	fmt.Fprintf(&b, "Rows by subject and kind of source: graded, and + those only taught.\n\n")
	fmt.Fprint(w, "SUBJECT\t")
	for _, k := range a.SourceKinds {
		fmt.Fprintf(w, "%s\t", strings.ToUpper(cases.Vocab.Label("source_kind", k.ID, s.Words)))
	}
	fmt.Fprint(w, "ALL\t\n")
	for _, d := range a.Domains {
		row(cases.Vocab.Label("domain", d.Domain, s.Words), d.SourceKinds, d.RuleCount)
	}
	row("all", a.SourceKinds, a.Total)
	if err := w.Flush(); err != nil {
		return s.usage(err)
	}
	fmt.Fprintf(&b, "\nRows by certainty.\n\n")
	fmt.Fprint(w, "CERTAINTY\tGRADED\tTAUGHT\tALL\t\n")
	for _, c := range a.Certainties {
		fmt.Fprintf(w, "%s\t%d\t%d\t%d\t\n", cases.Vocab.Label("certainty", c.ID, s.Words), c.Graded, c.Taught, c.Rows)
	}
	fmt.Fprintf(w, "all\t%d\t%d\t%d\t\n", a.Total.Graded, a.Total.Taught, a.Total.Rows)
	if err := w.Flush(); err != nil {
		return s.usage(err)
	}
	return s.print(b.String())
}

// graded writes a count as "12" or "12+3"; none is a dash.
func graded(c screen.RuleCount) string {
	switch {
	case c.Rows == 0:
		return "-"
	case c.Taught == 0:
		return strconv.Itoa(c.Graded)
	}
	return fmt.Sprintf("%d+%d", c.Graded, c.Taught)
}
