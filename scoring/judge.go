package scoring

import (
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// Dispositions are the decisions a plan may take, in the order of the note.
var Dispositions = []string{"treat", "biopsy_first", "refer", "leave"}

// domains are the parts of a grade, in order.
var domains = cases.Vocab.IDs("domain")

// Judge judges plans for one case by one set of tables and labels. It is not
// safe for concurrent use: it keeps its facts between calls.
type Judge struct {
	Case       *cases.Case
	Labels     string // cautious, us or uk
	Set        *tables.Set
	overrides  map[string]*override
	facts      tables.Facts
	rows       []*tables.Row // those of a plan that concern the case, in table order
	benchRows  []*tables.Row // those of the bench
	acceptable map[string]bool
	sums              // what a plan alone is out of
	treated    sums   // what a plan that was carried out on the bench is out of
	digest     string // of the case
}

// sums is what each decision is out of.
type sums struct {
	of       map[string]int   // by disposition
	ofDomain map[string][]int // by disposition, then in the order of the domains
}

// NewJudge prepares to judge plans for a case. The local rules are those of
// the case's pack; an error names the first that cannot be used.
func NewJudge(set *tables.Set, c *cases.Case, local []cases.LocalRule, labels string) (*Judge, error) {
	if labels == "" {
		labels = "cautious"
	}
	j := &Judge{Case: c, Labels: labels, Set: set, acceptable: map[string]bool{}}
	var err error
	if j.overrides, err = readOverrides(set, c, local); err != nil {
		return nil, err
	}
	j.facts.FillCase(c)
	for _, r := range set.Rows {
		switch {
		case !r.Applies(&j.facts):
		case r.Bench():
			j.benchRows = append(j.benchRows, r)
		default:
			j.rows = append(j.rows, r)
		}
	}
	for _, d := range Dispositions {
		j.acceptable[d] = j.accepts(d)
	}
	j.sums = sumUp(j.rows)
	j.treated = sumUp(slices.Concat(j.rows, j.benchRows))
	return j, nil
}

// accepts tells whether a decision, looked at by itself, breaks no row.
func (j *Judge) accepts(disposition string) bool {
	j.facts.FillPlan(j.Case, &cases.Plan{Disposition: disposition}, j.Labels)
	for _, r := range j.rows {
		if r.ForDecision(disposition) && r.JudgesDecisionOnly() && r.ActedOn(&j.facts) && j.judge(r) >= tables.Caution {
			return false
		}
	}
	return true
}

func sumUp(rows []*tables.Row) sums {
	s := sums{of: map[string]int{}, ofDomain: map[string][]int{}}
	for _, d := range Dispositions {
		s.of[d] = outOf(rows, d, "")
		for _, domain := range domains {
			s.ofDomain[d] = append(s.ofDomain[d], outOf(rows, d, domain))
		}
	}
	return s
}

// outOf sums the points of the rows for a decision, one slot counted once; a
// domain narrows it.
func outOf(rows []*tables.Row, disposition, domain string) int {
	sum := 0
	slots := map[string]bool{}
	for _, r := range rows {
		if !r.ForDecision(disposition) || domain != "" && r.Domain != domain || r.Slot != "" && slots[r.Slot] {
			continue
		}
		if r.Slot != "" {
			slots[r.Slot] = true
		}
		sum += r.Points
	}
	return sum
}

// Acceptable tells whether the decision is acceptable for the case.
func (j *Judge) Acceptable(disposition string) bool { return j.acceptable[disposition] }

// Rows lists the rows of a plan that concern the case, in table order.
func (j *Judge) Rows() []*tables.Row { return j.rows }

// BenchRows lists the rows of the bench that concern the case, in table order.
func (j *Judge) BenchRows() []*tables.Row { return j.benchRows }

// target is the decision whose rows a plan is measured by.
func (j *Judge) target(disposition string) string { return j.targetOf(disposition, j.of) }

// targetOf is [Judge.target] by the sums given.
func (j *Judge) targetOf(disposition string, of map[string]int) string {
	if j.acceptable[disposition] {
		return disposition
	}
	best := ""
	for _, d := range Dispositions {
		if j.acceptable[d] && (best == "" || of[d] > of[best]) {
			best = d
		}
	}
	if best == "" { // the rules contradict each other; check reports it
		return disposition
	}
	return best
}

// Mark is the judgement of one row on a plan, without its words.
type Mark struct {
	Row        *tables.Row
	Kind       tables.Kind
	Points, Of int
	Local      bool
}

// Score is a judged plan without its words.
type Score struct {
	Marks      []Mark // in table order
	Points, Of int
	Nevers     int
	Cautions   int
	Advices    int
	Target     string // the decision that Of is summed for
}

// Full tells whether the plan has full marks.
func (s *Score) Full() bool { return s.Points == s.Of && s.Cautions == 0 && s.Nevers == 0 }

// Score judges a plan. Marks are appended to into, which may be reused.
func (j *Judge) Score(p *cases.Plan, into []Mark) Score { return j.score(p, nil, into) }

// score judges a plan and, unless o is nil, what was done on the bench.
func (j *Judge) score(p *cases.Plan, o *Outcome, into []Mark) Score {
	j.facts.FillPlan(j.Case, p, j.Labels)
	s := Score{Marks: into[:0]}
	if o == nil {
		s.Target = j.target(p.Disposition)
		s.Of = j.of[s.Target]
		j.mark(&s, j.rows, p.Disposition)
		return s
	}
	s.Target = j.targetOf(p.Disposition, j.treated.of)
	s.Of = j.treated.of[s.Target]
	j.mark(&s, j.rows, p.Disposition)
	j.facts.FillOutcome(o.measured(p))
	j.mark(&s, j.benchRows, p.Disposition)
	slices.SortStableFunc(s.Marks, func(a, b Mark) int { return a.Row.Index - b.Row.Index })
	return s
}

// mark judges rows by the facts as they stand and adds what they find.
func (j *Judge) mark(s *Score, rows []*tables.Row, d string) {
	wrong := s.Target != d
	bit, targetBit := tables.DecisionBit(d), tables.DecisionBit(s.Target)
	var slots slotSet
	for _, r := range rows {
		if !r.Judges(bit) || r.Slot != "" && slots.has(r.Slot) {
			continue
		}
		acted := r.ActedOn(&j.facts)
		if !acted && (r.Points == 0 || r.Slot != "") {
			continue
		}
		if r.Slot != "" {
			slots.add(r.Slot)
		}
		m := Mark{Row: r, Kind: tables.Credit}
		if acted {
			m.Kind = j.judge(r)
			m.Local = j.isLocal(r, m.Kind)
		}
		if weigh(&m, wrong, targetBit) {
			s.count(m)
		}
	}
}

// weigh gives a mark its points and tells whether it is a finding at all. A
// plan with the wrong decision earns only what the right one would count, and
// hears only what its own acts break.
func weigh(m *Mark, wrong bool, target tables.Decisions) bool {
	counts := !wrong || m.Row.Judges(target)
	switch {
	case !counts && m.Kind == tables.Credit, !counts && !brokenByActs(m.Row.Domain):
		return false
	case !counts:
		return true
	case m.Kind == tables.Credit:
		m.Points, m.Of = m.Row.Points, m.Row.Points
	case m.Kind >= tables.Caution:
		m.Of = m.Row.Points
	}
	return true
}

// brokenByActs are the domains in which a plan's own acts, and what was done on
// the bench, are told even when the decision is wrong: the decision itself
// among them.
func brokenByActs(domain string) bool {
	switch domain {
	case "decision", "room", "patient", "anaesthesia", "site", "technique", "tissue", tables.BenchDomain:
		return true
	}
	return false
}

func (s *Score) count(m Mark) {
	s.Marks = append(s.Marks, m)
	s.Points += m.Points
	switch m.Kind {
	case tables.Never:
		s.Nevers++
	case tables.Caution:
		s.Cautions++
	case tables.Advice:
		s.Advices++
	}
}

// slotSet holds the few slots met so far without allocating.
type slotSet struct {
	names [16]string
	n     int
}

func (s *slotSet) has(name string) bool {
	for _, n := range s.names[:s.n] {
		if n == name {
			return true
		}
	}
	return false
}

func (s *slotSet) add(name string) {
	if s.n < len(s.names) {
		s.names[s.n] = name
		s.n++
	}
}

// RowKind judges one row alone on a plan; a row that the plan does not act on
// is credit.
func (j *Judge) RowKind(r *tables.Row, p *cases.Plan) tables.Kind {
	j.facts.FillPlan(j.Case, p, j.Labels)
	if !r.ForDecision(p.Disposition) || !r.ActedOn(&j.facts) {
		return tables.Credit
	}
	return j.judge(r)
}
