package skin

// paintKeloid draws a keloid: a firm smooth shiny growth of scar that spreads
// past the wound with claw-like arms.
func paintKeloid(p *patch) { p.scarMass(true) }

// paintHypertrophic draws a hypertrophic scar: a raised pink ridge that keeps
// to the line of the wound.
func paintHypertrophic(p *patch) { p.scarMass(false) }

func (p *patch) scarMass(claws bool) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.22*R), 0.6*R)
	turn := r.between(-0.5, 0.5)
	ca, sa := cos32(turn), sin32(turn)
	// A mass of its own shape, with arms that reach into the skin beyond it.
	o := outline{r: 0.72 * R, wave: 0.16, ripple: 0.05, lobes: 1.7, aspect: 1.75, turn: turn}
	arms, soft0, full := 6, float32(0.035*R), float32(0.90)
	if !claws {
		o = outline{r: 0.44 * R, wave: 0.05, ripple: 0.05, lobes: 2.2, aspect: 5, turn: turn}
		arms, full = 0, 0.5
		H = min(H, 0.13*R)
	}
	q := p.blob(2, o)
	v0 := p.vessels(3)
	for i := range arms {
		a := float32(i)*1.047 + 0.4*r.normal()
		x, y := 0.80*R*cos32(a), 0.36*R*sin32(a)
		v0.grow(walk{
			x: x*ca - y*sa, y: x*sa + y*ca, angle: a + turn + 0.4*r.normal(), width: r.between(0.16, 0.26) * R,
			length: r.between(0.16, 0.34) * R, curl: 0.3, taper: 0.85,
		})
	}
	arm := p.blur(v0.f, soft0)
	in, rise := p.plane(), p.plane()
	for k := range in {
		t := clamp((1.04-q[k])/full, 0, 1)
		in[k] = max(smooth(1.06, 0.92, q[k]), smooth(0.15, 0.6, arm[k]))
		rise[k] = max(sqrt32(t*(2-t)), 0.42*arm[k])
	}
	rise = p.blur(rise, 0.03*R)
	nodes := p.noise(4, 0.40*R+0.2, 3)
	p.flatten(in, 0.96)
	stretch, soft, fine := p.fbmXY(p.l.seed+9, 1.8*ca*ca+0.5, 1.8*sa*sa+0.5, 3, 0.5), p.noise(4, 0.35*R, 3), p.noise(5, 0.22, 2)
	red, tint, shine := c.between(0.055, 0.065), c.between(1.05, 1.35), float32(1.1)
	if !claws {
		red, tint, shine = 0.056, c.between(0.95, 1.2), 0.8
	}
	p.each(func(k, i int, _, _ float32) {
		c.Blood[i] *= 1 + 0.45*smooth(1.4, 1.0, q[k])*(1-in[k])
		if in[k] == 0 {
			return
		}
		t := rise[k]
		c.Height[i] += H*t*(0.88+0.14*nodes[k]) + in[k]*(0.05*H*soft[k]+0.020*stretch[k]+0.004*fine[k])
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * tint * (1 + 0.16*soft[k]), blood: red * (1 + 0.25*soft[k] - 0.30*t), oxygen: 0.70, scatter: 0.95 + 0.15*stretch[k],
			epidermis: 0.85, rough: 0.31 + 0.02*stretch[k], gloss: shine, stay: 0.35,
		})
	})
	v := p.vessels(6)
	for _, s := range p.spots(7, 9, 0.2*R, 0.6, 0, 0) {
		v.grow(walk{x: s.x, y: s.y, angle: turn + v.r.normal(), width: 0.08, length: R * v.r.between(0.15, 0.35), curl: 0.5, branch: 0.3, taper: 0.6, depth: 1})
	}
	v.apply(in, vesselLook{blood: 0.13, oxygen: 0.75, epidermis: 0.85, haze: 0.01, dim: 1, stay: 0.1})
}
