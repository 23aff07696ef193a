package solve

import (
	"fmt"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// Accepted is a generated case that has a plan with full marks, and whose right
// decision can be known.
type Accepted struct {
	Case  *cases.Case // its id is the code: the accepted seed is in it
	Plan  *cases.Plan // full marks under the cautious labels
	Seed  int         // at or after the one asked for
	Tries int         // how many seeds were looked at
}

// MaxTries bounds how many seeds [Accept] looks at.
const MaxTries = 100

// Accept finds the first seed, at or after the one given, whose case has a
// plan with full marks under every label set, and holds a clue wherever the
// truth asks for another decision than the looks. After the largest seed it
// goes on from 0. The tables decide only which seed is handed out: the case itself
// comes from the recipe alone, so a code outlives a change of the tables.
func Accept(set *tables.Set, version int, family string, level, seed int) (*Accepted, error) {
	for try := range MaxTries {
		at := (seed + try) % (cases.MaxMadeSeed + 1)
		c, err := cases.Compose(version, family, level, at)
		if err != nil {
			return nil, err
		}
		plan, err := fullMarks(set, c)
		if err != nil {
			return nil, err
		}
		if plan != nil && hasClue(set, c) {
			return &Accepted{c, plan, at, try + 1}, nil
		}
	}
	return nil, fmt.Errorf("no case of %q at level %d with a plan that gets full marks in %d seeds from %d on; try another seed", family, level, MaxTries, seed)
}

// hasClue tells whether a check would find that a trainee can know what is
// right.
func hasClue(set *tables.Set, c *cases.Case) bool {
	sheet := &cases.Sheet{}
	checkClues(sheet, &cases.Loaded{Pack: &cases.Pack{Cases: []cases.Case{*c}}, Tree: &cases.Value{}}, set, "cautious")
	return len(sheet.Warnings) == 0
}

// fullMarks gives the solver's plan for the cautious labels when each label
// set has one, else nil. Most of the time one plan serves all.
func fullMarks(set *tables.Set, c *cases.Case) (*cases.Plan, error) {
	var first *cases.Plan
	for _, labels := range cases.Vocab.IDs("labels") {
		j, err := scoring.NewJudge(set, c, nil, labels)
		if err != nil {
			return nil, err
		}
		if first != nil {
			if s := j.Score(first, nil); s.Full() {
				continue
			}
		}
		sol := Solve(j, cases.MadePackID+"/"+c.ID)
		if !sol.Solved {
			return nil, nil
		}
		if first == nil {
			first = sol.Plan
		}
	}
	return first, nil
}
