package sheet

import (
	"fmt"
	"strings"
)

// Text is the sheet as plain text, for a terminal.
func (s *Sheet) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n\n", s.Title, s.Outcome)
	for _, f := range s.Facts {
		fmt.Fprintf(&b, "%-9s%s\n", f.Label, f.Text)
	}
	b.WriteString("\n")
	for _, d := range s.Domains {
		fmt.Fprintf(&b, "%-14s%-11s%-7s%-16sstandard %-7s%s\n", d.Domain, d.Right, d.Share, d.Interval, d.Standard, d.Says)
	}
	b.WriteString("\n")
	for _, n := range s.Notes {
		b.WriteString(n + "\n")
	}
	for i, c := range s.Cases {
		fmt.Fprintf(&b, "\nCase %d, %s: %s\n", i+1, c.Code, c.Verdict)
		for _, x := range c.Cautions {
			fmt.Fprintf(&b, "  %s: %s %s (%s)\n", capital(x.Kind), x.Heading, x.Why, x.Source)
		}
	}
	fmt.Fprintf(&b, "\nTrainee: ____________________   Supervisor: ____________________   Date: __________\n\n%s\n", s.Statement)
	return b.String()
}
