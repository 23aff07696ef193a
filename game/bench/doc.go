// Package bench is a treatment without pixels: a hand with a tool, a pedal, a
// unit with a dial, a patient who bleeds and speaks, and under them the tissue
// model.
//
// [Open] makes it ready as the plan says. Whoever drives it, a screen, a
// script or a file, calls [Bench.Do] with what the hand does now and
// [Bench.Advance] with the milliseconds that pass, and looks at
// [Bench.State]. There is no clock: time is whole milliseconds handed in, and
// how they are grouped into calls changes nothing. [Replay] of
// [Bench.Session] ends in the same state bit for bit.
//
// Events become ops on a patch of skin (patch.go) once the bench's own rules
// have been applied: hazards that stop the current (hazard.go), the order of
// acts (order.go), numbness (numb.go), bleeding (bleed.go). An undo forgets
// the ops of the last burst and works out the patch anew; the event stays.
// [Curve] and [Sweep] do the same ops on other patches: at other powers, and
// with other constants.
//
// Figures of the bench's own, with their sources, are rows of bench.json; the
// labels and cautions are words of the vocabulary. It trains a hand and
// certifies nothing.
package bench
