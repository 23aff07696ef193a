package cases

import (
	"fmt"
	"sort"
	"strings"
)

// Kind tells what a [Value] is.
type Kind uint8

// The kinds of JSON value.
const (
	Null Kind = iota
	Bool
	Number
	String
	List
	Object
)

var kindNames = [...]string{"null", "true or false", "a number", "text", "a list", "an object"}

// String names the kind as a sentence would.
func (k Kind) String() string { return kindNames[k] }

// Value is one JSON value with its place: Line and Column count from 1,
// columns in characters.
type Value struct {
	Kind         Kind
	Line, Column int
	Bool         bool
	Text         string // a String's text, or a Number as it was written
	Items        []*Value
	Keys         []Key
}

// Key is one entry of an Object, with the place of its name.
type Key struct {
	Name         string
	Line, Column int
	Value        *Value
}

// Get returns the value under key, or nil when v is no object or lacks it.
func (v *Value) Get(key string) *Value {
	if v == nil {
		return nil
	}
	for i := range v.Keys {
		if v.Keys[i].Name == key {
			return v.Keys[i].Value
		}
	}
	return nil
}

// At walks down keys (string) and list indices (int) as far as they exist and
// returns the last value reached: the best place to hang a message on.
func (v *Value) At(path ...any) *Value {
	for _, p := range path {
		var next *Value
		switch p := p.(type) {
		case string:
			next = v.Get(p)
		case int:
			if v.Kind == List && p >= 0 && p < len(v.Items) {
				next = v.Items[p]
			}
		}
		if next == nil {
			return v
		}
		v = next
	}
	return v
}

// Fault is one thing wrong in a file: where, what, and what would be right.
type Fault struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
}

// Error gives the fault as file:line:column: message.
func (f Fault) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s", f.File, f.Line, f.Column, f.Message)
}

// Faults is a list of faults that can be returned as one error.
type Faults []Fault

// Error joins the faults, one a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Sort orders faults by file and place, so that output never depends on the
// order in which checks ran.
func (fs Faults) Sort() {
	sort.SliceStable(fs, func(i, j int) bool {
		a, b := fs[i], fs[j]
		if a.File != b.File {
			return a.File < b.File
		}
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Column < b.Column
	})
}

// MaxFaults is how many faults of one file are listed: a broken file of 16 MiB
// could bring millions, which nobody reads.
const MaxFaults = 10000

// Sheet collects the faults and warnings found in one file.
type Sheet struct {
	File     string
	Faults   Faults
	Warnings Faults
}

// Full tells that no more faults will be listed.
func (s *Sheet) Full() bool { return len(s.Faults) > MaxFaults }

// Errorf adds a fault at v, or at 1:1 when v is nil, as long as there is room.
func (s *Sheet) Errorf(v *Value, format string, args ...any) {
	switch {
	case len(s.Faults) < MaxFaults:
		s.Faults = append(s.Faults, s.fault(v, format, args))
	case len(s.Faults) == MaxFaults:
		s.Faults = append(s.Faults, s.fault(nil, "more than %d faults; the rest are not listed", []any{MaxFaults}))
	}
}

// Warnf adds a warning at v, or at 1:1 when v is nil.
func (s *Sheet) Warnf(v *Value, format string, args ...any) {
	s.Warnings = append(s.Warnings, s.fault(v, format, args))
}

// short cuts a text from a file to what fits in a message.
func short(text string) string {
	const most = 80
	if len(text) <= most {
		return text
	}
	runes := []rune(strings.ToValidUTF8(text[:most], ""))
	return string(runes) + "…"
}

func (s *Sheet) fault(v *Value, format string, args []any) Fault {
	f := Fault{File: s.File, Line: 1, Column: 1, Message: fmt.Sprintf(format, args...)}
	if v != nil {
		f.Line, f.Column = v.Line, v.Column
	}
	return f
}
