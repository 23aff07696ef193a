package skin

import thermal "leastwatt/scoring/tissue"

// What the picture needs to know of a column of tissue, each between 0 and 1
// where no unit is named. The tissue's figures span many powers of ten (damage)
// or jump (charred); marks are made so that they can be blended between
// columns.
const (
	markTaken  = iota // mm of the first surface that blade, curette or gauze took
	markFloor         // height of the surface over the level of the skin, mm, blood left out
	markWhite         // protein curdled, as deep as the eye looks
	markShut          // small vessels closed by heat
	markDry           // water boiled off
	markGel           // heated past the first whitening: collagen melts and clears
	markBrown         // dry heat browned it
	markChar          // carbon
	markPool          // mm of blood on it
	markCooked        // of that blood, the share that heat turned
	markWater         // mm of clear liquid on it
	markBlanch        // vessels emptied by pressure or adrenaline
	markBleb          // mm that the injected fluid lifts the skin
	markDamp          // wet by gauze or cotton
	markLesion        // lesion is at the surface
	markCut           // share of the columns near from which something was taken
	markCount
)

// marks of one column.
type marks [markCount]float32

// Damage at which curdling begins and ends to show, as the natural logarithm of
// the integral. With the usual set and a second of heating this is about 58 to
// 66 C; published whitening of skin lies at 60 to 65 C ("Thermal damage
// assessment of blood vessels and skin by birefringence and whitening", SPIE
// 1882, 1993: from memory).
const (
	whiteFromLn, whiteToLn = 0.7, 5.5
	cookFromLn, cookToLn   = 3.5, 10 // haemoglobin turns at about 62 to 75 C
	seenMM                 = 0.13    // whitening deeper than this adds little
	gelFromC, gelToC       = 78, 105 // dermal collagen clears: same volume
	brownFromC, brownToC   = 125, 225
)

// column is what Treated remembers of a column from call to call.
type column struct {
	marks
	peakC  float32 // hottest since this surface came to light
	dryMM  float32 // height of the tissue under any liquid
	liquid bool
}

// look works out the marks of column k.
func (t *Treated) look(m *thermal.Maps, x *TreatExtra, k int) column {
	last := t.columns[k]
	now := column{peakC: last.peakC, dryMM: m.HeightMM[k], liquid: m.Wet[k]}
	film := float32(0)
	if m.Wet[k] {
		// The tissue under the liquid is as it was last seen.
		now.marks = last.marks
		now.dryMM = min(last.dryMM, m.HeightMM[k])
		film = max(m.HeightMM[k]-now.dryMM, 0)
	} else {
		if last.dryMM-m.HeightMM[k] > 0.6*float32(m.GridMM) {
			now.peakC = 0 // a new surface
		}
		now.peakC = max(now.peakC, m.TempC[k])
		now.heated(m, k)
	}
	now.marks[markTaken] = max(t.firstMM[k]-now.dryMM, 0)
	now.marks[markFloor] = now.dryMM
	now.marks[markChar] = boolMark(m.Charred[k])
	now.marks[markLesion] = boolMark(m.Lesion[k])
	if m.Wet[k] {
		now.marks[markLesion] = last.marks[markLesion]
	}
	now.liquids(m, x, k, film)
	now.marks[markBlanch] = plane(x.Blanch, k)
	now.marks[markBleb] = plane(x.BlebMM, k)
	now.marks[markDamp] = plane(x.Damp, k)
	return now
}

// heated reads the marks of bare tissue.
func (c *column) heated(m *thermal.Maps, k int) {
	ln := log32(max(m.Omega[k], 1e-6))
	deep := 1 - exp32(-max(m.WhitenMM[k], 0)/seenMM)
	c.marks[markWhite] = smooth(whiteFromLn, whiteToLn, ln) * deep
	c.marks[markShut] = smooth(0.05, 1.2, m.Stasis[k])
	dry := smooth(0.85, 0.10, m.Water[k])
	c.marks[markDry] = dry
	c.marks[markGel] = smooth(gelFromC, gelToC, c.peakC)
	c.marks[markBrown] = smooth(brownFromC, brownToC, c.peakC) * dry
}

// liquids reads what lies on the tissue: the bench's own figure if it has one.
func (c *column) liquids(m *thermal.Maps, x *TreatExtra, k int, film float32) {
	c.marks[markPool], c.marks[markWater], c.marks[markCooked] = 0, 0, 0
	switch {
	case x.BloodMM != nil:
		c.marks[markPool] = max(x.BloodMM[k], 0)
		c.marks[markWater] = max(film-x.BloodMM[k], 0)
	case m.Wet[k] && !x.Saline:
		c.marks[markPool] = film
	case m.Wet[k]:
		c.marks[markWater] = film
	}
	if m.Wet[k] && c.marks[markPool] > 0 {
		c.marks[markCooked] = smooth(cookFromLn, cookToLn, log32(max(m.Omega[k], 1e-6)))
	}
}

func boolMark(v bool) float32 {
	if v {
		return 1
	}
	return 0
}

// plane reads one column of a plane that may be missing.
func plane(p []float32, k int) float32 {
	if k >= len(p) {
		return 0
	}
	return p[k]
}

// idle marks say that nothing has been done to a column.
func (m *marks) idle() bool {
	for i, v := range m {
		if v > 0.002 && i != markFloor && i != markLesion {
			return false
		}
	}
	return true
}

// unlike tells whether an eye could see the difference between two marks.
func (m *marks) unlike(o *marks) bool {
	for i := range m {
		if abs32(m[i]-o[i]) > 0.012 {
			return true
		}
	}
	return false
}

// blend gives the marks at a place between columns: a bell of three by three
// columns (the quadratic B-spline), so that no voxel's edge is seen. u and v
// count columns from the corner. found is false where nothing has been done.
func (t *Treated) blend(u, v float32, out *marks) (found bool) {
	i, j := floor32(u+0.5), floor32(v+0.5)
	if i < 1 || j < 1 || int(i) > t.nx-2 || int(j) > t.ny-2 {
		return false
	}
	k := int(j)*t.nx + int(i)
	if t.quiet[k] {
		return false
	}
	fu, fv := u-float32(i), v-float32(j)
	wu := [3]float32{0.5 * (0.5 - fu) * (0.5 - fu), 0.75 - fu*fu, 0.5 * (0.5 + fu) * (0.5 + fu)}
	wv := [3]float32{0.5 * (0.5 - fv) * (0.5 - fv), 0.75 - fv*fv, 0.5 * (0.5 + fv) * (0.5 + fv)}
	*out = marks{}
	for b := range 3 {
		for a := range 3 {
			w := wu[a] * wv[b]
			c := &t.columns[k+(b-1)*t.nx+a-1].marks
			for n := range out {
				out[n] += w * c[n]
			}
		}
	}
	return true
}
