package ui

// Node is one part of a screen. The kinds are the exported struct types of
// this package and no others: a screen composes them and never draws.
//
// All lengths in nodes are logical pixels at device scale 1 and text size
// 100 %. Text and the controls around it grow with the text size; gaps and
// padding do not.
type Node interface {
	kind() string
	// widths gives the least width the node can be shown in and the width it
	// would like.
	widths(c *canvas) (least, want float64)
	// heights gives the same for the height at a width; only a Scroll, and
	// what holds one, can be less high than it would like.
	heights(c *canvas, w float64) (least, want float64)
	// place draws the node and makes it operable. Containers place children
	// through canvas.put.
	place(c *canvas, r Rect)
	// access describes the node and its children in words.
	access() []Access
}

// Align places children across the direction of a Row or Column, or the lines
// of a Text.
type Align uint8

// Stretch is the zero value: children of a Column take its full width and
// children of a Row its full height. For Text it means the same as Start.
const (
	Stretch Align = iota
	Start
	Middle
	End
	Baseline // Row only: first lines of text on one line, other children in the middle
)

// Pad is the space inside a container's edge, in logical pixels.
type Pad struct{ Top, Right, Bottom, Left float64 }

// PadAll gives the same padding on all four sides.
func PadAll(px float64) Pad { return Pad{px, px, px, px} }

// PadXY gives x left and right, y above and below.
func PadXY(x, y float64) Pad { return Pad{y, x, y, x} }

// Column stacks its children from top to bottom. Height left over goes to
// children wrapped in a Box with Grow (and to Spacers) by weight.
type Column struct {
	Children []Node // nil entries are skipped
	Gap      float64
	Pad      Pad
	Align    Align // across: Stretch, Start, Middle or End
}

// Row lays its children side by side. Each gets the width it wants if there is
// room; when there is not, children shrink towards the least width they can
// have. Width left over goes to children in a Box with Grow and to Spacers.
type Row struct {
	Children []Node // nil entries are skipped
	Gap      float64
	Pad      Pad
	Align    Align // across: Stretch, Start, Middle or End
	// Wrap lets children that do not fit begin a new line, LineGap below.
	Wrap    bool
	LineGap float64
}

// Box sets the size of one child. Zero values leave a size free. Width and
// MinW, MaxW count at text size 100 % and grow with it when Scale is set.
type Box struct {
	Child      Node
	Grow       float64 // share of the space left over along the parent
	Width      float64
	MinW, MaxW float64
	Height     float64 // exact height
	MinH       float64
	Scale      bool
	Align      Align // of the child inside the box, across and down: Stretch fills it
}

// Spacer is empty space: a fixed length along its parent, or, with Size 0,
// what is left over.
type Spacer struct{ Size float64 }

// Rule is a hairline across its parent: horizontal in a Column, vertical in a
// Row.
type Rule struct{}

// Sheet is the white card of the page: sheet colour, hairline border, corner
// radius 4.
type Sheet struct {
	Child Node
	Pad   Pad
}

// Scroll shows a part of a tall child. It is scrolled by the wheel, by Page Up,
// Page Down, Home and End, and by itself when the focus moves out of sight.
// The child is at least as high as the Scroll, so that it can put a line of
// buttons at the bottom. ID keeps the position between views.
type Scroll struct {
	ID    string
	Child Node
}

// Split puts up to three columns side by side: Left (a card), Main (what is
// worked on) and Margin. When the width, after counting the text size, no
// longer holds MainMin beside them, first the Margin moves below Main, then
// Left moves above it. Where there is more room than MainMax, the sides grow
// first, to less than double, so that a large window does not stretch the sheet.
type Split struct {
	Left, Main, Margin Node    // Left and Margin may be nil
	LeftW, MarginW     float64 // widths at text size 100 %; they grow with it
	MainMin            float64 // least width of Main at text size 100 %; 0 means 480
	MainMax            float64 // width of Main at text size 100 % from which the sides grow; 0 means 820
	Gap                float64 // 0 means 32
}

// Overlay is a dialog or help sheet above the page; while it is there nothing
// beneath can be reached by pointer or key. Escape that nothing inside consumes
// reaches the screen as Key{Name: "Escape"}. Put it in Page.Over.
type Overlay struct {
	ID    string
	Title string
	Child Node
	Width float64 // at text size 100 %; 0 means 560
}

// Toast is one quiet line at the right of the foot, in the place of the key
// tips. A screen shows it while it wants; it takes no focus.
type Toast struct{ Text string }

// Page is the root of a screen: top line, body, foot line.
type Page struct {
	Title   string   // serif, at the left of the top line: "Plan"
	Context []Span   // after it, quiet: Words, Italic, Key, Link
	Tabs    *Tabs    // at the right of the top line
	Body    Node     // padded by the page margin and scrolled when too tall
	Foot    string   // the caution
	Keys    []KeyTip // at the right of the foot line
	Over    *Overlay
	Toast   *Toast

	// Focus is the ID the screen wants to have the keyboard focus. The host
	// moves the focus when this differs from the previous view's value and
	// from where the focus already is. A screen that keeps it equal to the ID
	// of the last Focused message, and sets another when it wants to lead, is
	// always right.
	Focus string
}

// KeyTip is one key of the foot line with what it does.
type KeyTip struct{ Says, Key string }

// Grow lets a child take the space left over in its Row or Column.
func Grow(n Node) Node { return Box{Child: n, Grow: 1} }
