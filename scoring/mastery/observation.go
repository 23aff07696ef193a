package mastery

import (
	"cmp"
	"slices"
	"strings"

	"leastwatt/cases"
)

// Observation is one graded attempt, as far as learning can be read from it.
// The caller makes it from the logbook.
type Observation struct {
	UTC        int64  // milliseconds since 1970, universal time
	Day        int    // number of the local day; any day may be day 0
	Case       string // "pack-id/case-id" or "made/CODE"
	Family     string // what the lesion truly is: a vocabulary id
	Made       bool   // the generator made the case
	Helped     bool   // the trainee had help before the grade
	Rules      []RuleResult
	Verdict    string   // safe, needs work, or unsafe
	Confidence *float64 // stated chance of the verdict "safe", 0 to 1; nil when not stated
	// PowerW is what was dialled and LeastUsualW the lowest usual figure for
	// the act, both in watts; 0 when unknown or when no current was used.
	PowerW, LeastUsualW float64
}

// RuleResult is one finding of a grade.
type RuleResult struct {
	Rule, Domain string
	Kind         string // credit, advice, caution, or never
	Points, Of   int
}

// The words of a grade that this package reads.
const (
	kindCredit  = "credit"
	kindAdvice  = "advice"
	kindCaution = "caution"
	kindNever   = "never"
	verdictSafe = "safe"
)

// isItem tells whether a finding shows that something was known or not known,
// and which. An item is a row that carries points, or a caution that the
// plan's own act brought up. Advice is no item: it neither earns nor costs.
func (r *RuleResult) isItem() (is, right bool) {
	switch r.Kind {
	case kindCredit:
		return r.Of > 0, true
	case kindCaution, kindNever:
		return true, false
	}
	return false, false
}

// domains are the ten competencies, in the order of the vocabulary.
var domains = cases.Vocab.IDs("domain")

// mostDomains bounds the competencies, so that a set of marks is an array.
const mostDomains = 16

// domainIndex is the place of a domain, or -1. The list is so short that
// walking it beats a map, and this is asked of every finding ever made.
func domainIndex(domain string) int {
	for i, d := range domains {
		if d == domain && i < mostDomains {
			return i
		}
	}
	return -1
}

// mark says what one attempt showed in one domain.
type mark uint8

const (
	unasked mark = iota // no item of the domain
	clean               // every item right, and nothing advised
	right               // every item right
	wrong               // a caution or a never event
)

// marks reads an attempt domain by domain.
func (o *Observation) marks() (m [mostDomains]mark) {
	var advised [mostDomains]bool
	for i := range o.Rules {
		r := &o.Rules[i]
		d := domainIndex(r.Domain)
		if d < 0 {
			continue
		}
		switch is, ok := r.isItem(); {
		case r.Kind == kindAdvice:
			advised[d] = true
		case is && !ok:
			m[d] = wrong
		case is && m[d] == unasked:
			m[d] = clean
		}
	}
	for d := range m {
		if m[d] == clean && advised[d] {
			m[d] = right
		}
	}
	return m
}

// stated is the stated chance in thousandths, and whether one was stated.
// Thousandths are what the logbook keeps; whole numbers make equal chances
// equal.
func (o *Observation) stated() (milli int, ok bool) {
	if o.Confidence == nil || !(*o.Confidence >= 0 && *o.Confidence <= 1) {
		return 0, false
	}
	return int(*o.Confidence*1000 + 0.5), true
}

// inOrder gives the places of the attempts, oldest first.
func inOrder(obs []Observation) []int32 {
	order := make([]int32, len(obs))
	for i := range order {
		order[i] = int32(i)
	}
	byTime := func(a, b int32) int { return compare(&obs[a], &obs[b]) }
	if !slices.IsSortedFunc(order, byTime) {
		slices.SortStableFunc(order, byTime)
	}
	return order
}

// compare orders attempts by time. Attempts of the same millisecond fall back
// on what they hold, so that the order in which they were handed over never
// matters.
func compare(a, b *Observation) int {
	if c := cmp.Compare(a.UTC, b.UTC); c != 0 {
		return c
	}
	if c := cmp.Or(cmp.Compare(a.Day, b.Day), strings.Compare(a.Case, b.Case),
		strings.Compare(a.Family, b.Family), strings.Compare(a.Verdict, b.Verdict),
		compareBool(a.Made, b.Made), compareBool(a.Helped, b.Helped),
		cmp.Compare(a.PowerW, b.PowerW), cmp.Compare(a.LeastUsualW, b.LeastUsualW)); c != 0 {
		return c
	}
	am, aok := a.stated()
	bm, bok := b.stated()
	return cmp.Or(compareBool(aok, bok), cmp.Compare(am, bm),
		slices.CompareFunc(a.Rules, b.Rules, func(x, y RuleResult) int {
			return cmp.Or(strings.Compare(x.Rule, y.Rule), strings.Compare(x.Domain, y.Domain),
				strings.Compare(x.Kind, y.Kind), cmp.Compare(x.Points, y.Points), cmp.Compare(x.Of, y.Of))
		}))
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}
