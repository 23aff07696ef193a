package ui

import "math"

// bodyHalf is the left half (as drawn on the right) of a standing figure, from
// the neck round the arm and down the leg to the crotch. x is the distance from
// the middle, y from the top of the head, both in hundredths of the height. It
// was drawn for this program.
var bodyHalf = []Point{
	{2.2, 12.2},
	{2.5, 14.6},
	{5.6, 16.6},
	{9.6, 17.9},
	{11.9, 20.6},
	{13.0, 25},
	{13.7, 31},
	{15.0, 37.5},
	{16.6, 44},
	{17.9, 49.8},
	{19.4, 52.6},
	{19.7, 56.3},
	{18.5, 58.4},
	{17.0, 57.2},
	{16.3, 53.6},
	{15.5, 50.4},
	{13.5, 45},
	{11.9, 38.8},
	{10.6, 32},
	{9.5, 26.8},
	{9.2, 31},
	{8.3, 37},
	{8.3, 41},
	{9.3, 46},
	{9.9, 51},
	{9.6, 58},
	{8.4, 67},
	{7.2, 73.5},
	{7.4, 79},
	{6.6, 86},
	{5.1, 93},
	{5.3, 95.6},
	{7.4, 98},
	{6.8, 99.4},
	{3.4, 99.3},
	{2.6, 96.6},
	{2.9, 92},
	{3.0, 86},
	{2.6, 79},
	{2.9, 73.5},
	{2.0, 66},
	{1.0, 57},
	{0, 53.2},
}

// headHalf is half of a face seen from the front, in hundredths of its height.
var headHalf = []Point{{0, 0}, {12, 1.2}, {23, 6.5}, {30.5, 16}, {34, 29}, {34.2, 43}, {32.8, 57}, {29, 71}, {22.5, 84.5}, {12.5, 95}, {0, 98.8}}

func (n BodyOutline) kind() string { return "BodyOutline" }

func (n BodyOutline) size(c *canvas) float64 {
	if n.Height > 0 {
		return n.Height * c.scale
	}
	return 160 * c.scale
}

func (n BodyOutline) widths(c *canvas) (float64, float64) {
	w := n.size(c)*0.92 + 8
	return w * 0.6, w
}

func (n BodyOutline) heights(c *canvas, _ float64) (float64, float64) {
	s := c.role(Small)
	h := n.size(c) + 4 + s.line
	if n.Label != "" {
		h += c.role(Quiet).line
	}
	return h, h
}

// figureStep is from the middle of one figure to the middle of the next, as a
// share of the height.
const figureStep = 0.5

func (n BodyOutline) place(c *canvas, r Rect) {
	h := math.Min(n.size(c), r.W/0.92)
	spot, ok := bodySpots[n.Site]
	small := c.role(Small)
	mids := [2]float64{r.X + 0.21*h, r.X + (0.21+figureStep)*h}
	words := [2]string{"front", "back"}
	c.figure(mids[0], r.Y, h)
	if spot.face {
		words[1] = "face"
		c.face(mids[1]+0.03*h, r.Y+0.16*h, 0.62*h)
	} else {
		c.figure(mids[1], r.Y, h)
		c.spine(mids[1], r.Y, h)
	}
	for i, w := range words {
		c.textIn(small, Rect{mids[i] - 0.21*h, r.Y + h + 4, 0.42 * h, small.line}, Middle, w)
	}
	if ok {
		n.mark(c, spot, mids, r.Y, h)
	}
	if n.Label != "" {
		q := c.style(Quiet, Ink, false, false, false)
		c.textIn(q, Rect{r.X, r.Y + h + 4 + small.line, r.W, q.line}, Start, n.Label)
	}
}

// mark puts a dot with a ring on the site. On the front the patient's left is
// at the viewer's right; on the back it is at the left.
func (n BodyOutline) mark(c *canvas, s bodySpot, mids [2]float64, top, h float64) {
	dir := 1.0
	if n.Side == "right" {
		dir = -1
	}
	if n.Side == "midline" {
		dir = 0
	}
	view := 0
	if s.back {
		view, dir = 1, -dir
	}
	x, y := mids[view]+dir*s.x*h/100, top+s.y*h/100
	c.spot(x, y, math.Max(3, 0.028*h))
	if s.face {
		fdir := dir
		c.spot(mids[1]+0.03*h+fdir*s.fx*0.62*h/100, top+0.16*h+s.fy*0.62*h/100, math.Max(3, 0.028*h))
	}
}

func (c *canvas) spot(x, y, d float64) {
	c.fill(Rect{x - d, y - d, 2 * d, 2 * d}, d, SheetWhite)
	c.stroke(Rect{x - d, y - d, 2 * d, 2 * d}, d, 1.5, Indigo)
	k := d * 0.45
	c.fill(Rect{x - k, y - k, 2 * k, 2 * k}, k, Indigo)
}

