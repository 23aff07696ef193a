package cases

import (
	_ "embed"
	"fmt"
)

//go:embed vocabulary.json
var vocabularyJSON []byte

// Word is one entry of a vocabulary: the id that files use and what a person
// reads. An id is never reused: a word that is no longer offered keeps its
// row with a Retired note.
type Word struct {
	ID      string `json:"id" jsonschema:"required" form:"id"`
	UK      string `json:"uk" jsonschema:"required"` // label, British spelling
	US      string `json:"us"`                       // label, American spelling, when it differs
	Line    string `json:"line"`                     // one line that explains the choice
	Retired string `json:"retired"`
}

// Label is the word as a reader of uk or us words knows it.
func (w Word) Label(words Words) string {
	if words == US && w.US != "" {
		return w.US
	}
	return w.UK
}

// Words says which spelling a text is shown in.
type Words string

// The spellings.
const (
	UK Words = "uk"
	US Words = "us"
)

// Table is one vocabulary.
type Table struct {
	ID    string `json:"id" jsonschema:"required" form:"id"`
	Title string `json:"title" jsonschema:"required"` // as messages name one word of it
	Words []Word `json:"words" jsonschema:"required"`
}

// Vocabulary is every table of words that files may use.
type Vocabulary struct {
	Tables []Table `json:"tables" jsonschema:"required"`
	index  map[string]map[string]int
	table  map[string]int
}

// Vocab is the vocabulary of this program, read from vocabulary.json.
var Vocab *Vocabulary

// The decoder checks words against Vocab, and Vocab is read by the decoder;
// loading in init breaks that circle. Both files are part of the program.
func init() {
	v, err := ReadVocabulary("cases/vocabulary.json", vocabularyJSON)
	if err != nil {
		panic(err)
	}
	Vocab = v
	if sites, err = readSites("cases/sites.json", sitesJSON); err != nil {
		panic(err)
	}
}

// ReadVocabulary reads a vocabulary file, or returns [Faults].
func ReadVocabulary(file string, data []byte) (*Vocabulary, error) {
	tree, faults := ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &Sheet{File: file, Faults: faults}
	v := &Vocabulary{index: map[string]map[string]int{}, table: map[string]int{}}
	Decode(s, tree, v)
	for i, t := range v.Tables {
		if _, twice := v.table[t.ID]; twice {
			s.Errorf(tree.At("tables", i, "id"), "the table %q stands twice", t.ID)
		}
		v.table[t.ID] = i
		v.index[t.ID] = map[string]int{}
		for j, w := range t.Words {
			if _, twice := v.index[t.ID][w.ID]; twice {
				s.Errorf(tree.At("tables", i, "words", j, "id"), "the word %q stands twice in %q", w.ID, t.ID)
			}
			v.index[t.ID][w.ID] = j
		}
	}
	if len(s.Faults) > 0 {
		return nil, s.Faults
	}
	return v, nil
}

// Has tells whether the table has the word.
func (v *Vocabulary) Has(table, id string) bool {
	_, ok := v.index[table][id]
	return ok
}

// Index is the word's row in its table, or -1.
func (v *Vocabulary) Index(table, id string) int {
	if i, ok := v.index[table][id]; ok {
		return i
	}
	return -1
}

// Word returns the word, or one that shows the bare id when it is unknown.
func (v *Vocabulary) Word(table, id string) Word {
	if i, ok := v.index[table][id]; ok {
		return v.List(table)[i]
	}
	return Word{ID: id, UK: id}
}

// Label is the word's label in the given spelling.
func (v *Vocabulary) Label(table, id string, words Words) string {
	return v.Word(table, id).Label(words)
}

// List returns the words of a table in their order, nil when there is none.
func (v *Vocabulary) List(table string) []Word {
	i, ok := v.table[table]
	if !ok {
		return nil
	}
	return v.Tables[i].Words
}

// IDs returns the ids of a table in their order.
func (v *Vocabulary) IDs(table string) []string {
	var ids []string
	for _, w := range v.List(table) {
		ids = append(ids, w.ID)
	}
	return ids
}

// Title is how a message names a word of the table.
func (v *Vocabulary) Title(table string) string {
	if i, ok := v.table[table]; ok {
		return v.Tables[i].Title
	}
	return table
}

// Suggest names the nearest word for one that is not in the table, and the
// whole table when it is short.
func (v *Vocabulary) Suggest(table, wrong string) string {
	ids := v.IDs(table)
	if near := DidYouMean(wrong, append([]string(nil), ids...)); near != "" {
		return near
	}
	if len(ids) <= 8 {
		return fmt.Sprintf("; it may be one of %v", ids)
	}
	return ""
}
