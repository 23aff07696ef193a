package verb

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring"
)

func unknownCase(file string, data []byte, err error) cases.Faults {
	tree, _ := cases.ReadJSON(file, data)
	at := tree.At("case")
	return cases.Faults{{File: file, Line: at.Line, Column: at.Column, Message: err.Error()}}
}

// TrainingLine opens every text that may be copied or printed.
const TrainingLine = "TRAINING - not a patient record, not a prescription"

// counts says in words how many findings there are of each kind.
func counts(g *scoring.Grade) string {
	nevers, cautions, advices, credits := g.Counts()
	var parts []string
	for _, k := range []struct {
		n        int
		one, all string
	}{
		{nevers, "never event", "never events"},
		{cautions, "caution", "cautions"},
		{advices, "piece of advice", "pieces of advice"},
		{credits, "right choice", "right choices"},
	} {
		switch {
		case k.n == 1:
			parts = append(parts, "1 "+k.one)
		case k.n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", k.n, k.all))
		}
	}
	if len(parts) == 0 {
		return "no findings"
	}
	return strings.Join(parts, ", ")
}

// GradeText is a grade as plain text.
func GradeText(g *scoring.Grade) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n", TrainingLine)
	verdict := strings.ToUpper(g.Verdict[:1]) + g.Verdict[1:]
	fmt.Fprintf(&b, "%s: %s: %s", g.Case, verdict, counts(g))
	if g.Verdict != scoring.Unsafe {
		fmt.Fprintf(&b, ", %d of %d points", g.Points, g.Of)
	}
	b.WriteString("\n")
	for i, f := range g.Findings {
		if f.Kind == "credit" {
			continue
		}
		fmt.Fprintf(&b, "\n%d %s: %s.\n", i+1, strings.ToUpper(f.Kind[:1])+f.Kind[1:], f.Heading)
		said := "You chose"
		if f.Domain == "bench" {
			said = "The bench shows"
		}
		fmt.Fprintf(&b, "  %s: %s\n  Right: %s\n  Why: %s\n  Source: %s (%s)\n", said, f.Choice, f.Expected, f.Why, f.Source, strings.ReplaceAll(f.Certainty, "_", " "))
	}
	if len(g.Ignored) > 0 {
		fmt.Fprintf(&b, "Not used by this decision: %s\n", strings.Join(g.Ignored, ", "))
	}
	b.WriteString("\nThis trains and does not certify. Your supervisor, local codes, the unit's own manual and your licence decide.\n")
	return b.String()
}
