package mastery

import "slices"

// Calibration sets the stated chances of "safe" against what came of them.
type Calibration struct {
	N    int   // answers that stated a chance, of the newest RecentAnswers
	Bins []Bin // by tenths of the stated chance, lowest first; empty ones are left out
	// Brier is the mean squared gap between the chance and what came, 0 to 1.
	// It equals Reliability - Resolution + Uncertainty.
	Brier, Reliability, Resolution, Uncertainty float64
	// Stated is the mean chance, Safe the share that came out safe, and Low to
	// High the 95 % credible interval of that share; all 0 to 1.
	Stated, Safe, Low, High float64
	Says                    Says
}

// Bin is one tenth of the scale, for the calibration curve.
type Bin struct {
	From, To     float64
	N            int
	Stated, Safe float64 // mean stated chance, and the share that came out safe
	Low, High    float64 // 95 % credible interval of the share
}

// Says is what calibration comes to in a word.
type Says string

// The words. OverSure and UnderSure mean that the mean stated chance lies
// outside the interval of the share that came out safe.
const (
	SaysTooFew    Says = "too few"
	SaysOverSure  Says = "over-sure"
	SaysUnderSure Says = "under-sure"
	SaysFits      Says = "fits"
)

// RecentAnswers is how many answers count: a person's judgement changes, and
// 200 put a dozen or more into most bins. Our own choice.
const RecentAnswers = 200

// LeastAnswers is the number of answers below which calibration says nothing
// (common practice, no source).
const LeastAnswers = 30

// bins is how many bins the curve has.
const bins = 10

// Calibrate reckons the calibration of the stated chances. Helped attempts and
// a second try at the same patient on one day are left out.
func Calibrate(obs []Observation) Calibration { return learn(obs).Calibrate() }

// said is one stated chance of "safe", in thousandths, and what came of it.
type said struct {
	milli int
	safe  bool
}

// Calibrate is the function of that name over the attempts added.
func (l *Learner) Calibrate() Calibration {
	var groups [1001]group // by thousandths
	c := Calibration{N: len(l.answers.kept)}
	for _, a := range l.answers.kept {
		groups[a.milli].n++
		if a.safe {
			groups[a.milli].safe++
		}
	}
	for milli := range groups {
		groups[milli].stated = float64(milli) / 1000
	}
	c.Bins = curve(groups[:])
	c.decompose(groups[:])
	c.Says = SaysTooFew
	safe := 0.0
	for _, g := range groups {
		safe += g.safe
	}
	c.Low, c.High = Interval(int(safe), c.N)
	switch {
	case c.N < LeastAnswers:
	case c.Stated > c.High:
		c.Says = SaysOverSure
	case c.Stated < c.Low:
		c.Says = SaysUnderSure
	default:
		c.Says = SaysFits
	}
	return c
}

// group is every answer with one stated chance.
type group struct {
	stated  float64
	n, safe float64 // answers, and how many came out safe
}

// decompose splits the Brier score after Murphy (A new vector partition of the
// probability score, Journal of Applied Meteorology, 1973, 12:595). The split
// is exact because a group holds one chance only.
func (c *Calibration) decompose(groups []group) {
	var n, safe, stated float64
	for _, g := range groups {
		n += g.n
		safe += g.safe
		stated += g.n * g.stated
	}
	if n == 0 {
		return
	}
	base := safe / n
	c.Stated, c.Safe = stated/n, base
	for _, g := range groups {
		if g.n == 0 {
			continue
		}
		rate := g.safe / g.n
		c.Reliability += g.n / n * (g.stated - rate) * (g.stated - rate)
		c.Resolution += g.n / n * (rate - base) * (rate - base)
		c.Brier += (g.safe*(1-g.stated)*(1-g.stated) + (g.n-g.safe)*g.stated*g.stated) / n
	}
	c.Uncertainty = base * (1 - base)
}

// curve gathers groups by tenths; the last bin holds the chance 1 too.
func curve(groups []group) []Bin {
	var all [bins]Bin
	var stated, safe [bins]float64
	for milli, g := range groups {
		at := min(milli*bins/1000, bins-1)
		all[at].N += int(g.n)
		stated[at] += g.n * g.stated
		safe[at] += g.safe
	}
	for i := range all {
		b := &all[i]
		b.From, b.To = float64(i)/bins, float64(i+1)/bins
		if b.N > 0 {
			b.Stated, b.Safe = stated[i]/float64(b.N), safe[i]/float64(b.N)
			b.Low, b.High = Interval(int(safe[i]), b.N)
		}
	}
	return slices.DeleteFunc(all[:], func(b Bin) bool { return b.N == 0 })
}
