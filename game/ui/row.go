package ui

import "math"

func (n Row) kind() string { return "Row" }

func (n Row) widths(c *canvas) (least, want float64) {
	kids := present(n.Children)
	for _, ch := range kids {
		l, w := widthIn(c, ch)
		if n.Wrap {
			least = math.Max(least, l)
		} else {
			least += l
		}
		want += w
	}
	gaps := n.Gap * float64(max(0, len(kids)-1))
	edge := n.Pad.Left + n.Pad.Right
	if !n.Wrap {
		least += gaps
	}
	return least + edge, want + gaps + edge
}

// widthIn is the width of a child of a row, where a Spacer and a Rule lie along
// the row.
func widthIn(c *canvas, n Node) (least, want float64) {
	switch n := n.(type) {
	case Spacer:
		return n.Size, n.Size
	case Rule:
		return 1, 1
	}
	return n.widths(c)
}

// rowLine is one line of a row: its children and the width of each.
type rowLine struct {
	kids []Node
	ws   []float64
}

// deal puts the children into lines (one, unless the row wraps) and deals out
// each line's width.
func (n Row) deal(c *canvas, w float64) []rowLine {
	kids := present(n.Children)
	if len(kids) == 0 {
		return nil
	}
	var lines []rowLine
	var cur []Node
	used := 0.0
	for _, ch := range kids {
		least, want := widthIn(c, ch)
		if growOf(ch) > 0 {
			want = least // it can do with less before a neighbour leaves the line
		}
		want = math.Min(want, w)
		if n.Wrap && len(cur) > 0 && used+n.Gap+want > w+0.01 {
			if _, ok := ch.(Spacer); ok {
				continue // a line neither ends nor begins with what was between two
			}
			lines = append(lines, n.line(c, cur, w))
			cur, used = nil, 0
		}
		if len(cur) > 0 {
			used += n.Gap
		}
		cur = append(cur, ch)
		used += want
	}
	return append(lines, n.line(c, cur, w))
}

func (n Row) line(c *canvas, kids []Node, w float64) rowLine {
	least, want, grow := make([]float64, len(kids)), make([]float64, len(kids)), make([]float64, len(kids))
	for i, ch := range kids {
		least[i], want[i] = widthIn(c, ch)
		grow[i] = growOf(ch)
	}
	return rowLine{kids, share(w-n.Gap*float64(len(kids)-1), least, want, grow)}
}

func (l rowLine) heights(c *canvas) (least, want float64) {
	for i, ch := range l.kids {
		if _, ok := ch.(Spacer); ok {
			continue
		}
		if _, ok := ch.(Rule); ok {
			continue
		}
		a, b := ch.heights(c, l.ws[i])
		least, want = math.Max(least, a), math.Max(want, b)
	}
	return least, want
}

// lineHeights adds what texts of different size need to stand on one baseline.
func (n Row) lineHeights(c *canvas, l rowLine) (least, want float64) {
	least, want = l.heights(c)
	if n.Align == Baseline {
		above, below := l.extent(c)
		least, want = math.Max(least, above+below), math.Max(want, above+below)
	}
	return least, want
}

func (n Row) heights(c *canvas, w float64) (least, want float64) {
	lines := n.deal(c, math.Max(0, w-n.Pad.Left-n.Pad.Right))
	for _, l := range lines {
		a, b := n.lineHeights(c, l)
		least += a
		want += b
	}
	edge := n.Pad.Top + n.Pad.Bottom + n.LineGap*float64(max(0, len(lines)-1))
	return least + edge, want + edge
}

func (n Row) place(c *canvas, r Rect) {
	in := r.Inset(n.Pad)
	lines := n.deal(c, in.W)
	y := in.Y
	for _, l := range lines {
		_, h := n.lineHeights(c, l)
		if len(lines) == 1 {
			h = in.H
		}
		n.placeLine(c, l, Rect{in.X, y, in.W, h})
		y += h + n.LineGap
	}
}

func (n Row) placeLine(c *canvas, l rowLine, r Rect) {
	base := -1.0
	if n.Align == Baseline {
		if above, below := l.extent(c); above >= 0 {
			base = (r.H-above-below)/2 + above
		}
	}
	x := r.X
	for i, ch := range l.kids {
		if _, ok := ch.(Spacer); !ok {
			_, want := ch.heights(c, l.ws[i])
			a := n.Align
			if _, ok := ch.(Rule); ok {
				a = Stretch
			}
			y, h := across(a, r.H, want)
			if t, ok := ch.(baselined); ok && base >= 0 {
				y = base - t.firstBaseline(c)
			}
			c.put(ch, Rect{x, r.Y + y, l.ws[i], h})
		}
		x += l.ws[i] + n.Gap
	}
}

// baselined nodes can stand on a common first line of text.
type baselined interface {
	// firstBaseline is the distance from the top to the first baseline.
	firstBaseline(c *canvas) float64
}

// extent is how far a line's texts reach above and below a common baseline;
// above is below 0 without text.
func (l rowLine) extent(c *canvas) (above, below float64) {
	above = -1
	for i, ch := range l.kids {
		if t, ok := ch.(baselined); ok {
			_, h := ch.heights(c, l.ws[i])
			b := t.firstBaseline(c)
			above, below = math.Max(above, b), math.Max(below, h-b)
		}
	}
	return above, below
}

func (n Row) access() []Access { return accessAll(n.Children) }
