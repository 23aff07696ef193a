// Package logbook keeps what trainees did: every attempt with its plan, its
// session on the bench and its grade as it was shown, every "I disagree", and
// every step of a self-assessment. It is one append-only file of lines for the
// machine. Several learners share it, told apart by a code of their own choice
// in each line; so there is one thing to lock, to copy and to export, and
// nobody is asked for a name.
//
// # A line
//
// Each line is one JSON object and stands for itself, so that any JSON tool
// reads a logbook:
//
//	{"head_crc32c":"1d0c9a44","logbook":1,"line":"00007d13","head":"00000a3b","body_crc32c":"90ad7732",
//	 "entry":{"id":"...","utc_ms":...,"offset_min":...,"learner":"...","kind":"attempt","attempt":{...}},
//	 "body":{"plan":{...},"session":{...},"outcome":{...},"grade":{...}}}
//
// without the breaks and spaces shown. "logbook" is the version of the format.
// "line" counts the bytes of the whole line with its newline, "head" those up
// to the end of the entry, as eight hexadecimal digits. The head's checksum
// covers everything from the comma behind it to the end of the entry, the
// lengths and the body's checksum included; the body's checksum covers the
// rest. With the fixed letters before them and the newline behind, no bit of a
// line can flip unnoticed. In an entry the keys id and utc_ms stand first.
// Disagreements and steps of an assessment are in the entry whole; only
// attempts have a body. Keys and ids may be added within a version; a reader
// passes over keys that it does not know, and keeps the bytes.
//
// The checksum is CRC-32C (Castagnoli), which processors reckon at memory
// speed. It finds every single flipped bit, every burst up to 32 bits, and
// misses other damage once in four thousand million times: enough against
// accident. It is none against malice. Whoever can write the file can write a
// checksum, and a program on a loose desktop cannot prove anything; a
// supervisor who needs proof watches.
//
// # Opening
//
// [Open] reads heads and hops over bodies, so that the length of grades and
// sessions costs nothing: a hundred thousand attempts with their grades are
// three gigabytes. [Book.Entries] goes through the heads; [Book.Whole] reads
// one line with its body and checks it then. [Book.Export] checks them all.
//
// # What survives what
//
// [Book.Append] returns nil after the whole line was written in one piece and
// synced. From then on:
//
//   - A killed process or a loss of power loses at most the line being written.
//     Its torn rest is set aside before the next append, so lines never merge.
//   - After a failed write or sync (a full disk, an error of the device) the
//     entry is not saved and the error says so. The next append first opens the
//     file anew and cuts it to the acknowledged length; while that fails, so
//     does the append.
//   - A flipped bit loses the line that it is in, and that alone: in the head
//     all of it, in the body the details, while the marks stay. In the length
//     or the newline it cannot take the next line along, because each line is
//     found by the length of the one before, and by the newline where that
//     fails.
//   - A disk that says it has synced when it has not can lose what it lied
//     about, and all of it if it lied while damage was being taken out. Nothing
//     above it can help; what was synced in truth before is still read.
//
// Damaged bytes go to a file beside the logbook before they are taken out of
// it, and the [Report] of that opening says so, once.
//
// # Copies
//
// [Book.Export] writes the same lines, sorted. [Book.Import] is the union of
// two sets of lines: importing twice, or in any order, gives the same logbook.
//
// Time, offset and identity of an entry come in as arguments; this package has
// no clock and no random source. It writes through a [Store]: files with a
// lock against a second window, a browser's database, or memory.
package logbook
