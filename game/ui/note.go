package ui

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// undecided is what an open phrase reads.
const undecided = "not decided"

// Reads is the text the phrase shows.
func (p Phrase) Reads() string {
	if p.Text == "" && p.State == Open {
		return undecided
	}
	return p.Text
}

// phraseMargin is the empty width beside a phrase, besides the space: the ring
// (2 px off, 2 px wide) must stand clear of the neighbouring words.
const phraseMargin = 3

// pointGap is the empty width between a phrase and the punctuation that clings
// to it: the ring passes between them.
const pointGap = 1.8

func (n Note) kind() string { return "Note" }

func (n Note) style(c *canvas, strong, italic bool, col Color) style {
	if col == Auto {
		col = n.Color
	}
	return c.style(n.Role, col, strong, italic, false)
}

// atoms measures the spans. Inside a phrase words may break; what follows a
// phrase without a space clings to it.
func (n Note) atoms(c *canvas) []atom {
	var out []atom
	before := false
	for i, sp := range n.Spans {
		switch sp := sp.(type) {
		case Words:
			s := n.style(c, sp.Strong, sp.Italic, sp.Color)
			if sp.Small {
				line := s.line
				s = c.style(Small, sp.Color, sp.Strong, sp.Italic, false)
				s.line = line
			}
			out, before = words(out, sp.Text, s, i, before)
		case Link:
			start := len(out)
			s := n.style(c, false, false, Indigo)
			if utf8.RuneCountInString(sp.Text) <= whole {
				out, before = oneAtom(out, sp.Text, s, i, before), false
			} else {
				out, before = words(out, sp.Text, s, i, before)
			}
			for k := start; k < len(out); k++ {
				out[k].inside = true
			}
		case Cap:
			out = append(out, c.capAtom(sp.Text, n.style(c, false, false, Auto), i, before, len(out) > 0))
			before = false
		case Phrase:
			out = n.phraseAtoms(c, out, sp, i, before)
			before = false
		}
	}
	return settle(c, out)
}

// settle moves the room after a phrase behind the letters that cling to it,
// where it belongs. Punctuation stands outside the ring, which leaves it a gap.
func settle(c *canvas, atoms []atom) []atom {
	for i := 0; i+1 < len(atoms); i++ {
		switch {
		case atoms[i].trail == 0 || atoms[i+1].space != cling:
		case atoms[i].inside && punctuation(atoms[i+1].text):
			atoms[i].trail = pointGap * c.scale
		default:
			atoms[i+1].trail, atoms[i].trail = atoms[i].trail, 0
		}
	}
	return atoms
}

// whole is the length in runes up to which a phrase is never broken.
const whole = 16

func (n Note) phraseAtoms(c *canvas, out []atom, p Phrase, i int, before bool) []atom {
	col := Auto
	if p.State == Open || p.State == Resting {
		col = QuietInk
	}
	s := n.style(c, false, false, col)
	start := len(out)
	if text := p.Reads(); utf8.RuneCountInString(text) <= whole {
		out = oneAtom(out, text, s, i, before)
	} else {
		out, _ = words(out, text, s, i, before)
	}
	if len(out) == start {
		return out
	}
	for k := start; k < len(out); k++ {
		out[k].inside = true
	}
	if out[start].space != cling {
		out[start].lead = phraseMargin * c.scale
	}
	if p.Number > 0 {
		sup := c.style(Label, markColor(p.Mark), false, false, true)
		sup.size = math.Max(13, s.size*0.66)
		text := strconv.Itoa(p.Number)
		out = append(out, atom{
			text: text, style: sup, span: i, raised: s.size * 0.36, inside: true,
			space: cling, lead: 1.5 * c.scale, w: sup.width(text),
		})
	}
	out[len(out)-1].trail = phraseMargin * c.scale
	if p.Aside != "" {
		small := c.style(Small, Auto, false, false, true)
		small.line = s.line
		out, _ = words(out, p.Aside, small, i, true)
	}
	return out
}

func (n Note) widths(c *canvas) (float64, float64) {
	narrow, want := atomWidths(n.atoms(c), c.wordCap())
	limit := math.Ceil(c.longest(n.style(c, false, false, Auto), n.MaxW))
	return narrow, math.Max(narrow, math.Min(want, limit))
}

func (n Note) firstBaseline(c *canvas) float64 {
	s := n.style(c, false, false, Auto)
	return s.baseline(s.line)
}

func (n Note) lines(c *canvas, w float64) []line {
	return wrapAtoms(n.atoms(c), math.Min(w, c.longest(n.style(c, false, false, Auto), n.MaxW)))
}

func (n Note) heights(c *canvas, w float64) (float64, float64) {
	h := float64(max(1, len(n.lines(c, w)))) * n.style(c, false, false, Auto).line
	return h, h
}

// piece is the part of a phrase or link that stands on one line.
type piece struct {
	words Rect // the underlined words, full line height
	own   Rect // words and number: wash, ring
	box   Rect // with the clinging punctuation: hit
	base  float64
}

