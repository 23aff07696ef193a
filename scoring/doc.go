// Package scoring grades a plan for a case and says why.
//
// [NewJudge] takes what does not change while one case is drilled: the rule
// rows that concern it, the decisions that are acceptable, and what each
// decision is out of. [Judge.Score] then judges a plan without making any
// text, fast enough for a solver that tries thousands. [Judge.Grade] adds the
// words: the choice, what was expected, why, and whose word that is.
//
// The sum that a plan is out of ("of") depends on the case and the decision
// alone. A plan whose decision is not acceptable is measured by the best
// decision that is; what its own acts break is told to it all the same, for
// no marks.
//
// A plan may have been carried out on the bench. [Judge.GradeDone] takes the
// [Outcome] beside the plan: the rows of the domain "bench" are then judged as
// well, by the outcome and never by the plan, and what a plan is out of grows
// by theirs. Without an outcome a grade is as if there were no such rows.
package scoring
