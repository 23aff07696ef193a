package tissue

import (
	"math"
	"slices"
)

// Run makes one run of the model and measures it. The result depends on the
// spec alone, never on the number of workers or the platform.
func Run(spec *RunSpec) (*Result, error) {
	r, err := newRun(spec)
	if err != nil {
		return nil, err
	}
	r.sample(0)
	for i := 1; i < len(r.stops); i++ {
		r.marchTo(r.stops[i-1], r.stops[i])
		r.sample(r.stops[i])
	}
	return r.result(), nil
}

// run is a run under way.
type run struct {
	spec    *RunSpec
	body    *body
	source  source
	stops   []float64 // moments that a step must end at, s
	probes  []ProbeResult
	energyJ float64
	onS     float64 // time that the pedal was down
}

// source heats the body; it is one of the two that a run can ask for.
type source interface {
	// heat sets the gain of every voxel for a step of dtS seconds with the tip
	// at (xM, yM), gapM above, and returns the power that passes the tip.
	heat(xM, yM, gapM, dialW, dtS float64) float64
	// rest takes the gain away.
	rest()
	// impedance returns the first and last resistance, if there is one.
	impedance() *ImpedanceOhm
}

func newRun(spec *RunSpec) (*run, error) {
	s := *spec
	if s.Site != "" {
		layers, err := SiteLayers(s.Site)
		if err != nil {
			return nil, err
		}
		s.Layers = layers
	}
	r := &run{spec: &s, body: newBody(&s), probes: make([]ProbeResult, len(s.Probes))}
	for i := range r.probes {
		r.probes[i].TempC = make([]float64, len(s.SampleS))
	}
	if s.Physics.Hemisphere {
		r.source = &hemisphere{body: r.body, aM: s.Electrode.RadiusMM * 1e-3}
	} else {
		r.source = newField(r.body, &s)
	}
	end := s.ActivationS + s.CoolS
	r.stops = append(r.stops, 0, s.ActivationS, end)
	for _, p := range s.Path {
		if p.TS < end {
			r.stops = append(r.stops, p.TS)
		}
	}
	r.stops = append(r.stops, s.SampleS...)
	slices.Sort(r.stops)
	r.stops = slices.Compact(r.stops)
	return r, nil
}

func (r *run) marchTo(from, to float64) {
	r.body.crew.begin()
	defer r.body.crew.end()
	n := int(math.Ceil((to-from)/r.body.stepS - 1e-9))
	if n < 1 {
		n = 1
	}
	dt := (to - from) / float64(n)
	for i := range n {
		x, y, gap, on := r.poseAt(from + float64((float64(i)+0.5)*dt))
		if on {
			w := r.source.heat(x*1e-3, y*1e-3, gap*1e-3, r.spec.PowerW, dt)
			r.energyJ += float64(w * dt)
			r.onS += dt
		} else {
			r.source.rest()
		}
		r.body.step(dt)
	}
}

// poseAt is where the tip is, mm, and whether the pedal is down.
func (r *run) poseAt(tS float64) (xMM, yMM, gapMM float64, on bool) {
	path := r.spec.Path
	on = tS < r.spec.ActivationS
	if len(path) == 0 {
		return 0, 0, r.spec.Electrode.GapMM, on
	}
	k := 0
	for k < len(path) && path[k].TS <= tS {
		k++
	}
	if k == 0 {
		p := path[0]
		return p.XMM, p.YMM, p.GapMM, on
	}
	a := path[k-1]
	on = on && !a.Off
	if k == len(path) {
		return a.XMM, a.YMM, a.GapMM, on
	}
	f := (tS - a.TS) / (path[k].TS - a.TS)
	move := func(a, b float64) float64 { return a + float64(f*(b-a)) }
	return move(a.XMM, path[k].XMM), move(a.YMM, path[k].YMM), move(a.GapMM, path[k].GapMM), on
}

// sample reads the probes when tS is a sample's time.
func (r *run) sample(tS float64) {
	for s, t := range r.spec.SampleS {
		if t != tS {
			continue
		}
		for i, p := range r.spec.Probes {
			r.probes[i].TempC[s] = r.body.temperatureC(p)
		}
	}
}

func (r *run) result() *Result {
	b := r.body
	out := &Result{
		EnergyJ: r.energyJ, Impedance: r.source.impedance(), Probes: r.probes,
		LesionDestroyedFraction: b.lesionDestroyed(), DermisDepthMM: b.dermisDepth(r.spec.Layers),
		Voxels: b.nx * b.ny * b.nz, Steps: b.steps,
	}
	if r.onS > 0 {
		out.DeliveredW = r.energyJ / r.onS
	}
	if b.stasisRate != nil {
		out.Destroyed = b.region(b.destroyed)
		for i, p := range r.spec.Probes {
			omega := b.omegaAt(p)
			out.Probes[i].Omega = &omega
		}
	}
	if b.physics.Vaporise {
		out.Dried, out.Charred = b.region(b.dried), b.region(b.charred)
	}
	out.Balance = Balance{InJ: b.ledger.in, SurfaceJ: b.ledger.surface, FarJ: b.ledger.far, BloodJ: b.ledger.blood}
	out.Balance.StoredJ, out.Balance.LatentJ = b.stored()
	return out
}

// omegaAt is the damage integral of the voxel a probe lies in.
func (b *body) omegaAt(p Probe) float64 {
	x := clampInt(int(math.Floor(p.XMM*1e-3/b.hM+float64(b.nx)/2)), b.nx)
	y := clampInt(int(math.Floor(p.YMM*1e-3/b.hM+float64(b.ny)/2)), b.ny)
	z := clampInt(int(math.Floor(p.ZMM*1e-3/b.hM))+b.planesUp, b.nz)
	return float64(b.omega[b.at(x, y, z)])
}
