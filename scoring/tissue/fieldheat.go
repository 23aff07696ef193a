package tissue

// heat solves the field for the present tissue where it has changed enough to
// matter, asks the unit what it gives, and sets the gain of every voxel.
func (f *field) heat(xM, yM, gapM, dialW, dtS float64) float64 {
	f.sinceS += dtS
	f.arc.ageS += dtS
	far := square(xM-f.tip.xM)+square(yM-f.tip.yM) > square(f.body.hM/4)
	due := f.sinceS >= f.stepS || far
	if !f.down || due && (f.changing() || xM != f.tip.xM || yM != f.tip.yM) || f.spec.Electrode.Gap && f.arc.ageS >= feetS {
		f.sinceS = 0
		f.down = f.renew(xM, yM, gapM, dialW)
	}
	if !f.down {
		f.rest()
		return 0
	}
	tissueW, arcW := f.given(dialW)
	arcW = float64(arcW * (f.unit.ArcFootShare + f.unit.ArcCrustShare))
	f.setGain(tissueW/f.watts, arcW)
	return tissueW + arcW
}

// solveS is how long a solution of the field stands while the tip rests: the
// tissue next to a tip takes a few milliseconds to boil at full power.
const solveS = 0.0079

// renew solves the field; it returns false when no current can flow.
func (f *field) renew(xM, yM, gapM, dialW float64) bool {
	b := f.body
	fresh := !f.down
	moved := f.tip.move(xM, yM) || fresh
	if f.spec.Electrode.Gap && (moved || f.arc.ageS >= feetS) {
		f.arc.ageS = 0
		if !f.arc.strike(&f.tip, gapM, f.peakV(dialW, gapM)) {
			return false
		}
	}
	f.layWindow(whole(xM/b.hM+float64(b.nx)/2), whole(yM/b.hM+float64(b.ny)/2), f.tip.plane)
	f.conductAll()
	f.touchDown(dialW, fresh)
	f.grid.coarsen()
	f.cycles += f.grid.solve(f.phi, f.right, f.tolerance, 60)
	f.solves++
	f.joule()
	f.fresh = true
	if f.watts <= islandShare*f.entry {
		return false
	}
	f.last = 1 / f.watts
	if f.first == 0 {
		f.first = f.last
	}
	return true
}

// islandShare of the conductance by which current enters the tissue is the
// least that counts as a way out of it: tissue that hangs in the air has none.
const islandShare = 1e-6

// changing tells whether the conductivity may change from step to step.
func (f *field) changing() bool {
	return f.body.physics.SigmaOfTemperature || f.body.physics.Vaporise
}

// peakV is what the unit can strike a spark with. Without its limits any gap
// is bridged.
func (f *field) peakV(dialW, gapM float64) float64 {
	_, peak, _ := f.unit.volts(dialW)
	if !f.body.physics.GeneratorLimits {
		peak = max(peak, strikeV(gapM, roomC)*1.1)
	}
	return peak
}

// given is what the unit gives at that dial: to the tissue, and to an arc.
// Sparks burn one after another, so the feet of a set do not share the
// current: each sees the resistance of one.
func (f *field) given(dialW float64) (tissueW, arcW float64) {
	switch {
	case !f.body.physics.GeneratorLimits:
		return dialW, 0
	case f.spec.Electrode.Gap:
		return f.unit.drive(dialW, f.last*float64(len(f.arc.feet)), f.unit.ArcV)
	case f.arc.on: // the rest of the current meets no arc
		return f.unit.drive(dialW, f.last, float64(f.unit.ArcV*f.arc.share))
	}
	return f.unit.drive(dialW, f.last, 0)
}

// touchDown finds where current enters: under the disc, through arcs across a
// crust, or at the feet of sparks.
func (f *field) touchDown(dialW float64, fresh bool) {
	clear(f.right)
	for _, i := range f.warmed {
		f.foot[i] = 0
	}
	f.warmed = f.warmed[:0]
	f.tip.touches = f.tip.touches[:0]
	b := f.body
	if f.spec.Electrode.Gap {
		for _, foot := range f.arc.feet {
			cx, cy, _ := b.centreM(foot.x, foot.y, 0)
			var buffer [64]column
			for _, c := range coveredColumns(buffer[:0], b, cx, cy, max(footRadiusM, b.hM/2), 0) {
				z := b.firstSolid(c.x, c.y)
				if g := f.touch(c.x, c.y, z, c.share); g > 0 {
					f.warm(c.x, c.y, z, g)
				}
			}
		}
	} else {
		for _, c := range f.tip.columns {
			z := b.firstSolid(c.x, c.y)
			f.touch(c.x, c.y, z, float32(c.share+float32(c.rim*f.crowding(c.x, c.y, z))))
		}
		f.arc.first = len(f.tip.touches)
		f.arcThroughCrust(f.crustV(dialW, fresh))
	}
	f.shareOut()
}

// crowding is how much of the rim's correction holds: none where the uppermost
// voxel conducts far worse than the next, as the horny layer does, since
// current then leaves the disc evenly.
func (f *field) crowding(x, y, z int) float32 {
	if z+1 >= f.body.nz {
		return 1
	}
	top, below := f.sigma[f.cellAt(x, y, z)], f.sigma[f.cellAt(x, y, z+1)]
	if top >= below {
		return 1
	}
	return top / below
}

// touch lets current enter a voxel through a share of one of its faces. It
// returns the conductance, nought when the voxel is none.
func (f *field) touch(x, y, z int, share float32) float32 {
	if z >= f.body.nz {
		return 0
	}
	i := f.cellAt(x, y, z)
	g := float32(2 * float32(f.body.hM) * share * f.sigma[i])
	if g <= 0 {
		return 0
	}
	n := f.grid.nets[0]
	f.tip.touches = append(f.tip.touches, touch{i, g})
	n.loss[i] = float32(n.loss[i] + g)
	f.right[i] = float32(f.right[i] + g)
	return g
}

