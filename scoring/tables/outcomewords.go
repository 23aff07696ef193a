package tables

import (
	"strings"

	"leastwatt/cases"
)

// Bench tells whether the row reads what was done on the bench.
func (r *Row) Bench() bool { return r.Domain == BenchDomain }

// Found says what the bench showed for the row: its figure, or the hazards
// and faults of order that it looks for, as far as they were met.
func (r *Row) Found(f *Facts, words cases.Words) string {
	if r.Measures != "" {
		i := factByName[r.Measures]
		return figures[i].label + ": " + f.figureText(i)
	}
	var met []string
	for _, i := range []Fact{outcomeHazard, outcomeOrderFault} {
		var looked int64
		for _, mask := range r.WordMasks(defs[i].name) {
			looked |= mask
		}
		for row, w := range cases.Vocab.List(defs[i].table) {
			if looked&f.value[i]>>row&1 != 0 {
				met = append(met, w.Label(words))
			}
		}
	}
	if len(met) == 0 {
		return "did not happen"
	}
	return strings.Join(met, "; ")
}

// Told is the row's sentence about what the bench showed, with the figure and
// the limit in it. Where a supervisor put a value in the place of the row's,
// the limit is the supervisor's; a value that holds more than one leaves the
// limit to be read beside it.
func (r *Row) Told(f *Facts, local *Condition) string {
	text := r.Tells
	if r.Measures != "" {
		text = strings.ReplaceAll(text, "{figure}", f.figureText(factByName[r.Measures]))
	}
	if !strings.Contains(text, "{limit}") {
		return text
	}
	value := r.ok
	if local != nil {
		value = local
	}
	limits := value.limits(r.Measures)
	if len(limits) != 1 {
		text, _, _ = strings.Cut(text, ";")
		return text + "."
	}
	return strings.ReplaceAll(text, "{limit}", figures[factByName[r.Measures]].write(cases.Milli(limits[0])))
}

// Limit is the one number that a bench row holds its figure against.
func (r *Row) Limit() (limit cases.Milli, ok bool) {
	if r.ok == nil {
		return 0, false
	}
	if limits := r.ok.limits(r.Measures); len(limits) == 1 {
		return cases.Milli(limits[0]), true
	}
	return 0, false
}

// limits are the numbers that a condition holds a figure, or an end of its
// range, against.
func (c *Condition) limits(measure string) []int64 {
	var out []int64
	for _, n := range c.nums {
		if name := defs[n.fact].name; name == measure || strings.HasPrefix(name, measure+".") {
			out = append(out, n.value)
		}
	}
	return out
}

// checkBench holds a bench row to the outcome and every other row to the plan.
func checkBench(sheet *cases.Sheet, at *cases.Value, r *Row) {
	if !r.Bench() {
		if r.Measures != "" || r.Tells != "" {
			sheet.Errorf(at, `"measures" and "tells" belong to rows of the domain %q`, BenchDomain)
		}
		if readsAmong(r, firstOutcomeFact, Fact(len(defs))) {
			sheet.Errorf(at, "the row %q reads the outcome; only rows of the domain %q may", r.Rule, BenchDomain)
		}
		return
	}
	if readsAmong(r, firstPlanFact, firstOutcomeFact) {
		sheet.Errorf(at, "the bench row %q reads the plan; it may read only the case and the outcome", r.Rule)
	}
	if r.Measures != "" {
		if i, ok := factByName[r.Measures]; !ok || figures[i].label == "" {
			sheet.Errorf(at.At("measures"), "%q is no figure of the bench", r.Measures)
			return
		}
	}
	if r.Measures == "" && strings.Contains(r.Tells, "{") {
		sheet.Errorf(at.At("tells"), `"tells" holds a figure, so the row needs "measures"`)
	}
	if strings.Contains(r.Tells, "{limit}") && (r.ok == nil || len(r.ok.limits(r.Measures)) != 1) {
		sheet.Errorf(at.At("tells"), `"{limit}" needs an "ok" that holds %s against one number`, r.Measures)
	}
}

func readsAmong(r *Row, from, to Fact) bool {
	for i := from; i < to; i++ {
		if r.ReadsPlanFact(i) {
			return true
		}
	}
	return false
}
