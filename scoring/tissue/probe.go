package tissue

import "math"

func sqrt(x float64) float64 { return math.Sqrt(x) } // exact to the last bit on every platform

// temperatureC is the temperature at a place, drawn straight between the
// middles of solid voxels. In the half voxel under an open surface it follows
// the heat that leaves there; air has the temperature of the room.
func (b *body) temperatureC(p Probe) float64 {
	x := p.XMM*1e-3/b.hM + float64(b.nx)/2 - 0.5
	y := p.YMM*1e-3/b.hM + float64(b.ny)/2 - 0.5
	z := p.ZMM*1e-3/b.hM + float64(b.planesUp) - 0.5
	x0, y0, z0 := math.Floor(x), math.Floor(y), math.Floor(z)
	sum, weight := 0.0, 0.0
	for k := range 2 {
		for j := range 2 {
			for i := range 2 {
				wx, wy, wz := float64(i), float64(j), float64(k)
				w := float64((1 - math.Abs(x-x0-wx)) * (1 - math.Abs(y-y0-wy)) * (1 - math.Abs(z-z0-wz)))
				if w == 0 {
					continue
				}
				if rise, ok := b.riseNear(int(x0)+i, int(y0)+j, int(z0)+k); ok {
					sum += float64(w * rise)
					weight += w
				}
			}
		}
	}
	if weight == 0 {
		return b.physics.AmbientC
	}
	return b.first.at(p.ZMM*1e-3) + sum/weight
}

// riseNear is the rise of a voxel, or of the ghost beyond a face such that a
// straight line from the voxel has the right value on the face.
func (b *body) riseNear(x, y, z int) (float64, bool) {
	cx, cy, cz := clampInt(x, b.nx), clampInt(y, b.ny), clampInt(z, b.nz)
	i := b.at(cx, cy, cz)
	m := &b.mats[b.mat[i]]
	switch {
	case !m.solid:
		if cz == z && cz+1 < b.nz && b.mats[b.mat[i+b.plane]].solid {
			return b.mirrored(i + b.plane), true
		}
		return 0, false
	case z < 0:
		return b.mirrored(i), true
	case x != cx || y != cy || z != cz:
		return -float64(b.rise[i]), true
	}
	return float64(b.rise[i]), true
}

// mirrored is the rise above an open surface that voxel i lies under.
func (b *body) mirrored(i int) float64 {
	k, h := float64(b.mats[b.mat[i]].conducts(b.water[i])), b.physics.SurfaceHWm2K
	surface := float64(b.rise[i]) * 2 * k / (2*k + float64(h*b.hM))
	return 2*surface - float64(b.rise[i])
}

func clampInt(v, n int) int { return max(0, min(v, n-1)) }
