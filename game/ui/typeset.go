package ui

import (
	"strings"
	"unicode"
)

var oneLine = strings.NewReplacer("\n", " ", "\t", " ", "\r", " ", " %", "\u00a0%")

// typeset gives running text its printed form: one line, a number never parted
// from its per cent sign, and a curled apostrophe inside a word.
func typeset(text string) string {
	text = oneLine.Replace(text)
	if !strings.Contains(text, "'") {
		return text
	}
	runes := []rune(text)
	for i, r := range runes {
		if r == '\'' && i > 0 && i+1 < len(runes) && unicode.IsLetter(runes[i-1]) && unicode.IsLetter(runes[i+1]) {
			runes[i] = '’'
		}
	}
	return string(runes)
}
