package skin

import (
	"math"
	"slices"
)

// Exam is a way of looking at the lesion.
type Exam uint8

const (
	ExamNone       Exam = iota // bare skin in the light of a lamp from the upper left
	ExamPressed                // a glass slide pressed on: what blood can leave turns pale
	ExamPinched                // two fingers squeeze from left and right
	ExamMagnified              // a hand lens: the middle, larger
	ExamDermoscope             // a dermoscope: no shine, no relief, structures below the surface
)

// Subject says whose skin is drawn and what is on it.
type Subject struct {
	SkinType int     // 1 (always burns) to 6 (deeply pigmented)
	AgeYears float64 // sets lines, sun marks and hair colour
	Site     string  // a site id of the case vocabulary; unknown = forearm
	Family   string  // what is truly there; unknown = a plain papule, "" = nothing
	WidthMM  float64 // across the lesion
	HeightMM float64 // above the skin
	Count    int     // how many of them
	Features []string
	Seed     uint64
}

// View says how large the picture is and how the skin is looked at.
type View struct {
	SizePx  int     // the picture is a square of this many pixels
	WidthMM float64 // skin across the picture before a lens
	Exam    Exam
}

// The lens and the dermoscope bring the eye this many times closer.
const lensPower = 2.2

// DefaultView frames the lesion at about two fifths of the picture's width,
// never closer than 12 mm nor wider than 60 mm. A crowd gets more room.
func DefaultView(s Subject, sizePx int) View {
	s = s.bounded()
	room := 2.5
	if s.Count > 1 && crowds(s.Family) {
		room = 6
	}
	return View{SizePx: sizePx, WidthMM: min(max(s.WidthMM*room, 12), 60)}
}

// ShownMM is the width of skin that the picture really shows, mm: WidthMM, or
// less through a lens. A scale bar is drawn by it.
func (v View) ShownMM() float64 {
	v = v.bounded()
	if v.Exam == ExamMagnified || v.Exam == ExamDermoscope {
		return v.WidthMM / lensPower
	}
	return v.WidthMM
}

// bounded puts every number into the range the formats allow; what is not a
// number becomes a middle value. Draw therefore never fails.
func (s Subject) bounded() Subject {
	s.SkinType = min(max(s.SkinType, 1), 6)
	s.AgeYears = within(s.AgeYears, 0, 120, 45)
	s.WidthMM = within(s.WidthMM, 0.1, 200, 5)
	s.HeightMM = within(s.HeightMM, 0, 50, 0)
	s.Count = min(max(s.Count, 1), 500)
	return s
}

func (v View) bounded() View {
	v.SizePx = min(max(v.SizePx, 8), 2048)
	v.WidthMM = within(v.WidthMM, 2, 400, 20)
	if v.Exam > ExamDermoscope {
		v.Exam = ExamNone
	}
	return v
}

func within(x, lo, hi, fallback float64) float64 {
	if math.IsNaN(x) {
		return fallback
	}
	return min(max(x, lo), hi)
}

// has tells whether the lesion carries a feature of the case vocabulary.
func (s Subject) has(feature string) bool { return slices.Contains(s.Features, feature) }
