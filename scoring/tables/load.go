package tables

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"sort"

	"leastwatt/cases"
	"leastwatt/scoring/dose"
)

//go:embed rules/*.json terms.json
var files embed.FS

// Version names the edition of the tables; it rises with every landing that
// changes a row.
const Version = "3"

// Set is a checked set of rule rows with the terms they use.
type Set struct {
	Rows    []*Row // in table order
	Version string
	Digest  string // SHA-256 over the files, in order of their names, and the dose table
	terms   map[string]*Condition
	byID    map[string]*Row
}

// Builtin is the set that this program grades by.
var Builtin = mustLoad()

func mustLoad() *Set {
	s, err := Load(files)
	if err != nil {
		panic(err) // the tables are part of the program; a test loads them too
	}
	return s
}

// Row returns the row of that id, or nil.
func (s *Set) Row(rule string) *Row { return s.byID[rule] }

// Compile reads a condition that may use the set's terms.
func (s *Set) Compile(text string) (*Condition, error) { return Compile(text, s.terms) }

// Load reads terms.json and every file of rules/, or returns [cases.Faults].
func Load(fsys fs.FS) (*Set, error) {
	s := &Set{Version: Version, byID: map[string]*Row{}, terms: map[string]*Condition{}}
	names, err := fs.Glob(fsys, "rules/*.json")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	digest := sha256.New()
	var faults cases.Faults
	for _, name := range append([]string{"terms.json"}, names...) {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		digest.Write(data)
		sheet := s.readFile(path.Join("scoring/tables", name), name == "terms.json", data)
		faults = append(faults, sheet.Faults...)
	}
	s.addDoseRows()
	for _, r := range dose.Rows() {
		fmt.Fprintf(digest, "%+v\n", *r)
	}
	faults = append(faults, s.checkSlots()...)
	if len(faults) > 0 {
		faults.Sort()
		return nil, faults
	}
	s.Digest = hex.EncodeToString(digest.Sum(nil))
	return s, nil
}

func (s *Set) readFile(file string, terms bool, data []byte) *cases.Sheet {
	sheet := &cases.Sheet{File: file}
	tree, faults := cases.ReadJSON(file, data)
	sheet.Faults = append(sheet.Faults, faults...)
	switch {
	case tree == nil:
	case terms:
		s.readTerms(sheet, tree)
	case tree.Get("watts") != nil:
		s.readWatts(sheet, tree)
	default:
		s.readRows(sheet, tree)
	}
	return sheet
}

// term is a named condition.
type term struct {
	Term   string `json:"term" jsonschema:"required" form:"id"`
	Means  string `json:"means" jsonschema:"required"`
	Says   string `json:"says" jsonschema:"required"`
	Source string `json:"source"`
}

type termFile struct {
	About string `json:"about" jsonschema:"required"`
	Terms []term `json:"terms" jsonschema:"required"`
}

func (s *Set) readTerms(sheet *cases.Sheet, tree *cases.Value) {
	var f termFile
	cases.Decode(sheet, tree, &f)
	for i, t := range f.Terms {
		at := tree.At("terms", i)
		if _, twice := s.terms[t.Term]; twice {
			sheet.Errorf(at.At("term"), "the term %q stands twice", t.Term)
			continue
		}
		if _, taken := factByName[t.Term]; taken {
			sheet.Errorf(at.At("term"), "%q is the name of a fact; give the term another", t.Term)
			continue
		}
		if c := s.compileAt(sheet, at.At("means"), t.Means); c != nil {
			s.terms[t.Term] = c
		}
	}
}

// compileAt compiles a condition and reports a mistake at its own column.
func (s *Set) compileAt(sheet *cases.Sheet, at *cases.Value, text string) *Condition {
	if text == "" {
		return nil
	}
	c, err := s.Compile(text)
	var mistake *conditionError
	if errors.As(err, &mistake) {
		place := *at
		place.Column += 1 + mistake.offset // the opening quote, then the text
		sheet.Errorf(&place, "%s", mistake.message)
		return nil
	}
	return c
}

type rowFile struct {
	About  string `json:"about" jsonschema:"required"`
	Domain string `json:"domain" jsonschema:"required" vocab:"domain"`
	Rows   []Row  `json:"rows" jsonschema:"required"`
}

func (s *Set) readRows(sheet *cases.Sheet, tree *cases.Value) {
	var f rowFile
	cases.Decode(sheet, tree, &f)
	for i := range f.Rows {
		row := &f.Rows[i]
		if row.Domain == "" {
			row.Domain = f.Domain
		}
		s.add(sheet, tree.At("rows", i), row)
	}
}

// add compiles, checks and keeps a row; at is where its keys stand.
func (s *Set) add(sheet *cases.Sheet, at *cases.Value, r *Row) {
	if s.byID[r.Rule] != nil {
		sheet.Errorf(at.At("rule"), "the rule %q stands twice", r.Rule)
		return
	}
	r.setDecisions()
	r.elseKind = Caution
	if r.Else != "" {
		r.elseKind, _ = ParseKind(r.Else)
	}
	r.ifCond = s.compileAt(sheet, at.At("if"), r.If)
	r.acts = s.compileAt(sheet, at.At("acts"), r.Acts)
	r.never = s.compileAt(sheet, at.At("never"), r.Never)
	r.ok = s.compileAt(sheet, at.At("ok"), r.OK)
	r.advice = s.compileAt(sheet, at.At("advice"), r.Advice)
	checkRow(sheet, at, r)
	r.Index = len(s.Rows)
	s.Rows = append(s.Rows, r)
	s.byID[r.Rule] = r
}

// Suggest names the nearest rule for one that does not exist.
func (s *Set) Suggest(wrong string) string {
	ids := make([]string, len(s.Rows))
	for i, r := range s.Rows {
		ids[i] = r.Rule
	}
	return cases.DidYouMean(wrong, ids)
}
