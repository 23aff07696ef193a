package ui

import (
	"testing"

	"leastwatt/cases"
)

// Every site of the packs' vocabulary has its place, inside the figure's frame.
func TestEverySiteHasAPlace(t *testing.T) {
	n := 0
	for _, id := range cases.Vocab.IDs("site") {
		n++
		s, ok := bodySpots[id]
		if !ok {
			t.Errorf("site %q has no place on the outline", id)
			continue
		}
		if s.x < 0 || s.x > 21 || s.y < 0 || s.y > 100 || s.face && (s.fx < 0 || s.fx > 40 || s.fy < 0 || s.fy > 100) {
			t.Errorf("site %q lies outside the outline: %+v", id, s)
		}
	}
	if n != len(bodySpots) {
		t.Errorf("the outline has %d sites, the vocabulary %d", len(bodySpots), n)
	}
}

// On the front the patient's left is at the viewer's right; on the back it is
// at the viewer's left.
func TestSidesAreThePatients(t *testing.T) {
	at := func(site, side string) float64 {
		f := Layout(BodyOutline{Site: site, Side: side, Label: site}, Size{200, 240}, State{TextScale: 1})
		for i := len(f.Ops) - 1; i >= 0; i-- {
			if s, ok := f.Ops[i].(StrokeRect); ok {
				return s.Rect.X + s.Rect.W/2
			}
		}
		t.Fatalf("%s %s is not marked", site, side)
		return 0
	}
	if at("thigh", "left") <= at("thigh", "right") {
		t.Error("the left thigh is not at the viewer's right of the front")
	}
	if at("calf", "left") >= at("calf", "right") {
		t.Error("the left calf is not at the viewer's left of the back")
	}
}
