package mastery

import (
	"cmp"
	"slices"
	"strings"
)

// RightDaysNeeded is on how many separate local days a rule must be got right,
// each time on another patient, before its never event stops coming back.
const RightDaysNeeded = 3

// Comeback is a never event that has to come back: the rule is to be met again
// in another patient with the same family.
type Comeback struct {
	Rule, Family, Domain string
	RightDays            int      // days got right since the event, 0 to RightDaysNeeded-1
	LastDay              int      // local day of the event, or of the last right day
	Used                 []string // cases that no longer count: of the event, and got right since
}

// Waits tells whether it is too early on a day: a never event comes back on
// another day than the last.
func (c *Comeback) Waits(day int) bool { return c.LastDay >= day }

// Comebacks lists what has to come back, longest waiting first. The caller
// makes a variant for each: a generated case of the family in which the rule
// applies, with a code that is not in Used.
func Comebacks(obs []Observation) []Comeback { return learn(obs).Comebacks() }

// debts are a family's comebacks by rule.
type debts map[string]*Comeback

// note keeps the books of an attempt; counts tells that it shows what the
// learner can do alone.
func (l *Learner) note(o *Observation, counts bool) {
	owed := l.owed[o.Family]
	for i := range o.Rules {
		r := &o.Rules[i]
		switch {
		case r.Kind == kindNever:
			if owed == nil {
				owed = debts{}
				l.owed[o.Family] = owed
			}
			owed.owe(o, r)
		case counts && len(owed) > 0 && r.Kind == kindCredit:
			owed.settle(o, r)
		}
	}
}

// Comebacks is the function of that name over the attempts added.
func (l *Learner) Comebacks() []Comeback {
	var all []Comeback
	for _, owed := range l.owed {
		for _, c := range owed {
			back := *c
			back.Used = slices.Clone(c.Used)
			all = append(all, back)
		}
	}
	slices.SortFunc(all, func(a, b Comeback) int {
		return cmp.Or(cmp.Compare(a.LastDay, b.LastDay), strings.Compare(a.Domain, b.Domain),
			strings.Compare(a.Rule, b.Rule), strings.Compare(a.Family, b.Family))
	})
	return all
}

// owe notes a never event; one that was on its way out starts again.
func (owed debts) owe(o *Observation, r *RuleResult) {
	c := owed[r.Rule]
	if c == nil {
		c = &Comeback{Rule: r.Rule, Family: o.Family, Domain: r.Domain, LastDay: o.Day}
		owed[r.Rule] = c
	}
	c.RightDays, c.LastDay = 0, max(c.LastDay, o.Day)
	if !slices.Contains(c.Used, o.Case) {
		c.Used = append(c.Used, o.Case)
	}
}

// settle counts a right answer on a new day and a new patient.
func (owed debts) settle(o *Observation, r *RuleResult) {
	c := owed[r.Rule]
	if c == nil || c.Waits(o.Day) || slices.Contains(c.Used, o.Case) {
		return
	}
	c.RightDays++
	c.LastDay = o.Day
	c.Used = append(c.Used, o.Case)
	if c.RightDays == RightDaysNeeded {
		delete(owed, r.Rule)
	}
}
