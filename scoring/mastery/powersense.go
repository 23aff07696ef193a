package mastery

import "math"

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
func PowerSense(obs []Observation) []Point {
	h := newHistory(obs)
	var points []Point
	var logs []float64
	for at := range h.order {
		o := h.at(at)
		ratio := o.PowerW / o.LeastUsualW
		if !h.counts(at) || !(o.PowerW > 0) || !(o.LeastUsualW > 0) || math.IsInf(ratio, 0) || ratio == 0 {
			continue
		}
		points = append(points, Point{UTC: o.UTC, Day: o.Day, Ratio: ratio})
		logs = append(logs, math.Log(ratio))
	}
	if len(points) == 0 {
		return nil
	}
	for i, smooth := range weightedMeans(logs, logs[0], smoothing) {
		points[i].Smooth = math.Exp(smooth)
	}
	return points
}

// weightedMeans is the exponentially weighted mean after each value: weight
// times the value and the rest of the mean before, which begins at start.
func weightedMeans(values []float64, start, weight float64) []float64 {
	means := make([]float64, len(values))
	for i, v := range values {
		start += weight * (v - start)
		means[i] = start
	}
	return means
}
