package bench

import (
	"math"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tissue"
)

// patch is the skin under treatment, and the floor that blade or curette left
// in it. The same ops on the same patch give the same bits.
type patch struct {
	spec patchSpec
	t    *tissue.Tissue
	maps tissue.Maps
	// Of each column: the height of the surface when it was last seen without
	// blood on it, and whether a cut left it, and at what height.
	dryMM   []float32
	cut     []bool
	floorMM []float32
	// fresh are the columns that the last cut took something from.
	fresh []int
}

// patchSpec is all that a patch depends on.
type patchSpec struct {
	site   string
	lesion tissue.LesionSpec
	o      tissue.Options
}

// wetRoomMM is the room above the skin for blood.
const wetRoomMM = 0.8

func newPatch(s patchSpec) (*patch, error) {
	t, err := tissue.New(s.site, &s.lesion, s.o)
	if err != nil {
		return nil, err
	}
	p := &patch{spec: s, t: t}
	t.Snapshot(&p.maps)
	n := len(p.maps.HeightMM)
	p.dryMM, p.cut, p.floorMM = make([]float32, n), make([]bool, n), make([]float32, n)
	copy(p.dryMM, p.maps.HeightMM)
	return p, nil
}

// opKind is what an op does to the tissue.
type opKind uint8

const (
	opStep opKind = iota
	opTake
	opShave
	opSnip
	opCurette
	opWipe
	opPress
	opRelease
	opFlood
)

// op is one thing done to the tissue: what is left of events once the rules
// of the bench have been applied to them.
type op struct {
	kind  opKind
	pedal bool
	ms    int
	pose  tissue.Pose
	tool  tissue.Tool
	spot  tissue.Spot
	mm    float64 // depth of a cut, height of a pool
}

func (o op) touches() bool {
	return o.kind == opStep && o.pedal || o.kind == opShave || o.kind == opSnip || o.kind == opCurette
}

// do carries out one op.
func (p *patch) do(o op) tissue.Removed {
	t := p.t
	var r tissue.Removed
	switch o.kind {
	case opStep:
		t.Step(o.pose, o.pedal, o.ms)
		return r
	case opTake:
		t.Take(o.tool)
		return r
	case opShave:
		r = t.Shave(o.spot, o.mm)
	case opSnip:
		r = t.Snip(o.mm)
	case opCurette:
		r = t.Curette(o.spot)
	case opWipe:
		r = t.Wipe(o.spot)
	case opPress:
		t.Press(o.spot)
	case opRelease:
		t.Release()
		return r
	case opFlood:
		t.Flood(o.spot, "blood", o.mm)
		return r
	}
	p.see(o.kind == opShave || o.kind == opSnip || o.kind == opCurette)
	return r
}

// see looks at the surface after an act: where a cut has lowered it, it is a
// floor now.
func (p *patch) see(cut bool) {
	p.t.Snapshot(&p.maps)
	p.fresh = p.fresh[:0]
	for i, h := range p.maps.HeightMM {
		if p.maps.Wet[i] {
			continue
		}
		if h < p.dryMM[i]-1e-4 && cut {
			p.cut[i], p.floorMM[i] = true, h
			p.fresh = append(p.fresh, i)
		}
		p.dryMM[i] = h
	}
}

// column is the number of the column over a place, or -1 outside the patch.
func (p *patch) column(xMM, yMM float64) int {
	m := &p.maps
	x := int(math.Floor(float64(xMM/m.GridMM) + float64(m.NX)/2))
	y := int(math.Floor(float64(yMM/m.GridMM) + float64(m.NY)/2))
	if x < 0 || y < 0 || x >= m.NX || y >= m.NY {
		return -1
	}
	return y*m.NX + x
}

// place is the middle of a column, mm.
func (p *patch) place(column int) (xMM, yMM float64) {
	m := &p.maps
	x, y := column%m.NX, column/m.NX
	return float64((float64(x) + 0.5 - float64(m.NX)/2) * m.GridMM), float64((float64(y) + 0.5 - float64(m.NY)/2) * m.GridMM)
}

