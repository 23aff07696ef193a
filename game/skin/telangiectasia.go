package skin

// paintTelangiectasia draws fine widened surface vessels of the face: red and
// red-violet threads on flat skin that is a little flushed.
func paintTelangiectasia(p *patch) {
	c := p.c
	R := p.l.r
	blush, patchy := p.noise(1, 0.9*R+1, 3), p.noise(2, 1.4, 3)
	p.each(func(k, i int, x, y float32) {
		d := sqrt32(x*x+y*y) / (1.15 * R)
		w := smooth(1.25, 0.1, d+0.35*blush[k])
		c.Blood[i] *= 1 + (0.55+0.3*patchy[k])*w
		mix(c.Oxygen, i, 0.88, 0.9*w)
	})
	count := clamp(float32(c.s.Count), 1, 12)
	if count < 3 {
		count += 2
	}
	v := p.vessels(3)
	main := v.r.between(0, 6.2832)
	inside := func(x, y float32) bool { return x*x+y*y < 1.5*R*R }
	for i := range int(count) {
		a := main + 0.35*v.r.normal()
		across := (float32(i)+0.5-count/2)*1.5*R/count + 0.1*R*v.r.normal()
		x, y := -R*0.9*cos32(a)-across*sin32(main), -R*0.9*sin32(a)+across*cos32(main)
		v.grow(walk{
			x: x, y: y, angle: a, width: v.r.between(0.10, 0.22), length: R * v.r.between(1.1, 2.1),
			curl: 0.5, branch: 0.24, taper: 0.45, depth: 3, inside: inside,
		})
	}
	v.apply(nil, vesselLook{blood: 0.24, oxygen: 0.84, epidermis: 0.65, haze: 0.030, dim: 0.8, stay: 0.02})
	// Finer, bluer ones in between.
	w := p.vessels(4)
	for range int(count) {
		a := w.r.between(0, 6.2832)
		d := R * sqrt32(w.r.unit())
		w.grow(walk{
			x: d * cos32(a), y: d * sin32(a), angle: w.r.between(0, 6.2832), width: w.r.between(0.05, 0.11),
			length: R * w.r.between(0.3, 0.9), curl: 1.0, branch: 0.4, taper: 0.5, depth: 2, inside: inside,
		})
	}
	w.apply(nil, vesselLook{blood: 0.10, oxygen: 0.62, epidermis: 0.85, haze: 0.015, dim: 1, stay: 0.02})
}

// paintSpider draws a spider angioma: a small red raised hub, fine legs that
// run outward and divide, a blush around them.
func paintSpider(p *patch) {
	c := p.c
	R := p.l.r
	hub := clamp(0.13*R, 0.22, 0.6)
	blush := p.noise(1, 0.6*R+0.5, 3)
	p.each(func(k, i int, x, y float32) {
		d := sqrt32(x*x+y*y) / R
		w := smooth(1.2, 0.05, d+0.22*blush[k])
		c.Blood[i] *= 1 + 0.9*w
		mix(c.Oxygen, i, 0.90, 0.9*w)
	})
	v := p.vessels(2)
	legs := 8 + int(6*v.r.unit())
	for i := range legs {
		a := (float32(i) + 0.55*v.r.normal()*0.5) * 6.2831853 / float32(legs)
		v.grow(walk{
			x: hub * 0.6 * cos32(a), y: hub * 0.6 * sin32(a), angle: a + 0.3*v.r.normal(),
			width: v.r.between(0.065, 0.115) * clamp(R/3, 0.7, 1.5), length: R * v.r.between(0.55, 1.12), curl: 0.6,
			branch: 0.45, taper: 0.68, depth: 3,
			inside: func(x, y float32) bool { return x*x+y*y < 1.5*R*R },
		})
	}
	v.apply(nil, vesselLook{blood: 0.16, oxygen: 0.90, epidermis: 0.62, haze: 0.035, dim: 0.45, stay: 0.01})
	q := p.blob(3, outline{r: hub, wave: 0.10, lobes: 0.9})
	in := mask(q, 0.75, 1.15)
	p.flatten(in, 0.8)
	h := p.raised(0.16)
	fine := p.noise(4, 0.2, 2)
	p.each(func(k, i int, _, _ float32) {
		if in[k] == 0 {
			return
		}
		c.Height[i] += min(h, 0.55*hub) * smooth(1.15, 0.2, q[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * 0.6, blood: 0.30 + 0.06*fine[k], oxygen: 0.92, scatter: 0.9,
			epidermis: 0.35, rough: 0.28, gloss: 1.0, stay: 0.25,
		})
	})
}
