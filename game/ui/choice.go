package ui

import "math"

// itemList is what a ChoiceList and Ticks have in common: rows of a label with
// a line of explanation, and a sign of what is chosen at the left.
type itemList struct {
	id     string
	items  []ChoiceItem
	forID  string
	multi  bool
	chosen func(i int) bool
	cursor int // item the keyboard stands on
	cols   int // asked for; 0 means 1
}

const itemPadX, itemPadY = 12, 7

func (l itemList) sign(c *canvas) float64 {
	return math.Round(18*c.scale) + 10
}

func (l itemList) widths(c *canvas) (least, want float64) {
	label, says := l.styles(c)
	for _, it := range l.items {
		w := label.width(it.Label)
		if it.Hint != "" {
			w += c.capWidth(it.Hint) + 12
		}
		w = math.Max(w, math.Min(says.width(it.Says), says.comfortable()))
		want = math.Max(want, math.Ceil(w))
	}
	edge := 2*itemPadX + l.sign(c)
	cols := float64(max(1, min(l.cols, len(l.items))))
	return math.Min(want, 160*c.scale) + edge, (want+edge)*cols + columnGap*(cols-1)
}

func (l itemList) styles(c *canvas) (label, says style) {
	return c.role(itemRole), c.role(Small)
}

// texts are the two texts of an item; says is nil when it has no explanation.
func (l itemList) texts(it ChoiceItem) (label, says Node) {
	col := Ink
	if it.Off {
		col = QuietInk
	}
	label = Text{Text: it.Label, Role: itemRole, Color: col, MaxW: -1}
	if it.Says != "" {
		says = Text{Text: it.Says, Role: Small, MaxW: -1}
	}
	return label, says
}

func (l itemList) itemHeight(c *canvas, i int, w float64) float64 {
	it := l.items[i]
	label, says := l.texts(it)
	tw := l.textWidth(c, it, w)
	h := wanted(c, label, tw)
	if says != nil {
		h += wanted(c, says, tw)
	}
	return math.Max(c.minHit()+4, h+2*itemPadY)
}

func (l itemList) textWidth(c *canvas, it ChoiceItem, w float64) float64 {
	w -= 2*itemPadX + l.sign(c)
	if it.Hint != "" {
		w -= c.capWidth(it.Hint) + 12
	}
	return math.Max(1, w)
}

// columnGap is between the columns of a list.
const columnGap = 16

// cells places the items, relative to the list's corner: down the columns, as
// many as asked for and as have room.
func (l itemList) cells(c *canvas, w float64) (cells []Rect, height float64) {
	cols := max(1, min(l.cols, len(l.items)))
	least, _ := l.widths(c)
	for cols > 1 && (w-columnGap*float64(cols-1))/float64(cols) < least {
		cols--
	}
	rows := (len(l.items) + cols - 1) / cols
	cw := (w - columnGap*float64(cols-1)) / float64(cols)
	y := 0.0
	for i := range l.items {
		if i%max(1, rows) == 0 {
			y = 0
		}
		h := l.itemHeight(c, i, cw)
		col := i / max(1, rows)
		cells = append(cells, Rect{float64(col) * (cw + columnGap), y, cw, h})
		y += h
		height = math.Max(height, y)
	}
	return cells, height
}

func (l itemList) height(c *canvas, w float64) float64 {
	_, h := l.cells(c, w)
	return h
}

// place draws the items and gives the place of the one the keyboard stands on,
// which is what has to be in sight.
func (l itemList) place(c *canvas, r Rect) Rect {
	at := r
	focused := c.focused(l.id) || c.focused(l.forID)
	cells, _ := l.cells(c, r.W)
	for i, cell := range cells {
		item := Rect{r.X + cell.X, r.Y + cell.Y, cell.W, cell.H}
		l.placeItem(c, i, item, focused)
		if i == l.cursor {
			at = item
		}
	}
	return at
}

