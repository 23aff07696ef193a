package mastery

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// readLSAT6 reads the published answers of testdata/lsat6.csv.
func readLSAT6(t *testing.T) []sitting {
	t.Helper()
	f, err := os.Open("testdata/lsat6.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var sittings []sitting
	for _, row := range rows[1:] {
		n, err := strconv.Atoi(row[5])
		if err != nil {
			t.Fatal(err)
		}
		s := sitting{weight: float64(n)}
		for i, x := range row[:5] {
			s.answers = append(s.answers, answer{int32(i), x == "1"})
		}
		sittings = append(sittings, s)
	}
	return sittings
}

// The totals of the five items and the number of people, as the same source
// prints them: a check of the committed data.
func TestLSAT6Totals(t *testing.T) {
	var people float64
	var totals [5]float64
	for _, s := range readLSAT6(t) {
		people += s.weight
		for _, a := range s.answers {
			if a.right {
				totals[a.item] += s.weight
			}
		}
	}
	if people != 1000 || totals != [5]float64{924, 709, 553, 763, 870} {
		t.Errorf("people %g, totals %v; the published are 1000 and 924 709 553 763 870", people, totals)
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.6f, published %.6f, allowed difference %g", what, got, want, within)
	}
}

// Difficulties with the slope fixed at 1.702, and log-likelihood -2541: printed
// by the function rasch of the open package ltm (21 points, as here) for the
// same answers, in open course notes on item response theory. A slope a there
// is a spread here; difficulties there are ours over the spread.
func TestRaschAgainstPrintedEstimates(t *testing.T) {
	f := rasch{spread: 1.702}.fit(readLSAT6(t), 5, make([]int, 5))
	for i, want := range []float64{-1.927, -0.742, -0.195, -0.960, -1.507} {
		near(t, "difficulty", f.difficulty[i]/1.702, want, 0.0006)
	}
	near(t, "log-likelihood", f.logLikelihood, -2541, 0.5)
}

// The Rasch model proper, slope 1, with standard errors: D. Rizopoulos, ltm: an
// R package for latent variable modelling and item response theory analyses,
// Journal of Statistical Software, 2006, 17(5) (figures from memory).
func TestRaschAgainstPublishedErrors(t *testing.T) {
	f := rasch{spread: 1}.fit(readLSAT6(t), 5, make([]int, 5))
	errs := []float64{0.1287, 0.0821, 0.0766, 0.0865, 0.1048}
	for i, want := range []float64{-2.8720, -1.0630, -0.2576, -1.3881, -2.2188} {
		near(t, "difficulty", f.difficulty[i], want, 0.0001)
		near(t, "standard error", f.err[i], errs[i], 0.0001)
	}
	near(t, "log-likelihood", f.logLikelihood, -2473.054, 0.001)
}

// With the spread left free the likelihood is highest at 0.755, where the
// difficulties less their mean are -1.255 0.476 1.235 0.168 -0.625: Bock and
// Aitkin, Psychometrika, 1981, 46:443, and Thissen, Psychometrika, 1982, 47:175
// (figures from memory). Log-likelihood -2466.938 and slope 0.7551:
// Journal of Statistical Software, 2006, 17(5) (from memory).
func TestRaschWithFreeSpread(t *testing.T) {
	data := readLSAT6(t)
	low, high := 0.5, 1.1
	for high-low > 1e-4 {
		a, b := low+(high-low)/3, high-(high-low)/3
		if (rasch{spread: a}).fit(data, 5, make([]int, 5)).logLikelihood < (rasch{spread: b}).fit(data, 5, make([]int, 5)).logLikelihood {
			low = a
		} else {
			high = b
		}
	}
	f := rasch{spread: low}.fit(data, 5, make([]int, 5))
	near(t, "spread", low, 0.7551, 0.0003)
	near(t, "log-likelihood", f.logLikelihood, -2466.938, 0.001)
	mean := 0.0
	for _, b := range f.difficulty {
		mean += b / 5
	}
	for i, want := range []float64{-1.255, 0.476, 1.235, 0.168, -0.625} {
		near(t, "centred difficulty", f.difficulty[i]-mean, want, 0.001)
	}
}

// A prior draws to the mean, and more so the fewer the answers.
func TestPriorShrinks(t *testing.T) {
	var data []sitting
	for i := range 400 {
		s := sitting{weight: 1, answers: []answer{{0, i%4 == 0}, {1, i%4 != 0}}}
		if i < 8 { // as hard as item 0, met eight times
			s.answers = append(s.answers, answer{2, i%4 == 0})
		}
		data = append(data, s)
	}
	free := rasch{spread: 1}.fit(data, 3, make([]int, 3))
	drawn := rasch{spread: 1, prior: 1}.fit(data, 3, make([]int, 3))
	mean := (drawn.difficulty[0] + drawn.difficulty[1] + drawn.difficulty[2]) / 3
	for i := range 3 {
		if math.Abs(drawn.difficulty[i]-mean) >= math.Abs(free.difficulty[i]-mean) {
			t.Errorf("item %d: %g with the prior lies no nearer to %g than %g without", i, drawn.difficulty[i], mean, free.difficulty[i])
		}
	}
	many, few := free.difficulty[0]-drawn.difficulty[0], free.difficulty[2]-drawn.difficulty[2]
	if few < 5*many {
		t.Errorf("the rare item moved by %g and the common one by %g; rare ones should move far more", few, many)
	}
	if free.err[2] < 3*free.err[0] {
		t.Errorf("standard errors %g with 8 answers and %g with 400: the first should be far larger", free.err[2], free.err[0])
	}
}

// An item that is always right has no finite estimate without a prior; with it
// the figures stay finite.
func TestItemsAlwaysRight(t *testing.T) {
	var obs []Observation
	for i := range 3 {
		obs = append(obs, Observation{UTC: int64(i), Day: i, Case: "p/c" + strconv.Itoa(i), Family: "skin_tag", Rules: []RuleResult{
			{"a", "room", kindCredit, 2, 2}, {"b", "site", kindCaution, 0, 2}, {"c", "site", kindAdvice, 0, 0}, {"d", "room", kindCredit, 0, 0},
		}})
	}
	items := Items(obs)
	if len(items) != 2 || items[0].Rule != "a" || items[1].Rule != "b" {
		t.Fatalf("items %+v; want rules a and b: advice, and rows without points, show nothing", items)
	}
	for _, it := range items {
		if !(math.Abs(it.Difficulty) < 10) || !(it.Error > 0 && it.Error < 10) || !it.Few || it.Answers != 3 {
			t.Errorf("item %+v", it)
		}
	}
	if items[0].Difficulty >= items[1].Difficulty {
		t.Errorf("the rule that was right (%g) should be easier than the one that was wrong (%g)", items[0].Difficulty, items[1].Difficulty)
	}
	if Items(nil) != nil {
		t.Error("items of nothing")
	}
}

// Help, second tries and what lies further back than RecentSittings tell
// nothing.
func TestItemsLeaveOut(t *testing.T) {
	obs := []Observation{{UTC: 0, Case: "p/old", Family: "milia", Rules: []RuleResult{{"old", "room", kindCaution, 0, 2}}}}
	for i := range RecentSittings {
		obs = append(obs, Observation{
			UTC: int64(i + 1), Day: i + 1, Case: "p/a", Family: "milia", Rules: []RuleResult{{"fresh", "room", kindCredit, 2, 2}},
		})
	}
	for i, o := range []Observation{{Day: RecentSittings, Case: "p/a"}, {Day: 9999, Case: "p/b", Helped: true}} {
		o.UTC, o.Family = int64(RecentSittings+1+i), "milia"
		o.Rules = []RuleResult{{"fresh", "room", kindCaution, 0, 2}}
		obs = append(obs, o)
	}
	items := Items(obs)
	if len(items) != 1 || items[0].Rule != "fresh" || items[0].Answers != RecentSittings || items[0].Right != RecentSittings || items[0].Few {
		t.Errorf("%+v", items)
	}
}
