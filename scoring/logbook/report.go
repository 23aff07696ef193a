package logbook

import (
	"fmt"
	"strings"
)

// Damage is a run of bytes that is no whole line.
type Damage struct {
	Line  int    `json:"line"` // number of its first line, from 1
	Bytes int64  `json:"bytes"`
	Why   string `json:"why"`
	Torn  bool   `json:"torn"` // a write that was cut off: it had never been said to be saved
}

// Report is what opening or importing found. It is made once: what was damaged
// is set aside, and the next opening does not see it again.
type Report struct {
	File     string   `json:"file"`
	Kept     int      `json:"kept"`     // entries that were read
	Added    int      `json:"added"`    // of an import: entries that were new
	Repeated int      `json:"repeated"` // lines that stood there already
	Clashes  []string `json:"clashes"`  // identities with two contents; see [Book]
	Newer    int      `json:"newer"`    // lines of a newer version: left alone
	Damaged  []Damage `json:"damaged"`
	Aside    string   `json:"aside,omitempty"`  // the file that holds the damaged bytes
	Undone   string   `json:"undone,omitempty"` // why they could not be set aside yet
}

// Clean tells whether there is nothing to say.
func (r *Report) Clean() bool {
	return len(r.Damaged) == 0 && len(r.Clashes) == 0 && r.Newer == 0
}

// Text says in plain sentences what was found, one a line; "" when clean.
func (r *Report) Text() string {
	var b strings.Builder
	for _, d := range r.Damaged {
		if d.Torn {
			fmt.Fprintf(&b, "%s:%d:1: a last line of %d bytes was not finished: %s.\n", r.File, d.Line, d.Bytes, d.Why)
			continue
		}
		fmt.Fprintf(&b, "%s:%d:1: %d bytes are damaged: %s.\n", r.File, d.Line, d.Bytes, d.Why)
	}
	if len(r.Damaged) > 0 {
		fmt.Fprintf(&b, "%s: %d entries are whole and kept.\n", r.File, r.Kept)
	}
	switch {
	case r.Undone != "":
		fmt.Fprintf(&b, "%s: the damage could not be set aside, so nothing new is saved until it can: %s.\n", r.File, r.Undone)
	case r.Aside != "":
		fmt.Fprintf(&b, "%s: the damaged bytes are in %s.\n", r.File, r.Aside)
	}
	for _, id := range r.Clashes {
		fmt.Fprintf(&b, "%s: the identity %s has two contents. Both are kept, and one counts.\n", r.File, id)
	}
	if r.Newer > 0 {
		fmt.Fprintf(&b, "%s: lines of a newer version: %d. They are left alone; that version reads them.\n", r.File, r.Newer)
	}
	return b.String()
}
