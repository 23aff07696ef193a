package skin

// pigmentNet fills a plane with the lines of a pigment network: 1 on a line,
// 0 in a hole. Uneven holes and breaks come with disorder.
func (p *patch) pigmentNet(salt uint64, q []float32, cellMM, disorder float32) []float32 {
	seed := uint32(mix64(p.l.seed ^ salt))
	warp, broken := p.noise(salt+1, cellMM*4, 2), p.noise(salt+2, cellMM*5, 2)
	net := p.plane()
	width := max(cellMM*0.13, 0.6*p.px)
	p.eachCell(seed, 0.55+0.45*disorder, 1.35, q, func(k int, x, y float32) (u, v float32) {
		m := 1 / (cellMM * (1 + 0.25*disorder*warp[k]))
		return x * m, (y + 0.3*cellMM*warp[k]) * m
	}, func(k int, cl cell) {
		line := bell(cl.edge * cellMM / width)
		net[k] = line * (1 - disorder*smooth(0, 0.6, broken[k]))
	})
	return net
}

// netStrength is how plainly a network shows: a dermoscope looks below the
// surface that hides most of it from the bare eye.
func (p *patch) netStrength() float32 {
	if p.c.exam == ExamDermoscope {
		return 0.9
	}
	return 0.26
}

// paintSuspicious draws a flat or slightly raised pigmented patch that is
// uneven enough to worry: mixed browns, an edge that fades in one place and
// stops short in another.
func paintSuspicious(p *patch) {
	p.pigmented(pigmented{
		wave: 0.13, from: 0.80, to: 1.12, light: 0.075, dark: 0.19, spread: 0.34, islands: 4, height: 0.3,
		disorder: 0.45, red: 1.35,
	})
}

// paintMelanoma draws a melanoma that could pass for a mole at a glance: two
// halves that do not match, a notched edge, too many colours, and somewhere
// black, blue-grey or white.
func paintMelanoma(p *patch) {
	p.pigmented(pigmented{
		wave: 0.19, from: 0.86, to: 1.06, light: 0.085, dark: 0.25, spread: 0.50, islands: 5, height: 0.5,
		disorder: 0.95, red: 1.5, bad: true,
	})
}

// pigmented says how disorderly a flat pigmented growth is.
type pigmented struct {
	wave, from, to float32 // outline and the softness of its edge
	light, dark    float32 // melanin on skin types 2 and 5
	spread         float32 // unevenness of the pigment
	islands        int     // darker or lighter fields inside
	height         float32 // of its raised part, mm
	disorder, red  float32
	bad            bool // black, blue-grey and white fields
}

func (p *patch) pigmented(w pigmented) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	turn := r.between(0, 3.1)
	if p.has("asymmetric") {
		w.wave *= 1.3
		w.islands++
	}
	if p.has("well_defined") {
		w.from, w.to = 0.88, 1.04
	}
	q := p.blob(2, outline{r: R * 0.98, wave: w.wave, ripple: 0.05, lobes: 1.3, aspect: 1.22, turn: turn})
	edge := p.noise(3, 0.5*R+0.2, 2)
	in := p.plane()
	for k := range in {
		in[k] = smooth(w.to, w.from+0.16*edge[k], q[k]+0.05*edge[k])
	}
	mottle, mid, fine := p.noise(4, 0.9*R, 4), p.noise(5, 0.22*R+0.2, 3), p.noise(6, 0.16, 3)
	field := p.islands(q, w)
	net := p.pigmentNet(8, q, 0.30, w.disorder)
	strength := p.netStrength()
	base := c.between(w.light, w.dark)
	low := p.plane()
	p.each(func(k, _ int, _, _ float32) {
		low[k] = w.spread*mottle[k] + 0.36*mid[k] + 0.24*fine[k] + field[k]*(1-0.35*clamp(c.dark, 0, 1)) + strength*(net[k]-0.35)
	})
	H := min(p.raised(w.height), 0.5*R)
	// The raised part sits off the middle.
	lx, ly := 0.22*R*cos32(turn+1), 0.22*R*sin32(turn+1)
	bump := p.blob(9, outline{r: 0.55 * R, wave: 0.2, lobes: 1, aspect: 1.1, x: lx, y: ly})
	raised := mask(bump, 0.3, 1.1)
	p.flatten(raised, 0.6)
	p.each(func(k, i int, _, _ float32) {
		if in[k] == 0 {
			return
		}
		c.Height[i] += H*(0.8*raised[k]*in[k]+0.25*in[k]) + in[k]*(0.010*fine[k]+0.016*mid[k])
		fm := max(base*exp32(low[k]), c.skin.melanin*0.8)
		mix(c.Melanin, i, min(fm, 0.62), in[k])
		c.Blood[i] *= 1 + in[k]*(w.red-1)*(1+0.5*mottle[k])
		c.Gloss[i] *= 1 + 0.25*raised[k]
		mix(c.Stay, i, 0.2, in[k])
	})
	if p.has("many_colours") && !w.bad {
		p.mixedColours(q, turn)
	}
	if w.bad {
		p.badFields(q, turn)
	} else {
		p.pinkRim(q, 0.25)
	}
}

