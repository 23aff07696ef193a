package mastery

import (
	"math"
	"slices"
)

// Point is one attempt on the chart of least-power sense.
type Point struct {
	UTC   int64 // milliseconds since 1970, universal time
	Day   int
	Ratio float64 // dialled watts over the least usual figure; 1 is the least
	// Smooth is the weighted geometric mean of the ratios so far, the newest
	// weighing most.
	Smooth float64
}

// smoothing is the weight of the newest ratio. Charts of exponentially
// weighted means usually take 0.2 to 0.3 (NIST/SEMATECH, e-Handbook of
// Statistical Methods, 6.3.2.4).
const smoothing = 0.2

// PowerSense is how far the dialled watts stood above the least usual figure,
// attempt by attempt, oldest first. Attempts without both figures are left
// out, and so are helped ones and a second try at the same patient on one day.
// Ratios are smoothed by their logarithms, so that half and twice weigh alike.
func PowerSense(obs []Observation) []Point { return learn(obs).PowerSense() }

// PowerSense is the function of that name over the attempts added.
func (l *Learner) PowerSense() []Point { return slices.Clone(l.points) }

// dial adds the point of an attempt that counts, if it has one.
func (l *Learner) dial(o *Observation) {
	ratio := o.PowerW / o.LeastUsualW
	if !(o.PowerW > 0) || !(o.LeastUsualW > 0) || math.IsInf(ratio, 0) || ratio == 0 {
		return
	}
	smooth := math.Log(ratio)
	if n := len(l.points); n > 0 {
		smooth = weightedMean(math.Log(l.points[n-1].Smooth), smooth, smoothing)
	}
	l.points = append(l.points, Point{o.UTC, o.Day, ratio, math.Exp(smooth)})
}

// weightedMean is the exponentially weighted mean after value: weight times
// the value and the rest of the mean before.
func weightedMean(before, value, weight float64) float64 { return before + weight*(value-before) }
