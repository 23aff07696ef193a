package solve

import (
	"fmt"
	"testing"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring/tables"
)

// thousand is a pack of 1,000 cases: the built-in ones again and again, each
// a little wider, heavier and older than the one before.
func thousand(b *testing.B) *cases.Loaded {
	base := packs.Cases()
	p := &cases.Pack{ID: "thousand"}
	for i := range 1000 {
		c := *base[i%len(base)]
		c.ID = fmt.Sprintf("case-%d", i)
		c.Patient.WeightKG += cases.Milli(i)
		c.Lesion.WidthMM += cases.Milli(i)
		p.Cases = append(p.Cases, c)
	}
	return &cases.Loaded{Path: "thousand", File: "thousand/pack.json", Pack: p, Tree: &cases.Value{}}
}

func BenchmarkCheckThousand(b *testing.B) {
	l := thousand(b)
	for b.Loop() {
		r := Check(l, tables.Builtin, "cautious")
		if len(r.Cases) != 1000 {
			b.Fatal(len(r.Cases))
		}
	}
}

func BenchmarkSolveOne(b *testing.B) {
	l := thousand(b)
	for b.Loop() {
		solveCase(l.Pack, &l.Pack.Cases[0], tables.Builtin, "cautious")
	}
}
