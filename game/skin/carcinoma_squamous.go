package skin

// paintActinic draws an actinic keratosis: an ill-edged, slightly red, rough
// patch with firmly stuck yellow-white scale on sun-worn skin.
func paintActinic(p *patch) {
	c := p.c
	R := p.l.r
	q := p.blob(1, outline{r: R * 0.95, wave: 0.22, ripple: 0.08, lobes: 1.4, aspect: 1.25, turn: p.rng(2).between(0, 3)})
	patchy, fine, grit := p.noise(3, 0.5*R+0.3, 3), p.noise(4, 0.3, 3), p.noise(5, 0.15, 3)
	in := p.plane()
	for k := range in {
		in[k] = smooth(1.22, 0.65, q[k]+0.12*patchy[k])
	}
	H := min(p.raised(0.15), 1)
	p.each(func(k, i int, _, _ float32) {
		c.Height[i] += in[k] * (0.5*H + 0.035*fine[k] + 0.02*grit[k])
		mix(c.Blood, i, max(c.Blood[i], 0.050+0.016*patchy[k]), 0.9*in[k])
		mix(c.Oxygen, i, 0.84, in[k])
		c.Melanin[i] *= 1 + 0.18*in[k]*clamp(c.dark, 0, 1)*(1+patchy[k])
	})
	// Follicles stay pale: the strawberry pattern.
	for _, s := range p.spots(6, int(clamp(2.2*R*R, 4, 60)), 0.5, 1, 0.10, 0.16) {
		p.at(s.x, s.y, 2*s.r, func(i int, _, _, d float32) {
			w := bell(d / s.r)
			mix(c.Blood, i, 0.014, 0.7*w)
			c.cover(i, 0.18*w, hornSilver)
		})
	}
	middle := make([]float32, len(in))
	for k := range middle {
		middle[k] = smooth(1.05, 0.6, q[k]+0.1*patchy[k])
	}
	p.scale(10, middle, flakes{size: clamp(0.22*R, 0.5, 1.1), share: 0.58, lift: 0.05 + 0.08*H, hide: 0.50, tone: hornSilver.mix(hornYellow, 0.42)})
}

// paintInSitu draws squamous cell carcinoma in situ: a sharp-edged red plaque
// with scale in islands, crusts, and vessels coiled in clusters.
func paintInSitu(p *patch) {
	c := p.c
	R := p.l.r
	q := p.blob(1, outline{r: R * 0.97, wave: 0.17, ripple: 0.05, lobes: 1.6, aspect: 1.2, turn: p.rng(2).between(0, 3)})
	in := mask(q, 0.91, 1.04)
	p.flatten(in, 0.75)
	H := min(p.raised(0.35), 1.5)
	patchy, fine, grit := p.noise(3, 0.5*R+0.3, 3), p.noise(4, 0.35, 3), p.noise(5, 0.14, 2)
	brown := c.between(1.0, 1.35)
	p.each(func(k, i int, _, _ float32) {
		if in[k] == 0 {
			return
		}
		c.Height[i] += H*smooth(1.04, 0.86, q[k]) + in[k]*(0.05*patchy[k]+0.03*fine[k]+0.01*grit[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * brown * (1 + 0.2*patchy[k]), blood: 0.066 + 0.022*patchy[k] + 0.012*fine[k], oxygen: 0.84, scatter: 1,
			epidermis: 0.85, rough: 0.36 + 0.04*fine[k], gloss: 1.0, stay: 0.2,
		})
	})
	v := p.vessels(7)
	for _, s := range p.spots(8, 7, 0.45*R, 0.8, 0, 0) {
		for range 5 + int(4*v.r.unit()) {
			v.coil(s.x+0.32*v.r.normal(), s.y+0.32*v.r.normal(), v.r.between(0.08, 0.14), 0.05)
		}
	}
	v.apply(in, vesselLook{blood: 0.30, oxygen: 0.8, epidermis: 0.5, haze: 0.02, dim: 0.4, stay: 0.1})
	p.scale(10, mask(q, 0.8, 1.0), flakes{size: clamp(0.16*R, 0.7, 1.6), share: 0.46, lift: 0.07, hide: 0.52, tone: hornSilver.mix(hornYellow, 0.25)})
	p.specks(q, 4, 0.05*R+0.15)
}

