package tissue

import (
	"fmt"
	"math"
)

// Options of a treatment on the bench. The nought of each is the usual.
type Options struct {
	GridMM     float64 // 0 takes 0.1
	Damage     string  // empty takes henriques
	Seed       uint64  // of the sparks
	Workers    int     // any number gives the same bits
	Adrenaline bool    // the anaesthetic holds it: less blood flows
	InjectedML float64 // under and round the lesion: the dermis is lifted and thick
	WetMM      float64 // room above the skin for blood or saline
}

// Tool is the electrode in the hand and the unit's setting.
type Tool struct {
	RadiusMM float64
	Output   string // low or high
	PowerW   float64
	Gap      bool // held above the tissue, for sparks
}

// Pose is where the tip is. A touching tip with GapMM above 0 is lifted off:
// no current flows.
type Pose struct{ XMM, YMM, GapMM float64 }

// Tissue is a patch of skin on the bench with a lesion in its middle. It is
// not safe for use from several goroutines at once.
type Tissue struct {
	body    *body
	field   *field
	site    SiteRow
	spec    RunSpec
	tool    Tool
	stepMS  int // heat is marched when so many have passed, if it is above 0
	subs    int // else so many times a millisecond
	clockMS int
	waitMS  int  // of the step under way
	heldMS  int  // of them with the pedal down
	pose    Pose // of the last of them

	energyJ        float64
	bursts         int
	burstMS        int
	longestMS      int
	breaks         int
	offTissue      bool
	pedal          bool
	specimenEdgeMM float64
	lesionAt       []bool // columns that held lesion at the start
}

const (
	// On the bench the far tail of the current's heat is left out, and the field
	// is solved less often, to two parts in a hundred (its power to one in two
	// thousand).
	benchFaintKs   = 1
	benchTolerance = 2e-2
	benchSolveS    = 0.0119

	patchMarginMM = 6.0
	patchMostMM   = 40.0
	patchLeastMM  = 12.8
	patchDeepMM   = 4.8

	// Adrenaline in the anaesthetic, 10 microgram a millilitre, leaves a quarter of
	// the flow in the skin: laser Doppler and laser speckle on the flank of pigs
	// (Sheikh and others, Journal of Plastic, Reconstructive and Aesthetic Surgery
	// 2017;70:322). In their eyelids a fifth was left.
	adrenalineShare = 0.25
)

// New makes the patch. The lesion may be nil. The patch covers the lesion and
// 6 mm on each side, up to 40 by 40 mm.
func New(site string, lesion *LesionSpec, o Options) (*Tissue, error) {
	layers, err := SiteLayers(site)
	if err != nil {
		return nil, err
	}
	row, _ := SiteByID(site)
	if o.GridMM == 0 {
		o.GridMM = 0.1
	}
	if o.GridMM < 0.05 || o.GridMM > 0.4 {
		return nil, fmt.Errorf("grid_mm is %v; it must be from 0.05 to 0.4", o.GridMM)
	}
	if o.InjectedML < 0 || o.InjectedML > 50 {
		return nil, fmt.Errorf("injected_ml is %v; it must be from 0 to 50", o.InjectedML)
	}
	spec := RunSpec{GridMM: o.GridMM, Site: site, Physics: DefaultPhysics(), Output: "low", Seed: o.Seed, Workers: o.Workers, FaintKs: benchFaintKs}
	if o.Damage != "" {
		if DamageByID(o.Damage) == nil {
			return nil, fmt.Errorf("damage is %q; it must be one of %s", o.Damage, listed(DamageIDs()))
		}
		spec.Physics.Damage = o.Damage
	}
	wide, deep, up := patchLeastMM, patchDeepMM, o.WetMM
	if lesion != nil {
		if _, ok := lesionByFamily(lesion.Family); !ok {
			return nil, fmt.Errorf("lesions.json has no family %q", lesion.Family)
		}
		l := *lesion
		l.WidthMM = min(l.WidthMM, patchMostMM)
		spec.Lesion = &l
		wide = min(patchMostMM, max(wide, l.WidthMM+2*patchMarginMM))
		deep = max(deep, l.DepthMM+3)
		up += l.HeightMM
	}
	spec.SizeMM = [3]float64{wide, wide, deep}
	spec.RoomMM = up
	spec.Layers = anaesthetised(layers, wide, o)
	spec.Electrode = Electrode{RadiusMM: 0.25}
	spec.Extra = []string{"blood", "saline", "fibrous"}
	if n := spec.voxelCount(); n > maxVoxels {
		return nil, fmt.Errorf("the patch would hold %.0f voxels; at most %.0f are allowed: take a larger grid_mm", n, float64(maxVoxels))
	}
	t := &Tissue{body: newBody(&spec), site: row, spec: spec}
	t.pace()
	t.Take(Tool{RadiusMM: 0.25, Output: "low", PowerW: 0})
	return t, nil
}

