package skin

// paintGranuloma draws a pyogenic granuloma: a raw-meat red, wet, quickly grown
// knob inside a collar of horny scale, often with a scab or fresh blood.
func paintGranuloma(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(p.raised(0.9*R), 1.4*R)
	q := p.blob(2, outline{r: R * 0.86, wave: 0.09, ripple: 0.02, lobes: 1.3, aspect: 1.1, turn: r.between(0, 3)})
	in := mask(q, 0.93, 1.01)
	p.flatten(mask(q, 1.15, 1.35), 0.8)
	size := 0.55*R + 0.1
	seed := uint32(p.l.seed >> 6)
	warp := p.noise(3, size, 2)
	lobe := p.plane()
	p.eachCell(seed, 0.9, 1.3, q, func(k int, x, y float32) (u, v float32) {
		return x/size + 0.2*warp[k], y/size - 0.2*warp[k]
	}, func(k int, cl cell) { lobe[k] = max(1-1.4*cl.near*cl.near, 0) })
	lobe = p.blur(lobe, 0.10*size)
	deep, fine, grain := p.noise(4, 0.7*R, 3), p.noise(5, 0.18, 3), p.noise(6, 0.45, 3)
	rail := p.noise(7, 0.9*R, 2)
	p.each(func(k, i int, _, _ float32) {
		// The collar: a thin ring of peeling horn at the foot.
		collar := bell((q[k] - 1.10) / 0.075)
		c.Height[i] += 0.11*collar*(1+0.4*grain[k]) - 0.08*bell((q[k]-1.02)/0.04)
		c.cover(i, 0.62*collar*clamp(0.8+0.5*grain[k], 0.2, 1), hornSilver)
		c.Blood[i] *= 1 + 0.6*bell((q[k]-1.2)/0.2)*(1-in[k])
		if in[k] == 0 {
			return
		}
		top := sqrt32(max(1-q[k]*q[k]*q[k], 0))
		c.Height[i] += in[k] * (H*(0.25+0.75*top) + 0.16*R*(lobe[k]-0.4) + 0.016*fine[k] + 0.012*grain[k])
		white := bell(rail[k]/0.07) * 0.4
		c.fill(i, in[k], body{
			melanin: c.skin.melanin * 0.08, blood: clamp(0.27+0.12*deep[k]+0.06*fine[k]-0.15*white, 0.08, 0.8), oxygen: 0.88 - 0.12*deep[k],
			scatter: 0.9 + 0.5*white, epidermis: 0.1, rough: 0.19 + 0.03*fine[k], gloss: 1.6, stay: 0.55,
		})
	})
	p.ooze(q, p.has("bleeding") && !c.dry, p.has("ulcerated"))
}

// ooze puts dried crust and fresh blood on a raw lump.
func (p *patch) ooze(q []float32, fresh, eroded bool) {
	c := p.c
	R := p.l.r
	patch1, grain := p.noise(20, 0.9*R, 3), p.noise(21, 0.3, 3)
	least := float32(0.62)
	if eroded {
		least = 0.0
	}
	p.each(func(k, i int, x, y float32) {
		crust := smooth(least, least+0.3, patch1[k]+0.12*grain[k]) * smooth(1.0, 0.85, q[k])
		c.Height[i] += crust * (0.10 + 0.05*grain[k])
		c.cover(i, 0.9*crust, crustRed.mix(crustHoney, clamp(0.15+0.2*grain[k], 0, 0.5)).times(1+0.4*grain[k]))
		mix(c.Rough, i, 0.4, crust)
		if !fresh {
			return
		}
		// Blood wells up over one side and runs down to the foot.
		run := smooth(0.15, -0.35, patch1[k]+0.1*grain[k]-0.25*y/R) * smooth(1.22, 1.12, q[k]+0.05*grain[k])
		c.Height[i] += 0.05 * run
		c.cover(i, 0.9*run, bloodFresh)
		mix(c.Rough, i, 0.12, run)
		mix(c.Gloss, i, 1.9, run)
		mix(c.Stay, i, 1, run)
	})
}
