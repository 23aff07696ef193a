package tissue

// step marches heat, boiling and damage over dtS seconds.
func (b *body) step(dtS float64) {
	b.dt = float32(dtS)
	b.crew.share(len(b.awake), b.marchTile)
	dried := false
	for _, n := range b.awake { // in order, so that the sums never differ
		t := &b.tiles[n]
		b.ledger.blood += float64(t.bloodW * dtS)
		b.ledger.surface += float64(t.surfaceW * dtS)
		b.ledger.far += float64(t.farW * dtS)
		b.ledger.in += float64(t.inW * dtS)
		dried = dried || t.anyDried
	}
	b.rise, b.next = b.next, b.rise
	if dried {
		b.refreshDried()
	}
	b.steps++
	if b.steps%wakeEach == 0 {
		b.wakeNeighbours()
	}
}

// marchOne marches tile number b.awake[piece] and books what it lost.
func (b *body) marchOne(piece int) {
	n := b.awake[piece]
	t := &b.tiles[n]
	t.surfaceW = b.lostThrough(b.faces.air[b.faces.airAt[n]:b.faces.airAt[n+1]])
	t.farW = b.lostThrough(b.faces.far[b.faces.farAt[n]:b.faces.farAt[n+1]])
	t.inW = 0
	if t.gaining {
		t.inW = t.gainW
	}
	var l lanes
	b.marchTileRows(t, &l)
	t.bloodW, t.top = l.sums()
	t.anyDried = false
	if float32(t.warmest+t.top) > rateFromC {
		b.changeTile(t)
	}
}

// changeTile boils and kills where the tile is hot enough.
func (b *body) changeTile(t *tile) {
	for z := t.z; z < min(t.z+tileZ, b.nz); z++ {
		cold, toBoil := float32(rateFromC-b.firstC[z]), float32(boilC-b.firstC[z])
		for y := t.y; y < min(t.y+tileY, b.ny); y++ {
			i := b.at(t.x, y, z)
			for x, rise := range b.next[i : i+min(tileX, b.nx-t.x)] {
				if rise > cold && (rise > toBoil || b.mark[i+x]&markSettled == 0) {
					b.change(t, i+x, z, ((z-t.z)*tileY+y-t.y)*tileX+x)
				}
			}
		}
	}
}

// change boils and kills one warm voxel, i by index and bit within its tile.
func (b *body) change(t *tile, i, z, bit int) {
	m := &b.mats[b.mat[i]]
	if b.physics.Vaporise {
		if toBoil := float32(boilC - b.firstC[z]); b.next[i] > toBoil && b.water[i] > 0 && m.latentJ > 0 {
			b.boil(i, m, toBoil)
			t.dried[bit>>6] |= 1 << (bit & 63)
			t.anyDried = true
			if b.water[i] == 0 && t.gaining && b.byField { // no current until the field is solved again
				t.gainW -= float64(b.gain[i])
				b.gain[i] = 0
			}
		}
	}
	tempC := float32(b.firstC[z] + b.next[i])
	if b.physics.Vaporise && tempC >= charC && b.water[i] < driedShare {
		b.mark[i] |= markCharred
	}
	if m.rate == nil {
		return
	}
	if b.omega[i] < omegaMax {
		b.omega[i] = float32(b.omega[i] + float32(b.dt*m.rate.at(tempC)))
	}
	if b.omega[i] >= omegaMax && (b.stasis[i] >= stasisEnd || m.perfusionBlood == 0) {
		b.mark[i] |= markSettled
	}
	if b.stasis[i] < stasisEnd && m.perfusionBlood > 0 {
		before := int(b.stasis[i] * stasisSteps)
		b.stasis[i] = min(float32(b.stasis[i]+float32(b.dt*b.stasisRate.at(tempC))), stasisEnd)
		if now := int(b.stasis[i] * stasisSteps); now != before {
			t.alike[z-t.z] = false
			b.loss[i] = float32(b.flows[b.mat[i]] * flowLeft[now])
		}
	}
}

const (
	stasisEnd   = 12    // e^-12 of the flow is none
	stasisSteps = 8     // the flow is worked out anew every eighth of the integral
	charC       = 200.0 // carbonisation: from memory, textbook chapters on radiofrequency surgery
	driedShare  = 0.1
)

// flowLeft is the share of the blood flow that is left after so many eighths
// of the stasis integral.
var flowLeft = func() (left [stasisEnd*stasisSteps + 1]float32) {
	for k := range left[:stasisEnd*stasisSteps] {
		left[k] = float32(exp(-float64(k) / stasisSteps))
	}
	return left
}()

// boil turns what heat a voxel has above 100 C into steam, as far as its
// water goes; the steam leaves. The rest of the heat warms what is left.
func (b *body) boil(i int, m *material, toBoil float32) {
	over := float32(float32(b.next[i]-toBoil) / b.weight[i])
	share := float32(over / m.latentJ)
	if share < b.water[i] {
		b.water[i] = float32(b.water[i] - share)
		b.next[i] = toBoil
		b.weight[i] = 1 / m.holds(b.water[i])
		return
	}
	over = float32(over - float32(b.water[i]*m.latentJ))
	b.water[i] = 0
	b.weight[i] = 1 / m.dryJK
	b.next[i] = float32(toBoil + float32(over*b.weight[i]))
}

// refreshDried works out the faces of all voxels whose water changed. Faces
// belong to two voxels, so this waits until every tile has been marched.
func (b *body) refreshDried() {
	for _, n := range b.awake {
		t := &b.tiles[n]
		if !t.anyDried {
			continue
		}
		for w, word := range t.dried {
			if word == 0 {
				continue
			}
			t.dried[w] = 0
			for bit := range 64 {
				if word>>bit&1 == 1 {
					k := w*64 + bit
					b.reconnect(b.at(t.x+k%tileX, t.y+k/tileX%tileY, t.z+k/(tileX*tileY)))
				}
			}
		}
	}
}

// stored is the heat the tissue holds over its first state, and latent what
// left with the steam: the heat of boiling, and that of the water itself at
// 100 C. Both in J, from the state alone.
func (b *body) stored() (storedJ, latentJ float64) {
	for _, n := range b.awake {
		t := &b.tiles[n]
		for z := t.z; z < min(t.z+tileZ, b.nz); z++ {
			toBoil := boilC - float64(b.firstC[z])
			for y := t.y; y < min(t.y+tileY, b.ny); y++ {
				i := b.at(t.x, y, z)
				for range min(tileX, b.nx-t.x) {
					m := &b.mats[b.mat[i]]
					if m.solid {
						storedJ += float64(float64(b.rise[i]) / float64(b.weight[i]))
						gone := 1 - float64(b.water[i])
						latentJ += float64(gone * (float64(m.latentJ) + float64((float64(m.wetJK)-float64(m.dryJK))*toBoil)))
					}
					i++
				}
			}
		}
	}
	return storedJ, latentJ
}