func (c *canvas) figure(mid, top, h float64) {
	u := h / 100
	fill := mix(c.theme.Color(c.ground), c.theme.Color(Hairline), 0.55)
	edge := mix(c.theme.Color(Hairline), c.theme.Color(QuietInk), 0.35)
	body := smooth(mirrored(bodyHalf, mid, top, u), true)
	head := Rect{mid - 4.7*u, top + 0.4*u, 9.4 * u, 12.6 * u}
	headPath := ellipse(head)
	c.add(Path{body, 0, fill})
	c.add(Path{body, 1, edge})
	c.add(Path{headPath, 0, fill})
	c.add(Path{headPath, 1, edge})
	// The neck hides the chin's and the shoulders' meeting edges.
	c.add(FillRect{Rect{mid - 2.1*u, top + 11.6*u, 4.2 * u, 2.4 * u}, 0, fill})
}

func (c *canvas) spine(mid, top, h float64) {
	u := h / 100
	edge := mix(c.theme.Color(Hairline), c.theme.Color(QuietInk), 0.35)
	c.add(FillRect{Rect{mid - 0.5, top + 18*u, 1, 28 * u}, 0, edge})
}

// face draws a plain head from the front for the sites of the face.
func (c *canvas) face(mid, top, h float64) {
	u := h / 100
	fill := mix(c.theme.Color(c.ground), c.theme.Color(Hairline), 0.55)
	edge := mix(c.theme.Color(Hairline), c.theme.Color(QuietInk), 0.35)
	for _, dir := range []float64{-1, 1} {
		ear := ellipse(Rect{mid + dir*35*u - 4.5*u, top + 41*u, 9 * u, 20 * u})
		c.add(Path{ear, 0, fill})
		c.add(Path{ear, 1, edge})
	}
	head := smooth(mirrored(headHalf, mid, top, u), true)
	c.add(Path{head, 0, fill})
	c.add(Path{head, 1, edge})
	line := func(pts ...Point) {
		for i := range pts {
			pts[i] = Point{mid + pts[i].X*u, top + pts[i].Y*u}
		}
		c.add(Path{smooth(pts, false), 1.2, edge})
	}
	for _, d := range []float64{-1, 1} {
		line(Point{d * 8, 42}, Point{d * 14, 39.5}, Point{d * 21, 42}, Point{d * 14, 44}, Point{d * 8, 42})
		line(Point{d * 7, 34}, Point{d * 14, 31}, Point{d * 23, 33.5})
	}
	line(Point{3, 44}, Point{3.6, 52}, Point{6.4, 59.5}, Point{6.6, 62.6}, Point{4.6, 64})
	line(Point{-6.6, 61}, Point{-6.4, 63}, Point{-4, 64.2}, Point{-1.6, 64}, Point{0, 65.4}, Point{1.6, 64})
	line(Point{-10, 76}, Point{-4, 74.5}, Point{0, 75.4}, Point{4, 74.5}, Point{10, 76})
	line(Point{-10, 76}, Point{0, 80.5}, Point{10, 76})
}

// mirrored closes a half outline over the middle line, in px.
func mirrored(half []Point, mid, top, u float64) []Point {
	var out []Point
	for _, p := range half {
		out = append(out, Point{mid + p.X*u, top + p.Y*u})
	}
	for i := len(half) - 1; i >= 0; i-- {
		if half[i].X == 0 {
			continue
		}
		out = append(out, Point{mid - half[i].X*u, top + half[i].Y*u})
	}
	return out
}

// smooth lays a Catmull-Rom curve through the points, as cubic pieces.
func smooth(pts []Point, closed bool) []Seg {
	n := len(pts)
	at := func(i int) Point {
		if closed {
			return pts[((i%n)+n)%n]
		}
		return pts[clampInt(i, 0, n-1)]
	}
	segs := []Seg{{Kind: 'M', X: pts[0].X, Y: pts[0].Y}}
	pieces := n - 1
	if closed {
		pieces = n
	}
	for i := range pieces {
		a, b, d, e := at(i-1), at(i), at(i+1), at(i+2)
		segs = append(segs, Seg{
			Kind: 'C', X1: b.X + (d.X-a.X)/6, Y1: b.Y + (d.Y-a.Y)/6,
			X2: d.X - (e.X-b.X)/6, Y2: d.Y - (e.Y-b.Y)/6, X: d.X, Y: d.Y,
		})
	}
	if closed {
		segs = append(segs, Seg{Kind: 'Z'})
	}
	return segs
}

func ellipse(r Rect) []Seg {
	const k = 0.5523
	cx, cy, rx, ry := r.X+r.W/2, r.Y+r.H/2, r.W/2, r.H/2
	return []Seg{
		{Kind: 'M', X: cx + rx, Y: cy},
		{Kind: 'C', X1: cx + rx, Y1: cy + k*ry, X2: cx + k*rx, Y2: cy + ry, X: cx, Y: cy + ry},
		{Kind: 'C', X1: cx - k*rx, Y1: cy + ry, X2: cx - rx, Y2: cy + k*ry, X: cx - rx, Y: cy},
		{Kind: 'C', X1: cx - rx, Y1: cy - k*ry, X2: cx - k*rx, Y2: cy - ry, X: cx, Y: cy - ry},
		{Kind: 'C', X1: cx + k*rx, Y1: cy - ry, X2: cx + rx, Y2: cy - k*ry, X: cx + rx, Y: cy},
		{Kind: 'Z'},
	}
}

func (n BodyOutline) access() []Access {
	name := n.Label
	if n.Side != "" {
		name += ", " + n.Side
	}
	return []Access{{Role: "body", Name: name}}
}