// specks scatters small red-brown crusts.
func (p *patch) specks(q []float32, n int, size float32) {
	c := p.c
	grain := p.noise(90, 0.3, 3)
	for _, s := range p.spots(91, n, 2*size, 0.8, 0.6*size, 1.2*size) {
		if p.qAt(q, s.x, s.y) > 0.9 {
			continue
		}
		p.disc(s.x, s.y, 1.6*s.r, func(j int, _, _, d float32) {
			w := smooth(1.15, 0.75, d/s.r*(1+0.3*grain[j]))
			i := (p.row+j/p.w)*c.w + p.col + j%p.w
			c.Height[i] += w * (0.07 + 0.04*grain[j])
			c.cover(i, 0.9*w, crustRed.mix(crustHoney, clamp(0.2+0.25*grain[j], 0, 0.6)).times(1+0.4*grain[j]))
		})
	}
}

// paintInvasive draws an invasive squamous cell carcinoma: a firm fleshy
// irregular mound with a turned-out edge around an ulcer filled with dirty
// yellow horn and crust.
func paintInvasive(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.35*R), 0.8*R)
	turn := r.between(0, 3)
	q := p.blob(2, outline{r: R * 0.95, wave: 0.16, ripple: 0.04, lobes: 1.5, aspect: 1.18, turn: turn})
	in := mask(q, 0.88, 1.08)
	p.flatten(in, 0.9)
	hole := p.blob(3, outline{r: R * 0.50, wave: 0.26, ripple: 0.09, lobes: 1.6, aspect: 1.2, turn: turn + 0.4, x: 0.08 * R, y: -0.05 * R})
	size := 0.36 * R
	seed := uint32(p.l.seed >> 8)
	warp, mid, fine := p.noise(4, size, 3), p.noise(5, 0.4, 3), p.noise(6, 0.15, 3)
	lump := p.plane()
	p.eachCell(seed, 0.9, 1.3, q, func(k int, x, y float32) (u, v float32) {
		return x/size + 0.35*warp[k], y/size - 0.35*warp[k]
	}, func(k int, cl cell) { lump[k] = max(1-1.3*cl.near*cl.near, 0) * (0.4 + 0.6*low16(cl.id)) })
	lump = p.blur(lump, 0.18*size)
	p.each(func(k, i int, _, _ float32) {
		c.Blood[i] *= 1 + 1.1*bell((q[k]-1.05)/0.25)*(1-in[k])
		c.Height[i] += 0.05 * H * bell((q[k]-1.1)/0.3)
		if in[k] == 0 {
			return
		}
		open := smooth(1.12, 0.75, hole[k])
		c.Height[i] += H*smooth(1.06, 0.60, q[k]) + 0.22*H*(lump[k]-0.25)*in[k]*(1-open) - 0.40*H*open + in[k]*(0.03*mid[k]+0.010*fine[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * c.between(0.8, 1.05), blood: 0.060 + 0.020*warp[k] - 0.018*lump[k] + 0.008*mid[k], oxygen: 0.80, scatter: 1,
			epidermis: 0.8, rough: 0.30 + 0.03*mid[k], gloss: 1.15, stay: 0.3,
		})
		c.fill(i, open, body{melanin: 0.006, blood: 0.15 + 0.05*mid[k], oxygen: 0.72, scatter: 1, epidermis: 0.15, rough: 0.22, gloss: 1.4, stay: 0.7})
	})
	p.hornMass(hole, 0.6)
	v := p.vessels(20)
	for _, s := range p.spots(21, 16, 0.22*R, 0.95, 0.10, 0.2) {
		v.arc(s.x, s.y, s.r, v.r.between(0, 6.28), 3.3, 0.045)
	}
	v.apply(in, vesselLook{blood: 0.15, oxygen: 0.8, epidermis: 0.7, haze: 0.01, dim: 0.9, stay: 0.1})
	p.whiteCircles(q, hole)
	if p.has("bleeding") {
		p.specks(q, 4, 0.10*R)
	}
}

// whiteCircles rings follicles on the rim with white around a yellow plug.
func (p *patch) whiteCircles(q, hole []float32) {
	c := p.c
	for _, s := range p.spots(60, 22, 1.1, 0.95, 0.20, 0.36) {
		if p.qAt(q, s.x, s.y) > 0.85 || p.qAt(hole, s.x, s.y) < 1.25 {
			continue
		}
		p.at(s.x, s.y, 2*s.r, func(i int, _, _, d float32) {
			c.cover(i, 0.20*bell((d/s.r-1)/0.55), hornSilver)
			c.cover(i, 0.40*bell(d/(0.6*s.r)), hornYellow)
			c.Height[i] -= 0.03 * bell(d/(0.5*s.r))
		})
	}
}

