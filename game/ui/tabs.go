package ui

import "math"

const tabGap = 24

func (n Tabs) kind() string { return "Tabs" }

func (n Tabs) label(c *canvas, i int) style {
	switch {
	case i == n.At:
		return c.style(Quiet, Ink, true, false, false)
	case n.Tabs[i].Off:
		off := c.role(Quiet)
		off.color = mix(off.color, c.theme.Color(c.ground), 0.4)
		return off
	}
	return c.role(Quiet)
}

func (n Tabs) tabWidth(c *canvas, i int) float64 {
	// A tab is as wide as its semibold form, so that nothing moves when one
	// goes there.
	t := n.Tabs[i]
	w := math.Ceil(c.style(Quiet, Ink, true, false, false).width(t.Label))
	if t.Hint != "" {
		w += 6 + c.capWidth(t.Hint)
	}
	return w
}

func (n Tabs) itemWidths(c *canvas) []float64 {
	var ws []float64
	for i := range n.Tabs {
		ws = append(ws, n.tabWidth(c, i))
	}
	if n.Hint != "" {
		ws = append(ws, c.capWidth(n.Hint))
	}
	return ws
}

func (n Tabs) widths(c *canvas) (least, want float64) {
	ws := n.itemWidths(c)
	for _, w := range ws {
		least = math.Max(least, w)
		want += w
	}
	return least, want + tabGap*float64(max(0, len(ws)-1))
}

func (n Tabs) rowHeight(c *canvas) float64 { return math.Max(c.minHit(), 32*c.scale) }

// spots places the tabs (and, last, the common key cap) in rows of width w,
// relative to the top left.
func (n Tabs) spots(c *canvas, w float64) (spots []Rect, height float64) {
	h := n.rowHeight(c)
	x, y := 0.0, 0.0
	for _, iw := range n.itemWidths(c) {
		if x > 0 && x+iw > w+0.01 {
			x, y = 0, y+h
		}
		spots = append(spots, Rect{x, y, iw, h})
		x += iw + tabGap
	}
	return spots, y + h
}

func (n Tabs) heights(c *canvas, w float64) (float64, float64) {
	_, h := n.spots(c, w)
	return h, h
}

func (n Tabs) firstBaseline(c *canvas) float64 { return c.role(Quiet).baseline(n.rowHeight(c)) }

func (n Tabs) place(c *canvas, r Rect) {
	spots, _ := n.spots(c, r.W)
	cursor := clampInt(cursorOf(c.st, n.ID, n.At), 0, len(n.Tabs)-1)
	for i, sp := range spots {
		at := Rect{r.X + sp.X, r.Y + sp.Y, sp.W, sp.H}
		if i == len(n.Tabs) {
			c.capIn(at, at.X+at.W, n.Hint)
			continue
		}
		t := n.Tabs[i]
		s := n.label(c, i)
		if c.hovered(n.ID, i) && i != n.At && !t.Off {
			s.color = c.theme.Color(Ink)
		}
		w := c.text(s, at.X, at.Y+s.baseline(at.H), t.Label)
		if t.Hint != "" {
			c.capIn(at, at.X+w+6+c.capWidth(t.Hint), t.Hint)
		}
		if c.focused(n.ID) && i == cursor {
			c.ring(Rect{at.X - 3, at.Y + (at.H-24*c.scale)/2, at.W + 6, 24 * c.scale}, corner)
		}
		if !t.Off {
			c.hit(n.ID, i, Rect{at.X - 8, at.Y, at.W + 16, at.H})
		}
	}
	c.stop(n.ID, r, n, true)
}

// cursorOf is where the keyboard stands in a node, or where it starts.
func cursorOf(st State, id string, start int) int {
	if v, ok := st.Cursor[id]; ok {
		return v
	}
	return start
}

func (n Tabs) access() []Access {
	a := Access{Role: "tabs", ID: n.ID, Name: n.Name, Value: n.Hint}
	for i, t := range n.Tabs {
		k := Access{Role: "tab", Name: t.Label, Value: t.Hint}
		if i == n.At {
			k.State = append(k.State, "here")
		}
		if t.Off {
			k.State = append(k.State, "off")
		}
		a.Children = append(a.Children, k)
	}
	return []Access{a}
}
