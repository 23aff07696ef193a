package ui

import "math"

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
	c.scrollBar(Rect{r.X + r.W + side + 2, r.Y, 4, r.H}, off, content)
}

// scrollBar shows where in the content the window stands.
func (c *canvas) scrollBar(r Rect, off, content float64) {
	h := math.Max(24, r.H*r.H/content)
	y := r.Y + (r.H-h)*off/(content-r.H)
	c.fill(Rect{r.X, y, r.W, h}, r.W/2, Hairline)
}

func (n Scroll) access() []Access { return accessAll([]Node{n.Child}) }
