//go:build !js

package sitting

import (
	"errors"

	"github.com/atotto/clipboard"
)

func writeClipboard(text string) error {
	if clipboard.Unsupported {
		return errors.New("there is no clipboard")
	}
	return clipboard.WriteAll(text)
}

// Pasted is the text on the clipboard, empty when there is none.
func Pasted() string {
	text, err := clipboard.ReadAll()
	if err != nil {
		return ""
	}
	return text
}
