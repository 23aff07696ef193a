package ui

import "testing"

func TestTypeset(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"the unit's own manual", "the unit’s own manual"},
		{"patients' eyes", "patients' eyes"}, // might close a quotation: left alone
		{"2 % in 70 % alcohol", "2\u00a0% in 70\u00a0% alcohol"},
		{"one\ntwo\tthree", "one two three"},
		{"'", "'"},
	} {
		if got := typeset(tt.text); got != tt.want {
			t.Errorf("%q gives %q, want %q", tt.text, got, tt.want)
		}
	}
}
