package ui

import "math"

// Size of a window in logical pixels.
type Size struct{ W, H float64 }

// State is what the host remembers between views and a layout depends on,
// besides the tree.
type State struct {
	Theme     *Theme // nil means Light
	TextScale float64
	Touch     bool

	Focus     string // ID that has the focus; "" none
	FocusOn   bool   // the ring shows (the window is in use)
	Hover     string // ID under the pointer; "" none
	HoverPart int
	Scroll    map[string]float64 // offset by Scroll ID, px
	Cursor    map[string]int     // row of the cursor in Ticks and Tabs
	Caret     int                // in the focused Field, runes from its start
	Anchor    int                // other end of its selection
}

// PageScroll is the ID of the scroll that every Page wraps around its body.
const PageScroll = "page"

const (
	minHit   = 32 // px, least height of what can be pressed
	touchHit = 44
	ringGap  = 2 // px between a control and its focus ring
	ringW    = 2 // px, width of the ring
	corner   = 4 // px, corner radius of sheets and buttons
	pageEdge = 32
)

// Placed is a placed node, for tests and for whatever wants to know where
// something is.
type Placed struct {
	Kind   string // the node's type: "Column"
	ID     string
	Rect   Rect
	Parent int // index in Frame.Placed; -1 for the root
	Layer  int // 0 page, 1 overlay
}

// Hit is a place that answers the pointer. Part is a list's item index, and -1
// where there are no parts.
type Hit struct {
	ID    string
	Part  int
	Rect  Rect // already clipped
	Track Rect // for a dial's slider: the whole track; empty else
	Layer int
}

// Stop is an operable node in tree order.
type Stop struct {
	ID     string
	Rect   Rect   // unclipped, union of all its lines
	Of     any    // the node or span itself: Phrase, Button, ...
	Tab    bool   // reached by the Tab key
	Scroll string // ID of the scroll it is in; "" none
	Layer  int
}

// Area is a Scroll as placed.
type Area struct {
	ID      string
	View    Rect
	Content float64 // height of what it shows
	In      string  // ID of the scroll it is in itself; "" none
	Layer   int
}

// Frame is a laid out view: what to draw, and what is where.
type Frame struct {
	Size   Size
	Ops    []Op
	Placed []Placed
	Hits   []Hit
	Stops  []Stop
	Areas  []Area
	Layers int // 1, or 2 with an overlay
}

// canvas is the state of one layout run.
type canvas struct {
	theme *Theme
	scale float64
	touch bool
	st    State

	frame  *Frame
	clip   Rect
	parent int
	layer  int
	scroll string
	ground Color // what the node stands on: Paper, SheetWhite or Wash
}

// Layout places a tree in a window of the given size.
func Layout(root Node, size Size, st State) *Frame {
	if st.Theme == nil {
		st.Theme = Light
	}
	if st.TextScale <= 0 {
		st.TextScale = 1
	}
	c := &canvas{
		theme: st.Theme, scale: st.TextScale, touch: st.Touch, st: st,
		frame: &Frame{Size: size, Layers: 1}, parent: -1, ground: Paper,
	}
	all := Rect{0, 0, size.W, size.H}
	c.clip = all
	c.fill(all, 0, Paper)
	c.put(root, all)
	return c.frame
}

// put places a child and records it; containers call it, never place.
func (c *canvas) put(n Node, r Rect) {
	if isNil(n) {
		return
	}
	saved := c.parent
	c.frame.Placed = append(c.frame.Placed, Placed{Kind: n.kind(), ID: idOf(n), Rect: r, Parent: c.parent, Layer: c.layer})
	c.parent = len(c.frame.Placed) - 1
	n.place(c, r)
	c.parent = saved
}

func (c *canvas) add(op Op) { c.frame.Ops = append(c.frame.Ops, op) }

func (c *canvas) fill(r Rect, radius float64, col Color) {
	c.add(FillRect{r, radius, c.theme.Color(col)})
}

func (c *canvas) stroke(r Rect, radius, w float64, col Color) {
	c.add(StrokeRect{r, radius, w, c.theme.Color(col)})
}

// border draws a hairline just inside a rectangle.
func (c *canvas) border(r Rect, radius float64, col Color) {
	c.stroke(r.Outset(-0.5), math.Max(0, radius-0.5), 1, col)
}

