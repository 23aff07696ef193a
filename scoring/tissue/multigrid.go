package tissue

// multigrid is a pile of nets, each with fewer cells than the one above it.
// It makes a remainder small on all lengths at once, which single sweeps
// cannot. Cells are joined in pairs along an axis only while they are narrow
// for the level: far from the tip, where cells are long and thin, that joins
// them across their strong couplings first.
//
// A conductance of a coarse face is that of the fine faces side by side, each
// in row with half of the fine conductances behind it: so a dried voxel stays
// a barrier on every level.
type multigrid struct {
	nets  []*net
	joins [][3]joining // of net k+1 from net k
	used  int          // nets in use for the present cells
	z     []float32    // of the finest net: the network times a direction
	p     []float32    // a direction
	q     []float32    // a remainder
}

// joining says how the cells of an axis are joined for the next net.
type joining struct {
	up     []int32 // coarse cell of every fine one
	paired []bool  // whether it has a partner there
	width  []int32 // of every coarse cell, voxels
	first  []int32 // fine cell that every coarse one begins with, and their count
}

// newMultigrid makes room for windows of fine cells among far cells on each
// side of each axis.
func newMultigrid(cells, far [3]int, c *crew) *multigrid {
	m := &multigrid{}
	fine := cells
	for {
		m.nets = append(m.nets, newNet(cells[0], cells[1], cells[2], c))
		if len(m.nets) > 10 {
			break
		}
		var j [3]joining
		for a := range j {
			j[a] = joining{up: make([]int32, cells[a]), paired: make([]bool, cells[a]), width: make([]int32, 0, cells[a]), first: make([]int32, 0, cells[a]+1)}
			cells[a] = min(cells[a], (fine[a]>>len(m.nets))+2*far[a]+3)
		}
		m.joins = append(m.joins, j)
	}
	size := len(m.nets[0].x)
	m.z, m.p, m.q = make([]float32, size), make([]float32, size), make([]float32, size)
	return m
}

// shape lays the pile out for other cells.
func (m *multigrid) shape(ax *[3]axis) {
	var widths [3][]int32
	for a := range ax {
		m.nets[0].widths[a] = m.nets[0].widths[a][:0]
		for c := range ax[a].cells() {
			m.nets[0].widths[a] = append(m.nets[0].widths[a], int32(ax[a].width(c)))
		}
		widths[a] = m.nets[0].widths[a]
	}
	m.used = 0
	for k, n := range m.nets {
		nx, ny, nz := len(widths[0]), len(widths[1]), len(widths[2])
		n.shape(nx, ny, nz)
		m.used = k + 1
		if k == len(m.nets)-1 || nx*ny*nz <= 64 {
			break
		}
		for a := range widths {
			m.joins[k][a].join(widths[a], int32(2)<<k)
			widths[a] = m.joins[k][a].width
		}
	}
	clear(m.z)
	clear(m.p)
	clear(m.q)
}

// join pairs neighbouring cells whose width together is within about that of
// the level.
func (j *joining) join(widths []int32, level int32) {
	j.width, j.first = j.width[:0], j.first[:0]
	for c := 0; c < len(widths); c++ {
		n := int32(len(j.width))
		j.up[c], j.paired[c] = n, false
		j.first = append(j.first, int32(c))
		w := widths[c]
		if c+1 < len(widths) && w+widths[c+1] <= level+level/2 {
			j.paired[c] = true
			c++
			j.up[c], j.paired[c] = n, true
			w += widths[c]
		}
		j.width = append(j.width, w)
	}
	j.first = append(j.first, int32(len(widths)))
}

// coarsen works out all nets from the finest one.
func (m *multigrid) coarsen() {
	m.nets[0].do(netTask{kind: taskWeigh})
	for k := 1; k < m.used; k++ {
		m.nets[k].do(netTask{kind: taskCoarsen, fine: m.nets[k-1], joins: &m.joins[k-1]})
		m.nets[k].do(netTask{kind: taskWeigh})
	}
}

// coarsenPlane works out one plane of a net from the finer one.
func (n *net) coarsenPlane(f *net, j *[3]joining, plane int) {
	from, to := n.at(-1, -1, plane), n.at(-1, -1, plane+1)
	for _, g := range [][]float32{n.gx, n.gy, n.gz, n.loss} {
		clear(g[from:to])
	}
	for z := int(j[2].first[plane]); z < int(j[2].first[plane+1]); z++ {
		for y := range f.ny {
			i := f.at(0, y, z)
			row := n.at(0, int(j[1].up[y]), plane)
			outerY, outerZ := j[1].outer(y), j[2].outer(z)
			for x := range f.nx {
				c := row + int(j[0].up[x])
				n.loss[c] += f.loss[i]
				if j[0].outer(x) {
					n.gx[c] += across(f.gx, i, 1, j[0].paired[x-1], j[0].paired[x])
				}
				if outerY {
					n.gy[c] += across(f.gy, i, f.row, j[1].paired[y-1], j[1].paired[y])
				}
				if outerZ {
					n.gz[c] += across(f.gz, i, f.plane, j[2].paired[z-1], j[2].paired[z])
				}
				i++
			}
		}
	}
}

