package window

import (
	"strings"

	"github.com/hajimehoshi/ebiten/v2"
)

// named are the keys that are no characters.
var named = map[ebiten.Key]string{
	ebiten.KeyEscape: "Escape", ebiten.KeyEnter: "Enter", ebiten.KeyNumpadEnter: "Enter",
	ebiten.KeyTab: "Tab", ebiten.KeyBackspace: "Backspace", ebiten.KeyDelete: "Delete",
	ebiten.KeyArrowUp: "Up", ebiten.KeyArrowDown: "Down", ebiten.KeyArrowLeft: "Left", ebiten.KeyArrowRight: "Right",
	ebiten.KeyPageUp: "PageUp", ebiten.KeyPageDown: "PageDown", ebiten.KeyHome: "Home", ebiten.KeyEnd: "End",
	ebiten.KeyInsert: "Insert",
	ebiten.KeyF1:     "F1", ebiten.KeyF2: "F2", ebiten.KeyF3: "F3", ebiten.KeyF4: "F4", ebiten.KeyF5: "F5", ebiten.KeyF6: "F6",
	ebiten.KeyF7: "F7", ebiten.KeyF8: "F8", ebiten.KeyF9: "F9", ebiten.KeyF10: "F10", ebiten.KeyF11: "F11", ebiten.KeyF12: "F12",
}

// printed are the characters of keys on a keyboard whose layout is unknown.
var printed = map[ebiten.Key]string{
	ebiten.KeyEqual: "=", ebiten.KeyMinus: "-", ebiten.KeyComma: ",", ebiten.KeyPeriod: ".", ebiten.KeySlash: "/",
	ebiten.KeyNumpadAdd: "+", ebiten.KeyNumpadSubtract: "-", ebiten.KeySpace: "Space",
	ebiten.KeyBracketLeft: "[", ebiten.KeyBracketRight: "]", ebiten.KeySemicolon: ";", ebiten.KeyQuote: "'",
}

// charOf is the character on a key, in lower case, by the user's own layout
// where that is known; "" for a key that has none.
func charOf(k ebiten.Key) string {
	if k == ebiten.KeyNumpadAdd || k == ebiten.KeyNumpadSubtract || k == ebiten.KeySpace {
		return printed[k]
	}
	if n := ebiten.KeyName(k); n != "" {
		return strings.ToLower(n)
	}
	if s, ok := printed[k]; ok {
		return s
	}
	switch s := k.String(); {
	case len(s) == 1: // A to Z
		return strings.ToLower(s)
	case strings.HasPrefix(s, "Digit"):
		return strings.TrimPrefix(s, "Digit")
	case strings.HasPrefix(s, "Numpad") && len(s) == len("Numpad0"):
		return strings.TrimPrefix(s, "Numpad")
	}
	return ""
}

// nameOf is the name under which a screen knows a key.
func nameOf(k ebiten.Key) string {
	if n, ok := named[k]; ok {
		return n
	}
	return charOf(k)
}

// repeats tells whether holding a key repeats it.
func repeats(name string) bool {
	switch name {
	case "Up", "Down", "Left", "Right", "PageUp", "PageDown", "Backspace", "Delete", "Tab":
		return true
	}
	return false
}
