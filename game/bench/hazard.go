package bench

import (
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring/tissue"
)

// stopFor stops the bench for a hazard: it goes into the outcome once. One
// that is not told every time stops the bench only the first time.
func (b *Bench) stopFor(hazard string) bool {
	row := find(rows.Hazards, func(r *hazardRow) bool { return r.Hazard == hazard })
	first := note(&b.told.hazards, hazard)
	if !first && (row == nil || !row.EveryTime) {
		return false
	}
	b.told.caution, b.told.cautionMS = hazard, b.clockMS
	b.endBurst()
	return true
}

// fault notes a fault of order, once.
func (b *Bench) fault(id string) { note(&b.told.faults, id) }

// note adds a word to a list and tells whether it is new there.
func note(list *[]string, id string) bool {
	if slices.Contains(*list, id) {
		return false
	}
	*list = append(*list, id)
	return true
}

// say lets the patient speak.
func (b *Bench) say(words string) { b.told.speech, b.told.speechMS = words, b.clockMS }

// stopsCurrent looks for what makes current dangerous before it flows. All
// that is found is noted; whatever stops keeps the current off.
func (b *Bench) stopsCurrent() bool {
	stopped := false
	for _, h := range [...]struct {
		id   string
		here bool
	}{
		{"alcohol_wet", b.alcoholWetMS() > 0},
		{"oxygen_on", !b.room.oxygenOff},
		{"device_current", len(b.c.Patient.Devices) > 0 && b.beyondPlan()},
		{"no_smoke_evacuation", carriesVirus(b.c.Lesion.Looks()) && !b.room.nozzleNear},
		{"metal_touched", !b.room.offMetal},
		{"specimen_late", b.wantsSpecimen() && !b.field.potted},
		{"contact_broken", b.returnsByPlate() && !b.room.plateOn || !b.returnsByPlate() && !b.room.handOn},
	} {
		if h.here && b.stopFor(h.id) {
			stopped = true
		}
	}
	return stopped
}

// alcoholWetMS is how long alcohol still needs to dry, ms.
func (b *Bench) alcoholWetMS() int {
	p := b.plan.Prep
	if p == nil {
		return 0
	}
	dry := find(rows.Drying, func(r *dryingRow) bool { return r.Prep == p.Agent })
	if dry == nil {
		return 0
	}
	needS := dry.SkinS
	if b.inHair() {
		needS = dry.HairS
	}
	waited := b.clockMS
	if p.DryWaitS != nil {
		waited += int(*p.DryWaitS)
	}
	return max(0, needS*1000-waited)
}

// inHair tells whether prep would stay wet in hair.
func (b *Bench) inHair() bool {
	switch b.c.Lesion.Site {
	case "scalp", "eyebrow", "axilla", "groin", "genital":
		return true
	}
	return slices.Contains(b.c.Lesion.Features, "hair_bearing")
}

// beyondPlan tells whether the unit is set, or the tip held, in a way that the
// plan did not hold: with an implanted device the plan's settings are those
// that were thought safe.
func (b *Bench) beyondPlan() bool {
	p, h := b.plan, &b.hand
	fits := func(power *cases.Milli, output, contact string) bool {
		return power != nil && h.powerW <= *power && (output == "" || output == h.output) && (contact == "" || contact == h.contact)
	}
	if b.tech.Heats && fits(p.PowerW, p.Output, p.Contact) {
		return false
	}
	s := p.Haemostasis
	return s == nil || s.Method != "electrocoagulation" || !fits(s.PowerW, s.Output, s.Contact)
}

// longestPlannedMS is the longest burst that the plan holds, ms; 0 if none.
func (b *Bench) longestPlannedMS() int {
	ms := 0
	if t := b.plan.ActivationS; t != nil && b.tech.Heats {
		ms = int(*t)
	}
	if s := b.plan.Haemostasis; s != nil && s.Method == "electrocoagulation" && s.ActivationS != nil {
		ms = max(ms, int(*s.ActivationS))
	}
	return ms
}

func (b *Bench) wantsSpecimen() bool {
	s := b.plan.Specimen
	return s != nil && s.Send != nil && *s.Send
}

// Live dermis hurts from 43 C on; held at 45 C it hurts too much to go on:
// from memory. A touch of less than half a second is borne: an engineering
// choice, since tiny tags are treated without a needle.
const (
	warmC    = 43
	hurtC    = 45
	bearMS   = 500
	lookMS   = 64 // how often a burst is looked into
	nearMM   = 3  // of the tip, how far heat is looked for
	fatEvery = 4  // looks between two for fat
)

// feel looks at the slice under the tip for live dermis that hurts.
func (b *Bench) feel(s *tissue.Slice) {
	if b.numb() {
		return
	}
	hottest := float32(0)
	x0 := float64(s.NX) / 2
	for i, t := range s.TempC {
		if t <= hottest || !s.Solid[i] || s.Omega[i] >= 1 || s.Kind[i] != tissue.Papillary && s.Kind[i] != tissue.Reticular {
			continue
		}
		at := float64((float64(i%s.NX) + 0.5 - x0) * s.GridMM)
		if at > b.hand.xMM.Float()-nearMM && at < b.hand.xMM.Float()+nearMM {
			hottest = t
		}
	}
	if hottest >= hurtC {
		b.burst.hurtMS += lookMS
	}
	switch {
	case b.burst.hurtMS > bearMS:
		b.say("I can feel that.")
		b.stopFor("felt_pain")
	case hottest >= warmC:
		b.say("It is getting hot.")
	}
}

// lookForFat looks whether the last cut went through the dermis.
func (b *Bench) lookForFat() {
	thick := b.p.skinMM()
	for _, i := range b.p.fresh {
		if -float64(b.p.dryMM[i]) > thick {
			b.stopFor("fat_reached")
			return
		}
	}
}

// fatIn looks whether heat has killed the dermis through and some of what lies
// under it, from the surface down.
func (b *Bench) fatIn(s *tissue.Slice) {
	thick := b.p.skinMM()
	for x := range s.NX {
		z, dead := 0, false
		for z < s.NZ && (!s.Solid[z*s.NX+x] || s.Omega[z*s.NX+x] >= 1) {
			dead = dead || s.Solid[z*s.NX+x]
			z++
		}
		if dead && float64(float64(z)*s.GridMM)-s.TopMM > thick {
			b.stopFor("fat_reached")
			return
		}
	}
}
