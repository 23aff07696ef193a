package tissue

// tip is where the electrode meets the tissue: a flat disc whose every column
// stands on the first solid voxel, or in gap mode the feet of sparks.
type tip struct {
	body    *body
	radiusM float64
	xM, yM  float64
	plane   int // of the surface under the middle
	columns []column
	touches []touch
}

// column is one column of voxels under the disc and the share of its area
// that the disc covers. rim is the further share that a disc wider by rimWide
// covers.
type column struct {
	x, y       int
	share, rim float32
}

// rimWide is by how many voxels a disc on an even conductor must be drawn
// wider: current crowds at its rim, which voxels cannot show, and without this
// its resistance is too high by rimWide voxels of radius. With it the
// resistance tends to rho/(4a) with the square of the voxel (see the check of
// the spreading resistance).
const rimWide = 0.25

// touch is a cell that current enters from the tip.
type touch struct {
	cell    int
	siemens float32
}

func newTip(b *body, spec *RunSpec) tip {
	t := tip{body: b, radiusM: spec.Electrode.RadiusMM * 1e-3, xM: -1e9}
	edge := int(2*t.radiusM/b.hM) + 4
	t.columns = make([]column, 0, edge*edge)
	t.touches = make([]touch, 0, edge*edge+1<<12)
	return t
}

// move puts the disc's middle over a place and finds the columns under it.
func (t *tip) move(xM, yM float64) bool {
	if t.xM == xM && t.yM == yM {
		return false
	}
	t.xM, t.yM = xM, yM
	t.columns = coveredColumns(t.columns[:0], t.body, xM, yM, t.radiusM, rimWide)
	t.plane = int(t.body.surfaceM(xM, yM)/t.body.hM + float64(t.body.planesUp) + 0.5)
	return true
}

// coveredColumns lists the columns that a disc covers, row by row, and those
// that one wider by rim voxels would.
func coveredColumns(into []column, b *body, xM, yM, radiusM, rim float64) []column {
	x, y, r := xM/b.hM+float64(b.nx)/2, yM/b.hM+float64(b.ny)/2, radiusM/b.hM
	for cy := max(0, whole(y-r-rim)); cy <= min(b.ny-1, whole(y+r+rim)); cy++ {
		for cx := max(0, whole(x-r-rim)); cx <= min(b.nx-1, whole(x+r+rim)); cx++ {
			share := covered(float64(cx)-x, float64(cy)-y, r)
			wide := covered(float64(cx)-x, float64(cy)-y, r+rim)
			if wide > 0 {
				into = append(into, column{cx, cy, share, max(0, wide-share)})
			}
		}
	}
	return into
}

// covered is the share of a unit square, whose low corner is at (x, y), that
// a disc of radius r about the origin covers.
func covered(x, y, r float64) float32 {
	const n = 16
	if r < 1 {
		return coveredFine(x, y, r)
	}
	count := 0
	for j := range n {
		v := square(y + (float64(j)+0.5)/n)
		for i := range n {
			if square(x+(float64(i)+0.5)/n)+v <= r*r {
				count++
			}
		}
	}
	return float32(count) / (n * n)
}

// coveredFine is covered for a disc smaller than a voxel: samples spread over
// the disc's own square.
func coveredFine(x, y, r float64) float32 {
	const n = 32
	count := 0
	for j := range n {
		v := r * (float64(j)*2 + 1 - n) / n
		for i := range n {
			u := r * (float64(i)*2 + 1 - n) / n
			if square(u)+square(v) <= r*r && u >= x && u < x+1 && v >= y && v < y+1 {
				count++
			}
		}
	}
	return float32(float64(count) * 4 * r * r / (n * n))
}
