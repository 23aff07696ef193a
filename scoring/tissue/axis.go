package tissue

// axis cuts a row of voxels into cells: single voxels in a window, and cells
// that grow outwards from it. The field of a small tip is steep near it and
// smooth far off, so most of the voxels need no cell of their own.
type axis struct {
	edge []int32 // cell c holds the voxels edge[c] to edge[c+1]-1
	cell []int32 // of every voxel
}

func newAxis(voxels int) axis {
	return axis{edge: make([]int32, 0, voxels+1), cell: make([]int32, voxels)}
}

// lay cuts the axis with single voxels from from to to.
func (a *axis) lay(from, to int) {
	voxels := len(a.cell)
	a.edge = a.edge[:0]
	a.edge = append(a.edge, growing(from)...)
	for i := range a.edge { // outwards on this side is towards nought
		a.edge[i] = int32(from) - a.edge[i]
	}
	for i := from; i < to; i++ {
		a.edge = append(a.edge, int32(i))
	}
	for i, j := 0, len(a.edge)-(to-from)-1; i < j; i, j = i+1, j-1 {
		a.edge[i], a.edge[j] = a.edge[j], a.edge[i]
	}
	a.edge = append(a.edge, int32(to))
	for _, e := range growing(voxels - to) {
		a.edge = append(a.edge, int32(to)+e)
	}
	for c := range a.cells() {
		for v := a.edge[c]; v < a.edge[c+1]; v++ {
			a.cell[v] = int32(c)
		}
	}
}

// growing lists the far edges of cells that grow by about a half each and
// cover length voxels.
func growing(length int) []int32 {
	var edges []int32
	for at, width := 0, 1; at < length; width = (3*width + 1) / 2 {
		at += width
		if length-at < width {
			at = length
		}
		edges = append(edges, int32(at))
	}
	return edges
}

func (a *axis) cells() int { return len(a.edge) - 1 }

// width of a cell in voxels.
func (a *axis) width(c int) float32 { return float32(a.edge[c+1] - a.edge[c]) }

// middle is the voxel in the middle of a cell.
func (a *axis) middle(c int) int { return int(a.edge[c]+a.edge[c+1]) / 2 }

// mostCells is the most cells that a row of voxels may need for windows of
// that width.
func mostCells(voxels, window int) int {
	if voxels <= window {
		return voxels
	}
	return min(voxels, window+2*len(growing(voxels)))
}
