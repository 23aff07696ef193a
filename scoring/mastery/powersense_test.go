package mastery

import (
	"math"
	"testing"
)

// The example of NIST/SEMATECH, e-Handbook of Statistical Methods, 6.3.2.4:
// weight 0.3, starting at 50 (figures from memory).
func TestWeightedMeansAgainstPublished(t *testing.T) {
	values := []float64{
		52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
		49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
	}
	want := []float64{
		50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
		50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
	}
	mean := 50.0
	for i, v := range values {
		mean = weightedMean(mean, v, 0.3)
		near(t, "mean", mean, want[i], 0.0051)
	}
}

func TestPowerSense(t *testing.T) {
	obs := []Observation{
		{UTC: 3, Day: 3, Case: "c", PowerW: 4, LeastUsualW: 4},
		{UTC: 1, Day: 1, Case: "a", PowerW: 8, LeastUsualW: 4},
		{UTC: 2, Day: 2, Case: "b", PowerW: 8},                                // no figure
		{UTC: 4, Day: 3, Case: "c", PowerW: 20, LeastUsualW: 4},               // second try
		{UTC: 5, Day: 4, Case: "d", PowerW: 20, LeastUsualW: 4, Helped: true}, // helped
		{UTC: 6, Day: 5, Case: "e", PowerW: math.NaN(), LeastUsualW: 4},
		{UTC: 7, Day: 6, Case: "f", PowerW: 2, LeastUsualW: 4},
	}
	points := PowerSense(obs)
	if len(points) != 3 || points[0].Day != 1 || points[1].Day != 3 || points[2].Day != 6 {
		t.Fatalf("points %+v", points)
	}
	for i, want := range []float64{2, 1, 0.5} {
		near(t, "ratio", points[i].Ratio, want, 1e-12)
	}
	near(t, "first smooth value", points[0].Smooth, 2, 1e-12)
	near(t, "second smooth value", points[1].Smooth, math.Pow(2, 0.8), 1e-12)
	near(t, "third smooth value", points[2].Smooth, math.Pow(2, 0.8*0.8-0.2), 1e-12)
	if PowerSense(nil) != nil {
		t.Error("points of nothing")
	}
}
