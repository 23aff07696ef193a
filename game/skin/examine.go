package skin

// examine changes the fields as the examination does.
func examine(c *canvas) {
	switch c.exam {
	case ExamPressed:
		press(c)
	case ExamPinched:
		pinch(c)
	}
}

// press lays a glass slide on the skin: blood that can leave does, the surface
// is pressed flat, and the glass has a shine of its own.
func press(c *canvas) {
	low := c.blur(c.Height, 1.0)
	least := min(0.85*c.skin.blood*plainStay, 0.01)
	c.rows(func(y0, y1 int) {
		for row := y0; row < y1; row++ {
			for col := range c.w {
				i := row*c.w + col
				h := c.Height[i]
				// Lumps are squeezed to a low pad; fine lines nearly vanish.
				pad := low[i] / (1 + 1.6*max(low[i], 0))
				c.Height[i] = pad*0.35 + (h-low[i])*0.22
				// An emptied vessel looks like the pressed skin beside it, not paler.
				c.Blood[i] = max(c.Blood[i]*c.Stay[i], least)
				c.Deep[i] *= min(1, c.Stay[i]/0.25)
				c.Oxygen[i] *= 0.85 + 0.15*c.Stay[i]
				c.Rough[i] = 0.30
				// The lamp in the glass: a wide soft band across one corner.
				band := smooth(0.62, 0.30, abs32((c.x(col)+c.y(row))/(float32(c.w)*c.px)+0.74))
				c.Gloss[i] = 0.25
				c.cover(i, 0.035*band, rgb{0.95, 0.97, 1})
			}
		}
	})
}

// pinch squeezes from left and right: the skin rises in a ridge with fine
// upright folds and pales on its crest. What is bound down deep is drawn
// inward instead; its painter says so by its own relief.
func pinch(c *canvas) {
	span := float32(c.w) * c.px
	ridge := 0.20 * span
	folds := c.fbmXY(c.seed("pinch"), 0.12*span, 0.40*span, 3, 0.5)
	c.rows(func(y0, y1 int) {
		for row := y0; row < y1; row++ {
			for col := range c.w {
				i := row*c.w + col
				x := c.x(col)
				k := bell(x / (1.6 * ridge))
				side := 1 - bell(x/(1.1*ridge))
				c.Height[i] += 0.10*span*k*min(1, 12/span) + 0.009*span*min(1, 16/span)*folds[i]*(0.15+0.85*side)
				c.Blood[i] *= 1 - 0.25*k
			}
		}
	})
}