func (l itemList) placeItem(c *canvas, i int, r Rect, focused bool) {
	it := l.items[i]
	chosen := l.chosen(i)
	switch {
	case chosen && !l.multi, l.multi && focused && i == l.cursor:
		c.fill(r, corner, Wash)
	case c.hovered(l.id, i) && !it.Off:
		c.add(FillRect{r, corner, mix(c.theme.Color(c.ground), c.theme.Color(Wash), 0.6)})
	}
	label, says := l.texts(it)
	x := r.X + itemPadX
	tw := l.textWidth(c, it, r.W)
	lh := wanted(c, label, tw)
	sh := 0.0
	if says != nil {
		sh = wanted(c, says, tw)
	}
	y := r.Y + (r.H-lh-sh)/2
	first := c.role(itemRole).line
	d := math.Round(18 * c.scale)
	sign := Rect{x, math.Round(y + (first-d)/2), d, d}
	if l.multi {
		c.tickSign(sign, chosen, it.Off)
	} else {
		c.choiceSign(sign, chosen, it.Off)
	}
	tx := x + l.sign(c)
	c.put(label, Rect{tx, y, tw, lh})
	if says != nil {
		c.put(says, Rect{tx, y + lh, tw, sh})
	}
	if it.Hint != "" {
		c.capIn(r, r.X+r.W-itemPadX, it.Hint)
	}
	if focused && i == l.cursor && c.focused(l.id) {
		c.stroke(r.Outset(-1), corner, ringW, Indigo)
	}
	if !it.Off {
		c.hit(l.id, i, r)
	}
}

// choiceSign is a ring, filled with a dot when chosen.
func (c *canvas) choiceSign(r Rect, on, off bool) {
	col := QuietInk
	if on {
		col = Indigo
	}
	if off {
		col = Hairline
	}
	in := r.Outset(-1.5)
	c.stroke(in, in.W/2, 1.5, col)
	if on {
		dot := r.Outset(-r.W * 0.29)
		c.fill(dot, dot.W/2, Indigo)
	}
}

// tickSign is a square, filled with a tick when on.
func (c *canvas) tickSign(r Rect, on, off bool) {
	in := r.Outset(-1.5)
	if !on {
		col := QuietInk
		if off {
			col = Hairline
		}
		c.stroke(in, 3, 1.5, col)
		return
	}
	c.fill(r.Outset(-0.75), 3.5, Indigo)
	u := r.W / 18
	c.add(Path{[]Seg{
		{Kind: 'M', X: r.X + 4.6*u, Y: r.Y + 9.4*u},
		{Kind: 'L', X: r.X + 7.8*u, Y: r.Y + 12.5*u},
		{Kind: 'L', X: r.X + 13.4*u, Y: r.Y + 6*u},
	}, 2 * u, c.theme.onAccent()})
}

func (n ChoiceList) kind() string { return "ChoiceList" }

func (n ChoiceList) list() itemList {
	cursor := max(0, n.Chosen)
	return itemList{n.ID, n.Items, n.For, false, func(i int) bool { return i == n.Chosen }, cursor, n.Columns}
}

func (n ChoiceList) widths(c *canvas) (float64, float64) { return n.list().widths(c) }
func (n ChoiceList) heights(c *canvas, w float64) (float64, float64) {
	h := n.list().height(c, w)
	return h, h
}

func (n ChoiceList) place(c *canvas, r Rect) {
	c.stop(n.ID, n.list().place(c, r), n, n.For == "")
}

func (n ChoiceList) access() []Access {
	return []Access{accessItems("list", "item", n.ID, n.Name, n.Items, func(i int) string {
		if i == n.Chosen {
			return "chosen"
		}
		return ""
	})}
}

func (n Ticks) kind() string { return "Ticks" }

func (n Ticks) ticked(i int) bool { return i < len(n.Ticked) && n.Ticked[i] }

func (n Ticks) list(c *canvas) itemList {
	cursor := 0
	if c != nil {
		cursor = clampInt(c.st.Cursor[n.ID], 0, len(n.Items)-1)
	}
	return itemList{n.ID, n.Items, n.For, true, n.ticked, cursor, n.Columns}
}

func (n Ticks) widths(c *canvas) (float64, float64) { return n.list(c).widths(c) }
func (n Ticks) heights(c *canvas, w float64) (float64, float64) {
	h := n.list(c).height(c, w)
	return h, h
}

func (n Ticks) place(c *canvas, r Rect) {
	c.stop(n.ID, n.list(c).place(c, r), n, n.For == "")
}

func (n Ticks) access() []Access {
	return []Access{accessItems("ticks", "tick", n.ID, n.Name, n.Items, func(i int) string {
		if n.ticked(i) {
			return "ticked"
		}
		return ""
	})}
}

func accessItems(role, itemRole, id, name string, items []ChoiceItem, state func(i int) string) Access {
	a := Access{Role: role, ID: id, Name: name}
	for i, it := range items {
		k := Access{Role: itemRole, Name: it.Label, Value: it.Says}
		if s := state(i); s != "" {
			k.State = append(k.State, s)
		}
		if it.Off {
			k.State = append(k.State, "off")
		}
		a.Children = append(a.Children, k)
	}
	return a
}

func clampInt(v, lo, hi int) int { return max(lo, min(v, hi)) }
