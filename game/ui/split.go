package ui

import "math"

func (n Split) kind() string { return "Split" }

// arrangement of a split at a width.
type arrangement struct {
	left, margin float64 // widths; 0 when stacked or absent
	gap          float64
	leftAbove    bool
	marginBelow  bool
}

func (n Split) arrange(c *canvas, w float64) arrangement {
	gap := n.Gap
	if gap == 0 {
		gap = 32
	}
	least := n.MainMin
	if least == 0 {
		least = 480
	}
	least *= c.scale
	a := arrangement{gap: gap}
	side := func(has Node, w float64) float64 {
		if isNil(has) {
			return 0
		}
		return w * c.scale
	}
	a.left, a.margin = side(n.Left, n.LeftW), side(n.Margin, n.MarginW)
	room := func() float64 {
		r := w
		if a.left > 0 {
			r -= a.left + gap
		}
		if a.margin > 0 {
			r -= a.margin + gap
		}
		return r
	}
	if room() < least && a.margin > 0 {
		a.margin, a.marginBelow = 0, true
	}
	if room() < least && a.left > 0 {
		a.left, a.leftAbove = 0, true
	}
	most := n.MainMax
	if most == 0 {
		most = 820
	}
	if over := room() - most*c.scale; over > 0 && a.left+a.margin > 0 {
		f := 1 + math.Min(sideGrowth, over/(a.left+a.margin))
		a.left *= f
		a.margin *= f
	}
	return a
}

// sideGrowth is by how much of their width the sides grow in a large window.
const sideGrowth = 0.8

func (n Split) widths(c *canvas) (least, want float64) {
	for _, ch := range present([]Node{n.Left, n.Main, n.Margin}) {
		l, w := ch.widths(c)
		least, want = math.Max(least, l), want+w
	}
	return least, want
}

// nodes builds the arrangement from rows and columns.
func (n Split) nodes(c *canvas, w float64) Node {
	a := n.arrange(c, w)
	main := n.Main
	if a.marginBelow {
		main = Column{Gap: a.gap, Children: []Node{Grow(n.Main), n.Margin}}
	}
	row := Row{Gap: a.gap}
	if a.left > 0 {
		row.Children = append(row.Children, Box{Child: n.Left, Width: a.left})
	}
	row.Children = append(row.Children, fillWidth{main, a.rest(w)})
	if a.margin > 0 {
		row.Children = append(row.Children, Box{Child: n.Margin, Width: a.margin})
	}
	if a.leftAbove {
		return Column{Gap: a.gap, Children: []Node{n.Left, Grow(row)}}
	}
	return row
}

// rest is the width of the main column.
func (a arrangement) rest(w float64) float64 {
	if a.left > 0 {
		w -= a.left + a.gap
	}
	if a.margin > 0 {
		w -= a.margin + a.gap
	}
	return math.Max(0, w)
}

func (n Split) heights(c *canvas, w float64) (float64, float64) { return n.nodes(c, w).heights(c, w) }
func (n Split) place(c *canvas, r Rect)                         { c.put(n.nodes(c, r.W), r) }

// access follows the order on the page: card, what is worked on, margin.
func (n Split) access() []Access { return accessAll([]Node{n.Left, n.Main, n.Margin}) }

// fillWidth gives its child exactly a width, whatever the child would like.
type fillWidth struct {
	Node
	w float64
}

func (n fillWidth) widths(*canvas) (float64, float64) { return n.w, n.w }
