package tissue

// axis cuts a row of voxels into cells: single voxels in a window, and cells
// that grow outwards from it. The field of a small tip is steep near it and
// smooth far off, so most of the voxels need no cell of their own.
type axis struct {
	edge   []int32   // cell c holds the voxels edge[c] to edge[c+1]-1
	cell   []int32   // of every voxel
	narrow []float32 // one over the width of its cell
}

func newAxis(voxels int) axis {
	return axis{edge: make([]int32, 0, voxels+1), cell: make([]int32, voxels), narrow: make([]float32, voxels)}
}

// lay cuts the axis with single voxels from from to to.
func (a *axis) lay(from, to int) {
	voxels := len(a.cell)
	a.edge = appendGrowing(a.edge[:0], from)
	for i, j := 0, len(a.edge)-1; i <= j; i, j = i+1, j-1 { // on this side outwards is towards nought
		a.edge[i], a.edge[j] = int32(from)-a.edge[j], int32(from)-a.edge[i]
	}
	for i := from; i <= to; i++ {
		a.edge = append(a.edge, int32(i))
	}
	low := len(a.edge)
	a.edge = appendGrowing(a.edge, voxels-to)
	for i := low; i < len(a.edge); i++ {
		a.edge[i] += int32(to)
	}
	for c := range a.cells() {
		for v := a.edge[c]; v < a.edge[c+1]; v++ {
			a.cell[v], a.narrow[v] = int32(c), 1/a.width(c)
		}
	}
}

// copyFrom makes a an equal of another axis of as many voxels.
func (a *axis) copyFrom(from *axis) {
	a.edge = append(a.edge[:0], from.edge...)
	copy(a.cell, from.cell)
}

// appendGrowing adds the far edges of cells that grow by about a half each and
// cover length voxels.
func appendGrowing(edges []int32, length int) []int32 {
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
	return min(voxels, window+2*len(appendGrowing(nil, voxels)))
}