func (n Note) place(c *canvas, r Rect) {
	s := n.style(c, false, false, Auto)
	lines := n.lines(c, r.W)
	pieces := make([][]piece, len(n.Spans))
	for i, l := range lines {
		top := r.Y + float64(i)*s.line
		base := top + s.baseline(s.line)
		for _, lp := range linePieces(l) {
			p := piece{base: base}
			p.words = Rect{r.X + lp.x, top, lp.words, s.line}
			p.own = Rect{r.X + lp.x, top, lp.own, s.line}
			p.box = Rect{r.X + lp.x, top, lp.whole, s.line}
			pieces[lp.span] = append(pieces[lp.span], p)
		}
	}
	for i, sp := range n.Spans {
		if len(pieces[i]) > 0 {
			n.control(c, sp, pieces[i], s)
		}
	}
	for i, l := range lines {
		c.runs(l, r.X, r.Y+float64(i)*s.line+s.baseline(s.line))
	}
}

// linePiece is where a control stands in a line, relative to the line.
type linePiece struct {
	span                 int
	x, words, own, whole float64
}

// linePieces finds the runs of a line's atoms that belong to one control, and
// takes clinging punctuation into the whole.
func linePieces(l line) []linePiece {
	var out []linePiece
	for i := 0; i < len(l.atoms); {
		a := l.atoms[i]
		if !a.inside {
			i++
			continue
		}
		p := linePiece{span: a.span, x: a.x}
		for ; i < len(l.atoms) && l.atoms[i].inside && l.atoms[i].span == a.span; i++ {
			b := l.atoms[i]
			p.whole = b.x + b.w - p.x
			if b.raised == 0 {
				p.words = p.whole
			}
		}
		p.own = p.whole
		for k := i; k < len(l.atoms) && l.atoms[k].space == cling && punctuation(l.atoms[k].text); k++ {
			p.whole = l.atoms[k].x + l.atoms[k].w - 1 - p.x // a point ends before its advance
		}
		out = append(out, p)
	}
	return out
}

func punctuation(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return !unicode.IsPunct(r) }) < 0
}

// control draws what is behind and under a phrase or link and makes it
// operable. Its words are drawn by the caller, above this.
func (n Note) control(c *canvas, sp Span, ps []piece, s style) {
	u := s.size / 18 // unit of the marks' geometry: they grow with the text
	var id string
	var all Rect
	switch sp := sp.(type) {
	case Phrase:
		id = sp.ID
	case Link:
		id = sp.ID
	}
	for k, p := range ps {
		body := Rect{p.own.X, p.base - 18*u, p.own.W, 28 * u}
		if p.box.W > p.own.W {
			body.W -= 1.6 // the ring passes before the point
		}
		if l, ok := sp.(Phrase); ok {
			if l.Chosen {
				c.fill(body.Outset(ringGap), 3, Wash)
			} else if c.hovered(id, -1) {
				c.add(FillRect{body.Outset(ringGap), 3, mix(c.theme.Color(c.ground), c.theme.Color(Wash), 0.6)})
			}
			c.phraseLine(l, p, u)
		} else {
			c.fill(Rect{p.words.X, math.Round(p.base + 3*u), p.words.W, 1}, 0, Indigo)
		}
		if c.focused(id) {
			c.ring(body, 3)
		}
		c.hit(id, -1, Rect{p.box.X - 2, p.box.Y, p.box.W + 4, p.box.H})
		c.frame.Placed = append(c.frame.Placed, Placed{Kind: "Piece", ID: id, Rect: p.box, Parent: c.parent, Layer: c.layer})
		if k == 0 {
			all = p.box
		} else {
			x1 := math.Max(all.X+all.W, p.box.X+p.box.W)
			all.X = math.Min(all.X, p.box.X)
			all.W = x1 - all.X
			all.H = p.box.Y + p.box.H - all.Y
		}
	}
	c.stop(id, all, sp, true)
}

// phraseLine draws the line under a phrase's words: the shape of its mark, or
// of its state.
func (c *canvas) phraseLine(p Phrase, at piece, u float64) {
	x0, x1 := at.words.X, at.words.X+at.words.W
	y := math.Round(at.base + 6.5*u)
	switch {
	case p.Mark == MarkCredit:
		c.fill(Rect{x0, y, x1 - x0, 1}, 0, Credit)
	case p.Mark == MarkAdvice:
		c.dots(x0, x1, y+1, 2*u, QuietInk)
	case p.Mark == MarkCaution:
		c.wave(x0, x1, y+1.5*u, 1.7*u, 8*u, 1.5*u, Caution)
	case p.Mark == MarkNever:
		t := math.Max(1, math.Round(1.4*u))
		c.fill(Rect{x0, y, x1 - x0, t}, 0, Never)
		c.fill(Rect{x0, y + t + math.Max(2, math.Round(2*u)), x1 - x0, t}, 0, Never)
	case p.State == Decided:
		c.fill(Rect{x0, y, x1 - x0, math.Max(1, math.Round(1.6*u))}, 0, Indigo)
	case p.State == Resting:
		c.add(FillRect{Rect{x0, y, x1 - x0, 1}, 0, mix(c.theme.Color(Hairline), c.theme.Color(QuietInk), 0.5)})
	default:
		c.dashes(x0, x1, y, 5*u, 3*u, math.Max(1, math.Round(1.6*u)), Indigo)
	}
}
