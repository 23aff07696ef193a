package verb

import (
	"fmt"
	"strings"

	"leastwatt/cases"
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

// Rules prints every row with its source.
func Rules(s *Shell) int {
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
