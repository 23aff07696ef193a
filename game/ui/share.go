package ui

import "math"

func isNil(n Node) bool { return n == nil }

// present drops children that are nil, and groups with nothing in them, so that
// no gap is left for what is not there.
func present(children []Node) []Node {
	var out []Node
	for _, n := range children {
		if !isNil(n) && !emptyGroup(n) {
			out = append(out, n)
		}
	}
	return out
}

func emptyGroup(n Node) bool {
	switch n := n.(type) {
	case Row:
		return n.Pad == Pad{} && len(present(n.Children)) == 0
	case Column:
		return n.Pad == Pad{} && len(present(n.Children)) == 0
	}
	return false
}

// growOf is a child's share of the length left over along its parent.
func growOf(n Node) float64 {
	switch n := n.(type) {
	case Box:
		return n.Grow
	case Spacer:
		if n.Size == 0 {
			return 1
		}
	}
	return 0
}

// share deals a length out to children that each have a least and a wanted
// length. Short of the wanted sum they shrink towards their least in proportion
// to what they can give; short of the least sum they shrink further, in
// proportion, so that nothing ever leaves the parent. What is left over goes to
// those that grow.
func share(total float64, least, want, grow []float64) []float64 {
	out := make([]float64, len(want))
	sumLeast, sumWant, sumGrow := 0.0, 0.0, 0.0
	for i := range want {
		sumLeast += least[i]
		sumWant += want[i]
		sumGrow += grow[i]
	}
	switch {
	case total >= sumWant:
		for i := range want {
			out[i] = want[i]
			if sumGrow > 0 {
				out[i] += (total - sumWant) * grow[i] / sumGrow
			}
		}
	case total >= sumLeast:
		f := 0.0
		if sumWant > sumLeast {
			f = (total - sumLeast) / (sumWant - sumLeast)
		}
		for i := range want {
			out[i] = least[i] + f*(want[i]-least[i])
		}
	default:
		f := 0.0
		if sumLeast > 0 {
			f = math.Max(0, total) / sumLeast
		}
		for i := range want {
			out[i] = least[i] * f
		}
	}
	return out
}

// across gives the place of a child of length size in a length total.
func across(a Align, total, size float64) (at, length float64) {
	if a == Stretch {
		return 0, total
	}
	size = math.Min(size, total)
	switch a {
	case Middle, Baseline:
		return (total - size) / 2, size
	case End:
		return total - size, size
	}
	return 0, size
}
