package ui

import (
	"testing"

	"pgregory.net/rapid"
)

// Whatever is in sight and operable answers at its middle, with an area at
// least 32 px high (44 with touch), and nothing under a dialog answers.
func TestHitsAreWhereThingsAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		touch := rapid.Bool().Draw(t, "touch")
		over := rapid.Bool().Draw(t, "over")
		st := State{TextScale: rapid.SampledFrom([]float64{1, 1.5, 2}).Draw(t, "scale"), Touch: touch}
		f := Layout(samplePage(over), Size{float64(rapid.IntRange(960, 1920).Draw(t, "w")), 8000}, st) // nothing scrolls but the margin
		least := 32.0
		if touch {
			least = 44
		}
		seen := map[string]bool{}
		for _, h := range f.Hits {
			seen[h.ID] = true
			if h.Rect.H < least-slack && !cutOff(f, h.Rect) {
				t.Fatalf("%q part %d is only %.1f px high", h.ID, h.Part, h.Rect.H)
			}
			got, ok := f.At(h.Rect.X+h.Rect.W/2, h.Rect.Y+h.Rect.H/2)
			if over != (h.Layer == 1) {
				if ok && got.Layer != f.Layers-1 {
					t.Fatalf("%q answers under the dialog", got.ID)
				}
				continue
			}
			if !ok || got.ID != h.ID || got.Part != h.Part {
				t.Fatalf("the middle of %q part %d answers as %q part %d", h.ID, h.Part, got.ID, got.Part)
			}
		}
		for _, s := range f.Stops {
			if a := areaOf(f, s.Scroll); a != nil && s.Rect.Intersect(a.View).Empty() {
				continue // out of sight
			}
			if !seen[s.ID] {
				t.Fatalf("%q can have the focus but answers no pointer", s.ID)
			}
		}
		for id := range seen {
			if f.Stop(id) == nil {
				t.Fatalf("%q answers the pointer but cannot have the focus", id)
			}
		}
		if seen["off"] {
			t.Fatal("a button that is off answers the pointer")
		}
	})
}

// cutOff tells whether a hit ends where a scroll ends: a part of it is out of
// sight.
func cutOff(f *Frame, r Rect) bool {
	for _, a := range f.Areas {
		if r.Y == a.View.Y || r.Y+r.H == a.View.Y+a.View.H {
			return true
		}
	}
	return false
}
