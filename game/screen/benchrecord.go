package screen

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/bench"
)

// RecordOf writes what was really done on the bench as sentences in the past
// tense; what the plan held and was skipped reads "not done".
func RecordOf(acts []bench.Act, words cases.Words) []string {
	var lines []string
	for _, a := range acts {
		lines = append(lines, cases.Spell(recordLine(a), words))
	}
	if len(lines) == 0 {
		lines = append(lines, "Nothing was done on the bench.")
	}
	return lines
}

func recordLine(a bench.Act) string {
	name := capital(cases.Vocab.Label("bench_step", a.Step, cases.UK))
	switch {
	case a.Step == "rounds":
		return fmt.Sprintf("%s: %d not done.", name, a.Count)
	case a.Skipped:
		return name + ": not done."
	}
	var parts []string
	switch a.Step {
	case "treated", "undone":
		parts = append(parts, burstText(a))
	case "injected":
		parts = append(parts, quantity(a.VolumeML, "mL"))
	case "waited":
		parts = append(parts, quantity(a.TotalS, "s"))
	case "curetted", "wiped", "pressed":
		parts = append(parts, digits(a.Count, "time"))
	}
	if len(parts) == 0 {
		return name + "."
	}
	return name + ": " + strings.Join(parts, ", ") + "."
}

// burstText tells of bursts that followed each other.
func burstText(a bench.Act) string {
	watts := quantity(a.PowerW[0], "W")
	if a.PowerW[1] != a.PowerW[0] {
		watts = a.PowerW[0].Fixed(1) + " to " + quantity(a.PowerW[1], "W")
	}
	text := fmt.Sprintf("%s at %s, the longest %s, %s in all", digits(a.Count, "burst"), watts, quantity(a.LongestS, "s"), quantity(a.TotalS, "s"))
	if a.Contact != "" {
		text += ", " + cases.Vocab.Label("contact", a.Contact, cases.UK)
	}
	if a.Cycle > 0 && a.Step == "treated" {
		text = fmt.Sprintf("round %d, ", a.Cycle) + text
	}
	return text
}

// OutcomeLines tells what the bench did to the tissue, each figure with the
// range over the model's uncertain constants.
func OutcomeLines(t *Treatment, words cases.Words) []string {
	o := &t.Outcome
	share := func(m cases.Milli) string { return fmt.Sprintf("%.0f", m.Float()*100) }
	rangeOf := func(pair func() [2]cases.Milli, as func(cases.Milli) string) string {
		if o.Range == nil {
			return ""
		}
		p := pair()
		return fmt.Sprintf(" (model: %s to %s)", as(p[0]), as(p[1]))
	}
	lines := []string{
		"Lesion destroyed or taken: " + share(o.LesionDestroyedFraction) + thinSpace + "%" +
			rangeOf(func() [2]cases.Milli { return o.Range.LesionDestroyedFraction }, share) + ".",
		"Depth: " + share(o.DermisFraction) + thinSpace + "% of the dermis here" +
			rangeOf(func() [2]cases.Milli { return o.Range.DermisFraction }, share) + ", " + quantity(o.DermisDepthMM, "mm") + ".",
		"Rim beyond the edge: " + quantity(o.RimMM, "mm") + rangeOf(func() [2]cases.Milli { return o.Range.RimMM }, cases.Milli.String) + ".",
	}
	if o.FloorDepthMM > 0 || o.BaseCoveredFraction > 0 {
		lines = append(lines, "Base under the cut: "+share(o.BaseCoveredFraction)+thinSpace+"% covered, "+quantity(o.FloorDepthMM, "mm")+" deep.")
	}
	if o.SpecimenEdgeMM > 0 {
		lines = append(lines, "Burnt edge of the specimen: "+quantity(o.SpecimenEdgeMM, "mm")+".")
	}
	lines = append(lines, fmt.Sprintf("%s, the longest %s, %s in all.", capital(digits(o.Bursts, "burst")), quantity(o.LongestBurstS, "s"), quantity(o.EnergyJ, "J")))
	for i := range lines {
		lines[i] = cases.Spell(lines[i], words)
	}
	return lines
}
