package assess

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/mastery"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// The same seed gives the same codes, another seed others; each is of a kind
// that the blueprint asks for, and every kind is there as often as it says.
func TestDraw(t *testing.T) {
	b := Usual()
	codes, err := b.Draw(tables.Builtin, 7)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := b.Draw(tables.Builtin, 7)
	other, _ := b.Draw(tables.Builtin, 8)
	if !slices.Equal(codes, again) || slices.Equal(codes, other) {
		t.Errorf("seed 7 gives %v and %v, seed 8 %v", codes, again, other)
	}
	if len(codes) != b.Cases() {
		t.Fatalf("%d codes for %d cases", len(codes), b.Cases())
	}
	left := slices.Clone(b.Kinds)
	for _, code := range codes {
		c, err := cases.MadeCase(code)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(left, func(k cases.AssessmentKind) bool {
			return k.Count > 0 && slices.Contains(k.Families, c.Lesion.Family) && c.Level >= k.LevelMin && c.Level <= k.LevelMax
		})
		if i < 0 {
			t.Errorf("%s, a %s of level %d, is of no kind that is left", code, c.Lesion.Family, c.Level)
			continue
		}
		left[i].Count--
	}
}

// Every family that the usual run names can be made, and codes of one draw are
// all different.
func TestUsualBlueprint(t *testing.T) {
	for _, k := range Usual().Kinds {
		for _, f := range k.Families {
			if !slices.Contains(cases.MadeFamilies(), f) {
				t.Errorf("%q cannot be made", f)
			}
		}
	}
}

func start(t testing.TB, n int) *Start {
	t.Helper()
	b := Usual()
	codes, err := b.Draw(tables.Builtin, 3)
	if err != nil {
		t.Fatal(err)
	}
	return b.NewStart(3, codes[:n], "", tables.Builtin.Version, "cautious", "uk", "")
}

func step(kind string, ms int64) Step {
	return Step{Format: StepFormat, Run: "r1", Step: kind, UTC: ms}
}

func begun(t testing.TB, n int) Step {
	s := step(Begin, 1_000_000)
	s.Start = start(t, n)
	return s
}

func answered(t testing.TB, code string, at int, ms int64, change func(*cases.Plan)) Step {
	t.Helper()
	c, err := cases.MadeCase(code)
	if err != nil {
		t.Fatal(err)
	}
	j, err := scoring.NewJudge(tables.Builtin, c, nil, "cautious")
	if err != nil {
		t.Fatal(err)
	}
	p := solve.Solve(j, cases.MadePackID+"/"+code).Plan
	if change != nil {
		change(p)
	}
	s := step(Answer, ms)
	s.Given = &Given{At: at, Plan: p, Grade: j.Grade(p, cases.UK)}
	return s
}

// Full marks in every case pass; a run that stops early does not; nor does one
// with a never event.
func TestPassRule(t *testing.T) {
	first := begun(t, 6)
	steps := []Step{first}
	for i, code := range first.Start.Codes {
		steps = append(steps, answered(t, code, i, 1_000_000+int64(i+1)*60_000, nil))
	}
	run, err := Fold(steps)
	if err != nil {
		t.Fatal(err)
	}
	r := Judge(run)
	if !r.Passed || !r.Whole || r.Nevers != 0 {
		t.Errorf("full marks: %+v", r)
	}
	judged := 0
	for _, d := range r.Domains {
		if d.Right != d.Items {
			t.Errorf("%s: %d of %d right with full marks", d.Domain, d.Right, d.Items)
		}
		if d.Judged {
			judged++
		}
	}
	if judged < 3 {
		t.Errorf("%d domains have enough items in six cases", judged)
	}
	short, err := Fold(steps[:4])
	if err != nil {
		t.Fatal(err)
	}
	if r := Judge(short); r.Passed || r.Whole {
		t.Error("half a run is passed")
	}
	steps[1] = answered(t, first.Start.Codes[0], 0, 1_060_000, func(p *cases.Plan) {
		*p = cases.Plan{Format: cases.PlanFormat, Case: p.Case, Disposition: "treat", Technique: "electrodesiccation"}
	})
	run, err = Fold(steps)
	if err != nil {
		t.Fatal(err)
	}
	if r := Judge(run); r.Nevers == 0 && r.Passed && slices.ContainsFunc(r.Domains, func(d DomainResult) bool { return d.Judged && !d.Reached }) {
		t.Errorf("passed though a domain is below its standard: %+v", r)
	}
}

// A finding without a published source teaches and does not judge, unless a
// local rule adopts it.
func TestUnsourcedRowsDoNotJudge(t *testing.T) {
	s := begun(t, 1)
	s.Start.LeastItems = 1
	for _, x := range []struct {
		certainty string
		local     bool
		items     int
	}{{"agreed", false, 1}, {"sources_differ", false, 1}, {"one_source", false, 1}, {"common_practice", false, 0}, {"memory", false, 0}, {"model", false, 0}, {"memory", true, 1}} {
		a := step(Answer, 1_060_000)
		a.Given = &Given{Plan: &cases.Plan{}, Grade: &scoring.Grade{Verdict: "needs work", Findings: []scoring.Finding{
			{Rule: "x", Kind: "caution", Domain: "room", Of: 1, Certainty: x.certainty, Local: x.local},
		}}}
		run, err := Fold([]Step{s, a})
		if err != nil {
			t.Fatal(err)
		}
		r := Judge(run)
		room := r.Domains[slices.IndexFunc(r.Domains, func(d DomainResult) bool { return d.Domain == "room" })]
		if room.Items != x.items || room.Judged != (x.items == 1) || r.Passed || r.LeftOut != 1-x.items {
			t.Errorf("%+v: %d items, passed %v, left out %d", x, room.Items, r.Passed, r.LeftOut)
		}
	}
}

