package skin

// flakes are plates of loose horn lying on a lesion.
type flakes struct {
	size  float32 // of a plate, mm
	share float32 // part of the surface covered, 0 to 1
	lift  float32 // of a plate's free edge, mm
	hide  float32 // how opaque
	tone  rgb
}

// scale lays two generations of flakes over a mask, a broad one and crumbs.
// Each flake is thickest at one free edge, which catches the light and throws
// a thin shadow, and thins out to nothing at the other.
func (p *patch) scale(salt uint64, m []float32, w flakes) {
	c := p.c
	broad, crumb := p.noise(salt+1, w.size*1.5, 4), p.noise(salt+2, w.size*0.55, 3)
	group, fine := p.noise(salt+3, w.size*4, 2), p.noise(salt+4, 0.13, 3)
	// Normal noise with a spread near 0.4 is above this level on the share asked.
	// Horn on dark skin is tinted by the melanin it took along.
	tone := w.tone.times(c.between(1, 0.62))
	level := 0.85 * (0.5 - w.share)
	p.each(func(k, i int, _, _ float32) {
		if m[k] == 0 {
			return
		}
		a := broad[k] + 0.35*group[k] - level
		b := crumb[k] + 0.5*group[k] - level - 0.12
		// Sharp where the flake ends, fading inward.
		first := smooth(0, 0.06, a) * (1 - 0.65*smooth(0.05, 0.9, a))
		second := smooth(0, 0.08, b) * (1 - 0.55*smooth(0.05, 0.8, b))
		k1 := m[k] * max(first, 0.8*second)
		c.Height[i] += w.lift * m[k] * (0.9*first + 0.6*second) * (1 + 0.25*fine[k])
		c.cover(i, k1*w.hide*clamp(0.85+0.5*fine[k], 0.2, 1.2), tone.times(1+0.10*fine[k]))
		mix(c.Rough, i, 0.48, k1)
		c.Gloss[i] *= 1 - 0.2*k1
	})
}
