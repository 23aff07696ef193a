package scoring

import (
	"bytes"
	"os"
	"slices"
	"testing"
	"testing/fstest"

	gojson "github.com/goccy/go-json"
	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring/tables"
)

// drawOutcome draws any outcome, possible or not.
func drawOutcome(t *rapid.T) *Outcome {
	n := func(name string, up int64) cases.Milli { return cases.Milli(rapid.Int64Range(0, up).Draw(t, name)) }
	words := func(table string) []string {
		ids := cases.Vocab.IDs(table)
		return rapid.SliceOfNDistinct(rapid.SampledFrom(ids), 0, len(ids), func(s string) string { return s }).Draw(t, table)
	}
	o := &Outcome{
		LesionDestroyedFraction: n("destroyed", 1000), DermisDepthMM: n("depth", 5000), DermisFraction: n("dermis", 2000),
		FloorDepthMM: n("floor", 3000), BaseCoveredFraction: n("base", 1000), RimMM: n("rim", 8000), CharredMM3: n("char", 5000),
		EnergyJ: n("energy", 90000), Bursts: int(n("bursts", 40)), LongestBurstS: n("burst", 30000), ContactBreaks: int(n("breaks", 9)),
		SpecimenEdgeMM: n("edge", 2000), OrderFaults: words("order_fault"), Hazards: words("bench_hazard"),
	}
	if rapid.Bool().Draw(t, "swept") {
		pair := func(name string, up int64) [2]cases.Milli { return [2]cases.Milli{n(name, up), n(name, up)} }
		o.Range = &OutcomeRange{pair("destroyed", 1000), pair("dermis", 2000), pair("base", 1000), pair("rim", 8000), pair("edge", 2000)}
	}
	return o
}

// TestAnyOutcomeGrades: any plan with any outcome grades to the same bytes
// twice, points stay in bounds, and what it is out of depends on the case, the
// decision and the bench being done.
func TestAnyOutcomeGrades(t *testing.T) {
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(all).Draw(t, "case")
		j := judgeOf(t, tables.Builtin, c)
		p, o := drawPlan(t), drawOutcome(t)
		g := j.GradeDone(p, o, cases.UK)
		if g.Bench != BenchDone || g.Outcome == nil || g.Outcome.Hazards == nil || g.Outcome.OrderFaults == nil {
			t.Fatalf("bench %q, outcome %+v", g.Bench, g.Outcome)
		}
		if !bytes.Equal(encode(t, g), encode(t, j.GradeDone(p, o, cases.UK))) {
			t.Fatal("the same outcome gave two grades")
		}
		points, of := 0, 0
		for _, d := range g.Domains {
			if d.Points < 0 || d.Points > d.Of {
				t.Fatalf("%s: %d of %d", d.Domain, d.Points, d.Of)
			}
			points, of = points+d.Points, of+d.Of
		}
		if points != g.Points || of != g.Of {
			t.Fatalf("domains give %d of %d, the grade %d of %d", points, of, g.Points, g.Of)
		}
		rank := map[string]int{"never": 3, "caution": 2, "advice": 1, "credit": 0}
		for i, f := range g.Findings {
			if i > 0 {
				before := g.Findings[i-1]
				if rank[f.Kind] > rank[before.Kind] || f.Kind == before.Kind && j.Set.Row(f.Rule).Index <= j.Set.Row(before.Rule).Index {
					t.Fatalf("%s stands after %s", f.Rule, before.Rule)
				}
			}
			if f.Why == "" || f.Source == "" || f.Expected == "" || f.Choice == "" || f.Heading == "" || len(f.Phrases) == 0 {
				t.Fatalf("a finding without words: %+v", f)
			}
		}
		bare := j.GradeDone(&cases.Plan{Format: p.Format, Case: p.Case, Disposition: p.Disposition}, &Outcome{}, cases.UK)
		if bare.Of != g.Of {
			t.Fatalf("of is %d for this outcome and %d for an empty one", g.Of, bare.Of)
		}
	})
}

