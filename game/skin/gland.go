package skin

// paintSebaceous draws sebaceous hyperplasia: a soft yellowish ring of lobes
// around a central pore, with fine vessels that stop short of the pore.
func paintSebaceous(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.32*R), 0.9*R)
	q := p.blob(2, outline{r: R, wave: 0.08, lobes: 1.2, aspect: 1.1, turn: r.between(0, 3)})
	in := mask(q, 0.82, 1.06)
	p.flatten(in, 0.8)
	lobe := p.plane()
	n := 6 + int(4*r.unit())
	for i := range n {
		a := float32(i)*6.2831853/float32(n) + 0.25*r.normal()
		d, size := R*r.between(0.42, 0.68), R*r.between(0.20, 0.36)
		p.disc(d*cos32(a), d*sin32(a), size*1.3, func(j int, _, _, dist float32) {
			lobe[j] = max(lobe[j], sqrt32(max(1-dist*dist/(size*size*1.5), 0)))
		})
	}
	lobe = p.blur(lobe, 0.10*R)
	fine, soft := p.noise(3, 0.18, 3), p.noise(4, 0.6*R, 2)
	p.each(func(k, i int, x, y float32) {
		pit := bell(sqrt32(x*x+y*y) / (0.10 * R))
		up := smooth(1.08, 0.25, q[k])
		c.Height[i] += H*up*(0.72+0.05*soft[k]) + in[k]*H*0.26*lobe[k] - 0.20*H*bell(sqrt32(x*x+y*y)/(0.16*R)) - 0.04*pit + 0.006*in[k]*fine[k]
		if in[k] == 0 {
			return
		}
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * (0.95 + 0.1*soft[k]), blood: c.skin.blood * 0.95, oxygen: 0.76, scatter: 1.05,
			epidermis: 1, rough: 0.34 + 0.02*fine[k], gloss: 1.15, stay: 0.15,
		})
		c.cover(i, in[k]*(0.02+c.between(0.19, 0.14)*lobe[k]), sebum)
		c.cover(i, 0.45*pit, hornBrown.times(0.8))
	})
	v := p.vessels(7)
	for i := range 8 {
		a := float32(i)*0.785 + 0.5*v.r.normal()
		v.grow(walk{x: R * 0.98 * cos32(a), y: R * 0.98 * sin32(a), angle: a + 3.14159 + 0.5*v.r.normal(), width: v.r.between(0.04, 0.065), length: R * v.r.between(0.3, 0.55), curl: 0.5, branch: 0.25, taper: 0.6, depth: 1})
	}
	v.apply(in, vesselLook{blood: 0.18, oxygen: 0.85, epidermis: 0.65, haze: 0.010, dim: 0.9, stay: 0.03})
}

// paintSyringoma draws a syringoma: a small firm flat-topped papule of skin
// colour or a little yellow.
func paintSyringoma(p *patch) {
	c := p.c
	R := p.l.r
	H := min(p.raised(0.28*R), 0.6*R)
	q := p.blob(1, outline{r: R, wave: 0.06, lobes: 1.1, aspect: 1.15, turn: p.rng(2).between(0, 3)})
	in := mask(q, 0.75, 1.12)
	p.flatten(in, 0.35)
	fine := p.noise(3, 0.2, 3)
	p.each(func(k, i int, _, _ float32) {
		q4 := q[k] * q[k]
		q4 *= q4
		c.Height[i] += H*max(1-q4, 0)*smooth(1.1, 0.7, q[k]) + 0.006*fine[k]*in[k]
		if in[k] == 0 {
			return
		}
		c.fill(i, in[k], body{melanin: c.skin.melanin * 0.92, blood: c.skin.blood * 1.0, oxygen: 0.76, scatter: 1.1, epidermis: 1, rough: 0.40, gloss: 0.85, stay: 0.15})
		c.cover(i, 0.05*in[k], sebum)
	})
}

// paintMilium draws a milium: a hard white pearl of horn just under the skin.
func paintMilium(p *patch) {
	c := p.c
	R := p.l.r
	H := min(p.raised(0.55*R), 0.9*R)
	q := p.blob(1, outline{r: R, wave: 0.04, lobes: 1})
	in := mask(q, 0.6, 1.15)
	p.flatten(in, 0.9)
	p.each(func(k, i int, _, _ float32) {
		c.Height[i] += H * smooth(1.12, 0.1, q[k])
		if in[k] == 0 {
			return
		}
		c.fill(i, in[k], body{melanin: c.skin.melanin * 0.55, blood: 0.010, oxygen: 0.76, scatter: 1.25, epidermis: 1, rough: 0.33, gloss: 0.8, stay: 0.3})
		c.cover(i, c.between(0.46, 0.42)*smooth(0.98, 0.25, q[k]), milkWhite.times(c.between(1, 0.78)))
	})
}
