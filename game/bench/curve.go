package bench

import (
	"leastwatt/cases"
)

// Curve works out "same hand, other powers": what the session's acts would
// have done at eight powers, on a coarse grid. It is an estimate, and no grade
// reads it. The work is done in steps, so that a screen stays alive.
type Curve struct {
	Points []CurvePoint // one a power, rising; Done as they come
	ops    []op
	spec   patchSpec
	order  []int // of the points, as they are worked out
	at     int
	run    *opRun
}

// CurvePoint is the outcome at one power.
type CurvePoint struct {
	PowerW                  cases.Milli
	Done                    bool
	LesionDestroyedFraction cases.Milli
	DermisDepthMM           cases.Milli
	DermisFraction          cases.Milli
}

// curvePowersW are the eight powers, tenths of a watt times a hundred.
var curvePowersW = [8]cases.Milli{1000, 2000, 3000, 5000, 7000, 10000, 15000, 25000}

// curveGridMM is the coarse grid.
const curveGridMM = 0.2

// Curve prepares the curve for what was done so far. The power nearest to the
// trainee's own comes first.
func (b *Bench) Curve() *Curve {
	c := &Curve{ops: append([]op(nil), b.ops...), spec: b.p.spec}
	c.spec.o.GridMM = curveGridMM
	own := b.hand.powerW
	for _, o := range b.ops {
		if o.kind == opTake {
			own = milli(o.tool.PowerW)
		}
		if o.kind == opStep && o.pedal {
			break
		}
	}
	for i, w := range curvePowersW {
		c.Points = append(c.Points, CurvePoint{PowerW: min(w, b.maxW())})
		c.order = append(c.order, i)
	}
	for i := range c.order { // nearest first; eight values, so by hand
		for j := i; j > 0 && away(c.Points[c.order[j]].PowerW, own) < away(c.Points[c.order[j-1]].PowerW, own); j-- {
			c.order[j], c.order[j-1] = c.order[j-1], c.order[j]
		}
	}
	return c
}

func away(a, b cases.Milli) cases.Milli { return max(a-b, b-a) }

// Step works for a budget of voxel-steps and tells whether the curve is done.
// A step of a voxel that sleeps is counted too, so the work is at most this.
func (c *Curve) Step(budget int) (done bool, err error) {
	for budget > 0 && c.at < len(c.order) {
		point := &c.Points[c.order[c.at]]
		if c.run == nil {
			if c.run, err = newOpRun(c.spec, c.ops, point.PowerW.Float()); err != nil {
				return false, err
			}
		}
		if budget = c.run.step(budget); c.run.done() {
			o := c.run.p.outcome()
			point.LesionDestroyedFraction, point.DermisDepthMM, point.DermisFraction, point.Done = o.LesionDestroyedFraction, o.DermisDepthMM, o.DermisFraction, true
			c.run = nil
			c.at++
		}
	}
	return c.at == len(c.order), nil
}

// goneEnough is the destroyed share at which a lesion counts as gone.
const goneEnough = cases.Milli(950)

// LeastEffectiveW is the least power of the curve at which the lesion is gone,
// 0 when none is or the curve is not done.
func (c *Curve) LeastEffectiveW() cases.Milli {
	for _, p := range c.Points {
		if !p.Done {
			return 0
		}
		if p.LesionDestroyedFraction >= goneEnough {
			return p.PowerW
		}
	}
	return 0
}

// opRun does a log of ops on a patch bit by bit.
type opRun struct {
	p      *patch
	ops    []op
	at     int
	doneMS int // of the step under way
	powerW float64
	voxels int
	warm   bool // something has been heated or cut; until then time changes nothing
}

// newOpRun begins a run. A powerW above 0 takes the place of every setting.
func newOpRun(spec patchSpec, ops []op, powerW float64) (*opRun, error) {
	p, err := newPatch(spec)
	if err != nil {
		return nil, err
	}
	s := p.t.Section(0)
	return &opRun{p: p, ops: ops, powerW: powerW, voxels: s.NX * s.NX * s.NZ}, nil
}

func (r *opRun) done() bool { return r.at == len(r.ops) }

// pieceMS is what one piece of a step takes; a march of heat takes 8 ms at
// most.
const pieceMS = 8

func (r *opRun) step(budget int) (left int) {
	for budget > 0 && !r.done() {
		o := r.ops[r.at]
		r.warm = r.warm || o.touches()
		if o.kind == opStep && !r.warm {
			r.at++
			continue
		}
		if o.kind == opTake && r.powerW > 0 {
			o.tool.PowerW = r.powerW
		}
		if o.kind == opStep && o.ms-r.doneMS > pieceMS {
			o.ms = pieceMS
			r.doneMS += pieceMS
		} else {
			if o.kind == opStep {
				o.ms -= r.doneMS
			}
			r.doneMS = 0
			r.at++
		}
		r.p.do(o)
		budget -= r.voxels
	}
	return budget
}
