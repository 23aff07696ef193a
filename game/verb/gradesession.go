package verb

import (
	"bytes"
	"fmt"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/scoring"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// Grade grades a plan file and, unless sessionFile is empty, the
// treatment that a session file holds: it is replayed, and swept over the
// constants that the model does not know well.
func Grade(s *Shell, planFile, sessionFile string) int {
	data, err := cases.ReadFile(planFile)
	if err != nil {
		return s.usage(err)
	}
	plan, err := cases.ReadPlan(planFile, data)
	if err != nil {
		return s.Fail(err)
	}
	shelf, err := s.LoadShelf()
	if err != nil {
		return s.Fail(err)
	}
	pack, c, err := shelf.Find(plan.Case)
	if err != nil {
		return s.invalid(unknownCase(planFile, data, err))
	}
	labels := s.Labels
	if labels == "" {
		labels = pack.Labels
	}
	judge, err := scoring.NewJudge(tables.Builtin, c, pack.LocalRules, labels)
	if err != nil { // a local rule or an expectation is wrong; the check knows where
		return s.invalid(solve.Check(shelf.loaded[pack], tables.Builtin, labels).Errors)
	}
	var outcome *scoring.Outcome
	if sessionFile != "" {
		if outcome, err = s.treat(sessionFile, plan, pack, c); err != nil {
			return s.Fail(err)
		}
	}
	g := judge.GradeDone(plan, outcome, s.Words)
	if s.JSON {
		return s.printJSON(g)
	}
	return s.print(GradeText(g))
}

// treat replays a session file and sweeps it. A session of another case is a
// fault; one of another plan is graded as it was done, with a warning.
func (s *Shell) treat(file string, plan *cases.Plan, pack *cases.Pack, c *cases.Case) (*scoring.Outcome, error) {
	data, err := cases.ReadFile(file)
	if err != nil {
		return nil, err
	}
	session, err := cases.ReadSession(file, data)
	if err != nil {
		return nil, err
	}
	at := func(key string) cases.Fault {
		tree, _ := cases.ReadJSON(file, data)
		v := tree.At(key)
		return cases.Fault{File: file, Line: v.Line, Column: v.Column}
	}
	if session.Case != plan.Case {
		fault := at("case")
		fault.Message = fmt.Sprintf("the session is of %q, the plan of %q; they must agree", session.Case, plan.Case)
		return nil, cases.Faults{fault}
	}
	if !bytes.Equal(cases.Canonical(session.Plan), cases.Canonical(plan)) {
		warning := at("plan")
		warning.Message = "the session carried out another plan; the bench is graded as it was done"
		fmt.Fprintln(s.Err, warning.Error())
	}
	done, err := bench.Replay(pack, c, session, bench.Options{})
	if err != nil {
		fault := at("events")
		fault.Message = err.Error()
		return nil, cases.Faults{fault}
	}
	outcome := done.Outcome()
	sweep := done.Sweep()
	if _, err := sweep.Step(1 << 62); err != nil {
		return nil, err
	}
	outcome.Range = sweep.Range()
	return &outcome, nil
}
