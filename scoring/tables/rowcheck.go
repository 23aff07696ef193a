package tables

import (
	"strings"

	"leastwatt/cases"
)

// checkRow holds a row to what the grade promises: no verdict harder than its
// source allows, and every graded row tied to phrases of the plan.
func checkRow(sheet *cases.Sheet, at *cases.Value, r *Row) {
	if r.ifCond != nil && r.ifCond.readsPlan() {
		sheet.Errorf(at.At("if"), `"if" reads the plan; move that part to "acts", or marks would depend on the plan`)
	}
	checkSource(sheet, at, r)
	checkBench(sheet, at, r)
	if r.Knowledge {
		if r.OK != "" || r.Never != "" || r.Points > 0 {
			sheet.Errorf(at, "a knowledge row is never graded; it has no points, ok or never")
		}
		return
	}
	if len(r.For) == 0 {
		sheet.Errorf(at, `the graded row %q has no "for"; name the decisions it judges`, r.Rule)
	}
	if r.Never == "" && r.OK == "" && r.Advice == "" && r.Else == "" {
		sheet.Errorf(at, "the graded row %q asks for nothing", r.Rule)
	}
	if len(r.Phrases) == 0 {
		sheet.Errorf(at, "the graded row %q names no phrases", r.Rule)
	}
	for i, phrase := range r.Phrases {
		if !readsPhrase(r, phrase) {
			sheet.Errorf(at.At("phrases", i), "%q is no plan path that the row reads", phrase)
		}
	}
	if r.elseKind == Never {
		sheet.Errorf(at.At("else"), `"else" may be credit, caution or advice; a never event needs its own condition`)
	}
	if r.Fault == "" && r.Else != "credit" {
		sheet.Errorf(at, "the graded row %q has no fault to put in the margin", r.Rule)
	}
}

func checkSource(sheet *cases.Sheet, at *cases.Value, r *Row) {
	want := map[string]string{"common_practice": "common_practice", "memory": "memory", "model": "model"}[r.SourceKind]
	if want != "" && r.Certainty != want {
		sheet.Errorf(at.At("certainty"), "a row whose source_kind is %q has the certainty %q, not %q", r.SourceKind, want, r.Certainty)
	}
	if want == "" && (r.Certainty == "common_practice" || r.Certainty == "memory" || r.Certainty == "model") {
		sheet.Errorf(at.At("certainty"), "a published row has the certainty agreed, sources_differ or one_source, not %q", r.Certainty)
	}
	if r.SourceKind == "common_practice" && r.Source != "common practice, no source" {
		sheet.Errorf(at.At("source"), `write the source as "common practice, no source"`)
	}
	if r.SourceKind == "memory" && !strings.HasPrefix(r.Source, "from memory") {
		sheet.Errorf(at.At("source"), `a source from memory begins with "from memory"`)
	}
	if r.Never != "" && r.Certainty != "agreed" {
		sheet.Errorf(at.At("never"), "a never event needs sources that agree; the certainty is %q", r.Certainty)
	}
	if r.SourceKind == "memory" && !r.Knowledge && r.elseKind > Advice {
		sheet.Errorf(at, `a row from memory gives advice at most; set "else" to advice`)
	}
}

// readsPhrase tells whether the row reads a fact that is marked at phrase. A
// bench row reads none: its finding stands at the phrase that was carried out.
func readsPhrase(r *Row, phrase string) bool {
	for i := firstPlanFact; i < firstOutcomeFact; i++ {
		if defs[i].phrase == phrase && (r.Bench() || r.ReadsPlanFact(i)) {
			return true
		}
	}
	return false
}

// checkSlots finds rows of one slot that disagree about its worth.
func (s *Set) checkSlots() cases.Faults {
	first := map[string]*Row{}
	var faults cases.Faults
	for _, r := range s.Rows {
		if r.Slot == "" {
			continue
		}
		f := first[r.Slot]
		if f == nil {
			first[r.Slot] = r
			continue
		}
		if f.Points != r.Points || strings.Join(f.For, " ") != strings.Join(r.For, " ") {
			faults = append(faults, cases.Fault{
				File: "scoring/tables/rules", Line: 1, Column: 1,
				Message: "the rows " + f.Rule + " and " + r.Rule + " share the slot " + r.Slot + " but differ in points or decisions",
			})
		}
	}
	return faults
}
