package ui

// Role is the kind of a text: it gives family, size, line height and colour.
type Role uint8

// Sizes are logical px / line height, before the text size setting.
const (
	Body     Role = iota // sans 16/24, ink
	Quiet                // sans 14/20, quiet
	Small                // sans 13/18, quiet
	Label                // sans 13/18 semibold, quiet: names a group
	Title                // serif 19/24 semibold
	Heading              // serif 24/32 semibold
	Verdict              // serif 24/32 semibold, meant for a colour
	Quote                // serif 18/26
	NoteRole             // serif 18/36: the note, with room for marks
	Figure               // serif 44/52 semibold: a big number
	Unit                 // serif 24/52: the unit beside a Figure
	itemRole             // sans 15/22: labels of list items and buttons
)

// Color is a role in the theme's table, not a value.
type Color uint8

// Auto is the colour of the text's role.
const (
	Auto Color = iota
	Ink
	QuietInk
	Indigo
	Ember
	Credit
	Caution
	Never
	Hairline
	Paper
	SheetWhite
	Wash
)

// Text is a plain paragraph or line. It wraps at spaces; its longest line is
// about 75 characters even where there is more room. A no-break or thin space
// never breaks.
type Text struct {
	Text    string
	Role    Role
	Color   Color
	Strong  bool // semibold
	Italic  bool // always in the serif: what somebody said
	Tabular bool // figures of equal width
	Align   Align
	NoWrap  bool    // one line, cut with an ellipsis where it must be
	MaxW    float64 // longest line in px at text size 100 %; 0 means about 75 characters; -1 none
}

// Note is a flowing paragraph of spans: words, phrases that are controls, key
// caps, links, small quiet asides. The note of a plan is a Column of these with
// Role NoteRole (Gap 14); a line of help with key caps is one with Role Quiet.
type Note struct {
	Spans []Span
	Role  Role
	Color Color
	MaxW  float64 // as Text
}

// Span is a part of a Note: Words, Phrase, Cap or Link.
type Span interface{ span() }

// Words is running text. A space at its end or beginning (or at the beginning
// of the next span) is where a line may break; without one the two cling
// together, so punctuation after a Phrase never begins a line.
type Words struct {
	Text   string
	Strong bool
	Italic bool
	Small  bool // the size and colour of Small, on the same baseline
	Color  Color
}

// Mark is how a finding marks a phrase. The line under the phrase has a shape
// for each, so that nothing is told by colour alone.
type Mark uint8

// MarkNone leaves the phrase's own line.
const (
	MarkNone    Mark = iota
	MarkCredit       // thin line
	MarkAdvice       // dotted line
	MarkCaution      // wavy line
	MarkNever        // double line
)

// PhraseState says how far a phrase is decided.
type PhraseState uint8

// Decided is the zero value.
const (
	Decided PhraseState = iota
	Open                // dashed line, quiet text; Text "" reads "not decided"
	Unseen              // filled in but not looked at yet: dashed line, ink text
	Resting             // an optional part left out: "no margin"; quiet text, thin quiet line
)

// StepKind says what one step of an arrow key or the wheel means on a phrase.
type StepKind uint8

// StepNumber: up means more. StepList: down means the next item. Either way
// the message is Step{By: +1} for more or next. StepNone sends no Step, and
// arrows scroll as on plain ground.
const (
	StepNumber StepKind = iota
	StepList
	StepNone
)

// Phrase is an inline control in a Note. Arrows and the wheel send Step; Enter,
// Space and a click send Activate; typed characters go to the screen as
// TextInput while Screen.WantsText, else as Key.
type Phrase struct {
	ID     string
	Text   string // what it reads now: "7.0\u2009W" (see Qty)
	Name   string // accessible name: "power while the pedal is down"
	State  PhraseState
	Mark   Mark
	Number int    // superscript after the phrase; 0 none
	Aside  string // small quiet words after it: "30 mg, 0.4 mg/kg"
	Chosen bool   // wash behind it: its editor is open
	Steps  StepKind
}

// Cap is a key cap inside running text.
type Cap struct{ Text string }

// Link is an inline control that reads as a link; it sends Activate.
type Link struct{ ID, Text string }

func (Words) span()  {}
func (Phrase) span() {}
func (Cap) span()    {}
func (Link) span()   {}

// Qty writes a quantity with a thin space between figure and unit, which the
// kit never breaks: Qty("7.0", "W").
func Qty(figure, unit string) string { return figure + "\u2009" + unit }
