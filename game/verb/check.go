package verb

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// Check reports on a pack: faults and warnings with their places, and for
// each case what the solver found.
func Check(s *Shell, path string) int {
	l, err := cases.LoadPack(path)
	if err != nil {
		return s.usage(err)
	}
	r := solve.Check(l, tables.Builtin, s.Labels)
	for _, f := range r.Errors {
		fmt.Fprintln(s.Err, f.Error())
	}
	for _, f := range r.Warnings {
		fmt.Fprintf(s.Err, "%s:%d:%d: warning: %s\n", f.File, f.Line, f.Column, f.Message)
	}
	code := Done
	if !r.OK() {
		code = Invalid
	}
	if s.JSON {
		if c := s.printJSON(r); c != Done {
			return c
		}
		return code
	}
	if c := s.print(checkText(r)); c != Done {
		return c
	}
	return code
}

func checkText(r *solve.Report) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s, %s, %s\n", r.Pack, counted(len(r.Cases), "case"), counted(len(r.Errors), "error"), counted(len(r.Warnings), "warning"))
	for _, c := range r.Cases {
		if c.Solved {
			fmt.Fprintf(&b, "%s: solved\n  plan with full marks: %s\n", c.Case, c.Plan)
		} else {
			fmt.Fprintf(&b, "%s: no plan with full marks; in conflict: %s\n", c.Case, strings.Join(c.Conflict, ", "))
		}
		for _, best := range c.Best {
			way := strings.TrimSpace(best.Disposition + " " + best.Technique)
			fmt.Fprintf(&b, "  %s: at best %d of %d points\n", way, best.Points, best.Of)
		}
	}
	return b.String()
}
