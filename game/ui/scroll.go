package ui

import (
	"image/color"
	"math"
)

// leastScroll is the least height, at text size 100 %, in which a scrolled part
// is still of use.
const leastScroll = 160

func (n Scroll) kind() string { return "Scroll" }

func (n Scroll) widths(c *canvas) (float64, float64) {
	if isNil(n.Child) {
		return 0, 0
	}
	return n.Child.widths(c)
}

func (n Scroll) heights(c *canvas, w float64) (float64, float64) {
	if isNil(n.Child) {
		return 0, 0
	}
	_, want := n.Child.heights(c, w)
	return math.Min(want, leastScroll*c.scale), want
}

func (n Scroll) place(c *canvas, r Rect) {
	if isNil(n.Child) {
		return
	}
	_, want := n.Child.heights(c, r.W)
	c.scrolled(n.ID, r, math.Max(want, r.H), 0, func(at Rect) { c.put(n.Child, at) })
}

// scrolled shows a window of height r.H on content of the given height. side is
// how far right of r the position bar stands. The clip is wider than the window
// by the reach of a focus ring.
func (c *canvas) scrolled(id string, r Rect, content, side float64, draw func(at Rect)) {
	over := math.Max(0, content-r.H)
	off := math.Max(0, math.Min(c.st.Scroll[id], over))
	c.frame.Areas = append(c.frame.Areas, Area{id, r, content, c.scroll, c.layer})
	if over < 0.5 {
		draw(Rect{r.X, r.Y, r.W, math.Max(content, r.H)})
		return
	}
	saved := c.scroll
	c.scroll = id
	around := 6.0
	if side > 0 {
		around = pageEdge
	}
	reach := Rect{r.X - around, r.Y, r.W + 2*around, r.H}
	c.clipped(reach, func() { draw(Rect{r.X, r.Y - off, r.W, content}) })
	c.scroll = saved
	if off > 0.5 {
		c.veil(Rect{reach.X, r.Y, reach.W, veilHeight}, false)
	}
	if off < over-0.5 {
		c.veil(Rect{reach.X, r.Y + r.H - veilHeight, reach.W, veilHeight}, true)
	}
	c.scrollBar(Rect{r.X + r.W + side + 2, r.Y, 4, r.H}, off, content)
}

// veilHeight is how far what runs on out of sight fades at the edge.
const veilHeight = 20

// veil lets what runs on out of sight fade into the ground, so that a line cut
// in half reads as more to come.
func (c *canvas) veil(r Rect, down bool) {
	const bands = 10
	ground := c.theme.Color(c.ground)
	for i := range bands {
		strength := float64(i+1) / bands * 0.94
		at := Rect{r.X, r.Y + float64(i)*r.H/bands, r.W, r.H / bands}
		if !down {
			at.Y = r.Y + r.H - float64(i+1)*r.H/bands
		}
		part := func(v uint8) uint8 { return uint8(math.Round(float64(v) * strength)) }
		c.add(FillRect{at, 0, color.RGBA{part(ground.R), part(ground.G), part(ground.B), part(255)}})
	}
}

// scrollBar shows where in the content the window stands.
func (c *canvas) scrollBar(r Rect, off, content float64) {
	h := math.Max(24, r.H*r.H/content)
	y := r.Y + (r.H-h)*off/(content-r.H)
	c.fill(Rect{r.X, y, r.W, h}, r.W/2, Hairline)
}

func (n Scroll) access() []Access { return accessAll([]Node{n.Child}) }
