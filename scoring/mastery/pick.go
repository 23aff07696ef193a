package mastery

import (
	"cmp"
	"slices"
)

// row is a row of the list before it has found its place.
type row struct {
	Due
	family string
}

// picker fills the list.
type picker struct {
	candidates []candidate
	shown      []Competency
	met        map[string]bool // families met before
	day, most  int
	list       []row
	used       [mostDomains]int // rows by domain of their reason
	taken      map[string]int   // rows by family
}

// take puts a candidate on the list for a domain.
func (p *picker) take(c *candidate, domain int, why string, days int) {
	c.picked = true
	p.used[domain]++
	p.taken[c.Family]++
	p.list = append(p.list, row{Due{c.Ref, Reason{domains[domain], why, days}}, c.Family})
}

// free tells whether a candidate may still be taken: no family fills more than
// half of the list, for else two of it would have to follow each other.
func (p *picker) free(c *candidate) bool {
	return !c.picked && 2*p.taken[c.Family] < p.most
}

// comebacks takes up to most never events, each in another patient: one made
// for its rule if there is one, else a generated one of the family, else any.
// Families and domains that have no row yet go first, then what waits longest.
func (p *picker) comebacks(owed []Comeback, most int) {
	owed = slices.DeleteFunc(slices.Clone(owed), func(c Comeback) bool {
		return c.Waits(p.day) || domainIndex(c.Domain) < 0
	})
	for len(owed) > 0 && len(p.list) < most {
		next := 0
		for i := range owed {
			if slices.Compare(p.crowding(&owed[i]), p.crowding(&owed[next])) < 0 {
				next = i
			}
		}
		p.bring(&owed[next])
		owed = slices.Delete(owed, next, next+1)
	}
}

func (p *picker) crowding(back *Comeback) []int {
	return []int{p.taken[back.Family], p.used[domainIndex(back.Domain)]}
}

// bring puts the patient that fits a comeback best on the list, if there is one.
func (p *picker) bring(back *Comeback) {
	if p.answered(back) {
		return
	}
	d := domainIndex(back.Domain)
	var best *candidate
	for i := range p.candidates {
		c := &p.candidates[i]
		if p.free(c) && c.brings(back, d) && (best == nil || c.fits(back) > best.fits(back)) {
			best = c
		}
	}
	if best != nil {
		p.take(best, d, WhyNever, p.day-back.LastDay)
	}
}

// answered tells whether a case on the list already brings the rule back.
func (p *picker) answered(back *Comeback) bool {
	return slices.ContainsFunc(p.candidates, func(c candidate) bool {
		return c.picked && c.Family == back.Family && slices.Contains(c.Rules, back.Rule)
	})
}

// forComeback tells that a case was made for a comeback: it asks for little
// else, and is kept for its day.
func (c *candidate) forComeback() bool { return c.Made && len(c.Rules) > 0 }

func (c *candidate) brings(back *Comeback, domain int) bool {
	return c.Family == back.Family && slices.Contains(c.asks, domain) && !slices.Contains(back.Used, c.Ref) &&
		(len(c.Rules) == 0 || slices.Contains(c.Rules, back.Rule))
}

func (c *candidate) fits(back *Comeback) int {
	switch {
	case slices.Contains(c.Rules, back.Rule):
		return 2
	case c.Made:
		return 1
	}
	return 0
}

// choice is a candidate with the domain that speaks for it; the smaller
// numbers win, the first number first.
type choice struct {
	c      *candidate
	domain int
	rank   [4]float64
}

// best finds the best choice that rank allows and puts it on the list.
func (p *picker) best(why string, rank func(c *candidate, domain int) (r [4]float64, ok bool)) bool {
	var best *choice
	for i := range p.candidates {
		c := &p.candidates[i]
		if !p.free(c) || c.forComeback() {
			continue
		}
		for _, d := range c.asks {
			r, ok := rank(c, d)
			if ok && (best == nil || slices.CompareFunc(r[:], best.rank[:], cmp.Compare[float64]) < 0) {
				best = &choice{c, d, r}
			}
		}
	}
	if best == nil {
		return false
	}
	days := 0
	if why == WhyDue {
		days = best.c.since[best.domain]
	}
	p.take(best.c, best.domain, why, days)
	return true
}

// due takes what is most likely forgotten among what is due and not on the
// list already, a domain that has no row yet before one that has.
func (p *picker) due() bool {
	return p.best(WhyDue, func(c *candidate, d int) (r [4]float64, ok bool) {
		if !c.isDue[d] || p.covers(c.Family, d) {
			return r, false
		}
		return [4]float64{float64(p.taken[c.Family]), float64(p.used[d]), c.recall[d], flag(c.tried)}, true
	})
}

// covers tells whether a case on the list asks for the domain in the family.
func (p *picker) covers(family string, domain int) bool {
	return slices.ContainsFunc(p.candidates, func(c candidate) bool {
		return c.picked && c.Family == family && slices.Contains(c.asks, domain)
	})
}

// weak takes the domain of which least was shown so far: the lowest lower end
// of an interval. Families not on the list go first, then patients not tried
// yet, then families in which it proved hard.
func (p *picker) weak() bool {
	return p.best(WhyWeak, func(c *candidate, d int) (r [4]float64, ok bool) {
		hard := (leastDifficulty + mostDifficulty) / 2
		if c.units != nil && c.units[d].known {
			hard = c.units[d].memory.Difficulty
		}
		return [4]float64{float64(p.used[d]), p.shown[d].Low, float64(2*p.taken[c.Family]) + flag(c.tried), -hard}, p.shown[d].Cases > 0
	})
}

// fresh takes a case not tried yet: a family never met before one that was,
// the lowest level first, and the domain that was met least.
func (p *picker) fresh() bool {
	return p.best(WhyNew, func(c *candidate, d int) (r [4]float64, ok bool) {
		known := 2*float64(p.taken[c.Family]) + flag(p.met[c.Family])
		return [4]float64{known, float64(c.Level), float64(p.used[d]), float64(p.shown[d].Cases)}, !c.tried
	})
}

func flag(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
