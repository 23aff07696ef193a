// Package solve finds, for a case, a plan with full marks, and the best marks
// that each decision and technique can reach; or it names the rules that
// stand in each other's way.
//
// The search repairs. It starts from a sensible plan, looks at a row that is
// not satisfied, and tries the values that the row's own conditions name: a
// number beside a limit, a word it looks for. Where a supervisor wrote a value
// in the place of the row's, the values named there are tried first. A change
// that makes the whole judgement better is kept. The judge does the judging, so the solver can
// never disagree with a grade.
package solve
