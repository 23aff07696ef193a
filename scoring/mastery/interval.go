package mastery

import "math"

// The prior and the level of every interval. Jeffreys' prior, Beta(1/2, 1/2),
// with equal tails is what Brown, Cai and DasGupta recommend for small numbers
// (Interval estimation for a binomial proportion, Statistical Science, 2001,
// 16:101); 95 % is the level that readers of medical papers expect.
const (
	priorRight = 0.5
	priorWrong = 0.5
	tail       = 0.025
)

// Mean is the mean of the posterior of a share after right of n, 0 to 1.
func Mean(right, n int) float64 {
	return (float64(right) + priorRight) / (float64(n) + priorRight + priorWrong)
}

// Interval is the equal-tailed 95 % credible interval of a share after right
// of n, with Jeffreys' prior. Its ends are 0 and 1 where nothing or everything
// was right, as Brown, Cai and DasGupta advise; of nothing at all it is 0 to 1.
func Interval(right, n int) (low, high float64) {
	a, b := float64(right)+priorRight, float64(n-right)+priorWrong
	low, high = 0, 1
	if right > 0 {
		low = betaQuantile(tail, a, b)
	}
	if right < n {
		high = betaQuantile(1-tail, a, b)
	}
	return low, high
}

// betaQuantile is the x at which the regularised incomplete beta function
// I_x(a, b) is p, by halving: 60 halvings are finer than a float64 near 1, and
// nothing is quicker to be sure of.
func betaQuantile(p, a, b float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		x := (low + high) / 2
		if betaShare(x, a, b) < p {
			low = x
		} else {
			high = x
		}
	}
	return (low + high) / 2
}

// betaShare is I_x(a, b), the share of a Beta(a, b) below x. The continued
// fraction is formula 8.17.22 of the NIST Digital Library of Mathematical
// Functions; it converges fast for x below (a+1)/(a+b+2), and the symmetry
// I_x(a, b) = 1 - I_{1-x}(b, a) serves the rest (8.17.4).
func betaShare(x, a, b float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - betaShare(1-x, b, a)
	}
	la, _ := math.Lgamma(a)
	lb, _ := math.Lgamma(b)
	lab, _ := math.Lgamma(a + b)
	front := math.Exp(a*math.Log(x) + b*math.Log1p(-x) + lab - la - lb)
	return front / a / betaFraction(x, a, b)
}

// betaFraction is 1 + d1/(1 + d2/(1 + ...)) of formula 8.17.22, by Lentz's
// method: each step improves the last by a factor, until the factor is 1.
func betaFraction(x, a, b float64) float64 {
	const small, close, most = 1e-300, 1e-15, 10_000
	f, c, d := 1.0, 1.0, 0.0
	for i := 1; i <= most; i++ {
		m := float64(i / 2)
		var term float64
		if i%2 == 0 {
			term = m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		} else {
			term = -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		}
		d = 1 + term*d
		if math.Abs(d) < small {
			d = small
		}
		c = 1 + term/c
		if math.Abs(c) < small {
			c = small
		}
		d = 1 / d
		f *= c * d
		if math.Abs(c*d-1) < close {
			break
		}
	}
	return f
}
