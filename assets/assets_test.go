package assets

import (
	"bytes"
	"strings"
	"testing"

	"github.com/go-text/typesetting/font"
)

// Every embedded font must parse and say the family, weight and slant that its
// name here promises; a swapped file would otherwise only show on screen.
func TestFontsAreWhatTheirNamesSay(t *testing.T) {
	for _, tc := range []struct {
		name   string
		data   []byte
		family string
		weight font.Weight
		style  font.Style
	}{
		{"InterRegular", InterRegular, "inter", 400, font.StyleNormal},
		{"InterSemiBold", InterSemiBold, "inter", 600, font.StyleNormal},
		{"LiterataRegular", LiterataRegular, "literata", 400, font.StyleNormal},
		{"LiterataItalic", LiterataItalic, "literata", 400, font.StyleItalic},
		{"LiterataSemiBold", LiterataSemiBold, "literata", 600, font.StyleNormal},
	} {
		f, err := font.ParseTTF(bytes.NewReader(tc.data))
		if err != nil {
			t.Errorf("%s: %v", tc.name, err)
			continue
		}
		d := f.Describe()
		if !strings.HasPrefix(strings.ToLower(d.Family), tc.family) || d.Aspect.Weight != tc.weight || d.Aspect.Style != tc.style {
			t.Errorf("%s: the file says %q %v, want %q weight %v style %v", tc.name, d.Family, d.Aspect, tc.family, tc.weight, tc.style)
		}
	}
}

// Every character that the kit draws must be in the fonts that draw it.
func TestFontsHoldTheCharactersOfTheKit(t *testing.T) {
	both := "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,;:!?()[]/%+-–—·…“”‘’×°µ²³éöñ§\u00a0\u2009"
	for _, tc := range []struct {
		name  string
		data  []byte
		chars string
	}{
		{"InterRegular", InterRegular, both + "↑↓←→↵"},
		{"InterSemiBold", InterSemiBold, both + "↑↓←→↵"},
		{"LiterataRegular", LiterataRegular, both},
		{"LiterataItalic", LiterataItalic, both},
		{"LiterataSemiBold", LiterataSemiBold, both},
	} {
		f, err := font.ParseTTF(bytes.NewReader(tc.data))
		if err != nil {
			t.Fatalf("%s: %v", tc.name, err)
		}
		for _, r := range tc.chars {
			if _, ok := f.NominalGlyph(r); !ok {
				t.Errorf("%s: no glyph for %q (U+%04X)", tc.name, r, r)
			}
		}
	}
}

func TestLicencesTravelWithTheFonts(t *testing.T) {
	for name, text := range map[string]string{"Inter": InterLicence, "Literata": LiterataLicence} {
		if !strings.Contains(text, "SIL OPEN FONT LICENSE") {
			t.Errorf("%s: the licence text is not the SIL Open Font License", name)
		}
	}
}
