package ui

import "math"

func (n LineChart) kind() string { return "LineChart" }

func (n LineChart) plotHeight(c *canvas) float64 {
	if n.Height > 0 {
		return n.Height * c.scale
	}
	return 120 * c.scale
}

// names is the room the series' names need at the right of the plot.
func (n LineChart) names(c *canvas) float64 {
	s := c.role(Small)
	w := 0.0
	for _, sr := range n.Series {
		w = math.Max(w, s.width(sr.Name))
	}
	if w == 0 {
		return 0
	}
	return math.Ceil(w) + 8
}

// beside tells whether the names stand at the ends of their lines; in a narrow
// chart they stand below with a piece of line each.
func (n LineChart) beside(c *canvas, w float64) bool { return n.names(c) <= 0.42*w }

func (n LineChart) widths(c *canvas) (float64, float64) { return 160 * c.scale, 320 * c.scale }

func (n LineChart) heights(c *canvas, w float64) (float64, float64) {
	s := c.role(Small)
	h := n.plotHeight(c)
	if len(n.Marks)+len(n.XLabels) > 0 {
		h += s.line + 4
	}
	if !n.beside(c, w) {
		for _, sr := range n.Series {
			if sr.Name != "" {
				h += s.line
			}
		}
	}
	return h, h
}

func (n LineChart) place(c *canvas, r Rect) {
	s := c.role(Small)
	plot := Rect{r.X, r.Y, r.W, n.plotHeight(c)}
	beside := n.beside(c, r.W)
	if beside {
		plot.W -= n.names(c)
	}
	x := func(v float64) float64 { return plot.X + plot.W*within(v, n.MinX, n.MaxX) }
	y := func(v float64) float64 { return plot.Y + 4 + (plot.H-8)*(1-within(v, n.MinY, n.MaxY)) }
	c.fill(Rect{plot.X, plot.Y, 1, plot.H}, 0, Hairline)
	c.fill(Rect{plot.X, plot.Y + plot.H - 1, plot.W, 1}, 0, Hairline)
	for _, m := range n.Marks {
		c.fill(Rect{math.Round(x(m.X)) - 1, plot.Y, 2, plot.H}, 0, orInk(m.Color))
	}
	for _, sr := range n.Series {
		pts := make([]Point, len(sr.Points))
		for i, p := range sr.Points {
			pts[i] = Point{x(p.X), y(p.Y)}
		}
		c.polyline(pts, 2, sr.Style, orInk(sr.Color))
	}
	if beside {
		n.placeNames(c, s, plot, y)
	}
	n.placeLabels(c, s, plot, x)
	if !beside {
		n.placeLegend(c, s, Rect{r.X, r.Y + r.H, r.W, 0})
	}
}

// placeNames writes each name at the end of its line, moved apart where two
// would touch.
func (n LineChart) placeNames(c *canvas, s style, plot Rect, y func(float64) float64) {
	type name struct {
		i  int
		at float64
	}
	var names []name
	for i, sr := range n.Series {
		if sr.Name != "" && len(sr.Points) > 0 {
			names = append(names, name{i, y(sr.Points[len(sr.Points)-1].Y)})
		}
	}
	for i := range names { // insertion sort by height, few entries
		for j := i; j > 0 && names[j].at < names[j-1].at; j-- {
			names[j], names[j-1] = names[j-1], names[j]
		}
	}
	limit := plot.Y + plot.H - s.line/2
	for i := range names {
		least := plot.Y + s.line/2
		if i > 0 {
			least = names[i-1].at + s.line
		}
		names[i].at = math.Max(names[i].at, least)
	}
	for i := len(names) - 1; i >= 0; i-- {
		names[i].at = math.Min(names[i].at, limit)
		limit = names[i].at - s.line
	}
	for _, nm := range names {
		st := s
		st.color = c.theme.Color(orInk(n.Series[nm.i].Color))
		top := nm.at - s.line/2
		c.text(st, plot.X+plot.W+8, top+st.baseline(s.line), n.Series[nm.i].Name)
	}
}

// placeLabels writes the labels under the axis: marks first, then what fits
// between them.
func (n LineChart) placeLabels(c *canvas, s style, plot Rect, x func(float64) float64) {
	var taken []Rect
	top := plot.Y + plot.H + 4
	put := func(m ChartMark, col Color) {
		if m.Label == "" {
			return
		}
		w := s.width(m.Label)
		lx := math.Max(plot.X, math.Min(x(m.X)-w/2, plot.X+plot.W-w))
		at := Rect{lx, top, w, s.line}
		for _, t := range taken {
			if !at.Outset(3).Intersect(t).Empty() {
				return
			}
		}
		taken = append(taken, at)
		st := s
		st.color = c.theme.Color(col)
		c.text(st, lx, top+st.baseline(s.line), m.Label)
	}
	for _, m := range n.Marks {
		put(m, orInk(m.Color))
	}
	for _, m := range n.XLabels {
		put(m, QuietInk)
	}
}

func (n LineChart) placeLegend(c *canvas, s style, below Rect) {
	count := 0
	for _, sr := range n.Series {
		if sr.Name != "" {
			count++
		}
	}
	y := below.Y - float64(count)*s.line
	for _, sr := range n.Series {
		if sr.Name == "" {
			continue
		}
		mid := y + s.line/2
		c.polyline([]Point{{below.X, mid}, {below.X + 24, mid}}, 2, sr.Style, orInk(sr.Color))
		c.textIn(s, Rect{below.X + 32, y, below.W - 32, s.line}, Start, sr.Name)
		y += s.line
	}
}

// within gives where v lies between lo and hi, 0 to 1, held inside.
func within(v, lo, hi float64) float64 {
	if hi <= lo || math.IsNaN(v) {
		return 0
	}
	return math.Max(0, math.Min(1, (v-lo)/(hi-lo)))
}

func orInk(c Color) Color {
	if c == Auto {
		return Ink
	}
	return c
}

func (n LineChart) access() []Access {
	a := Access{Role: "chart", Name: n.Alt}
	for _, sr := range n.Series {
		if sr.Name != "" {
			a.Children = append(a.Children, Access{Role: "text", Name: sr.Name})
		}
	}
	for _, m := range append(append([]ChartMark{}, n.Marks...), n.XLabels...) {
		if m.Label != "" {
			a.Children = append(a.Children, Access{Role: "text", Name: m.Label})
		}
	}
	return []Access{a}
}
