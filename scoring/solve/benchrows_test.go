package solve

import (
	"testing"

	"leastwatt/scoring"
	"leastwatt/scoring/benchexample"
	"leastwatt/scoring/tables"
)

// benchFindings fires a row of the bench by its example: no change to a plan
// could.
func benchFindings(t *testing.T, r *tables.Row) shown {
	for _, e := range benchexample.All() {
		if e.Rule != r.Rule {
			continue
		}
		j, err := scoring.NewJudge(tables.Builtin, e.Case, nil, "cautious")
		if err != nil {
			t.Fatal(err)
		}
		out := shown{}
		if f, ok := e.Find(j, &e.Satisfied); ok && f.Kind == "credit" {
			out.satisfied = e.Case.ID + ": " + f.Choice
		}
		if f, ok := e.Find(j, &e.Broken); ok && f.Kind != "credit" {
			out.broken, out.kind = e.Case.ID+": "+f.Choice, f.Kind
		}
		return out
	}
	return shown{}
}
