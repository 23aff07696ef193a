// Package display makes sure, before anything else of the program starts, that
// there is a display to open a window on.
//
// Ebitengine looks for the display while its packages are initialised, which is
// before main runs, and ends the program with a stack trace when there is none.
// A package that depends on little is initialised earlier. This one depends on
// little more than os, so it comes first (a test in game/window holds that in
// place), and where the display is missing it does what can be done:
//
//   - in a test binary it starts Xvfb on a display number of its own, for the life of
//     the process;
//   - in the program it says so in one sentence and exits with [ExitNoDisplay].
//
// It only has work to do on Linux; elsewhere there always is a display.
package display
