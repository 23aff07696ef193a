package skin

// Surfaces that differ from the crossing lines of most skin.

// ridges writes the parallel ridges of palm and sole, with sweat pores along
// their crests and a few bending creases.
func (c *canvas) ridges() {
	g, seed := c.grid, c.seed("ridges")
	r := c.rng("ridges")
	turn := r.between(0.6, 1.2)
	ca, sa := cos32(turn), sin32(turn)
	flow, wobble := g.fbm(seed, 14, 2, 0.5), g.fbm(seed+1, 1.2, 2, 0.5)
	grain, swell := g.fbm(seed+2, 0.3, 3, 0.5), g.fbm(seed+3, 5, 2, 0.5)
	pitch, depth := c.site.spacingMM, c.site.depthMM
	depth *= smooth(1.8, 3.5, pitch/g.px)
	creases := lineFamily{cos: cos32(turn - 1.1), sin: sin32(turn - 1.1), spacing: 7, per: 1.0 / 7, weight: 0.16, bend: [2]float32{0.05, 0.2}, seed: uint32(r.next())}
	fine := lineFamily{cos: cos32(turn + 1.9), sin: sin32(turn + 1.9), spacing: 2.3, per: 1.0 / 2.3, weight: 0.05, bend: [2]float32{0.12, 0.3}, seed: uint32(r.next())}
	s1 := uint32(seed >> 5)
	g.rows(func(y0, y1 int) {
		xs, ys, deep, thin := make([]float32, g.w), make([]float32, g.w), make([]float32, g.w), make([]float32, g.w)
		for row := y0; row < y1; row++ {
			g.places(xs, ys, row)
			clear(deep)
			clear(thin)
			creases.over(deep, xs, ys, wobble[row*g.w:], flow[row*g.w:], 0.22)
			fine.over(thin, xs, ys, wobble[row*g.w:], flow[row*g.w:], 0.09)
			for col := range g.w {
				i := row*g.w + col
				x, y := xs[col], ys[col]
				u := x*ca + y*sa + 2.2*flow[i] + 0.05*wobble[i]
				v := -x*sa + y*ca
				s := u / pitch
				k := floor32(s)
				f := s - float32(k) - 0.5
				crest := 1 - smooth(0.22, 0.5, abs32(f))
				h := depth * (crest - 0.5)
				// One sweat pore every half millimetre or so on the crest.
				along := v/0.5 + low16(hash2(s1, k, 1))
				m := floor32(along)
				dv := (along - float32(m) - 0.3 - 0.4*low16(hash2(s1, k, m+9))) * 0.5
				pore := bell(sqrt32(dv*dv+f*f*pitch*pitch)/0.07) * smooth(0.03, 0.07, 0.12-g.px)
				h -= 0.02 * pore
				crease := deep[col] + thin[col]
				c.Height[i] += h*(1-min(crease*4, 0.8)) - crease + 0.05*swell[i] + 0.006*grain[i]
				c.Blood[i] *= 0.88 + 0.2*crest - min(crease, 0.2)
				// Creases of dark palms hold more pigment.
				c.Melanin[i] *= 1 + 0.15*(1-crest) + 9*crease*smooth(0.2, 0.9, c.dark+0.9)
				c.Rough[i] *= 0.95
				c.cover(i, 0.10+0.05*grain[i], hornYellow.mix(hornSilver, 0.6))
			}
		}
	})
}

