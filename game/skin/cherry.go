package skin

// paintCherry draws a cherry angioma: a razor-sharp bright red dome of packed
// blood spaces with pale bands between some of them, smooth and shiny.
func paintCherry(p *patch) {
	c := p.c
	R := p.l.r
	H := p.raised(0.40 * R)
	q := p.blob(1, outline{r: R, wave: 0.055, ripple: 0.02, lobes: 0.9, aspect: 1.06, turn: p.rng(2).between(0, 3)})
	in := mask(q, 0.93, 1.02)
	p.flatten(in, 0.95)
	size := clamp(0.30*R, 0.25, 0.7)
	warpX, warpY := p.noise(3, size*1.4, 2), p.noise(4, size*1.4, 2)
	gate, depth, fine := p.noise(5, 1.6*size, 2), p.noise(6, 2.2*size, 3), p.noise(7, 0.25, 2)
	seed := uint32(p.l.seed >> 11)
	lobe, pool, tone := p.plane(), p.plane(), p.plane()
	p.eachCell(seed, 0.95, 1.15, q, func(k int, x, y float32) (u, v float32) {
		return x/size + 0.45*warpX[k], y/size + 0.45*warpY[k]
	}, func(k int, cl cell) {
		lobe[k] = max(1-1.5*cl.near*cl.near, 0)
		pool[k] = smooth(0, 0.30, cl.edge) * smooth(-0.55, 0.45, gate[k])
		tone[k] = low16(cl.id)
	})
	pool, lobe = p.blur(pool, 0.05), p.blur(lobe, 0.06)
	p.each(func(k, i int, _, _ float32) {
		d := dome(q[k])
		c.Height[i] += H*d + in[k]*(0.11*size*lobe[k]*d+0.006*fine[k]) - 0.045*bell((q[k]-1.05)/0.07)
		// A halo of fuller skin vessels, then the body itself.
		c.Blood[i] *= 1 + 0.45*bell((q[k]-1.02)/0.16)*(1-in[k])
		if in[k] == 0 {
			return
		}
		dark := smooth(0.72, 0.98, tone[k]) * pool[k]
		c.fill(i, in[k], body{
			melanin:   c.skin.melanin * 0.30,
			blood:     clamp(0.24+0.15*pool[k]+0.08*depth[k]+0.04*fine[k]+0.16*dark+0.08*smooth(0.7, 1, q[k]), 0.09, 0.8),
			oxygen:    clamp(0.95-0.05*depth[k]-0.34*dark, 0.35, 0.97),
			scatter:   0.96 - 0.16*pool[k],
			epidermis: 0.10,
			rough:     0.20 + 0.03*fine[k],
			gloss:     1.5,
			stay:      0.14 + 0.12*pool[k] + 0.3*dark,
		})
	})
}
