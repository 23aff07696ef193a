package tissue

// crustShare is the share of its first water under which a voxel counts as
// crust: what has dried of it parts the disc from what is wet. How thick that
// is follows from the water left, so that a crust thinner than a voxel counts
// as the thin one it is.
const crustShare = 0.5

// crusted tells whether a voxel is crust.
func (b *body) crusted(i int) bool { return b.water[i] < crustShare }

// crustV is the peak voltage that may bridge a dried crust now. fresh says
// that the tip has just come down: it has met no crust yet.
func (f *field) crustV(dialW float64, fresh bool) float64 {
	burstV, peakV, _ := f.unit.volts(dialW)
	if !f.body.physics.GeneratorLimits || !f.body.physics.Vaporise || fresh || f.last == 0 || burstV <= f.unit.ArcV {
		f.arc.on = false
		return 0
	}
	// Once it burns, it is the open circuit that feeds it, for as long as most of
	// the disc stands on crust; a tip that creeps on to wet tissue puts it out.
	if f.arc.on = f.arc.on && f.mostlyCrusted(); f.arc.on {
		return peakV
	}
	return f.unit.tipPeakV(dialW, f.last)
}

// mostlyCrusted tells whether half the columns under the disc are crust.
func (f *field) mostlyCrusted() bool {
	_, n := f.crustC()
	return 2*n >= len(f.tip.columns)
}

// arcThroughCrust lets current enter the wet tissue round the dried pocket
// under the disc, where an arc of that peak voltage reaches it. Arcs take
// turns and seek the nearest wet place, so that a voxel's part falls off with
// its distance from the disc. Their heat goes to the wet foot, and to the
// crust that they pass.
func (f *field) arcThroughCrust(peakV float64) {
	b := f.body
	if peakV < leastArcV {
		return
	}
	gasC, n := f.crustC()
	if n == 0 {
		return
	}
	if f.arc.on {
		gasC = max(gasC, burningGasC)
	}
	reachM := 0.0
	for reachM < 2e-3 && arcStrikesV(reachM+b.hM/4, gasC) <= peakV {
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

// rim is a wet voxel beside crust, and how far it is from the disc.
type rim struct {
	x, y, z int
	awayM   float64
	crust   int // index of the crusted voxel beside it
}

// crustC is the mean temperature of the n crusted voxels that the disc stands
// on.
func (f *field) crustC() (meanC float64, n int) {
	b := f.body
	for _, c := range f.tip.columns {
		z := b.firstSolid(c.x, c.y)
		if z < b.nz && b.crusted(b.at(c.x, c.y, z)) {
			meanC += float64(b.firstC[z]) + float64(b.rise[b.at(c.x, c.y, z)])
			n++
		}
	}
	return meanC / float64(max(n, 1)), n
}

// findRim lists the wet voxels beside crusted ones within reach of the disc, and
// returns the least distance. What is still wet of the crusted voxel is no part
// of that distance.
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
				if !b.mats[b.mat[i]].solid || b.crusted(i) {
					continue
				}
				crust, ok := b.crustBeside(i)
				if !ok {
					continue
				}
				cx, cy, _ := b.centreM(x, y, z)
				aside := max(0, sqrt(square(cx-t.xM)+square(cy-t.yM))-t.radiusM)
				away := sqrt(square(aside) + square(max(0, float64(z-t.plane))*b.hM))
				away = max(0, away-float64(float64(b.water[crust])*b.hM))
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

// crustBeside returns a crusted voxel beside voxel i, the upper ones first.
func (b *body) crustBeside(i int) (int, bool) {
	for _, j := range [6]int{i - b.plane, i - 1, i + 1, i - b.row, i + b.row, i + b.plane} {
		if b.mats[b.mat[j]].solid && b.crusted(j) {
			return j, true
		}
	}
	return 0, false
}
