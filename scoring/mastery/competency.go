package mastery

// Competency is what was shown so far in one domain of findings.
type Competency struct {
	Domain string
	// Cases is how many cases asked for the domain, of the newest RecentCases
	// that did; Right is how many of them had every item of it right.
	Right, Cases int
	// Mean and the 95 % credible interval of the share of cases that are right,
	// 0 to 1.
	Mean, Low, High float64
	// TooFew holds while the interval is wider than WidestSaid: there are too
	// few cases to say.
	TooFew bool
	// Stated counts those of the cases that came with a stated chance of
	// "safe"; Sure is the mean of it, 0 to 1.
	Stated int
	Sure   float64
	// OverSure tells that the stated chances lie above the whole interval of
	// those cases. A chance of "safe" is a chance that every domain is right
	// at once, so it can hardly be meant to exceed what one of them reaches.
	OverSure bool
}

// RecentCases is how many cases of a domain count: enough for an interval of a
// quarter of the scale at the worst, and few enough that the first clumsy
// months are one day forgotten. Our own choice.
const RecentCases = 50

// WidestSaid is the width of the interval at which a share is first told. A
// third of the scale tells "mostly wrong", "about half" and "mostly right"
// apart, and no less would. Our own choice.
const WidestSaid = 1.0 / 3

// Competencies reckons what was shown in each of the ten domains, in the order
// of the vocabulary. One case is one trial of each domain that it asks for:
// the rows of one case hang together, and counting them one by one would make
// the interval narrower than what is known.
func Competencies(obs []Observation) []Competency { return learn(obs).Competencies() }

// trial is one case in one domain.
type trial struct {
	right  bool
	stated bool
	milli  int32 // stated chance of "safe", thousandths
}

// Competencies is the function of that name over the attempts added.
func (l *Learner) Competencies() []Competency {
	out := make([]Competency, len(domains))
	for d, id := range domains {
		c := Competency{Domain: id, Cases: len(l.recent[d].kept)}
		var statedRight, sureMilli int
		for _, t := range l.recent[d].kept {
			if t.right {
				c.Right++
			}
			if t.stated {
				c.Stated++
				sureMilli += int(t.milli)
				if t.right {
					statedRight++
				}
			}
		}
		c.Mean = Mean(c.Right, c.Cases)
		c.Low, c.High = Interval(c.Right, c.Cases)
		c.TooFew = c.High-c.Low > WidestSaid
		if c.Stated > 0 {
			c.Sure = float64(sureMilli) / 1000 / float64(c.Stated)
			_, most := Interval(statedRight, c.Stated)
			c.OverSure = !c.TooFew && c.Sure > most
		}
		out[d] = c
	}
	return out
}
