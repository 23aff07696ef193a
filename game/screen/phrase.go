package screen

import (
	_ "embed"
	"reflect"
	"strings"

	"leastwatt/cases"
)

//go:embed phrases.json
var phrasesJSON []byte

// phraseRow is what phrases.json says of one path.
type phraseRow struct {
	Path     string   `json:"path" jsonschema:"required"`
	Name     string   `json:"name" jsonschema:"required"`
	Says     string   `json:"says" jsonschema:"required"`
	Unit     string   `json:"unit"`
	Decimals int      `json:"decimals" jsonschema:"minimum=0,maximum=2"`
	Arrow    string   `json:"arrow"`  // what one arrow adds; the plan's own step when absent
	Stops    []string `json:"stops"`  // values an arrow goes to, instead of a step
	Curved   bool     `json:"curved"` // the dial gives small values more room
	Marks    []string `json:"marks"`  // labels along the dial
	Absent   string   `json:"absent"` // what an optional phrase reads while nothing is chosen
	Yes      string   `json:"yes"`
	No       string   `json:"no"`
	// The same in the record, where the past tense needs another form.
	AbsentPast string `json:"absent_past"`
	YesPast    string `json:"yes_past"`
	NoPast     string `json:"no_past"`

	kind         phraseKind
	table        string // vocabulary of a choice or of ticks
	least, most  cases.Milli
	grain, arrow cases.Milli
	stops, marks []cases.Milli
}

// phraseKind says what sort of value a phrase holds.
type phraseKind uint8

const (
	choicePhrase phraseKind = iota
	ticksPhrase
	numberPhrase
	flagPhrase
	numbingPhrase    // the whole anaesthetic: none, injected, on the surface
	adrenalinePhrase // a strength, or plain
)

type phraseFile struct {
	About   string      `json:"about" jsonschema:"required"`
	Phrases []phraseRow `json:"phrases" jsonschema:"required"`
}

var phraseRows = mustReadPhrases()

func mustReadPhrases() map[string]*phraseRow {
	rows, err := readPhrases("game/screen/phrases.json", phrasesJSON)
	if err != nil {
		panic(err) // the file is part of the program; a test reads it too
	}
	return rows
}

// readPhrases reads the file, or returns [cases.Faults].
func readPhrases(file string, data []byte) (map[string]*phraseRow, error) {
	var f phraseFile
	sheet, tree := readData(file, data, &f)
	rows := map[string]*phraseRow{}
	for i := range f.Phrases {
		r, at := &f.Phrases[i], tree.At("phrases", i)
		tag, ok := tagOf(r.Path)
		switch {
		case !ok:
			sheet.Errorf(at.At("path"), "a plan has no %q", r.Path)
			continue
		case rows[r.Path] != nil:
			sheet.Errorf(at.At("path"), "%q stands twice", r.Path)
		}
		rows[r.Path] = r
		r.fill(tag)
		for key, list := range map[string][]string{"stops": r.Stops, "marks": r.Marks} {
			for k, text := range list {
				if n, err := cases.ParseMilli(text); err != nil || n < 0 || n > r.most {
					sheet.Errorf(at.At(key, k), "%q is no number up to %s", text, r.most)
				}
			}
		}
	}
	if len(sheet.Faults) > 0 {
		sheet.Faults.Sort()
		return nil, sheet.Faults
	}
	return rows, nil
}

// fill takes kind, vocabulary and limits from the plan's own field, so that an
// editor and the reader of plan files hold a trainee to the same.
func (r *phraseRow) fill(tag reflect.StructField) {
	r.table = tag.Tag.Get("vocab")
	switch {
	case r.Path == "anaesthetic":
		r.kind = numbingPhrase
	case r.Path == "anaesthetic.injected.adrenaline":
		r.kind = adrenalinePhrase
	case tag.Type == reflect.TypeFor[*bool]():
		r.kind = flagPhrase
	case tag.Type == reflect.TypeFor[[]string]():
		r.kind = ticksPhrase
	case tag.Type == reflect.TypeFor[*cases.Milli]():
		r.kind = numberPhrase
	}
	r.grain = 1
	for part := range strings.SplitSeq(tag.Tag.Get("jsonschema"), ",") {
		key, text, _ := strings.Cut(part, "=")
		n, err := cases.ParseMilli(text)
		switch {
		case err != nil:
		case key == "minimum":
			r.least = n
		case key == "maximum":
			r.most = n
		case key == "multipleOf":
			r.grain = n
		}
	}
	r.arrow = r.grain
	if n, err := cases.ParseMilli(r.Arrow); err == nil {
		r.arrow = n
	}
	for _, text := range r.Stops {
		n, _ := cases.ParseMilli(text)
		r.stops = append(r.stops, n)
	}
	for _, text := range r.Marks {
		n, _ := cases.ParseMilli(text)
		r.marks = append(r.marks, n)
	}
}

// row is the row of a phrase's ID, nil when there is none.
func row(id string) *phraseRow { return phraseRows[pathOf(id)] }

// optional tells whether a phrase may stay away, as none or not needed.
func (r *phraseRow) optional() bool { return r.Absent != "" }

// meant is the choice that an absent phrase means, "" where it means none of
// them.
func (r *phraseRow) meant() string {
	switch r.Path {
	case "haemostasis.method":
		return "pressure"
	case "other_care":
		return "none"
	}
	return ""
}

// phraseName is how a phrase is called.
func phraseName(id string, words cases.Words) string {
	if r := row(id); r != nil {
		return cases.Spell(r.Name, words)
	}
	return id
}
