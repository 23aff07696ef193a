// Package dose answers one question: how much local anaesthetic may this
// patient have? It is arithmetic over a table of published label figures.
//
// # Where the figures come from
//
// ceilings.json holds one row per agent, with or without adrenaline, label set
// (us or uk) and age band. A row says what its label says, what it means, and
// where that was read; the loader in table.go refuses a row without a source
// and names the file, line and column of whatever is wrong. A label may give a
// figure per kilogram, a cap, both, or rule the agent out. It never gets a
// figure that it does not state. Where a label gives a range, a child's row
// uses the lower end and an adult's the upper, and the row says so.
//
// No maximum dose rests on a trial, and labels differ threefold for a child.
// So a limit always belongs to a label set:
//
//	us, uk    only what that label states; a label without any figure refuses
//	cautious  for each quantity the smaller of the two; a quantity that one
//	          label lacks is taken from the other; what one label rules out is
//	          ruled out; what neither knows is refused
//
// # How a limit is made
//
// The limit is the smaller of rate times weight and cap, and the volume is
// that limit divided by the strength, rounded down to 0.1 mL. [Ceiling] does
// it for one agent. Two agents share one body: [Evaluate] adds the part each
// takes of its own limit, and more than 1 is over. [Fraction] is the same sum
// without allocation, for a grader that asks thousands of times. [Report] is
// the answer of the command line, ready for JSON. [Topical] is the cream and
// the gel, whose limits are grams, area and minutes.
//
// # Why integers
//
// In floating point, 3 mg/kg of a 0.2 % solution at 5.6 kg comes out as 8.3 mL
// instead of 8.4. Here every number is an integer of its smallest step:
//
//	weight            grams
//	age               hundredths of a year, -1 when not given
//	percent           thousandths of a percent
//	volume            tenths of a millilitre
//	mg, mg/kg         micrograms, micrograms per kilogram
//
// The steps fit together without a factor to round: grams times micrograms
// per kilogram are nanograms, and tenths of a mL times thousandths of a
// percent are micrograms. Sums of fractions are compared exactly.
//
// # What is only a reminder
//
// Customary ceilings for adrenaline, age, frailty and mixing never change the
// limit. They are cautions, and they too are rows of the table. Two rules of
// our own do refuse: adrenaline outside the strengths made for skin, and a cap
// without a figure per kilogram for a light patient of unknown age.
package dose
