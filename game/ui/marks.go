package ui

import (
	"math"
	"strconv"
)

// Word names a mark.
func (m Mark) Word() string {
	switch m {
	case MarkCredit:
		return "credit"
	case MarkAdvice:
		return "advice"
	case MarkCaution:
		return "caution"
	case MarkNever:
		return "never event"
	}
	return ""
}

func markColor(m Mark) Color {
	switch m {
	case MarkCredit:
		return Credit
	case MarkCaution:
		return Caution
	case MarkNever:
		return Never
	}
	return QuietInk
}

// icon draws the sign of a mark in a square: ringed tick, ringed i, triangle or
// filled octagon. All figures are on a 24 px grid.
func (c *canvas) icon(m Mark, r Rect) {
	u := r.W / 24
	at := func(x, y float64) (float64, float64) { return r.X + x*u, r.Y + y*u }
	seg := func(k byte, x, y float64) Seg {
		px, py := at(x, y)
		return Seg{Kind: k, X: px, Y: py}
	}
	col := c.theme.Color(markColor(m))
	dot := func(x, y, d float64, col Color) {
		px, py := at(x, y)
		c.fill(Rect{px - d/2*u, py - d/2*u, d * u, d * u}, d/2*u, col)
	}
	switch m {
	case MarkCredit:
		c.add(StrokeRect{r.Outset(-2.5 * u), 9.5 * u, 2 * u, col})
		c.add(Path{[]Seg{seg('M', 7.8, 12.4), seg('L', 10.9, 15.4), seg('L', 16.4, 9)}, 2 * u, col})
	case MarkAdvice:
		c.add(StrokeRect{r.Outset(-2.5 * u), 9.5 * u, 2 * u, col})
		c.add(Path{[]Seg{seg('M', 12, 11.2), seg('L', 12, 16.6)}, 2 * u, col})
		dot(12, 7.8, 2.4, markColor(m))
	case MarkCaution:
		c.add(Path{[]Seg{seg('M', 12, 3), seg('L', 22, 20.5), seg('L', 2, 20.5), {Kind: 'Z'}}, 2 * u, col})
		c.add(Path{[]Seg{seg('M', 12, 9.6), seg('L', 12, 14)}, 2 * u, col})
		dot(12, 17.1, 2.3, Caution)
	case MarkNever:
		const a, b = 1.2, 22.8
		k := (b - a) * 0.2929
		c.add(Path{[]Seg{
			seg('M', a+k, a), seg('L', b-k, a), seg('L', b, a+k), seg('L', b, b-k),
			seg('L', b-k, b), seg('L', a+k, b), seg('L', a, b-k), seg('L', a, a+k),
			{Kind: 'Z'},
		}, 0, col})
		on := c.theme.onAccent()
		c.add(Path{[]Seg{seg('M', 12, 6.8), seg('L', 12, 12.8)}, 2.4 * u, on})
		px, py := at(12, 16.6)
		c.add(FillRect{Rect{px - 1.4*u, py - 1.4*u, 2.8 * u, 2.8 * u}, 1.4 * u, on})
	}
}

func (n MarkIcon) kind() string { return "MarkIcon" }

func (n MarkIcon) widths(c *canvas) (float64, float64) {
	d := math.Round(24 * c.scale)
	return d, d
}

func (n MarkIcon) heights(c *canvas, _ float64) (float64, float64) {
	d := math.Round(24 * c.scale)
	return d, d
}

func (n MarkIcon) place(c *canvas, r Rect) {
	d := math.Min(math.Round(24*c.scale), math.Min(r.W, r.H))
	c.icon(n.Mark, Rect{r.X, r.Y, d, d})
}

func (n MarkIcon) access() []Access {
	if n.Mark == MarkNone {
		return nil
	}
	return []Access{{Role: "text", Name: n.Mark.Word()}}
}

const markGap = 12 // between icon and text

func (n MarginMark) kind() string { return "MarginMark" }

// texts are the paragraphs beside the icon.
func (n MarginMark) texts() Node {
	head := n.Heading
	if n.Number > 0 {
		head = strconv.Itoa(n.Number) + "\u00a0" + head
	}
	headCol := Ink
	if n.Mark == MarkNever {
		headCol = Never
	}
	spans := []Span{Words{Text: head, Strong: true, Color: headCol}}
	if n.Text != "" {
		spans = append(spans, Words{Text: " " + n.Text})
	}
	col := Column{Gap: 2, Children: []Node{Note{Role: itemRole, Spans: spans}}}
	if n.Source != "" {
		col.Children = append(col.Children, Text{Text: n.Source, Role: Small})
	}
	if n.Link != "" {
		col.Children = append(col.Children, Text{Text: n.Link + " ↵", Role: Quiet, Strong: true, Color: Indigo})
	}
	return col
}

func (n MarginMark) inner(c *canvas, w float64) float64 {
	return math.Max(1, w-math.Round(24*c.scale)-markGap-2*markPad)
}

// markPad is around a margin mark, for its wash and ring.
const markPad = 8

func (n MarginMark) widths(c *canvas) (float64, float64) {
	l, w := n.texts().widths(c)
	edge := math.Round(24*c.scale) + markGap + 2*markPad
	return l + edge, w + edge
}

func (n MarginMark) heights(c *canvas, w float64) (float64, float64) {
	h := math.Max(24*c.scale, wanted(c, n.texts(), n.inner(c, w))) + 2*markPad
	return h, h
}

func (n MarginMark) place(c *canvas, r Rect) {
	switch {
	case n.Chosen:
		c.fill(r, corner, Wash)
	case c.hovered(n.ID, -1):
		c.add(FillRect{r, corner, mix(c.theme.Color(c.ground), c.theme.Color(Wash), 0.6)})
	}
	d := math.Round(24 * c.scale)
	c.icon(n.Mark, Rect{r.X + markPad, r.Y + markPad, d, d})
	w := n.inner(c, r.W)
	c.put(n.texts(), Rect{r.X + markPad + d + markGap, r.Y + markPad, w, wanted(c, n.texts(), w)})
	if n.ID == "" {
		return
	}
	if c.focused(n.ID) {
		c.ring(r, corner)
	}
	c.hit(n.ID, -1, r)
	c.stop(n.ID, r, n, true)
}

func (n MarginMark) access() []Access {
	a := Access{Role: "mark", ID: n.ID, Name: n.Heading, Value: n.Text}
	if n.Number > 0 {
		a.Name = strconv.Itoa(n.Number) + " " + a.Name
	}
	if w := n.Mark.Word(); w != "" {
		a.State = append(a.State, w)
	}
	if n.Chosen {
		a.State = append(a.State, "chosen")
	}
	for _, s := range []string{n.Source, n.Link} {
		if s != "" {
			a.Children = append(a.Children, Access{Role: "text", Name: s})
		}
	}
	return []Access{a}
}
