package skin

// paintCommonWart draws a common wart: a rough grey-brown dome of packed horny
// pegs with dark dots, where closed-off vessels show.
func paintCommonWart(p *patch) { p.wart(0.34*p.l.r, 1) }

// paintPeriungualWart draws the flatter, spreading, split kind beside a nail.
func paintPeriungualWart(p *patch) { p.wart(0.24*p.l.r, 1.3) }

func (p *patch) wart(habit, ragged float32) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(habit), 0.9*R)
	q := p.blob(2, outline{r: R * 0.96, wave: 0.11 * ragged, ripple: 0.05, lobes: 1.4, aspect: 1.12, turn: r.between(0, 3.1)})
	in := mask(q, 0.93, 1.01)
	p.flatten(in, 1)
	size := clamp(0.17*R, 0.32, 0.62)
	warp, warpY := p.noise(3, 1.5*size, 3), p.noise(4, 1.5*size, 3)
	seed := uint32(p.l.seed >> 8)
	peg, tone := p.plane(), p.plane()
	p.eachCell(seed, 1, 1.1, q, func(k int, x, y float32) (u, v float32) {
		return x/size + 0.45*warp[k], y/size + 0.45*warpY[k]
	}, func(k int, cl cell) {
		own := low16(cl.id)
		peg[k] = bell(cl.near/(0.42+0.22*own)) * (0.45 + 0.55*own)
		tone[k] = own - 0.5
	})
	peg, tone = p.blur(peg, 0.02), p.blur(tone, 0.08)
	fine, mottle, dust, group := p.noise(5, 0.22, 3), p.noise(6, 0.6*R, 3), p.noise(7, 0.10, 3), p.noise(8, 2.4*size, 3)
	dry := hornGrey.mix(hornBrown, 0.22)
	p.each(func(k, i int, _, _ float32) {
		up := smooth(1.02, 0.30, q[k])
		c.Height[i] += H*up*(1+0.10*group[k]) + in[k]*min(1, 0.3+up)*size*(0.78*peg[k]+0.18*group[k]+0.12*fine[k]) + in[k]*0.016*dust[k]
		// The skin around is pushed up into a smooth pale collar.
		collar := bell((q[k] - 1.06) / 0.07)
		c.Height[i] += 0.06 * collar
		c.cover(i, 0.05*collar, hornSilver)
		if in[k] == 0 {
			return
		}
		gap := smooth(0.30, 0.02, peg[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * (1.15 + 0.5*gap) * exp32(0.2*mottle[k]), blood: 0.028 + 0.012*gap, oxygen: 0.76, scatter: 1,
			epidermis: 1, rough: 0.46, gloss: 0.7 * (1 - 0.6*gap), stay: 0.4,
		})
		share := 0.16 + 0.44*smooth(0.1, 0.8, peg[k]+0.25*group[k]) + 0.10*fine[k] + 0.10*mottle[k]
		c.cover(i, in[k]*share, dry.times(c.between(0.92, 0.62)*(1+0.20*fine[k]+0.22*tone[k]+0.12*dust[k])))
	})
	p.clottedDots(q, int(clamp(3*R*R/2, 5, 22)), 0.045, 0.09, 1)
	if p.has("inflamed") {
		p.inflame(q)
	}
}

// clottedDots puts the black-red points of clotted vessels into a wart.
func (p *patch) clottedDots(q []float32, n int, rMin, rMax, stretch float32) {
	c := p.c
	r := p.rng(80)
	for _, s := range p.spots(81, n, 0.16*p.l.r, 0.78, rMin, rMax) {
		if p.qAt(q, s.x, s.y) > 0.86 {
			continue
		}
		tall := r.between(1, 1+stretch)
		a := r.between(0, 3.1)
		ca, sa := cos32(a), sin32(a)
		least := max(s.r, 0.8*c.px)
		p.at(s.x, s.y, 2.2*least*tall, func(i int, dx, dy, _ float32) {
			u, v := (dx*ca+dy*sa)/tall, dy*ca-dx*sa
			w := smooth(1.3, 0.5, sqrt32(u*u+v*v)/least)
			c.uncover(i, 0.92*w)
			mix(c.Blood, i, 0.7, w)
			mix(c.Oxygen, i, 0.08, w)
			mix(c.Melanin, i, 0.12, 0.8*w)
			mix(c.Stay, i, 1, w)
			c.Height[i] -= 0.025 * w
			c.Gloss[i] *= 1 - 0.5*w
		})
	}
}

