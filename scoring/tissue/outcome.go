package tissue

import "math"

// Outcome is what the treatment did, as a session's outcome states it. Order
// of acts and hazards are the bench's to tell.
type Outcome struct {
	LesionDestroyedFraction float64 // of the first lesion: destroyed or taken away
	DermisDepthMM           float64 // destroyed depth below the top of the dermis
	DermisFraction          float64 // of the site's dermis thickness
	RimMM                   float64 // destroyed surface beyond the lesion's edge: median of sixteen directions
	CharredMM3              float64
	DestroyedMM3            float64
	EnergyJ                 float64
	Bursts                  int
	LongestBurstS           float64
	ContactBreaks           int
	SpecimenEdgeMM          float64
}

// Outcome measures the tissue as it is now. Figures are rounded: lengths to
// 0.01 mm, shares to 0.001, volumes to 0.001 mm3, energy to 0.001 J.
func (t *Tissue) Outcome() Outcome {
	b := t.body
	o := Outcome{
		EnergyJ: rounded(t.energyJ, 1000), Bursts: t.bursts, LongestBurstS: float64(t.longestMS) / 1000, ContactBreaks: t.breaks,
		SpecimenEdgeMM: rounded(t.specimenEdgeMM, 100), RimMM: rounded(t.rimMM(), 100),
		CharredMM3: rounded(b.region(b.charred).VolumeMM3, 1000), DestroyedMM3: rounded(b.region(b.destroyed).VolumeMM3, 1000),
	}
	if share := b.lesionDestroyed(); share != nil {
		o.LesionDestroyedFraction = rounded(*share, 1000)
	}
	if depth := b.dermisDepth(t.spec.Layers); depth != nil {
		o.DermisDepthMM = rounded(*depth, 100)
		o.DermisFraction = rounded(*depth/t.site.DermisMM, 1000)
	}
	return o
}

func rounded(x float64, steps float64) float64 { return math.Floor(float64(x*steps)+0.5) / steps }

// rimMM looks in sixteen directions for the farthest surface voxel that is
// destroyed or taken, and how far that is beyond the lesion's edge there.
func (t *Tissue) rimMM() float64 {
	b := t.body
	const directions = 16
	var burnt, edge [directions]float64
	for y := range b.ny {
		for x := range b.nx {
			cx, cy, _ := b.centreM(x, y, 0)
			d := direction(cx, cy)
			r := sqrt(square(cx)+square(cy)) * 1e3
			if t.lesionColumn(x, y) {
				edge[d] = max(edge[d], r)
			}
			z := b.firstSolid(x, y)
			if z < b.nz && (b.destroyed(b.at(x, y, z)) || z > b.planesUp) {
				burnt[d] = max(burnt[d], r)
			}
		}
	}
	var rims []float64
	for d := range directions {
		rims = append(rims, max(0, burnt[d]-edge[d]))
	}
	for i := range rims { // sixteen values: sorting by hand keeps it plain
		for j := i; j > 0 && rims[j] < rims[j-1]; j-- {
			rims[j], rims[j-1] = rims[j-1], rims[j]
		}
	}
	return (rims[7] + rims[8]) / 2
}

// direction is one of sixteen sectors about the middle, by comparisons alone.
func direction(x, y float64) int {
	d := 0
	if y < 0 {
		x, y, d = -x, -y, 8
	}
	if x < 0 {
		x, y, d = y, -x, d+4
	}
	// Now 0 to 90 degrees, in four sectors by the tangents of 22.5, 45, 67.5.
	switch {
	case y < 0.41421356237309503*x:
		return d
	case y < x:
		return d + 1
	case y < 2.414213562373095*x:
		return d + 2
	}
	return d + 3
}

// lesionColumn tells whether lesion was in a column at the start.
func (t *Tissue) lesionColumn(x, y int) bool {
	b := t.body
	if t.lesionAt == nil {
		t.lesionAt = make([]bool, b.nx*b.ny)
		for i, m := range b.mark {
			if m&markLesion != 0 {
				cx, cy, _ := b.xyz(i)
				t.lesionAt[cy*b.nx+cx] = true
			}
		}
	}
	return t.lesionAt[y*b.nx+x]
}
