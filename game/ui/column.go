package ui

import "math"

func (n Column) kind() string { return "Column" }

func (n Column) widths(c *canvas) (least, want float64) {
	for _, ch := range present(n.Children) {
		l, w := ch.widths(c)
		least, want = math.Max(least, l), math.Max(want, w)
	}
	edge := n.Pad.Left + n.Pad.Right
	return least + edge, want + edge
}

func (n Column) heights(c *canvas, w float64) (least, want float64) {
	kids := present(n.Children)
	l, g := n.lengths(c, kids, w)
	for i := range l {
		least += l[i]
		want += g[i]
	}
	edge := n.Pad.Top + n.Pad.Bottom + n.Gap*float64(max(0, len(kids)-1))
	return least + edge, want + edge
}

// lengths gives the least and wanted heights of the children at the column's
// width.
func (n Column) lengths(c *canvas, kids []Node, w float64) (least, want []float64) {
	inner := math.Max(0, w-n.Pad.Left-n.Pad.Right)
	for _, ch := range kids {
		if s, ok := ch.(Spacer); ok {
			least, want = append(least, s.Size), append(want, s.Size)
			continue
		}
		l, g := ch.heights(c, n.childWidth(c, ch, inner))
		least, want = append(least, l), append(want, g)
	}
	return least, want
}

func (n Column) childWidth(c *canvas, ch Node, inner float64) float64 {
	if n.Align == Stretch {
		return inner
	}
	_, want := ch.widths(c)
	return math.Min(want, inner)
}

func (n Column) place(c *canvas, r Rect) {
	kids := present(n.Children)
	in := r.Inset(n.Pad)
	least, want := n.lengths(c, kids, r.W)
	grow := make([]float64, len(kids))
	for i, ch := range kids {
		grow[i] = growOf(ch)
	}
	hs := share(in.H-n.Gap*float64(max(0, len(kids)-1)), least, want, grow)
	y := in.Y
	for i, ch := range kids {
		x, w := across(n.Align, in.W, n.childWidth(c, ch, in.W))
		c.put(ch, Rect{in.X + x, y, w, hs[i]})
		y += hs[i] + n.Gap
	}
}

func (n Column) access() []Access { return accessAll(n.Children) }
