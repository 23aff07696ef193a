package bench

import (
	"errors"
	"fmt"

	"leastwatt/cases"
	"leastwatt/scoring/tissue"
)

var (
	errEnded    = errors.New("the treatment has ended; restart it to go on")
	errAssessed = errors.New("nothing can be undone in a self-assessment")
	errNoBurst  = errors.New("there is no burst to undo")
)

// toolOf is the tool that an act needs; none stands for either hand.
var toolOf = map[string][]string{
	"mark": {"pen"}, "inject": {"syringe"}, "roll": {"cotton"}, "press": {"gauze_dry", "gauze_wet", "cotton"},
	"wipe": {"gauze_dry", "gauze_wet", "cotton"}, "shave": {"blade"}, "curette": {"curette"}, "snip": {"scissors"},
}

// ActOf is the act that a tool is for, or nothing for the electrode.
func ActOf(tool string) string {
	switch tool {
	case "cotton":
		return "roll"
	case "gauze_dry", "gauze_wet":
		return "wipe"
	case "blade":
		return "shave"
	case "curette":
		return "curette"
	case "scissors":
		return "snip"
	case "syringe":
		return "inject"
	case "pen":
		return "mark"
	}
	return ""
}

// Do does what the event says, now: it takes the tool, moves, sets the unit,
// acts, and puts the pedal down or up, in this order. Its tick is set to the
// bench's clock. What is refused changes nothing and is not kept.
func (b *Bench) Do(e cases.SessionEvent) error {
	if b.ended {
		return errEnded
	}
	if err := b.check(&e); err != nil {
		return err
	}
	e.Tick = b.clockMS
	b.keep(e)
	b.set(&e)
	if e.Act != "" {
		if err := b.act(&e); err != nil {
			return err
		}
	}
	if e.Pedal != nil {
		b.setPedal(*e.Pedal)
	}
	return nil
}

// keep adds the event to the session. Moves within one millisecond are one.
func (b *Bench) keep(e cases.SessionEvent) {
	if n := len(b.events) - 1; n >= 0 && b.events[n].Tick == e.Tick && isMove(&b.events[n]) && isMove(&e) {
		last := &b.events[n]
		for _, f := range [...]struct{ to, from **cases.Milli }{{&last.XMM, &e.XMM}, {&last.YMM, &e.YMM}, {&last.GapMM, &e.GapMM}} {
			if *f.from != nil {
				*f.to = *f.from
			}
		}
		return
	}
	b.events = append(b.events, e)
}

func isMove(e *cases.SessionEvent) bool {
	m := *e
	m.Tick, m.XMM, m.YMM, m.GapMM = 0, nil, nil, nil
	return m == cases.SessionEvent{}
}

// check refuses what cannot be done, before anything is changed.
func (b *Bench) check(e *cases.SessionEvent) error {
	tool := b.hand.tool
	if e.Tool != "" {
		tool = e.Tool
	}
	if e.PowerW != nil && (*e.PowerW > b.maxW() || *e.PowerW%b.stepW() != 0) {
		return fmt.Errorf("the unit cannot be set to %v W; it goes up to %v W by %v W", e.PowerW, b.maxW(), b.stepW())
	}
	if e.Pedal != nil && *e.Pedal && tool != "electrode" {
		return fmt.Errorf("the pedal needs the electrode in your hand, not the %s", cases.Vocab.Label("bench_tool", tool, cases.UK))
	}
	if e.Tip != "" && find(rows.Tips, func(r *tipRow) bool { return r.Electrode == e.Tip }) == nil {
		return fmt.Errorf("the %s is not on the bench; take a fine, blunt or ball electrode", cases.Vocab.Label("electrode", e.Tip, cases.UK))
	}
	if len(b.events) >= cases.MostEvents {
		return fmt.Errorf("a session holds at most %d events", cases.MostEvents)
	}
	return b.checkAct(e, tool)
}

func (b *Bench) checkAct(e *cases.SessionEvent, tool string) error {
	if tools := toolOf[e.Act]; tools != nil {
		fits := false
		for _, t := range tools {
			fits = fits || t == tool
		}
		if !fits {
			return fmt.Errorf("to %s, take the %s", cases.Vocab.Label("bench_act", e.Act, cases.UK), cases.Vocab.Label("bench_tool", tools[0], cases.UK))
		}
	}
	switch e.Act {
	case "undo":
		if b.o.Assessed {
			return errAssessed
		}
		if len(b.marks) == 0 {
			return errNoBurst
		}
	case "inject":
		if e.VolumeML == nil {
			return errors.New("an injection needs its volume in mL")
		}
		if a := b.plan.Anaesthetic; a == nil || len(a.Injected) == 0 {
			return errors.New("the syringe is empty: the plan holds nothing to inject")
		}
		if b.room.injectedUL+int(*e.VolumeML) > 50000 {
			return errors.New("more than 50 mL is not injected here")
		}
	case "wait":
		if e.WaitS == nil {
			return errors.New("a wait needs its seconds")
		}
	case "evacuator_near":
		if !b.c.Setting.SmokeEvacuator {
			return errors.New("there is no smoke evacuator in this room")
		}
	case "specimen_to_pot":
		if b.field.cutMM3 == 0 {
			return errors.New("nothing has been taken yet")
		}
	case "shave", "snip":
		if e.DepthMM == nil {
			return errors.New("a cut needs the depth of the blade in mm")
		}
	}
	return nil
}