// cellAt is the index of the cell that holds a voxel.
func (f *field) cellAt(x, y, z int) int {
	return f.grid.nets[0].at(int(f.ax[0].cell[x]), int(f.ax[1].cell[y]), int(f.ax[2].cell[z]))
}

// warm gives a voxel a part of an arc's heat.
func (f *field) warm(x, y, z int, part float32) {
	i := f.cellAt(x, y, z)
	if f.foot[i] == 0 {
		f.warmed = append(f.warmed, i)
	}
	f.foot[i] = float32(f.foot[i] + part)
}

// shareOut makes the parts of an arc's heat add up to one watt.
func (f *field) shareOut() {
	sum := float32(0)
	for _, i := range f.warmed {
		sum = float32(sum + f.foot[i])
	}
	f.arc.on = sum > 0
	for _, i := range f.warmed {
		f.foot[i] /= sum
	}
}

// setGain gives every voxel its part of the heat of its cell, for a mean
// square voltage and a power of arcs. Tiles in which it would warm nothing
// are left out.
func (f *field) setGain(volt2, arcW float64) {
	if !f.fresh && volt2 == f.setVolt2 && arcW == f.setArcW {
		return
	}
	f.fresh, f.setVolt2, f.setArcW = false, volt2, arcW
	passedW := float64(volt2*f.watts) + arcW
	moved := square(f.tip.xM-f.farXM)+square(f.tip.yM-f.farYM) > square(f.body.hM)
	f.setFar = moved || f.solves%farEach == 0 || passedW < 0.99*f.farW || passedW > 1.01*f.farW
	if f.setFar {
		f.farW, f.farXM, f.farYM = passedW, f.tip.xM, f.tip.yM
	}
	b := f.body
	b.crew.share(len(b.tiles), f.spread)
	for n := range b.tiles {
		if b.tiles[n].gaining {
			b.wake(n)
		}
	}
}

// spreadTile is setGain for one tile.
func (f *field) spreadTile(number int) {
	b, n := f.body, f.grid.nets[0]
	t := &b.tiles[number]
	far := f.farOff(t)
	if far && t.gaining && !f.setFar {
		return
	}
	t.gaining, t.gainW = false, 0
	v2, aw := float32(f.setVolt2), float32(f.setArcW)
	if v2 == 0 && aw == 0 {
		return
	}
	if far && f.warmestKs(t) < f.faintKs {
		return
	}
	t.gaining = true
	yTo, n32 := min(t.y+tileY, b.ny), min(tileX, b.nx-t.x)
	cellX, narrow := f.ax[0].cell[t.x:t.x+n32], f.ax[0].narrow[t.x:t.x+n32]
	for z := t.z; z < min(t.z+tileZ, b.nz); z++ {
		cz := int(f.ax[2].cell[z])
		for y := t.y; y < yTo; y++ {
			cy := int(f.ax[1].cell[y])
			share := f.ax[2].narrow[z] * f.ax[1].narrow[y]
			cells := n.at(0, cy, cz)
			power, foot := f.power[cells:cells+n.nx], f.foot[cells:cells+n.nx]
			i := b.at(t.x, y, z)
			gain, weight := b.gain[i:i+n32], b.weight[i:i+n32]
			sum := float32(0)
			for x := range gain {
				c := cellX[x]
				q := float32(float32(float32(power[c]*v2)+float32(foot[c]*aw)) * float32(share*narrow[x]))
				if weight[x] == 0 {
					q = 0
				}
				gain[x] = q
				sum = float32(sum + q)
			}
			t.gainW += float64(sum)
		}
	}
}

// away2 is the squared distance of a tile's nearest voxel from the tip, m2.
func (f *field) away2(t *tile) float64 {
	off := func(at, from, size int) float64 { return float64(max(from, min(at, from+size-1)) - at) }
	return square(f.body.hM) * (square(off(f.at[0], t.x, tileX)) + square(off(f.at[1], t.y, tileY)) + square(off(f.at[2], t.z, tileZ)))
}

// farOff tells whether a tile is so far from the tip that its heat depends on
// little but the power, and needs to be set anew only now and then.
func (f *field) farOff(t *tile) bool {
	return f.away2(t) > square(2*(f.tip.radiusM+pocketM)+1e-3)
}

const farEach = 4 // solutions between two settings of far tiles, while power and place hardly change

// warmestKs is about how fast the voxel of a tile that is nearest to the tip
// warms: as a hemisphere with the tip's radius and a dried pocket would.
func (f *field) warmestKs(t *tile) float64 {
	b, r2 := f.body, f.away2(t)
	heatJm3K := b.mats[len(b.mats)-1].rhoCJm3K
	return (float64(f.setVolt2*f.watts) + f.setArcW) * (f.tip.radiusM + pocketM) / (2 * pi * r2 * r2 * heatJm3K)
}

// pocketM is how deep a dried pocket is reckoned with.
const pocketM = 2.5e-4

func (f *field) rest() {
	f.down = false
	if f.setVolt2 != 0 || f.setArcW != 0 {
		f.setVolt2, f.setArcW = 0, 0
		f.body.clearGain()
	}
	f.fresh = true
}

// forget makes the next heat find the tip and the window anew, after the shape
// of the tissue has changed.
func (f *field) forget() {
	f.rest()
	f.tip.xM = -1e9
	f.laid = false
	f.last = 0
}
