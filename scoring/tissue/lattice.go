package tissue

// lattice numbers the voxels of a box in one row of memory, x fastest. A
// ghost voxel lies beyond every face, so that no voxel needs to ask whether
// it has a neighbour. Rows, columns and depths are filled up to whole tiles
// with more ghosts.
type lattice struct {
	nx, ny, nz int // voxels of the box
	tx, ty, tz int // tiles
	row, plane int // steps of the index to the next y and the next z
	size       int // with ghosts
}

// A tile is what one worker takes at a time, and what sleeps or is awake.
const (
	tileX, tileY, tileZ = 16, 8, 8
	tileSize            = tileX * tileY * tileZ
)

func newLattice(nx, ny, nz int) lattice {
	l := lattice{nx: nx, ny: ny, nz: nz}
	l.tx, l.ty, l.tz = (nx+tileX-1)/tileX, (ny+tileY-1)/tileY, (nz+tileZ-1)/tileZ
	l.row = l.tx*tileX + 2
	l.plane = l.row * (l.ty*tileY + 2)
	l.size = l.plane * (l.tz*tileZ + 2)
	return l
}

// at is the index of a voxel; -1 and the counts themselves are ghosts.
func (l *lattice) at(x, y, z int) int { return (z+1)*l.plane + (y+1)*l.row + x + 1 }

// xyz is the voxel of an index.
func (l *lattice) xyz(i int) (x, y, z int) {
	z = i/l.plane - 1
	i %= l.plane
	return i%l.row - 1, i/l.row - 1, z
}

// tileOf is the number of the tile that holds a voxel.
func (l *lattice) tileOf(x, y, z int) int {
	return (z/tileZ*l.ty+y/tileY)*l.tx + x/tileX
}

// stride is how far the index moves along an axis: 0 x, 1 y, 2 z.
func (l *lattice) stride(axis int) int {
	switch axis {
	case 0:
		return 1
	case 1:
		return l.row
	}
	return l.plane
}
