package skin

// paintGenitalWart draws a soft moist wart: a cauliflower of small rounded
// lobes, pink, skin-coloured or brown.
func paintGenitalWart(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.5*R), 1.1*R)
	q := p.blob(2, outline{r: R * 0.95, wave: 0.16, lobes: 1.6, aspect: 1.15, turn: r.between(0, 3.1)})
	size := clamp(0.40*R, 0.40, 1.1)
	seed := uint32(p.l.seed >> 8)
	warp := p.noise(3, size, 3)
	lobe, gap, tone, in := p.plane(), p.plane(), p.plane(), p.plane()
	p.eachCell(seed, 0.85, 1.3, q, func(k int, x, y float32) (u, v float32) {
		return x/size + 0.30*warp[k], y/size - 0.30*warp[k]
	}, func(k int, cl cell) {
		lobe[k] = sqrt32(max(1-1.9*cl.near*cl.near, 0)) * (0.55 + 0.45*low16(cl.id))
		gap[k] = bell(cl.edge * size / 0.10)
		tone[k] = low16(cl.id) - 0.5
		// The outline is scalloped by whole lobes.
		in[k] = smooth(1.03, 0.95, q[k]+0.10*gap[k])
	})
	lobe, gap = p.blur(lobe, 0.05), p.blur(gap, 0.04)
	p.flatten(in, 1)
	fine, small := p.noise(5, 0.14, 2), p.noise(6, 0.34*size, 2)
	tint := c.between(1.15, 1.25)
	p.each(func(k, i int, _, _ float32) {
		c.Blood[i] *= 1 + 0.3*bell((q[k]-1.05)/0.12)
		if in[k] == 0 {
			return
		}
		up := sqrt32(max(1-0.8*q[k]*q[k], 0.08))
		c.Height[i] += in[k] * (0.72*H*up + size*(0.50*lobe[k]*(0.9+0.5*tone[k])+0.045*small[k]) + 0.010*fine[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * tint * (1 + 0.3*tone[k] + 0.35*gap[k]), blood: 0.058 + 0.014*tone[k] + 0.02*gap[k], oxygen: 0.76, scatter: 1.08,
			epidermis: 0.8, rough: 0.32 + 0.03*fine[k], gloss: 0.95 * (1 - 0.5*gap[k]), stay: 0.2,
		})
		c.cover(i, in[k]*0.09*smooth(0.55, 0.95, lobe[k])*(1+0.5*fine[k]), hornSilver)
	})
	v := p.vessels(7)
	for _, s := range p.spots(8, int(clamp(R*R*2, 5, 22)), 0.7*size, 0.8, 0.05, 0.1) {
		v.arc(s.x, s.y, s.r, v.r.between(0, 6.28), 3.4, 0.04)
	}
	v.apply(in, vesselLook{blood: 0.20, oxygen: 0.8, epidermis: 0.6, haze: 0.012, dim: 0.5, stay: 0.1})
}

// paintMolluscum draws a molluscum: a firm waxy pearl with a dell, a white
// lobed core shining through, and fine vessels that stop short of the dell.
func paintMolluscum(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.75*R), 1.1*R)
	q := p.blob(2, outline{r: R, wave: 0.04, lobes: 0.9, aspect: 1.05, turn: r.between(0, 3)})
	in := mask(q, 0.88, 1.04)
	p.flatten(in, 0.95)
	fine, soft := p.noise(3, 0.16, 2), p.noise(4, 0.6*R, 2)
	dell := p.blob(5, outline{r: 0.27 * R, wave: 0.13, lobes: 1.4, aspect: 1.1, x: 0.05 * R * r.normal(), y: 0.05 * R * r.normal()})
	core := p.plane()
	n := 4 + int(3*r.unit())
	for i := range n {
		a := float32(i)*6.2831853/float32(n) + 0.2*r.normal()
		d := R * r.between(0.16, 0.26)
		size := R * r.between(0.17, 0.24)
		p.disc(d*cos32(a), d*sin32(a), 1.4*size, func(j int, _, _, dist float32) {
			core[j] = max(core[j], smooth(1.3, 0.6, dist/size))
		})
	}
	core = p.blur(core, 0.07*R)
	p.each(func(k, i int, _, _ float32) {
		c.Blood[i] *= 1 + 0.35*bell((q[k]-1.10)/0.20)*(1-in[k])
		if in[k] == 0 {
			return
		}
		c.Height[i] += H*dome(q[k]) - in[k]*(0.30*H*smooth(1.4, 0.2, dell[k])-0.012*soft[k]-0.004*fine[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * c.between(0.7, 0.72), blood: 0.028 + 0.006*soft[k] + 0.010*smooth(0.7, 1, q[k]), oxygen: 0.78, scatter: 1.2,
			epidermis: 0.95, rough: 0.26 + 0.02*fine[k], gloss: 1.15, stay: 0.3,
		})
		c.cover(i, in[k]*(0.50*core[k]*(1+0.15*fine[k])+0.10), rgb{0.62, 0.55, 0.41}.times(c.between(1, 0.74)))
		c.cover(i, 0.4*smooth(0.8, 0.3, dell[k])*(1+0.4*fine[k]), hornYellow.times(0.75))
	})
	v := p.vessels(7)
	for i := range 11 {
		a := float32(i)*0.571 + 0.15*v.r.normal()
		v.grow(walk{x: R * cos32(a), y: R * sin32(a), angle: a + 3.14159 + 0.5, width: 0.05, length: R * v.r.between(0.22, 0.42), curl: 0.6, branch: 0.4, taper: 0.5, depth: 1})
	}
	v.apply(in, vesselLook{blood: 0.20, oxygen: 0.85, epidermis: 0.55, haze: 0.012, dim: 0.4, stay: 0.05})
	if p.has("inflamed") {
		p.inflame(q)
	}
}
