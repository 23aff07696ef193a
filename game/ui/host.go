package ui

import (
	"io/fs"
	"math"
	"sync"
)

// Host runs a Screen: it keeps focus, scroll positions, hover, carets and the
// last layout, and turns raw input into messages. It knows no window and no
// clock, so a test drives it as a window would.
//
// All methods belong to one goroutine, except Post.
type Host struct {
	// Copy and Paste reach the clipboard; nil means there is none.
	Copy  func(text string)
	Paste func() string

	screen Screen
	st     State
	size   Size
	frame  *Frame
	tree   Node

	stale   bool // the screen may show something else now
	place   bool // only the layout may differ (hover, scroll, focus)
	version int

	lastAsk   string // Page.Focus of the previous view
	lastIndex int    // place of the focus in tree order, for when its node goes
	beneath   string // focus to return to when the overlay closes
	overlaid  bool
	reveal    bool // scroll the focus into sight at the next layout

	pressed Hit
	down    bool
	drag    bool
	px, py  float64
	rolling bool // the wheel is scrolling; it goes on until the pointer moves
	wheel   float64

	mu    sync.Mutex
	inbox []any
	wake  func()
}

// NewHost runs a screen in a window of 1280 by 800 until SetSize says else.
func NewHost(s Screen) *Host {
	return &Host{
		screen: s, size: Size{1280, 800}, stale: true,
		st: State{
			Theme: Light, TextScale: 1, FocusOn: true,
			Scroll: map[string]float64{}, Cursor: map[string]int{},
		},
	}
}

// SetSize tells the window's size in logical px.
func (h *Host) SetSize(w, hgt float64) {
	if (h.size == Size{w, hgt}) {
		return
	}
	h.size = Size{w, hgt}
	h.resized()
}

// SetLook sets theme, text scale (1 to 2) and touch mode.
func (h *Host) SetLook(t *Theme, textScale float64, touch bool) {
	if h.st.Theme == t && h.st.TextScale == textScale && h.st.Touch == touch {
		return
	}
	scaled := h.st.TextScale != textScale
	h.st.Theme, h.st.TextScale, h.st.Touch = t, textScale, touch
	h.place = true
	if scaled {
		h.resized()
	}
}

func (h *Host) resized() {
	h.reveal = h.st.Focus != ""
	h.send(Resize{int(math.Round(h.size.W)), int(math.Round(h.size.H)), h.st.TextScale})
}

// Post hands a message to the screen from any goroutine; it is delivered at the
// next Frame.
func (h *Host) Post(msg any) {
	h.mu.Lock()
	h.inbox = append(h.inbox, msg)
	wake := h.wake
	h.mu.Unlock()
	if wake != nil {
		wake()
	}
}

// OnPost sets what wakes the loop when something was posted.
func (h *Host) OnPost(wake func()) {
	h.mu.Lock()
	h.wake = wake
	h.mu.Unlock()
}

func (h *Host) deliver() {
	h.mu.Lock()
	msgs := h.inbox
	h.inbox = nil
	h.mu.Unlock()
	for _, m := range msgs {
		h.send(m)
	}
}

func (h *Host) send(msg any) {
	h.screen.Update(msg)
	h.stale = true
}

// Tell sends a message that is neither pointer nor key: Drop, or one of the
// window's own.
func (h *Host) Tell(msg any) { h.send(msg) }

// Drop tells of files dropped on the window.
func (h *Host) Drop(name string, files fs.FS) { h.send(Drop{name, files}) }

// Blur tells that the window is no longer in use: drags and held keys end.
func (h *Host) Blur() {
	if s := h.Frame().Stop(h.pressed.ID); h.down && s != nil {
		if n, ok := s.Of.(Stage); ok {
			h.send(PointerUp{n.ID})
		}
	}
	h.down, h.drag = false, false
	h.st.FocusOn = false
	h.hover(Hit{}, false)
	h.send(FocusLost{})
}

// Regain tells that the window is in use again.
func (h *Host) Regain() {
	h.st.FocusOn = true
	h.send(FocusGained{})
}

// Focus is the ID that has the keyboard focus; "" none.
func (h *Host) Focus() string { return h.st.Focus }

// Tree is the view that Frame laid out last.
func (h *Host) Tree() Node {
	h.Frame()
	return h.tree
}

// Version rises when Frame gives something else to draw than before.
func (h *Host) Version() int { return h.version }

// Pending tells whether Frame has work to do.
func (h *Host) Pending() bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.stale || h.place || len(h.inbox) > 0 || h.frame == nil
}

// Frame gives the current layout, and makes a new one when something changed.
func (h *Host) Frame() *Frame {
	h.deliver()
	// A view may ask for the focus, which tells the screen, which may change
	// the view; a few rounds settle that.
	for range 4 {
		if !h.stale && !h.place && h.frame != nil {
			break
		}
		h.layout()
	}
	return h.frame
}

