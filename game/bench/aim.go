package bench

import (
	"math"

	"leastwatt/cases"
)

// NextSpot is where the tip should go next, so that a lesion can be treated by
// keys alone: of the ground that is still untreated, the place nearest to the
// tip, in steps of 0.1 mm. Ground is the lesion's surface, or the floor that a
// cut has left. With nothing left it returns false.
func (b *Bench) NextSpot() (xMM, yMM cases.Milli, ok bool) {
	b.look()
	m := &b.p.maps
	x0, y0 := b.hand.xMM.Float(), b.hand.yMM.Float()
	best := math.Inf(1)
	for i := range m.Omega {
		if m.Omega[i] >= 1 || m.Charred[i] {
			continue
		}
		x, y := b.p.place(i)
		if !b.isGround(i, x, y) {
			continue
		}
		if far := float64((x-x0)*(x-x0)) + float64((y-y0)*(y-y0)); far < best {
			best, xMM, yMM, ok = far, tenth(x), tenth(y), true
		}
	}
	return xMM, yMM, ok
}

func (b *Bench) isGround(column int, x, y float64) bool {
	if b.p.cut[column] || b.p.maps.Lesion[column] {
		return true
	}
	l := &b.c.Lesion
	half := l.WidthMM.Float() / 2
	switch l.Family {
	case "facial_telangiectasia", "leg_veins": // a line under the skin, along x
		return x >= -half && x <= half && y >= -0.2 && y <= 0.2
	}
	return l.HeightMM == 0 && float64(x*x)+float64(y*y) <= float64(half*half)
}

// tenth rounds to a tenth of a mm.
func tenth(mm float64) cases.Milli { return cases.Milli(math.Floor(float64(mm*10)+0.5)) * 100 }
