package tissue

// The mechanical acts work on the same grid as the current. Each is an
// instant: it takes no simulated time.

// Removed says what an act took away.
type Removed struct {
	VolumeMM3 float64
	LesionMM3 float64 // of it, lesion
	EdgeMM    float64 // destroyed tissue on the cut face of a specimen: mean thickness
	DeepestMM float64 // deepest face of what went, below the level of the skin; 0 if none
}

// Spot is a round place on the patch.
type Spot struct{ XMM, YMM, RadiusMM float64 }

// weakStrength is the strength under which a curette takes tissue: sound
// dermis has 1. A curette has a dull edge for that reason.
const (
	weakStrength  = 0.5
	driedStrength = 0.3 // what drying, and damage, leave of it: an engineering choice
	killedShare   = 0.45
	curetteMM     = 0.3 // what one stroke takes at most: common practice, no source
)

// Shave cuts with a blade held level zMM deep (negative: above the skin) and
// takes everything above it within the spot.
func (t *Tissue) Shave(s Spot, zMM float64) Removed {
	b := t.body
	cut := max(0, min(b.nz, whole(zMM*1e-3/b.hM+float64(b.planesUp)+0.5)))
	r := t.remove(s, func(_, z int) bool { return z < cut })
	t.specimenEdgeMM = max(t.specimenEdgeMM, r.EdgeMM)
	return r
}

// Snip cuts a stalk heightMM above the skin and takes all that stands on it.
func (t *Tissue) Snip(heightMM float64) Removed {
	b := t.body
	return t.Shave(Spot{RadiusMM: float64(b.nx+b.ny) * b.hM * 1e3}, -max(0, heightMM))
}

// Curette takes one stroke over the spot: from the surface down, tissue that
// tumour, drying or damage has made weak, until it meets something sound.
func (t *Tissue) Curette(s Spot) Removed {
	b := t.body
	deep := max(1, whole(curetteMM*1e-3/b.hM+0.5))
	return t.remove(s, func(i, z int) bool {
		x, y, _ := b.xyz(i)
		return z-b.firstSolid(x, y) < deep && b.strength(i) < weakStrength
	})
}

// strength of a voxel, 1 for sound dermis.
func (b *body) strength(i int) float64 {
	m := &b.mats[b.mat[i]]
	s := m.strength
	if m.kind == Horny || m.kind == Epidermis {
		s = min(s, weakStrength*0.9) // a curette scrapes the epidermis off
	}
	if b.dried(i) {
		s *= driedStrength
	} else if b.destroyed(i) {
		s *= killedShare
	}
	return s
}

// Wipe rubs the spot with gauze: dried tissue, blood and saline on the surface
// come off.
func (t *Tissue) Wipe(s Spot) Removed {
	b := t.body
	return t.remove(s, func(i, _ int) bool { return b.dried(i) || b.mark[i]&markFilm != 0 })
}

// Press empties the vessels under the spot and dries the field, until
// Release.
func (t *Tissue) Press(s Spot) {
	b := t.body
	t.catchUp()
	t.remove(s, func(i, _ int) bool { return b.mark[i]&markFilm != 0 })
	t.eachIn(s, func(x, y int) {
		for z := range b.nz {
			i := b.at(x, y, z)
			if b.loss[i] > 0 {
				b.pressed = append(b.pressed, pressedVoxel{int32(i), b.mat[i], b.loss[i]})
				b.loss[i] = 0
				b.unlike(i)
			}
			if b.mats[b.mat[i]].sigmaSm > bloodySigma && b.extra["fibrous"] != 0 && b.mark[i]&markLesion != 0 {
				if n := len(b.pressed); n == 0 || b.pressed[n-1].voxel != int32(i) {
					b.pressed = append(b.pressed, pressedVoxel{int32(i), b.mat[i], b.loss[i]})
				}
				b.become(i, b.extra["fibrous"])
			}
		}
	})
	b.findLayers()
	t.pace()
	t.field.forget()
}

// bloodySigma is the conductivity, S/m, above which tissue is mostly blood.
const bloodySigma = 0.5

// pressedVoxel remembers what pressing changed.
type pressedVoxel struct {
	voxel int32
	mat   uint8
	loss  float32
}

// Release lets the blood back into vessels that heat has not closed.
func (t *Tissue) Release() {
	b := t.body
	t.catchUp()
	for _, p := range b.pressed {
		i := int(p.voxel)
		if b.mark[i]&markGone != 0 || b.stasis[i] >= 1 {
			continue
		}
		b.become(i, p.mat)
		b.loss[i] = p.loss
	}
	b.pressed = b.pressed[:0]
	b.findLayers()
	t.pace()
	t.field.forget()
}