// text draws one line with its pen at x and its baseline at y.
func (c *canvas) text(s style, x, y float64, text string) float64 {
	if text == "" {
		return 0
	}
	w := s.width(text)
	c.add(TextRun{faceFor(s.font, text), s.size, s.tabular, x, y, w, drawable(text), s.color})
	return w
}

// textIn draws one line in a box: cut to its width, aligned, and centred down.
func (c *canvas) textIn(s style, r Rect, a Align, text string) {
	text = s.cut(text, r.W+0.01)
	x := r.X
	switch a {
	case Middle:
		x += (r.W - s.width(text)) / 2
	case End:
		x += r.W - s.width(text)
	}
	c.text(s, x, r.Y+s.baseline(r.H), text)
}

// ring draws the focus ring around a control.
func (c *canvas) ring(r Rect, radius float64) {
	d := ringGap + ringW/2.0
	c.stroke(r.Outset(d), radius+d, ringW, Indigo)
}

// hit lets a rectangle answer the pointer, at least as high as a finger or a
// pointer needs.
func (c *canvas) hit(id string, part int, r Rect) { c.hitTrack(id, part, r, Rect{}) }

func (c *canvas) hitTrack(id string, part int, r, track Rect) {
	if d := c.minHit() - r.H; d > 0 {
		r.Y -= d / 2
		r.H += d
	}
	r = r.Intersect(c.clip)
	if r.Empty() {
		return
	}
	c.frame.Hits = append(c.frame.Hits, Hit{id, part, r, track, c.layer})
}

// minHit is the least height of what can be pressed. It does not shrink with
// the text and grows with it.
func (c *canvas) minHit() float64 {
	if c.touch {
		return touchHit
	}
	return minHit
}

func (c *canvas) stop(id string, r Rect, of any, tab bool) {
	c.frame.Stops = append(c.frame.Stops, Stop{id, r, of, tab, c.scroll, c.layer})
}

// focused tells whether a control shows the focus ring.
func (c *canvas) focused(id string) bool { return id != "" && c.st.FocusOn && c.st.Focus == id }

// hovered tells whether the pointer is on a part (-1: any part).
func (c *canvas) hovered(id string, part int) bool {
	return id != "" && c.st.Hover == id && (part < 0 || c.st.HoverPart == part)
}

// clipped runs f with a narrower clip and restores it.
func (c *canvas) clipped(r Rect, f func()) {
	saved := c.clip
	c.clip = c.clip.Intersect(r)
	c.add(Clip{c.clip})
	f()
	c.clip = saved
	c.add(Clip{c.clip})
}

// on runs f with another ground under it.
func (c *canvas) on(ground Color, f func()) {
	saved := c.ground
	c.ground = ground
	f()
	c.ground = saved
}

// At gives the topmost hit under a point.
func (f *Frame) At(x, y float64) (Hit, bool) {
	for i := len(f.Hits) - 1; i >= 0; i-- {
		h := f.Hits[i]
		if h.Layer == f.Layers-1 && h.Rect.Has(x, y) {
			return h, true
		}
	}
	return Hit{}, false
}

// Stop gives an operable node by its ID, nil when there is none.
func (f *Frame) Stop(id string) *Stop {
	if id == "" {
		return nil
	}
	for i := range f.Stops {
		if f.Stops[i].ID == id {
			return &f.Stops[i]
		}
	}
	return nil
}

// Find gives the first placed node with an ID, and whether there is one.
func (f *Frame) Find(id string) (Placed, bool) {
	for _, p := range f.Placed {
		if p.ID == id {
			return p, true
		}
	}
	return Placed{}, false
}

// idOf is the ID of a node that has one.
func idOf(n Node) string {
	switch n := n.(type) {
	case Scroll:
		return n.ID
	case Overlay:
		return n.ID
	case Button:
		return n.ID
	case ChoiceList:
		return n.ID
	case Ticks:
		return n.ID
	case Dial:
		return n.ID
	case Field:
		return n.ID
	case Tabs:
		return n.ID
	case List:
		return n.ID
	case MarginMark:
		return n.ID
	case Picture:
		return n.ID
	}
	return ""
}
