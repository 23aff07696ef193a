package cases

import "math/bits"

// dice draws the numbers that a case is composed of. It is a splitmix64
// generator (Steele, Lea and Flood, Fast splittable pseudorandom number
// generators, OOPSLA 2014, Portland): whole numbers only, so it throws the same
// on every machine. Each subject of a case has dice of its own, so that one
// more throw for the site never changes the patient.
type dice struct{ state uint64 }

// newDice makes the dice of one subject for one recipe.
func newDice(subject string, version, family, level, seed int) *dice {
	h := uint64(14695981039346656037) // FNV-1a, 64 bit
	for _, b := range []byte(subject) {
		h = (h ^ uint64(b)) * 1099511628211
	}
	for _, n := range []int{version, family, level, seed} {
		h = stir(h + uint64(n) + 0x9E3779B97F4A7C15)
	}
	return &dice{h}
}

func stir(z uint64) uint64 {
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

func (d *dice) next() uint64 {
	d.state += 0x9E3779B97F4A7C15
	return stir(d.state)
}

// below throws a number from 0 to n-1; 0 when n is not positive.
func (d *dice) below(n int) int {
	if n <= 0 {
		return 0
	}
	high, _ := bits.Mul64(d.next(), uint64(n))
	return int(high)
}

// between throws a number from low to high, both in it.
func (d *dice) between(low, high int) int { return low + d.below(high-low+1) }

// chance holds in so many of a hundred throws.
func (d *dice) chance(in100 int) bool { return d.below(100) < in100 }

// measure throws a number of the range in steps, its ends rounded into it.
func (d *dice) measure(low, high, step Milli) Milli {
	first, last := (low+step-1)/step, high/step
	if last < first {
		return low
	}
	return Milli(d.between(int(first), int(last))) * step
}

// middling throws a number from low to high of which the middle is likelier:
// the mean of three even throws.
func (d *dice) middling(low, high int) int {
	return (d.between(low, high) + d.between(low, high) + d.between(low, high)) / 3
}

// pick throws the index of a weight; -1 when no weight is over 0.
func (d *dice) pick(weights []int) int {
	sum := 0
	for _, w := range weights {
		sum += max(w, 0)
	}
	at := d.below(sum)
	for i, w := range weights {
		if at -= max(w, 0); at < 0 && sum > 0 {
			return i
		}
	}
	return -1
}
