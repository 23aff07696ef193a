package tissue

import "math"

// field is the electric potential in the tissue for one volt on the tip, and
// the heat it makes. It solves div(sigma grad phi) = 0 with the tip's patch
// held, the rest of the surface insulated, and the far faces open.
type field struct {
	body  *body
	spec  *RunSpec
	unit  Output
	tip   tip
	arc   arc
	grid  *multigrid
	ax    [3]axis
	old   [3]axis // those of the window before
	crew  *crew
	phi   []float32 // V of every cell, for one volt on the tip
	right []float32 // A, what the held patch puts in
	sigma []float32 // S/m
	power []float32 // W of every cell, for one volt
	foot  []float32 // W of every cell, for one watt of arc
	laid  bool
	at    [3]int // voxel that the fine window is laid about

	tolerance float64 // of the field, by power
	faintKs   float64 // heat that warms by less a second is left out
	down      bool    // current flows
	sinceS    float64 // the last solution
	watts     float64 // that one volt makes, within the grid and beyond it: the conductance
	entry     float64 // conductance into the tissue, S
	planeW    []float64
	first     float64 // ohm, first and last
	last      float64
	setVolt2  float64 // mean square voltage that the body's gain stands for, 0 = none
	setArcW   float64
	setFar    bool    // far tiles are set too
	farW      float64 // the power that they were last set for
	farXM     float64 // and where the tip was
	farYM     float64
	fresh     bool    // power has changed since the gain was set
	stepS     float64 // how long a solution stands while the tip rests
	warmed    []int   // cells with a part of the arc's heat
	// Work of one plane or tile, kept so that sharing it takes no memory:
	spread, sigmaPlane, conductPlane, joulePlane func(piece int)
	cycles                                       int
	solves                                       int
}

// The window of single voxels about the tip: so far to the sides beyond the
// disc, so far down, and how far the tip may go before the window follows. It
// is never less than leastWindow voxels each way.
const (
	windowAsideMM = 1.4
	windowDownMM  = 1.8
	windowPlay    = 4 // voxels
	leastWindow   = 14
)

func newField(b *body, spec *RunSpec) *field {
	f := &field{body: b, spec: spec, unit: outputByID(spec.Output), tolerance: 1e-3, stepS: solveS, faintKs: max(spec.FaintKs, 1e-3)}
	half := f.halfWindow()
	counts := [3]int{b.nx, b.ny, b.nz}
	var cells, far [3]int
	for a := range f.ax {
		f.ax[a], f.old[a] = newAxis(counts[a]), newAxis(counts[a])
		cells[a] = mostCells(counts[a], 2*half+1)
		far[a] = len(appendGrowing(nil, counts[a]))
	}
	cells[2] = mostCells(b.nz, b.planesUp+f.windowDown())
	f.crew = &b.crew
	b.byField = true
	f.grid = newMultigrid(cells, far, f.crew)
	size := len(f.grid.z)
	for _, s := range []*[]float32{&f.phi, &f.right, &f.sigma, &f.power, &f.foot} {
		*s = make([]float32, size)
	}
	f.tip = newTip(b, spec)
	f.arc.state = spec.Seed
	f.arc.rims = make([]rim, 0, 1<<12)
	f.planeW = make([]float64, cells[2]+1)
	f.warmed = make([]int, 0, 1<<13)
	f.spread, f.sigmaPlane, f.conductPlane, f.joulePlane = f.spreadTile, f.doSigmaPlane, f.doConductPlane, f.doJoulePlane
	return f
}

// halfWindow is the half width of the window, and windowDown its depth below
// the tip, in voxels.
func (f *field) halfWindow() int {
	return max(leastWindow, whole((f.spec.Electrode.RadiusMM+windowAsideMM)/f.spec.GridMM))
}

func (f *field) windowDown() int { return max(leastWindow, whole(windowDownMM/f.spec.GridMM)) }

