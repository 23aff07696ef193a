package ui

import "math"

func (n Dial) kind() string { return "Dial" }

// dialShape is the geometry of a dial at a text size, from its top down.
type dialShape struct {
	label, figure, track, ticks, fault float64 // heights
}

func (n Dial) shape(c *canvas) dialShape {
	s := dialShape{
		label: c.role(Label).line, figure: c.role(Figure).line + 12,
		track: math.Max(c.minHit(), 32),
	}
	if len(n.Ticks) > 0 {
		s.ticks = c.role(Small).line
	}
	if n.Fault != "" {
		s.fault = c.role(Small).line + 6
	}
	return s
}

func (n Dial) widths(c *canvas) (float64, float64) {
	if n.Small {
		name, value := c.role(Quiet), c.role(Quiet)
		w := math.Ceil(name.width(n.Name) + value.width(n.value()) + 2*16 + 100)
		return math.Min(w, 200*c.scale), w
	}
	return 160 * c.scale, 292 * c.scale
}

func (n Dial) heights(c *canvas, _ float64) (float64, float64) {
	if n.Small {
		h := math.Max(c.minHit(), c.role(Quiet).line)
		return h, h
	}
	s := n.shape(c)
	h := s.label + s.figure + s.track + s.ticks + s.fault
	return h, h
}

// value is the figure with its unit in words.
func (n Dial) value() string {
	switch {
	case n.Figure == "":
		return "not set"
	case n.Unit == "":
		return n.Figure
	}
	return Qty(n.Figure, n.Unit)
}

func (n Dial) place(c *canvas, r Rect) {
	if n.Small {
		n.placeSmall(c, r)
		return
	}
	s := n.shape(c)
	c.textIn(c.role(Label), Rect{r.X, r.Y, r.W, s.label}, Start, n.Name)
	y := r.Y + s.label
	n.placeFigure(c, Rect{r.X, y, r.W, s.figure})
	y += s.figure
	n.placeTrack(c, Rect{r.X, y, r.W, s.track})
	y += s.track
	n.placeTicks(c, Rect{r.X, y, r.W, s.ticks})
	if n.Fault != "" {
		fault := c.style(Small, Caution, false, false, false)
		c.textIn(fault, Rect{r.X, y + s.ticks + 6, r.W, s.fault - 6}, Start, n.Fault)
	}
	c.stop(n.ID, r, n, n.For == "")
}

func (n Dial) placeFigure(c *canvas, r Rect) {
	big := c.style(Figure, Auto, false, false, true)
	base := r.Y + big.baseline(r.H)
	text := n.Figure
	switch {
	case n.Typing:
		text = n.Typed
	case text == "":
		c.textIn(c.style(Unit, QuietInk, false, false, false), r, Start, "not set")
		return
	}
	unit := c.role(Unit)
	text = big.cut(text, math.Max(1, r.W-unit.width(n.Unit)-12))
	x := r.X + c.text(big, r.X, base, text)
	if n.Typing {
		x += 3
		c.fill(Rect{x, base - big.size*0.78, 2, big.size * 0.98}, 0, Indigo)
		x += 2
	}
	c.text(unit, x+9*c.scale, base, n.Unit)
}

// knobR is the radius of a dial's knob; the track is shorter by it at each end.
const knobR = 10

func (n Dial) placeTrack(c *canvas, r Rect) {
	mid := r.Y + r.H/2
	line := Rect{r.X + knobR, mid - 2, math.Max(1, r.W-2*knobR), 4}
	c.fill(line, 2, Hairline)
	if n.At >= 0 {
		at := line.X + line.W*math.Min(1, n.At)
		c.fill(Rect{line.X, line.Y, at - line.X, line.H}, 2, Indigo)
		knob := Rect{at - knobR, mid - knobR, 2 * knobR, 2 * knobR}
		c.fill(knob, knobR, SheetWhite)
		w := 3.0
		if c.hovered(n.ID, -1) {
			w = 4
		}
		c.stroke(knob.Outset(-w/2), knobR-w/2, w, Indigo)
	}
	if c.focused(n.ID) {
		c.ring(Rect{r.X, mid - 12, r.W, 24}, 12)
	}
	c.hitTrack(n.ID, -1, r, line)
}

func (n Dial) placeTicks(c *canvas, r Rect) {
	s := c.style(Small, Auto, false, false, true)
	lastEnd := math.Inf(-1)
	for i, t := range n.Ticks {
		w := s.width(t.Label)
		x := r.X + knobR + (r.W-2*knobR)*t.At - w/2
		x = math.Max(r.X, math.Min(x, r.X+r.W-w))
		if x < lastEnd+6 {
			continue
		}
		// Leave room for the last label: the end of the range matters most.
		if last := n.Ticks[len(n.Ticks)-1]; i < len(n.Ticks)-1 && x+w+6 > r.X+r.W-s.width(last.Label) {
			continue
		}
		c.text(s, x, r.Y+s.baseline(r.H), t.Label)
		lastEnd = x + w
	}
}

func (n Dial) placeSmall(c *canvas, r Rect) {
	quiet := c.role(Quiet)
	value := quiet
	if n.Figure != "" {
		value = c.style(Quiet, Ink, false, false, true)
	}
	vw := math.Ceil(value.width(n.value()))
	nw := math.Min(math.Ceil(quiet.width(n.Name)), math.Max(0, r.W-vw-32-40))
	c.textIn(quiet, Rect{r.X, r.Y, nw, r.H}, Start, n.Name)
	tx := r.X + nw + 16
	tw := math.Max(1, r.X+r.W-vw-16-tx)
	mid := r.Y + r.H/2
	line := Rect{tx + 8, mid - 2, math.Max(1, tw-16), 4}
	c.fill(line, 2, Hairline)
	if n.At >= 0 {
		at := line.X + line.W*math.Min(1, n.At)
		c.fill(Rect{line.X, line.Y, at - line.X, 4}, 2, Indigo)
		c.fill(Rect{at - 8, mid - 8, 16, 16}, 8, SheetWhite)
		c.stroke(Rect{at - 7, mid - 7, 14, 14}, 7, 2.5, Indigo)
	}
	c.textIn(value, Rect{r.X + r.W - vw, r.Y, vw, r.H}, End, n.value())
	if c.focused(n.ID) {
		c.ring(Rect{tx, mid - 10, tw, 20}, 10)
	}
	c.hitTrack(n.ID, -1, Rect{tx, r.Y, tw, r.H}, line)
	c.stop(n.ID, r, n, n.For == "")
}

func (n Dial) access() []Access {
	a := Access{Role: "dial", ID: n.ID, Name: n.Name, Value: n.value()}
	if n.Typing {
		a.Value = n.Typed
		a.State = append(a.State, "typing")
	}
	if n.Fault != "" {
		a.Children = append(a.Children, Access{Role: "text", Name: n.Fault})
	}
	return []Access{a}
}
