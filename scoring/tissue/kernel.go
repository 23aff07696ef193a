package tissue

// lanes gathers, beside the march of a row, the heat given to the blood and
// the largest rise. There are eight of each, as a vector register holds, and
// voxel k of a row always goes to lane k mod 8: so the plain and the vector
// code add in the same order.
type lanes struct {
	blood, top [8]float32
}

// stencil is the six-neighbour operator that heat and current share:
//
//	flow into a voxel = sum of g (neighbour - voxel) - loss voxel + gain
//
// gx, gy, gz hold the conductance of the face to the neighbour before.
type stencil struct {
	gx, gy, gz         []float32 // W/K, or S
	loss               []float32 // the same, to something that is held at nought
	gain               []float32 // W, or A; nil for none
	weight             []float32 // of a voxel's answer to a flow: K/J, or ohm
	rowStep, planeStep int
}

// block is a box of voxels: first index and counts. nx is a multiple of 8.
type block struct{ first, nx, ny, nz int }

// march sets to = u + scale weight flow over a block.
func (s *stencil) march(to, u []float32, scale float32, b block, l *lanes) {
	for z := range b.nz {
		for y := range b.ny {
			s.marchRow(to, u, scale, b.first+z*s.planeStep+y*s.rowStep, b.nx, l)
		}
	}
}

// marchRowPlain is march over n voxels from index i; every operation is rounded to
// 32 bits by itself, as the vector code does.
func (s *stencil) marchRowPlain(to, u []float32, scale float32, i, n int, l *lanes) {
	mid := u[i-1 : i+n+1 : i+n+1]
	north, south := u[i-s.rowStep:i-s.rowStep+n], u[i+s.rowStep:i+s.rowStep+n]
	above, below := u[i-s.planeStep:i-s.planeStep+n], u[i+s.planeStep:i+s.planeStep+n]
	gx := s.gx[i : i+n+1 : i+n+1]
	gn, gs := s.gy[i:i+n], s.gy[i+s.rowStep:i+s.rowStep+n]
	ga, gb := s.gz[i:i+n], s.gz[i+s.planeStep:i+s.planeStep+n]
	loss, weight, out := s.loss[i:i+n], s.weight[i:i+n], to[i:i+n]
	var gain []float32
	if s.gain != nil {
		gain = s.gain[i : i+n]
	}
	for k := range n {
		c := mid[k+1]
		lost := float32(loss[k] * c)
		f := float32(gx[k] * float32(mid[k]-c))
		f = float32(f + float32(gx[k+1]*float32(mid[k+2]-c)))
		f = float32(f + float32(gn[k]*float32(north[k]-c)))
		f = float32(f + float32(gs[k]*float32(south[k]-c)))
		f = float32(f + float32(ga[k]*float32(above[k]-c)))
		f = float32(f + float32(gb[k]*float32(below[k]-c)))
		f = float32(f - lost)
		if gain != nil {
			f = float32(f + gain[k])
		}
		v := float32(c + float32(float32(scale*weight[k])*f))
		out[k] = v
		lane := k & 7
		l.blood[lane] = float32(l.blood[lane] + lost)
		if v < 0 {
			v = -v
		}
		if v > l.top[lane] {
			l.top[lane] = v
		}
	}
}

// sums adds the lanes up in their order.
func (l *lanes) sums() (blood float64, top float32) {
	for k := range l.blood {
		blood += float64(l.blood[k])
		if l.top[k] > top {
			top = l.top[k]
		}
	}
	return blood, top
}

// flow sets to = flow over a block.
func (s *stencil) flow(to, u []float32, b block) {
	for z := range b.nz {
		for y := range b.ny {
			s.flowRow(to, u, b.first+z*s.planeStep+y*s.rowStep, b.nx)
		}
	}
}

// flowRowPlain is flow over n voxels from index i.
func (s *stencil) flowRowPlain(to, u []float32, i, n int) {
	mid := u[i-1 : i+n+1 : i+n+1]
	north, south := u[i-s.rowStep:i-s.rowStep+n], u[i+s.rowStep:i+s.rowStep+n]
	above, below := u[i-s.planeStep:i-s.planeStep+n], u[i+s.planeStep:i+s.planeStep+n]
	gx := s.gx[i : i+n+1 : i+n+1]
	gn, gs := s.gy[i:i+n], s.gy[i+s.rowStep:i+s.rowStep+n]
	ga, gb := s.gz[i:i+n], s.gz[i+s.planeStep:i+s.planeStep+n]
	loss, out := s.loss[i:i+n], to[i:i+n]
	var gain []float32
	if s.gain != nil {
		gain = s.gain[i : i+n]
	}
	for k := range n {
		c := mid[k+1]
		f := float32(gx[k] * float32(mid[k]-c))
		f = float32(f + float32(gx[k+1]*float32(mid[k+2]-c)))
		f = float32(f + float32(gn[k]*float32(north[k]-c)))
		f = float32(f + float32(gs[k]*float32(south[k]-c)))
		f = float32(f + float32(ga[k]*float32(above[k]-c)))
		f = float32(f + float32(gb[k]*float32(below[k]-c)))
		f = float32(f - float32(loss[k]*c))
		if gain != nil {
			f = float32(f + gain[k])
		}
		out[k] = f
	}
}
