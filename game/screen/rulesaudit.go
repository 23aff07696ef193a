package screen

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// RuleAudit counts the rows of the rule tables: whose word they are, how sure
// that is, and whether they are graded or only taught.
type RuleAudit struct {
	Total       RuleCount         `json:"total"`
	Domains     []RuleAuditDomain `json:"domains"`      // in the order of the vocabulary
	SourceKinds []RuleAuditGroup  `json:"source_kinds"` // the same rows by kind of source
	Certainties []RuleAuditGroup  `json:"certainties"`  // the same rows by certainty
}

// RuleCount is how many rows are graded, how many only taught, and both.
type RuleCount struct {
	Graded int `json:"graded"`
	Taught int `json:"taught"`
	Rows   int `json:"rows"`
}

// RuleAuditDomain is one subject's rows by kind of source.
type RuleAuditDomain struct {
	Domain      string           `json:"domain"`
	SourceKinds []RuleAuditGroup `json:"source_kinds"`
	RuleCount
}

// RuleAuditGroup is the rows of one kind of source, or of one certainty.
type RuleAuditGroup struct {
	ID string `json:"id"`
	RuleCount
}

func (c *RuleCount) add(r *tables.Row) {
	c.Rows++
	if r.Knowledge {
		c.Taught++
	} else {
		c.Graded++
	}
}

// AuditRules counts every row of a set once in each list. A word of the
// vocabulary without a row is listed with zero.
func AuditRules(set *tables.Set) RuleAudit {
	a := RuleAudit{
		SourceKinds: countRules(set.Rows, "source_kind", func(r *tables.Row) string { return r.SourceKind }),
		Certainties: countRules(set.Rows, "certainty", func(r *tables.Row) string { return r.Certainty }),
	}
	for _, r := range set.Rows {
		a.Total.add(r)
	}
	for _, g := range countRules(set.Rows, "domain", func(r *tables.Row) string { return r.Domain }) {
		var own []*tables.Row
		for _, r := range set.Rows {
			if r.Domain == g.ID {
				own = append(own, r)
			}
		}
		a.Domains = append(a.Domains, RuleAuditDomain{g.ID, countRules(own, "source_kind", func(r *tables.Row) string { return r.SourceKind }), g.RuleCount})
	}
	return a
}

func countRules(rows []*tables.Row, table string, of func(*tables.Row) string) []RuleAuditGroup {
	var groups []RuleAuditGroup
	for _, id := range cases.Vocab.IDs(table) {
		g := RuleAuditGroup{ID: id}
		for _, r := range rows {
			if of(r) == id {
				g.add(r)
			}
		}
		groups = append(groups, g)
	}
	return groups
}

// Line is the audit in one line: "203 graded, 26 taught. By source: published
// 150, common practice 60. By certainty: agreed 80, one source 70 ...".
func (a *RuleAudit) Line(words cases.Words) string {
	text := fmt.Sprintf("%d graded, %d taught.", a.Total.Graded, a.Total.Taught)
	for _, list := range []struct {
		lead, table string
		groups      []RuleAuditGroup
	}{{"By source", "source_kind", a.SourceKinds}, {"By certainty", "certainty", a.Certainties}} {
		var parts []string
		for _, g := range list.groups {
			if g.Rows > 0 {
				parts = append(parts, fmt.Sprintf("%s %d", cases.Vocab.Label(list.table, g.ID, words), g.Rows))
			}
		}
		if len(parts) > 0 {
			text += " " + list.lead + ": " + strings.Join(parts, ", ") + "."
		}
	}
	return text
}
