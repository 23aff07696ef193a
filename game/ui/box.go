package ui

import "math"

func (n Box) kind() string { return "Box" }

func (n Box) px(c *canvas, v float64) float64 {
	if n.Scale {
		return v * c.scale
	}
	return v
}

func (n Box) widths(c *canvas) (least, want float64) {
	if !isNil(n.Child) {
		least, want = n.Child.widths(c)
	}
	if n.Width > 0 {
		w := n.px(c, n.Width)
		return w, w
	}
	if m := n.px(c, n.MinW); m > 0 {
		least, want = math.Max(least, m), math.Max(want, m)
	}
	if m := n.px(c, n.MaxW); m > 0 {
		least, want = math.Min(least, m), math.Min(want, m)
	}
	return least, want
}

func (n Box) heights(c *canvas, w float64) (least, want float64) {
	if n.Height > 0 {
		h := n.px(c, n.Height)
		return h, h
	}
	if !isNil(n.Child) {
		least, want = n.Child.heights(c, n.childWidth(c, w))
	}
	h := n.px(c, n.MinH)
	return math.Max(least, h), math.Max(want, h)
}

func (n Box) childWidth(c *canvas, w float64) float64 {
	if m := n.px(c, n.MaxW); m > 0 {
		w = math.Min(w, m)
	}
	if n.Align == Stretch || isNil(n.Child) {
		return w
	}
	_, want := n.Child.widths(c)
	return math.Min(want, w)
}

func (n Box) place(c *canvas, r Rect) {
	if isNil(n.Child) {
		return
	}
	w := n.childWidth(c, r.W)
	x, w := across(n.Align, r.W, w)
	if m := n.px(c, n.MaxW); m > 0 {
		w = math.Min(w, m)
	}
	y, h := 0.0, r.H
	if n.Align == Middle || n.Align == End {
		_, want := n.Child.heights(c, w)
		y, h = across(n.Align, r.H, want)
	}
	c.put(n.Child, Rect{r.X + x, r.Y + y, w, h})
}

func (n Box) access() []Access { return accessAll([]Node{n.Child}) }

func (n Spacer) kind() string                                { return "Spacer" }
func (n Spacer) widths(*canvas) (float64, float64)           { return 0, 0 }
func (n Spacer) heights(*canvas, float64) (float64, float64) { return n.Size, n.Size }
func (n Spacer) place(*canvas, Rect)                         {}
func (n Spacer) access() []Access                            { return nil }

func (n Rule) kind() string                                { return "Rule" }
func (n Rule) widths(*canvas) (float64, float64)           { return 0, 0 }
func (n Rule) heights(*canvas, float64) (float64, float64) { return 1, 1 }
func (n Rule) place(c *canvas, r Rect)                     { c.fill(r, 0, Hairline) }
func (n Rule) access() []Access                            { return nil }

func (n Sheet) kind() string { return "Sheet" }

func (n Sheet) widths(c *canvas) (least, want float64) {
	if !isNil(n.Child) {
		least, want = n.Child.widths(c)
	}
	edge := n.Pad.Left + n.Pad.Right
	return least + edge, want + edge
}

func (n Sheet) heights(c *canvas, w float64) (least, want float64) {
	if !isNil(n.Child) {
		least, want = n.Child.heights(c, math.Max(0, w-n.Pad.Left-n.Pad.Right))
	}
	edge := n.Pad.Top + n.Pad.Bottom
	return least + edge, want + edge
}

func (n Sheet) place(c *canvas, r Rect) {
	c.fill(r, corner, SheetWhite)
	c.border(r, corner, Hairline)
	c.on(SheetWhite, func() { c.put(n.Child, r.Inset(n.Pad)) })
}

func (n Sheet) access() []Access { return accessAll([]Node{n.Child}) }
