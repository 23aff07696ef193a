package tables

import (
	"errors"
	"fmt"
	"slices"
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

// doseFacts is what the dose package said of a list of injections. It is kept
// with the facts, since most plans that are judged one after the other for a
// case differ in something else.
type doseFacts struct {
	list                  [maxInjections]dose.Injected
	n                     int
	labels                string
	refused               bool
	row                   int // of the dose table; -1 for none
	share, lenient, adrUG int64
}

// fillDose reckons the planned injections against the label set. Facts stay
// absent while a phrase that the sum needs is open.
func (f *Facts) fillDose(c *cases.Case, a *cases.Anaesthetic, labels string) {
	var room [maxInjections]dose.Injected
	list, complete := injections(a, room[:0])
	if len(list) == 0 || !complete {
		return
	}
	d := &f.dose
	if d.n != len(list) || d.labels != labels || !slices.Equal(d.list[:d.n], list) {
		*d = reckon(&c.Patient, list, labels)
	}
	f.setTruth(planDoseRefused, d.refused)
	if d.row >= 0 {
		f.value[planDoseRow], f.has[planDoseRow] = int64(d.row), true
	}
	if d.refused {
		return
	}
	f.setNumber(planDoseShare, cases.Milli(d.share))
	f.setNumber(planDoseShareLenient, cases.Milli(d.lenient))
	f.setNumber(planDoseAdrenalineUG, cases.Milli(d.adrUG*1000))
}

func reckon(p *cases.Patient, list []dose.Injected, labels string) doseFacts {
	d := doseFacts{n: len(list), labels: labels, row: -1}
	copy(d.list[:], list)
	patient := dosePatient(p)
	share, err := dose.Fraction(patient, list, dose.Labels(labels))
	if err != nil {
		d.refused = true
		var refusal *dose.Refusal
		if errors.As(err, &refusal) && refusal.Row != nil {
			d.row = doseRowIndex(refusal.Row.Rule)
		}
		return d
	}
	if share.Binding != nil {
		d.row = doseRowIndex(share.Binding.Rule)
	}
	d.share, d.lenient, d.adrUG = share.Permille, share.Permille, share.AdrenalineMicroG
	for _, l := range []dose.Labels{dose.US, dose.UK} {
		if other, err := dose.Fraction(patient, list, l); err == nil {
			d.lenient = min(d.lenient, other.Permille)
		}
	}
	return d
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
