package skin

// paintTag draws a skin tag: a soft, finely wrinkled bag that leans over on a
// narrow stalk, seen from above, with its shadow beside it.
func paintTag(p *patch) {
	c := p.c
	R := p.l.r
	r := p.rng(1)
	H := min(max(p.raised(1.2*R), 0.4*R), 1.7*R)
	lean := r.between(0.2, 1.4)
	ca, sa := cos32(lean), sin32(lean)
	head := p.blob(2, outline{
		r: R * 0.80, wave: 0.13, ripple: 0.03, lobes: 1.3, aspect: r.between(1.08, 1.3), turn: lean + r.between(-0.4, 0.4),
		x: 0.20 * R * ca, y: 0.20 * R * sa,
	})
	lumps, creases := p.noise(3, 0.75*R+0.1, 3), p.noise(4, 0.5*R+0.1, 3)
	fine, mottle, second := p.noise(5, 0.16, 3), p.noise(6, 0.8*R, 3), p.noise(7, 0.26*R+0.05, 2)
	body1, stalk := mask(head, 0.96, 1.02), p.plane()
	p.each(func(k, _ int, x, y float32) {
		u, v := x*ca+y*sa, y*ca-x*sa
		w := 0.24*R + 0.30*R*smooth(-0.35*R, -1.05*R, u)
		stalk[k] = smooth(w*1.2, w*0.5, abs32(v)) * smooth(-1.15*R, -0.55*R, u) * smooth(0.3*R, 0.1*R, u)
	})
	whole := p.plane()
	for k := range whole {
		whole[k] = max(body1[k], stalk[k])
	}
	p.flatten(whole, 0.55)
	tone := c.between(1.7, 1.5)
	twisted := p.has("inflamed") || p.has("bleeding")
	p.each(func(k, i int, x, y float32) {
		if whole[k] == 0 {
			return
		}
		u := x*ca + y*sa
		furrow := (0.55*bell(creases[k]/0.07)*smooth(-0.4, 0.5, lumps[k]) + 0.35*bell(second[k]/0.09)) * smooth(1.02, 0.6, head[k])
		neck := stalk[k] * 0.50 * H * smooth(-1.2*R, 0.1*R, u)
		bag := float32(0)
		if head[k] < 1 {
			q := head[k]
			bag = body1[k] * (0.30*H + 0.70*H*sqrt32(1-q*q) + R*(0.11*lumps[k]*(1-q*q)-0.030*furrow))
		}
		c.Height[i] += max(bag, neck) + whole[k]*0.012*fine[k]
		b := body{
			melanin: c.skin.melanin * tone * exp32(0.16*mottle[k]+0.22*furrow+0.10*fine[k]),
			blood:   c.skin.blood * (1.6 + 0.3*mottle[k] - 0.2*lumps[k]),
			oxygen:  0.70, scatter: 1, epidermis: 0.95, rough: 0.40 + 0.03*fine[k], gloss: 0.85 * (1 - 0.5*furrow), stay: 0.3,
		}
		if twisted {
			b.blood, b.oxygen, b.epidermis, b.stay = 0.36+0.1*mottle[k], 0.25, 0.5, 0.9
		}
		c.fill(i, whole[k], b)
	})
}
