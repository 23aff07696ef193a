package ui

import "image/color"

// style is a text style with every figure resolved: text size, theme, role.
type style struct {
	font    FontID
	size    float64 // px
	line    float64 // line height, px
	color   color.RGBA
	tabular bool
}

// roleSpec is a row of the table of roles, at text size 100 %.
type roleSpec struct {
	font, strong FontID
	size, line   float64
	color        Color
}

var roles = [...]roleSpec{
	Body:     {Sans, SansStrong, 16, 24, Ink},
	Quiet:    {Sans, SansStrong, 14, 20, QuietInk},
	Small:    {Sans, SansStrong, 13, 18, QuietInk},
	Label:    {SansStrong, SansStrong, 13, 18, QuietInk},
	Title:    {SerifStrong, SerifStrong, 19, 24, Ink},
	Heading:  {SerifStrong, SerifStrong, 24, 32, Ink},
	Verdict:  {SerifStrong, SerifStrong, 24, 32, Ink},
	Quote:    {Serif, SerifStrong, 18, 26, Ink},
	NoteRole: {Serif, SerifStrong, 18, 36, Ink},
	Figure:   {SerifStrong, SerifStrong, 44, 52, Ink},
	Unit:     {Serif, SerifStrong, 24, 52, Ink},
	itemRole: {Sans, SansStrong, 15, 22, Ink},
}

// style resolves a role. A zero Color keeps the role's own.
func (c *canvas) style(r Role, col Color, strong, italic, tabular bool) style {
	s := roles[r]
	f := s.font
	switch {
	case strong:
		f = s.strong
	case italic: // what a patient said: always in the serif
		f = SerifItalic
	}
	if col == Auto {
		col = s.color
	}
	st := style{font: f, size: s.size * c.scale, line: s.line * c.scale, color: c.theme.Color(col), tabular: tabular}
	if r == NoteRole && c.touch && st.line < touchHit {
		st.line = touchHit
	}
	return st
}

func (c *canvas) role(r Role) style { return c.style(r, Auto, false, false, false) }

func (s style) width(text string) float64 {
	return TextWidth(faceFor(s.font, text), s.size, s.tabular, text)
}

// baseline is where text stands in a line box of height h whose top is at 0:
// the font's extent is centred in the box, as books and browsers do.
func (s style) baseline(h float64) float64 {
	above, below := fontExtent(s.font, s.size)
	return (h-(above+below))/2 + above
}

// measureChars is about how many characters a comfortable line holds.
const measureChars = 75

// comfortable is the width of about 75 characters of running English.
func (s style) comfortable() float64 {
	const sample = "the least power that does the job is found by starting low and stepping up"
	return s.width(sample) / float64(len(sample)) * measureChars
}

// cut shortens text to fit w, ending in an ellipsis.
func (s style) cut(text string, w float64) string {
	if s.width(text) <= w {
		return text
	}
	rs := []rune(text)
	lo, hi := 0, len(rs)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if s.width(string(rs[:mid])+"…") <= w {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	for lo > 0 && rs[lo-1] == ' ' {
		lo--
	}
	return string(rs[:lo]) + "…"
}
