package screen

import (
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/tables"
)

// Every row is counted once in each list, and the lists agree.
func TestTheAuditCountsEveryRowOnce(t *testing.T) {
	a := AuditRules(tables.Builtin)
	if a.Total.Rows != len(tables.Builtin.Rows) || a.Total.Graded+a.Total.Taught != a.Total.Rows {
		t.Errorf("the total is %+v of %d rows", a.Total, len(tables.Builtin.Rows))
	}
	sum := func(groups []RuleAuditGroup) (c RuleCount) {
		for _, g := range groups {
			c.Graded += g.Graded
			c.Taught += g.Taught
			c.Rows += g.Rows
		}
		return c
	}
	if sum(a.SourceKinds) != a.Total || sum(a.Certainties) != a.Total {
		t.Errorf("kinds %+v, certainties %+v, total %+v", sum(a.SourceKinds), sum(a.Certainties), a.Total)
	}
	var all RuleCount
	for _, d := range a.Domains {
		if sum(d.SourceKinds) != d.RuleCount {
			t.Errorf("%s: kinds %+v, total %+v", d.Domain, sum(d.SourceKinds), d.RuleCount)
		}
		all.Rows += d.Rows
	}
	if all.Rows != a.Total.Rows {
		t.Errorf("the subjects hold %d rows", all.Rows)
	}
}

func TestTheAuditInOneLine(t *testing.T) {
	set := &tables.Set{Rows: []*tables.Row{
		{Domain: "room", SourceKind: "published", Certainty: "agreed"},
		{Domain: "room", SourceKind: "memory", Certainty: "memory", Knowledge: true},
		{Domain: "site", SourceKind: "published", Certainty: "sources_differ"},
	}}
	a := AuditRules(set)
	want := "2 graded, 1 taught. By source: published 2, from memory 1. By certainty: agreed 1, sources differ 1, from memory 1."
	if got := a.Line(cases.UK); got != want {
		t.Errorf("%q, should be %q", got, want)
	}
}

func TestTheRulesScreenShowsTheAudit(t *testing.T) {
	a := newApp(t, quiet(config()))
	h := ui.NewHost(a)
	keys(h, "r")
	audit := AuditRules(tables.Builtin)
	line := audit.Line(cases.UK)
	if !strings.Contains(textOf(a), line) {
		t.Errorf("the rules screen does not say %q", line)
	}
	keys(h, "n", "o", "s", "e")
	if strings.Contains(textOf(a), line) {
		t.Error("a search shows the count of every rule")
	}
}
