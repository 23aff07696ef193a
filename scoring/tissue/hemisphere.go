package tissue

import "math"

// spreadHemisphere sets the gain of every voxel to the mean over it of the
// source q = P a/(2 pi r^4) outside r = a about the tip, nothing inside: the
// Joule heat of a hemispherical electrode on an even half-space. tipZM is the
// depth of the surface under the tip. It is not rescaled, so what the grid
// gets is less than P by what falls beyond it.
func (b *body) spreadHemisphere(xM, yM, tipZM, aM, powerW float64) {
	f := powerW * aM / (2 * pi)
	for n := range b.tiles {
		t := &b.tiles[n]
		t.gaining, t.gainW = true, 0
		for z := t.z; z < min(t.z+tileZ, b.nz); z++ {
			for y := t.y; y < min(t.y+tileY, b.ny); y++ {
				for x := t.x; x < min(t.x+tileX, b.nx); x++ {
					i := b.at(x, y, z)
					if !b.mats[b.mat[i]].solid {
						continue
					}
					cx, cy, cz := b.centreM(x, y, z)
					q := float32(float64(f * b.hM * b.hM * b.hM * meanInverseFourth(cx-xM, cy-yM, cz-tipZM, b.hM, aM)))
					b.gain[i] = q
					t.gainW += float64(q)
				}
			}
		}
		if powerW > 0 {
			b.wake(n)
		}
	}
}

const pi = 3.141592653589793

// centreM is the middle of a voxel: x and y from the middle of the patch, z
// from the level of the skin.
func (b *body) centreM(x, y, z int) (cx, cy, cz float64) {
	return float64((float64(x) + 0.5 - float64(b.nx)/2) * b.hM), float64((float64(y) + 0.5 - float64(b.ny)/2) * b.hM), float64((float64(z-b.planesUp) + 0.5) * b.hM)
}

// meanInverseFourth is the mean of 1/r^4 outside r = a over a cube of edge h
// about (x, y, z), by samples that are the finer the nearer the cube is.
func meanInverseFourth(x, y, z, h, a float64) float64 {
	r2 := float64(x*x) + float64(y*y) + float64(z*z)
	n := 1
	edge := sqrt(r2) - a
	switch {
	case edge < h && edge > -h: // the leap runs through it
		n = 12
	case r2 < 9*h*h:
		n = 6
	case r2 < 64*h*h:
		n = 3
	}
	sum := 0.0
	for k := range n {
		dz := z + float64(((float64(k)+0.5)/float64(n)-0.5)*h)
		for j := range n {
			dy := y + float64(((float64(j)+0.5)/float64(n)-0.5)*h)
			for i := range n {
				dx := x + float64(((float64(i)+0.5)/float64(n)-0.5)*h)
				d2 := float64(dx*dx) + float64(dy*dy) + float64(dz*dz)
				if d2 >= a*a {
					sum += 1 / float64(d2*d2)
				}
			}
		}
	}
	return sum / float64(n*n*n)
}

// hemisphere is the source by formula. It has no electric field, so it gives
// what the dial says.
type hemisphere struct {
	body         *body
	aM           float64
	spread       bool
	xM, yM, forW float64
}

func (s *hemisphere) heat(xM, yM, _, dialW, _ float64) float64 {
	if !s.spread || xM != s.xM || yM != s.yM || dialW != s.forW {
		s.body.spreadHemisphere(xM, yM, s.body.surfaceM(xM, yM), s.aM, dialW)
		s.spread, s.xM, s.yM, s.forW = true, xM, yM, dialW
	}
	return dialW
}

func (s *hemisphere) rest() {
	if s.spread {
		s.body.clearGain()
		s.spread = false
	}
}

func (s *hemisphere) impedance() *ImpedanceOhm { return nil }

// clearGain takes the gain of all voxels away.
func (b *body) clearGain() {
	for n := range b.tiles {
		b.tiles[n].gaining = false
	}
}

// surfaceM is the depth of the first solid voxel's top under a place.
func (b *body) surfaceM(xM, yM float64) float64 {
	x := clampInt(int(math.Floor(xM/b.hM+float64(b.nx)/2)), b.nx)
	y := clampInt(int(math.Floor(yM/b.hM+float64(b.ny)/2)), b.ny)
	z := b.firstSolid(x, y)
	return float64(z-b.planesUp) * b.hM
}

// firstSolid is the plane of the first solid voxel of a column, nz if none.
func (b *body) firstSolid(x, y int) int { return int(b.tops[y*b.nx+x]) }

// findTops looks for the first solid voxel of every column.
func (b *body) findTops() {
	if b.tops == nil {
		b.tops = make([]int32, b.nx*b.ny)
	}
	for y := range b.ny {
		for x := range b.nx {
			i := b.at(x, y, 0)
			z := 0
			for z < b.nz && !b.mats[b.mat[i]].solid {
				z++
				i += b.plane
			}
			b.tops[y*b.nx+x] = int32(z)
		}
	}
}
