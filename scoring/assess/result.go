package assess

import (
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/mastery"
)

// Result is what a run shows.
type Result struct {
	Passed  bool
	Whole   bool // every case was answered
	Domains []DomainResult
	Cases   []CaseResult
	Nevers  int
	LeftOut int // items whose rule has no published source: not judged
}

// DomainResult is one domain. Items counts judged rows over all cases.
type DomainResult struct {
	Domain    string
	Right     int
	Items     int
	Low, High float64 // 95 % credible interval of the share right
	Least     cases.Milli
	Reason    string // of the standard
	Judged    bool   // there were enough items
	Reached   bool
	Unsourced int // further items that do not count for the pass: no published source
}

// Share is the share of items that were right, 0 to 1; 0 without items.
func (d *DomainResult) Share() float64 {
	if d.Items == 0 {
		return 0
	}
	return float64(d.Right) / float64(d.Items)
}

// CaseResult is one case of the run.
type CaseResult struct {
	Code     string
	Answered bool
	Verdict  string
	Cautions []scoring.Finding // never events and cautions, worst first
}

// counts tells whether a finding may decide a pass: its rule has a published
// source, or a supervisor has adopted it.
func counts(f *scoring.Finding) bool {
	return f.Local || slices.Contains([]string{"agreed", "sources_differ", "one_source"}, f.Certainty)
}

// item tells whether a finding is an item, and whether it was got right. An
// item is a row that carries points, or a caution that a plan's own act has
// brought up. Advice is no item: it neither earns nor costs.
func item(f *scoring.Finding) (is, right bool) {
	switch f.Kind {
	case "credit":
		return f.Of > 0, f.Points == f.Of
	case "caution", "never":
		return true, false
	}
	return false, false
}

// Judge reckons what a run shows. A case without an answer has no items; a run
// that is not whole is not passed.
func Judge(r *Run) *Result {
	res := &Result{Whole: r.Next() < 0}
	for _, domain := range cases.Vocab.IDs("domain") {
		d := DomainResult{Domain: domain, Least: UsualLeast, Reason: usualReason}
		for _, s := range r.Start.Standards {
			if s.Domain == domain {
				d.Least, d.Reason = s.Least, s.Reason
			}
		}
		res.Domains = append(res.Domains, d)
	}
	for at, code := range r.Start.Codes {
		c := CaseResult{Code: code}
		if g := r.Given[at]; g != nil {
			c.Answered, c.Verdict = true, g.Grade.Verdict
			for i := range g.Grade.Findings {
				res.take(&g.Grade.Findings[i], &c)
			}
		}
		res.Cases = append(res.Cases, c)
	}
	for i := range res.Domains {
		d := &res.Domains[i]
		d.Low, d.High = mastery.Interval(d.Right, d.Items)
		d.Judged = d.Items >= r.Start.LeastItems
		d.Reached = int64(d.Right)*1000 >= int64(d.Least)*int64(d.Items)
	}
	res.Passed = res.Whole && res.Nevers == 0 && res.Judged() &&
		!slices.ContainsFunc(res.Domains, func(d DomainResult) bool { return d.Judged && !d.Reached })
	return res
}

// Judged tells whether any domain had enough items: a run too short to show
// anything is not passed.
func (res *Result) Judged() bool {
	return slices.ContainsFunc(res.Domains, func(d DomainResult) bool { return d.Judged })
}

func (res *Result) take(f *scoring.Finding, c *CaseResult) {
	if f.Kind == "never" || f.Kind == "caution" {
		c.Cautions = append(c.Cautions, *f)
	}
	if f.Kind == "never" {
		res.Nevers++
	}
	is, right := item(f)
	if !is {
		return
	}
	i := slices.IndexFunc(res.Domains, func(d DomainResult) bool { return d.Domain == f.Domain })
	if i < 0 {
		return
	}
	d := &res.Domains[i]
	if !counts(f) {
		d.Unsourced++
		res.LeftOut++
		return
	}
	d.Items++
	if right {
		d.Right++
	}
}
