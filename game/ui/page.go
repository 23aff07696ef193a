package ui

import "math"

const (
	topLine  = 56 // px at text size 100 %
	footLine = 40
	bodyEdge = 24 // above and below the body
)

func (n Page) kind() string { return "Page" }

func (n Page) widths(*canvas) (float64, float64)             { return 0, 0 }
func (n Page) heights(_ *canvas, _ float64) (a, b float64)   { return 0, 0 }
func lineHeight(c *canvas, n Node, w, least float64) float64 { return math.Max(least, wanted(c, n, w)) }

func wanted(c *canvas, n Node, w float64) float64 {
	_, h := n.heights(c, w)
	return math.Ceil(h)
}

func (n Page) topRow() Node {
	kids := []Node{Text{Text: n.Title, Role: Title, NoWrap: true}}
	if len(n.Context) > 0 {
		kids = append(kids, Note{Spans: n.Context, Role: Body, Color: QuietInk, MaxW: -1})
	}
	kids = append(kids, Spacer{})
	if n.Tabs != nil {
		kids = append(kids, *n.Tabs)
	}
	return Row{Children: kids, Gap: 16, Align: Baseline, Wrap: true, LineGap: 4, Pad: PadXY(pageEdge, 8)}
}

func (n Page) footRow() Node {
	kids := []Node{Text{Text: n.Foot, Role: Small, MaxW: -1}, Spacer{}}
	for _, k := range n.Keys {
		kids = append(kids, k.note())
	}
	return Row{Children: kids, Gap: 16, Align: Middle, Wrap: true, LineGap: 4, Pad: PadXY(pageEdge, 4)}
}

func (k KeyTip) note() Node {
	return Note{Role: Small, MaxW: -1, Spans: []Span{Words{Text: k.Says + " "}, Cap{k.Key}}}
}

func (n Page) place(c *canvas, r Rect) {
	top, foot := n.topRow(), n.footRow()
	th := lineHeight(c, top, r.W, topLine)
	fh := lineHeight(c, foot, r.W, footLine)
	c.put(top, Rect{r.X, r.Y, r.W, th - 1})
	c.put(Rule{}, Rect{r.X, r.Y + th - 1, r.W, 1})
	n.body(c, Rect{r.X, r.Y + th, r.W, math.Max(0, r.H-th-fh)})
	fy := r.Y + r.H - fh
	c.put(Rule{}, Rect{r.X, fy, r.W, 1})
	c.put(foot, Rect{r.X, fy + 1, r.W, fh - 1})
	if n.Toast != nil {
		n.Toast.float(c, Rect{r.X, fy - 8, r.W, 0})
	}
	if n.Over != nil {
		n.Over.float(c, r)
	}
}

// body scrolls as a whole when even with its inner scrolls at their least it is
// too tall for the window.
func (n Page) body(c *canvas, r Rect) {
	if isNil(n.Body) || r.H <= 0 {
		return
	}
	in := Rect{r.X + pageEdge, r.Y, math.Max(0, r.W-2*pageEdge), r.H}
	least, want := n.Body.heights(c, in.W)
	content := r.H
	if least+2*bodyEdge > r.H {
		content = want + 2*bodyEdge
	}
	c.scrolled(PageScroll, in, content, pageEdge-10, func(at Rect) {
		c.put(n.Body, Rect{at.X, at.Y + bodyEdge, at.W, math.Max(0, at.H-2*bodyEdge)})
	})
}

func (n Page) access() []Access {
	out := []Access{{Role: "heading", Name: n.Title}}
	if n.Over != nil {
		return append(out, n.Over.access()...)
	}
	if len(n.Context) > 0 {
		out = append(out, Note{Spans: n.Context}.access()...)
	}
	if n.Tabs != nil {
		out = append(out, n.Tabs.access()...)
	}
	out = append(out, accessAll([]Node{n.Body})...)
	if n.Toast != nil {
		out = append(out, n.Toast.access()...)
	}
	out = append(out, Access{Role: "text", Name: n.Foot})
	for _, k := range n.Keys {
		out = append(out, Access{Role: "key", Name: k.Says, Value: k.Key})
	}
	return out
}
