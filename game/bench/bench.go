package bench

import (
	"fmt"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring/tissue"
)

// Options of a treatment. The nought of each is the usual.
type Options struct {
	Seed     int     // of sparks and bleeding spots
	Assessed bool    // nothing can be undone
	GridMM   float64 // 0 takes 0.1 mm, or 0.2 mm for a large lesion
	Workers  int     // any number gives the same bits
}

// Bench is one treatment under way. It is not safe for use from several
// goroutines at once.
type Bench struct {
	pack *cases.Pack
	ref  string
	c    *cases.Case
	plan *cases.Plan
	tech techniqueRow
	o    Options

	p       *patch
	ops     []op   // all that was done to the tissue, less what was undone
	marks   []mark // the start of every burst that can be undone
	clockMS int
	events  []cases.SessionEvent
	ended   bool

	hand  hand
	room  room
	field field
	told  told
	burst burst
	seen  int // ops and clock that the maps were last drawn for
}

// hand is what is held, where, and how the unit is set.
type hand struct {
	tool     string
	xMM, yMM cases.Milli
	gapMM    cases.Milli
	tip      string
	output   string
	contact  string
	powerW   cases.Milli
	pedal    bool // the foot is down
	live     bool // and current is allowed to flow
}

// room is what no undo gives back: the clock runs on and fluid stays given.
type room struct {
	handOn, plateOn, nozzleNear, oxygenOff, offMetal, marked bool

	injectedUL  int // microlitres
	injectedMS  int // when the first of it was given
	fast        bool
	waitUntilMS int
	waitedS     int
}

// field is what an undo gives back together with the tissue.
type field struct {
	spots    []spot
	cutMM3   cases.Milli // taken by blade, curette or scissors
	strokes  int         // of the curette
	cuts     int         // of blade or scissors
	wipes    int
	potted   bool
	cycles   int
	sinceCut bool // something was cut or wiped since the last burst
	shedNL   int
	press    tissue.Spot
	pressing bool // cotton or gauze is held down, by the other hand too
}

// clone is a copy that shares nothing.
func (f field) clone() field {
	f.spots = slices.Clone(f.spots)
	return f
}

// mark is where the tissue stood at the start of a burst.
type mark struct {
	ops   int
	field field
}

// told is what the outcome holds for good, and what is on show now.
type told struct {
	hazards, faults []string
	caution         string
	cautionMS       int
	speech          string
	speechMS        int
	breaks          int // of the hand's contact
}

// Open makes the bench ready: the patch of skin of the case's site with its
// lesion, the plan's prep dried for the time it says, its protection in place,
// its electrode and setting in the hand. The anaesthetic is in the syringe, a
// surface agent on the skin for its minutes.
func Open(pack *cases.Pack, c *cases.Case, plan *cases.Plan, o Options) (*Bench, error) {
	ref := pack.ID + "/" + c.ID
	tech := techniqueOf(plan.Technique)
	switch {
	case plan.Case != "" && plan.Case != ref:
		return nil, fmt.Errorf("the plan is for %q, the case is %q; they must agree", plan.Case, ref)
	case plan.Disposition != "treat" && plan.Disposition != "biopsy_first":
		return nil, fmt.Errorf("the plan's decision is %q; the bench opens for treat or biopsy_first", plan.Disposition)
	case tech == nil:
		return nil, fmt.Errorf("the technique %q is not done on the bench; it is one of %v", plan.Technique, Techniques())
	case o.Seed < 0:
		return nil, fmt.Errorf("seed is %d; it must be 0 or more", o.Seed)
	}
	l := &c.Lesion
	spec := patchSpec{
		site:   l.Site,
		lesion: tissue.LesionSpec{Family: l.Family, WidthMM: l.WidthMM.Float(), HeightMM: l.HeightMM.Float(), DepthMM: l.DepthMM.Float()},
		o:      tissue.Options{GridMM: o.GridMM, Seed: uint64(o.Seed), Workers: o.Workers, WetMM: wetRoomMM},
	}
	if spec.o.GridMM == 0 {
		spec.o.GridMM = gridFor(&spec.lesion)
	}
	p, err := newPatch(spec)
	if err != nil {
		return nil, err
	}
	b := &Bench{pack: pack, ref: ref, c: c, plan: plan, tech: *tech, o: o, p: p, seen: -1}
	b.o.GridMM = spec.o.GridMM
	b.told.hazards, b.told.faults = []string{}, []string{}
	b.hand = firstHand(b)
	b.room = firstRoom(b)
	b.take()
	if row := b.bleeds(); row.Open {
		b.openWound()
	}
	return b, nil
}