// layWindow lays the cells about the tip, and keeps the potential as a first
// guess for the new cells.
func (f *field) layWindow(x, y, z int) {
	b, half := f.body, f.halfWindow()
	far := func(a, b int) bool { return a-b > windowPlay || b-a > windowPlay }
	if f.laid && !far(x, f.at[0]) && !far(y, f.at[1]) && !far(z, f.at[2]) {
		return
	}
	oldRow, oldPlane := f.grid.nets[0].row, f.grid.nets[0].plane
	kept := f.grid.z
	copy(kept, f.phi)
	wasLaid := f.laid
	for a := range f.ax {
		f.old[a].copyFrom(&f.ax[a])
	}
	f.laid, f.at = true, [3]int{x, y, z}
	f.ax[0].lay(max(0, x-half), min(b.nx, x+half+1))
	f.ax[1].lay(max(0, y-half), min(b.ny, y+half+1))
	f.ax[2].lay(0, min(b.nz, max(z, b.planesUp)+f.windowDown()))
	if b.nx <= 2*half+1 {
		f.ax[0].lay(0, b.nx)
	}
	if b.ny <= 2*half+1 {
		f.ax[1].lay(0, b.ny)
	}
	nx, ny, nz := f.ax[0].cells(), f.ax[1].cells(), f.ax[2].cells()
	clear(f.phi)
	if wasLaid {
		row := (nx+7)/8*8 + 2
		for cz := range nz {
			vz := int(f.old[2].cell[f.ax[2].middle(cz)]) + 1
			for cy := range ny {
				vy := int(f.old[1].cell[f.ax[1].middle(cy)]) + 1
				to := f.phi[((cz+1)*(ny+2)+cy+1)*row+1:]
				from := kept[vz*oldPlane+vy*oldRow+1:]
				for cx := range nx {
					to[cx] = from[f.old[0].cell[f.ax[0].middle(cx)]]
				}
			}
		}
	}
	f.grid.shape(&f.ax)
	clear(f.right)
	clear(f.power)
	clear(f.foot)
}

// conductAll works out the conductivity of every cell and the conductance of
// every face: half of each cell in row.
func (f *field) conductAll() {
	nz := f.grid.nets[0].nz
	f.crew.share(nz, f.sigmaPlane)
	f.crew.share(nz, f.conductPlane)
	f.openFaces()
}

func (f *field) doSigmaPlane(cz int) {
	n, b := f.grid.nets[0], f.body
	vz := f.ax[2].middle(cz)
	for cy := range n.ny {
		row := b.at(0, f.ax[1].middle(cy), vz)
		i := n.at(0, cy, cz)
		for cx := range n.nx {
			f.sigma[i+cx] = b.sigmaOf(row+f.ax[0].middle(cx), vz)
		}
	}
}

func (f *field) doConductPlane(cz int) {
	n := f.grid.nets[0]
	h := float32(f.body.hM)
	wz := f.ax[2].width(cz)
	for cy := range n.ny {
		wy := f.ax[1].width(cy)
		i := n.at(0, cy, cz)
		for cx := range n.nx {
			s := f.sigma[i]
			wx := f.ax[0].width(cx)
			n.loss[i] = 0
			n.gx[i], n.gy[i], n.gz[i] = 0, 0, 0
			if s > 0 {
				if cx > 0 {
					n.gx[i] = inRow(f.sigma[i-1], s, f.ax[0].width(cx-1), wx, h*wy*wz)
				}
				if cy > 0 {
					n.gy[i] = inRow(f.sigma[i-n.row], s, f.ax[1].width(cy-1), wy, h*wx*wz)
				}
				if cz > 0 {
					n.gz[i] = inRow(f.sigma[i-n.plane], s, f.ax[2].width(cz-1), wz, h*wx*wy)
				}
			}
			i++
		}
	}
}

// inRow is the conductance between the middles of two cells of widths wa and
// wb (in voxels) through an area of that many voxels times the voxel's edge.
func inRow(sa, sb, wa, wb, area float32) float32 {
	if sa <= 0 || sb <= 0 {
		return 0
	}
	area = float32(area) // rounded before it is doubled: twice x is x + x, which could fuse
	return float32(2 * area * sa * sb / (float32(wa*sb) + float32(wb*sa)))
}

// sigmaOf is the conductivity of a voxel in S/m, 0 for air: straight in
// temperature, 2 % a kelvin (a bracket of 1 to 2; Duck, Physical Properties of
// Tissue, Academic Press, London 1990), and falling with the square of the
// water that is left, as in porous rock (Archie, Transactions of the AIME
// 1942;146:54).
func (b *body) sigmaOf(i, z int) float32 {
	m := &b.mats[b.mat[i]]
	s := m.sigma32
	if s == 0 {
		return 0
	}
	if b.physics.SigmaOfTemperature {
		over := float32(min(b.firstC[z]+b.rise[i], boilC) - sigmaFromC)
		s = float32(s * max(float32(1+float32(sigmaPerK*over)), 0.1))
	}
	if b.physics.Vaporise && b.water[i] < 1 {
		w := b.water[i]
		s = float32(s * max(float32(w*w), sigmaDryShare))
	}
	return s
}

