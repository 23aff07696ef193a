package scoring

import "leastwatt/cases"

// Outcome is what a treatment on the bench did to the tissue, and what was
// done out of order or against safety while it was done. It is recomputed by
// replaying a session; every figure is in thousandths of its unit, rounded
// before any rule reads it.
type Outcome struct {
	LesionDestroyedFraction cases.Milli `json:"lesion_destroyed_fraction"` // destroyed or taken away, of the first lesion
	DermisDepthMM           cases.Milli `json:"dermis_depth_mm"`           // destroyed or taken, below the top of the dermis
	DermisFraction          cases.Milli `json:"dermis_fraction"`           // the same as a share of the site's dermis; 1 and more reaches the fat
	FloorDepthMM            cases.Milli `json:"floor_depth_mm"`            // destroyed below the floor that blade or curette left; 0 without one
	BaseCoveredFraction     cases.Milli `json:"base_covered_fraction"`     // share of that floor that is destroyed; 0 without one
	RimMM                   cases.Milli `json:"rim_mm"`                    // destroyed surface beyond the lesion's edge
	CharredMM3              cases.Milli `json:"charred_mm3"`
	EnergyJ                 cases.Milli `json:"energy_j"`
	Bursts                  int         `json:"bursts"`
	LongestBurstS           cases.Milli `json:"longest_burst_s"`
	ContactBreaks           int         `json:"contact_breaks"`
	SpecimenEdgeMM          cases.Milli `json:"specimen_edge_mm"` // burnt rim of what was sent
	OrderFaults             []string    `json:"order_faults"`     // vocabulary order_fault, in the order met
	Hazards                 []string    `json:"hazards"`          // vocabulary bench_hazard, in the order met

	// Range holds, for the figures that uncertain constants of the model move,
	// the least and the greatest value over the stated sweep; nil when the
	// sweep was not made.
	Range *OutcomeRange `json:"range,omitempty"`
}

// OutcomeRange is the spread of a figure over the sweep: least, greatest.
type OutcomeRange struct {
	LesionDestroyedFraction [2]cases.Milli `json:"lesion_destroyed_fraction"`
	DermisFraction          [2]cases.Milli `json:"dermis_fraction"`
	BaseCoveredFraction     [2]cases.Milli `json:"base_covered_fraction"`
	RimMM                   [2]cases.Milli `json:"rim_mm"`
	SpecimenEdgeMM          [2]cases.Milli `json:"specimen_edge_mm"`
}
