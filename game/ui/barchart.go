package ui

import (
	"fmt"
	"math"
)

// labelColumn is the width for the labels of a chart's rows.
func labelColumn(s style, labels []string, w float64) float64 {
	most := 0.0
	for _, l := range labels {
		most = math.Max(most, math.Ceil(s.width(l)))
	}
	return math.Min(most, 0.45*w)
}

func chartRow(c *canvas) float64 { return math.Round(28 * c.scale) }

func (n BarChart) kind() string { return "BarChart" }

func (n BarChart) widths(c *canvas) (float64, float64) { return 200 * c.scale, 360 * c.scale }

func (n BarChart) heights(c *canvas, _ float64) (float64, float64) {
	h := chartRow(c) * float64(len(n.Bars))
	return h, h
}

func (n BarChart) place(c *canvas, r Rect) {
	label, says := c.style(Quiet, Ink, false, false, false), c.style(Small, Auto, false, false, true)
	labels := make([]string, len(n.Bars))
	most, saysW := n.Max, 0.0
	for i, b := range n.Bars {
		labels[i] = b.Label
		if n.Max <= 0 {
			most = math.Max(most, b.Value)
		}
		saysW = math.Max(saysW, math.Ceil(says.width(b.Says)))
	}
	lw := labelColumn(label, labels, r.W)
	plot := Rect{r.X + lw + 12, r.Y, math.Max(1, r.W-lw-12-saysW-8), r.H}
	for i, b := range n.Bars {
		row := Rect{r.X, r.Y + float64(i)*chartRow(c), r.W, chartRow(c)}
		c.textIn(label, Rect{row.X, row.Y, lw, row.H}, Start, b.Label)
		w := plot.W * within(b.Value, 0, most)
		h := math.Round(12 * c.scale)
		col := b.Color
		if col == Auto {
			col = Indigo
		}
		c.fill(Rect{plot.X, math.Round(row.Y + (row.H-h)/2), math.Max(1, w), h}, 1, col)
		c.text(says, plot.X+w+8, row.Y+says.baseline(row.H), b.Says)
	}
	c.fill(Rect{plot.X - 1, r.Y, 1, r.H}, 0, Hairline)
}

func (n BarChart) access() []Access {
	a := Access{Role: "chart", Name: n.Alt}
	for _, b := range n.Bars {
		v := b.Says
		if v == "" {
			v = fmt.Sprintf("%g", b.Value)
		}
		a.Children = append(a.Children, Access{Role: "text", Name: b.Label, Value: v})
	}
	return []Access{a}
}

func (n IntervalChart) kind() string { return "IntervalChart" }

func (n IntervalChart) widths(c *canvas) (float64, float64) { return 200 * c.scale, 376 * c.scale }

func (n IntervalChart) heights(c *canvas, _ float64) (float64, float64) {
	h := chartRow(c) * float64(len(n.Rows))
	if n.Standard >= 0 && n.StdLabel != "" {
		h += c.role(Small).line + 4
	}
	return h, h
}

func (n IntervalChart) place(c *canvas, r Rect) {
	label, says := c.style(Quiet, Ink, false, false, false), c.role(Small)
	labels := make([]string, len(n.Rows))
	for i, row := range n.Rows {
		labels[i] = row.Label
	}
	lw := labelColumn(label, labels, r.W)
	plot := Rect{r.X + lw + 24, r.Y, math.Max(1, r.W-lw-24-6), chartRow(c) * float64(len(n.Rows))}
	x := func(v float64) float64 { return plot.X + plot.W*within(v, 0, 1) }
	if n.Standard >= 0 {
		c.dottedDown(x(n.Standard), plot.Y, plot.Y+plot.H, QuietInk)
		if n.StdLabel != "" {
			w := says.width(n.StdLabel)
			lx := math.Max(r.X, math.Min(x(n.Standard)-w/2, r.X+r.W-w))
			c.text(says, lx, plot.Y+plot.H+4+says.baseline(says.line), n.StdLabel)
		}
	}
	for i, row := range n.Rows {
		at := Rect{r.X, r.Y + float64(i)*chartRow(c), r.W, chartRow(c)}
		c.textIn(label, Rect{at.X, at.Y, lw, at.H}, Start, row.Label)
		if row.Says != "" {
			// The standard's line gives way to the words.
			w := says.width(row.Says) + 8
			ground := c.ground
			c.fill(Rect{plot.X - 4, at.Y + 2, math.Min(w, plot.W), at.H - 4}, 0, ground)
			c.textIn(says, Rect{plot.X, at.Y, plot.W, at.H}, Start, row.Says)
			continue
		}
		mid := at.Y + at.H/2
		c.fill(Rect{x(row.Low), mid - 3, math.Max(6, x(row.Top)-x(row.Low)), 6}, 3, Hairline)
		c.fill(Rect{x(row.At) - 5, mid - 5, 10, 10}, 5, Indigo)
	}
}

// dottedDown draws an upright dotted line.
func (c *canvas) dottedDown(x, y0, y1 float64, col Color) {
	x = math.Round(x)
	for y := y0 + 1; y < y1-2; y += 6 {
		c.fill(Rect{x - 1, y, 2, 2}, 0, col)
	}
}

func (n IntervalChart) access() []Access {
	a := Access{Role: "chart", Name: n.Alt}
	for _, row := range n.Rows {
		v := row.Says
		if v == "" {
			v = fmt.Sprintf("about %.0f in 100, between %.0f and %.0f", 100*row.At, 100*row.Low, 100*row.Top)
			switch {
			case n.Standard < 0:
			case row.Low > n.Standard:
				v += ", above the standard"
			case row.Top < n.Standard:
				v += ", below the standard"
			}
		}
		a.Children = append(a.Children, Access{Role: "text", Name: row.Label, Value: v})
	}
	if n.Standard >= 0 && n.StdLabel != "" {
		a.Children = append(a.Children, Access{Role: "text", Name: n.StdLabel, Value: fmt.Sprintf("%.0f in 100", 100*n.Standard)})
	}
	return []Access{a}
}
