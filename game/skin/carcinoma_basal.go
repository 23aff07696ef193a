package skin

// paintNodular draws a nodular basal cell carcinoma: a pearly lump with a
// rolled edge, branching vessels that run over its shoulder, blue-grey nests
// (many on dark skin), and often a crusted dell.
func paintNodular(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.30*R), 0.8*R)
	turn := r.between(0, 3.1)
	q := p.blob(2, outline{r: R * 0.97, wave: 0.10, lobes: 1.2, aspect: 1.18, turn: turn})
	in := mask(q, 0.86, 1.05)
	p.flatten(in, 0.94)
	// Lobes: the pearls of the edge.
	size := 0.42*R + 0.15
	seed := uint32(p.l.seed >> 9)
	bend, bendY := p.noise(3, size, 2), p.noise(4, size, 2)
	lobes := p.plane()
	p.eachCell(seed, 0.85, 1.3, q, func(k int, x, y float32) (u, v float32) {
		return (x+0.25*size*bend[k])/size + 2.3, (y+0.25*size*bendY[k])/size + 5.1
	}, func(k int, cl cell) { lobes[k] = max(1-1.2*cl.near*cl.near, 0) })
	lobes = p.blur(lobes, 0.16*size)
	ulcerated := p.has("ulcerated") || p.has("bleeding") || (R > 2.2 && r.unit() < 0.45)
	off := outline{r: R * 0.36, wave: 0.24, ripple: 0.10, lobes: 1.3, aspect: 1.15, turn: turn + 0.9, x: 0.10 * R, y: -0.06 * R}
	qu := p.blob(5, off)
	wide, mid, fine := p.noise(6, 0.45*R+0.3, 3), p.noise(7, 0.35, 2), p.noise(8, 0.16, 2)
	dell := float32(0.20)
	if ulcerated {
		dell = 0.30
	}
	keep := c.between(0.80, 0.82)
	p.each(func(k, i int, _, _ float32) {
		rim := bell((q[k] - 0.74) / 0.24)
		up := smooth(1.06, 0.42, q[k])
		c.Height[i] += H*up + H*(lobes[k]-0.30)*smooth(1.04, 0.8, q[k])*(0.10+0.30*rim)
		c.Height[i] += in[k] * (0.07*H*wide[k] + 0.018*mid[k] + 0.009*fine[k])
		c.Height[i] -= dell * H * smooth(1.9, 0, qu[k])
		c.Blood[i] *= 1 + 0.75*bell((q[k]-1.10)/0.17)*(1-in[k])
		if in[k] == 0 {
			return
		}
		c.Melanin[i] *= 1 - in[k]*(1-keep)
		blood := 0.040 + 0.018*clamp(wide[k], -0.8, 1.4) + 0.006*clamp(mid[k], -1, 1) + 0.012*bell((q[k]-1)/0.2) - 0.012*lobes[k]*rim
		mix(c.Blood, i, max(blood, 0.010)*(0.7+0.3*c.site.blood), in[k])
		mix(c.Oxygen, i, 0.76, in[k])
		c.Scatter[i] *= 1 + in[k]*0.12*rim*lobes[k]
		mix(c.Rough, i, 0.27+0.03*mid[k], in[k])
		mix(c.Gloss, i, 1.35, in[k])
		mix(c.Stay, i, 0.25, in[k])
	})
	p.arborising(q, qu, in, ulcerated)
	p.nests(q, int(c.between(3, 18)), 0.10, 0.34)
	if ulcerated {
		p.ulcer(qu, R*0.36)
	}
}

