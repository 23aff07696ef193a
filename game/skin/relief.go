package skin

// The surface of plain skin: families of crossing lines with a finer net
// between them, plates that bulge, pores, and the uneven pigment and blood
// that keep skin from looking like clay.

// baseSkin fills the fields with unmarked skin of the patient at the site.
func baseSkin(c *canvas) {
	c.bodyCurve()
	c.uneven()
	switch c.site.pattern {
	case patternRidges:
		c.ridges()
	case patternLip:
		c.lipFurrows()
	default:
		c.lines()
	}
	if c.site.pattern == patternNail {
		c.nailPlate()
	}
	c.pores()
	c.sunMarks()
}

// lineFamily is one set of nearly parallel lines.
type lineFamily struct {
	cos, sin float32 // of the angle across the lines
	spacing  float32 // mm
	per      float32 // lines per mm
	weight   float32
	bend     [2]float32 // how it follows the two bending planes
	seed     uint32
}

// over raises p along one row of pixels to the strength, 0 to 1, of the
// family's lines at the places u, v.
func (f *lineFamily) over(p, u, v, bendA, bendB []float32, width float32) {
	ca, sa, per, b0, b1, seed := f.cos, f.sin, f.per, f.bend[0], f.bend[1], f.seed
	reach := 2 * width * per
	n := len(p)
	u, v, bendA, bendB = u[:n], v[:n], bendA[:n], bendB[:n]
	for k := range p {
		s := (ca*u[k]+sa*v[k])*per + b0*bendA[k] + b1*bendB[k]
		i := floor32(s)
		h := uint32(i)*0x9E3779B1 ^ seed
		h = (h ^ h>>15) * 0x2C1B3C6D
		h ^= h >> 13
		off := abs32(s - float32(i) - 0.22 - 0.56*low16(h))
		if off >= reach {
			continue
		}
		// A line keeps its own depth and comes and goes along its length.
		t := (ca*v[k] - sa*u[k]) * per * (1 / 1.9)
		along := clamp(0.62+0.62*value1(h, t), 0.04, 1.15)
		p[k] = max(p[k], f.weight*(0.5+0.5*high16(h))*along*bell(off/(width*per)))
	}
}

// families lays out the lines of the site; age spreads and deepens the ones
// along the tension of the skin.
func (c *canvas) families() []lineFamily {
	r := c.rng("lines")
	s := c.site.spacingMM
	lean := r.between(-0.08, 0.08)
	old := smooth(35, 85, c.age)
	angles := []struct{ angle, weight, spacing float32 }{
		{1.57 - 0.50 + lean, 1, s},
		{1.57 + 0.55 + lean, 0.9 - 0.15*old, s * 1.05},
		{1.57, 0.55 + 0.4*old, s * 1.3},
		{0.10, 0.42 - 0.1*old, s * 1.6},
	}
	if c.site.pattern == patternFolds {
		angles = append(angles, struct{ angle, weight, spacing float32 }{1.5, 1.25, s * 1.7})
	}
	out := make([]lineFamily, len(angles))
	for i, a := range angles {
		out[i] = lineFamily{
			cos: cos32(a.angle), sin: sin32(a.angle), spacing: a.spacing, per: 1 / a.spacing, weight: a.weight,
			bend: [2]float32{r.between(0.2, 0.42), r.between(-0.4, 0.4)}, seed: uint32(r.next()),
		}
	}
	return out
}