// row is the number of the plane of a slice whose top is at a height.
func row(s *tissue.Slice, heightMM float64) int {
	return int(math.Floor(float64((s.TopMM-heightMM)/s.GridMM) + 0.5))
}

// floor measures the floor that cuts left: the greatest depth destroyed, or
// lost since, below it, and the share of it that is destroyed.
func (p *patch) floor() (depthMM, covered float64) {
	m := &p.maps
	columns, dead := 0, 0
	for y := range m.NY {
		line := p.cut[y*m.NX : (y+1)*m.NX]
		any := false
		for _, c := range line {
			any = any || c
		}
		if !any {
			continue
		}
		_, yMM := p.place(y * m.NX)
		s := p.t.Section(yMM)
		for x, c := range line {
			if !c {
				continue
			}
			columns++
			from := row(&s, float64(p.floorMM[y*m.NX+x]))
			z := from
			for z < s.NZ && (!s.Solid[z*s.NX+x] || s.Omega[z*s.NX+x] >= 1) {
				z++
			}
			if z > from {
				dead++
			}
			depthMM = max(depthMM, float64(float64(z-from)*s.GridMM))
		}
	}
	if columns == 0 {
		return 0, 0
	}
	return depthMM, float64(dead) / float64(columns)
}

// outcome is what the tissue tells of the treatment.
func (p *patch) outcome() scoring.Outcome {
	o := p.t.Outcome()
	out := scoring.Outcome{
		LesionDestroyedFraction: milli(o.LesionDestroyedFraction), DermisDepthMM: milli(o.DermisDepthMM),
		RimMM: milli(o.RimMM), CharredMM3: milli(o.CharredMM3), EnergyJ: milli(o.EnergyJ),
		Bursts: o.Bursts, LongestBurstS: milli(o.LongestBurstS), ContactBreaks: o.ContactBreaks, SpecimenEdgeMM: milli(o.SpecimenEdgeMM),
	}
	if taken := p.takenMM(); taken > o.DermisDepthMM {
		out.DermisDepthMM = milli(taken)
	}
	out.DermisFraction = milli(out.DermisDepthMM.Float() / p.dermisMM())
	depth, covered := p.floor()
	out.FloorDepthMM, out.BaseCoveredFraction = milli(depth), milli(covered)
	return out
}

// takenMM is how far below the top of the dermis the surface lies at its
// deepest, mm.
func (p *patch) takenMM() float64 {
	low := float32(0)
	for i, h := range p.dryMM {
		if p.dryMM[i] < low {
			low = h
		}
	}
	return max(0, -float64(low)-p.overDermisMM())
}

// overDermisMM is the horny layer and the epidermis, skinMM all down to the
// fat and half a voxel more, which no rounding to voxels can feign.
func (p *patch) overDermisMM() float64 {
	site, err := tissue.SiteByID(p.spec.site)
	if err != nil {
		return 0
	}
	return float64((site.HornyUM + site.EpidermisUM) * 1e-3)
}

func (p *patch) skinMM() float64 {
	return p.overDermisMM() + p.dermisMM() + float64(p.maps.GridMM/2)
}

// dermisMM is how thick the dermis of the patch is, with what was injected in
// it: the fluid spreads under the whole patch and lifts it by 3 mm at most, as
// the tissue model has it.
func (p *patch) dermisMM() float64 {
	site, err := tissue.SiteByID(p.spec.site)
	if err != nil {
		return 1
	}
	wideMM := float64(float64(p.maps.NX) * p.maps.GridMM)
	areaMM2 := float64(math.Pi * float64(wideMM*wideMM) / 4)
	return site.DermisMM + min(float64(p.spec.o.InjectedML*1e3)/areaMM2, 3)
}

// milli rounds to thousandths.
func milli(x float64) cases.Milli { return cases.Milli(math.Floor(float64(x*1000) + 0.5)) }
