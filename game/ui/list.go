package ui

import "math"

const (
	thumb     = 64 // px
	narrowRow = 480
)

func (n List) kind() string { return "List" }

// row builds one row from texts and a picture.
func (n List) row(c *canvas, i int, w float64) Node {
	it := n.Rows[i]
	narrow := w < narrowRow*c.scale
	lines := Column{Gap: 2, Children: []Node{Text{Text: it.Title, Role: Quote}}}
	if it.Says != "" {
		lines.Children = append(lines.Children, Text{Text: it.Says, Role: Quiet})
	}
	if narrow && it.Right != "" {
		lines.Children = append(lines.Children, Text{Text: it.Right, Role: Quiet})
	}
	row := Row{Gap: 20, Align: Middle, Pad: PadXY(16, 12)}
	if it.Thumb != nil {
		p := *it.Thumb
		p.MaxW, p.MaxH, p.ScaleMM, p.Drawn = thumb, thumb, 0, false
		row.Children = append(row.Children, Box{Child: p, Width: thumb, Height: thumb})
	}
	if it.Mark != MarkNone {
		row.Children = append(row.Children, MarkIcon{it.Mark})
	}
	row.Children = append(row.Children, Grow(lines))
	if !narrow && it.Right != "" {
		row.Children = append(row.Children, Box{Child: Text{Text: it.Right, Role: Quiet}, Width: n.rightWidth(c, w)})
	}
	return Box{Child: row, MinH: c.minHit() + 8}
}

// rightWidth is one width for all rows, so that the words at the right begin
// on one edge.
func (n List) rightWidth(c *canvas, w float64) float64 {
	s := c.role(Quiet)
	most := 0.0
	for _, it := range n.Rows {
		most = math.Max(most, math.Ceil(s.width(it.Right)))
	}
	return math.Min(most, w*0.35)
}

func (n List) widths(c *canvas) (float64, float64) { return 240 * c.scale, 720 * c.scale }

func (n List) heights(c *canvas, w float64) (float64, float64) {
	h := 0.0
	for i := range n.Rows {
		h += wanted(c, n.row(c, i, w), w) + 1
	}
	return h + 1, h + 1
}

func (n List) place(c *canvas, r Rect) {
	c.fill(r, corner, SheetWhite)
	y := r.Y + 1
	var chosen Rect
	for i := range n.Rows {
		row := n.row(c, i, r.W)
		h := wanted(c, row, r.W)
		at := Rect{r.X, y, r.W, h}
		if i > 0 {
			c.fill(Rect{r.X, y - 1, r.W, 1}, 0, Hairline)
		}
		switch {
		case i == n.Chosen:
			chosen = at
			c.fill(at, corner, Wash)
		case c.hovered(n.ID, i):
			c.add(FillRect{at, corner, mix(c.theme.Color(SheetWhite), c.theme.Color(Wash), 0.45)})
		}
		c.on(SheetWhite, func() { c.put(row, at) })
		c.hit(n.ID, i, at)
		y += h + 1
	}
	c.border(r, corner, Hairline)
	if !chosen.Empty() {
		if c.focused(n.ID) {
			c.stroke(chosen, corner, ringW, Indigo)
		} else {
			c.fill(Rect{chosen.X, chosen.Y, 3, chosen.H}, 1.5, Indigo)
		}
	}
	at := r
	if !chosen.Empty() {
		at = chosen // what the page scrolls to
	}
	c.stop(n.ID, at, n, true)
}

func (n List) access() []Access {
	a := Access{Role: "list", ID: n.ID, Name: n.Name}
	for i, it := range n.Rows {
		k := Access{Role: "item", Name: it.Title}
		for _, s := range []string{it.Says, it.Right} {
			if s != "" {
				if k.Value != "" {
					k.Value += " "
				}
				k.Value += s
			}
		}
		if it.Mark != MarkNone {
			k.State = append(k.State, it.Mark.Word())
		}
		if i == n.Chosen {
			k.State = append(k.State, "chosen")
		}
		if it.Thumb != nil && it.Thumb.Alt != "" {
			k.Children = append(k.Children, Access{Role: "picture", Name: it.Thumb.Alt})
		}
		a.Children = append(a.Children, k)
	}
	return []Access{a}
}
