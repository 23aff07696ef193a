package ui

import (
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func testCanvas(scale float64) *canvas {
	return &canvas{theme: Light, scale: scale, frame: &Frame{}, parent: -1}
}

// lineTexts is what stands on each line of a note, words joined as drawn.
func lineTexts(c *canvas, n Note, w float64) []string {
	var out []string
	for _, l := range n.lines(c, w) {
		var b strings.Builder
		for i, a := range l.atoms {
			if i > 0 && a.space != cling {
				b.WriteByte(' ')
			}
			b.WriteString(a.text)
		}
		out = append(out, b.String())
	}
	return out
}

func TestPunctuationClingsToItsPhrase(t *testing.T) {
	n := Note{Role: NoteRole, Spans: []Span{
		Words{Text: "I will "}, Phrase{ID: "a", Text: "treat"}, Words{Text: ", then ("}, Phrase{ID: "b", Text: "send it"}, Words{Text: "); my hand "}, Phrase{ID: "c", Text: "stays"}, Words{Text: "."},
	}}
	for w := 110.0; w < 500; w += 3 { // its longest word with its brackets needs 100
		for _, l := range lineTexts(testCanvas(1), n, w) {
			first := []rune(l)[0]
			if first != '(' && unicode.IsPunct(first) {
				t.Fatalf("at %v px a line begins with punctuation: %q", w, l)
			}
			if strings.HasSuffix(l, "(") {
				t.Fatalf("at %v px a line ends with an opening bracket: %q", w, l)
			}
		}
	}
}

func TestThinAndNoBreakSpacesHold(t *testing.T) {
	for _, space := range []string{"\u2009", "\u202f", "\u00a0"} {
		n := Text{Text: "at most 7.0" + space + "W and 2.0" + space + "s"}
		for w := 60.0; w < 300; w += 2 {
			for _, l := range n.lines(testCanvas(1), w) {
				if first := l.atoms[0].text; first == "W" || first == "s" {
					t.Fatalf("at %v px the unit was torn from its figure by %q", w, space)
				}
			}
		}
	}
}

func TestShortPhrasesStayWhole(t *testing.T) {
	n := Note{Role: NoteRole, Spans: []Span{Words{Text: "at a time, in "}, Phrase{ID: "a", Text: "3 cycles"}, Words{Text: ", then more"}}}
	for w := 90.0; w < 300; w += 2 {
		for _, l := range lineTexts(testCanvas(1), n, w) {
			if strings.HasPrefix(l, "cycles") {
				t.Fatalf("at %v px a short phrase was broken: %q", w, l)
			}
		}
	}
}

// Whatever the width: no line is wider than it, and nothing is lost or moved.
func TestWrappingKeepsEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var spans []Span
		for range rapid.IntRange(1, 6).Draw(t, "spans") {
			text := rapid.StringMatching(`[ a-zäé0-9.,;()/\x{2009}-]{0,30}`).Draw(t, "text")
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				spans = append(spans, Phrase{ID: "p", Text: text, Number: rapid.IntRange(0, 12).Draw(t, "n"), Aside: "aside"})
			case 1:
				spans = append(spans, Link{ID: "l", Text: text})
			case 2:
				spans = append(spans, Cap{"Tab"})
			default:
				spans = append(spans, Words{Text: text})
			}
		}
		c := testCanvas(rapid.SampledFrom([]float64{1, 1.5, 2}).Draw(t, "scale"))
		n := Note{Role: NoteRole, Spans: spans}
		w := float64(rapid.IntRange(20, 900).Draw(t, "w"))
		var was, is strings.Builder
		for _, a := range n.atoms(c) {
			was.WriteString(a.text)
		}
		for _, l := range n.lines(c, w) {
			end := 0.0
			for _, a := range l.atoms {
				if a.x < end-0.01 {
					t.Fatalf("%q begins at %.1f, before the end of the word in front at %.1f", a.text, a.x, end)
				}
				end = a.x + a.w
				is.WriteString(a.text)
			}
			if l.w > w+0.02 && (len(l.atoms) > 1 || len([]rune(l.atoms[0].text)) > 1) && !l.atoms[0].cap {
				t.Fatalf("a line is %.1f wide, only %.1f are there", l.w, w)
			}
		}
		if was.String() != is.String() {
			t.Fatalf("wrapping changed the text from %q to %q", was.String(), is.String())
		}
	})
}

// About 75 characters is the longest line, however wide the sheet.
func TestLongestLine(t *testing.T) {
	long := strings.Repeat("Start low and step up until it works, and stop in time. ", 6)
	for _, r := range []Role{Body, Quiet, Quote, NoteRole} {
		for _, l := range (Text{Text: long, Role: r}).lines(testCanvas(1), 5000) {
			n := len(l.atoms) - 1
			for _, a := range l.atoms {
				n += len([]rune(a.text))
			}
			if n > 82 {
				t.Errorf("role %d: a line of %d characters", r, n)
			}
		}
	}
}

// The published rule of the note: 18 px on a line of 36, and every line of it
// the same distance from the next, marks and numbers or not.
func TestNoteLinesAreEven(t *testing.T) {
	f := Layout(samplePage(false), Size{1280, 1400}, State{TextScale: 1})
	var at []float64
	for _, op := range f.Ops {
		if run, ok := op.(TextRun); ok && run.Font == Serif && run.Size == 18 {
			if len(at) == 0 || at[len(at)-1] != run.Y {
				at = append(at, run.Y)
			}
		}
	}
	if len(at) < 4 {
		t.Fatalf("only %d lines of the note were found", len(at))
	}
	for i := 1; i < 4; i++ {
		if d := at[i] - at[i-1]; d != 36 {
			t.Errorf("line %d stands %.2f px below the one before, want 36", i, d)
		}
	}
}
