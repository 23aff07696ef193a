package screen

import "leastwatt/game/bench"

// actAxis is the time of a treatment as the strip shows it: acts and bursts at
// their length, and every pause between them at most longestPause, so that
// minutes of waiting do not push the work together.
type actAxis struct {
	ms, at []int // knots: a time, and how far along the strip it lies
}

const (
	longestPause = 3000   // ms
	shortPause   = 300    // ms, between like acts
	shortestAxis = 10_000 // ms: what a strip shows at least
)

func newActAxis(pieces []bench.StripPiece, endMS int) *actAxis {
	x := &actAxis{ms: []int{0}, at: []int{0}}
	for i, p := range pieces {
		pause, long := longestPause, longestPause
		if i > 0 && p.Step != "treated" && pieces[i-1].Step == p.Step {
			pause, long = shortPause, shortPause // like acts, such as wait upon wait, stand close
		}
		x.add(p.FromMS, pause)
		if p.Step == "treated" {
			long = p.ToMS - p.FromMS
		}
		x.add(p.ToMS, long)
	}
	x.add(endMS, longestPause)
	return x
}

// add puts a knot at a time, at most so far behind the last.
func (x *actAxis) add(ms, most int) {
	last := len(x.ms) - 1
	if gone := ms - x.ms[last]; gone > 0 {
		x.ms, x.at = append(x.ms, ms), append(x.at, x.at[last]+min(gone, max(most, 0)))
	}
}

func (x *actAxis) length() int { return max(x.at[len(x.at)-1], shortestAxis) }

// place is where a time lies on the strip, 0 to 1.
func (x *actAxis) place(ms int) float64 {
	return float64(between(x.ms, x.at, ms)) / float64(x.length())
}

// moment is the time at a place of the strip.
func (x *actAxis) moment(f float64) int { return between(x.at, x.ms, int(f*float64(x.length()))) }

// between carries v over from one rising list of knots to another.
func between(from, to []int, v int) int {
	last := len(from) - 1
	if v >= from[last] {
		return to[last]
	}
	for i := 1; i <= last; i++ {
		if v <= from[i] {
			d := from[i] - from[i-1]
			if d == 0 {
				return to[i]
			}
			return to[i-1] + (v-from[i-1])*(to[i]-to[i-1])/d
		}
	}
	return to[0]
}
