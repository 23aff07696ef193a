package mastery

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// answer is one item met in one sitting.
type answer struct {
	item  int32
	right bool
}

// sitting is what one person answered at one time; weight is how many people
// answered just so.
type sitting struct {
	answers []answer
	weight  float64
}

// rasch is a model of how hard items are: the chance of a right answer is
// 1/(1+exp(difficulty-ability)), with ability normal about 0.
type rasch struct {
	// spread is the standard deviation of ability.
	spread float64
	// prior is the standard deviation of the difficulties about their mean,
	// for shrinking; 0 shrinks nothing.
	prior float64
}

// fitted is what a fit gives: by item, in logits; positive is harder.
type fitted struct {
	difficulty, err []float64
	logLikelihood   float64
}

// nodes is the number of points of the Gauss-Hermite rule over ability.
const nodes = 21

// fit estimates the difficulty of items 0 to items-1 by marginal maximum
// likelihood with the EM algorithm (Bock and Aitkin, Marginal maximum
// likelihood estimation of item parameters, Psychometrika, 1981, 46:443); with
// a prior it is the mode of the posterior (Mislevy, Bayes modal estimation in
// item response models, Psychometrika, 1986, 51:177). Every item needs an
// answer. block gives, by item, the group of items that may meet in a sitting.
func (m rasch) fit(sittings []sitting, items int, block []int) fitted {
	ability, weight := m.abilities()
	f := fitted{difficulty: make([]float64, items), err: make([]float64, items)}
	e := newExpectation(items)
	const most, close = 2000, 1e-6
	for range most {
		f.logLikelihood = e.expect(sittings, f.difficulty, &ability, &weight, nil)
		if m.improve(f.difficulty, e, &ability) < close {
			break
		}
	}
	m.errors(&f, sittings, block, &ability, &weight)
	return f
}

// abilities gives the points of ability and their weights, which add up to 1.
func (m rasch) abilities() (ability, weight [nodes]float64) {
	quad.Hermite{}.FixedLocations(ability[:], weight[:], math.Inf(-1), math.Inf(1))
	for q := range ability {
		// The rule is for the weight exp(-x^2); this makes it the normal's.
		weight[q] /= math.SqrtPi
		ability[q] *= math.Sqrt2 * m.spread
	}
	return ability, weight
}

// expectation is what the sittings come to at the present difficulties.
type expectation struct {
	right    []float64        // by item: right answers
	met      [][nodes]float64 // by item: answers expected at each ability
	logRight [][nodes]float64 // by item: logarithm of the chance of a right answer
}

func newExpectation(items int) *expectation {
	return &expectation{make([]float64, items), make([][nodes]float64, items), make([][nodes]float64, items)}
}

// expect fills e and gives the logarithm of the likelihood. each, if there is
// one, sees every sitting with the posterior of its ability.
func (e *expectation) expect(sittings []sitting, difficulty []float64, ability, weight *[nodes]float64,
	each func(s *sitting, posterior *[nodes]float64),
) float64 {
	clear(e.right)
	clear(e.met)
	for i, b := range difficulty {
		for q, a := range ability {
			e.logRight[i][q] = -softPlus(b - a)
		}
	}
	var logWeight [nodes]float64
	for q, w := range weight {
		logWeight[q] = math.Log(w)
	}
	total := 0.0
	for at := range sittings {
		s := &sittings[at]
		var posterior [nodes]float64
		logs := logWeight
		for _, a := range s.answers {
			chances := &e.logRight[a.item]
			for q := range logs {
				logs[q] += chances[q]
				if !a.right {
					// log(1-p) = log p + difficulty - ability
					logs[q] += difficulty[a.item] - ability[q]
				}
			}
		}
		total += s.weight * soften(&logs, &posterior)
		if each != nil {
			each(s, &posterior)
		}
		for _, a := range s.answers {
			if a.right {
				e.right[a.item] += s.weight
			}
			met := &e.met[a.item]
			for q, h := range posterior {
				met[q] += s.weight * h
			}
		}
	}
	return total
}

// soften turns logarithms of weights into shares and gives the logarithm of
// their sum.
func soften(logs, shares *[nodes]float64) float64 {
	top := logs[0]
	for _, l := range logs {
		top = max(top, l)
	}
	sum := 0.0
	for q, l := range logs {
		shares[q] = math.Exp(l - top)
		sum += shares[q]
	}
	for q := range shares {
		shares[q] /= sum
	}
	return top + math.Log(sum)
}

// softPlus is log(1+exp(x)) without overflow.
func softPlus(x float64) float64 {
	if x > 0 {
		return x + math.Log1p(math.Exp(-x))
	}
	return math.Log1p(math.Exp(x))
}

// improve moves each difficulty towards where the expected answers put it, and
// gives the largest step. Two of Newton's steps do: the next round of EM
// expects other answers anyway.
func (m rasch) improve(difficulty []float64, e *expectation, ability *[nodes]float64) (step float64) {
	mean, pull := 0.0, 0.0
	if m.prior > 0 {
		for _, b := range difficulty {
			mean += b / float64(len(difficulty))
		}
		pull = 1 / (m.prior * m.prior)
	}
	for i, before := range difficulty {
		b := before
		for range 2 {
			slope, bend := -e.right[i]-pull*(b-mean), pull
			for q, a := range ability {
				p := 1 / (1 + math.Exp(b-a))
				slope += e.met[i][q] * p
				bend += e.met[i][q] * p * (1 - p)
			}
			// At most one logit, so that it cannot leap.
			b += min(max(slope/bend, -1), 1)
		}
		difficulty[i] = b
		step = max(step, math.Abs(b-before))
	}
	return step
}
