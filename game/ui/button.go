package ui

import "math"

func (n Button) kind() string { return "Button" }

func (n Button) pads(c *canvas) (x, height float64) {
	switch n.Kind {
	case QuietLink:
		return 0, math.Round(32 * c.scale)
	}
	return 20, math.Max(c.minHit(), math.Round(42*c.scale))
}

func (n Button) label(c *canvas) style {
	st := c.style(itemRole, Ink, true, false, false)
	switch {
	case n.Kind == QuietLink:
		st = c.style(Quiet, Indigo, true, false, false)
	case n.Kind == Primary && !n.Off:
		st.color = c.theme.onAccent()
	}
	if n.Off {
		st.color = c.theme.Color(QuietInk)
	}
	return st
}

func (n Button) widths(c *canvas) (float64, float64) {
	x, _ := n.pads(c)
	w := n.label(c).width(n.Label) + 2*x
	if n.Hint != "" {
		w += c.capWidth(n.Hint) + 8
	}
	w = math.Ceil(w)
	return math.Min(w, 72*c.scale), w
}

func (n Button) heights(c *canvas, _ float64) (float64, float64) {
	_, h := n.pads(c)
	return h, h
}

func (n Button) place(c *canvas, r Rect) {
	x, _ := n.pads(c)
	st := n.label(c)
	over := c.hovered(n.ID, -1) && !n.Off
	switch {
	case n.Kind == QuietLink:
		if over {
			w := math.Min(st.width(n.Label), r.W)
			c.fill(Rect{r.X, math.Round(r.Y + st.baseline(r.H) + 3), w, 1}, 0, Indigo)
		}
	case n.Kind == Primary && !n.Off:
		col := c.theme.Color(Indigo)
		if over {
			col = mix(col, c.theme.Color(Ink), 0.18)
		}
		c.add(FillRect{r, corner, col})
	default:
		if over {
			c.fill(r, corner, Wash)
		} else {
			c.fill(r, corner, SheetWhite)
		}
		edge := QuietInk
		if n.Off {
			edge = Hairline
		}
		c.border(r, corner, edge)
	}
	text := Rect{r.X + x, r.Y, r.W - 2*x, r.H}
	if n.Hint != "" {
		w := c.capWidth(n.Hint)
		s := c.capStyle()
		s.color = st.color
		cr := Rect{r.X + r.W - x - w, math.Round(r.Y + (r.H-20*c.scale)/2), w, math.Round(20 * c.scale)}
		if n.Kind == Primary && !n.Off {
			c.add(StrokeRect{cr.Outset(-0.5), 2.5, 1, mix(c.theme.Color(Indigo), st.color, 0.55)})
		} else {
			c.border(cr, 3, Hairline)
		}
		c.text(s, cr.X+(w-s.width(n.Hint))/2, cr.Y+s.baseline(cr.H), n.Hint)
		text.W -= w + 8
	}
	a := Middle
	if n.Kind == QuietLink {
		a = Start
	}
	c.textIn(st, text, a, n.Label)
	if n.Off {
		return
	}
	if c.focused(n.ID) {
		ring := r
		if n.Kind == QuietLink {
			ring = Rect{r.X - 2, r.Y + (r.H-24*c.scale)/2, r.W + 4, 24 * c.scale}
		}
		c.ring(ring, corner)
	}
	c.hit(n.ID, -1, r)
	c.stop(n.ID, r, n, true)
}

func (n Button) access() []Access {
	a := Access{Role: "button", ID: n.ID, Name: n.Label}
	if n.Off {
		a.State = append(a.State, "off")
	}
	if n.Why != "" {
		a.Children = append(a.Children, Access{Role: "text", Name: n.Why})
	}
	if n.Hint != "" {
		a.Value = "key " + n.Hint
	}
	return []Access{a}
}
