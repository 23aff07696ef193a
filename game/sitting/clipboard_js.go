package sitting

import (
	"errors"
	"syscall/js"
)

// writeClipboard hands the text to the browser, which may still ask the
// person; what then comes of it is between the two of them.
func writeClipboard(text string) error {
	board := js.Global().Get("navigator").Get("clipboard")
	if board.IsUndefined() {
		return errors.New("this page may not use the clipboard")
	}
	board.Call("writeText", text)
	return nil
}

// Pasted is always empty: a browser gives its clipboard only to a promise.
func Pasted() string { return "" }
