package window

import (
	"fmt"
	"io"

	"leastwatt/game/ui"
)

// sayer writes the screen in words whenever they change.
type sayer struct {
	to   io.Writer
	last string
}

// say writes the whole screen, then one line "-- focus: ..." with what the
// keyboard is on, as a screen reader would announce it. Where that is a set of
// ticks, a line "-- at: ..." before it names the tick the arrows stand on.
func (s *sayer) say(h *ui.Host) error {
	if s.to == nil {
		return nil
	}
	a := ui.Accessible(h.Tree())
	text := a.Text()
	focus := "-- focus: none"
	if at := a.Find(h.Focus()); at != nil {
		focus = "-- focus: " + at.ID + " " + at.Line()
	}
	if at := h.At(); at != "" {
		text += "-- at: " + at + "\n"
	}
	text += focus + "\n"
	if text == s.last {
		return nil
	}
	s.last = text
	if _, err := io.WriteString(s.to, text); err != nil {
		return fmt.Errorf("window: saying the screen: %w", err)
	}
	return nil
}
