package tables

import "leastwatt/cases"

// Kind is how a row judges a plan, from best to worst.
type Kind uint8

// The kinds of finding.
const (
	Credit Kind = iota
	Advice
	Caution
	Never
)

var kindWords = [...]string{"credit", "advice", "caution", "never"}

// String is the word that files and grades use.
func (k Kind) String() string { return kindWords[k] }

// ParseKind reads the word of a kind.
func ParseKind(word string) (Kind, bool) {
	for i, w := range kindWords {
		if w == word {
			return Kind(i), true
		}
	}
	return 0, false
}

// Row is one rule. The fields up to Certainty are as the table files hold
// them; see the package comment for how a row is judged.
type Row struct {
	Rule       string   `json:"rule" jsonschema:"required" form:"id"`
	Domain     string   `json:"domain" vocab:"domain"` // absent: the file's domain
	For        []string `json:"for" vocab:"disposition"`
	Points     int      `json:"points" jsonschema:"minimum=0,maximum=10"`
	Slot       string   `json:"slot" form:"id"`
	If         string   `json:"if"`
	Acts       string   `json:"acts"`
	Never      string   `json:"never"`
	OK         string   `json:"ok"`
	Advice     string   `json:"advice"`
	Else       string   `json:"else" vocab:"kind"` // caution when absent
	Phrases    []string `json:"phrases"`
	Says       string   `json:"says" jsonschema:"required"` // the rule, one sentence
	Fault      string   `json:"fault"`                      // what is wrong, as a margin heading
	AdviceSays string   `json:"advice_says"`                // the heading when it is only advice
	Why        string   `json:"why" jsonschema:"required"`  // two or three sentences that teach
	Right      string   `json:"right"`                      // what would be right
	Measures   string   `json:"measures"`                   // bench rows: the outcome fact that is the figure
	Tells      string   `json:"tells"`                      // bench rows: one sentence with {figure} and {limit}
	Source     string   `json:"source" jsonschema:"required"`
	SourceKind string   `json:"source_kind" jsonschema:"required" vocab:"source_kind"`
	Certainty  string   `json:"certainty" jsonschema:"required" vocab:"certainty"`
	Knowledge  bool     `json:"knowledge"` // taught, never graded

	Index     int  `json:"-"` // place in table order
	elseKind  Kind // what "else" means
	decisions Decisions
	ifCond    *Condition
	acts      *Condition
	never     *Condition
	ok        *Condition
	advice    *Condition
	leastW    cases.Milli // of a row on watts: the least usual figure
}

// Applies tells whether the row concerns the case, whatever the plan.
func (r *Row) Applies(f *Facts) bool {
	return !r.Knowledge && (r.ifCond == nil || r.ifCond.Holds(f))
}

// Decisions is a set of decisions, a bit each.
type Decisions uint8

// DecisionBit is the bit of a decision; a plan without one has a bit of its
// own, which a row has when it judges every decision.
func DecisionBit(disposition string) Decisions {
	switch disposition {
	case "treat":
		return 1
	case "biopsy_first":
		return 2
	case "refer":
		return 4
	case "leave":
		return 8
	}
	return 16
}

// setDecisions makes the bits of For.
func (r *Row) setDecisions() {
	for _, d := range r.For {
		r.decisions |= DecisionBit(d)
	}
	if r.decisions == 15 {
		r.decisions |= DecisionBit("")
	}
}

// ForDecision tells whether the row judges plans of that decision. A plan
// without a decision is judged by the rows that judge every decision.
func (r *Row) ForDecision(disposition string) bool { return r.Judges(DecisionBit(disposition)) }

// Judges is [Row.ForDecision] for a bit.
func (r *Row) Judges(d Decisions) bool { return r.decisions&d != 0 }

// ActedOn tells whether the plan does what the row is about.
func (r *Row) ActedOn(f *Facts) bool { return r.acts == nil || r.acts.Holds(f) }

