package plain

import (
	"fmt"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/game/screen"
)

// printRecord prints what was really done on the bench.
func (p *player) printRecord() {
	p.heading("Done on the bench:")
	for _, l := range screen.RecordOf(p.s.Treatment.Record, p.words()) {
		p.indent("- ", l)
	}
}

// printTreatment prints what was done on the bench and what it did; nothing
// without a treatment.
func (p *player) printTreatment() {
	t := p.s.Treatment
	if t == nil {
		return
	}
	p.printRecord()
	p.heading("What it did:")
	for _, l := range screen.OutcomeLines(t, p.words()) {
		p.indent("- ", l)
	}
	p.say(`"powers" works out what the same hand would have done at other powers.`)
	p.line("")
}

// powers prints what the same hand would have done at other powers.
func (p *player) powers() {
	t := p.s.Treatment
	if t == nil {
		p.say("Nothing was done on the bench.")
		return
	}
	if t.Outcome.Bursts == 0 {
		p.say("No current was used, so power changes nothing.")
		return
	}
	p.heading("Same hand, other powers. An estimate on a coarse grid; no grade reads it.")
	curve := t.Curve()
	if err := untilDone(curve.Step); err != nil {
		p.sayf("The curve could not be worked out: %v.", err)
		return
	}
	for _, l := range curveTable(curve, firstDialW(t)) {
		p.line(l)
	}
	if least := curve.LeastEffectiveW(); least > 0 {
		p.sayf("With the same hand %s W is the least of these that removes it.", least)
	} else {
		p.say("With the same hand none of these removes it.")
	}
}

// firstDialW is the dial of the first burst that was not undone.
func firstDialW(t *screen.Treatment) cases.Milli {
	for _, a := range t.Record {
		if a.Step == "treated" {
			return a.PowerW[0]
		}
	}
	return 0
}

// curveTable is one line a power. The nearest to the trainee's own is told.
func curveTable(c *bench.Curve, own cases.Milli) []string {
	lines := []string{"  dial   lesion gone   into the dermis"}
	near := 0
	for i, p := range c.Points {
		if max(p.PowerW-own, own-p.PowerW) < max(c.Points[near].PowerW-own, own-c.Points[near].PowerW) {
			near = i
		}
	}
	for i, p := range c.Points {
		l := fmt.Sprintf("%s W   %s %%   %s mm, %s %%", pad(p.PowerW.String(), 4), pad(percent(p.LesionDestroyedFraction), 9), pad(p.DermisDepthMM.Fixed(2), 6), percent(p.DermisFraction))
		if i == near && own > 0 {
			l += "   nearest to yours, " + own.String() + " W"
		}
		lines = append(lines, l)
	}
	return lines
}

func percent(m cases.Milli) string { return fmt.Sprintf("%.0f", m.Float()*100) }
