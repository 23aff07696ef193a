package skin

// paintLegVeins draws thread veins: fans of red and violet threads that spring
// from a broader blue vein running deeper.
func paintLegVeins(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	main := r.between(-0.5, 0.5) + 1.2
	inside := func(x, y float32) bool { return x*x+y*y < 1.7*R*R }
	// The feeder lies a millimetre down: a wide soft blue-grey band.
	feeder := p.vessels(2)
	feeder.grow(walk{
		x: -1.25 * R * cos32(main), y: -1.25 * R * sin32(main), angle: main, width: clamp(0.09*R, 0.7, 2), length: 2.7 * R,
		curl: 0.14, branch: 0.05, taper: 0.2, depth: 1,
	})
	feeder.apply(nil, vesselLook{blood: 0.02, oxygen: 0.6, epidermis: 1, haze: 0.002, stay: 0.02, deep: 0.42, soft: 0.40})
	fans := int(clamp(float32(c.s.Count), 2, 9))
	red, blue := p.vessels(3), p.vessels(4)
	for i := range fans {
		t := (float32(i)+0.5)/float32(fans)*1.5 - 0.75
		x, y := R*t*cos32(main), R*t*sin32(main)
		side := main + 1.2
		if i%2 == 1 {
			side = main - 1.2
		}
		for range 4 + int(3*r.unit()) {
			v, thin := red, float32(0.75)
			if r.unit() < 0.55 {
				v, thin = blue, 1
			}
			v.grow(walk{
				x: x + 0.4*r.normal(), y: y + 0.4*r.normal(), angle: side + 0.55*r.normal(), width: thin * r.between(0.14, 0.36),
				length: R * r.between(0.45, 1.0), curl: 0.5, branch: 0.16, taper: 0.5, depth: 3, inside: inside,
			})
		}
	}
	blue.apply(nil, vesselLook{blood: 0.20, oxygen: 0.30, epidermis: 0.8, haze: 0.010, dim: 0.4, stay: 0.03, deep: 0.22, soft: 0.04})
	red.apply(nil, vesselLook{blood: 0.24, oxygen: 0.66, epidermis: 0.7, haze: 0.014, dim: 0.6, stay: 0.03, deep: 0.06})
	// Old leaks leave a brown stain.
	stain, spot := p.noise(5, 0.6*R, 3), p.noise(6, 1, 3)
	p.each(func(k, i int, x, y float32) {
		d := sqrt32(x*x+y*y) / R
		c.Melanin[i] *= 1 + 0.35*smooth(1.1, 0.3, d)*clamp(stain[k]+0.3*spot[k], 0, 1)
	})
}

// paintVenousLake draws a venous lake: a soft dark blue-purple blister of old
// blood on lip or ear that empties under pressure.
func paintVenousLake(p *patch) {
	c := p.c
	R := p.l.r
	H := min(p.raised(0.28*R), 0.8*R)
	q := p.blob(1, outline{r: R, wave: 0.09, lobes: 1, aspect: 1.18, turn: p.rng(2).between(0, 3)})
	in := mask(q, 0.80, 1.06)
	p.flatten(in, 0.75)
	depth, fine := p.noise(3, 0.8*R, 3), p.noise(4, 0.25, 2)
	p.each(func(k, i int, _, _ float32) {
		c.Height[i] += H*smooth(1.08, 0.2, q[k]) + in[k]*(0.04*H*depth[k]+0.005*fine[k])
		if in[k] == 0 {
			return
		}
		core := smooth(1.0, 0.35, q[k]+0.15*depth[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * 0.9, blood: 0.30 + 0.30*core + 0.06*depth[k], oxygen: 0.36 - 0.16*core, scatter: 0.75,
			epidermis: 0.5, rough: 0.27 + 0.02*fine[k], gloss: 1.1, stay: 0.05,
		})
	})
}
