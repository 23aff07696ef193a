package ui

import "io/fs"

// The messages a Screen gets. Screens switch on them and ignore those they do
// not know.

// Activate: a click, Enter, or Space on a control.
type Activate struct{ ID string }

// Focused: the keyboard focus moved to ID; "" means to nothing.
type Focused struct{ ID string }

// Choose: an item of a list was chosen, or a tick or tab pressed.
type Choose struct {
	ID    string
	Index int
}

// Step: arrows or wheel on a dial or phrase; By counts steps, + is more or next.
type Step struct {
	ID string
	By int
}

// SetFraction: a slider was dragged to F, 0 to 1.
type SetFraction struct {
	ID string
	F  float64
}

// Pointed: the pointer moved over a Stage; X and Y are parts of its width and
// height.
type Pointed struct {
	ID   string
	X, Y float64
}

// PointerDown: the main button, or a finger, went down on a Stage.
type PointerDown struct {
	ID   string
	X, Y float64
}

// PointerUp: it came up again, wherever that was.
type PointerUp struct{ ID string }

// Elapsed: so much time has gone by since the last one, while the screen is
// Live.
type Elapsed struct{ MS int }

// TextInput: characters typed for the focused phrase or dial while the screen
// WantsText. Backspace arrives as Key.
type TextInput struct{ ID, Text string }

// Edited: a Field's whole new text.
type Edited struct{ ID, Text string }

// Key: a key that no control consumed. Name is the character typed ("n",
// "?", "7") or a name: Escape, Enter, Space, Tab, Backspace, Delete, Up, Down,
// Left, Right, PageUp, PageDown, Home, End, F1 to F12. With Ctrl or Alt a
// letter is in lower case, whatever Shift says.
type Key struct {
	Name             string
	Ctrl, Alt, Shift bool
}

// KeyUp: any key was let go.
type KeyUp struct{ Name string }

// Resize: the window or the text size changed. W and H are logical pixels.
type Resize struct {
	W, H      int
	TextScale float64
}

// Drop: files were dropped on the window.
type Drop struct {
	Name string // of the first file or folder dropped
	FS   fs.FS
}

// FocusLost: the window is no longer the one in use; held keys have ended.
type FocusLost struct{}

// FocusGained: the window is in use again.
type FocusGained struct{}

// Live is a screen in which time goes by: while Live is true it gets Elapsed
// before every frame.
type Live interface{ Live() bool }

// Screen is one place of the program, as the host and the plain mode see it.
type Screen interface {
	Update(msg any)
	View() Node
	// WantsText is true while typed characters belong to an open editor, not
	// to single-key commands.
	WantsText() bool
}
