package window

import (
	"io/fs"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"

	"leastwatt/game/ui"
)

// input reads what happened since the last frame and tells the host.
type input struct {
	keys    []ebiten.Key
	chars   []rune
	x, y    int
	inUse   bool // the window had the focus
	heldKey ui.Key
	heldOf  ebiten.Key
	holding bool
	again   time.Time // when the held key repeats
	pressed bool      // the main button is down
	orphan  bool      // it was down when the window lost the focus
}

const (
	repeatAfter = 400 * time.Millisecond
	repeatEvery = 40 * time.Millisecond
)

// read tells the host what happened and reports whether the user is at the
// keys or the pointer right now.
func (in *input) read(h *ui.Host, scale float64, now func() time.Time) (busy bool) {
	in.focus(h)
	used := in.pointer(h, scale)
	in.keyboard(h, now)
	in.dropped(h)
	in.keys = inpututil.AppendPressedKeys(in.keys[:0])
	return used || len(in.keys) > 0 || len(in.chars) > 0 || ebiten.IsMouseButtonPressed(ebiten.MouseButtonLeft) || len(ebiten.AppendTouchIDs(nil)) > 0
}

func (in *input) focus(h *ui.Host) {
	now := ebiten.IsFocused()
	switch {
	case in.inUse && !now:
		in.holding = false
		in.orphan = in.orphan || in.pressed
		h.Blur()
	case !in.inUse && now:
		h.Regain()
	}
	in.inUse = now
}

func (in *input) pointer(h *ui.Host, scale float64) (used bool) {
	x, y := ebiten.CursorPosition()
	fx, fy := float64(x)/scale, float64(y)/scale
	if x != in.x || y != in.y {
		in.x, in.y, used = x, y, true
		h.Move(fx, fy)
	}
	if inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonLeft) {
		// A button that was down when the focus went counts as let go then; when
		// it truly comes up, the library reports a click that nobody made.
		if in.pressed = !in.orphan; in.pressed {
			h.Press(fx, fy)
		}
		in.orphan = false
	}
	if inpututil.IsMouseButtonJustReleased(ebiten.MouseButtonLeft) {
		in.pressed = false
		h.Release(fx, fy)
	}
	if _, dy := ebiten.Wheel(); dy != 0 {
		h.Wheel(fx, fy, dy)
		used = true
	}
	for _, id := range inpututil.AppendJustPressedTouchIDs(nil) {
		tx, ty := ebiten.TouchPosition(id)
		h.Press(float64(tx)/scale, float64(ty)/scale)
	}
	for _, id := range inpututil.AppendJustReleasedTouchIDs(nil) {
		tx, ty := inpututil.TouchPositionInPreviousTick(id)
		h.Release(float64(tx)/scale, float64(ty)/scale)
	}
	for _, id := range ebiten.AppendTouchIDs(nil) {
		tx, ty := ebiten.TouchPosition(id)
		h.Move(float64(tx)/scale, float64(ty)/scale)
	}
	return used
}

func (in *input) keyboard(h *ui.Host, now func() time.Time) {
	down := ebiten.IsKeyPressed
	ctrl := down(ebiten.KeyControl) || down(ebiten.KeyMeta)
	alt, shift := down(ebiten.KeyAlt), down(ebiten.KeyShift)
	in.chars = ebiten.AppendInputChars(in.chars[:0])
	// Ctrl and Alt together with a character is how some layouts type it.
	typing := !ctrl && !alt || ctrl && alt && len(in.chars) > 0

	in.keys = inpututil.AppendJustPressedKeys(in.keys[:0])
	for _, k := range in.keys {
		name, special := named[k]
		if !special {
			if typing {
				continue // arrives as a character
			}
			if name = charOf(k); name == "" {
				continue
			}
			if shift && name == "=" {
				name = "+"
			}
		}
		msg := ui.Key{Name: name, Ctrl: ctrl, Alt: alt, Shift: shift}
		h.KeyDown(msg)
		if repeats(name) && now != nil {
			in.heldKey, in.heldOf, in.holding, in.again = msg, k, true, now().Add(repeatAfter)
		}
	}
	if typing {
		for _, r := range in.chars {
			h.Type(string(r))
		}
	}
	in.repeat(h, now)
	in.keys = inpututil.AppendJustReleasedKeys(in.keys[:0])
	for _, k := range in.keys {
		if n := nameOf(k); n != "" {
			h.KeyUp(n)
		}
	}
}

// repeat sends a held key again. A held key keeps the loop awake.
func (in *input) repeat(h *ui.Host, now func() time.Time) {
	if !in.holding {
		return
	}
	if !ebiten.IsKeyPressed(in.heldOf) {
		in.holding = false
		return
	}
	t := now()
	for !t.Before(in.again) {
		h.KeyDown(in.heldKey)
		in.again = in.again.Add(repeatEvery)
		if t.Sub(in.again) > repeatAfter { // the machine was busy: do not catch up
			in.again = t.Add(repeatEvery)
		}
	}
}

func (in *input) dropped(h *ui.Host) {
	files := ebiten.DroppedFiles()
	if files == nil {
		return
	}
	name := ""
	if entries, err := fs.ReadDir(files, "."); err == nil && len(entries) > 0 {
		name = entries[0].Name()
	}
	h.Drop(name, files)
}