// The standard decides at its very edge, in whole numbers.
func TestStandardEdge(t *testing.T) {
	for _, x := range []struct {
		right, items int
		least        cases.Milli
		reached      bool
	}{{9, 10, 900, true}, {8, 10, 900, false}, {2, 3, 667, false}, {2, 3, 666, true}, {10, 10, 1000, true}, {0, 0, 900, true}} {
		s := begun(t, 1)
		for i := range s.Start.Standards {
			s.Start.Standards[i].Least = x.least
		}
		var f []scoring.Finding
		for i := range x.items {
			k := scoring.Finding{Rule: fmt.Sprint(i), Kind: "caution", Domain: "power", Of: 1, Certainty: "agreed"}
			if i < x.right {
				k.Kind, k.Points = "credit", 1
			}
			f = append(f, k)
		}
		a := step(Answer, 1_060_000)
		a.Given = &Given{Plan: &cases.Plan{}, Grade: &scoring.Grade{Findings: f}}
		run, _ := Fold([]Step{s, a})
		d := Judge(run).Domains[slices.Index(cases.Vocab.IDs("domain"), "power")]
		if d.Reached != x.reached {
			t.Errorf("%d of %d at %s: reached %v", x.right, x.items, x.least, d.Reached)
		}
	}
}

// The clock goes on while the program is away and never goes back.
func TestHonestClock(t *testing.T) {
	s := begun(t, 3)
	back := step(Resume, 1_000_000+20*60_000)
	back.Heard = 1_000_000 + 5*60_000
	run, err := Fold([]Step{s, back})
	if err != nil {
		t.Fatal(err)
	}
	if got := run.ElapsedMS(1_000_000 + 21*60_000); got != 21*60_000 {
		t.Errorf("elapsed %d ms; the time away counts", got)
	}
	if len(run.Away) != 1 || run.Away[0].ToMS-run.Away[0].FromMS != 15*60_000 {
		t.Errorf("away %+v", run.Away)
	}
	if left, ok := run.LeftMS(1_000_000 + 21*60_000); !ok || left != 39*60_000 {
		t.Errorf("left %d", left)
	}
	if got := run.ElapsedMS(0); got != 20*60_000 {
		t.Errorf("a clock set back gives %d ms", got)
	}
	early := step(Resume, 500)
	if err := run.Add(&early); err != nil || !run.SetBack {
		t.Errorf("set back is not told: %v", err)
	}
	if left, _ := run.LeftMS(1_000_000 + 61*60_000); left != 0 {
		t.Errorf("past its end %d ms are left", left)
	}
}

// Steps that cannot follow are refused and change nothing.
func TestStepsThatCannotFollow(t *testing.T) {
	s := begun(t, 2)
	ok := answered(t, s.Start.Codes[0], 0, 1_060_000, nil)
	end := step(End, 1_100_000)
	end.Ending = Done
	for name, steps := range map[string][]Step{
		"answer first": {ok},
		"begin twice":  {s, s},
		"twice":        {s, ok, ok},
		"after end":    {s, end, ok},
		"no step":      {s, step("pause", 1)},
		"no ending":    {s, step(End, 1)},
		"nothing":      {},
		"other format": {{Format: "x", Step: Begin, Start: s.Start}},
		"out of range": {s, func() Step { x := ok; g := *ok.Given; g.At = 2; x.Given = &g; return x }()},
		"other run":    {s, func() Step { x := ok; x.Run = "r2"; return x }()},
	} {
		if _, err := Fold(steps); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

// Equal-tailed Jeffreys intervals (Statistical Science, 2001, 16:101). The
// values were reckoned apart from this code, by Simpson's rule over the density
// with p = sin^2 t.
func TestInterval(t *testing.T) {
	for _, x := range []struct {
		right, items int
		low, high    float64
	}{{0, 10, 0, 0.2172}, {10, 10, 0.7828, 1}, {5, 10, 0.2235, 0.7765}} {
		low, high := mastery.Interval(x.right, x.items)
		if math.Abs(low-x.low) > 5e-4 || math.Abs(high-x.high) > 5e-4 {
			t.Errorf("%d of %d: %.4f to %.4f, want %.4f to %.4f", x.right, x.items, low, high, x.low, x.high)
		}
	}
}

func TestIntervalProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		items := rapid.IntRange(1, 400).Draw(t, "items")
		right := rapid.IntRange(0, items).Draw(t, "right")
		low, high := mastery.Interval(right, items)
		share := float64(right) / float64(items)
		if !(0 <= low && low <= share && share <= high && high <= 1) {
			t.Errorf("%d of %d: %v to %v", right, items, low, high)
		}
		if right < items {
			l2, h2 := mastery.Interval(right+1, items)
			if l2 < low || h2 < high {
				t.Error("one more right lowers the interval")
			}
		}
	})
}
