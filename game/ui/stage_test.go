package ui

import (
	"image"
	"math"
	"testing"
)

// stageScreen keeps what a Stage sends.
type stageScreen struct{ got []any }

func (s *stageScreen) Update(msg any)  { s.got = append(s.got, msg) }
func (s *stageScreen) WantsText() bool { return false }
func (s *stageScreen) View() Node {
	return Page{Title: "Bench", Focus: "stage", Body: Column{Children: []Node{
		Stage{ID: "stage", Image: image.NewRGBA(image.Rect(0, 0, 400, 200)), MaxW: 400, Alt: "skin", ScaleMM: 12},
		ActStrip{ID: "acts", Alt: "acts", At: 0.5, Acts: []ActMark{{From: 0, To: 0.2, Burst: true, Label: "1 s"}, {From: 0.6, Label: "curette"}}},
	}}}
}

// Pointer, wheel and keys on a Stage reach the screen as they are; a held
// button ends when the window is left.
func TestStageEvents(t *testing.T) {
	s := &stageScreen{}
	h := NewHost(s)
	var at Rect
	for _, p := range h.Frame().Placed {
		if p.Kind == "Stage" {
			at = p.Rect
		}
	}
	if at.H != 200 {
		t.Fatalf("the stage stands at %v", at)
	}
	at.W = 400 // the picture stands at the left of its place
	last := func() any { return s.got[len(s.got)-1] }
	h.Move(at.X+100, at.Y+50)
	if p, ok := last().(Pointed); !ok || p.X != 0.25 || p.Y != 0.25 {
		t.Errorf("moving sends %+v", last())
	}
	h.Press(at.X+200, at.Y+100)
	if p, ok := last().(PointerDown); !ok || p.X != 0.5 || p.Y != 0.5 {
		t.Errorf("pressing sends %+v", last())
	}
	h.Move(at.X+900, at.Y-900)
	if p, ok := last().(Pointed); !ok || p.X != 1 || p.Y != 0 {
		t.Errorf("dragging outside sends %+v", last())
	}
	h.Release(at.X+900, at.Y-900)
	found := false
	for _, m := range s.got {
		_, up := m.(PointerUp)
		found = found || up
	}
	if !found {
		t.Error("letting go sends nothing")
	}
	h.Press(at.X+200, at.Y+100)
	n := len(s.got)
	h.Blur()
	found = false
	for _, m := range s.got[n:] {
		_, up := m.(PointerUp)
		found = found || up
	}
	if !found {
		t.Error("leaving the window does not let go")
	}
	h.Regain()
	h.Wheel(at.X+200, at.Y+100, 1)
	if st, ok := last().(Step); !ok || st.ID != "stage" || st.By != 1 {
		t.Errorf("the wheel sends %+v", last())
	}
	for _, k := range []string{"Up", "PageDown", "Enter", "q"} {
		h.KeyDown(Key{Name: k})
		if got, ok := last().(Key); !ok || got.Name != k {
			t.Errorf("%s sends %+v", k, last())
		}
	}
	h.Type(" ")
	if got, ok := last().(Key); !ok || got.Name != "Space" {
		t.Errorf("space sends %+v", last())
	}
	h.KeyUp("Space")
	if _, ok := last().(KeyUp); !ok {
		t.Errorf("letting space go sends %+v", last())
	}
}

// Pressing on the strip of acts chooses a moment; arrows step.
func TestActStripChooses(t *testing.T) {
	s := &stageScreen{}
	h := NewHost(s)
	var at Rect
	for _, p := range h.Frame().Placed {
		if p.Kind == "ActStrip" {
			at = p.Rect
		}
	}
	h.Click(at.X+at.W/4, at.Y+at.H/2)
	chosen := false
	for _, m := range s.got {
		if f, ok := m.(SetFraction); ok && f.ID == "acts" && math.Abs(f.F-0.25) < 0.02 {
			chosen = true
		}
	}
	if !chosen {
		t.Errorf("a click sends %+v", s.got)
	}
	h.KeyDown(Key{Name: "Right"})
	if st, ok := s.got[len(s.got)-1].(Step); !ok || st.ID != "acts" || st.By != 1 {
		t.Errorf("the arrow sends %+v", s.got[len(s.got)-1])
	}
}
