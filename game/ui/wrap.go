package ui

import (
	"math"
	"strings"
	"unicode/utf8"
)

// atom is the smallest part of a paragraph that is measured: a word, a key cap
// or a superscript number.
type atom struct {
	text   string
	style  style
	span   int     // index of the span it comes from
	cap    bool    // a key cap: a bordered box around text
	raised float64 // px above the baseline (superscript)
	inside bool    // part of its phrase's box: underlined and in the ring
	// space is the width of the space before it, when a line may break there;
	// below 0 it clings to the atom before it.
	space float64
	lead  float64 // empty width before it, dropped at the beginning of a line
	trail float64 // empty width after it, dropped at the end of a line

	w float64 // its own width
	x float64 // its place in its line, once wrapped
}

const cling = -1

// line is a wrapped line of atoms.
type line struct {
	atoms []atom
	w     float64
}

// wrapAtoms breaks atoms into lines no wider than w, greedily: what is read in
// a box of changing width should keep its beginnings. An unbreakable group
// wider than w is cut between its atoms, then between its letters.
func wrapAtoms(atoms []atom, w float64) []line {
	var lines []line
	var cur line
	flush := func() {
		if len(cur.atoms) > 0 {
			lines = append(lines, cur)
		}
		cur = line{}
	}
	for i := 0; i < len(atoms); {
		j := i + 1
		for j < len(atoms) && atoms[j].space == cling {
			j++
		}
		group := atoms[i:j]
		i = j
		if len(cur.atoms) > 0 && !fits(&cur, group, w) {
			flush()
		}
		if len(cur.atoms) > 0 || groupWidth(group, true) <= w {
			appendGroup(&cur, group)
			continue
		}
		for _, a := range group { // too wide for any line: cut it
			for _, piece := range splitAtom(a, w) {
				if len(cur.atoms) > 0 && !fits(&cur, []atom{piece}, w) {
					flush()
				}
				appendGroup(&cur, []atom{piece})
			}
		}
	}
	flush()
	return lines
}

// groupWidth is the width of a group of clinging atoms. At the beginning of a
// line its lead is dropped; the trail of its last atom never counts, because a
// line that ends there does not need it.
func groupWidth(group []atom, first bool) float64 {
	w := 0.0
	for k, a := range group {
		if k > 0 || !first {
			w += a.lead
		}
		w += a.w
		if k < len(group)-1 {
			w += a.trail
		}
	}
	return w
}

func fits(l *line, group []atom, w float64) bool {
	last := l.atoms[len(l.atoms)-1]
	return l.w+last.trail+math.Max(0, group[0].space)+groupWidth(group, false) <= w+0.01
}

func appendGroup(l *line, group []atom) {
	for k, a := range group {
		x := l.w
		if len(l.atoms) > 0 {
			x += l.atoms[len(l.atoms)-1].trail + a.lead
			if k == 0 {
				x += math.Max(0, a.space)
			}
		}
		a.x = x
		l.atoms = append(l.atoms, a)
		l.w = x + a.w
	}
}

// splitAtom cuts a word that is wider than a line into pieces that fit, at
// least one letter each.
func splitAtom(a atom, w float64) []atom {
	if a.w <= w || a.cap || utf8.RuneCountInString(a.text) < 2 {
		return []atom{a}
	}
	var out []atom
	rs := []rune(a.text)
	for len(rs) > 0 {
		n := 1
		for n < len(rs) && a.style.width(string(rs[:n+1])) <= w {
			n++
		}
		p := a
		p.text = string(rs[:n])
		p.w = a.style.width(p.text)
		if len(out) > 0 {
			p.space, p.lead = cling, 0
		}
		if n < len(rs) {
			p.trail = 0
		}
		out = append(out, p)
		rs = rs[n:]
	}
	return out
}

// atomWidths gives the widest unbreakable group (capped, since a very long word
// can be cut) and the width of everything on one line.
func atomWidths(atoms []atom, longest float64) (narrow, wide float64) {
	one := line{}
	for i := 0; i < len(atoms); {
		j := i + 1
		for j < len(atoms) && atoms[j].space == cling {
			j++
		}
		narrow = math.Max(narrow, groupWidth(atoms[i:j], true))
		appendGroup(&one, atoms[i:j])
		i = j
	}
	return math.Min(math.Ceil(narrow), longest), math.Ceil(one.w)
}

// words splits running text into atoms of one style. before tells that the
// text before it ended in a space; the result tells the same of this text.
func words(dst []atom, text string, s style, span int, before bool) ([]atom, bool) {
	space := s.width(" ")
	text = typeset(text)
	for len(text) > 0 {
		if text[0] == ' ' {
			before = true
			text = text[1:]
			continue
		}
		word := text
		if i := strings.IndexByte(text, ' '); i >= 0 {
			word = text[:i]
		}
		text = text[len(word):]
		a := atom{text: word, style: s, span: span, space: cling, w: s.width(word)}
		if before && len(dst) > 0 {
			a.space = space
		}
		dst = append(dst, a)
		before = false
	}
	return dst, before
}

// oneAtom adds a text as a single atom, spaces and all: it is not broken unless
// it is wider than a line.
func oneAtom(dst []atom, text string, s style, span int, before bool) []atom {
	if text == "" {
		return dst
	}
	text = typeset(text)
	a := atom{text: text, style: s, span: span, space: cling, w: s.width(text)}
	if before && len(dst) > 0 {
		a.space = s.width(" ")
	}
	return append(dst, a)
}
