// Package window shows a ui.Screen in a real window. It is the only package
// that imports Ebitengine; everything it knows about what a screen looks like
// comes to it as a display list from game/ui, in logical pixels, already laid
// out. What is left to do here is small and belongs to the machine:
//
//   - turn keys, pointer, wheel and dropped files into calls of a ui.Host
//     (input.go, keys.go);
//   - paint a display list at the device's own resolution (paint.go, shape.go,
//     glyph.go, texture.go);
//   - sleep while nothing changes. The loop waits for events instead of running
//     at a frame rate, and a frame is painted only when the host's version
//     rose, so an idle window costs the processor next to nothing (loop.go);
//   - say the screen in words, for screen readers and keyboard tests, and write
//     pictures of it (say.go, shot.go).
//
// Snapshot paints a screen without showing it, and Drive runs a function, such
// as a test's, inside the loop that Ebitengine needs for that.
package window