// lipFurrows writes the upright furrows of the red lip.
func (c *canvas) lipFurrows() {
	g, seed := c.grid, c.seed("lip")
	r := c.rng("lip")
	wobble, flow := g.fbm(seed, 1.6, 2, 0.5), g.fbm(seed+1, 6, 2, 0.5)
	grain, blotch := g.fbm(seed+2, 0.22, 2, 0.5), g.fbm(seed+3, 2.2, 3, 0.5)
	fams := []lineFamily{
		{cos: 1, sin: 0.10, spacing: c.site.spacingMM, per: 1 / c.site.spacingMM, weight: 1, bend: [2]float32{0.18, 0.5}, seed: uint32(r.next())},
		{cos: 0.97, sin: -0.22, spacing: c.site.spacingMM * 1.4, per: 1 / (c.site.spacingMM * 1.4), weight: 0.8, bend: [2]float32{-0.2, 0.5}, seed: uint32(r.next())},
		{cos: 0.35, sin: 0.93, spacing: 1.6, per: 1.0 / 1.6, weight: 0.3, bend: [2]float32{0.4, 0.2}, seed: uint32(r.next())},
	}
	net := g.plane()
	g.rows(func(y0, y1 int) {
		xs, ys := make([]float32, g.w), make([]float32, g.w)
		for row := y0; row < y1; row++ {
			g.places(xs, ys, row)
			for f := range fams {
				fams[f].over(net[row*g.w:row*g.w+g.w], xs, ys, wobble[row*g.w:], flow[row*g.w:], 0.10)
			}
			for i := row * g.w; i < (row+1)*g.w; i++ {
				c.Blood[i] *= 1 + 0.25*blotch[i]
				c.Epidermis[i] = 0.8
				c.Rough[i] = 0.33
			}
		}
	})
	near, far := g.blur(net, 0.14), g.blur(net, 0.35)
	for i := range net {
		c.Height[i] += c.site.depthMM * (-0.5*net[i] - 1.2*near[i] - 0.8*far[i] + 0.06*grain[i])
		c.Blood[i] *= 1 + 0.2*near[i]
	}
}

// nailEdgeMM is how far below the middle the fold ends and the nail begins.
func (c *canvas) nailEdgeMM(x float32) float32 {
	return 0.45*min(float32(c.s.WidthMM)/2, 6) + 0.9 + 0.028*x*x
}

// nailPlate turns the lower part of the picture into a nail: hard, smooth,
// shiny, pink with a paler moon, under a rim of thin dead cuticle.
func (c *canvas) nailPlate() {
	g, seed := c.grid, c.seed("nail")
	ribs := g.fbmXY(seed, 0.5, 14, 2, 0.5)
	edge := g.fbm(seed+1, 1.3, 3, 0.5)
	smoothed := g.blur(c.Height, 0.8)
	g.rows(func(y0, y1 int) {
		for row := y0; row < y1; row++ {
			for col := range g.w {
				i := row*g.w + col
				x := g.x(col)
				d := g.y(row) - c.nailEdgeMM(x) - 0.10*edge[i]
				k := smooth(-0.06, 0.10, d)
				roll := smooth(-3.2, -0.3, d) * (1 - k)
				c.Height[i] += 0.55 * roll * roll
				if k == 0 {
					c.Gloss[i] *= 1 + 0.5*roll
					c.cover(i, 0.22*bell((d+0.22)/0.2)*(0.6+0.6*abs32(edge[i])), hornSilver)
					continue
				}
				moon := 1 - smooth(1.6, 2.6, d+0.05*x*x)
				c.Height[i] = lerp(c.Height[i], smoothed[i]*0.3-0.10-0.012*x*x+0.010*ribs[i], k)
				c.Melanin[i] = lerp(c.Melanin[i], c.skin.melanin*0.35, k)
				c.Blood[i] = lerp(c.Blood[i], 0.045-0.028*moon, k)
				c.Scatter[i] = lerp(c.Scatter[i], 1+0.5*moon, k)
				c.Rough[i] = lerp(c.Rough[i], 0.20, k)
				c.Gloss[i] = lerp(c.Gloss[i], 1.5, k)
				c.uncover(i, k)
				c.cover(i, k*(0.14+0.16*moon+0.03*ribs[i]), hornSilver)
				c.cover(i, 0.3*bell((d-0.12)/0.10), hornSilver.times(0.8))
			}
		}
	})
}
