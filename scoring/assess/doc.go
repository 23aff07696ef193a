// Package assess is the self-assessment: a graded run of cases without help,
// and what its result may and may not say.
//
// A [Blueprint] states how many cases of which kind there are. With a seed it
// gives a list of case codes, the same on every machine, so that a supervisor
// can repeat a run to the letter: the sheet names codes, seed, tables and
// labels. The cases are made by the generator, because a case that was drilled
// before tests memory.
//
// A run is a list of [Step] values (begin, answer, resume, end). They are kept
// one by one as they happen, and [Fold] turns them into the state of the run,
// so that a crash costs nothing but the open case, whose draft is kept
// elsewhere. The clock is honest: what counts is the time of day since the
// beginning. It never stops because the program did, and never goes back
// because somebody set it back; both are told on the sheet.
//
// The pass rule is conjunctive: no never event, and every domain with enough
// items at its standard or above. A high mark in one domain does not pay for a
// low one in another, because patients meet the domains one by one (Academic
// Medicine, Setting mastery learning standards, 2015, 90:1495). An item is one
// graded row of one case. Rows without a published source teach but do not
// judge: they count for learning and not for the pass, unless a local rule
// adopts them.
//
// The program's own standard is nine items in ten. Panels that set standards
// for a procedure's checklist by the Angoff and Hofstee methods came to 88 to
// 91 per cent, and higher where patients' safety was the only measure (Academic
// Medicine, A comparison of approaches for mastery learning standard setting,
// 2018, 93:1079). A supervisor who knows better sets another in a pack.
//
// A run shows what was shown in this run. It trains and does not certify.
package assess
