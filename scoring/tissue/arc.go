package tissue

// arc holds what sparks need: where they land, and a seeded row of random
// numbers (splitmix64: Steele, Lea and Flood, OOPSLA 2014).
type arc struct {
	state  uint64
	feet   []column
	ageS   float64
	weight []float64 // of the columns within reach
	reach  []column
	rims   []rim
	on     bool    // an arc burns across a dried crust
	first  int     // touch that is the first of the arc's
	share  float64 // of the current, that the arc carries
}

func (a *arc) next() uint64 {
	a.state += 0x9e3779b97f4a7c15
	z := a.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// unit is a random number from 0 up to 1.
func (a *arc) unit() float64 { return float64(a.next()>>11) / (1 << 53) }

const (
	// A needle strikes at less than even plates do: across 1 mm, streamers from a
	// point of 50 micrometres reach the other side above 2.5 kV (Georghiou and
	// others, Journal of Physics D 1999;32:1370), where even plates take 4.3.
	needleShare = 0.6
	// No gap in cold air is jumped by less: the quoted least of Paschen's curve, at
	// 7.5 micrometres. In steam and salt between a tip and tissue, arcs begin at
	// 200 V (Koninckx and others, Facts, Views and Vision in ObGyn 2024;16:281).
	leastPeakV = 327
	leastArcV  = 200
	roomC      = 20
	// The gas of a discharge that burns between metal and water in air, fed by
	// alternating voltage, has 1800 K (Lu and Laroussi, IEEE Transactions on Plasma
	// Science 2005;33:272).
	burningGasC = 1800 - kelvin
	wanderM     = 1e-4   // a spark seeks the nearest place: one length of falling off; an engineering choice
	footRadiusM = 7.5e-5 // an engineering choice, as are the next two; a channel is narrower, but wanders
	feetCount   = 6
	feetS       = 0.016 // how long one set of feet stands for the thousands of sparks
)

// strikeV is the peak voltage that jumps an open gap in gas of that
// temperature.
func strikeV(gapM, gasC float64) float64 { return max(leastPeakV, needleV(gapM, gasC)) }

// arcStrikesV is the peak voltage that jumps a dried crust of that thickness.
func arcStrikesV(crustM, gasC float64) float64 { return max(leastArcV, needleV(crustM, gasC)) }

// needleV is the fit 24.22 d + 6.08 sqrt d, kV with d in cm times the gas's
// density over that of air at 20 C, of even gaps (Naidu and Kamaraju, High
// Voltage Engineering, McGraw-Hill), times what a needle needs.
// That gap and density count by their product alone is Paschen's law (Annalen
// der Physik 1889;273:69).
func needleV(gapM, gasC float64) float64 {
	d := gapM * 100 * (20 + kelvin) / (gasC + kelvin)
	return needleShare * 1000 * (float64(24.22*d) + float64(6.08*sqrt(d)))
}

// strike chooses new feet for sparks from a tip gapM above the highest tissue
// under it. It reports whether any place is within reach of the peak voltage.
func (a *arc) strike(t *tip, gapM, peakV float64) bool {
	b := t.body
	reachM := 0.0
	for reachM < 0.02 && strikeV(reachM+b.hM/2, roomC) <= peakV {
		reachM += b.hM / 2
	}
	if strikeV(gapM, roomC) > peakV {
		return false
	}
	reachM = max(reachM, gapM)
	a.reach = coveredColumns(a.reach[:0], b, t.xM, t.yM, t.radiusM+reachM, 0)
	high := b.nz
	for _, c := range t.columns {
		high = min(high, b.firstSolid(c.x, c.y))
	}
	a.weight = a.weight[:0]
	total := 0.0
	for _, c := range a.reach {
		z := b.firstSolid(c.x, c.y)
		w := 0.0
		if z < b.nz {
			cx, cy, _ := b.centreM(c.x, c.y, 0)
			aside := max(0, sqrt(square(cx-t.xM)+square(cy-t.yM))-t.radiusM)
			away := sqrt(square(gapM+float64(float64(z-high)*b.hM)) + square(aside))
			if strikeV(away, roomC) <= peakV {
				s := float64(b.sigmaOf(b.at(c.x, c.y, z), z))
				w = float64(exp(-max(0, away-gapM)/wanderM) * s)
			}
		}
		total += w
		a.weight = append(a.weight, total)
	}
	if total <= 0 {
		return false
	}
	a.feet = a.feet[:0]
	for range feetCount {
		u := a.unit() * total
		k := 0
		for k < len(a.weight)-1 && a.weight[k] <= u {
			k++
		}
		a.feet = append(a.feet, a.reach[k])
	}
	return true
}
