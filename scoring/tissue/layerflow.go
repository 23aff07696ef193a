package tissue

// layerFlow is the stencil of a plane of voxels that are all alike: skin that
// nothing has happened to yet. Marching it needs no reading of conductances,
// which is most of the traffic with the memory; the operations and so the bits
// are the same.
type layerFlow struct {
	across, above, below float32 // W/K to the sides, up and down
	loss                 float32 // W/K
	answer               float32 // K/J
}

// marchLayerPlain is march over one plane.
func (s *stencil) marchLayerPlain(to, u []float32, scale float32, b block, l *lanes) {
	for y := range b.ny {
		s.marchRowPlain(to, u, scale, b.first+y*s.rowStep, b.nx, l)
	}
}

// layerOf tells whether a plane of a tile is all alike, and its figures.
func (b *body) layerOf(first int) (layerFlow, bool) {
	k := layerFlow{b.gx[first], b.gz[first], b.gz[first+b.plane], b.loss[first], b.weight[first]}
	if k.answer == 0 {
		return k, false
	}
	for y := range tileY {
		i := first + y*b.row
		for range tileX {
			if b.gx[i] != k.across || b.gx[i+1] != k.across || b.gy[i] != k.across || b.gy[i+b.row] != k.across ||
				b.gz[i] != k.above || b.gz[i+b.plane] != k.below || b.loss[i] != k.loss || b.weight[i] != k.answer {
				return k, false
			}
			i++
		}
	}
	return k, true
}

// findLayers looks for alike planes in every tile.
func (b *body) findLayers() {
	for n := range b.tiles {
		t := &b.tiles[n]
		for z := range tileZ {
			t.layer[z], t.alike[z] = b.layerOf(t.block.first + z*b.plane)
		}
	}
}

// unlike notes that a voxel, and its faces, are no longer as the rest of
// their planes.
func (b *body) unlike(i int) {
	for _, j := range [7]int{i, i - 1, i + 1, i - b.row, i + b.row, i - b.plane, i + b.plane} {
		x, y, z := b.xyz(j)
		if x >= 0 && y >= 0 && z >= 0 && x < b.tx*tileX && y < b.ty*tileY && z < b.tz*tileZ {
			b.tiles[b.tileOf(x, y, z)].alike[z%tileZ] = false
		}
	}
}

// marchTileRows marches a tile plane by plane, alike ones the short way.
func (b *body) marchTileRows(t *tile, l *lanes) {
	s := b.stencil
	if !t.gaining {
		s.gain = nil
	}
	for z := range tileZ {
		plane := block{first: t.block.first + z*b.plane, nx: tileX, ny: tileY, nz: 1}
		if t.alike[z] {
			s.marchLayer(b.next, b.rise, b.dt, plane, t.layer[z], l)
		} else {
			s.march(b.next, b.rise, b.dt, plane, l)
		}
	}
}
