package mastery

import "math"

// errors fills in the standard errors: the square roots of the diagonal of the
// inverse observed information. The information is what whole data would give
// less what the unknown ability hides (Louis, Finding the observed information
// matrix when using the EM algorithm, Journal of the Royal Statistical
// Society B, 1982, 44:226). Items of different blocks never meet, so each
// block has a matrix of its own. That the mean of the prior is estimated too
// is not counted.
func (m rasch) errors(f *fitted, sittings []sitting, block []int, ability, weight *[nodes]float64) {
	place := make([]int, len(f.difficulty)) // of an item in its block
	var members [][]int
	for i, b := range block {
		for b >= len(members) {
			members = append(members, nil)
		}
		place[i] = len(members[b])
		members[b] = append(members[b], i)
	}
	info := make([][][]float64, len(members))
	for b, items := range members {
		info[b] = make([][]float64, len(items))
		for k := range info[b] {
			info[b][k] = make([]float64, len(items))
			if m.prior > 0 {
				info[b][k][k] = 1 / (m.prior * m.prior)
			}
		}
	}
	e := newExpectation(len(place))
	var chance [][nodes]float64
	e.expect(sittings, f.difficulty, ability, weight, func(s *sitting, posterior *[nodes]float64) {
		chance = chance[:0]
		means := make([]float64, len(s.answers))
		for k, a := range s.answers {
			var p [nodes]float64
			for q := range p {
				p[q] = 1 / (1 + math.Exp(f.difficulty[a.item]-ability[q]))
				means[k] += posterior[q] * p[q]
			}
			chance = append(chance, p)
		}
		for k, a := range s.answers {
			rows := info[block[a.item]]
			for q, h := range posterior {
				rows[place[a.item]][place[a.item]] += s.weight * h * chance[k][q] * (1 - chance[k][q])
			}
			for l, other := range s.answers {
				together := -means[k] * means[l]
				for q, h := range posterior {
					together += h * chance[k][q] * chance[l][q]
				}
				rows[place[a.item]][place[other.item]] -= s.weight * together
			}
		}
	})
	for b, items := range members {
		variance := inverseDiagonal(info[b])
		for k, i := range items {
			f.err[i] = math.Sqrt(variance[k])
		}
	}
}

// inverseDiagonal is the diagonal of the inverse of a symmetric positive
// matrix, by Cholesky's method: with a = L L', it is the sums of squares of
// the columns of the inverse of L. A matrix that is not positive gives
// infinite entries.
func inverseDiagonal(a [][]float64) []float64 {
	n := len(a)
	diagonal := make([]float64, n)
	lower := make([][]float64, n)
	for i := range lower {
		lower[i] = make([]float64, n)
		for j := 0; j <= i; j++ {
			sum := a[i][j]
			for k := range j {
				sum -= lower[i][k] * lower[j][k]
			}
			if i != j {
				lower[i][j] = sum / lower[j][j]
				continue
			}
			if !(sum > 0) {
				for k := range diagonal {
					diagonal[k] = math.Inf(1)
				}
				return diagonal
			}
			lower[i][i] = math.Sqrt(sum)
		}
	}
	column := make([]float64, n)
	for j := range n {
		for i := j; i < n; i++ {
			sum := 0.0
			if i == j {
				sum = 1
			}
			for k := j; k < i; k++ {
				sum -= lower[i][k] * column[k]
			}
			column[i] = sum / lower[i][i]
			diagonal[j] += column[i] * column[i]
		}
	}
	return diagonal
}
