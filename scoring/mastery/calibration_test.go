package mastery

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Forecasts in D. Wilks, Statistical Methods in the Atmospheric Sciences, 1995,
// table 7.3, page 246, as the open statistics package verification quotes them:
// stated chance, share of the forecasts, and how often the event came. The
// parts of the score were reckoned from that table apart from this program.
func TestBrierAgainstPublishedTable(t *testing.T) {
	stated := []float64{0, .05, .1, .2, .3, .4, .5, .6, .7, .8, .9, 1}
	share := []float64{.4112, .0671, .1833, .0986, .0616, .0366, .0303, .0275, .0245, .022, .017, .0203}
	rained := []float64{.006, .019, .059, .15, .277, .377, .511, .587, .723, .779, .934, .933}
	var groups []group
	for i := range stated {
		groups = append(groups, group{stated[i], share[i], share[i] * rained[i]})
	}
	c := Calibration{}
	c.decompose(groups)
	near(t, "base rate", c.Safe, 0.161503, 1e-6)
	near(t, "reliability", c.Reliability, 0.00082762, 1e-8)
	near(t, "resolution", c.Resolution, 0.06278663, 1e-8)
	near(t, "uncertainty", c.Uncertainty, 0.13542005, 1e-8)
	near(t, "Brier score", c.Brier, 0.07346104, 1e-8)
}

func stating(chance float64, safe bool, at int) Observation {
	o := Observation{UTC: int64(at), Day: at, Case: "p/c", Verdict: "needs work", Confidence: &chance}
	if safe {
		o.Verdict = verdictSafe
	}
	return o
}

// Twelve answers, worked by hand.
func TestCalibrateWorked(t *testing.T) {
	var obs []Observation
	for _, g := range []struct {
		chance float64
		safe   string
	}{{0.50, "0101"}, {0.75, "1101"}, {0.95, "1110"}} {
		for _, r := range g.safe {
			obs = append(obs, stating(g.chance, r == '1', len(obs)))
		}
	}
	c := Calibrate(obs)
	near(t, "Brier score", c.Brier, 0.2216667, 1e-7)
	near(t, "share safe", c.Safe, 0.666667, 1e-6)
	near(t, "reliability", c.Reliability, 0.0133333, 1e-7)
	near(t, "resolution", c.Resolution, 0.0138889, 1e-7)
	near(t, "uncertainty", c.Uncertainty, 0.2222222, 1e-7)
	near(t, "mean over-confidence", c.Stated-c.Safe, 0.0666667, 1e-7)
	if c.N != 12 || c.Says != SaysTooFew {
		t.Errorf("n %d, says %q", c.N, c.Says)
	}
	if len(c.Bins) != 3 || c.Bins[1].From != 0.7 || c.Bins[1].N != 4 || c.Bins[1].Safe != 0.75 {
		t.Errorf("bins %+v", c.Bins)
	}
}

func TestCalibrationSays(t *testing.T) {
	for _, row := range []struct {
		chance float64
		safe   int // of 40
		want   Says
	}{{0.95, 20, SaysOverSure}, {0.5, 39, SaysUnderSure}, {0.7, 27, SaysFits}, {1, 40, SaysFits}, {0, 0, SaysFits}} {
		var obs []Observation
		for i := range 40 {
			obs = append(obs, stating(row.chance, i < row.safe, i))
		}
		c := Calibrate(obs)
		if c.Says != row.want {
			t.Errorf("%g stated and %d of 40 safe: %q, want %q", row.chance, row.safe, c.Says, row.want)
		}
		if few := Calibrate(obs[:LeastAnswers-1]).Says; few != SaysTooFew {
			t.Errorf("with %d answers: %q", LeastAnswers-1, few)
		}
	}
}

// Old answers, helped ones, second tries of a day, and chances that are no
// chances do not count.
func TestCalibrateLeavesOut(t *testing.T) {
	var obs []Observation
	for i := range RecentAnswers {
		obs = append(obs, stating(0.9, true, i+10))
	}
	old := stating(0.1, false, 1)
	helped := stating(0.1, false, 1000)
	helped.Helped = true
	again := stating(0.1, false, 10+RecentAnswers-1)
	again.UTC++
	obs = append(obs, old, helped, again, stating(1.5, false, 2000), stating(math.NaN(), false, 2001))
	if c := Calibrate(obs); c.N != RecentAnswers || c.Safe != 1 || math.Abs(c.Stated-0.9) > 1e-12 {
		t.Errorf("%+v", c)
	}
	if c := Calibrate(nil); c.N != 0 || c.Brier != 0 || c.Says != SaysTooFew || c.High != 1 {
		t.Errorf("of nothing: %+v", c)
	}
}

func TestBrierParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var obs []Observation
		for i := range rapid.IntRange(1, 120).Draw(t, "n") {
			milli := rapid.IntRange(0, 1000).Draw(t, "chance")
			obs = append(obs, stating(float64(milli)/1000, rapid.Bool().Draw(t, "safe"), i))
		}
		c := Calibrate(obs)
		if sum := c.Reliability - c.Resolution + c.Uncertainty; math.Abs(sum-c.Brier) > 1e-12 {
			t.Fatalf("parts give %g and not %g", sum, c.Brier)
		}
		if c.Reliability < 0 || c.Resolution < 0 || c.Resolution > c.Uncertainty+1e-12 || c.Brier > 1 {
			t.Fatalf("%+v", c)
		}
		n := 0
		for _, b := range c.Bins {
			n += b.N
			if b.Stated < b.From-1e-9 || b.Stated > b.To+1e-9 || b.Safe < b.Low || b.Safe > b.High {
				t.Fatalf("bin %+v", b)
			}
		}
		if n != c.N {
			t.Fatalf("%d in the bins, %d in all", n, c.N)
		}
	})
}
