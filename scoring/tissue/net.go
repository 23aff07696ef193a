package tissue

// net is one level of the resistor network that the electric field is solved
// on: a box of cells with a ghost beyond every face. Rows are filled up to
// whole eights.
type net struct {
	stencil
	nx, ny, nz int
	row, plane int
	x, x2, r   []float32  // a solution, a second one, a remainder
	right      []float32  // of a coarse net: the currents put in
	widths     [3][]int32 // of the finest net's cells, voxels
	crew       *crew
	task       netTask
	slab       func(piece int)
	partial    []float64 // sums by slab
}

// netTask is what the workers do next.
type netTask struct {
	kind      uint8
	to, u, by []float32
	scale     float32
	fine      *net
	coarse    *net
	joins     *[3]joining
}

const (
	taskMarch uint8 = iota
	taskFlow
	taskScale // to = scale by weight
	taskDot
	taskAdd  // to += scale u
	taskTurn // to = u + scale to
	taskWeigh
	taskCoarsen
	taskGather
	taskScatter
)

func newNet(nx, ny, nz int, c *crew) *net {
	n := &net{crew: c}
	size := (nx/8*8 + 10) * (ny + 2) * (nz + 2)
	for _, f := range []*[]float32{&n.gx, &n.gy, &n.gz, &n.loss, &n.weight, &n.x, &n.x2, &n.r, &n.right} {
		*f = make([]float32, size)
	}
	n.partial = make([]float64, nz)
	n.slab = n.doSlab
	n.shape(nx, ny, nz)
	return n
}

// shape gives the net other counts, no larger than it was made for, and
// empties it.
func (n *net) shape(nx, ny, nz int) {
	n.nx, n.ny, n.nz = nx, ny, nz
	n.row = (nx+7)/8*8 + 2
	n.plane = n.row * (ny + 2)
	n.rowStep, n.planeStep = n.row, n.plane
	for _, f := range [][]float32{n.gx, n.gy, n.gz, n.loss, n.weight, n.x, n.x2, n.r, n.right} {
		clear(f)
	}
}

func (n *net) at(x, y, z int) int { return (z+1)*n.plane + (y+1)*n.row + x + 1 }

// doSlab does the task for one plane of z.
func (n *net) doSlab(z int) {
	t := &n.task
	b := block{first: n.at(0, 0, z), nx: n.row - 2, ny: n.ny, nz: 1}
	switch t.kind {
	case taskMarch:
		n.smooth(t.to, t.u, b)
	case taskFlow:
		n.flow(t.to, t.u, b)
	case taskWeigh:
		n.weighPlane(z)
	case taskCoarsen:
		n.coarsenPlane(t.fine, t.joins, z)
	case taskGather:
		n.gatherPlane(t.fine, t.joins, z)
	case taskScatter:
		n.scatterPlane(t.coarse, t.joins, z)
	case taskDot:
		n.partial[z] = n.dotPlane(t.u, t.by, b)
	default:
		for y := range b.ny {
			i := b.first + y*n.row
			to, u := t.to[i:i+b.nx], t.u[i:i+b.nx]
			switch t.kind {
			case taskScale:
				w := n.weight[i : i+b.nx]
				for k := range to {
					to[k] = float32(w[k] * u[k])
				}
			case taskAdd:
				for k := range to {
					to[k] = float32(to[k] + float32(t.scale*u[k]))
				}
			case taskTurn:
				for k := range to {
					to[k] = float32(u[k] + float32(t.scale*to[k]))
				}
			}
		}
	}
}

// smooth is one damped Jacobi sweep.
func (n *net) smooth(to, u []float32, b block) {
	var l lanes
	n.march(to, u, 1, b, &l)
}

// do makes the workers do a task, plane by plane. A net of few cells is not
// worth sharing.
func (n *net) do(t netTask) {
	n.task = t
	if n.nx*n.ny*n.nz < 4096 {
		for z := range n.nz {
			n.doSlab(z)
		}
		return
	}
	n.crew.share(n.nz, n.slab)
}

// dot is the inner product, summed row by row in a fixed order.
func (n *net) dot(u, v []float32) float64 {
	n.do(netTask{kind: taskDot, u: u, by: v})
	sum := 0.0
	for _, p := range n.partial[:n.nz] {
		sum += p
	}
	return sum
}

func (n *net) dotPlane(u, v []float32, b block) float64 {
	sum := 0.0
	for y := range b.ny {
		i := b.first + y*n.row
		a, c := u[i:i+b.nx], v[i:i+b.nx]
		var s [4]float64
		for k := 0; k+3 < len(a); k += 4 {
			s[0] += float64(float64(a[k]) * float64(c[k]))
			s[1] += float64(float64(a[k+1]) * float64(c[k+1]))
			s[2] += float64(float64(a[k+2]) * float64(c[k+2]))
			s[3] += float64(float64(a[k+3]) * float64(c[k+3]))
		}
		sum += (s[0] + s[1]) + (s[2] + s[3])
	}
	return sum
}

// weighPlane sets the weight of every cell of a plane to damping over the sum
// of its conductances.
func (n *net) weighPlane(z int) {
	const damping = 0.85
	for y := range n.ny {
		i := n.at(0, y, z)
		for range n.nx {
			d := n.gx[i] + n.gx[i+1] + n.gy[i] + n.gy[i+n.row] + n.gz[i] + n.gz[i+n.plane] + n.loss[i]
			n.weight[i] = 0
			if d > 0 {
				n.weight[i] = damping / d
			}
			i++
		}
	}
}