// outer tells whether the face before fine cell c is one of coarse cells too.
func (j *joining) outer(c int) bool { return c > 0 && j.up[c] != j.up[c-1] }

// across is the conductance from the middle of one coarse cell to that of the
// next through fine face i: half of the face behind it, where there is one,
// the face, half of the one ahead.
func across(g []float32, i, step int, behind, ahead bool) float32 {
	if g[i] <= 0 {
		return 0
	}
	ohm := 1 / g[i]
	if behind {
		ohm += half(g[i-step])
	}
	if ahead {
		ohm += half(g[i+step])
	}
	return 1 / ohm
}

// half is the resistance of half of a fine face. Through a face that leads
// nowhere no path goes, and it then counts for nothing.
func half(g float32) float32 {
	if g <= 0 {
		return 0
	}
	return 0.5 / g
}

// precondition sets the finest x to about the solution for a right side.
func (m *multigrid) precondition(right []float32) []float32 {
	return m.cycle(0, right)
}

// cycle is one V-cycle from nought: two sweeps down, two up, which makes it
// a symmetric operator as conjugate gradients need.
func (m *multigrid) cycle(level int, right []float32) []float32 {
	n := m.nets[level]
	n.stencil.gain = right
	n.do(netTask{kind: taskScale, to: n.x, u: right})
	n.do(netTask{kind: taskMarch, to: n.x2, u: n.x})
	if level == m.used-1 {
		for range 8 {
			n.do(netTask{kind: taskMarch, to: n.x, u: n.x2})
			n.do(netTask{kind: taskMarch, to: n.x2, u: n.x})
		}
		return n.x2
	}
	n.do(netTask{kind: taskFlow, to: n.r, u: n.x2})
	coarse := m.nets[level+1]
	coarse.do(netTask{kind: taskGather, fine: n, joins: &m.joins[level]})
	m.cycle(level+1, coarse.right)
	n.do(netTask{kind: taskScatter, coarse: coarse, joins: &m.joins[level]})
	n.do(netTask{kind: taskMarch, to: n.x, u: n.x2})
	n.do(netTask{kind: taskMarch, to: n.x2, u: n.x})
	return n.x2
}

// gatherPlane sums the finer net's remainder into one plane.
func (n *net) gatherPlane(f *net, j *[3]joining, plane int) {
	clear(n.right[n.at(-1, -1, plane):n.at(-1, -1, plane+1)])
	up := j[0].up[:f.nx]
	for z := int(j[2].first[plane]); z < int(j[2].first[plane+1]); z++ {
		for y := range f.ny {
			i := f.at(0, y, z)
			r := f.r[i : i+f.nx]
			to := n.right[n.at(0, int(j[1].up[y]), plane):]
			for x, c := range up {
				to[c] += r[x]
			}
		}
	}
}

// scatterPlane adds a coarse solution to one plane of a net's x2.
func (n *net) scatterPlane(coarse *net, j *[3]joining, plane int) {
	up := j[0].up[:n.nx]
	for y := range n.ny {
		i := n.at(0, y, plane)
		to, weight := n.x2[i:i+n.nx], n.weight[i:i+n.nx]
		from := coarse.x2[coarse.at(0, int(j[1].up[y]), int(j[2].up[plane])):]
		for x, c := range up {
			if weight[x] > 0 {
				to[x] += from[c]
			}
		}
	}
}

// solve improves phi, the potential on the finest net, for the currents in
// right by conjugate gradients, until the power in the remainder is under
// tolerance squared of the whole. It returns the number of cycles made.
func (m *multigrid) solve(phi, right []float32, tolerance float64, most int) int {
	n := m.nets[0]
	n.stencil.gain = right
	r := m.q
	n.do(netTask{kind: taskFlow, to: r, u: phi})
	old := 0.0
	for cycles := range most {
		z := m.precondition(r)
		rz := n.dot(r, z)
		whole := n.dot(right, phi)
		if rz <= tolerance*tolerance*whole || rz <= 0 {
			return cycles
		}
		if cycles == 0 {
			copy(m.p, z)
		} else {
			n.do(netTask{kind: taskTurn, to: m.p, u: z, scale: float32(rz / old)})
		}
		n.stencil.gain = nil
		n.do(netTask{kind: taskFlow, to: m.z, u: m.p}) // minus the network times p
		step := -rz / n.dot(m.p, m.z)
		n.do(netTask{kind: taskAdd, to: phi, u: m.p, scale: float32(step)})
		n.do(netTask{kind: taskAdd, to: r, u: m.z, scale: float32(step)})
		old = rz
	}
	return most
}