// arborising grows the branching vessels of a basal cell carcinoma from its
// rim over the shoulder toward the middle.
func (p *patch) arborising(q, ulcer, in []float32, ulcerated bool) {
	R := p.l.r
	v := p.vessels(30)
	trunks := 5
	if p.has("branching_vessels") {
		trunks = 7
	}
	for i := range trunks {
		a := (float32(i) + 0.35*v.r.normal()) * 6.2831853 / float32(trunks)
		v.grow(walk{
			x: R * 1.02 * cos32(a), y: R * 1.0 * sin32(a), angle: a + 3.14159 + 0.5*v.r.normal(),
			width: v.r.between(0.06, 0.115) * clamp(R/3.4, 0.75, 1.3), length: R * v.r.between(0.7, 1.25), curl: 0.85, branch: 0.9, pull: 0.30,
			taper: 0.72, depth: 4, inside: func(x, y float32) bool { return x*x+y*y < 1.4*R*R },
		})
	}
	m := p.plane()
	for k := range m {
		m[k] = in[k] + (1-in[k])*0.5
		if ulcerated {
			m[k] *= smooth(0.85, 1.05, ulcer[k])
		}
	}
	v.apply(m, vesselLook{blood: 0.17, oxygen: 0.88, epidermis: 0.55, haze: 0.018, dim: 0.9, stay: 0.15})
}

// nests adds pigment: most of it deep, blue-grey and soft-edged, some at the
// surface, brown and sharp.
func (p *patch) nests(q []float32, n int, rMin, rMax float32) {
	c := p.c
	if p.has("irregular_pigment") || p.has("many_colours") {
		n += 9
	}
	k := clamp(p.l.r/3.4, 0.5, 1.6)
	deep := p.plane()
	r := p.rng(40)
	warp := p.noise(41, 0.35, 2)
	for _, s := range p.spots(42, n, 0.3*k, 0.86, rMin*k, rMax*k) {
		strength, below, squash := r.between(0.9, 2.3), r.unit() < 0.7, r.between(0.7, 1.4)
		brown := r.between(0.08, 0.24)
		p.disc(s.x, s.y, 2.2*s.r, func(j int, dx, dy, _ float32) {
			d := sqrt32(dx*dx*squash+dy*dy/squash) / s.r * (1 + 0.28*warp[j])
			w := 1 - smooth(0.3, 1.3, d)
			if below {
				deep[j] = max(deep[j], w*strength)
				return
			}
			i := (p.row+j/p.w)*c.w + p.col + j%p.w
			c.Melanin[i] += w * brown
		})
	}
	deep = p.blur(deep, 0.07)
	p.each(func(k, i int, _, _ float32) { c.Deep[i] += deep[k] * smooth(1.05, 0.85, q[k]) })
}

// ulcer opens the surface inside a blob: a raw red bed under a scab that has
// crept from one side, with an oozing edge.
func (p *patch) ulcer(qu []float32, radius float32) {
	c := p.c
	bed, plate, grain, fine := p.noise(50, 0.35, 3), p.noise(51, 1.2*radius+0.2, 4), p.noise(52, 0.45*radius+0.1, 3), p.noise(53, 0.10, 2)
	crack := p.noise(54, 0.8*radius, 2)
	fresh := p.has("bleeding")
	p.each(func(k, i int, _, _ float32) {
		in := smooth(1.06, 0.84, qu[k])
		if in == 0 {
			return
		}
		c.fill(i, in, body{
			melanin: 0.006, blood: 0.15 + 0.09*bed[k], oxygen: 0.78, scatter: 1, epidermis: 0.15,
			rough: 0.19, gloss: 1.7, stay: 0.6,
		})
		c.Deep[i] *= 1 - in
		c.Height[i] += in * (0.035*bed[k] - 0.06)
		scab := smooth(-0.16, 0.10, plate[k]+0.42) * smooth(1.0, 0.8, qu[k])
		gap := 0.4 * bell(crack[k]/0.05) * scab
		c.Height[i] += scab*(0.13+0.06*grain[k]+0.018*fine[k]) - 0.07*gap
		tone := crustRed.mix(crustHoney, clamp(0.03+0.10*grain[k]+0.10*bell((qu[k]-0.88)/0.10), 0, 0.25)).times(1.05 + 0.40*grain[k] + 0.15*fine[k])
		if fresh {
			tone = tone.mix(bloodDry, 0.55)
		}
		c.cover(i, 0.93*scab, tone.times(1-0.6*gap))
		mix(c.Rough, i, 0.38, scab)
		mix(c.Gloss, i, 0.9, scab)
		if fresh {
			w := in * (1 - scab) * smooth(-0.2, 0.3, bed[k])
			c.cover(i, 0.8*w, bloodFresh)
			mix(c.Rough, i, 0.13, w)
		}
	})
}
