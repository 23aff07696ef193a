package skin

// paintSuperficial draws a superficial basal cell carcinoma: a thin pink-red
// patch with a fine thread-like pearly edge, little scale, small erosions and
// short fine vessels.
func paintSuperficial(p *patch) {
	c := p.c
	R := p.l.r
	q := p.blob(1, outline{r: R * 0.97, wave: 0.18, ripple: 0.04, lobes: 1.7, aspect: 1.2, turn: p.rng(2).between(0, 3)})
	in := mask(q, 0.92, 1.03)
	p.flatten(in, 0.55)
	patchy, fine, bead := p.noise(3, 0.4*R+0.4, 4), p.noise(4, 0.25, 3), p.noise(5, 0.7, 2)
	H := min(p.raised(0.15), 0.8)
	p.each(func(k, i int, _, _ float32) {
		thread := bell((q[k]-0.955)/0.04) * clamp(0.8+0.5*bead[k], 0.2, 1.3)
		c.Height[i] += 0.4*H*in[k] + (0.10+0.2*H)*thread + in[k]*0.012*fine[k]
		c.Blood[i] *= 1 + 0.5*bell((q[k]-1.05)/0.10)*(1-in[k])
		if in[k] == 0 {
			return
		}
		pale := smooth(0.35, 0.9, patchy[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * c.between(0.8, 0.95) * (1 + 0.25*max(-patchy[k], 0)), blood: 0.052 + 0.020*patchy[k]*-1 + 0.006*fine[k] - 0.018*pale, oxygen: 0.84,
			scatter: 1 + 0.2*pale + 0.15*thread, epidermis: 0.85, rough: 0.30 - 0.05*thread + 0.02*fine[k], gloss: 1.2 + 0.5*thread, stay: 0.15,
		})
	})
	v := p.vessels(6)
	for _, s := range p.spots(7, int(clamp(0.7*R*R, 8, 26)), 0.16*R, 0.9, 0, 0) {
		v.grow(walk{x: s.x, y: s.y, angle: v.r.between(0, 6.28), width: 0.075, length: v.r.between(0.5, 1.8), curl: 0.9, branch: 0.7, taper: 0.5, depth: 2})
	}
	v.apply(in, vesselLook{blood: 0.26, oxygen: 0.86, epidermis: 0.5, haze: 0.014, dim: 0.5, stay: 0.05})
	p.scale(10, mask(q, 0.75, 0.95), flakes{size: 0.9, share: 0.24, lift: 0.025, hide: 0.30, tone: hornSilver})
	p.specks(q, 5, 0.28)
	if c.dark > 0.3 || p.has("irregular_pigment") {
		p.nests(q, int(6+10*clamp(c.dark, 0, 1)), 0.12, 0.34)
	}
}

// paintInfiltrative draws an infiltrative basal cell carcinoma: a pale waxy
// plaque like a scar, whose edge cannot be told, with a few long vessels.
func paintInfiltrative(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	q := p.blob(2, outline{r: R, wave: 0.20, ripple: 0.06, lobes: 1.4, aspect: 1.25, turn: r.between(0, 3)})
	soft, mid, fine := p.noise(3, 0.5*R+0.3, 3), p.noise(4, 0.6, 3), p.noise(5, 0.2, 2)
	in := p.plane()
	for k := range in {
		in[k] = smooth(1.28, 0.55, q[k]+0.12*soft[k])
	}
	p.flatten(in, 0.85)
	H := min(p.raised(0.2), 1)
	p.each(func(k, i int, _, _ float32) {
		if in[k] == 0 {
			return
		}
		c.Height[i] += in[k]*(0.7*H+0.10*soft[k]+0.02*mid[k]) - 0.18*smooth(0.6, 0, q[k]) + 0.005*fine[k]*in[k]
		pale := smooth(-0.4, 0.6, soft[k])
		c.fill(i, 0.9*in[k], body{
			melanin: c.skin.melanin * (0.62 + 0.1*mid[k]), blood: 0.010 + 0.022*(1-pale) + 0.004*mid[k], oxygen: 0.78, scatter: 1.1 + 0.2*pale,
			epidermis: 0.95, rough: 0.25 + 0.02*mid[k], gloss: 1.35, stay: 0.2,
		})
		c.Blood[i] *= 1 + 0.5*bell((q[k]-1.05)/0.25)
	})
	v := p.vessels(7)
	for range 7 {
		a := v.r.between(0, 6.28)
		v.grow(walk{x: R * cos32(a), y: R * sin32(a), angle: a + 3.14159 + 0.6*v.r.normal(), width: v.r.between(0.05, 0.09), length: R * v.r.between(0.6, 1.2), curl: 0.7, branch: 0.4, pull: 0.2, taper: 0.5, depth: 3})
	}
	v.apply(in, vesselLook{blood: 0.15, oxygen: 0.87, epidermis: 0.7, haze: 0.015, dim: 0.9, stay: 0.05})
	if p.has("ulcerated") || p.has("bleeding") {
		p.ulcer(p.blob(8, outline{r: 0.28 * R, wave: 0.25, ripple: 0.1, lobes: 1.4, x: 0.1 * R, y: 0.05 * R}), 0.28*R)
	}
}
