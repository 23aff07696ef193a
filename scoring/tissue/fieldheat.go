package tissue

// heat solves the field for the present tissue where it has changed enough to
// matter, asks the unit what it gives, and sets the gain of every voxel.
func (f *field) heat(xM, yM, gapM, dialW, dtS float64) float64 {
	b := f.body
	moved := f.tip.move(xM, yM) || !f.contacts
	if gap := f.spec.Electrode.Gap; gap {
		f.arc.ageS += dtS
		if moved || f.arc.ageS >= feetS {
			f.arc.ageS = 0
			f.arc.struck = f.arc.strike(&f.tip, gapM, f.peakV(dialW, gapM))
			moved = true
		}
		if !f.arc.struck {
			f.rest()
			return 0
		}
	}
	if moved || f.changing() {
		f.layWindow(whole(xM/b.hM+float64(b.nx)/2), whole(yM/b.hM+float64(b.ny)/2), f.tip.plane)
		f.conductAll()
		f.touchDown(dialW, moved)
		f.grid.coarsen()
		f.cycles += f.grid.solve(f.phi, f.right, f.tolerance, 60)
		f.joule()
		f.fresh = true
	}
	if f.amps <= 0 {
		f.rest()
		return 0
	}
	f.contacts = true
	f.last = 1 / f.amps
	if f.first == 0 {
		f.first = f.last
	}
	tissueW, arcW := f.given(dialW)
	arcW *= f.unit.ArcFootShare
	f.setGain(tissueW/f.amps, arcW)
	return tissueW + arcW
}

// changing tells whether the conductivity may change from step to step.
func (f *field) changing() bool {
	return f.body.physics.SigmaOfTemperature || f.body.physics.Vaporise
}

// peakV is what the unit can strike a spark with. Without its limits any gap
// is bridged.
func (f *field) peakV(dialW, gapM float64) float64 {
	_, peak, _ := f.unit.volts(dialW)
	if !f.body.physics.GeneratorLimits {
		peak = max(peak, strikeV(gapM)*1.1)
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
	case f.arc.on:
		return f.unit.drive(dialW, f.last, f.unit.ArcV)
	}
	return f.unit.drive(dialW, f.last, 0)
}

// touchDown finds where current enters: under the disc, under a crust that an
// arc bridges, or at the feet of sparks.
func (f *field) touchDown(dialW float64, moved bool) {
	clear(f.right)
	clear(f.foot)
	f.tip.touches = f.tip.touches[:0]
	if f.spec.Electrode.Gap {
		for _, foot := range f.arc.feet {
			cx, cy, _ := f.body.centreM(foot.x, foot.y, 0)
			var buffer [64]column
			for _, c := range coveredColumns(buffer[:0], f.body, cx, cy, max(footRadiusM, f.body.hM/2)) {
				f.touch(c, 0, 1)
			}
		}
	} else {
		crustV := f.crustV(dialW, moved)
		for _, c := range f.tip.columns {
			f.touch(c, f.crust(c, crustV), 1)
		}
	}
	f.spreadFeet()
}

// crustV is the peak voltage that may bridge a dried crust now.
func (f *field) crustV(dialW float64, moved bool) float64 {
	if !f.body.physics.GeneratorLimits || !f.body.physics.Vaporise || moved || f.last == 0 {
		f.arc.on = false
		return 0
	}
	if f.arc.on { // once it burns, hot gas keeps the way open
		_, peak, _ := f.unit.volts(dialW)
		return peak
	}
	return f.unit.tipPeakV(dialW, f.last)
}

// crust is how many dried voxels under a column an arc of that voltage
// bridges; 0 when there are none, or too many.
func (f *field) crust(c column, peakV float64) int {
	if peakV < leastPeakV {
		return 0
	}
	b := f.body
	z := b.firstSolid(c.x, c.y)
	i := b.at(c.x, c.y, z)
	n := 0
	for z+n < b.nz && b.dried(i) {
		n++
		i += b.plane
	}
	if n == 0 || z+n >= b.nz || !b.mats[b.mat[i]].solid || strikeV(float64(n)*b.hM) > peakV {
		return 0
	}
	return n
}

