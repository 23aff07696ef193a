package skin

// paintWound draws a fresh bleeding wound: a raw bed with torn pale edges, a
// pool of wet blood, runs, and smears on the skin around.
func paintWound(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	turn := r.between(-0.4, 0.4)
	q := p.blob(2, outline{r: R * 0.92, wave: 0.13, ripple: 0.05, lobes: 1.6, aspect: 1.35, turn: turn})
	in := mask(q, 0.93, 1.01)
	bed, mid, fine := p.noise(3, 0.6, 3), p.noise(4, 0.5*R, 3), p.noise(5, 0.16, 3)
	smear, streak := p.noise(6, 1.1*R, 3), p.fbmXY(p.l.seed+3, 2.4, 0.7, 3, 0.5)
	p.flatten(in, 1)
	p.each(func(k, i int, x, y float32) {
		lip := bell((q[k] - 1.06) / 0.07)
		c.Height[i] += 0.09*lip - 0.55*smooth(1.0, 0.55, q[k])*min(R/3, 1)
		c.Blood[i] *= 1 + 1.1*bell((q[k]-1.05)/0.35)
		c.cover(i, 0.22*bell((q[k]-1.01)/0.03)*(0.6+0.8*abs32(mid[k])), hornSilver)
		if in[k] > 0 {
			weave := 0.5 * smooth(0, 1.0, bed[k])
			c.Height[i] += in[k] * (0.05*bed[k] + 0.015*fine[k])
			c.fill(i, in[k], body{
				melanin: 0.002, blood: 0.10 + 0.06*mid[k] + 0.03*fine[k] - 0.05*weave, oxygen: 0.86, scatter: 1.1 + 0.5*weave,
				epidermis: 0.12, rough: 0.18, gloss: 1.7, stay: 0.7,
			})
		}
		// Thin film smeared over the skin below.
		if c.dry {
			return
		}
		film := smooth(0.15, 0.6, smear[k]+0.3*streak[k]+0.25*y/R) * smooth(1.95, 1.2, q[k]) * (1 - in[k])
		c.cover(i, 0.55*film, bloodFresh.mix(bloodDry, 0.35))
		mix(c.Rough, i, 0.24, film)
	})
	if !c.dry {
		p.bloodPool(q, turn)
	}
}

// bloodPool fills the low part of a wound and lets a run of blood leave it.
func (p *patch) bloodPool(q []float32, turn float32) {
	c := p.c
	R := p.l.r
	r := p.rng(40)
	field := p.plane()
	ball := func(x, y, size float32) {
		p.disc(x, y, 2.2*size, func(j int, _, _, d float32) {
			t := 1 - d*d/(4.84*size*size)
			field[j] += 1.75 * t * t * t
		})
	}
	for range 9 {
		a, d := r.between(0, 6.28), R*0.55*sqrt32(r.unit())
		ball(d*cos32(a), 0.6*d*sin32(a)+0.12*R, R*r.between(0.10, 0.26))
	}
	x, y, w := 0.2*R, 0.45*R, 0.11*R
	for range 26 {
		ball(x, y, w)
		x, y = x+0.015*R*r.normal(), y+0.038*R
		w = 0.985 * w
	}
	ball(x, y, 0.12*R)
	for _, s := range p.spots(41, 12, 0.1*R, 0.8, 0.03*R, 0.07*R) {
		if p.qAt(q, s.x, s.y) < 0.9 {
			ball(s.x, s.y, s.r)
		}
	}
	wobble := p.noise(42, 0.4, 2)
	p.each(func(k, i int, _, _ float32) {
		f := field[k] * (1 + 0.08*wobble[k])
		wet := smooth(0.8, 1.0, f)
		if wet == 0 {
			return
		}
		c.Height[i] += 0.30 * min(R/4, 1) * sqrt32(smooth(0.8, 2.6, f))
		thick := smooth(0.8, 1.9, f)
		c.cover(i, wet*(0.80+0.18*thick), bloodFresh.times(1.25-0.65*thick))
		mix(c.Rough, i, 0.13, wet)
		mix(c.Gloss, i, 1.9, wet)
		mix(c.Stay, i, 1, wet)
	})
}
