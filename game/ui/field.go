package ui

import "math"

func (n Field) kind() string { return "Field" }

const fieldPad = 12

func (n Field) labelHeight(c *canvas) float64 {
	if n.Hide || n.Name == "" {
		return 0
	}
	return c.role(Label).line + 6
}

func (n Field) boxHeight(c *canvas) float64 {
	return math.Max(c.minHit(), math.Round(40*c.scale))
}

func (n Field) widths(c *canvas) (float64, float64) { return 120 * c.scale, 320 * c.scale }

func (n Field) heights(c *canvas, _ float64) (float64, float64) {
	h := n.labelHeight(c) + n.boxHeight(c)
	return h, h
}

func (n Field) place(c *canvas, r Rect) {
	lh := n.labelHeight(c)
	if lh > 0 {
		c.textIn(c.role(Label), Rect{r.X, r.Y, r.W, lh - 6}, Start, n.Name)
	}
	box := Rect{r.X, r.Y + lh, r.W, n.boxHeight(c)}
	focused := c.focused(n.ID)
	c.fill(box, corner, SheetWhite)
	c.border(box, corner, QuietInk)
	s := c.role(itemRole)
	in := Rect{box.X + fieldPad, box.Y, math.Max(1, box.W-2*fieldPad), box.H}
	c.clipped(in.Outset(2), func() {
		x := in.X - n.shift(s, in.W, focused, c.st.Caret)
		base := in.Y + s.baseline(in.H)
		if n.Text == "" {
			c.text(c.style(itemRole, QuietInk, false, false, false), in.X, base, n.Hint)
		}
		if focused {
			n.selection(c, s, x, in)
		}
		c.text(s, x, base, n.Text)
		if focused {
			c.fill(Rect{x + s.width(prefix(n.Text, c.st.Caret)), in.Y + in.H/2 - s.size*0.7, 2, s.size * 1.4}, 0, Indigo)
		}
	})
	if focused {
		c.ring(box, corner)
	}
	c.hitTrack(n.ID, -1, box, in)
	c.stop(n.ID, r, n, true)
}

func (n Field) selection(c *canvas, s style, x float64, in Rect) {
	a, b := c.st.Anchor, c.st.Caret
	if a == b {
		return
	}
	if a > b {
		a, b = b, a
	}
	x0, x1 := s.width(prefix(n.Text, a)), s.width(prefix(n.Text, b))
	c.fill(Rect{x + x0, in.Y + in.H/2 - s.size*0.75, x1 - x0, s.size * 1.5}, 2, Wash)
}

// shift is how far a text longer than its field is moved left so that the
// caret is in sight.
func (n Field) shift(s style, w float64, focused bool, caret int) float64 {
	if !focused {
		return 0
	}
	return math.Max(0, s.width(prefix(n.Text, caret))-w+4)
}

// caretAt gives the caret place nearest to a point, for a pointer in a field
// whose text area is in.
func (n Field) caretAt(scale float64, in Rect, focused bool, caret int, x float64) int {
	s := style{font: roles[itemRole].font, size: roles[itemRole].size * scale}
	x += n.shift(s, in.W, focused, caret) - in.X
	rs := []rune(n.Text)
	for i := range rs {
		left, right := s.width(string(rs[:i])), s.width(string(rs[:i+1]))
		if x < (left+right)/2 {
			return i
		}
	}
	return len(rs)
}

// prefix is the first n runes of a text.
func prefix(text string, n int) string {
	rs := []rune(text)
	return string(rs[:clampInt(n, 0, len(rs))])
}

func (n Field) access() []Access {
	return []Access{{Role: "field", ID: n.ID, Name: n.Name, Value: n.Text}}
}
