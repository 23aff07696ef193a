package ui

import "math"

// dashes draws a dashed line from x0 to x1 whose top is y. The period is
// stretched a little so that it begins and ends with a whole dash.
func (c *canvas) dashes(x0, x1, y, on, off, thick float64, col Color) {
	n := math.Max(1, math.Round((x1-x0+off)/(on+off)))
	period := (x1 - x0 + off) / n
	for i := range int(n) {
		x := x0 + float64(i)*period
		c.fill(Rect{x, y, math.Max(1, period-off), thick}, 0, col)
	}
}

// dots draws round dots of diameter d along a line whose middle is y.
func (c *canvas) dots(x0, x1, y, d float64, col Color) {
	period := 2.4 * d
	n := math.Max(2, math.Round((x1-x0-d)/period)+1)
	step := (x1 - x0 - d) / (n - 1)
	for i := range int(n) {
		c.fill(Rect{x0 + float64(i)*step, y - d/2, d, d}, d/2, col)
	}
}

// wave draws a wavy line of amplitude amp and about the given period, in whole
// waves between x0 and x1.
func (c *canvas) wave(x0, x1, y, amp, period, thick float64, col Color) {
	n := math.Max(1, math.Round((x1-x0)/period))
	half := (x1 - x0) / n / 2
	segs := []Seg{{Kind: 'M', X: x0, Y: y}}
	dir := -1.0
	for i := range int(2 * n) {
		x := x0 + float64(i)*half
		// A cubic whose two control points lie on one side reaches 3/4 of
		// their height.
		h := dir * amp * 4 / 3
		segs = append(segs, Seg{Kind: 'C', X1: x + half*0.36, Y1: y + h, X2: x + half*0.64, Y2: y + h, X: x + half, Y: y})
		dir = -dir
	}
	c.add(Path{segs, thick, c.theme.Color(col)})
}

// polyline draws straight pieces between points, solid or broken.
func (c *canvas) polyline(pts []Point, thick float64, style LineStyle, col Color) {
	if len(pts) < 2 {
		return
	}
	if style == Solid {
		c.add(Path{linePath(pts), thick, c.theme.Color(col)})
		return
	}
	on, off := 5.0, 4.0
	if style == Dotted {
		on, off = 0.5, 4
	}
	for _, dash := range cutDashes(pts, on, off) {
		c.add(Path{linePath(dash), thick, c.theme.Color(col)})
	}
}

func linePath(pts []Point) []Seg {
	segs := make([]Seg, len(pts))
	for i, p := range pts {
		segs[i] = Seg{Kind: 'L', X: p.X, Y: p.Y}
	}
	segs[0].Kind = 'M'
	return segs
}

// cutDashes cuts a polyline into dashes of length on with gaps off, measured
// along the line.
func cutDashes(pts []Point, on, off float64) [][]Point {
	var out [][]Point
	cur := []Point{pts[0]}
	left, drawing := on, true
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for at := 0.0; at < length; {
			d := math.Min(left, length-at)
			at += d
			left -= d
			p := Point{a.X + (b.X-a.X)*at/length, a.Y + (b.Y-a.Y)*at/length}
			if drawing {
				cur = append(cur, p)
			}
			if left > 0 {
				continue
			}
			if drawing {
				out = append(out, cur)
				left = off
			} else {
				cur = []Point{p}
				left = on
			}
			drawing = !drawing
		}
	}
	if drawing && len(cur) > 1 {
		out = append(out, cur)
	}
	return out
}
