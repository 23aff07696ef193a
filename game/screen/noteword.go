package screen

import (
	_ "embed"

	"leastwatt/cases"
)

//go:embed notewords.json
var noteWordsJSON []byte

// noteWord is how one choice reads inside a sentence.
type noteWord struct {
	Table string `json:"table" jsonschema:"required"`
	ID    string `json:"id" jsonschema:"required"`
	Text  string `json:"text" jsonschema:"required"`
	Past  string `json:"past"`
}

type noteWordFile struct {
	About string     `json:"about" jsonschema:"required"`
	Words []noteWord `json:"words" jsonschema:"required"`
}

// noteWords is by table and id.
var noteWords = mustReadNoteWords()

func mustReadNoteWords() map[[2]string]noteWord {
	words, err := readNoteWords("game/screen/notewords.json", noteWordsJSON)
	if err != nil {
		panic(err) // the file is part of the program; a test reads it too
	}
	return words
}

// readNoteWords reads the file, or returns [cases.Faults].
func readNoteWords(file string, data []byte) (map[[2]string]noteWord, error) {
	var f noteWordFile
	sheet, tree := readData(file, data, &f)
	words := map[[2]string]noteWord{}
	for i, w := range f.Words {
		key := [2]string{w.Table, w.ID}
		at := tree.At("words", i, "id")
		if _, twice := words[key]; twice {
			sheet.Errorf(at, "the word %q stands twice in %q", w.ID, w.Table)
		}
		if !cases.Vocab.Has(w.Table, w.ID) {
			sheet.Errorf(at, "there is no %s %q", w.Table, w.ID)
		}
		words[key] = w
	}
	if len(sheet.Faults) > 0 {
		return nil, sheet.Faults
	}
	return words, nil
}

// readData decodes one of this package's own data files.
func readData(file string, data []byte, into any) (*cases.Sheet, *cases.Value) {
	tree, faults := cases.ReadJSON(file, data)
	sheet := &cases.Sheet{File: file, Faults: faults}
	if tree != nil {
		cases.Decode(sheet, tree, into)
	}
	return sheet, tree
}

// noteText is how a choice reads in a sentence of the note.
func noteText(table, id string, words cases.Words) string {
	if w, ok := noteWords[[2]string{table, id}]; ok {
		return cases.Spell(w.Text, words)
	}
	return cases.Vocab.Label(table, id, words)
}

// pastText is the same in the past tense.
func pastText(table, id string, words cases.Words) string {
	if w := noteWords[[2]string{table, id}]; w.Past != "" {
		return cases.Spell(w.Past, words)
	}
	return noteText(table, id, words)
}

// label is how a choice reads in a list of choices.
func label(table, id string, words cases.Words) string {
	return capital(cases.Vocab.Label(table, id, words))
}
