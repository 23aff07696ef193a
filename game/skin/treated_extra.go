package skin

// TreatExtra is what the bench knows of the patch and the tissue's maps do not
// hold. Planes have one value a column, row by row as in tissue.Maps; a plane
// may be nil.
type TreatExtra struct {
	Blanch    []float32 // vessels emptied by a finger, an electrode or adrenaline, 0 to 1
	BlebMM    []float32 // how far the injected fluid lifts the skin
	Damp      []float32 // wet from gauze, cotton or prep, 0 to 1
	BloodMM   []float32 // depth of free blood; nil takes it from the liquid in the maps
	Saline    bool      // the liquid in the maps is clear
	Flush     float32   // of FlushStrength, 0 to 1
	Bleeders  []Bleeder
	Marker    []InkRing
	SwollenMM float64 // by which injected fluid thickens the dermis
}

// Bleeder is a point from which blood wells up.
type Bleeder struct{ XMM, YMM, RadiusMM float64 }

// InkRing is a line drawn round the lesion with a skin marker.
type InkRing struct{ XMM, YMM, RadiusMM float64 }

// FlushStrength is the reddening of the skin round an injury, sinceMS after
// it: the axon reflex begins within some fifteen seconds, is full after about a
// minute and fades over half an hour (from memory: the triple response,
// textbooks of physiology).
func FlushStrength(sinceMS int) float32 {
	s := float32(sinceMS) * 1e-3
	return smooth(4, 55, s) * (1 - 0.8*smooth(600, 2400, s))
}