// paintPlantarWart draws a wart of the sole: level or a little sunk, the
// ridges broken off at its edge, horny, with dark dots.
func paintPlantarWart(p *patch) {
	c := p.c
	R := p.l.r
	q := p.blob(1, outline{r: R, wave: 0.13, ripple: 0.06, lobes: 1.5, aspect: 1.12, turn: p.rng(2).between(0, 3.1)})
	in := mask(q, 0.90, 1.02)
	p.flatten(in, 1)
	grain, fine, mottle := p.noise(3, 0.5, 3), p.noise(4, 0.16, 3), p.noise(5, 0.7*R, 3)
	peg := p.plane()
	p.eachCell(uint32(p.l.seed>>8), 0.9, 1.1, q, func(_ int, x, y float32) (u, v float32) { return x * 2, y * 2 },
		func(k int, cl cell) { peg[k] = max(1-1.7*cl.near*cl.near, 0) })
	p.each(func(k, i int, _, _ float32) {
		rim := bell((q[k] - 1.03) / 0.10)
		c.Height[i] += 0.15*rim - 0.10*in[k]*smooth(1, 0.7, q[k])
		c.cover(i, 0.35*rim, hornSilver.mix(hornYellow, 0.4))
		if in[k] == 0 {
			return
		}
		c.Height[i] += in[k] * (0.09*peg[k] + 0.06*grain[k] + 0.03*fine[k] + 0.06*mottle[k])
		c.fill(i, in[k], body{melanin: c.skin.melanin * 0.7, blood: 0.016, oxygen: 0.7, scatter: 1, epidermis: 1, rough: 0.50, gloss: 0.5, stay: 0.4})
		c.cover(i, in[k]*clamp(0.40+0.18*grain[k]+0.16*mottle[k]-0.16*(1-peg[k]), 0.10, 0.75), rgb{0.50, 0.325, 0.195}.times(1+0.20*fine[k]+0.20*mottle[k]-0.12*(1-peg[k])))
	})
	p.clottedDots(q, int(clamp(1.5*R*R, 8, 40)), 0.05, 0.12, 0.9)
}

// paintFiliformWart draws a filiform wart: stiff horny fingers that fan out
// from one narrow foot, pale at their tips.
func paintFiliformWart(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(max(p.raised(1.2*R), 0.6*R), 2.2*R)
	lean := r.between(0.2, 1.4)
	n := 30 + int(12*r.unit())
	top, tip, edge := p.plane(), p.plane(), p.plane()
	fine := p.noise(2, 0.14, 3)
	for i := range n {
		a := lean + 6.2831853*float32(i)/float32(n) + 0.3*r.normal()
		out := sqrt32(r.unit())
		far := R * (0.12 + 0.50*out) * r.between(0.7, 1.1)
		high := H * r.between(0.65, 1)
		w := R * r.between(0.055, 0.085)
		bend := 0.4 * r.normal()
		steps := int(far/(0.25*w)) + 6
		x, y := 0.42*R*out*cos32(a), 0.42*R*out*sin32(a)
		for s := range steps {
			t := float32(s) / float32(steps)
			x += cos32(a+bend*t) * far / float32(steps)
			y += sin32(a+bend*t) * far / float32(steps)
			width := w * (1.7 - 1.25*t)
			level := high * (1 - 0.45*out) * (0.35 + 0.65*t)
			p.disc(x, y, width, func(j int, _, _, d float32) {
				z := level + width*sqrt32(max(1-d*d/(width*width), 0)) - width
				if z > top[j] {
					top[j], tip[j], edge[j] = z, t, d/width
				}
			})
		}
	}
	cover := p.plane()
	for j, z := range top {
		cover[j] = smooth(0.02, 0.08, z)
	}
	p.flatten(cover, 1)
	p.each(func(k, i int, x, y float32) {
		foot := bell(sqrt32(x*x+y*y) / (0.55 * R))
		c.Blood[i] *= 1 + 0.9*foot
		c.Height[i] += 0.18 * R * foot
		if cover[k] == 0 {
			return
		}
		c.Height[i] += top[k] + 0.02*fine[k]
		c.fill(i, cover[k], body{melanin: c.skin.melanin * 1.2, blood: 0.05 - 0.03*tip[k], oxygen: 0.75, scatter: 1, epidermis: 0.9, rough: 0.45, gloss: 0.7, stay: 0.3})
		c.cover(i, cover[k]*clamp(0.03+0.60*smooth(0.35, 1.05, tip[k])+0.1*fine[k], 0, 0.9), hornSilver.mix(hornYellow, 0.5).times(c.between(0.92, 0.65)*(1+0.15*fine[k])))
	})
}
