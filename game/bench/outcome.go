package bench

import (
	"slices"
	"strconv"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tissue"
)

// Outcome is what the treatment has done so far. Undone bursts have done
// nothing to the tissue; their hazards and faults of order stay.
func (b *Bench) Outcome() scoring.Outcome {
	o := b.p.outcome()
	o.ContactBreaks += b.told.breaks
	o.Hazards = slices.Clone(b.told.hazards)
	o.OrderFaults = slices.Clone(b.told.faults)
	if b.cyclesMissed() {
		note(&o.OrderFaults, "cycle_missed")
	}
	return o
}

// Session is the file of the treatment so far.
func (b *Bench) Session() *cases.Session {
	end := b.clockMS
	s := &cases.Session{
		Format: cases.SessionFormat, Case: b.ref, Plan: b.plan, ModelVersion: modelVersion(),
		GridMM: milli(b.o.GridMM), Seed: b.o.Seed, EndMS: &end, Events: slices.Clone(b.events),
	}
	if b.o.Assessed {
		s.Assessed = &b.o.Assessed
	}
	plan := *b.plan
	plan.Format, plan.Case = cases.PlanFormat, b.ref
	s.Plan = &plan
	return s
}

// Restart begins anew with the same case, plan and options: what was done and
// its hazards are forgotten. In a self-assessment there is none.
func (b *Bench) Restart() error {
	if b.o.Assessed {
		return errAssessed
	}
	fresh, err := Open(b.pack, b.c, b.plan, b.o)
	if err != nil {
		return err
	}
	*b = *fresh
	return nil
}

// modelVersion is that of the tissue model as a number.
func modelVersion() int {
	n, err := strconv.Atoi(tissue.ModelVersion)
	if err != nil {
		panic(err) // a constant of the program
	}
	return n
}

// Undo gives the tissue back as it was at the start of the last burst. It
// stays among the events, and hazards still count.
func (b *Bench) Undo() error { return b.Do(cases.SessionEvent{Act: "undo"}) }