// lines writes the relief of ordinary skin into Height and lets pigment and
// blood follow it.
func (c *canvas) lines() {
	g := c.grid
	seed := c.seed("relief")
	s := c.site.spacingMM
	depth := c.site.depthMM * lerp(0.6, 1, smooth(0, 28, c.age)) * lerp(1, 1.2, smooth(45, 85, c.age))
	turn := c.rng("tension").between(-0.45, 0.45)
	ca, sa := cos32(turn), sin32(turn)
	warpX, warpY := g.fbm(seed+1, 3, 3, 0.5), g.fbm(seed+2, 3, 3, 0.5)
	bendA, bendB := g.fbm(seed+3, 1.5*s/0.72, 2, 0.5), g.fbm(seed+4, 4*s/0.72, 2, 0.5)
	broken := g.fbm(seed+5, 0.9, 2, 0.5)
	fams := c.families()
	// Lines thinner than a pixel are widened and weakened alike.
	fine := 0.05 * s / 0.72
	width := max(fine, 0.72*g.px)
	thin := fine / width
	net, primary := g.plane(), g.plane()
	secondW := max(0.032*s/0.72, 0.6*g.px)
	secondK := 0.032 * s / 0.72 / secondW
	cellX, cellY := s*0.48, s*0.40
	s1 := uint32(seed >> 7)
	tiny := g.plane()
	g.addNoise(tiny, uint32(seed>>9), 0.24*s, 0.20*s, 1)
	tinyDepth := 0.13 * depth * smooth(3, 6, 0.24*s/g.px)
	wrinkles := c.wrinkles()
	g.rows(func(y0, y1 int) {
		net2 := cellsOf(s1, 0.95)
		us, vs, ps, ws := make([]float32, g.w), make([]float32, g.w), make([]float32, g.w), make([]float32, g.w)
		for row := y0; row < y1; row++ {
			y, at := g.y(row), row*g.w
			for col := range g.w {
				x := g.x(col)
				us[col] = x*ca + y*sa + 0.25*warpX[at+col]
				vs[col] = -x*sa + y*ca + 0.25*warpY[at+col]
			}
			clear(ps)
			for f := range fams {
				fams[f].over(ps, us, vs, bendA[at:], bendB[at:], width)
			}
			if wrinkles != nil {
				clear(ws)
				wrinkles.over(ws, us, vs, bendA[at:], bendB[at:], 0.13)
			}
			for col := range g.w {
				i := at + col
				p := ps[col]
				p *= thin
				cl := net2.at(us[col]/cellX, vs[col]/cellY)
				second := bell(cl.edge*(cellX+cellY)*0.5/secondW) * secondK * clamp(0.7+0.6*broken[i], 0.1, 1)
				h := -depth*p - 0.38*depth*second
				h -= tinyDepth * bell(tiny[i]*7)
				h -= ws[col]
				p = max(p, min(ws[col]*3, 1))
				c.Height[i] += h
				net[i] = p + 0.32*second
				primary[i] = p
				id := low16(cl.id) - 0.5
				c.Melanin[i] *= 1 + 0.10*id + 0.10*p
				c.Blood[i] *= 1 - 0.12*p
			}
		}
	})
	// Plates bulge between the lines: without this, lines look scratched in.
	near, far := g.blur(net, 0.16*s/0.72), g.blur(net, 0.45*s/0.72)
	swell, grain, dust := g.fbm(seed+6, 5, 2, 0.5), g.fbm(seed+7, 0.35, 3, 0.5), g.fbm(seed+8, 0.09, 2, 0.5)
	g.rows(func(y0, y1 int) {
		for i := y0 * g.w; i < y1*g.w; i++ {
			c.Height[i] += depth*(-1.1*near[i]-0.5*far[i]+0.22*grain[i]+0.10*dust[i]) + 0.05*swell[i]
			c.Rough[i] *= 1 + 0.10*grain[i]
			c.Gloss[i] *= 1 - 0.5*min(primary[i], 1)
		}
	})
}

// wrinkles gives the coarse lines of older, sun-worn skin, or nil.
func (c *canvas) wrinkles() *lineFamily {
	k := smooth(48, 85, c.age) * (0.35 + 0.65*c.site.sun)
	if k < 0.05 || c.site.pattern == patternFolds {
		return nil
	}
	r := c.rng("wrinkles")
	a := 1.57 + r.between(-0.2, 0.2)
	return &lineFamily{
		cos: cos32(a), sin: sin32(a), spacing: 3.4, per: 1 / 3.4, weight: 0.11 * k,
		bend: [2]float32{0.15, 0.3}, seed: uint32(r.next()),
	}
}

