package solve

import (
	"cmp"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// tally counts what one habit was given on many cases: +1 for each safe
// verdict, -1 for each unsafe one.
type tally struct {
	habit   habit
	values  []int
	safe    int
	needs   int
	unsafe  int
	full    int            // plans with full marks
	points  int            // of all plans,
	of      int            // out of
	broken  map[string]int // never events and cautions, by rule
	low, up float64        // of the share safe minus the share unsafe
}

func (t *tally) share() float64 { return float64(t.safe-t.unsafe) / float64(len(t.values)) }

// Five made-up habits (and a sixth, printed only) over all built-in cases and 200 variants, or 2,000 when
// the full numbers are asked for. Whoever follows the tables must come first
// and be told apart from everybody else; whoever always does the same, and
// whoever throws dice, must come last.
func TestHabitsRank(t *testing.T) {
	n := 200
	if long() {
		n = 2000
	}
	judges, plans := judged(t, n)
	tallies := make([]*tally, len(habits))
	for i, h := range habits {
		tallies[i] = &tally{habit: h, broken: map[string]int{}}
		r := rand.New(rand.NewPCG(20261125, uint64(i)))
		for k, j := range judges {
			p := h.plan(j.Case, plans[k], r)
			tallies[i].add(j.Score(p, nil))
		}
		tallies[i].bootstrap(rand.New(rand.NewPCG(7, uint64(i))))
	}
	report := io.Discard
	if *keepReport {
		f, err := os.Create("../../testdata/reports/habits.txt")
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		report = f
	}
	printHabits(io.MultiWriter(report, t.Output()), tallies)
	ranked := slices.Clone(tallies[:5])
	slices.SortStableFunc(ranked, func(a, b *tally) int { return cmp.Compare(b.share(), a.share()) })
	if ranked[0].habit.name != guided {
		t.Errorf("%q comes first; following the tables should", ranked[0].habit.name)
	}
	for _, last := range ranked[len(ranked)-2:] {
		if last.habit.name != sameAlways && last.habit.name != dicePlan {
			t.Errorf("%q comes among the last two: %.3f", last.habit.name, last.share())
		}
	}
	for _, other := range ranked[1:] {
		if other.up >= ranked[0].low {
			t.Errorf("%q reaches %.3f, within the interval of %q from %.3f", other.habit.name, other.up, ranked[0].habit.name, ranked[0].low)
		}
	}
}

// judged lists every built-in case and n variants, each with its judge and the
// solver's plan.
func judged(t *testing.T, n int) ([]*scoring.Judge, []*cases.Plan) {
	t.Helper()
	var judges []*scoring.Judge
	var plans []*cases.Plan
	add := func(c *cases.Case, plan *cases.Plan) {
		j, err := scoring.NewJudge(tables.Builtin, c, nil, "cautious")
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			plan = Solve(j, "built-in/"+c.ID).Plan
		}
		judges, plans = append(judges, j), append(plans, plan)
	}
	for _, c := range packs.Cases() {
		add(c, nil)
	}
	for _, a := range accepted(t, n) {
		add(a.Case, a.Plan)
	}
	return judges, plans
}

func (t *tally) add(s scoring.Score) {
	switch {
	case s.Nevers > 0:
		t.unsafe++
		t.values = append(t.values, -1)
	case s.Cautions > 0:
		t.needs++
		t.values = append(t.values, 0)
	default:
		t.safe++
		t.values = append(t.values, 1)
	}
	t.points, t.of = t.points+s.Points, t.of+s.Of
	if s.Full() {
		t.full++
	}
	for _, m := range s.Marks {
		if m.Kind >= tables.Caution {
			t.broken[m.Row.Rule]++
		}
	}
}

// bootstrap finds the 95 % interval of the share by the percentile method:
// Efron, Bootstrap methods: another look at the jackknife, Annals of
// Statistics, 1979, Hayward.
func (t *tally) bootstrap(r *rand.Rand) {
	const draws = 2000
	means := make([]float64, draws)
	for i := range means {
		sum := 0
		for range t.values {
			sum += t.values[r.IntN(len(t.values))]
		}
		means[i] = float64(sum) / float64(len(t.values))
	}
	slices.Sort(means)
	t.low, t.up = means[draws*25/1000], means[draws*975/1000-1]
}

func printHabits(w io.Writer, tallies []*tally) {
	fmt.Fprintf(w, "%d cases, the built-in ones and the variants. Share safe less share unsafe, with its 95 %% bootstrap interval.\n\n", len(tallies[0].values))
	fmt.Fprintf(w, "%-22s %8s %8s %8s %8s   %-16s %8s %8s\n", "habit", "safe", "needs", "unsafe", "share", "interval", "full", "points")
	for _, t := range tallies {
		n := float64(len(t.values))
		fmt.Fprintf(w, "%-22s %7.1f%% %7.1f%% %7.1f%% %8.3f   %6.3f to %6.3f %7.1f%% %7.1f%%\n", t.habit.name,
			100*float64(t.safe)/n, 100*float64(t.needs)/n, 100*float64(t.unsafe)/n, t.share(), t.low, t.up,
			100*float64(t.full)/n, 100*float64(t.points)/float64(t.of))
	}
	for _, t := range tallies {
		rules := make([]string, 0, len(t.broken))
		for rule := range t.broken {
			rules = append(rules, rule)
		}
		slices.SortFunc(rules, func(a, b string) int {
			return cmp.Or(cmp.Compare(t.broken[b], t.broken[a]), cmp.Compare(a, b))
		})
		fmt.Fprintf(w, "\n%s: %s\n", t.habit.name, t.habit.is)
		for _, rule := range rules[:min(12, len(rules))] {
			fmt.Fprintf(w, "  %5d  %s\n", t.broken[rule], rule)
		}
	}
}
