package solve

import (
	"runtime"
	"sync"

	gojson "github.com/goccy/go-json"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// Report is what a check says of a pack.
type Report struct {
	Pack     string        `json:"pack"`
	Errors   []cases.Fault `json:"errors"`
	Warnings []cases.Fault `json:"warnings"`
	Cases    []CaseReport  `json:"cases"`
}

// CaseReport is what the solver found for one case.
type CaseReport struct {
	Case     string            `json:"case"`
	Solved   bool              `json:"solved"`
	Plan     gojson.RawMessage `json:"plan,omitempty"`
	Best     []Best            `json:"best"`
	Conflict []string          `json:"conflict"`
}

// OK tells whether the pack has no error and every case has a plan with full
// marks.
func (r *Report) OK() bool {
	for _, c := range r.Cases {
		if !c.Solved {
			return false
		}
	}
	return len(r.Errors) == 0
}

// Check reports on a loaded pack: what is wrong with it, and for each case a
// plan with full marks or the rules that conflict. An empty label set means
// the pack's own, else cautious.
func Check(l *cases.Loaded, set *tables.Set, labels string) *Report {
	r := &Report{Pack: l.Path, Errors: []cases.Fault{}, Warnings: []cases.Fault{}, Cases: []CaseReport{}}
	r.Errors = append(r.Errors, l.Faults...)
	r.Warnings = append(r.Warnings, l.Warnings...)
	if l.Pack == nil {
		return r
	}
	r.Pack = l.Pack.ID
	sheet := &cases.Sheet{File: l.File}
	checkOverrides(sheet, l, set)
	if len(sheet.Faults) > 0 {
		sheet.Faults.Sort()
		r.Errors = append(r.Errors, sheet.Faults...)
		return r
	}
	if labels == "" {
		labels = l.Pack.Labels
	}
	r.Cases = solveAll(l.Pack, set, labels)
	checkClues(sheet, l, set, labels)
	checkSolved(sheet, l, r.Cases)
	sheet.Warnings.Sort()
	r.Warnings = append(r.Warnings, sheet.Warnings...)
	return r
}

func checkOverrides(sheet *cases.Sheet, l *cases.Loaded, set *tables.Set) {
	for i, r := range l.Pack.LocalRules {
		if err := scoring.CheckOverride(set, r.Rule, r.Value, ""); err != nil {
			sheet.Errorf(l.Tree.At("local_rules", i, "rule"), "%q: %v", "local_rules", err)
		}
	}
	for i := range l.Pack.Cases {
		for k, e := range l.Pack.Cases[i].Expect {
			if err := scoring.CheckOverride(set, e.Rule, e.Value, e.Kind); err != nil {
				sheet.Errorf(l.Tree.At("cases", i, "expect", k, "rule"), "%q: %v", "expect", err)
			}
		}
	}
}

// solveAll solves every case, on every processor; each result has its own
// place, so the report does not depend on who was faster.
func solveAll(p *cases.Pack, set *tables.Set, labels string) []CaseReport {
	out := make([]CaseReport, len(p.Cases))
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				out[i] = solveCase(p, &p.Cases[i], set, labels)
			}
		})
	}
	for i := range p.Cases {
		next <- i
	}
	close(next)
	wg.Wait()
	return out
}

func solveCase(p *cases.Pack, c *cases.Case, set *tables.Set, labels string) CaseReport {
	ref := p.ID + "/" + c.ID
	r := CaseReport{Case: ref, Best: []Best{}, Conflict: []string{}}
	j, err := scoring.NewJudge(set, c, p.LocalRules, labels)
	if err != nil { // checkOverrides has refused such a pack
		return r
	}
	s := Solve(j, ref, p.LocalRules...)
	r.Solved, r.Plan, r.Best = s.Solved, cases.Canonical(s.Plan), s.Best
	if !s.Solved {
		r.Plan = nil
		r.Conflict = append(r.Conflict, s.Conflict...)
	}
	return r
}

// checkClues warns where the truth asks for another decision than anything a
// trainee can find out: nobody could know it.
func checkClues(sheet *cases.Sheet, l *cases.Loaded, set *tables.Set, labels string) {
	for i := range l.Pack.Cases {
		c := l.Pack.Cases[i]
		if c.Lesion.LooksLike == "" || c.Lesion.Report != nil {
			continue
		}
		seen, err := scoring.NewJudge(set, &c, l.Pack.LocalRules, labels)
		if err != nil {
			continue
		}
		c.Lesion.LooksLike = ""
		if c.Lesion.Family == "melanoma" {
			c.Lesion.LooksLike = "pigmented_suspicious"
		}
		truly, err := scoring.NewJudge(set, &c, l.Pack.LocalRules, labels)
		if err != nil {
			continue
		}
		for _, d := range scoring.Dispositions {
			if seen.Acceptable(d) && !truly.Acceptable(d) {
				sheet.Warnf(l.Tree.At("cases", i, "lesion", "looks_like"),
					"the case %q: by what can be found out, %q is acceptable; by what is truly there it is not; add a clue", c.ID, d)
			}
		}
	}
}

// checkSolved names, at the case, the rules that keep it from full marks.
func checkSolved(sheet *cases.Sheet, l *cases.Loaded, reports []CaseReport) {
	for i, r := range reports {
		if !r.Solved {
			sheet.Warnf(l.Tree.At("cases", i, "id"), "the case %q has no plan with full marks; these rules stand in the way: %v", r.Case, r.Conflict)
		}
	}
}
