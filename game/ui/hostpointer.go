package ui

import "math"

// Move tells where the pointer is, in logical px.
func (h *Host) Move(x, y float64) {
	f := h.Frame()
	if x != h.px || y != h.py {
		h.rolling = false
	}
	h.px, h.py = x, y
	if h.drag {
		h.dragTo(x, y)
		return
	}
	hit, ok := f.At(x, y)
	h.hover(hit, ok)
	if s := f.Stop(hit.ID); ok && s != nil {
		if n, stage := s.Of.(Stage); stage {
			fx, fy := stagePoint(hit.Track, x, y)
			h.send(Pointed{n.ID, fx, fy})
		}
	}
}

func (h *Host) hover(hit Hit, ok bool) {
	id, part := "", 0
	if ok {
		id, part = hit.ID, hit.Part
	}
	if id == h.st.Hover && part == h.st.HoverPart {
		return
	}
	h.st.Hover, h.st.HoverPart = id, part
	h.place = true
}

// OverControl tells whether the pointer stands on something operable.
func (h *Host) OverControl() bool { return h.st.Hover != "" }

// Press tells that the main button went down.
func (h *Host) Press(x, y float64) {
	h.Move(x, y)
	f := h.Frame()
	hit, ok := f.At(x, y)
	if !ok {
		return
	}
	h.pressed, h.down = hit, true
	s := f.Stop(hit.ID)
	if s == nil {
		return
	}
	h.setFocus(focusFor(*s))
	switch n := s.Of.(type) {
	case Dial, ActStrip:
		h.drag = true
		h.dragTo(x, y)
	case Stage:
		h.drag = true
		fx, fy := stagePoint(hit.Track, x, y)
		h.send(PointerDown{n.ID, fx, fy})
	case Field:
		at := n.caretAt(h.st.TextScale, hit.Track, h.st.Focus == n.ID, clampInt(h.st.Caret, 0, len([]rune(n.Text))), x)
		h.st.Caret, h.st.Anchor = at, at
		h.drag = true
		h.place = true
	}
}

// focusFor is what takes the focus when a control is pressed: the phrase it
// edits, or itself.
func focusFor(s Stop) string {
	if id := forOf(s); id != "" {
		return id
	}
	return s.ID
}

// forOf is the phrase that a control edits; "" when it stands for itself.
func forOf(s Stop) string {
	switch n := s.Of.(type) {
	case Dial:
		return n.For
	case ChoiceList:
		return n.For
	case Ticks:
		return n.For
	}
	return ""
}

func (h *Host) dragTo(x, y float64) {
	s := h.frame.Stop(h.pressed.ID)
	if s == nil {
		return
	}
	tr := h.pressed.Track
	switch n := s.Of.(type) {
	case Dial:
		h.send(SetFraction{n.ID, within(x, tr.X, tr.X+tr.W)})
	case ActStrip:
		h.send(SetFraction{n.ID, within(x, tr.X, tr.X+tr.W)})
	case Stage:
		fx, fy := stagePoint(tr, x, y)
		h.send(Pointed{n.ID, fx, fy})
	case Field:
		at := n.caretAt(h.st.TextScale, tr, true, h.st.Caret, x)
		if at != h.st.Caret {
			h.st.Caret = at
			h.place = true
		}
	}
}

// Release tells that the main button came up; on the part that was pressed it
// is a click.
func (h *Host) Release(x, y float64) {
	if !h.down {
		return
	}
	dragged := h.drag
	h.down, h.drag = false, false
	f := h.Frame()
	if s := f.Stop(h.pressed.ID); s != nil {
		if n, ok := s.Of.(Stage); ok {
			h.send(PointerUp{n.ID})
		}
	}
	hit, ok := f.At(x, y)
	if !ok || dragged || hit.ID != h.pressed.ID || hit.Part != h.pressed.Part {
		h.hover(hit, ok)
		return
	}
	if s := f.Stop(hit.ID); s != nil {
		h.clicked(*s, hit.Part)
	}
	h.Move(x, y)
}

func (h *Host) clicked(s Stop, part int) {
	switch n := s.Of.(type) {
	case Phrase, Link, Button, MarginMark:
		h.send(Activate{s.ID})
	case ChoiceList:
		h.send(Choose{n.ID, part})
	case Ticks:
		h.st.Cursor[n.ID] = part
		h.send(Choose{n.ID, part})
	case Tabs:
		h.st.Cursor[n.ID] = part
		h.send(Choose{n.ID, part})
	case List:
		if part == n.Chosen {
			h.send(Activate{n.ID})
			return
		}
		h.send(Choose{n.ID, part})
	}
}

// Click presses and releases at one place.
func (h *Host) Click(x, y float64) {
	h.Press(x, y)
	h.Release(x, y)
}

// wheelStep is how far one notch of the wheel scrolls, px at text size 100 %.
const wheelStep = 56

// Wheel tells of notches of the wheel, + is away from the user. Over a phrase or
// dial it sends Step, elsewhere it scrolls. While it scrolls it goes on
// scrolling until the pointer moves, so that text gliding under the pointer is
// never changed by accident.
func (h *Host) Wheel(x, y, dy float64) {
	f := h.Frame()
	if !h.rolling {
		if hit, ok := f.At(x, y); ok {
			if s := f.Stop(hit.ID); s != nil && h.wheelOn(*s, dy) {
				return
			}
		}
	}
	for i := len(f.Areas) - 1; i >= 0; i-- { // inner ones come later
		a := f.Areas[i]
		if a.Layer != f.Layers-1 || a.Content <= a.View.H || !a.View.Outset(pageEdge).Has(x, y) {
			continue
		}
		if h.scrollBy(a, -dy*wheelStep*h.st.TextScale) {
			h.rolling = true
			return
		}
	}
}

func (h *Host) wheelOn(s Stop, dy float64) bool {
	sign := 1.0
	switch n := s.Of.(type) {
	case Dial, Stage:
	case Phrase:
		switch n.Steps {
		case StepNone:
			return false
		case StepList:
			sign = -1
		}
	default:
		return false
	}
	// A trackpad gives parts of notches; they add up to whole steps.
	if h.wheel*dy < 0 {
		h.wheel = 0
	}
	h.wheel += dy
	if n := math.Trunc(h.wheel); n != 0 {
		h.wheel -= n
		h.send(Step{s.ID, int(sign * n)})
	}
	return true
}
