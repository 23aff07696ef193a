package tissue

// tile is a block of voxels that one worker takes at a time. A tile sleeps
// until heat comes near: a sleeping tile has no rise anywhere, costs nothing,
// and passes nothing on. So the cost follows the heated volume.
type tile struct {
	x, y, z int // its first voxel
	block   block
	awake   bool
	gaining bool    // its voxels have a gain
	gainW   float64 // their sum
	coldest float32 // firstC of its coldest plane

	// Of the last step:
	bloodW, surfaceW, farW float64
	top                    float32
	dried                  [tileSize / 64]uint64 // voxels whose water changed
	anyDried               bool
}

const (
	wakeK    = 1e-3 // a rise this large wakes the neighbouring tiles
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
				t.coldest = b.firstC[z]
				for _, c := range b.firstC[z:min(z+tileZ, b.nz)] {
					t.coldest = min(t.coldest, c)
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

// wakeNeighbours wakes the tiles beside those that have grown warm.
func (b *body) wakeNeighbours() {
	for n := range b.tiles {
		t := &b.tiles[n]
		if !t.awake || t.top < wakeK {
			continue
		}
		if t.x > 0 {
			b.wake(n - 1)
		}
		if t.x+tileX < b.nx {
			b.wake(n + 1)
		}
		if t.y > 0 {
			b.wake(n - b.tx)
		}
		if t.y+tileY < b.ny {
			b.wake(n + b.tx)
		}
		if t.z > 0 {
			b.wake(n - b.tx*b.ty)
		}
		if t.z+tileZ < b.nz {
			b.wake(n + b.tx*b.ty)
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
