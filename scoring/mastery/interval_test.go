package mastery

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// Upper 5 % points of the F distribution, as NIST/SEMATECH, e-Handbook of
// Statistical Methods, 1.3.6.7.3 prints them. With F on (v1, v2) degrees of
// freedom, v1 F/(v1 F+v2) is the 0.95 quantile of Beta(v1/2, v2/2): half
// degrees are just the half numbers of Jeffreys' prior.
func TestBetaAgainstTableOfF(t *testing.T) {
	for _, row := range []struct{ v1, v2, f float64 }{
		{1, 10, 4.965},
		{2, 10, 4.103},
		{5, 10, 3.326},
		{10, 10, 2.978},
		{1, 20, 4.351},
		{3, 20, 3.098},
		{10, 20, 2.348},
		{1, 5, 6.608},
		{10, 5, 4.735},
	} {
		x := row.v1 * row.f / (row.v1*row.f + row.v2)
		near(t, "share of beta", betaShare(x, row.v1/2, row.v2/2), 0.95, 0.0001)
		near(t, "quantile of beta", betaQuantile(0.95, row.v1/2, row.v2/2), x, 0.0001)
	}
}

// Closed forms: I_x(a, 1) = x^a, and binomial sums for whole numbers.
func TestBetaClosedForms(t *testing.T) {
	near(t, "I_.5(2,3) = 11/16", betaShare(0.5, 2, 3), 11.0/16, 1e-14)
	near(t, "I_.2(2,5)", betaShare(0.2, 2, 5), 1-math.Pow(0.8, 6)-6*0.2*math.Pow(0.8, 5), 1e-14)
	near(t, "I_.3(7,1)", betaShare(0.3, 7, 1), math.Pow(0.3, 7), 1e-16)
	near(t, "I_.5(1/2,1/2)", betaShare(0.5, 0.5, 0.5), 0.5, 1e-14)
}

// The open statistics package gonum reckons the same intervals another way.
func TestIntervalAgainstGonum(t *testing.T) {
	for n := range 61 {
		for right := range n + 1 {
			b := distuv.Beta{Alpha: float64(right) + 0.5, Beta: float64(n-right) + 0.5}
			low, high := Interval(right, n)
			if right > 0 {
				near(t, "low", low, b.Quantile(0.025), 1e-9)
			}
			if right < n {
				near(t, "high", high, b.Quantile(0.975), 1e-9)
			}
			near(t, "mean", Mean(right, n), b.Mean(), 1e-12)
		}
	}
}

// Worked values, to four places, reckoned apart from this program.
func TestIntervalWorked(t *testing.T) {
	for _, row := range []struct {
		right, n        int
		mean, low, high float64
	}{
		{0, 5, 0.0833, 0, 0.3794},
		{5, 5, 0.9167, 0.6206, 1},
		{7, 10, 0.6818, 0.3942, 0.9073},
		{9, 10, 0.8636, 0.6187, 0.9890},
		{10, 10, 0.9545, 0.7828, 1},
		{18, 20, 0.8810, 0.7161, 0.9786},
		{27, 30, 0.8871, 0.7566, 0.9710},
		{29, 30, 0.9516, 0.8546, 0.9964},
	} {
		low, high := Interval(row.right, row.n)
		near(t, "mean", Mean(row.right, row.n), row.mean, 0.00006)
		near(t, "low", low, row.low, 0.00006)
		near(t, "high", high, row.high, 0.00006)
	}
}

func TestIntervalHoldsMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 3000).Draw(t, "n")
		right := rapid.IntRange(0, n).Draw(t, "right")
		low, high := Interval(right, n)
		if m := Mean(right, n); !(0 <= low && low < m && m < high && high <= 1) {
			t.Fatalf("%d of %d: %g to %g does not hold the mean %g", right, n, low, high, m)
		}
		if right < n {
			l, h := Interval(right+1, n)
			if Mean(right+1, n) <= Mean(right, n) || l < low || h < high {
				t.Fatalf("%d of %d: one more right lowers something", right, n)
			}
		}
	})
}
