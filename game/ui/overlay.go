package ui

import (
	"image/color"
	"math"
)

func (n Overlay) kind() string                                { return "Overlay" }
func (n Overlay) widths(*canvas) (float64, float64)           { return 0, 0 }
func (n Overlay) heights(*canvas, float64) (float64, float64) { return 0, 0 }

// float puts the dialog above everything placed so far.
func (n Overlay) float(c *canvas, r Rect) {
	c.layer = 1
	c.frame.Layers = 2
	p := c.theme.Color(Paper)
	const a = 0.78
	v := func(x uint8) uint8 { return uint8(math.Round(float64(x) * a)) }
	veil := color.RGBA{v(p.R), v(p.G), v(p.B), 199}
	c.add(FillRect{Rect: r, Color: veil})
	w := n.Width
	if w == 0 {
		w = 560
	}
	w = math.Min(w*c.scale, r.W-2*bodyEdge)
	sheet := n.sheet()
	h := math.Min(wanted(c, sheet, w), r.H-2*bodyEdge)
	at := Rect{math.Round(r.X + (r.W-w)/2), math.Round(r.Y + (r.H-h)/2), w, h}
	c.put(n, at)
}

func (n Overlay) sheet() Node {
	return Sheet{Pad: PadXY(32, 24), Child: Column{Gap: 16, Children: []Node{
		Text{Text: n.Title, Role: Heading},
		Grow(Scroll{ID: n.ID, Child: n.Child}),
	}}}
}

func (n Overlay) place(c *canvas, r Rect) { c.put(n.sheet(), r) }

func (n Overlay) access() []Access {
	return []Access{{Role: "dialog", ID: n.ID, Name: n.Title, Children: accessAll([]Node{n.Child})}}
}

func (n Toast) kind() string { return "Toast" }

func (n Toast) text() Node {
	return Column{Pad: PadXY(10, 3), Children: []Node{Text{Text: n.Text, Role: Small, Color: Ink, MaxW: -1}}}
}

func (n Toast) widths(c *canvas) (float64, float64) { return n.text().widths(c) }

func (n Toast) heights(c *canvas, w float64) (float64, float64) { return n.text().heights(c, w) }

func (n Toast) access() []Access { return []Access{{Role: "status", Name: n.Text}} }

func (n Toast) place(c *canvas, r Rect) {
	c.fill(r, corner, Wash)
	c.put(n.text(), r)
}
