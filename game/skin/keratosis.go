package skin

// paintKeratosis draws a seborrhoeic keratosis: a plaque that looks stuck on,
// tan to nearly black, waxy or warty, with a sharp edge, horn plugs, pale
// cysts, and furrows that wind like those of a walnut.
func paintKeratosis(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.18*R), 0.6*R+0.3)
	turn := r.between(0, 3.1)
	q := p.blob(2, outline{r: R, wave: 0.10, ripple: 0.045, lobes: 1.1, aspect: 1.22, turn: turn})
	in := mask(q, 0.955, 1.0)
	p.flatten(in, 1)
	warty := float32(1)
	if p.has("warty") {
		warty = 2.4
	}
	s := clamp(R/4.3, 0.45, 1.25) // a small one has finer furrows
	wx, wy := p.noise(3, 1.5*s, 3), p.noise(4, 1.5*s, 3)
	mottle, fine, lump, horn := p.noise(5, 2.6*s, 4), p.noise(6, 0.30, 3), p.noise(7, 2.4*s, 3), p.noise(8, 0.9*s, 4)
	gate, dust := p.noise(9, 2.4*s, 2), p.noise(10, 0.11, 2)
	s1, s2, s3 := uint32(p.l.seed>>3), uint32(p.l.seed>>13), uint32(p.l.seed>>23)
	fissure, cobble, tone := p.plane(), p.plane(), p.plane()
	bent := func(k int, x, y float32) (u, v float32) { return x + 0.5*s*wx[k], y + 0.5*s*wy[k] }
	p.eachCell(s3, 1, 1.1, q, func(k int, x, y float32) (float32, float32) {
		u, v := bent(k, x, y)
		return u / (0.38 * s), v / (0.38 * s)
	}, func(k int, cl cell) {
		cobble[k] = bell(cl.near/0.62) * (0.5 + 0.5*low16(cl.id))
		tone[k] = low16(cl.id) - 0.5
	})
	p.each(func(k, _ int, x, y float32) {
		if q[k] > 1.1 {
			return
		}
		u, v := bent(k, x, y)
		n1 := noise2(s1, u/(1.35*s), v/(1.35*s)) + 0.35*noise2(s1+9, u/(0.62*s), v/(0.62*s))
		n2 := noise2(s2, u/(0.66*s), v/(0.66*s))
		f := max(0.95*bell(n1/0.10), 0.35*bell(n2/0.10))
		fissure[k] = f * (0.30 + 0.70*smooth(-0.35, 0.35, gate[k]))
	})
	soft := p.blur(cobble, 0.05)
	base := c.between(0.15, 0.36)
	hornTone := hornBrown.mix(hornDark, clamp(0.15+0.6*c.dark, 0, 0.85))
	p.each(func(k, i int, _, _ float32) {
		wall := 0.45*smooth(0, 0.06, 1-q[k]) + 0.55*smooth(0, 0.40, 1-q[k])
		top := H * wall * sqrt32(max(1-0.35*q[k]*q[k], 0)) * (1 + 0.16*lump[k])
		rough := clamp(wall, 0.3, 1) * in[k]
		c.Height[i] += top + rough*min(1, 0.35+H)*(-0.11*fissure[k]+0.19*warty*soft[k]+0.07*warty*lump[k]+0.030*fine[k]+0.012*dust[k])
		c.Height[i] -= 0.05 * bell((q[k]-1.02)/0.03)
		c.Blood[i] *= 1 + 0.12*bell((q[k]-1.05)/0.06)*(1-in[k])
		if in[k] == 0 {
			return
		}
		swing := 0.75 - 0.25*clamp(c.dark, 0, 1)
		fm := base * exp32(swing*mottle[k]+0.12*fine[k]+0.55*fissure[k]-0.30*soft[k]+0.20*tone[k]+0.20*smooth(0.8, 1, q[k]))
		c.fill(i, in[k], body{
			melanin: fm, blood: 0.040, oxygen: 0.7, scatter: 1, epidermis: 0.55,
			rough: 0.42 + 0.05*fine[k], gloss: 0.65 * (1 - 0.7*fissure[k]), stay: 0.5,
		})
		c.cover(i, in[k]*(1-fissure[k])*(0.10+0.34*smooth(-0.1, 0.9, horn[k]+0.35*(soft[k]-0.4))), hornTone.times(1+0.25*tone[k]+0.2*fine[k]))
	})
	p.plugsAndCysts(q, s, base)
	if p.has("inflamed") {
		p.inflame(q)
	}
}

