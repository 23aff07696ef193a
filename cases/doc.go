// Package cases holds what a trainee works on and what a trainee writes:
// packs of invented patients, the plan, and the words both may use.
//
// # One reader
//
// Packs, plans, runs and rule tables are JSON written by people, so a mistake
// must be answered with the file, the line, the column and the key. General
// JSON libraries lose the place, match keys loosely and keep the last of two
// equal keys. [ReadJSON] therefore builds a small tree of [Value]s, each of
// which knows where it stood; [Decode] fills a Go struct from that tree and
// reports every unknown, missing, doubled or ill-valued key as a [Fault].
//
// # Open is not none
//
// A plan may be half written. A key that is absent is an open phrase: nobody
// decided it. That differs from an empty list or "none", which are decisions.
// The structs keep the difference: nil pointers, nil slices and empty strings
// are open; an empty, non-nil slice is a decision.
//
// # Numbers
//
// Every number a person dials or measures is a [Milli]: thousandths of its
// unit, read from the decimal text and never through a float. 7.1 W is 7100.
// A grade can then be the same on every machine.
//
// # What may be known
//
// A case holds what is truly there and what a careful trainee can find out.
// [Known] is the only view of a case that rules may read: it hides the truth
// and the families that only a pathologist can name.
package cases
