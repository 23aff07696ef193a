package ui

import "math"

// ActStrip is a line of what was done, in order of time: bursts as blocks as
// long as they lasted, other acts as small signs, each with a word. Clicks and
// arrows choose a moment and send SetFraction.
type ActStrip struct {
	ID     string
	Acts   []ActMark
	At     float64 // the moment chosen, 0 to 1; below 0 none
	Height float64 // 0 means 72
	Alt    string
}

// ActMark is one act of a strip. From and To are moments, 0 to 1.
type ActMark struct {
	From, To float64
	Label    string
	Burst    bool // the pedal was down
	Now      bool // still going on
	Mark     Mark // a caution that stopped it
}

func (n ActStrip) kind() string { return "ActStrip" }

func (n ActStrip) widths(c *canvas) (float64, float64) { return 200 * c.scale, 640 * c.scale }

func (n ActStrip) height(c *canvas) float64 {
	if n.Height > 0 {
		return n.Height * c.scale
	}
	return 72 * c.scale
}

func (n ActStrip) heights(c *canvas, _ float64) (float64, float64) {
	return n.height(c), n.height(c)
}

func (n ActStrip) place(c *canvas, r Rect) {
	s := c.role(Small)
	line := math.Round(r.Y + r.H - s.line - 8)
	c.fill(Rect{r.X, line, r.W, 1}, 0, Hairline)
	x := func(f float64) float64 { return r.X + 8 + (r.W-16)*math.Max(0, math.Min(1, f)) }
	free := r.X // labels do not run into each other
	for _, a := range n.Acts {
		x0, x1 := x(a.From), math.Max(x(a.To), x(a.From)+4)
		if a.Burst {
			col := Caution
			if a.Now {
				col = Indigo
			}
			h := math.Min(30*c.scale, line-r.Y-4)
			c.fill(Rect{x0, line - h, x1 - x0, h}, 0, col)
		} else {
			c.polyline([]Point{{x0 - 6, line - 2}, {x0, line - 12*c.scale}, {x0 + 6, line - 2}}, 2, Solid, QuietInk)
		}
		if a.Mark != MarkNone {
			c.icon(a.Mark, Rect{x0 - 8, r.Y, 16, 16})
		}
		if a.Label != "" && x0 >= free && x0+s.width(a.Label) <= r.X+r.W {
			c.text(s, x0, line+4+s.baseline(s.line), a.Label)
			free = x0 + s.width(a.Label) + 12
		}
	}
	if n.At >= 0 {
		c.fill(Rect{math.Round(x(n.At)) - 1, r.Y, 2, line - r.Y + 6}, 0, Ink)
	}
	if n.ID == "" {
		return
	}
	if c.focused(n.ID) {
		c.ring(r, corner)
	}
	c.hitTrack(n.ID, -1, r, Rect{r.X + 8, r.Y, r.W - 16, r.H})
	c.stop(n.ID, r, n, true)
}

func (n ActStrip) access() []Access {
	var rows []Access
	for _, a := range n.Acts {
		if a.Label != "" {
			rows = append(rows, Access{Role: "text", Name: a.Label})
		}
	}
	return append([]Access{{Role: "chart", ID: n.ID, Name: n.Alt}}, rows...)
}
