package verb

import (
	"fmt"

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
	fmt.Fprintf(s.Out, "%s: %d cases, %d errors, %d warnings\n", r.Pack, len(r.Cases), len(r.Errors), len(r.Warnings))
	for _, c := range r.Cases {
		if !c.Solved {
			fmt.Fprintf(s.Out, "%s: no plan with full marks; in conflict: %v\n", c.Case, c.Conflict)
			continue
		}
		fmt.Fprintf(s.Out, "%s: solved\n", c.Case)
		for _, b := range c.Best {
			if b.Points == b.Of {
				fmt.Fprintf(s.Out, "  %s %s: full marks, %d\n", b.Disposition, b.Technique, b.Of)
			}
		}
	}
	return code
}
