package tables

import (
	"slices"
	"strings"

	"leastwatt/cases"
)

// BenchDomain is the domain whose rows read the outcome of the bench, and
// nothing of the plan.
const BenchDomain = "bench"

// Spread is a figure of the model, in thousandths, with the least and the
// greatest value that it takes over the sweep of uncertain constants.
type Spread struct{ At, Low, High cases.Milli }

// Measured is what was measured on the bench, as the rows read it. Figures are
// rounded before they come here.
type Measured struct {
	Destroyed      Spread // share of the lesion, destroyed or taken away
	DermisFraction Spread // share of the site's dermis that was destroyed; 1 reaches the fat
	BaseCovered    Spread // share of the floor left by blade or curette
	RimMM          Spread // beyond the lesion's edge
	SpecimenEdgeMM Spread // burnt edge of what was sent
	DermisDepthMM  cases.Milli
	FloorDepthMM   cases.Milli
	CharredMM3     cases.Milli
	EnergyJ        cases.Milli
	LongestBurstS  cases.Milli
	Bursts         int
	ContactBreaks  int
	OrderFaults    []string
	Hazards        []string

	// What the plan set out to do, to measure the hand by: its longest touch and
	// its rim; nil where the plan leaves them open.
	PlannedBurstS *cases.Milli
	PlannedRimMM  *cases.Milli
}

// FillOutcome sets the facts of the bench and keeps those of case and plan.
func (f *Facts) FillOutcome(m *Measured) {
	for i := firstOutcomeFact; i < Fact(len(defs)); i++ {
		f.value[i], f.has[i] = 0, false
	}
	f.setSpread(outcomeDestroyed, m.Destroyed)
	f.setSpread(outcomeDermisFraction, m.DermisFraction)
	f.setSpread(outcomeBaseCovered, m.BaseCovered)
	f.setSpread(outcomeRimMM, m.RimMM)
	f.setSpread(outcomeSpecimenEdgeMM, m.SpecimenEdgeMM)
	f.setNumber(outcomeDermisDepthMM, m.DermisDepthMM)
	f.setNumber(outcomeFloorDepthMM, m.FloorDepthMM)
	f.setNumber(outcomeCharredMM3, m.CharredMM3)
	f.setNumber(outcomeEnergyJ, m.EnergyJ)
	f.setNumber(outcomeLongestBurstS, m.LongestBurstS)
	f.setNumber(outcomeBursts, cases.Milli(m.Bursts)*1000)
	f.setNumber(outcomeContactBreaks, cases.Milli(m.ContactBreaks)*1000)
	f.setWords(outcomeOrderFault, some(m.OrderFaults))
	f.setWords(outcomeHazard, some(m.Hazards))
	if p := m.PlannedBurstS; p != nil && *p > 0 {
		f.setNumber(outcomeBurstShare, (m.LongestBurstS*1000+*p/2) / *p)
	}
	if f.has[caseLesionDepthMM] {
		f.setNumber(outcomeBeyondLesionMM, max(0, m.DermisDepthMM-cases.Milli(f.value[caseLesionDepthMM])))
	}
	if m.PlannedRimMM != nil {
		f.setNumber(outcomeRimShortMM, max(0, *m.PlannedRimMM-m.RimMM.At))
	}
}

// setSpread sets a figure and, behind it, the ends of its range.
func (f *Facts) setSpread(i Fact, s Spread) {
	f.setNumber(i, s.At)
	f.setNumber(i+1, min(s.At, s.Low))
	f.setNumber(i+2, max(s.At, s.High))
}

// spreads are the figures that carry a range, in the two facts behind each.
var spreads = []Fact{outcomeDestroyed, outcomeDermisFraction, outcomeBaseCovered, outcomeRimMM, outcomeSpecimenEdgeMM}

// Narrowed is the same facts as if the model were sure of its figures.
func (f *Facts) Narrowed() *Facts {
	sure := *f
	for _, i := range spreads {
		sure.value[i+1], sure.value[i+2] = f.value[i], f.value[i]
	}
	return &sure
}

// figure is how a number of the bench is named and written.
type figure struct {
	label    string
	unit     string
	decimals int // at least so many
}

var figures = map[Fact]figure{
	outcomeDestroyed:      {"share of the lesion destroyed", "", 2},
	outcomeDermisFraction: {"share of the dermis destroyed", "", 2},
	outcomeBaseCovered:    {"share of the base treated", "", 2},
	outcomeRimMM:          {"treated rim", "mm", 0},
	outcomeSpecimenEdgeMM: {"burnt edge of the specimen", "mm", 0},
	outcomeDermisDepthMM:  {"destroyed depth of the dermis", "mm", 0},
	outcomeFloorDepthMM:   {"destroyed depth below the floor", "mm", 0},
	outcomeCharredMM3:     {"char", "mm³", 0},
	outcomeEnergyJ:        {"energy", "J", 0},
	outcomeBursts:         {"bursts", "", 0},
	outcomeLongestBurstS:  {"longest burst", "s", 0},
	outcomeBurstShare:     {"longest burst as a share of the planned time", "", 2},
	outcomeRimShortMM:     {"rim short of the plan by", "mm", 0},
	outcomeBeyondLesionMM: {"destroyed below the lesion", "mm", 0},
	outcomeContactBreaks:  {"times that contact was broken under current", "", 0},
}

// write gives a number as few decimals as it needs, and no fewer than asked.
func (n figure) write(m cases.Milli) string {
	text := m.String()
	if _, tail, _ := strings.Cut(text, "."); len(tail) < n.decimals {
		return m.Fixed(n.decimals)
	}
	return text
}

// figureText is a figure of the bench with its unit, and its range where the
// model is not sure of it.
func (f *Facts) figureText(i Fact) string {
	n := figures[i]
	text := n.write(cases.Milli(f.value[i]))
	if n.unit != "" {
		text += "\u202f" + n.unit
	}
	if slices.Contains(spreads, i) && f.value[i+1] != f.value[i+2] {
		text += " (range " + n.write(cases.Milli(f.value[i+1])) + " to " + n.write(cases.Milli(f.value[i+2])) + ")"
	}
	return text
}
