package ui

// ButtonKind is the weight of a button.
type ButtonKind uint8

// Primary is filled indigo and there is at most one in sight; Secondary has a
// border; QuietLink reads as a link.
const (
	Secondary ButtonKind = iota
	Primary
	QuietLink
)

// Button sends Activate.
type Button struct {
	ID    string
	Label string
	Kind  ButtonKind
	Hint  string // key cap shown beside the label; the screen handles the key
	Off   bool   // shown quiet, takes no focus, sends nothing
	Why   string // accessible description, and why it is off
}

// Keycap shows a key: "Tab", "Alt 1–4".
type Keycap struct{ Text string }

// ChoiceItem is one line of a ChoiceList or Ticks.
type ChoiceItem struct {
	Label string
	Says  string // one line of explanation; may be empty
	Hint  string // key cap at the right; may be empty
	Off   bool
}

// ChoiceList offers one of several. Up and Down and a click send Choose; Enter
// sends Activate. Chosen -1 means none yet.
type ChoiceList struct {
	ID     string
	Name   string // accessible name
	Items  []ChoiceItem
	Chosen int
	// For is the ID of the phrase this edits. When set, the list is no stop of
	// the Tab key and a click on it leaves the focus on that phrase, whose
	// arrows arrive as Step{ID: phrase}.
	For string
	// Columns puts the items in so many columns where there is room, reading
	// down; 0 means one.
	Columns int
}

// Ticks offers any of several. Up and Down move a cursor that the host keeps;
// Space, Enter and a click send Choose with the index to toggle.
type Ticks struct {
	ID     string
	Name   string
	Items  []ChoiceItem
	Ticked []bool // by item; shorter means not ticked
	// For is as in ChoiceList, but here arrows and Space pressed on that
	// phrase work on the ticks: Space sends Choose{ID: ticks}. Enter then sends
	// Activate{ID: phrase}: it takes what is ticked.
	For     string
	Columns int // as in ChoiceList
}

// DialTick is a labelled place on a dial's track.
type DialTick struct {
	At    float64 // 0 to 1 along the track
	Label string
}

// Dial is a number: big figure with unit, a track to drag, labelled ticks. The
// screen owns the value and its steps; the dial only says where on the track it
// stands. Arrows and the wheel send Step, Page Up and Down Step by 10, dragging
// SetFraction, Home and End SetFraction 0 and 1.
type Dial struct {
	ID     string
	Name   string  // accessible name
	Figure string  // "7.0"; "" while not decided
	Unit   string  // "W"
	At     float64 // 0 to 1; below 0: not set, no knob
	Ticks  []DialTick
	Typing bool   // the figure shows Typed with a caret instead
	Typed  string // what was typed so far
	Fault  string // one line below in caution colour: "0.1 to 35 W"
	Small  bool   // one line: name, short track, value ("Sure of Safe?")
	For    string // as in ChoiceList; typed digits then arrive as TextInput for the phrase
}

// Field is a single line of text. The host keeps the caret and does the
// editing; every change sends Edited with the whole new text, Enter sends
// Activate.
type Field struct {
	ID   string
	Name string // label above it
	Text string
	Hint string // quiet words while it is empty
	Hide bool   // no label above; Name is only the accessible name
}

// Tab is one entry of the top line.
type Tab struct {
	Label string
	Hint  string // key cap; may be empty
	Off   bool
}

// Tabs are the places of the top line, one stop of the Tab key: Left and Right
// move, Enter or a click sends Choose.
type Tabs struct {
	ID   string
	Name string
	Tabs []Tab
	At   int    // the tab one is in
	Hint string // one key cap for all: "Alt 1–4"
}

// ListRow is a row of a List: picture, two lines, words at the right.
type ListRow struct {
	Thumb *Picture // drawn 64 px square; nil for none
	Title string   // serif
	Says  string   // quiet line below
	Right string   // quiet, at the right
	Mark  Mark     // icon before the title; MarkNone for none
}

// List is rows on one sheet, one stop of the Tab key. Up, Down and a click
// send Choose; Enter, and a click on the chosen row, send Activate.
type List struct {
	ID     string
	Name   string
	Rows   []ListRow
	Chosen int
}