// touch lets current enter a column below deep dried voxels.
func (f *field) touch(c column, deep int, weight float32) {
	b, n := f.body, f.grid.nets[0]
	z := b.firstSolid(c.x, c.y) + deep
	if z >= b.nz {
		return
	}
	i := n.at(int(f.ax[0].cell[c.x]), int(f.ax[1].cell[c.y]), int(f.ax[2].cell[z]))
	g := float32(2 * float32(b.hM) * c.share * weight * f.sigma[i])
	if g <= 0 {
		return
	}
	f.tip.touches = append(f.tip.touches, touch{i, g})
	n.loss[i] = float32(n.loss[i] + g)
	f.right[i] = float32(f.right[i] + g)
	foot := i
	if deep > 0 {
		foot = n.at(int(f.ax[0].cell[c.x]), int(f.ax[1].cell[c.y]), int(f.ax[2].cell[z-1]))
		f.foot[foot] = float32(f.foot[foot] + g)
	} else if f.spec.Electrode.Gap {
		f.foot[foot] = float32(f.foot[foot] + g)
	}
}

// spreadFeet makes the feet's shares add up to one watt, and notes whether
// there are any.
func (f *field) spreadFeet() {
	sum := float32(0)
	for _, v := range f.foot {
		sum += v
	}
	f.arc.on = sum > 0
	if sum > 0 {
		for i, v := range f.foot {
			f.foot[i] = v / sum
		}
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
	t.gaining, t.gainW = false, 0
	v2, aw := float32(f.setVolt2), float32(f.setArcW)
	if v2 == 0 && aw == 0 {
		return
	}
	if !t.awake && f.warmestKs(t) < f.faintKs {
		return
	}
	t.gaining = true
	zTo, yTo, xTo := min(t.z+tileZ, b.nz), min(t.y+tileY, b.ny), min(t.x+tileX, b.nx)
	for z := t.z; z < zTo; z++ {
		cz := int(f.ax[2].cell[z])
		wz := f.ax[2].width(cz)
		for y := t.y; y < yTo; y++ {
			cy := int(f.ax[1].cell[y])
			share := 1 / (wz * f.ax[1].width(cy))
			cells := n.at(0, cy, cz)
			i := b.at(t.x, y, z)
			for x := t.x; x < xTo; x++ {
				cx := int(f.ax[0].cell[x])
				c := cells + cx
				q := float32(float32(float32(f.power[c]*v2)+float32(f.foot[c]*aw)) * (share / f.ax[0].width(cx)))
				if b.weight[i] == 0 {
					q = 0
				}
				b.gain[i] = q
				t.gainW += float64(q)
				i++
			}
		}
	}
}

// warmestKs is how fast the voxel of a tile that is nearest to the tip warms.
func (f *field) warmestKs(t *tile) float64 {
	b, n := f.body, f.grid.nets[0]
	x := max(t.x, min(f.at[0], t.x+tileX-1, b.nx-1))
	y := max(t.y, min(f.at[1], t.y+tileY-1, b.ny-1))
	z := max(t.z, min(f.at[2]+1, t.z+tileZ-1, b.nz-1))
	cx, cy, cz := int(f.ax[0].cell[x]), int(f.ax[1].cell[y]), int(f.ax[2].cell[z])
	c := n.at(cx, cy, cz)
	w := f.ax[0].width(cx) * f.ax[1].width(cy) * f.ax[2].width(cz)
	return (float64(f.power[c])*f.setVolt2 + float64(f.foot[c])*f.setArcW) / float64(w) * float64(b.weight[b.at(x, y, z)])
}

func (f *field) rest() {
	if f.setVolt2 != 0 || f.setArcW != 0 {
		f.setVolt2, f.setArcW = 0, 0
		f.body.clearGain()
	}
	f.fresh = true
}
