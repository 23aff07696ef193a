package ui

import "math"

func (t Text) kind() string { return "Text" }

func (t Text) style(c *canvas) style { return c.style(t.Role, t.Color, t.Strong, t.Italic, t.Tabular) }

// longest is the widest a line may be.
func (c *canvas) longest(s style, maxW float64) float64 {
	switch {
	case maxW < 0:
		return math.Inf(1)
	case maxW > 0:
		return maxW * c.scale
	}
	return s.comfortable()
}

// wordCap is the least width a paragraph claims for an unbreakable word; wider
// ones (paths, ids) are cut instead of pushing their neighbours out.
func (c *canvas) wordCap() float64 { return 180 * c.scale }

func (t Text) widths(c *canvas) (narrow, want float64) {
	s := t.style(c)
	if t.NoWrap {
		w := math.Ceil(s.width(t.Text))
		return math.Min(w, 3*s.size), w
	}
	atoms, _ := words(nil, t.Text, s, 0, false)
	narrow, want = atomWidths(atoms, c.wordCap())
	return narrow, math.Max(narrow, math.Min(want, math.Ceil(c.longest(s, t.MaxW))))
}

func (t Text) firstBaseline(c *canvas) float64 {
	s := t.style(c)
	return s.baseline(s.line)
}

func (t Text) lines(c *canvas, w float64) []line {
	s := t.style(c)
	atoms, _ := words(nil, t.Text, s, 0, false)
	return wrapAtoms(atoms, math.Min(w, c.longest(s, t.MaxW)))
}

func (t Text) heights(c *canvas, w float64) (float64, float64) {
	s := t.style(c)
	n := 1
	if !t.NoWrap {
		n = max(1, len(t.lines(c, w)))
	}
	h := float64(n) * s.line
	return h, h
}

func (t Text) place(c *canvas, r Rect) {
	s := t.style(c)
	if t.NoWrap {
		c.textIn(s, Rect{r.X, r.Y, r.W, s.line}, t.Align, t.Text)
		return
	}
	for i, l := range t.lines(c, r.W) {
		x := r.X
		switch t.Align {
		case Middle:
			x += (r.W - l.w) / 2
		case End:
			x += r.W - l.w
		}
		c.runs(l, x, r.Y+float64(i)*s.line+s.baseline(s.line))
	}
}

// runs draws a line's words, neighbours of one style and span as one run, so
// that the shaper sets the space between them.
func (c *canvas) runs(l line, x, y float64) {
	for i := 0; i < len(l.atoms); {
		a := l.atoms[i]
		text, end := a.text, a.x+a.w
		j := i + 1
		for ; j < len(l.atoms) && joins(l.atoms[j-1], l.atoms[j]); j++ {
			if l.atoms[j].space != cling {
				text += " "
			}
			text += l.atoms[j].text
			end = l.atoms[j].x + l.atoms[j].w
		}
		switch {
		case a.cap:
			c.capBox(a, x+a.x, y)
		default:
			c.add(TextRun{faceFor(a.style.font, text), a.style.size, a.style.tabular, x + a.x, y - a.raised, end - a.x, drawable(text), a.style.color})
		}
		i = j
	}
}

func joins(a, b atom) bool {
	return !a.cap && !b.cap && a.span == b.span && a.style == b.style && a.raised == b.raised && a.trail == 0 && b.lead == 0 &&
		faceFor(a.style.font, a.text) == a.style.font && faceFor(b.style.font, b.text) == b.style.font
}