// anaesthetised is the skin after the injection: less blood with adrenaline,
// and the fluid spread through the dermis under the patch's middle half.
func anaesthetised(layers []Layer, wideMM float64, o Options) []Layer {
	out := append([]Layer(nil), layers...)
	saline := materialOf("saline")
	for i := range out {
		l := &out[i]
		if o.Adrenaline {
			l.Perfusion1S *= adrenalineShare
		}
		if l.Kind != Reticular || o.InjectedML == 0 {
			continue
		}
		areaMM2 := pi * square(wideMM/2)
		swollen := min(o.InjectedML*1e3/areaMM2, 3) // mm; more runs off under the skin
		fluid := swollen / (l.ThicknessMM + swollen)
		l.SigmaSm += float64(fluid * (saline.sigmaSm - l.SigmaSm))
		l.WaterFraction += float64(fluid * (1 - l.WaterFraction))
		l.CJKgK += float64(fluid * (waterCJkgK - l.CJKgK))
		l.KWmK += float64(fluid * (saline.kWmK - l.KWmK))
		l.RhoKgM3 += float64(fluid * (1000 - l.RhoKgM3))
		l.Perfusion1S *= 1 - fluid
		l.ThicknessMM += swollen
	}
	return out
}

// Take puts another electrode or setting in the hand.
func (t *Tissue) Take(tool Tool) {
	same := t.field != nil && tool.RadiusMM == t.tool.RadiusMM && tool.Output == t.tool.Output && tool.Gap == t.tool.Gap
	t.tool = tool
	if same {
		return
	}
	t.spec.Electrode = Electrode{RadiusMM: tool.RadiusMM, Gap: tool.Gap, GapMM: 0.5}
	t.spec.Output = tool.Output
	seed := t.spec.Seed
	if t.field != nil {
		t.field.rest()
		seed = t.field.arc.state
	}
	t.field = newField(t.body, &t.spec)
	t.field.arc.state = seed
	t.field.tolerance, t.field.stepS = benchTolerance, benchSolveS
}

// pace sets how far apart the steps of the march are, which what lies on the
// patch decides.
func (t *Tissue) pace() {
	t.body.setStep()
	t.stepMS, t.subs = min(whole(t.body.stepS*1e3), 8), 0
	if t.stepMS < 1 {
		t.subs = int(math.Ceil(1e-3 / t.body.stepS))
	}
}

// Step lets ms milliseconds pass with the tip at a pose and the pedal up or
// down. How the milliseconds are grouped into calls does not matter.
func (t *Tissue) Step(p Pose, pedal bool, ms int) {
	t.body.crew.begin()
	defer t.body.crew.end()
	for range ms {
		t.count(p, pedal)
		t.clockMS++
		if t.stepMS < 1 {
			for range t.subs {
				t.march(p, pedal, 1e-3/float64(t.subs))
			}
			continue
		}
		t.waitMS++
		if pedal {
			t.heldMS++
		}
		t.pose = p
		if t.waitMS == t.stepMS {
			t.catchUp()
		}
	}
}

// catchUp marches what has passed of the step under way. An act does so first,
// since it may change what the step may be.
func (t *Tissue) catchUp() {
	if t.waitMS > 0 {
		t.march(t.pose, 2*t.heldMS >= t.waitMS && t.heldMS > 0, float64(t.waitMS)*1e-3)
	}
	t.waitMS, t.heldMS = 0, 0
}

// count keeps the account of bursts.
func (t *Tissue) count(p Pose, pedal bool) {
	off := !t.tool.Gap && p.GapMM > 0
	switch {
	case pedal && !t.pedal:
		t.bursts++
		t.burstMS = 0
	case pedal && off && !t.offTissue:
		t.breaks++
	}
	if pedal {
		t.burstMS++
		t.longestMS = max(t.longestMS, t.burstMS)
	}
	t.pedal, t.offTissue = pedal, off
}

func (t *Tissue) march(p Pose, on bool, dtS float64) {
	inside := math.Abs(p.XMM)*1e-3 <= float64(t.body.nx)*t.body.hM/2 && math.Abs(p.YMM)*1e-3 <= float64(t.body.ny)*t.body.hM/2
	if on && inside && t.tool.PowerW > 0 && (t.tool.Gap || p.GapMM == 0) {
		w := t.field.heat(p.XMM*1e-3, p.YMM*1e-3, p.GapMM*1e-3, t.tool.PowerW, dtS)
		t.energyJ += float64(w * dtS)
	} else {
		t.field.rest()
	}
	t.body.step(dtS)
}

// ClockMS is the simulated time since New, ms.
func (t *Tissue) ClockMS() int { return t.clockMS }

// DeliveredW is what passes the tip at the moment, and ImpedanceOhm the
// resistance it meets; both are 0 while no current flows.
func (t *Tissue) DeliveredW() float64 {
	f := t.field
	if !f.down {
		return 0
	}
	w, arc := f.given(t.tool.PowerW)
	return w + float64(arc*(f.unit.ArcFootShare+f.unit.ArcCrustShare))
}

// ImpedanceOhm is the resistance from the tip to far off, through tissue.
func (t *Tissue) ImpedanceOhm() float64 {
	if !t.field.down {
		return 0
	}
	return t.field.last
}

// Sparking tells whether an arc burns.
func (t *Tissue) Sparking() bool { return t.field.down && t.field.arc.on }
