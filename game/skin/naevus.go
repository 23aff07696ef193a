package skin

// paintIntradermal draws an intradermal naevus: a soft dome, skin-coloured or
// brown, gently edged, finely knobbly, with short comma vessels and sometimes
// coarse hairs.
func paintIntradermal(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.42*R), 1.2*R)
	q := p.blob(2, outline{r: R, wave: 0.05, lobes: 0.9, aspect: 1.08, turn: r.between(0, 3.1)})
	in := mask(q, 0.84, 1.08)
	p.flatten(in, 0.5)
	knobs, mottle, fine := p.noise(3, 0.62*clamp(R/3, 0.5, 1.5), 3), p.noise(4, 0.8*R, 3), p.noise(5, 0.22, 3)
	tone := r.between(1.4, 2.3) * c.between(1, 1.2)
	if p.has("irregular_pigment") {
		tone *= 1.5
	}
	p.each(func(k, i int, _, _ float32) {
		d := smooth(1.10, 0.22, q[k])
		c.Height[i] += H*d + in[k]*(0.085*knobs[k]*clamp(H, 0.3, 1.2)+0.022*fine[k])
		// Browner at the foot than on the top.
		foot := bell((q[k] - 0.88) / 0.16)
		c.Melanin[i] *= 1 + in[k]*(tone-1)*(0.75+0.75*foot+0.25*mottle[k]) + 0.12*in[k]*max(-knobs[k], 0)
		c.Blood[i] *= 1 + in[k]*(0.35-0.1*knobs[k])
		mix(c.Rough, i, 0.38, in[k])
		c.Gloss[i] *= 1 - 0.35*in[k]
		mix(c.Stay, i, 0.2, in[k])
	})
	v := p.vessels(6)
	for _, s := range p.spots(7, 6+int(8*r.unit()), 0.28*R, 0.75, 0.12, 0.24) {
		v.arc(s.x, s.y, s.r, v.r.between(0, 6.28), v.r.between(1.4, 2.6), 0.06)
	}
	v.apply(in, vesselLook{blood: 0.16, oxygen: 0.82, epidermis: 0.65, haze: 0.012, dim: 0.9, stay: 0.15})
	if p.has("hair_bearing") {
		p.coarseHairs(6)
	} else if r.unit() < 0.35 {
		p.coarseHairs(2)
	}
}
