package mastery

import "math"

// Spacing is a model of forgetting with its weights: the open algorithm FSRS,
// version 6 (Open Spaced Repetition project, FSRS-6, as in its published
// scheduler, edition 6.3.1, 2025), without its steps within one day.
type Spacing struct {
	Name    string
	Weights [21]float64
	// What follows from the weights alone and is needed at every step.
	factor, growth, easiest float64
}

// FSRS6 has the published default weights. They were fitted to how people
// forget words; for decisions they are a starting point and no more.
var FSRS6 = newSpacing("FSRS-6, default weights", [21]float64{
	0.212, 1.2931, 2.3065, 8.2956, // first stability, by grade
	6.4133, 0.8334, 3.0194, 0.001, // difficulty
	1.8722, 0.1666, 0.796, // stability after a success
	1.4835, 0.0614, 0.2629, 1.6483, // stability after a failure
	0.6014, 1.8729, // with help, and sure
	0.5425, 0.0912, 0.0658, // steps within one day: not used here
	0.1542, // decay
})

func newSpacing(name string, weights [21]float64) *Spacing {
	s := &Spacing{Name: name, Weights: weights}
	s.factor = math.Pow(dayRecall, -1/weights[20]) - 1
	s.growth = math.Exp(weights[8])
	s.easiest = s.firstDifficulty(easiestGrade)
	return s
}

// Recalled is how well something was recalled.
type Recalled int

// The grades of FSRS.
const (
	Failed   Recalled = 1
	WithHelp Recalled = 2
	Passed   Recalled = 3
	Sure     Recalled = 4 // passed, nothing advised, and sure of it
)

// Memory is the state of one thing learnt.
type Memory struct {
	StabilityDays float64 // days until the chance of recall has fallen to 0.9
	Difficulty    float64 // 1 to 10
}

// Limits of the model's state and of its intervals.
const (
	leastStabilityDays = 0.001
	leastDifficulty    = 1.0
	mostDifficulty     = 10.0
	mostIntervalDays   = 36500
	aimedRecall        = 0.9 // the model's default
	dayRecall          = 0.9 // by definition of stability
	easiestGrade       = 4.0
)

// First is the memory after the first time, which went as g says.
func (s *Spacing) First(g Recalled) Memory {
	return Memory{
		StabilityDays: max(s.Weights[g-1], leastStabilityDays),
		Difficulty:    clampDifficulty(s.firstDifficulty(float64(g))),
	}
}

func (s *Spacing) firstDifficulty(g float64) float64 {
	return s.Weights[4] - math.Exp(s.Weights[5]*(g-1)) + 1
}

// Recall is the chance, 0 to 1, that m is recalled after days.
func (s *Spacing) Recall(m Memory, days float64) float64 {
	return math.Pow(1+s.factor*days/m.StabilityDays, -s.Weights[20])
}

// IntervalDays is after how many whole days the chance of recall has fallen to
// recall, 1 to 36500.
func (s *Spacing) IntervalDays(m Memory, recall float64) int {
	days := m.StabilityDays / s.factor * (math.Pow(recall, -1/s.Weights[20]) - 1)
	return int(min(max(math.Round(days), 1), mostIntervalDays))
}

// Next is the memory after it was asked for again, days (1 or more) after the
// last time, and it went as g says.
func (s *Spacing) Next(m Memory, g Recalled, days int) Memory {
	w := &s.Weights
	recall := s.Recall(m, float64(days))
	var stability float64
	if g == Failed {
		stability = w[11] * math.Pow(m.Difficulty, -w[12]) *
			(math.Pow(m.StabilityDays+1, w[13]) - 1) * math.Exp(w[14]*(1-recall))
		stability = min(stability, m.StabilityDays)
	} else {
		grows := s.growth * (11 - m.Difficulty) * math.Pow(m.StabilityDays, -w[9]) *
			(math.Exp(w[10]*(1-recall)) - 1)
		switch g {
		case WithHelp:
			grows *= w[15]
		case Sure:
			grows *= w[16]
		}
		stability = m.StabilityDays * (1 + grows)
	}
	moved := m.Difficulty - w[6]*(float64(g)-3)*(mostDifficulty-m.Difficulty)/9
	return Memory{
		StabilityDays: max(stability, leastStabilityDays),
		Difficulty:    clampDifficulty(w[7]*s.easiest + (1-w[7])*moved),
	}
}

func clampDifficulty(d float64) float64 { return min(max(d, leastDifficulty), mostDifficulty) }
