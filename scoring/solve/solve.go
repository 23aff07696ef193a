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
	Technique   string `json:"technique,omitempty"`
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

// Solve searches every decision and technique for the case of the judge.
func Solve(j *scoring.Judge, ref string) Solution {
	s := &search{judge: j, facts: tables.PlanFacts()}
	var sol Solution
	var best attempt
	try := func(disposition, technique string) {
		a := s.repair(start(disposition, technique))
		sol.Best = append(sol.Best, Best{disposition, technique, a.score.Points, a.score.Of})
		if a.worth.full && !sol.Solved || best.plan == nil || !sol.Solved && a.worth.better(best.worth) {
			best = a
		}
		sol.Solved = sol.Solved || a.worth.full
	}
	for _, t := range cases.Vocab.IDs("technique") {
		try("treat", t)
	}
	for _, t := range biopsyTechniques {
		try("biopsy_first", t)
	}
	try("refer", "")
	try("leave", "")
	sol.Plan = best.plan
	sol.Plan.Case = ref
	if !sol.Solved {
		sol.Conflict = s.conflict(best)
	}
	return sol
}

type search struct {
	judge *scoring.Judge
	facts []string
	marks []scoring.Mark
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

func (s *search) weigh(p *cases.Plan) attempt {
	score := s.judge.Score(p, s.marks)
	s.marks = score.Marks[:0]
	w := worth{score.Nevers, score.Cautions, score.Of - score.Points, score.Advices, score.Full()}
	score.Marks = append([]scoring.Mark(nil), score.Marks...)
	return attempt{p, score, w}
}

// maxRounds bounds a search: each round satisfies a row or ends it.
const maxRounds = 60

// repair changes a plan, one row at a time, while that makes it better.
func (s *search) repair(p *cases.Plan) attempt {
	at := s.weigh(p)
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
// better as a whole. Single changes come first, then pairs.
func (s *search) improve(at attempt) (attempt, bool) {
	broken := brokenRows(at)
	for _, r := range broken {
		if next, ok := s.fix(at, r, at.plan); ok {
			return next, true
		}
	}
	if at.worth.full {
		return at, false // pairs are for marks, not for the last advice
	}
	for _, r := range broken {
		for _, fact := range s.facts {
			if !r.Reads(fact) {
				continue
			}
			for _, m := range moves(r, fact, at.plan) {
				p := clone(at.plan)
				m(p)
				mid := s.weigh(p)
				for _, r2 := range brokenRows(mid) {
					if next, ok := s.fix(at, r2, p); ok {
						return next, true
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

// fix tries the changes to p that the row could ask for and returns the first
// that is better than at.
func (s *search) fix(at attempt, r *tables.Row, p *cases.Plan) (attempt, bool) {
	best, found := at, false
	for _, fact := range s.facts {
		if !r.Reads(fact) || fact == "disposition" || fact == "technique" {
			continue
		}
		for _, m := range moves(r, fact, p) {
			c := clone(p)
			m(c)
			if s.judge.RowKind(r, c) >= s.judge.RowKind(r, p) {
				continue
			}
			if next := s.weigh(c); next.worth.better(best.worth) {
				best, found = next, true
			}
		}
		if found {
			return best, true
		}
	}
	return at, false
}

// conflict names the rows still broken in the best attempt and, for each, the
// rows that break when it is satisfied.
func (s *search) conflict(best attempt) []string {
	names := map[string]bool{}
	already := map[string]bool{}
	broken := brokenRows(best)
	for _, r := range broken {
		already[r.Rule] = true
	}
	for _, m := range best.score.Marks {
		if m.Kind < tables.Caution && m.Points == m.Row.Points {
			continue
		}
		names[m.Row.Rule] = true
		for _, fact := range s.facts {
			if !m.Row.Reads(fact) {
				continue
			}
			for _, mv := range moves(m.Row, fact, best.plan) {
				c := clone(best.plan)
				mv(c)
				if s.judge.RowKind(m.Row, c) != tables.Credit {
					continue
				}
				for _, other := range brokenRows(s.weigh(c)) {
					if !already[other.Rule] {
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
