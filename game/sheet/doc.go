// Package sheet writes the result of a self-assessment as a page that two
// people can sign.
//
// [Make] turns a run and its result into a [Sheet]: plain texts in the order
// they are read. The window shows the same texts, the plain mode prints
// [Sheet.Text], and [Sheet.PDF] sets them on A4. Figures always come with
// their number of items and an interval, and what a supervisor needs to make
// the run again (codes, seed, tables, labels) stands on every sheet. The same
// run gives the same bytes.
package sheet
