package tissue

// profile is the steady temperature down the undisturbed layers, on a line
// finer than the grid, whose first point is the surface.
type profile struct {
	stepM    float64
	surfaceC float64
	middleC  []float64 // of each step of the line
}

// finer is how many steps of the line one voxel holds.
const finer = 8

// firstProfile solves Pennes' equation (Journal of Applied Physiology
// 1948;1:93) in one dimension: bottom and arriving blood at CoreC, surface
// losing heat to AmbientC. Metabolic heat, a ten-thousandth of a kelvin a
// second, is left out.
func firstProfile(s stack, hM float64, voxels int, ph Physics) profile {
	n := voxels * finer
	dz := hM / finer
	p := profile{stepM: dz, middleC: make([]float64, n)}
	cond := make([]float64, n) // each step's conductivity
	below := make([]float64, n)
	diag := make([]float64, n)
	right := make([]float64, n) // of the excess over CoreC
	for i := range n {
		m := s.between(float64(i)*dz, float64(i+1)*dz)
		cond[i] = m.kWmK
		diag[i] = float64(m.perfusion1S * ph.BloodRhoCJm3K * dz)
	}
	for i := range n - 1 {
		below[i] = 2 * cond[i] * cond[i+1] / (dz * (cond[i] + cond[i+1]))
		diag[i] += below[i]
		diag[i+1] += below[i]
	}
	diag[n-1] += 2 * cond[n-1] / dz
	air := 0.0
	if ph.SurfaceHWm2K > 0 {
		air = 1 / (1/ph.SurfaceHWm2K + dz/(2*cond[0]))
	}
	diag[0] += air
	right[0] = air * (ph.AmbientC - ph.CoreC)
	for i := 1; i < n; i++ { // elimination of a symmetric three-band system
		f := below[i-1] / diag[i-1]
		diag[i] -= float64(f * below[i-1])
		right[i] += float64(f * right[i-1])
	}
	excess := 0.0
	for i := n - 1; i >= 0; i-- {
		excess = (right[i] + float64(below[i]*excess)) / diag[i]
		p.middleC[i] = ph.CoreC + excess
	}
	flux := float64(air * (ph.AmbientC - p.middleC[0])) // into the skin
	p.surfaceC = p.middleC[0] + float64(flux*dz)/(2*cond[0])
	return p
}

// at is the temperature at a depth in m, straight between points; above the
// surface it is the surface's.
func (p profile) at(zM float64) float64 {
	x := zM/p.stepM - 0.5
	switch {
	case zM <= 0:
		return p.surfaceC
	case x < 0:
		return p.surfaceC + float64((p.middleC[0]-p.surfaceC)*(zM/p.stepM*2))
	}
	i := int(x)
	if i >= len(p.middleC)-1 {
		i = len(p.middleC) - 2
	}
	f := x - float64(i) // over 1 in the last half step: drawn on straight
	return p.middleC[i] + float64(f*(p.middleC[i+1]-p.middleC[i]))
}