func (h *Host) layout() {
	if h.stale || h.tree == nil {
		h.tree = h.screen.View()
	}
	h.stale, h.place = false, false
	h.obeyAsk()
	f := Layout(h.tree, h.size, h.st)
	h.mindOverlay(f)
	if s := f.Stop(h.st.Focus); s != nil {
		h.lastIndex = indexOf(f.Stops, s.ID)
		h.clampCaret(s)
	}
	if h.reveal {
		h.reveal = false
		f = h.revealed(f)
	}
	if h.frame == nil || !sameOps(h.frame.Ops, f.Ops) {
		h.version++
	}
	h.frame = f
}

// obeyAsk moves the focus where the page asks for it.
func (h *Host) obeyAsk() {
	p, ok := h.tree.(Page)
	if !ok {
		return
	}
	if p.Focus != h.lastAsk && p.Focus != h.st.Focus && p.Focus != "" {
		h.setFocus(p.Focus)
	}
	h.lastAsk = p.Focus
}

// mindOverlay takes the focus into an overlay that opened and back when it
// closed.
func (h *Host) mindOverlay(f *Frame) {
	over := f.Layers > 1
	if over == h.overlaid {
		return
	}
	h.overlaid = over
	if !over {
		back := h.beneath
		h.beneath = ""
		if back != "" && f.Stop(h.st.Focus) == nil {
			h.setFocus(back)
		}
		return
	}
	if s := f.Stop(h.st.Focus); s != nil && s.Layer == 1 {
		return
	}
	h.beneath = h.st.Focus
	for _, s := range f.Stops {
		if s.Layer == 1 && s.Tab {
			h.setFocus(s.ID)
			return
		}
	}
	h.setFocus("")
}

// setFocus moves the focus and tells the screen.
func (h *Host) setFocus(id string) {
	if h.st.Focus == id {
		return
	}
	h.st.Focus = id
	h.reveal = true
	h.place = true
	h.st.Caret, h.st.Anchor = caretEnd, caretEnd
	h.send(Focused{id})
}

// caretEnd is a caret behind any text; the layout brings it to the real end.
const caretEnd = 1 << 30

// clampCaret keeps the caret inside the field's text, which the screen may have
// changed.
func (h *Host) clampCaret(s *Stop) {
	if f, ok := s.Of.(Field); ok {
		n := len([]rune(f.Text))
		h.st.Caret, h.st.Anchor = clampInt(h.st.Caret, 0, n), clampInt(h.st.Anchor, 0, n)
	}
}

// revealed scrolls until the focused control is in sight, and then, where they
// scroll apart from it, the place its editor stands at; and lays out again.
func (h *Host) revealed(f *Frame) *Frame {
	s := f.Stop(h.st.Focus)
	if s == nil {
		return f
	}
	own := s.Scroll
	f = h.inSight(f, s.ID, "")
	for i := range f.Stops {
		if o := f.Stops[i]; forOf(o) == h.st.Focus && o.Scroll != own {
			return h.inSight(f, o.ID, own)
		}
	}
	return f
}

// inSight scrolls from the innermost area of a stop outwards, up to the area
// named by until.
func (h *Host) inSight(f *Frame, id, until string) *Frame {
	in := f.Stop(id).Scroll
	for range 3 {
		a := areaOf(f, in)
		if a == nil || in == until {
			return f
		}
		in = a.In
		if h.scrollTo(*a, f.Stop(id).Rect) {
			f = Layout(h.tree, h.size, h.st)
		}
	}
	return f
}

func areaOf(f *Frame, id string) *Area {
	if id == "" {
		return nil
	}
	for i := range f.Areas {
		if f.Areas[i].ID == id {
			return &f.Areas[i]
		}
	}
	return nil
}

// revealEdge is how far inside the window a control that came into sight stands.
const revealEdge = 16

// nearTop is how close to the beginning of an area counts as the beginning: a
// control there brings its heading along.
const nearTop = 48

func (h *Host) scrollTo(a Area, r Rect) bool {
	off := h.st.Scroll[a.ID]
	to := off
	switch {
	case r.Y-revealEdge < a.View.Y || r.H+2*revealEdge > a.View.H:
		to += r.Y - revealEdge - a.View.Y
		if to < nearTop {
			to = 0
		}
	case r.Y+r.H+revealEdge > a.View.Y+a.View.H:
		to += r.Y + r.H + revealEdge - a.View.Y - a.View.H
	}
	return h.scrollBy(a, to-off)
}

// scrollBy moves an area and tells whether it moved.
func (h *Host) scrollBy(a Area, d float64) bool {
	over := math.Max(0, a.Content-a.View.H)
	off := math.Min(h.st.Scroll[a.ID], over)
	to := math.Round(math.Max(0, math.Min(off+d, over)))
	if to == h.st.Scroll[a.ID] {
		return false
	}
	h.st.Scroll[a.ID] = to
	h.place = true
	return true
}

func indexOf(stops []Stop, id string) int {
	for i, s := range stops {
		if s.ID == id {
			return i
		}
	}
	return -1
}