// Judge gives the row's kind for facts to which it applies and whose plan
// acts on it.
func (r *Row) Judge(f *Facts) Kind {
	switch {
	case r.never != nil && r.never.Holds(f):
		return Never
	case r.ok != nil && r.ok.Holds(f):
		return Credit
	case r.advice != nil && r.advice.Holds(f):
		return Advice
	}
	return r.elseKind
}

// Scope says in words of the condition language when the row applies.
func (r *Row) Scope() string {
	switch {
	case r.If == "" && r.Acts == "":
		return "always"
	case r.If == "":
		return r.Acts
	case r.Acts == "":
		return r.If
	}
	return "(" + r.If + ") and (" + r.Acts + ")"
}

// Value is what the row asks for, in the condition language; a local rule may
// put another in its place.
func (r *Row) Value() string { return r.OK }

// Heading is the margin heading for a finding of that kind.
func (r *Row) Heading(k Kind) string {
	switch {
	case k == Credit || r.Fault == "":
		return r.Says
	case k == Advice && r.AdviceSays != "":
		return r.AdviceSays
	}
	return r.Fault
}

// LeastW is the least usual figure of a row that judges watts; 0 for others.
func (r *Row) LeastW() cases.Milli { return r.leastW }

// ReadsPlanFact tells whether judging the row reads the fact, of the plan or
// of the bench.
func (r *Row) ReadsPlanFact(i Fact) bool {
	for _, c := range []*Condition{r.acts, r.never, r.ok, r.advice} {
		if c != nil && c.reads[i] {
			return true
		}
	}
	return false
}

// PlanFacts lists the facts of the plan, by their path.
func PlanFacts() []string {
	var names []string
	for _, d := range defs[firstPlanFact:firstOutcomeFact] {
		names = append(names, d.name)
	}
	return names
}

// Reads tells whether judging the row reads the plan fact of that name.
func (r *Row) Reads(name string) bool {
	i, ok := factByName[name]
	return ok && r.ReadsPlanFact(i)
}

// CaseFacts lists the facts of the case, by their path.
func CaseFacts() []string {
	var names []string
	for _, d := range defs[:firstPlanFact] {
		names = append(names, d.name)
	}
	return names
}

// ScopeReads tells whether the row's "if" reads the case fact of that name.
func (r *Row) ScopeReads(name string) bool {
	i, ok := factByName[name]
	return ok && r.ifCond != nil && r.ifCond.reads[i]
}

// ReadsCase tells whether any condition of the row reads the case fact.
func (r *Row) ReadsCase(name string) bool {
	i, ok := factByName[name]
	return ok && (r.ScopeReads(name) || r.ReadsPlanFact(i))
}

// Numbers lists, in thousandths, the numbers that the row holds the fact
// against: where a turn of the dial changes the judgement.
func (r *Row) Numbers(name string) []int64 {
	return r.constants(name, func(c *Condition) []constant { return c.nums })
}

// WordMasks lists the groups of words that the row looks for in the fact, as
// bits by the row of its vocabulary.
func (r *Row) WordMasks(name string) []int64 {
	return r.constants(name, func(c *Condition) []constant { return c.masks })
}

func (r *Row) constants(name string, of func(*Condition) []constant) []int64 {
	i := factByName[name]
	var values []int64
	for _, c := range []*Condition{r.ifCond, r.acts, r.never, r.ok, r.advice} {
		if c == nil {
			continue
		}
		for _, n := range of(c) {
			if n.fact == i {
				values = append(values, n.value)
			}
		}
	}
	return values
}

// JudgesDecisionOnly tells whether the decision is all that the row reads of
// a plan: such rows say which decisions are acceptable.
func (r *Row) JudgesDecisionOnly() bool {
	for i := firstPlanFact; i < Fact(len(defs)); i++ {
		if i != planDisposition && r.ReadsPlanFact(i) {
			return false
		}
	}
	return r.ReadsPlanFact(planDisposition)
}
