package ui

import (
	"image/color"
	"math"
	"testing"
)

// Level AA of Web Content Accessibility Guidelines 2.1 (W3C, 2018), success
// criterion 1.4.3: text at least 4.5 to 1.
func TestTextColoursCanBeRead(t *testing.T) {
	texts := map[string]Color{"ink": Ink, "quiet": QuietInk, "indigo": Indigo, "ember": Ember, "credit": Credit, "caution": Caution, "never": Never}
	grounds := map[string]Color{"paper": Paper, "sheet": SheetWhite, "wash": Wash}
	for themeName, th := range map[string]*Theme{"light": Light, "dark": Dark} {
		for tn, tc := range texts {
			for gn, gc := range grounds {
				if c := Contrast(th.Color(tc), th.Color(gc)); c < 4.5 {
					t.Errorf("%s: %s on %s has contrast %.2f, want at least 4.5", themeName, tn, gn, c)
				}
			}
		}
		if c := Contrast(th.onAccent(), th.Color(Indigo)); c < 4.5 {
			t.Errorf("%s: text on a filled button has contrast %.2f", themeName, c)
		}
	}
}

// Published values: black on white is 21, equal colours 1 (same guidelines,
// definition of contrast ratio); #777777 on white is 4.48, the usual example of
// a grey that just fails.
func TestContrastAgainstPublishedValues(t *testing.T) {
	white, black := color.RGBA{255, 255, 255, 255}, color.RGBA{0, 0, 0, 255}
	grey := color.RGBA{0x77, 0x77, 0x77, 255}
	for _, tc := range []struct {
		a, b color.RGBA
		want float64
	}{{white, black, 21}, {black, white, 21}, {grey, grey, 1}, {grey, white, 4.48}} {
		if got := Contrast(tc.a, tc.b); math.Abs(got-tc.want) > 0.005 {
			t.Errorf("contrast of %v and %v is %.3f, want %.2f", tc.a, tc.b, got, tc.want)
		}
	}
}
