package ui

import (
	"testing"

	"pgregory.net/rapid"
)

// The focus ring of a phrase must not touch the words beside it, at any width
// and text size.
func TestRingStandsClearOfItsNeighbours(t *testing.T) {
	ids := []string{"record", "disposition", "power", "smoke", "kit", "margin", "prep", "wait"}
	rapid.Check(t, func(t *rapid.T) {
		st := State{TextScale: rapid.SampledFrom([]float64{1, 1.5, 2}).Draw(t, "scale"), FocusOn: true, Focus: rapid.SampledFrom(ids).Draw(t, "focus")}
		page := samplePage(false)
		page.Toast = nil                                                                   // floats above the page
		f := Layout(page, Size{float64(rapid.IntRange(960, 2000).Draw(t, "w")), 8000}, st) // the page does not scroll
		var rings []Rect
		for _, op := range f.Ops {
			if s, ok := op.(StrokeRect); ok && s.W == ringW && s.Color == Light.Color(Indigo) && s.Radius == 3+ringGap+ringW/2.0 {
				rings = append(rings, s.Rect.Outset(ringW/2.0))
			}
		}
		if len(rings) == 0 {
			t.Fatalf("no ring is drawn around %q", st.Focus)
		}
		for _, op := range f.Ops {
			run, ok := op.(TextRun)
			if !ok || run.Size < 13 {
				continue
			}
			// A letter's own edge, within its advance, leaves the rest of the room.
			edge := 0.05 * run.Size
			r := Rect{run.X + edge, run.Y - 0.5*run.Size, run.W - 2*edge, 0.5 * run.Size} // the height of its small letters
			for _, ring := range rings {
				inner := ring.Outset(-ringW)
				if r.W > 0 && !r.Intersect(ring).Empty() && (r.X < inner.X-0.5 || r.X+r.W > inner.X+inner.W+1.5) {
					t.Fatalf("the ring %v of %q touches %q at %v", ring, st.Focus, run.Text, r)
				}
			}
		}
	})
}

// Marks differ in shape, not only in colour: each draws a set of operations
// that no other draws.
func TestMarksDifferInShape(t *testing.T) {
	shape := func(m Mark, s PhraseState) [4]int {
		n := Note{Role: NoteRole, Spans: []Span{Phrase{ID: "p", Text: "alcohol", Mark: m, State: s}}}
		f := Layout(n, Size{400, 60}, State{TextScale: 1})
		var out [4]int // flat fills, their thickness, round fills, paths
		for _, op := range f.Ops[1:] {
			switch op := op.(type) {
			case FillRect:
				if op.Radius > 0 {
					out[2]++
				} else {
					out[0]++
					out[1] += int(op.Rect.H)
				}
			case Path:
				out[3]++
			}
		}
		return out
	}
	seen := map[[4]int]string{}
	for name, s := range map[string][4]int{
		"credit": shape(MarkCredit, Decided), "advice": shape(MarkAdvice, Decided), "caution": shape(MarkCaution, Decided),
		"never": shape(MarkNever, Decided), "decided": shape(MarkNone, Decided), "open": shape(MarkNone, Open),
	} {
		if other, taken := seen[s]; taken {
			t.Errorf("%s and %s draw the same shape %v", name, other, s)
		}
		seen[s] = name
	}
}

// A phrase over two lines has one box on each, and both answer the pointer.
func TestPhraseOverTwoLines(t *testing.T) {
	n := Note{Role: NoteRole, Spans: []Span{Words{Text: "Before: "}, Phrase{ID: "p", Text: "consent, site confirmed, border marked"}, Words{Text: "."}}}
	f := Layout(n, Size{260, 200}, State{TextScale: 1})
	boxes := 0
	for _, p := range f.Placed {
		if p.Kind != "Piece" {
			continue
		}
		boxes++
		if h, ok := f.At(p.Rect.X+p.Rect.W/2, p.Rect.Y+p.Rect.H/2); !ok || h.ID != "p" {
			t.Errorf("the middle of box %v answers %v", p.Rect, h)
		}
	}
	if boxes != 2 {
		t.Errorf("the phrase has %d boxes, want 2", boxes)
	}
	if f.Stop("p") == nil {
		t.Error("the phrase is no stop of the focus")
	}
}