// mixedColours adds a grey-blue and a pink field to a mole.
func (p *patch) mixedColours(q []float32, turn float32) {
	c := p.c
	R := p.l.r
	grey := p.blob(101, outline{r: 0.34 * R, wave: 0.25, ripple: 0.1, lobes: 1.2, x: 0.4 * R * cos32(turn+2.2), y: 0.4 * R * sin32(turn+2.2)})
	pink := p.blob(102, outline{r: 0.36 * R, wave: 0.25, ripple: 0.1, lobes: 1.2, x: 0.45 * R * cos32(turn+4.4), y: 0.45 * R * sin32(turn+4.4)})
	p.each(func(k, i int, _, _ float32) {
		inside := smooth(1.05, 0.9, q[k])
		c.Deep[i] += 1.6 * smooth(1.2, 0.4, grey[k]) * inside
		w := smooth(1.2, 0.5, pink[k]) * inside
		mix(c.Melanin, i, c.skin.melanin*1.2, 0.7*w)
		c.Blood[i] *= 1 + 1.1*w
	})
}

// pinkRim adds a faint inflammatory blush around an outline.
func (p *patch) pinkRim(q []float32, k float32) {
	c := p.c
	p.each(func(j, i int, _, _ float32) { c.Blood[i] *= 1 + k*bell((q[j]-1.05)/0.2) })
}

// islands lays fields of more or less pigment side by side, off the middle, as
// exponents to add to the logarithm of the melanin.
func (p *patch) islands(q []float32, w pigmented) []float32 {
	R := p.l.r
	out := p.plane()
	r := p.rng(60)
	warp := p.noise(61, 0.35*R+0.2, 3)
	n := w.islands
	if p.has("irregular_pigment") || p.has("many_colours") {
		n += 2
	}
	for i := range n {
		a, d, size := r.between(0, 6.28), R*r.between(0.25, 0.75), R*r.between(0.16, 0.42)
		k := r.between(0.45, 1.0)
		if p.has("asymmetric") {
			a *= 0.4 // the dark fields crowd on one side
			k *= 1.25
		}
		if i%3 == 2 {
			k = -r.between(0.4, 0.8)
		}
		x, y := d*cos32(a), d*sin32(a)
		p.disc(x, y, 1.8*size, func(j int, _, _, dist float32) {
			out[j] += k * smooth(1.25, 0.55, dist/size*(1+0.35*warp[j]))
		})
	}
	return out
}

// badFields adds what a benign mole does not have: an off-centre black blotch,
// a blue-grey veil, a white scar-like field with grey specks, streaks at part
// of the edge, and a pink flush.
func (p *patch) badFields(q []float32, turn float32) {
	c := p.c
	R := p.l.r
	r := p.rng(70)
	place := func(angle, far, size float32, salt uint64) []float32 {
		return p.blob(salt, outline{r: size * R, wave: 0.26, ripple: 0.08, lobes: 1.2, aspect: 1.2, turn: angle, x: far * R * cos32(turn+angle), y: far * R * sin32(turn+angle)})
	}
	black, veil, white := place(r.between(0.2, 0.9), 0.42, 0.33, 71), place(r.between(2.2, 2.9), 0.36, 0.36, 72), place(r.between(4.2, 5), 0.55, 0.30, 73)
	fine, mid := p.noise(74, 0.14, 2), p.noise(75, 0.4, 3)
	deep := p.plane()
	p.each(func(k, i int, _, _ float32) {
		inside := smooth(1.04, 0.9, q[k])
		b := smooth(1.15, 0.7, black[k]+0.12*mid[k]) * inside
		mix(c.Melanin, i, c.between(0.36, 0.55)*(1+0.25*fine[k]), 0.9*b)
		c.Gloss[i] *= 1 + 0.35*b
		w := smooth(1.2, 0.6, white[k]+0.12*mid[k]) * inside
		mix(c.Melanin, i, c.skin.melanin*0.45, 0.75*w)
		c.Scatter[i] *= 1 + 0.35*w
		c.Height[i] -= 0.05 * w
		deep[k] = 1.25*smooth(1.25, 0.4, veil[k]+0.10*mid[k])*inside + 1.1*w*smooth(0.45, 0.8, fine[k])
		v := smooth(1.2, 0.6, veil[k]) * inside
		mix(c.Melanin, i, c.skin.melanin*2.2, 0.75*v)
		c.Blood[i] += 0.018 * smooth(0.2, 0.9, mid[k]) * inside
	})
	deep = p.blur(deep, 0.09)
	p.each(func(k, i int, _, _ float32) { c.Deep[i] += deep[k] })
	// Dots and short streaks where part of the edge is on the move.
	s := p.vessels(76)
	start := r.between(0, 6.28)
	for range 15 {
		a := start + 1.3*r.unit()
		d := R * r.between(0.72, 0.92)
		l := r.between(0.02, 0.13) * R
		s.line(d*cos32(a), d*sin32(a), (d+l)*cos32(a+0.1*r.normal()), (d+l)*sin32(a+0.1*r.normal()), r.between(0.02, 0.035)*R, r.between(0.4, 1))
	}
	soft := p.blur(s.f, 0.09)
	p.each(func(k, i int, _, _ float32) { mix(c.Melanin, i, c.between(0.20, 0.38), 0.55*soft[k]) })
}