// become changes a voxel's material and keeps its heat. What steam has taken
// from the old material is booked as gone with it, since the new one holds
// another amount of water.
func (b *body) become(i int, mat uint8) {
	_, _, z := b.xyz(i)
	before := b.tookIn(i, z)
	energy := b.rise[i] / b.weight[i]
	b.mat[i] = mat
	b.weight[i] = 1 / b.mats[mat].holds(b.water[i])
	b.rise[i] = energy * b.weight[i]
	b.ledger.removed += before - b.tookIn(i, z)
	b.reconnect(i)
}

// tookIn is the energy of a voxel over its first state, J: its heat, the heat
// that boiled its steam, and that of this water at 100 C.
func (b *body) tookIn(i, z int) float64 {
	m := &b.mats[b.mat[i]]
	gone := 1 - float64(b.water[i])
	heat := float64(b.rise[i]) / float64(b.weight[i])
	return heat + float64(gone*(float64(m.latentJ)+float64((float64(m.wetJK)-float64(m.dryJK))*(boilC-float64(b.firstC[z])))))
}

// Flood covers the spot with a liquid that was laid in, such as blood, up to heightMM above
// each column's surface, as far as the grid reaches.
func (t *Tissue) Flood(s Spot, liquid string, heightMM float64) {
	b := t.body
	mat, ok := b.extra[liquid]
	if !ok {
		return
	}
	t.catchUp()
	planes := max(1, whole(heightMM*1e-3/b.hM+0.5))
	t.eachIn(s, func(x, y int) {
		top := b.firstSolid(x, y)
		for z := max(0, top-planes); z < top; z++ {
			i := b.at(x, y, z)
			b.mat[i], b.water[i] = mat, 1
			b.mark[i] = b.mark[i]&^(markCharred|markSettled) | markFilm
			b.omega[i], b.stasis[i], b.loss[i] = 0, 0, 0
			b.weight[i] = 1 / b.mats[mat].wetJK
			b.rise[i], b.next[i], b.gain[i] = 0, 0, 0
			b.reconnect(i)
		}
	})
	t.settle()
}

// eachIn calls do for every column within the spot, row by row.
func (t *Tissue) eachIn(s Spot, do func(x, y int)) {
	b := t.body
	for y := range b.ny {
		for x := range b.nx {
			cx, cy, _ := b.centreM(x, y, 0)
			if square(float64(cx*1e3)-s.XMM)+square(float64(cy*1e3)-s.YMM) <= square(s.RadiusMM) {
				do(x, y)
			}
		}
	}
}

// remove takes voxels from the surface of every column of the spot down, as
// long as takes says so.
func (t *Tissue) remove(s Spot, takes func(i, z int) bool) Removed {
	b := t.body
	t.catchUp()
	var r Removed
	voxel := b.hM * b.hM * b.hM * 1e9
	columns, burnt := 0, 0
	t.eachIn(s, func(x, y int) {
		top := b.firstSolid(x, y)
		run, any := 0, false
		for z := top; z < b.nz; z++ {
			i := b.at(x, y, z)
			if !b.mats[b.mat[i]].solid {
				continue
			}
			if !takes(i, z) {
				break
			}
			any = true
			run++
			if !b.destroyed(i) {
				run = 0 // only what is burnt down to the cut face counts
			}
			r.VolumeMM3 += voxel
			if b.mark[i]&markLesion != 0 {
				r.LesionMM3 += voxel
			}
			r.DeepestMM = max(r.DeepestMM, float64(z+1-b.planesUp)*b.hM*1e3)
			b.take(i, z)
		}
		if any {
			columns++
			burnt += run
		}
	})
	if columns > 0 {
		r.EdgeMM = float64(burnt) / float64(columns) * b.hM * 1e3
		t.settle()
	}
	return r
}

// take turns a voxel into air and books the energy that goes with it.
func (b *body) take(i, z int) {
	b.ledger.removed += b.tookIn(i, z)
	b.mark[i] |= markGone
	b.mark[i] &^= markFilm | markSettled
	b.mat[i] = matAir
	b.rise[i], b.next[i], b.loss[i], b.weight[i], b.gain[i], b.water[i] = 0, 0, 0, 0, 0, 1
	b.reconnect(i)
}

// settle finds surfaces again after the shape has changed.
func (t *Tissue) settle() {
	b := t.body
	b.findTops()
	b.findFaces()
	b.findLayers()
	t.pace()
	t.field.forget()
}
