package tissue

// crustV is the peak voltage that may bridge a dried crust now.
func (f *field) crustV(dialW float64, moved bool) float64 {
	if !f.body.physics.GeneratorLimits || !f.body.physics.Vaporise || moved || f.last == 0 {
		f.arc.on = false
		return 0
	}
	if f.arc.on { // once it burns, it is the open circuit that feeds it
		_, peak, _ := f.unit.volts(dialW)
		return peak
	}
	return f.unit.tipPeakV(dialW, f.last)
}

// arcThroughCrust lets current enter the wet tissue round the dried pocket
// under the disc, where an arc of that peak voltage reaches it. Arcs take
// turns and seek the nearest wet place, so that a voxel's part falls off with
// its distance from the disc. Their heat goes to the wet foot, and to the
// crust that they pass.
func (f *field) arcThroughCrust(peakV float64) {
	b := f.body
	if peakV < leastPeakV {
		return
	}
	gasC, ok := f.crustC()
	if !ok {
		return
	}
	if f.arc.on {
		gasC = max(gasC, burningGasC)
	}
	reachM := 0.0
	for reachM < 2e-3 && strikeV(reachM+b.hM/4, gasC) <= peakV {
		reachM += b.hM / 4
	}
	f.arc.rims = f.arc.rims[:0]
	nearestM := f.findRim(reachM)
	for _, r := range f.arc.rims {
		part := float32(exp(-(r.awayM - nearestM) / wanderM))
		g := f.touch(r.x, r.y, r.z, part)
		if g <= 0 {
			continue
		}
		f.warm(r.x, r.y, r.z, float32(float64(g)*f.unit.ArcFootShare))
		x, y, z := b.xyz(r.crust)
		f.warm(x, y, z, float32(float64(g)*f.unit.ArcCrustShare))
	}
}

// rim is a wet voxel beside dried tissue, and how far it is from the disc.
type rim struct {
	x, y, z int
	awayM   float64
	crust   int // index of the dried voxel beside it
}

// crustC is the mean temperature of the dried voxels that the disc stands on.
func (f *field) crustC() (meanC float64, ok bool) {
	b, n := f.body, 0
	for _, c := range f.tip.columns {
		z := b.firstSolid(c.x, c.y)
		if z < b.nz && b.dried(b.at(c.x, c.y, z)) {
			meanC += float64(b.firstC[z]) + float64(b.rise[b.at(c.x, c.y, z)])
			n++
		}
	}
	return meanC / float64(max(n, 1)), n > 0
}

// findRim lists the wet voxels beside dried ones within reach of the disc, and
// returns the least distance.
func (f *field) findRim(reachM float64) (nearestM float64) {
	b, t := f.body, &f.tip
	nearestM = 1
	wide := t.radiusM + reachM + b.hM
	x0, x1 := b.span(t.xM-wide, t.xM+wide, b.nx)
	y0, y1 := b.span(t.yM-wide, t.yM+wide, b.ny)
	z1 := min(b.nz, t.plane+int(reachM/b.hM)+2)
	for z := max(0, t.plane-2); z < z1; z++ {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				i := b.at(x, y, z)
				if !b.mats[b.mat[i]].solid || b.dried(i) {
					continue
				}
				crust, ok := b.driedBeside(i)
				if !ok {
					continue
				}
				cx, cy, _ := b.centreM(x, y, z)
				aside := max(0, sqrt(square(cx-t.xM)+square(cy-t.yM))-t.radiusM)
				away := sqrt(square(aside) + square(max(0, float64(z-t.plane))*b.hM))
				if away > reachM {
					continue
				}
				f.arc.rims = append(f.arc.rims, rim{x, y, z, away, crust})
				nearestM = min(nearestM, away)
			}
		}
	}
	return nearestM
}

// span is the range of voxels between two places of an axis of n voxels.
func (b *body) span(fromM, toM float64, n int) (from, to int) {
	return max(0, whole(fromM/b.hM+float64(n)/2)), min(n, whole(toM/b.hM+float64(n)/2)+1)
}

// driedBeside returns a dried voxel beside voxel i, the upper ones first.
func (b *body) driedBeside(i int) (int, bool) {
	for _, j := range [6]int{i - b.plane, i - 1, i + 1, i - b.row, i + b.row, i + b.plane} {
		if b.mats[b.mat[j]].solid && b.dried(j) {
			return j, true
		}
	}
	return 0, false
}
