package ui

import (
	"bytes"
	"fmt"
	"strings"
	"sync"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/language"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"

	"leastwatt/assets"
)

// FontID names one of the embedded font files.
type FontID uint8

// The fonts in use.
const (
	Sans FontID = iota
	SansStrong
	Serif
	SerifItalic
	SerifStrong
	fontCount
)

// FontData gives the TrueType file of a font.
func FontData(id FontID) []byte {
	return [...][]byte{
		assets.InterRegular, assets.InterSemiBold,
		assets.LiterataRegular, assets.LiterataItalic, assets.LiterataSemiBold,
	}[id]
}

// faceFor is the font that draws text in the given one: Literata has no arrows,
// so a serif text that holds one is drawn in Inter of the same weight.
func faceFor(id FontID, text string) FontID {
	if id >= Serif && strings.ContainsAny(text, "↑↓←→↵") {
		if id == SerifStrong {
			return SansStrong
		}
		return Sans
	}
	return id
}

// thinSpaces are drawn as a sixth of an em: Literata's own thin space is an
// eighth, in which figure and unit run together, and it has no narrow no-break
// space at all. The shaper makes a sixth of an em in any font.
var thinSpaces = strings.NewReplacer("\u202f", "\u2006", "\u2009", "\u2006")

// drawable is the text as it is drawn.
func drawable(text string) string { return thinSpaces.Replace(text) }

type measureKey struct {
	font    FontID
	size    float64
	tabular bool
	text    string
}

// ruler measures text with the same shaper that draws it, and remembers what
// it measured: most words of a screen were there in the last view too.
type ruler struct {
	mu     sync.Mutex
	faces  [fontCount]*font.Face
	ascent [fontCount]float64 // of an em
	drop   [fontCount]float64 // of an em
	shaper shaping.HarfbuzzShaper
	widths map[measureKey]float64
}

// rulerLimit bounds the memory of the ruler; a full one starts afresh.
const rulerLimit = 20000

var theRuler = sync.OnceValue(func() *ruler {
	r := &ruler{widths: map[measureKey]float64{}}
	for id := range fontCount {
		f, err := font.ParseTTF(bytes.NewReader(FontData(id)))
		if err != nil {
			panic(fmt.Sprintf("ui: embedded font %d does not parse: %v", id, err))
		}
		r.faces[id] = f
		if e, ok := f.FontHExtents(); ok {
			upem := float64(f.Upem())
			r.ascent[id] = float64(e.Ascender) / upem
			r.drop[id] = float64(-e.Descender) / upem
		}
	}
	return r
})

var tabularFigures = shaping.FontFeature{Tag: opentype.MustNewTag("tnum"), Value: 1}

// TextWidth is the advance of one line of text in px at a size in px.
func TextWidth(id FontID, size float64, tabular bool, text string) float64 {
	if text == "" {
		return 0
	}
	text = drawable(text)
	r := theRuler()
	r.mu.Lock()
	defer r.mu.Unlock()
	k := measureKey{id, size, tabular, text}
	if w, ok := r.widths[k]; ok {
		return w
	}
	runes := []rune(text)
	in := shaping.Input{
		Text: runes, RunStart: 0, RunEnd: len(runes),
		Direction: di.DirectionLTR, Face: r.faces[id],
		Size:     fixed.Int26_6(size * 64),
		Script:   language.Latin,
		Language: language.NewLanguage("en"),
	}
	if tabular {
		in.FontFeatures = []shaping.FontFeature{tabularFigures}
	}
	out := r.shaper.Shape(in)
	w := float64(out.Advance) / 64
	if len(r.widths) >= rulerLimit {
		clear(r.widths)
	}
	r.widths[k] = w
	return w
}

// fontExtent gives how far a font reaches above and below its baseline, px.
func fontExtent(id FontID, size float64) (above, below float64) {
	r := theRuler()
	return r.ascent[id] * size, r.drop[id] * size
}
