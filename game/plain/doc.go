// Package plain is the program as text: the same cases, the same note, the
// same marks, for a terminal, a pipe or a screen reader.
//
// It has no state of its own beyond where the reader is. Cases, plans, undo
// and grades are those of game/screen: [screen.Desk] lays out the cases,
// [screen.Session] holds the plan, [screen.NoteOf] writes the note and
// [screen.EditorFor] offers the choices of a phrase. What the window shows in
// a margin, plain mode prints below a number.
//
// One line of input is one answer. An empty line always means "go on", "?"
// explains, "<" goes back, "u" undoes. When the input ends, the program ends;
// every change was handed out to be kept before that.
package plain