// plugsAndCysts adds the dark horn plugs and the pale cysts of a keratosis.
func (p *patch) plugsAndCysts(q []float32, s, base float32) {
	c := p.c
	n := clamp(1.5*p.l.r*p.l.r/(s*s), 3, 34)
	if p.has("horn_plugs") {
		n *= 1.35
	}
	spots := p.spots(20, int(n), 0.62*s, 0.86, 0.09*s, 0.22*s)
	r := p.rng(21)
	for k, sp := range spots {
		if p.qAt(q, sp.x, sp.y) > 0.88 {
			continue
		}
		squash, depth := r.between(0.6, 1.6), r.between(0.35, 1)
		if k%3 != 2 {
			p.at(sp.x, sp.y, 2*sp.r+0.1, func(i int, dx, dy, _ float32) {
				d := sqrt32(dx*dx*squash + dy*dy/squash)
				w := depth * bell(d/sp.r)
				plug := depth * bell(d/(sp.r*0.55))
				c.Height[i] += -0.18*w + 0.07*plug
				mix(c.Melanin, i, 0.5, 0.85*w)
				c.Gloss[i] *= 1 - 0.7*w
				c.uncover(i, 0.9*w)
				c.cover(i, 0.65*plug, hornDark)
			})
			continue
		}
		p.at(sp.x, sp.y, 1.4*sp.r, func(i int, dx, dy, d float32) {
			w := 1 - smooth(0.5, 1.3, d/sp.r)
			c.Height[i] += 0.03 * w
			mix(c.Melanin, i, base*0.35, 0.7*w)
			c.uncover(i, 0.6*w)
			c.cover(i, 0.34*w, hornYellow.times(c.between(1, 0.6)))
		})
	}
}

// qAt reads a blob plane at a place of the lesion; outside it is 9.
func (p *patch) qAt(q []float32, x, y float32) float32 {
	col, row := int((x-p.x0)/p.px+0.5), int((y-p.y0)/p.px+0.5)
	if x < p.x0 || y < p.y0 || col >= p.w || row >= p.h {
		return 9
	}
	return q[row*p.w+col]
}

// inflame reddens and swells a lesion's surroundings.
func (p *patch) inflame(q []float32) {
	c := p.c
	noise := p.noise(77, 1.2, 3)
	p.each(func(k, i int, _, _ float32) {
		w := bell(max(q[k]-0.9, 0)/0.22) * (1 + 0.3*noise[k])
		c.Blood[i] = min(c.Blood[i]+0.08*w, 0.9)
		mix(c.Oxygen, i, 0.88, min(w, 1))
		c.Height[i] += 0.12 * w
		c.Gloss[i] *= 1 + 0.4*w
	})
}

// paintPapulosa draws one papule of dermatosis papulosa nigra: a small smooth
// dark dome with a fissure or two.
func paintPapulosa(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.5*R), 1.1*R)
	q := p.blob(2, outline{r: R, wave: 0.09, ripple: 0.05, lobes: 1.1, aspect: r.between(1, 1.22), turn: r.between(0, 3.1)})
	in := mask(q, 0.88, 1.03)
	p.flatten(in, 1)
	n, n2, fine, grain := p.noise(3, 1.2*R+0.2, 2), p.noise(5, 0.9*R, 2), p.noise(4, 0.22, 3), p.noise(6, 0.5, 2)
	deep := r.between(2.6, 3.9) * (1 - 0.15*clamp(c.dark, 0, 1))
	base := clamp(c.skin.melanin*deep*1.3, 0.17, 0.7)
	p.each(func(k, i int, _, _ float32) {
		crack := 0.6 * bell(n[k]/0.07) * smooth(-0.2, 0.5, n2[k]) * smooth(1, 0.6, q[k])
		d := smooth(1.04, 0.25, q[k])
		c.Height[i] += 0.85*H*d + in[k]*(-0.05*crack+0.09*n2[k]*R+0.034*fine[k]+0.03*grain[k])
		if in[k] == 0 {
			return
		}
		c.fill(i, in[k], body{
			melanin: base * exp32(0.16*fine[k]+0.2*grain[k]+0.4*crack+0.25*smooth(0.6, 1, q[k])), blood: 0.045, oxygen: 0.8,
			scatter: 1, epidermis: 0.7, rough: 0.46, gloss: 0.34 * (1 - 0.5*crack), stay: 0.3,
		})
	})
}
