package ui

import (
	"image/color"
	"math"
)

// Theme is the table of colours, one value per role. Shapes, never colours
// alone, carry meaning; the table only has to be readable and calm.
type Theme struct {
	Dark   bool
	colors [Wash + 1]color.RGBA
}

// Light and Dark are the two themes.
var (
	Light = theme(false, [...]uint32{
		Ink: 0x18202B, QuietInk: 0x55606D, Indigo: 0x3F4C9A, Ember: 0xA5451B,
		Credit: 0x2A6A49, Caution: 0x855600, Never: 0x9B1B3B,
		Hairline: 0xD3D9E1, Paper: 0xF2F4F7, SheetWhite: 0xFFFFFF, Wash: 0xE4E6F3,
	})
	Dark = theme(true, [...]uint32{
		Ink: 0xE8ECF1, QuietInk: 0xA2ACB8, Indigo: 0xA9B4F2, Ember: 0xF09A6A,
		Credit: 0x7CC79B, Caution: 0xE5B450, Never: 0xF38BA0,
		Hairline: 0x38424E, Paper: 0x12161C, SheetWhite: 0x1B2129, Wash: 0x272C45,
	})
)

func theme(dark bool, rgb [Wash + 1]uint32) *Theme {
	t := &Theme{Dark: dark}
	for i, v := range rgb {
		t.colors[i] = color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
	}
	t.colors[Auto] = t.colors[Ink]
	return t
}

// Color gives the value of a role; Auto is Ink.
func (t *Theme) Color(c Color) color.RGBA { return t.colors[c] }

// onAccent is the text colour on a filled indigo button.
func (t *Theme) onAccent() color.RGBA {
	if t.Dark {
		return t.colors[Paper]
	}
	return t.colors[SheetWhite]
}

// mix lies f of the way from a to b, per channel in sRGB. It is used for the
// quiet states between two roles (hover, a dialog's veil).
func mix(a, b color.RGBA, f float64) color.RGBA {
	m := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + f*(float64(y)-float64(x)))) }
	return color.RGBA{m(a.R, b.R), m(a.G, b.G), m(a.B, b.B), 255}
}

// Contrast is the contrast ratio of two opaque colours, 1 to 21, as defined in
// Web Content Accessibility Guidelines 2.1 (W3C, 2018), "contrast ratio".
func Contrast(a, b color.RGBA) float64 {
	la, lb := luminance(a), luminance(b)
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

// luminance is the relative luminance of sRGB, same source as Contrast.
func luminance(c color.RGBA) float64 {
	lin := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}
