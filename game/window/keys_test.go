package window

import (
	"testing"

	"github.com/hajimehoshi/ebiten/v2"
)

// Every key that a screen may name has a name, and no two keys that differ to a
// user share one (but the two Enter keys, and the number pad's signs).
func TestKeyNames(t *testing.T) {
	for k, want := range map[ebiten.Key]string{
		ebiten.KeyA: "a", ebiten.KeyZ: "z", ebiten.KeyDigit1: "1", ebiten.KeyNumpad7: "7", ebiten.KeyNumpadAdd: "+", ebiten.KeyNumpadSubtract: "-",
		ebiten.KeyEnter: "Enter", ebiten.KeyNumpadEnter: "Enter", ebiten.KeyEscape: "Escape", ebiten.KeyArrowUp: "Up", ebiten.KeySpace: "Space",
		ebiten.KeyComma: ",", ebiten.KeySlash: "/", ebiten.KeyEqual: "=", ebiten.KeyMinus: "-", ebiten.KeyF12: "F12", ebiten.KeyPageDown: "PageDown",
		ebiten.KeyShiftLeft: "", ebiten.KeyControlRight: "", ebiten.KeyCapsLock: "",
	} {
		if got := nameOf(k); got != want {
			t.Errorf("key %v is named %q, want %q", k, got, want)
		}
	}
}