// openFaces lets current out through the far faces as a point source at the
// tip would drive it: dphi/dn = -phi (n.r)/r^2.
func (f *field) openFaces() {
	n, b := f.grid.nets[0], f.body
	h := b.hM
	tx, ty, tz := f.tip.xM/h+float64(b.nx)/2, f.tip.yM/h+float64(b.ny)/2, float64(f.tip.plane)
	mid := func(a *axis, c int) float64 { return float64(a.edge[c]+a.edge[c+1]) / 2 }
	leave := func(i int, area, half, nr, r2 float64) {
		if f.sigma[i] > 0 && nr > 0 && r2 > 0 {
			k := nr / r2 // of a voxel's edge
			n.loss[i] += float32(h * area * float64(f.sigma[i]) * k / (1 + float64(k*half)))
		}
	}
	for cz := range n.nz {
		z, wz := mid(&f.ax[2], cz)-tz, float64(f.ax[2].width(cz))
		for cy := range n.ny {
			y, wy := mid(&f.ax[1], cy)-ty, float64(f.ax[1].width(cy))
			for _, side := range [2]int{0, n.nx - 1} {
				edge := float64(b.nx) - tx
				if side == 0 {
					edge = tx
				}
				leave(n.at(side, cy, cz), wy*wz, float64(f.ax[0].width(side))/2, edge, float64(edge*edge)+float64(y*y)+float64(z*z))
			}
		}
		for cx := range n.nx {
			x, wx := mid(&f.ax[0], cx)-tx, float64(f.ax[0].width(cx))
			for _, side := range [2]int{0, n.ny - 1} {
				edge := float64(b.ny) - ty
				if side == 0 {
					edge = ty
				}
				leave(n.at(cx, side, cz), wx*wz, float64(f.ax[1].width(side))/2, edge, float64(edge*edge)+float64(x*x)+float64(z*z))
			}
		}
	}
	down := float64(b.nz) - tz
	for cy := range n.ny {
		y, wy := mid(&f.ax[1], cy)-ty, float64(f.ax[1].width(cy))
		for cx := range n.nx {
			x, wx := mid(&f.ax[0], cx)-tx, float64(f.ax[0].width(cx))
			leave(n.at(cx, cy, n.nz-1), wx*wy, float64(f.ax[2].width(n.nz-1))/2, down, float64(down*down)+float64(x*x)+float64(y*y))
		}
	}
}

// joule works out the heat of every cell for one volt: half of each face's
// drop falls in it by its own resistance. The sum, with what is lost beyond the
// far faces, is the conductance from the tip; as the true potential makes the
// least heat of all (Dirichlet's principle), a small error of the potential
// makes a far smaller one of the conductance.
func (f *field) joule() {
	f.crew.share(f.grid.nets[0].nz, f.joulePlane)
	f.watts, f.entry = 0, 0
	for _, w := range f.planeW[:f.grid.nets[0].nz] {
		f.watts += w
	}
	total, byArc := 0.0, 0.0
	for k, t := range f.tip.touches {
		drop, phi, g := 1-f.phi[t.cell], float64(f.phi[t.cell]), float64(t.siemens)
		total += float64(g * float64(drop))
		if k >= f.arc.first {
			byArc += float64(g * float64(drop))
		}
		w := float32(t.siemens * float32(drop*drop))
		f.entry += g
		f.watts += float64(w) - float64(g*phi*phi) // the plane took its loss to the tip for one to far off
		f.power[t.cell] = float32(f.power[t.cell] + w)
	}
	f.arc.share = 0
	if total > 0 {
		f.arc.share = byArc / total
	}
}

func (f *field) doJoulePlane(cz int) {
	n := f.grid.nets[0]
	h := float32(f.body.hM)
	wz := f.ax[2].width(cz)
	watts := 0.0
	for cy := range n.ny {
		wy := f.ax[1].width(cy)
		i := n.at(0, cy, cz)
		for cx := range n.nx {
			f.power[i] = 0
			if s := f.sigma[i]; s > 0 {
				wx := f.ax[0].width(cx)
				c := f.phi[i]
				px := float32(pair(n.gx[i], n.gx[i+1], f.phi[i-1], c, f.phi[i+1]) * (wx / (wy * wz)))
				py := float32(pair(n.gy[i], n.gy[i+n.row], f.phi[i-n.row], c, f.phi[i+n.row]) * (wy / (wx * wz)))
				pz := float32(pair(n.gz[i], n.gz[i+n.plane], f.phi[i-n.plane], c, f.phi[i+n.plane]) * (wz / (wx * wy)))
				f.power[i] = float32((float32(px+py) + pz) / (2 * s * h))
				watts += float64(f.power[i]) + float64(float64(n.loss[i])*float64(c)*float64(c))
			}
			i++
		}
	}
	f.planeW[cz] = watts
}

// pair is the sum of the squared currents through two opposite faces.
func pair(ga, gb, a, c, b float32) float32 {
	ia, ib := float32(ga*float32(a-c)), float32(gb*float32(b-c))
	return float32(ia*ia) + float32(ib*ib)
}

func (f *field) impedance() *ImpedanceOhm {
	z := &ImpedanceOhm{}
	if f.first > 0 {
		first, last := f.first, f.last
		z.First, z.Last = &first, &last
	}
	return z
}

func square(x float64) float64 { return float64(x * x) }

func whole(x float64) int { return int(math.Floor(x)) }
