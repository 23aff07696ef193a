package tissue

// tile is a block of voxels that one worker takes at a time. A tile sleeps
// until heat comes near: a sleeping tile has no rise anywhere, costs nothing,
// and passes nothing on. So the cost follows the heated volume.
type tile struct {
	x, y, z int // its first voxel
	block   block
	awake   bool
	gaining bool        // its voxels have a gain
	gainW   float64     // their sum
	warmest float32     // firstC of its warmest plane
	alike   [tileZ]bool // planes whose voxels are all alike
	layer   [tileZ]layerFlow

	// Of the last step:
	inW, bloodW, surfaceW, farW float64
	top                         float32
	dried                       [tileSize / 64]uint64 // voxels whose water changed
	anyDried                    bool
}

const (
	wakeK    = 2e-3 // a rise this large at a border wakes the tile beyond
	wakeEach = 4    // steps between looks; heat goes one voxel a step, a tile is 8
)

func (b *body) layTiles() {
	b.tiles = make([]tile, b.tx*b.ty*b.tz)
	b.awake = make([]int32, 0, len(b.tiles))
	n := 0
	for z := 0; z < b.tz*tileZ; z += tileZ {
		for y := 0; y < b.ty*tileY; y += tileY {
			for x := 0; x < b.tx*tileX; x += tileX {
				t := &b.tiles[n]
				t.x, t.y, t.z = x, y, z
				t.block = block{first: b.at(x, y, z), nx: tileX, ny: tileY, nz: tileZ}
				t.warmest = b.firstC[z]
				for _, c := range b.firstC[z:min(z+tileZ, b.nz)] {
					t.warmest = max(t.warmest, c)
				}
				if t.warmest > rateFromC { // a fever, or a bath: it dies with no current
					b.wake(n)
				}
				n++
			}
		}
	}
}

// wake makes tile n take part, and lists those that do in rising order.
func (b *body) wake(n int) {
	if b.tiles[n].awake {
		return
	}
	b.tiles[n].awake = true
	b.awake = append(b.awake, int32(n))
	for i := len(b.awake) - 1; i > 0 && b.awake[i-1] > b.awake[i]; i-- {
		b.awake[i-1], b.awake[i] = b.awake[i], b.awake[i-1]
	}
}

// wakeNeighbours wakes the tiles beside those that have grown warm at their
// common border.
func (b *body) wakeNeighbours() {
	for n := range b.tiles {
		t := &b.tiles[n]
		if !t.awake || t.top < wakeK {
			continue
		}
		b.wakeBeyond(t.x > 0, n-1, t.block.first, 1, b.row, tileY, b.plane, tileZ)
		b.wakeBeyond(t.x+tileX < b.nx, n+1, t.block.first+tileX-1, 1, b.row, tileY, b.plane, tileZ)
		b.wakeBeyond(t.y > 0, n-b.tx, t.block.first, tileX, b.row, 1, b.plane, tileZ)
		b.wakeBeyond(t.y+tileY < b.ny, n+b.tx, t.block.first+(tileY-1)*b.row, tileX, b.row, 1, b.plane, tileZ)
		b.wakeBeyond(t.z > 0, n-b.tx*b.ty, t.block.first, tileX, b.row, tileY, b.plane, 1)
		b.wakeBeyond(t.z+tileZ < b.nz, n+b.tx*b.ty, t.block.first+(tileZ-1)*b.plane, tileX, b.row, tileY, b.plane, 1)
	}
}

// wakeBeyond wakes tile n, if there is one, when the border from index at has
// a warm voxel.
func (b *body) wakeBeyond(exists bool, n, at, nx, row, ny, plane, nz int) {
	if !exists || b.tiles[n].awake {
		return
	}
	for z := range nz {
		for y := range ny {
			i := at + z*plane + y*row
			for _, rise := range b.rise[i : i+nx] {
				if rise > wakeK || rise < -wakeK {
					b.wake(n)
					return
				}
			}
		}
	}
}

// openFace is a face of a voxel through which heat leaves the tissue: the
// index of the voxel, and of the face in gx, gy or gz.
type openFace struct {
	voxel, face int32
	axis        uint8
}

// faceLists holds the open faces of all tiles, tile n from at[n] to at[n+1].
type faceLists struct {
	air, far     []openFace
	airAt, farAt []int32
}

// findFaces lists the faces to air and to the far material. It is done again
// whenever voxels are taken away.
func (b *body) findFaces() {
	f := &b.faces
	f.air, f.far, f.airAt, f.farAt = f.air[:0], f.far[:0], f.airAt[:0], f.farAt[:0]
	for n := range b.tiles {
		f.airAt, f.farAt = append(f.airAt, int32(len(f.air))), append(f.farAt, int32(len(f.far)))
		t := &b.tiles[n]
		for z := t.z; z < min(t.z+tileZ, b.nz); z++ {
			for y := t.y; y < min(t.y+tileY, b.ny); y++ {
				for x := t.x; x < min(t.x+tileX, b.nx); x++ {
					if i := b.at(x, y, z); b.mats[b.mat[i]].solid {
						b.findFacesOf(i)
					}
				}
			}
		}
	}
	f.airAt, f.farAt = append(f.airAt, int32(len(f.air))), append(f.farAt, int32(len(f.far)))
}

func (b *body) findFacesOf(i int) {
	for axis := range 3 {
		step := b.stride(axis)
		for _, other := range [2]int{i - step, i + step} {
			face := openFace{voxel: int32(i), face: int32(max(i, other)), axis: uint8(axis)}
			switch b.mat[other] {
			case matAir:
				b.faces.air = append(b.faces.air, face)
			case matFar:
				b.faces.far = append(b.faces.far, face)
			}
		}
	}
}

// lostThrough is the heat in W that leaves through a list of faces.
func (b *body) lostThrough(faces []openFace) float64 {
	sum := 0.0
	for _, f := range faces {
		g := b.gx
		switch f.axis {
		case 1:
			g = b.gy
		case 2:
			g = b.gz
		}
		sum += float64(float64(g[f.face]) * float64(b.rise[f.voxel]))
	}
	return sum
}