// set takes the tool and sets hand and unit.
func (b *Bench) set(e *cases.SessionEvent) {
	h := &b.hand
	if e.Tool != "" && e.Tool != h.tool {
		b.setPedal(false)
		h.tool = e.Tool
	}
	for _, f := range [...]struct{ to, from *cases.Milli }{{&h.xMM, e.XMM}, {&h.yMM, e.YMM}, {&h.gapMM, e.GapMM}, {&h.powerW, e.PowerW}} {
		if f.from != nil {
			*f.to = *f.from
		}
	}
	for _, f := range [...]struct {
		to   *string
		from string
	}{{&h.tip, e.Tip}, {&h.output, e.Output}, {&h.contact, e.Contact}} {
		if f.from != "" {
			*f.to = f.from
		}
	}
	if e.Contact != "" && e.GapMM == nil {
		h.gapMM = 0
		if e.Contact == "gap" {
			h.gapMM = 500
		}
	}
	if e.PowerW != nil || e.Tip != "" || e.Output != "" || e.Contact != "" {
		b.take()
	}
}

// Radii of what one act covers, mm, when the event names none: common
// practice, no source.
var actRadiusMM = map[string]float64{"roll": 1.5, "press": 5, "wipe": 4, "shave": 0, "curette": 2, "snip": 0}

func (b *Bench) spotOf(e *cases.SessionEvent) tissue.Spot {
	s := tissue.Spot{XMM: b.hand.xMM.Float(), YMM: b.hand.yMM.Float(), RadiusMM: actRadiusMM[e.Act]}
	if e.Act == "shave" {
		s.RadiusMM = b.c.Lesion.WidthMM.Float()/2 + 0.5
	}
	if e.RadiusMM != nil {
		s.RadiusMM = e.RadiusMM.Float()
	}
	return s
}

// act does the event's act once.
func (b *Bench) act(e *cases.SessionEvent) error {
	switch e.Act {
	case "mark":
		b.room.marked = true
	case "inject":
		return b.inject(e)
	case "roll", "press":
		b.letGo()
		b.field.press, b.field.pressing = b.spotOf(e), true
		b.apply(op{kind: opPress, spot: b.field.press})
		b.dried(b.field.press)
	case "release":
		b.letGo()
	case "wipe":
		s := b.spotOf(e)
		b.apply(op{kind: opWipe, spot: s})
		b.dried(s)
		b.field.wipes++
		b.field.sinceCut = b.field.sinceCut || !b.tech.CutsFirst
	case "shave", "snip", "curette":
		b.cut(e)
	case "specimen_to_pot":
		b.field.potted = true
	case "hand_on", "hand_off":
		b.setHandOn(e.Act == "hand_on")
	case "evacuator_near", "evacuator_away":
		b.room.nozzleNear = e.Act == "evacuator_near"
	case "oxygen_off":
		b.room.oxygenOff = true
	case "off_metal":
		b.room.offMetal = true
	case "place_plate":
		b.room.plateOn = true
	case "wait":
		b.setPedal(false)
		b.room.waitUntilMS = b.clockMS + int(*e.WaitS)
		b.room.waitedS += int(*e.WaitS / 1000)
	case "undo":
		return b.undo()
	case "stop":
		b.setPedal(false)
		b.letGo()
		b.ended = true
	}
	return nil
}

// letGo lifts cotton tip or gauze.
func (b *Bench) letGo() {
	if b.field.pressing {
		b.field.pressing = false
		b.apply(op{kind: opRelease})
	}
}

// setHandOn is the other hand. With a single-ended unit it is part of the
// current's way; lifting it in a burst breaks the contact.
func (b *Bench) setHandOn(on bool) {
	b.room.handOn = on
	if !on && b.hand.live && !b.returnsByPlate() {
		b.told.breaks++
		b.stopFor("contact_broken")
	}
}

// cut is a stroke of blade, scissors or curette.
func (b *Bench) cut(e *cases.SessionEvent) {
	b.setPedal(false)
	b.beforeCut(e.Act)
	o := op{spot: b.spotOf(e)}
	if e.DepthMM != nil {
		o.mm = e.DepthMM.Float()
	}
	f := &b.field
	switch e.Act {
	case "shave":
		o.kind = opShave
		f.cuts++
	case "snip":
		o.kind, o.mm = opSnip, -o.mm // the tissue model counts a snip upwards
		f.cuts++
	default:
		o.kind = opCurette
		f.strokes++
	}
	r := b.apply(o)
	f.cutMM3 += milli(r.VolumeMM3)
	f.sinceCut = true
	b.bleedFromCut()
	b.lookForFat()
}

// inject gives some of what the plan put in the syringe. Before any current
// or cut, the fluid lifts the dermis of the patch and its adrenaline takes
// blood from it; later it only numbs.
func (b *Bench) inject(e *cases.SessionEvent) error {
	b.beforeNeedle()
	if b.room.injectedUL == 0 {
		b.room.injectedMS = b.clockMS
	}
	b.room.injectedUL += int(*e.VolumeML)
	b.room.fast = b.room.fast || e.Fast != nil && *e.Fast
	if b.room.fast {
		b.say("That stings.")
	}
	for _, o := range b.ops {
		if o.touches() {
			return nil
		}
	}
	b.p.spec.o.InjectedML = float64(b.room.injectedUL) / 1000
	b.p.spec.o.Adrenaline = b.adrenaline()
	return b.rebuild()
}

// undo gives the tissue back as it was at the start of the last burst.
func (b *Bench) undo() error {
	b.setPedal(false)
	last := b.marks[len(b.marks)-1]
	b.marks = b.marks[:len(b.marks)-1]
	b.ops = b.ops[:last.ops]
	b.field = last.field
	b.burst.forget(len(b.marks))
	if err := b.rebuild(); err != nil {
		return err
	}
	b.take()
	return nil
}
