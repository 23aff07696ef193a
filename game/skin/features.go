package skin

import "slices"

// signs adds what the case says of any lesion and its family's painter does
// not draw by itself.
func (f family) signs(p *patch) {
	draw := func(feature string) bool { return p.has(feature) && !slices.Contains(f.own, feature) }
	if !p.l.first {
		return // the case speaks of the one in the middle
	}
	q := p.blob(800, outline{r: p.l.r, wave: 0.08, lobes: 1})
	if draw("inflamed") {
		p.inflame(q)
	}
	if draw("infected") {
		p.infect(q)
	}
	if draw("ulcerated") {
		r := 0.34 * p.l.r
		p.ulcer(p.blob(801, outline{r: r, wave: 0.2, ripple: 0.1, lobes: 1.3, x: 0.08 * p.l.r, y: 0.1 * p.l.r}), r)
	} else if draw("bleeding") {
		p.specks(q, 3, 0.16*p.l.r)
		p.ooze(q, true, false)
	}
	if draw("hair_bearing") {
		p.coarseHairs(4 + int(clamp(1.8*p.l.r, 0, 8)))
	}
	if draw("perilesional_scar") {
		p.oldScar()
	}
}

// coarseHairs grows a few dark terminal hairs from the lesion.
func (p *patch) coarseHairs(n int) {
	c := p.c
	r := p.rng(810)
	if c.HairTone == ([3]float32{}) {
		c.HairTone = c.hairTone(1)
	}
	for _, s := range p.spots(811, n, 0.2*p.l.r, 0.6, 0, 0) {
		c.strand(p.l.x+s.x, p.l.y+s.y, 0.8+0.7*r.normal(), 0.4*r.normal(), r.between(2, 6), 0.08, 0.9)
	}
}

// infect spreads a hot flush with swelling, and puts pus and honey crust on
// the lesion.
func (p *patch) infect(q []float32) {
	c := p.c
	R := p.l.r
	soft, grain, low := p.noise(820, 2.5, 3), p.noise(821, 0.4, 3), p.noise(822, 0.8*R, 3)
	p.each(func(k, i int, x, y float32) {
		d := max(sqrt32(x*x+y*y)-R, 0)
		hot := bell(d / 4 * (1 + 0.2*soft[k]))
		c.Blood[i] = min(c.Blood[i]*(1+1.9*hot), 0.9)
		mix(c.Oxygen, i, 0.85, 0.8*hot)
		c.Height[i] += 0.55 * hot
		c.Gloss[i] *= 1 + 0.35*hot
		pus := smooth(0.42, 0.62, low[k]+0.1*grain[k]) * smooth(1.05, 0.8, q[k])
		c.Height[i] += 0.06 * pus
		c.cover(i, 0.8*pus, pusCream)
		mix(c.Rough, i, 0.18, pus)
		honey := smooth(0.30, 0.60, -low[k]+0.15*grain[k]) * smooth(1.15, 0.85, q[k])
		c.Height[i] += honey * (0.10 + 0.05*grain[k])
		c.cover(i, 0.8*honey, crustHoney.times(1+0.4*grain[k]))
		mix(c.Rough, i, 0.26, honey)
	})
}

// oldScar draws a pale smooth line beside the lesion, where it was treated
// before.
func (p *patch) oldScar() {
	c := p.c
	R := p.l.r
	v := p.vessels(830)
	a := v.r.between(0.8, 1.6)
	x, y := 0.75*R*cos32(a+1.6), 0.75*R*sin32(a+1.6)
	v.grow(walk{x: x - 0.9*R*cos32(a), y: y - 0.9*R*sin32(a), angle: a, width: clamp(0.22*R, 0.5, 1.4), length: 1.9 * R, curl: 0.12, taper: 0.3})
	scar := p.blur(v.f, 0.08)
	p.flatten(scar, 0.9)
	p.each(func(k, i int, _, _ float32) {
		s := scar[k]
		c.Melanin[i] *= 1 - 0.45*s
		c.Scatter[i] *= 1 + 0.3*s
		c.Blood[i] *= 1 - 0.25*s
		c.Height[i] -= 0.05 * s
		mix(c.Rough, i, 0.28, s)
		c.Gloss[i] *= 1 + 0.3*s
	})
}
