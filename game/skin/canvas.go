package skin

import "hash/fnv"

// canvas is a picture being made: the fields, and what every layer asks about
// the patient and the place.
type canvas struct {
	*Fields
	s    Subject
	exam Exam
	site site
	skin tissue  // plain skin of this patient at this site
	dark float32 // 0 on skin type 2, 1 on type 5, by the logarithm of the melanin
	age  float32 // years
	dry  bool    // free blood is left out: on the bench it is the treatment's
}

func newCanvas(s Subject, v View) *canvas {
	px := float32(v.ShownMM()) / float32(v.SizePx)
	edge := -float32(v.ShownMM())/2 + px/2
	g := grid{w: v.SizePx, h: v.SizePx, px: px, x0: edge, y0: edge}
	place := siteOf(s.Site)
	t := plainTissue(s.SkinType)
	t.melanin = min(t.melanin*place.melanin, 0.5)
	t.blood *= place.blood
	return &canvas{
		Fields: newFields(g, t),
		s:      s,
		exam:   v.Exam,
		site:   place,
		skin:   t,
		dark:   clamp(log32(t.melanin/0.0096)/log32(0.086/0.0096), -0.7, 1.45),
		age:    float32(s.AgeYears),
	}
}

// seed gives the random seed of one named layer of this picture.
func (c *canvas) seed(layer string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(layer))
	return mix64(c.s.Seed ^ h.Sum64())
}

func (c *canvas) rng(layer string) *rng { return newRNG(c.seed(layer), 1) }

// between picks a melanin fraction (or another positive figure) for this
// patient between the ones for light (type 2) and dark (type 5) skin.
func (c *canvas) between(light, dark float32) float32 {
	return light * exp32(c.dark*log32(dark/light))
}

// scatter visits points spread evenly at random over the picture and a margin
// around it, mm. A point and its random numbers depend on the seed and its
// place alone, so a closer view shows the same points larger.
func (g grid) scatter(seed uint64, perCM2, margin float32, fn func(x, y float32, r *rng)) {
	if perCM2 <= 0 {
		return
	}
	side := 10 / sqrt32(perCM2)
	x0, y0 := floor32((g.x0-margin)/side), floor32((g.y0-margin)/side)
	x1, y1 := floor32((g.x(g.w-1)+margin)/side), floor32((g.y(g.h-1)+margin)/side)
	for cy := y0; cy <= y1; cy++ {
		for cx := x0; cx <= x1; cx++ {
			r := &rng{state: mix64(seed ^ mix64(uint64(uint32(cx))<<32|uint64(uint32(cy))))}
			x := (float32(cx) + 0.12 + 0.76*r.unit()) * side
			y := (float32(cy) + 0.12 + 0.76*r.unit()) * side
			fn(x, y, r)
		}
	}
}

// disc visits the pixels within radius mm of x, y: i is the pixel, dx and dy
// its offset in mm, d its distance.
func (g grid) disc(x, y, radius float32, fn func(i int, dx, dy, d float32)) {
	x0, x1 := g.span(x, radius, g.x0, g.w)
	y0, y1 := g.span(y, radius, g.y0, g.h)
	for row := y0; row < y1; row++ {
		dy := g.y(row) - y
		for col := x0; col < x1; col++ {
			dx := g.x(col) - x
			if d := sqrt32(dx*dx + dy*dy); d <= radius {
				fn(row*g.w+col, dx, dy, d)
			}
		}
	}
}

// span gives the pixels of one axis that lie within radius of x.
func (g grid) span(x, radius, origin float32, n int) (from, to int) {
	a := int(clamp((x-radius-origin)/g.px, -1, float32(n)) + 1)
	b := int(clamp((x+radius-origin)/g.px, -1, float32(n)) + 1)
	return min(a, n), min(b, n)
}
