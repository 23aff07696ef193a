package window

import (
	"io"
	"time"

	"leastwatt/game/ui"
)

// Settings are asked before every frame, so that a change shows at once.
type Settings interface {
	Dark() bool
	TextScale() float64 // 1 to 2
	ReducedMotion() bool
	Sound() bool
}

// Config is what Run needs. Screen is required; the rest has defaults.
type Config struct {
	Screen   ui.Screen
	Settings Settings         // nil: light, text size 100 %
	Now      func() time.Time // for the repeat of held keys; nil: no repeat
	Title    string
	Width    int // logical px; 0 means 1280 by 800
	Height   int

	// Ready gets, before the first frame, a function that hands a message to
	// the screen from any goroutine and wakes the loop.
	Ready func(post func(msg any))
	// OnClose is called once when the window is about to close.
	OnClose func()
	// Copy and Paste reach the clipboard for text fields.
	Copy  func(text string)
	Paste func() string

	// SayTo gets the screen in words after every change of them, each time
	// followed by a line with what has the focus.
	SayTo io.Writer
	// ShotTo is a file that gets the frame as PNG after every change.
	ShotTo string
	// Scale overrides the monitor's device scale; 0 keeps it.
	Scale float64
	// Done closes the window when it is closed; nil never.
	Done <-chan struct{}
}

const (
	defaultW, defaultH = 1280, 800
	leastW, leastH     = 960, 640
)

func (c Config) look() (t *ui.Theme, textScale float64) {
	if c.Settings == nil {
		return ui.Light, 1
	}
	t = ui.Light
	if c.Settings.Dark() {
		t = ui.Dark
	}
	return t, max(1, min(c.Settings.TextScale(), 2))
}
