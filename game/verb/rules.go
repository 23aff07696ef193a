package verb

import (
	"fmt"

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
	for _, r := range rows {
		fmt.Fprintf(s.Out, "%s (%s)\n  %s\n  When: %s\n", r.Rule, r.Domain, r.Says, r.Applies)
		if r.Value != "" {
			fmt.Fprintf(s.Out, "  Asks: %s\n", r.Value)
		}
		fmt.Fprintf(s.Out, "  Source: %s (%s)\n\n", r.Source, cases.Vocab.Label("certainty", r.Certainty, s.Words))
	}
	return Done
}
