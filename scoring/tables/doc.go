// Package tables holds what is graded: rules as rows of data, each with its
// source, and the small language in which a row says when it applies and what
// it asks for.
//
// # A row
//
// A row applies to a case when its "if" holds of the case, and to a plan when
// its decision is among "for" and its "acts" hold. It is then judged by the
// first of these that is true:
//
//	never    a never event; only where every source agrees
//	ok       credit
//	advice   advice: between sources, or care that is not needed
//	(else)   the row's "else": a caution, or advice
//
// An open phrase makes every test false, so it falls through to "else".
//
// # Marks
//
// Only "if" and "for" decide whether a row's points count, so nothing but the
// decision changes what a case is out of. A counted row whose "acts" do not
// hold has been avoided, which is credit. A row with no points is heard only
// when its acts hold. Rows that stand in for each other (watts for one
// technique or another) share a slot: the first of the slot that applies
// gives the slot's one finding.
//
// # The bench
//
// Rows of the domain "bench" are judged only where the case was treated on the
// bench, and read the outcome in the place of the plan. A figure of the model
// is a range over a sweep of its uncertain constants (outcome.destroyed.low to
// outcome.destroyed.high): "ok" asks that the whole range is right and
// "advice" that a part of it is. Their phrases are where the note tells of the
// act.
//
// # What a row may read
//
// [Facts] is the list: the paths of a pack and a plan, less everything that a
// trainee could not find out. Nothing else reaches a rule, so swapping the
// hidden truth of a case cannot change a grade.
package tables
