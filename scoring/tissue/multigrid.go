package tissue

// multigrid is a pile of nets, each of about half the cells an axis of the
// one above it. It makes a remainder small on all lengths at once, which
// single sweeps cannot. A conductance of a coarse face is that of the fine
// faces side by side, each in row with half of the fine conductances behind
// it: so a dried voxel stays a barrier on every level.
type multigrid struct {
	nets []*net
	z    []float32 // of the finest net: a direction, made orthogonal
	p    []float32
	q    []float32
}

func newMultigrid(nx, ny, nz int, c *crew) *multigrid {
	m := &multigrid{nets: []*net{newNet(nx, ny, nz, c)}}
	for max(nx, ny, nz) > 4 {
		nx, ny, nz = halved(nx), halved(ny), halved(nz)
		m.nets = append(m.nets, newNet(nx, ny, nz, c))
	}
	size := len(m.nets[0].x)
	m.z, m.p, m.q = make([]float32, size), make([]float32, size), make([]float32, size)
	return m
}

// halved leaves short axes as they are.
func halved(n int) int {
	if n <= 2 {
		return n
	}
	return (n + 1) / 2
}

// shape lays the pile out for other counts.
func (m *multigrid) shape(nx, ny, nz int) {
	for _, n := range m.nets {
		n.shape(nx, ny, nz)
		nx, ny, nz = halved(nx), halved(ny), halved(nz)
	}
	clear(m.z)
	clear(m.p)
	clear(m.q)
}

// coarsen works out all nets from the finest one.
func (m *multigrid) coarsen() {
	m.nets[0].weigh()
	for k := 1; k < len(m.nets); k++ {
		m.nets[k].coarsenFrom(m.nets[k-1])
		m.nets[k].weigh()
	}
}

func (n *net) coarsenFrom(f *net) {
	clear(n.gx)
	clear(n.gy)
	clear(n.gz)
	clear(n.loss)
	sx, sy, sz := shrinks(n.nx, f.nx), shrinks(n.ny, f.ny), shrinks(n.nz, f.nz)
	for z := range f.nz {
		for y := range f.ny {
			i, j := f.at(0, y, z), n.at(0, y>>sy, z>>sz)
			for x := range f.nx {
				c := j + x>>sx
				n.loss[c] += f.loss[i]
				if x>>sx<<sx == x && x > 0 {
					n.gx[c] += across(f.gx, i, 1, sx, x+1 < f.nx)
				}
				if y>>sy<<sy == y && y > 0 {
					n.gy[c] += across(f.gy, i, f.row, sy, y+1 < f.ny)
				}
				if z>>sz<<sz == z && z > 0 {
					n.gz[c] += across(f.gz, i, f.plane, sz, z+1 < f.nz)
				}
				i++
			}
		}
	}
}

func shrinks(coarse, fine int) int {
	if coarse == fine {
		return 0
	}
	return 1
}

// across is the conductance from the middle of one coarse cell to that of the
// next through fine face i: half of the fine face behind, the face, half of
// the one ahead.
func across(g []float32, i, step, shrink int, ahead bool) float32 {
	if shrink == 0 || g[i] == 0 {
		return g[i]
	}
	ohm := 1/g[i] + half(g[i-step])
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
	if level == len(m.nets)-1 {
		for range 8 {
			n.do(netTask{kind: taskMarch, to: n.x, u: n.x2})
			n.do(netTask{kind: taskMarch, to: n.x2, u: n.x})
		}
		return n.x2
	}
	n.do(netTask{kind: taskFlow, to: n.r, u: n.x2})
	coarse := m.nets[level+1]
	coarse.gather(n)
	coarse.scatter(m.cycle(level+1, coarse.right), n)
	n.do(netTask{kind: taskMarch, to: n.x, u: n.x2})
	n.do(netTask{kind: taskMarch, to: n.x2, u: n.x})
	return n.x2
}

// gather sums the finer net's remainder.
func (n *net) gather(f *net) {
	clear(n.right)
	sx, sy, sz := shrinks(n.nx, f.nx), shrinks(n.ny, f.ny), shrinks(n.nz, f.nz)
	for z := range f.nz {
		for y := range f.ny {
			i, j := f.at(0, y, z), n.at(0, y>>sy, z>>sz)
			for x := range f.nx {
				n.right[j+x>>sx] += f.r[i+x]
			}
		}
	}
}

// scatter adds a coarse solution to the finer net's x2.
func (n *net) scatter(coarse []float32, f *net) {
	sx, sy, sz := shrinks(n.nx, f.nx), shrinks(n.ny, f.ny), shrinks(n.nz, f.nz)
	for z := range f.nz {
		for y := range f.ny {
			i, j := f.at(0, y, z), n.at(0, y>>sy, z>>sz)
			for x := range f.nx {
				if f.weight[i+x] > 0 {
					f.x2[i+x] += coarse[j+x>>sx]
				}
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