// Techniques lists what can be done on the bench.
func Techniques() []string {
	var ids []string
	for _, r := range rows.Techniques {
		ids = append(ids, r.Technique)
	}
	return ids
}

// mostVoxels is where the grid turns coarse: two million voxels keep pace with
// the clock on two cores.
const mostVoxels = 2e6

func gridFor(l *tissue.LesionSpec) float64 {
	wide := max(12.8, min(40, l.WidthMM+12))
	if float64(wide*wide)*(max(4.8, l.DepthMM+3)+l.HeightMM+wetRoomMM)*1000 > mostVoxels {
		return 0.2
	}
	return 0.1
}

// firstHand is the plan's electrode and setting; what the plan leaves open is
// the gentlest.
func firstHand(b *Bench) hand {
	p := b.plan
	h := hand{tool: "electrode", tip: p.Electrode, output: p.Output, contact: p.Contact, powerW: 1000}
	power := p.PowerW
	if s := p.Haemostasis; s != nil && s.Method == "electrocoagulation" && !b.tech.Heats {
		h.tip, h.output, h.contact, power = s.Electrode, s.Output, s.Contact, s.PowerW
	}
	if power != nil {
		h.powerW = min(*power, b.maxW())
	}
	if tipKnown := find(rows.Tips, func(r *tipRow) bool { return r.Electrode == h.tip }); tipKnown == nil {
		h.tip = "fine"
	}
	if h.output == "" {
		h.output = "low"
	}
	if h.contact == "" {
		h.contact = "touch"
	}
	if h.contact == "gap" {
		h.gapMM = 500
	}
	return h
}

// nozzleNearCM is as far as the nozzle still catches the smoke: NIOSH,
// publication 96-128, 1996.
const nozzleNearCM = 5000

func firstRoom(b *Bench) room {
	has := func(id string) bool { return slices.Contains(b.plan.Protection, id) }
	s := &b.c.Setting
	return room{
		handOn: has("hand_contact"), plateOn: has("plate_placed"), offMetal: has("patient_off_metal") || !s.MetalTable,
		oxygenOff:  has("oxygen_off") || !s.OxygenRunning,
		nozzleNear: has("smoke_evacuator") && s.SmokeEvacuator && (b.plan.EvacuatorCM == nil || *b.plan.EvacuatorCM <= nozzleNearCM),
	}
}

// maxW is the highest setting of the unit.
func (b *Bench) maxW() cases.Milli {
	if u := b.c.Setting.Unit; u != nil && u.MaxW != nil {
		return *u.MaxW
	}
	return 35000
}

// stepW is one step of the unit's dial.
func (b *Bench) stepW() cases.Milli {
	if u := b.c.Setting.Unit; u != nil && u.StepW != nil {
		return *u.StepW
	}
	return 100
}

// returnsByPlate tells whether the unit wants a plate for the way back.
func (b *Bench) returnsByPlate() bool {
	u := b.c.Setting.Unit
	return u != nil && u.Return == "plate"
}

// apply does an op and keeps it.
func (b *Bench) apply(o op) tissue.Removed {
	if n := len(b.ops) - 1; o.kind == opStep && n >= 0 && b.ops[n].kind == opStep && b.ops[n].pose == o.pose && b.ops[n].pedal == o.pedal && !b.atMark(n+1) {
		b.ops[n].ms += o.ms
	} else {
		b.ops = append(b.ops, o)
	}
	b.seen = -1
	return b.p.do(o)
}

// atMark tells whether a burst began after so many ops.
func (b *Bench) atMark(ops int) bool {
	n := len(b.marks)
	return n > 0 && b.marks[n-1].ops == ops
}

// take puts the electrode and its setting in the hand.
func (b *Bench) take() {
	b.apply(op{kind: opTake, tool: tissue.Tool{
		RadiusMM: tipRadiusMM(b.hand.tip), Output: b.hand.output, PowerW: b.hand.powerW.Float(), Gap: b.hand.contact == "gap",
	}})
}

func (b *Bench) pose() tissue.Pose {
	return tissue.Pose{XMM: b.hand.xMM.Float(), YMM: b.hand.yMM.Float(), GapMM: b.hand.gapMM.Float()}
}

// rebuild makes the patch anew and does all ops on it again.
func (b *Bench) rebuild() error {
	p, err := newPatch(b.p.spec)
	if err != nil {
		return err
	}
	for _, o := range b.ops {
		p.do(o)
	}
	b.p, b.seen = p, -1
	return nil
}
