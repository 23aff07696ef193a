package ui

import "math"

const (
	topLine  = 56 // px at text size 100 %
	footLine = 40
	bodyEdge = 24 // above and below the body
)

func (n Page) kind() string { return "Page" }

func (n Page) widths(*canvas) (float64, float64)           { return 0, 0 }
func (n Page) heights(_ *canvas, _ float64) (a, b float64) { return 0, 0 }

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
	if n.Toast != nil {
		// It takes the place of the key tips, so that it covers nothing.
		kids = append(kids, *n.Toast)
	} else {
		for _, k := range n.Keys {
			kids = append(kids, k.note())
		}
	}
	return Row{Children: kids, Gap: 16, Align: Middle, Wrap: true, LineGap: 4, Pad: PadXY(pageEdge, 4)}
}

func (k KeyTip) note() Node {
	return Note{Role: Small, MaxW: -1, Spans: []Span{Words{Text: k.Says + " "}, Cap{k.Key}}}
}

func (n Page) place(c *canvas, r Rect) {
	top, foot := n.topRow(), n.footRow()
	th := math.Max(topLine, wanted(c, top, r.W))
	fh := math.Max(footLine, wanted(c, foot, r.W))
	if th <= r.H/tallTop {
		placeTop(c, top, Rect{r.X, r.Y, r.W, th})
		n.body(c, Rect{r.X, r.Y + th, r.W, math.Max(0, r.H-th-fh)}, nil, 0)
	} else {
		n.body(c, Rect{r.X, r.Y, r.W, math.Max(0, r.H-fh)}, top, th)
	}
	fy := r.Y + r.H - fh
	c.put(Rule{}, Rect{r.X, fy, r.W, 1})
	c.put(foot, Rect{r.X, fy + 1, r.W, fh - 1})
	if n.Over != nil {
		n.Over.float(c, r)
	}
}

// tallTop: a top line that takes more than this part of the window (large text
// in a small window) scrolls away with the body.
const tallTop = 5

func placeTop(c *canvas, top Node, r Rect) {
	c.put(top, Rect{r.X, r.Y, r.W, r.H - 1})
	c.put(Rule{}, Rect{r.X, r.Y + r.H - 1, r.W, 1})
}

// body scrolls as a whole when even with its inner scrolls at their least it is
// too tall for the window. top, if any, scrolls with it.
func (n Page) body(c *canvas, r Rect, top Node, th float64) {
	if r.H <= 0 {
		return
	}
	if isNil(n.Body) {
		n.Body = Spacer{}
	}
	in := Rect{r.X + pageEdge, r.Y, math.Max(0, r.W-2*pageEdge), r.H}
	least, want := n.Body.heights(c, in.W)
	content := r.H
	if least+2*bodyEdge+th > r.H {
		content = want + 2*bodyEdge + th
	}
	c.scrolled(PageScroll, in, content, pageEdge-10, func(at Rect) {
		if top != nil {
			placeTop(c, top, Rect{at.X - pageEdge, at.Y, at.W + 2*pageEdge, th})
		}
		c.put(n.Body, Rect{at.X, at.Y + th + bodyEdge, at.W, math.Max(0, at.H-th-2*bodyEdge)})
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
