package bench

import "slices"

// Order of acts, as technique chapters teach it: the border is marked before
// the needle swells it; the skin is numb and the prep dry before anything
// hurts or burns; what the pathologist needs is in the pot before any current;
// the curette comes first; char comes off between rounds; and rounds are as
// many as planned (eMedicine, Curettage and electrodesiccation, 2020).

// beforeNeedle is asked as the needle goes in.
func (b *Bench) beforeNeedle() { b.wantBorder() }

func (b *Bench) wantBorder() {
	planned := slices.Contains(b.plan.Record, "border_marked")
	if !b.room.marked && (planned || b.tech.Curettes && b.tech.Heats) {
		b.fault("border_unmarked")
	}
}

// beforeCut is asked as a blade, scissors or curette touches.
func (b *Bench) beforeCut(string) {
	b.wantBorder()
	b.wantNumb()
	switch {
	case b.numb():
	case b.plansNone(): // a tiny tag is snipped without a needle; it pinches
		b.say("That pinched.")
	default:
		b.say("I can feel that.")
		b.stopFor("felt_pain")
	}
}

// wantNumb: whoever planned an anaesthetic must not begin before it works.
func (b *Bench) wantNumb() {
	if b.plansNumbing() && !b.numb() {
		b.fault("not_numb")
	}
}

// beforeCurrent is asked as the foot goes down, whether or not a hazard then
// keeps the current off.
func (b *Bench) beforeCurrent() {
	b.wantBorder()
	b.wantNumb()
	if b.alcoholWetMS() > 0 {
		b.fault("prep_wet")
	}
	if b.wantsSpecimen() && !b.field.potted {
		b.fault("specimen_late")
	}
}

// beforeBurst is asked as current begins to flow.
func (b *Bench) beforeBurst() {
	f := &b.field
	if b.tech.CutsFirst && f.strokes+f.cuts == 0 {
		b.fault("coagulated_before_curette")
	}
	if f.cycles == 0 || f.sinceCut {
		if f.cycles > 0 && b.charShare() > charLeftPerMille {
			b.fault("char_left")
		}
		f.cycles++
	}
	f.sinceCut = false
}

// charLeftPerMille is the charred part of the lesion's ground that may be left
// at the start of a round: an engineering choice.
const charLeftPerMille = 100

// driedWater is the share of water under which tissue is crust: it hides what
// is under it and holds off the current as char does.
const driedWater = 0.1

// charShare is the share of the treated ground under char or dried crust, per
// mille.
func (b *Bench) charShare() int {
	b.look()
	m := &b.p.maps
	half := b.c.Lesion.WidthMM.Float() / 2
	all, charred := 0, 0
	for i := range m.Charred {
		x, y := b.p.place(i)
		if float64(x*x)+float64(y*y) > float64(half*half) {
			continue
		}
		all++
		if m.Charred[i] || m.Water[i] < driedWater {
			charred++
		}
	}
	if all == 0 {
		return 0
	}
	return charred * 1000 / all
}

// cyclesMissed tells whether fewer rounds were done than planned.
func (b *Bench) cyclesMissed() bool {
	c := b.plan.Cycles
	return c != nil && b.tech.Heats && b.field.cycles < int(*c/1000)
}
