package tissue

// Result is what a run gives. What was switched off is nil.
type Result struct {
	EnergyJ    float64       `json:"energy_j"`
	DeliveredW float64       `json:"delivered_w"`
	Impedance  *ImpedanceOhm `json:"impedance_ohm"`
	Probes     []ProbeResult `json:"probes"`
	Destroyed  *Region       `json:"destroyed"`
	Dried      *Region       `json:"dried"`
	Charred    *Region       `json:"charred"`

	LesionDestroyedFraction *float64 `json:"lesion_destroyed_fraction"`
	DermisDepthMM           *float64 `json:"dermis_depth_mm"`

	Balance Balance `json:"balance"`
	Voxels  int     `json:"voxels"`
	Steps   int     `json:"steps"`
	WallS   float64 `json:"wall_s"` // filled in by who has a clock
}

// ImpedanceOhm is the resistance from tip to far field, through tissue alone,
// at the first and the last moment that current could flow.
type ImpedanceOhm struct {
	First *float64 `json:"first"`
	Last  *float64 `json:"last"`
}

// ProbeResult is one probe's temperature at every sample and its damage
// integral at the end.
type ProbeResult struct {
	TempC []float64 `json:"temp_c"`
	Omega *float64  `json:"omega"`
}

// Region is how far a change of the tissue reaches.
type Region struct {
	DepthMM   float64 `json:"depth_mm"`  // deepest voxel face below the level of the skin
	RadiusMM  float64 `json:"radius_mm"` // farthest voxel centre from the axis
	VolumeMM3 float64 `json:"volume_mm3"`
}

// Balance is the account of energy, J over the first state.
type Balance struct {
	InJ      float64 `json:"in_j"`
	StoredJ  float64 `json:"stored_j"`
	LatentJ  float64 `json:"latent_j"`
	SurfaceJ float64 `json:"surface_j"`
	FarJ     float64 `json:"far_j"`
	BloodJ   float64 `json:"blood_j"`
}

// region measures the solid voxels of which is true.
func (b *body) region(is func(i int) bool) *Region {
	var r Region
	count, radius2 := 0, 0.0
	for z := range b.nz {
		for y := range b.ny {
			i := b.at(0, y, z)
			for x := range b.nx {
				if b.mats[b.mat[i+x]].solid && is(i+x) {
					cx, cy, cz := b.centreM(x, y, z)
					r.DepthMM = max(r.DepthMM, (cz+b.hM/2)*1e3)
					radius2 = max(radius2, float64(cx*cx)+float64(cy*cy))
					count++
				}
			}
		}
	}
	r.RadiusMM = sqrt(radius2) * 1e3
	r.VolumeMM3 = float64(count) * b.hM * b.hM * b.hM * 1e9
	return &r
}

func (b *body) destroyed(i int) bool { return b.omega[i] >= 1 }

func (b *body) dried(i int) bool {
	return b.water[i] < driedShare && b.mats[b.mat[i]].latentJ > 0
}

func (b *body) charred(i int) bool { return b.mark[i]&markCharred != 0 }

// lesionDestroyed is the share of the lesion's first voxels that are
// destroyed or taken away; nil when there is no lesion or no damage.
func (b *body) lesionDestroyed() *float64 {
	if b.stasisRate == nil {
		return nil
	}
	all, dead := 0, 0
	for i, m := range b.mark {
		if m&markLesion == 0 {
			continue
		}
		all++
		if m&markGone != 0 || b.destroyed(i) {
			dead++
		}
	}
	if all == 0 {
		return nil
	}
	share := float64(dead) / float64(all)
	return &share
}

// dermisDepth is how far below the top of the dermis tissue is destroyed, mm;
// nil when there is no dermis or no damage.
func (b *body) dermisDepth(layers []Layer) *float64 {
	top, found := 0.0, false
	for _, l := range layers {
		if found = l.Kind.dermis(); found {
			break
		}
		top += l.ThicknessMM
	}
	if !found || b.stasisRate == nil {
		return nil
	}
	depth := max(0, b.region(b.destroyed).DepthMM-top)
	return &depth
}
