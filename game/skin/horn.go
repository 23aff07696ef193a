package skin

// paintHorn draws a cutaneous horn: a hard ridged cone, yellow at its foot and
// darker toward the tip, that leans over the skin and throws a long shadow.
func paintHorn(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := max(p.raised(2.2*R), 0.8*R)
	lean := r.between(0.1, 1.2)
	bend := 0.5 + 0.5*r.unit()
	far := min(0.85*H, 3.2*R)
	foot := 0.48 * R
	x, y := -0.25*far*cos32(lean), -0.25*far*sin32(lean)
	steps := int(far/max(0.5*c.px, 0.03)) + 20
	top, along, side, cover := p.plane(), p.plane(), p.plane(), p.plane()
	x0, y0 := x, y
	for s := range steps {
		t := float32(s) / float32(steps)
		a := lean + bend*t
		x += cos32(a) * far / float32(steps)
		y += sin32(a) * far / float32(steps)
		w := foot * (1.10 - 0.62*t) * (1 + 0.07*noise2(uint32(p.l.seed>>4), t*far/1.1, 3))
		level := 0.75 * H * t
		ca, sa := cos32(a), sin32(a)
		p.disc(x, y, w, func(j int, dx, dy, d float32) {
			z := level + w*sqrt32(max(1-d*d/(w*w), 0))
			if z > top[j] {
				top[j], along[j], side[j] = z, t, (dy*ca-dx*sa)/w
				cover[j] = smooth(1, 0.9, d/w)
			}
		})
	}
	for j := range cover {
		if top[j] > 0 {
			cover[j] = max(cover[j], smooth(0.05, 0.3, top[j]))
		}
	}
	base := p.blob(2, outline{r: R, wave: 0.08, lobes: 1, x: x0, y: y0})
	p.flatten(mask(base, 0.8, 1.1), 0.8)
	ring, grain, fine := p.noise(3, 0.5, 3), p.noise(4, 0.3, 3), p.noise(5, 0.12, 3)
	hot := float32(0.5)
	if p.has("tender_base") || p.has("indurated") || p.has("inflamed") {
		hot = 2.6
	}
	pitch := clamp(0.12*far, 0.25, 0.7)
	p.each(func(k, i int, _, _ float32) {
		swell := smooth(1.15, 0.6, base[k])
		c.Height[i] += (0.10 + 0.08*hot) * R * swell
		c.Blood[i] *= 1 + hot*smooth(1.35, 0.7, base[k])
		c.Gloss[i] *= 1 - 0.6*swell
		if cover[k] == 0 {
			return
		}
		// Terraces: growth in steps, with fine fibres along the shaft.
		s := along[k]*far/pitch + 0.55*ring[k] + 0.6*side[k]*side[k]
		step := s - float32(floor32(s))
		fibre := noise2(uint32(p.l.seed), side[k]*5, along[k]*far*0.35) + 0.6*noise2(uint32(p.l.seed)+5, side[k]*11, along[k]*far*0.6)
		c.Height[i] += cover[k] * (top[k] + 0.07*pitch*(step-0.5)*(0.5+grain[k]) + 0.02*grain[k] + 0.06*fibre)
		tone := hornYellow.times(0.70).mix(hornBrown, smooth(-0.1, 0.5, along[k]+0.25*grain[k])).mix(hornDark, 0.85*smooth(0.45, 1, along[k]+0.2*grain[k]))
		c.cover(i, 0.95*cover[k], tone.times((1+0.25*fibre+0.12*fine[k])*(0.90+0.14*step)))
		mix(c.Rough, i, 0.42, cover[k])
		mix(c.Gloss, i, 0.8, cover[k])
		mix(c.Stay, i, 1, cover[k])
	})
}
