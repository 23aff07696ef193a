package ui

import (
	"strings"
	"unicode"
)

// insert replaces the selection of a field by text.
func (h *Host) insert(f Field, text string) {
	text = strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' {
			return ' '
		}
		if unicode.IsControl(r) {
			return -1
		}
		return r
	}, text)
	rs := []rune(f.Text)
	a, b := h.selection(rs)
	ins := []rune(text)
	out := string(rs[:a]) + text + string(rs[b:])
	h.st.Caret = a + len(ins)
	h.st.Anchor = h.st.Caret
	h.place = true
	if out != f.Text {
		h.send(Edited{f.ID, out})
	}
}

func (h *Host) selection(rs []rune) (a, b int) {
	a, b = clampInt(h.st.Anchor, 0, len(rs)), clampInt(h.st.Caret, 0, len(rs))
	if a > b {
		a, b = b, a
	}
	return a, b
}

// editKey handles the keys that edit or move in a field.
func (h *Host) editKey(f Field, k Key) bool {
	rs := []rune(f.Text)
	caret := clampInt(h.st.Caret, 0, len(rs))
	if k.Ctrl && !k.Alt {
		return h.editCommand(f, rs, k.Name, caret, k.Shift)
	}
	if k.Alt {
		return false
	}
	a, b := h.selection(rs)
	switch k.Name {
	case "Left":
		if a != b && !k.Shift {
			h.caretTo(a, false)
		} else {
			h.caretTo(max(0, caret-1), k.Shift)
		}
	case "Right":
		if a != b && !k.Shift {
			h.caretTo(b, false)
		} else {
			h.caretTo(min(len(rs), caret+1), k.Shift)
		}
	case "Home":
		h.caretTo(0, k.Shift)
	case "End":
		h.caretTo(len(rs), k.Shift)
	case "Backspace":
		if a == b {
			h.st.Anchor, h.st.Caret = max(0, caret-1), caret
		}
		h.insert(f, "")
	case "Delete":
		if a == b {
			h.st.Anchor, h.st.Caret = caret, min(len(rs), caret+1)
		}
		h.insert(f, "")
	default:
		return false
	}
	return true
}

func (h *Host) caretTo(at int, keepAnchor bool) {
	h.st.Caret = at
	if !keepAnchor {
		h.st.Anchor = at
	}
	h.place = true
}

func (h *Host) editCommand(f Field, rs []rune, name string, caret int, shift bool) bool {
	a, b := h.selection(rs)
	switch name {
	case "a":
		h.st.Anchor, h.st.Caret = 0, len(rs)
		h.place = true
	case "c", "x":
		if a == b || h.Copy == nil {
			return false
		}
		h.Copy(string(rs[a:b]))
		if name == "x" {
			h.insert(f, "")
		}
	case "v":
		if h.Paste == nil {
			return false
		}
		h.insert(f, h.Paste())
	case "Left":
		h.caretTo(wordEdge(rs, caret, -1), shift)
	case "Right":
		h.caretTo(wordEdge(rs, caret, 1), shift)
	case "Backspace":
		if a == b {
			h.st.Anchor, h.st.Caret = wordEdge(rs, caret, -1), caret
		}
		h.insert(f, "")
	default:
		return false
	}
	return true
}

// wordEdge is the next beginning (or end) of a word in a direction.
func wordEdge(rs []rune, at, dir int) int {
	next := func() int {
		if dir < 0 {
			return at - 1
		}
		return at
	}
	inside := func(i int) bool { return i >= 0 && i < len(rs) }
	for inside(next()) && rs[next()] == ' ' {
		at += dir
	}
	for inside(next()) && rs[next()] != ' ' {
		at += dir
	}
	return at
}
