package skin

// paintDermatofibroma draws a dermatofibroma: a firm button with a paler scar-
// like middle and a fine brown network that fades outward. Pinched, it sinks.
func paintDermatofibroma(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	q := p.blob(2, outline{r: R, wave: 0.07, ripple: 0.03, lobes: 1, aspect: 1.1, turn: r.between(0, 3)})
	in := p.plane()
	soft, fine, mottle := p.noise(3, 0.5*R+0.2, 3), p.noise(4, 0.2, 3), p.noise(5, 0.8*R, 3)
	for k := range in {
		in[k] = smooth(1.22, 0.78, q[k]+0.06*soft[k])
	}
	p.flatten(in, 0.45)
	net := p.pigmentNet(6, q, 0.32, 0.35)
	strength := 1.3 * p.netStrength()
	H := min(p.raised(0.10*R), 0.5*R)
	dark, middle := c.between(2.7, 2.0), c.between(1.1, 0.95)
	p.each(func(k, i int, x, y float32) {
		if in[k] > 0 {
			core := smooth(0.62, 0.25, q[k]+0.10*soft[k])
			ring := in[k] * (1 - core)
			c.Height[i] += H*smooth(1.15, 0.35, q[k]) + in[k]*(0.012*fine[k]+0.03*soft[k]*min(H, 1))
			c.Melanin[i] *= lerp(1, dark*(1+0.18*mottle[k])*(1+strength*(net[k]-0.35)), ring)
			c.Melanin[i] *= lerp(1, middle*c.between(1, 0.85), core)
			c.Scatter[i] *= 1 + 0.30*core
			c.Blood[i] *= 1 + in[k]*(0.55+0.3*mottle[k]) - 0.25*core
			mix(c.Rough, i, 0.40, 0.6*in[k])
			c.Gloss[i] *= 1 - 0.6*in[k]
			mix(c.Stay, i, 0.25, in[k])
		}
		if c.exam == ExamPinched {
			// Tied to the depth, it is drawn in between the rising folds.
			d := sqrt32(x*x + y*y)
			c.Height[i] -= 0.62 * R * bell(d/(1.05*R))
			a := turnOf(x, y) * 7 * 6.2831853
			c.Height[i] += 0.035 * R * sin32(a+3*soft[k]) * bell((d-1.2*R)/(0.5*R))
		}
	})
}
