// Package screen is what a person sees and does, without a window: one file
// for each place of the program, each a model, what a message does to it, and
// the tree of nodes that shows it.
//
// # The note
//
// A plan is written as a note. [NoteOf] turns a plan into sentences whose
// pieces are words or phrases; a phrase is one key of the plan. Which
// sentences stand there follows from the decision and the technique, and the
// same note is painted by the window, printed by the plain mode, copied as
// text and marked in the debrief.
//
// # Phrases and editors
//
// phrases.json names every phrase by its path in the plan file, with its
// help, its arrow steps and what it reads while an optional choice rests. Its
// limits come from the plan's own field tags, so an editor and the reader of
// plan files can never disagree. [EditorFor] makes the editor of one phrase:
// a choice, ticks or a number. notewords.json holds the words of choices that
// read otherwise inside a sentence than in a list.
//
// # Desk, session, app
//
// [Desk] is what lies before the trainee: packs, today's order, drafts,
// settings and the cases done in this sitting. [Session] is the work on one
// case, with undo. [App] is the window's screen over both; the plain mode uses
// desk and sessions without it. Clock, files, clipboard and background work
// come in through [Config].
//
// # The short round
//
// [Round] is ten look-alikes one after another, each with two things to decide.
// [Desk.NewRound] picks them from the groups of lookalikes.json, harmless and
// not, and only cases whose answer does not hang on what a question brings out.
// [Desk.MarkGlance] lets the real judge judge a plan that holds just the two
// phrases, and keeps the findings that read no more. The window's clock arrives
// as [Tick]; a round can be had without it, and in plain mode is.
//
// # Nothing is told early
//
// Before the debrief no place shows a family, a title, a truth or a teaching
// line, and hazards appear only as answers to what was asked. A test holds
// every built-in case to this.
package screen