// TestBenchRowsReadOnlyTheOutcome: a change to the plan that keeps decision,
// touch and rim changes no finding of the bench.
func TestBenchRowsReadOnlyTheOutcome(t *testing.T) {
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		j := judgeOf(t, tables.Builtin, rapid.SampledFrom(all).Draw(t, "case"))
		o, p, q := drawOutcome(t), drawPlan(t), drawPlan(t)
		q.Disposition, q.ActivationS, q.RimMM = p.Disposition, p.ActivationS, p.RimMM
		p.Haemostasis, q.Haemostasis = nil, nil
		if a, b := benchFindings(t, j.GradeDone(p, o, cases.UK)), benchFindings(t, j.GradeDone(q, o, cases.UK)); !bytes.Equal(a, b) {
			t.Fatalf("%s\n%s", a, b)
		}
	})
}

func benchFindings(t *rapid.T, g *Grade) []byte {
	var own []Finding
	for _, f := range g.Findings {
		if f.Domain == tables.BenchDomain {
			own = append(own, f)
		}
	}
	b, err := gojson.Marshal(own)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestFewerHazardsOnTheBench: taking a hazard or a fault of order out of an
// outcome adds no never event and no caution.
func TestFewerHazardsOnTheBench(t *testing.T) {
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		j := judgeOf(t, tables.Builtin, rapid.SampledFrom(all).Draw(t, "case"))
		p, o := drawPlan(t), drawOutcome(t)
		p.Disposition = rapid.SampledFrom([]string{"treat", "biopsy_first"}).Draw(t, "decision")
		before := hardMarks(j, p, o)
		less := *o
		less.Hazards, less.OrderFaults = without(t, o.Hazards, "hazard"), without(t, o.OrderFaults, "fault")
		for rule, kind := range hardMarks(j, p, &less) {
			if kind > before[rule] {
				t.Fatalf("%s is %s with fewer hazards and was %s", rule, kind, before[rule])
			}
		}
	})
}

func without(t *rapid.T, list []string, name string) []string {
	if len(list) == 0 {
		return list
	}
	i := rapid.IntRange(0, len(list)-1).Draw(t, name)
	return slices.Delete(slices.Clone(list), i, i+1)
}

func hardMarks(j *Judge, p *cases.Plan, o *Outcome) map[string]tables.Kind {
	m := map[string]tables.Kind{}
	for _, mark := range j.score(p, o, nil).Marks {
		if mark.Kind >= tables.Caution {
			m[mark.Row.Rule] = mark.Kind
		}
	}
	return m
}

// TestWithoutBenchNothingChanges: a grade without the bench is, byte for byte,
// that of tables which never heard of it; also after a bench was judged.
func TestWithoutBenchNothingChanges(t *testing.T) {
	before := withoutBench(t)
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(all).Draw(t, "case")
		p, o := drawPlan(t), drawOutcome(t)
		j := judgeOf(t, tables.Builtin, c)
		j.GradeDone(p, o, cases.UK)
		want, got := judgeOf(t, before, c).Grade(p, cases.UK), j.Grade(p, cases.UK)
		want.Tables = got.Tables // the digest is of all the files
		if a, b := encode(t, want), encode(t, got); !bytes.Equal(a, b) {
			t.Fatalf("%s\n%s", a, b)
		}
	})
}

// withoutBench loads the tables less the rows of the bench.
func withoutBench(t *testing.T) *tables.Set {
	t.Helper()
	files := fstest.MapFS{}
	add := func(name string) {
		data, err := os.ReadFile("tables/" + name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: data}
	}
	add("terms.json")
	entries, err := os.ReadDir("tables/rules")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.Name() != "bench.json" {
			add("rules/" + e.Name())
		}
	}
	set, err := tables.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func judgeOf(t *rapid.T, set *tables.Set, c *cases.Case) *Judge {
	j, err := NewJudge(set, c, nil, "cautious")
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func encode(t *rapid.T, g *Grade) []byte {
	b, err := gojson.Marshal(g)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func BenchmarkGradeDone(b *testing.B) {
	j, err := NewJudge(tables.Builtin, packs.Cases()[0], nil, "cautious")
	if err != nil {
		b.Fatal(err)
	}
	second := cases.Milli(1000)
	p := &cases.Plan{Disposition: "treat", Technique: "electrodesiccation", ActivationS: &second}
	o := &Outcome{
		Bursts: 3, LesionDestroyedFraction: 620, LongestBurstS: 900, Hazards: []string{"felt_pain"},
		Range: &OutcomeRange{LesionDestroyedFraction: [2]cases.Milli{550, 700}},
	}
	b.ReportAllocs()
	for b.Loop() {
		j.GradeDone(p, o, cases.UK)
	}
}
