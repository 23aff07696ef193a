package tables

import (
	"errors"
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/dose"
)

// doseRows is the vocabulary of dose.row: the rules of scoring/dose, of which
// one sets the limit of a planned dose.
const doseRows = "dose_row"

var doseIndex = func() map[string]int {
	index := map[string]int{}
	for i, r := range dose.Rows() {
		index[r.Rule] = i
	}
	return index
}()

func doseRowIndex(rule string) int {
	if i, ok := doseIndex[rule]; ok {
		return i
	}
	return -1
}

func doseRuleIDs() []string {
	var ids []string
	for _, r := range dose.Rows() {
		ids = append(ids, r.Rule)
	}
	return ids
}

// doubled is where a dose is beyond every source: twice the most that any
// label set here allows. The widest figures in print for a healthy adult or
// child are about half as much again as these labels.
const doubled = "dose.share_lenient > 2"

// addDoseRows makes each row of the dose table a rule: limits of injected
// agents are graded in the slot "dose", the rest is taught.
func (s *Set) addDoseRows() {
	for _, d := range dose.Rows() {
		r := &Row{
			Rule: d.Rule, Domain: "anaesthesia", Says: d.Says, Why: d.Why,
			Source: d.Source, SourceKind: d.SourceKind, Certainty: d.Certainty, Index: len(s.Rows),
		}
		if d.Section == dose.SectionInjected {
			s.gradeDose(r, d)
		} else {
			r.Knowledge = true
			r.Right = d.Value()
		}
		s.Rows = append(s.Rows, r)
		s.byID[r.Rule] = r
	}
}

func (s *Set) gradeDose(r *Row, d *dose.Row) {
	r.For, r.Points, r.Slot = []string{"treat", "biopsy_first"}, 3, "dose"
	r.Acts = "dose.row = " + d.Rule
	r.Phrases = []string{"anaesthetic.injected.volume_ml"}
	r.Fault = "more anaesthetic than the label allows"
	r.elseKind = Caution
	r.setDecisions()
	if d.Kind == dose.KindRefusal {
		r.Phrases = []string{"anaesthetic.injected.agent"}
		r.Acts += " and dose.refused"
		r.Else, r.Fault = "caution", "the label rules this agent out here"
	} else {
		r.OK, r.Never = "dose.share <= 1", doubled
	}
	r.acts, r.ok, r.never = s.must(r.Acts), s.must(r.OK), s.must(r.Never)
}

// must compiles a condition written in this file.
func (s *Set) must(text string) *Condition {
	if text == "" {
		return nil
	}
	c, err := s.Compile(text)
	if err != nil {
		panic(fmt.Sprintf("tables: %q: %v", text, err))
	}
	return c
}

// fillDose reckons the planned injections against the label set. Facts stay
// absent while a phrase that the sum needs is open.
func (f *Facts) fillDose(c *cases.Case, a *cases.Anaesthetic, labels string) {
	var room [maxInjections]dose.Injected
	list, complete := injections(a, room[:0])
	if len(list) == 0 || !complete {
		return
	}
	patient := dosePatient(&c.Patient)
	share, err := dose.Fraction(patient, list, dose.Labels(labels))
	var refusal *dose.Refusal
	switch {
	case errors.As(err, &refusal):
		f.setTruth(planDoseRefused, true)
		if refusal.Row != nil {
			f.setChoice(planDoseRow, refusal.Row.Rule)
		}
		return
	case err != nil:
		f.setTruth(planDoseRefused, true)
		return
	}
	f.setTruth(planDoseRefused, false)
	f.setNumber(planDoseShare, cases.Milli(share.Permille))
	f.setNumber(planDoseAdrenalineUG, cases.Milli(share.AdrenalineMicroG*1000))
	if share.Binding != nil {
		f.setChoice(planDoseRow, share.Binding.Rule)
	}
	lenient := share.Permille
	for _, l := range []dose.Labels{dose.US, dose.UK} {
		if other, err := dose.Fraction(patient, list, l); err == nil {
			lenient = min(lenient, other.Permille)
		}
	}
	f.setNumber(planDoseShareLenient, cases.Milli(lenient))
}

// maxInjections is how many agents a plan file may hold.
const maxInjections = 8

// injections appends a plan's list to list in the dose package's form, and
// tells whether every entry is decided.
func injections(a *cases.Anaesthetic, list []dose.Injected) (_ []dose.Injected, complete bool) {
	if a == nil || len(a.Injected) == 0 {
		return nil, false
	}
	for _, in := range a.Injected {
		if in.Agent == "" || in.Percent == nil || in.VolumeML == nil {
			return nil, false
		}
		ratio := int64(0)
		if in.Adrenaline != "" {
			ratio, _ = cases.ParseRatio(in.Adrenaline)
		}
		list = append(list, dose.Injected{
			Agent: in.Agent, PercentMilli: int64(*in.Percent), AdrenalineRatio: ratio, VolumeDeciML: int64(*in.VolumeML / 100),
		})
	}
	return list, true
}

func dosePatient(p *cases.Patient) dose.Patient {
	d := dose.Patient{WeightG: int64(p.WeightKG), AgeCentiYears: int64(p.AgeYears / 10)}
	for _, h := range p.History {
		switch h {
		case "heart_disease", "unstable_heart_disease":
			d.HeartDisease = true
		case "liver_disease":
			d.LiverDisease = true
		}
	}
	return d
}

// DoseExpected says what a planned dose may be for this patient, for a row of
// the dose table; it is empty for every other row.
func DoseExpected(r *Row, c *cases.Case, p *cases.Plan, labels string) string {
	if r.Slot != "dose" || doseRowIndex(r.Rule) < 0 {
		return ""
	}
	list, complete := injections(p.Anaesthetic, nil)
	if !complete {
		return ""
	}
	var parts []string
	for _, in := range list {
		limit, err := dose.Ceiling(dosePatient(&c.Patient), in.Agent, in.PercentMilli, in.AdrenalineRatio, dose.Labels(labels))
		if err != nil {
			parts = append(parts, err.Error())
			continue
		}
		kind := "plain"
		if in.AdrenalineRatio > 0 {
			kind = "with adrenaline"
		}
		parts = append(parts, fmt.Sprintf("At most %s\u202fmL (%s\u202fmg) of %s %s\u202f%% %s for this patient.",
			cases.Milli(limit.MaxDeciML*100).Fixed(1), cases.Milli(limit.MaxMicroG).Fixed(0), in.Agent, cases.Milli(in.PercentMilli), kind))
	}
	if len(parts) > 1 {
		parts = append(parts, "Together their shares may not pass one whole.")
	}
	return strings.Join(parts, " ")
}
