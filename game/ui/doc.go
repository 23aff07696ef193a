// Package ui is the interface kit of Leastwatt: small, plain Go, without a
// window, a clock or a graphics library, so that everything about a screen but
// its pixels can be tested anywhere.
//
// A screen is a value with three methods (Screen). Its View returns a tree of
// Nodes, which are plain structs: a Page with a Column with a Note with a
// Phrase. What becomes of the tree happens in three steps.
//
//  1. Layout turns a tree, a window size and the little state that the host
//     keeps (focus, hover, scroll offsets, text size, theme) into a Frame. A
//     node is asked for the widths it can live with, then for its height at a
//     width, then told its place. Text is measured by the shaper that will draw
//     it, and every line of it gets an absolute position.
//  2. The Frame holds a display list (Ops: rectangles, paths, text runs,
//     images) and, from the same run, where everything is that answers the
//     pointer (Hits), takes the focus (Stops) or scrolls (Areas). What is drawn
//     and what is pressed cannot drift apart.
//  3. A painter draws the list. game/window does so with Ebitengine; it decides
//     about pixels and nothing else.
//
// Beside the picture every tree has words: Accessible gives the same nodes with
// role, name, value and state. The plain mode prints it, screen readers get it,
// tests assert on it. A node that shows something must also say it.
//
// Host joins the pieces for a running program or a test: it takes raw keys,
// pointer and wheel, keeps what State holds, and sends the screen messages
// (message.go). Its Version rises only when the drawing differs, so that
// nothing is painted while nothing changes.
//
// The heart of the kit is the Note (note.go, wrap.go): a paragraph in which
// words and controls flow together. A Phrase is a control that reads as part of
// a sentence. It wraps over lines, keeps the punctuation after it, carries the
// mark of a finding as the shape of the line under it, and stands a little apart
// from its neighbours so that its focus ring touches nothing.
//
// Adding a node kind: a struct with the methods of Node in a file of its own,
// its ID in idOf (layout.go), its keys in hostkey.go and its click in
// hostpointer.go if it is operable, an entry in samplePage (sample_test.go),
// whose tests then check that it fits, answers and speaks, and one in the
// gallery of game/window.
package ui