// hornMass fills a hole with dirty yellow-brown horn and crust, cracked.
func (p *patch) hornMass(hole []float32, dirt float32) {
	c := p.c
	R := p.l.r
	plate, grain, crack, fine := p.noise(30, 0.5*R+0.2, 3), p.noise(31, 0.14*R+0.1, 3), p.noise(32, 0.22*R, 2), p.noise(33, 0.14, 2)
	p.each(func(k, i int, _, _ float32) {
		in := smooth(1.04, 0.80, hole[k]+0.07*grain[k])
		if in == 0 {
			return
		}
		there := in * smooth(-0.55, -0.15, plate[k])
		gap := bell(crack[k] / 0.08)
		c.Height[i] += there*(0.16+0.025*R*grain[k]+0.03*R*plate[k]+0.008*fine[k]) - 0.10*gap*there
		tone := hornYellow.times(0.62).mix(crustRed, clamp(dirt*(0.6+0.7*plate[k]+0.35*grain[k]), 0, 0.95)).mix(hornDark, 0.5*gap).times(1 + 0.25*grain[k])
		c.cover(i, 0.92*there, tone)
		mix(c.Rough, i, 0.46, there)
		mix(c.Gloss, i, 0.7, there)
	})
}

// paintKeratoacanthoma draws a keratoacanthoma: an even dome with a smooth
// taut shoulder and a central crater packed with horn.
func paintKeratoacanthoma(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.55*R), 1.1*R)
	q := p.blob(2, outline{r: R * 0.98, wave: 0.04, lobes: 0.9, aspect: 1.06, turn: r.between(0, 3)})
	in := mask(q, 0.84, 1.06)
	p.flatten(in, 0.9)
	hole := p.blob(3, outline{r: R * 0.43, wave: 0.10, ripple: 0.05, lobes: 1.3, aspect: 1.08, turn: r.between(0, 3)})
	soft, mid, fine := p.noise(4, 0.6*R, 3), p.noise(5, 0.4, 3), p.noise(6, 0.13, 3)
	grain, crack := p.noise(7, 0.24*R, 3), p.noise(8, 0.20*R, 2)
	p.each(func(k, i int, _, _ float32) {
		c.Blood[i] *= 1 + 0.8*bell((q[k]-1.06)/0.2)*(1-in[k])
		if in[k] == 0 {
			return
		}
		crater := smooth(1.25, 0.85, hole[k])
		plug := smooth(1.0, 0.78, hole[k]+0.05*grain[k])
		gap := bell(crack[k] / 0.08)
		c.Height[i] += H*smooth(1.06, 0.45, q[k])*(1+0.03*soft[k]) + 0.010*mid[k]*in[k] - 0.34*H*crater +
			plug*(0.36*H*(1-0.5*hole[k])+0.05*R*grain[k]+0.006*fine[k]-0.05*gap)
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * c.between(0.8, 0.9), blood: 0.036 + 0.010*soft[k] + 0.012*bell((q[k]-0.8)/0.2), oxygen: 0.80, scatter: 1.05,
			epidermis: 0.9, rough: 0.26 + 0.02*mid[k], gloss: 1.4, stay: 0.2,
		})
		tone := hornYellow.times(0.62).mix(hornBrown.times(0.8), clamp(0.5+0.7*grain[k], 0, 1)).mix(hornDark, 0.25*gap+0.30*smooth(0.6, 1, hole[k])).times(1 + 0.12*fine[k])
		c.cover(i, 0.93*plug, tone)
		c.cover(i, 0.25*bell((hole[k]-1.06+0.05*grain[k])/0.10), hornSilver.times(0.85))
		mix(c.Rough, i, 0.48, plug)
		mix(c.Gloss, i, 0.6, plug)
	})
	v := p.vessels(20)
	for i := range 14 {
		a := float32(i)*0.449 + 0.25*v.r.normal()
		v.grow(walk{x: 0.95 * R * cos32(a), y: 0.95 * R * sin32(a), angle: a + 3.14159 + 0.35*v.r.normal(), width: v.r.between(0.06, 0.11), length: R * v.r.between(0.18, 0.36), curl: 0.4, branch: 0.2, taper: 0.5, depth: 1})
	}
	v.apply(in, vesselLook{blood: 0.17, oxygen: 0.84, epidermis: 0.65, haze: 0.014, dim: 1.1, stay: 0.05})
}