// bodyCurve rounds the ground as the body part is round, gently, so that the
// far side falls away from the lamp.
func (c *canvas) bodyCurve() {
	a := c.rng("curve").between(-0.5, 0.5)
	ca, sa := cos32(a), sin32(a)
	k := 0.5 / max(c.site.radiusMM, 40) * 0.6
	c.rows(func(y0, y1 int) {
		for row := y0; row < y1; row++ {
			for col := range c.w {
				n := ca*c.y(row) - sa*c.x(col)
				// Beyond 14 mm the slope stays level, or wide views would turn black.
				if m := abs32(n); m > 14 {
					n = sqrt32(14 * (2*m - 14))
				}
				c.Height[row*c.w+col] -= k * n * n
			}
		}
	})
}

// uneven spreads pigment and blood as real skin has them: on several scales at
// once, since one scale looks like fog.
func (c *canvas) uneven() {
	g, seed := c.grid, c.seed("colour")
	wide, mid, fine := g.fbm(seed, 6, 3, 0.5), g.fbm(seed+1, 1.4, 4, 0.5), g.fbm(seed+2, 0.25, 2, 0.5)
	b1, b2, b3 := g.fbm(seed+3, 4, 4, 0.5), g.fbm(seed+4, 0.9, 3, 0.5), g.fbm(seed+5, 0.2, 2, 0.5)
	// Sun-worn skin is blotchier.
	worn := 1 + 0.6*c.site.sun*smooth(30, 75, c.age)
	flush := 0.20 + 0.10*smooth(1.2, 1.9, c.site.blood)
	g.rows(func(y0, y1 int) {
		for i := y0 * g.w; i < y1*g.w; i++ {
			c.Melanin[i] *= exp32(0.12*worn*wide[i] + 0.13*worn*mid[i] + 0.06*fine[i])
			c.Blood[i] *= exp32(flush*b1[i] + 0.30*b2[i] + 0.16*b3[i])
			c.Rough[i] *= 1 + 0.08*mid[i]
			c.Gloss[i] *= c.site.shine * (1 + 0.25*mid[i])
		}
	})
}

// pores sinks the openings of follicles, browner inside; on the nose they hold
// a pale plug.
func (c *canvas) pores() {
	wide := smooth(0.16, 0.2, c.site.poreMM)
	c.scatter(c.seed("pores"), c.site.pores, 1, func(x, y float32, r *rng) {
		size := c.site.poreMM * r.between(0.35, 0.75)
		deep := r.between(0.3, 1)
		spread := max(size*0.9, 0.6*c.px)
		deep *= min(1, size*0.9/spread)
		c.disc(x, y, max(0.5, 2*spread), func(i int, dx, dy, d float32) {
			pit := deep * bell(d/spread)
			c.Height[i] += -0.055*pit + 0.014*deep*bell(d/0.24)
			c.Melanin[i] *= 1 + 0.55*pit
			c.Gloss[i] *= 1 - 0.5*pit
			if wide > 0 {
				c.Height[i] -= 0.05 * wide * pit
				c.cover(i, 0.4*wide*deep*bell(d/(size*0.5)), sebum.times(0.75))
			}
		})
	})
}

// sunMarks adds freckles and, with age on sun-exposed sites, flat brown spots.
func (c *canvas) sunMarks() {
	light := 1 - smooth(-0.1, 0.7, c.dark)
	warp := c.fbm(c.seed("mark edge"), 0.6, 3, 0.5)
	mark := func(x, y, size, k float32) {
		c.disc(x, y, size*1.5, func(i int, _, _, d float32) {
			c.Melanin[i] *= 1 + k*(1-smooth(0.25, 1.25, d/size+0.30*warp[i]))
		})
	}
	freckled := 1.2 + 9*c.site.sun*light*smooth(4, 14, c.age)
	c.scatter(c.seed("freckles"), freckled, 2, func(x, y float32, r *rng) {
		if r.unit() < 0.55 {
			mark(x, y, r.between(0.3, 0.9), r.between(0.12, 0.5))
		}
	})
	worn := c.site.sun * smooth(45, 80, c.age) * (0.35 + 0.65*light)
	c.scatter(c.seed("sun spots"), 1.1*worn, 4, func(x, y float32, r *rng) {
		if r.unit() < 0.6 {
			mark(x, y, r.between(1, 2.6), r.between(0.35, 1.0))
		}
	})
}
