package ui

import "math"

// capPad is the space beside a key cap's text.
const capPad = 5

func (c *canvas) capStyle() style {
	s := c.style(Small, QuietInk, false, false, false)
	return s
}

func (c *canvas) capWidth(text string) float64 {
	s := c.capStyle()
	return math.Ceil(math.Max(s.width(text)+2*capPad*c.scale, 19*c.scale))
}

// capAtom is a key cap as part of a paragraph.
func (c *canvas) capAtom(text string, around style, span int, before, follows bool) atom {
	s := c.capStyle()
	s.line = around.line
	a := atom{text: text, style: s, span: span, cap: true, space: cling, w: c.capWidth(text)}
	if before && follows {
		a.space = around.width(" ")
	}
	return a
}

// capBox draws a key cap of a paragraph with the pen at x and the baseline at y.
func (c *canvas) capBox(a atom, x, y float64) {
	h := math.Round(20 * c.scale)
	above, below := fontExtent(a.style.font, a.style.size)
	top := math.Round(y - above + (above+below-h)/2)
	c.drawCap(a.style, Rect{x, top, a.w, h}, a.text)
}

func (c *canvas) drawCap(s style, r Rect, text string) {
	c.border(r, 3, Hairline)
	c.text(s, r.X+(r.W-s.width(text))/2, r.Y+s.baseline(r.H), text)
}

// capIn draws a key cap with its right edge at x, centred down in r, and gives
// its width.
func (c *canvas) capIn(r Rect, right float64, text string) float64 {
	w, h := c.capWidth(text), math.Round(20*c.scale)
	c.drawCap(c.capStyle(), Rect{right - w, math.Round(r.Y + (r.H-h)/2), w, h}, text)
	return w
}

func (n Keycap) kind() string { return "Keycap" }

func (n Keycap) widths(c *canvas) (float64, float64) {
	w := c.capWidth(n.Text)
	return w, w
}

func (n Keycap) heights(c *canvas, _ float64) (float64, float64) {
	h := math.Round(20 * c.scale)
	return h, h
}

func (n Keycap) place(c *canvas, r Rect) { c.capIn(r, r.X+r.W, n.Text) }

func (n Keycap) access() []Access { return []Access{{Role: "key", Name: n.Text}} }
