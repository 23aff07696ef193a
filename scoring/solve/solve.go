package solve

import (
	"sort"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// Best is the most that one decision and technique can reach.
type Best struct {
	Disposition string `json:"disposition"`
	Technique   string `json:"technique"`
	Points      int    `json:"points"`
	Of          int    `json:"of"`
}

// Solution is what the solver found for a case.
type Solution struct {
	Solved   bool
	Plan     *cases.Plan // full marks when Solved, else the best that was found
	Best     []Best
	Conflict []string // when not Solved: the rules that stand in each other's way
}

// biopsyTechniques take a specimen without treating.
var biopsyTechniques = []string{"shave_excision", "punch_biopsy", "fusiform_excision", "snip_excision", "curettage"}

// Solve searches every decision and technique for the case of the judge. Each
// search starts from where the one before it ended, since most of a good plan
// holds for the next technique too. The local rules are those that the judge
// was made with: they say which values to try.
func Solve(j *scoring.Judge, ref string, local ...cases.LocalRule) Solution {
	s := &search{judge: j, kit: kitFor(j.Set), local: localKit(j.Set, j.Case, local)}
	var sol Solution
	var found []attempt
	last := startPlan
	try := func(disposition, technique string) {
		a := s.repair(start(last, disposition, technique))
		if disposition == "treat" {
			last = a.plan
		}
		found = append(found, a)
	}
	for _, t := range cases.Vocab.IDs("technique") {
		try("treat", t)
	}
	last = startPlan
	for _, t := range biopsyTechniques {
		try("biopsy_first", t)
	}
	try("refer", "")
	try("leave", "")
	best := s.choose(found)
	if !best.worth.full {
		best = s.searchPairs(found)
	}
	for _, a := range found {
		sol.Best = append(sol.Best, Best{a.plan.Disposition, a.plan.Technique, a.score.Points, a.score.Of})
	}
	if sol.Solved = best.worth.full; sol.Solved {
		best = s.polish(best)
	} else {
		sol.Conflict = s.conflict(best)
	}
	sol.Plan = best.plan
	sol.Plan.Case = ref
	return sol
}

// search is one case being solved.
type search struct {
	judge *scoring.Judge
	kit   kit
	local kit // what local rules and the case's author ask for in the place of rows
	marks []scoring.Mark
}

// groups lists the changes that could satisfy a row, the supervisor's first.
func (s *search) groups(r *tables.Row) [][]move {
	if own := s.local[r]; len(own) > 0 {
		return append(append([][]move(nil), own...), s.kit[r]...)
	}
	return s.kit[r]
}

// attempt is a plan and how it was judged.
type attempt struct {
	plan  *cases.Plan
	score scoring.Score
	worth worth
}

// worth orders attempts: safety first, then marks, then less to say.
type worth struct {
	nevers, cautions, lost, advices int
	full                            bool
}

func (w worth) better(o worth) bool {
	a := [4]int{w.nevers, w.cautions, w.lost, w.advices}
	b := [4]int{o.nevers, o.cautions, o.lost, o.advices}
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// worthOf judges a plan and keeps nothing of the judgement.
func (s *search) worthOf(p *cases.Plan) worth {
	score := s.judge.Score(p, s.marks)
	s.marks = score.Marks[:0]
	return worth{score.Nevers, score.Cautions, score.Of - score.Points, score.Advices, score.Full()}
}

// weigh judges a plan and keeps its marks.
func (s *search) weigh(p *cases.Plan) attempt {
	score := s.judge.Score(p, nil)
	return attempt{p, score, worth{score.Nevers, score.Cautions, score.Of - score.Points, score.Advices, score.Full()}}
}

// choose takes the first attempt with full marks, else the best.
func (s *search) choose(found []attempt) attempt {
	best := found[0]
	for _, a := range found {
		if a.worth.full {
			return a
		}
		if a.worth.better(best.worth) {
			best = a
		}
	}
	return best
}

// maxRounds bounds a search: each round satisfies a row or ends it.
const maxRounds = 60

// repair changes a plan, one row at a time, until it has full marks or no
// single change makes it better.
func (s *search) repair(p *cases.Plan) attempt {
	at := s.weigh(p)
	for range maxRounds {
		if at.worth.full {
			break
		}
		next, found := s.improve(at)
		if !found {
			break
		}
		at = next
	}
	return at
}

// polish takes needless advice out of a plan with full marks.
func (s *search) polish(at attempt) attempt {
	for range maxRounds {
		next, found := s.improve(at)
		if !found {
			break
		}
		at = next
	}
	return at
}

// improve looks for one change that satisfies a broken row and makes the plan
// better as a whole.
func (s *search) improve(at attempt) (attempt, bool) {
	for _, r := range brokenRows(at) {
		if p := s.fix(at.worth, r, at.plan); p != nil {
			return s.weigh(p), true
		}
	}
	return at, false
}

// searchPairs is for a case that no single changes solve: it tries two at a
// time, the second for whatever the first one broke. It improves the attempts
// in place and returns the best.
func (s *search) searchPairs(found []attempt) attempt {
	for i := range found {
		at := found[i]
		if !s.judge.Acceptable(at.plan.Disposition) {
			continue
		}
		for range maxRounds {
			next, ok := s.improvePair(at)
			if !ok {
				break
			}
			at = s.repair(next.plan)
		}
		found[i] = at
	}
	return s.choose(found)
}

func (s *search) improvePair(at attempt) (attempt, bool) {
	for _, r := range brokenRows(at) {
		for _, group := range s.groups(r) {
			for _, m := range group {
				mid := clone(at.plan)
				m(mid)
				for _, r2 := range brokenRows(s.weigh(mid)) {
					if p := s.fix(at.worth, r2, mid); p != nil {
						return s.weigh(p), true
					}
				}
			}
		}
	}
	return at, false
}

// brokenRows lists what keeps a plan from full marks, worst first.
func brokenRows(at attempt) []*tables.Row {
	var rows []*tables.Row
	for _, k := range []tables.Kind{tables.Never, tables.Caution, tables.Advice} {
		for _, m := range at.score.Marks {
			if m.Kind == k {
				rows = append(rows, m.Row)
			}
		}
	}
	return rows
}

// fix tries the changes to p that the row could ask for and returns the best
// of the first phrase that makes the plan better than worth, or nil.
func (s *search) fix(than worth, r *tables.Row, p *cases.Plan) *cases.Plan {
	now := s.judge.RowKind(r, p)
	for _, group := range s.groups(r) {
		var best *cases.Plan
		for _, m := range group {
			c := clone(p)
			m(c)
			if s.judge.RowKind(r, c) >= now {
				continue
			}
			if w := s.worthOf(c); w.better(than) {
				best, than = c, w
			}
		}
		if best != nil {
			return best
		}
	}
	return nil
}

// conflict names the rows still broken in the best attempt and, for each, the
// rows that break when it is satisfied.
func (s *search) conflict(best attempt) []string {
	names := map[string]bool{}
	already := map[*tables.Row]bool{}
	broken := brokenRows(best)
	for _, r := range broken {
		already[r] = true
	}
	for _, m := range best.score.Marks {
		if m.Kind < tables.Caution && m.Points == m.Row.Points {
			continue
		}
		names[m.Row.Rule] = true
		for _, group := range s.groups(m.Row) {
			for _, mv := range group {
				c := clone(best.plan)
				mv(c)
				if s.judge.RowKind(m.Row, c) != tables.Credit {
					continue
				}
				for _, other := range brokenRows(s.weigh(c)) {
					if !already[other] {
						names[other.Rule] = true
					}
				}
			}
		}
	}
	list := make([]string, 0, len(names))
	for n := range names {
		list = append(list, n)
	}
	sort.Strings(list)
	return list
}
