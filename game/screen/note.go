package screen

import (
	"strings"

	"leastwatt/cases"
)

// Tense is that of the acts in a note: the plan looks forward, the record
// back.
type Tense uint8

// The tenses.
const (
	Future Tense = iota
	Past
)

// State says how far a phrase is decided.
type State uint8

// The states. Resting is an optional phrase with nothing chosen: none, or not
// needed. Unseen was filled in by one key and not looked at yet.
const (
	Decided State = iota
	Open
	Resting
	Unseen
)

// Piece is a part of a sentence: plain words, or, with an ID, a phrase that
// can be operated.
type Piece struct {
	Text  string
	ID    string // "" for words; else the phrase's path in the plan, with list indices
	State State
	Aside string // quiet words after a phrase: "30 mg, 0.4 mg/kg"
}

// Sentence is one sentence of a note. Sentences with the same Paragraph stand
// together.
type Sentence struct {
	Paragraph int
	Pieces    []Piece
}

// Text is the sentence as plain text.
func (s Sentence) Text() string {
	var b strings.Builder
	for _, p := range s.Pieces {
		b.WriteString(p.Text)
		if p.Aside != "" {
			b.WriteString(" (" + p.Aside + ")")
		}
	}
	return b.String()
}

// NoteOf writes a plan as a note: the sentences that its decision and
// technique need, each key that they use as one phrase.
func NoteOf(c *cases.Case, p *cases.Plan, tense Tense, words cases.Words) []Sentence {
	w := &noteWriter{c: c, p: p, tense: tense, words: words}
	w.asked()
	switch p.Disposition {
	case "treat", "biopsy_first":
		w.act()
		w.record()
		w.paragraph()
		w.numbing()
		w.paragraph()
		w.room()
		w.paragraph()
		w.bleeding()
		w.tissue()
		w.bloodThinner()
		w.paragraph()
		w.afterwards()
	case "refer":
		w.act()
		w.record()
		w.bloodThinner()
		w.paragraph()
		w.parting()
	case "leave":
		w.act()
		w.otherCare()
		w.bloodThinner()
		w.paragraph()
		w.parting()
	default:
		w.say("What I will do: ")
		w.phrase("disposition")
		w.stop()
	}
	return w.sentences
}

// Phrases lists the phrases of a note in reading order.
func Phrases(note []Sentence) []Piece {
	var list []Piece
	for _, s := range note {
		for _, p := range s.Pieces {
			if p.ID != "" {
				list = append(list, p)
			}
		}
	}
	return list
}

// OpenPhrases counts the phrases that are not decided.
func OpenPhrases(note []Sentence) int {
	n := 0
	for _, p := range Phrases(note) {
		if p.State == Open {
			n++
		}
	}
	return n
}

// noteWriter collects the pieces of a note.
type noteWriter struct {
	c         *cases.Case
	p         *cases.Plan
	tense     Tense
	words     cases.Words
	para      int
	sentences []Sentence
	pieces    []Piece
}

// say adds plain words.
func (w *noteWriter) say(text string) {
	w.pieces = append(w.pieces, Piece{Text: cases.Spell(text, w.words)})
}

// verb adds the words of the tense.
func (w *noteWriter) verb(future, past string) {
	if w.tense == Past {
		future = past
	}
	w.say(future)
}

// phrase adds the phrase of an ID as it reads now.
func (w *noteWriter) phrase(id string) {
	text, state := phraseText(w.p, id, w.tense, w.words)
	w.pieces = append(w.pieces, Piece{Text: text, ID: id, State: state})
}

// measured adds ", at [7.0 W]", or ", at a power [not decided]" while it is
// open, so that the sentence stays English.
func (w *noteWriter) measured(decided, open, id, after string) {
	if w.open(id) {
		w.say(open + " ")
		w.phrase(id)
		return
	}
	w.say(decided + " ")
	w.phrase(id)
	w.say(after)
}

func (w *noteWriter) open(id string) bool {
	_, state := phraseText(w.p, id, w.tense, w.words)
	return state == Open
}

// stop ends the sentence.
func (w *noteWriter) stop() {
	w.pieces = append(w.pieces, Piece{Text: "."})
	w.sentences = append(w.sentences, Sentence{w.para, joinWords(w.pieces)})
	w.pieces = nil
}

func (w *noteWriter) paragraph() { w.para++ }

// joinWords makes one piece of neighbouring plain words.
func joinWords(pieces []Piece) []Piece {
	var joined []Piece
	for _, p := range pieces {
		last := len(joined) - 1
		switch {
		case p.Text == "":
		case p.ID == "" && last >= 0 && joined[last].ID == "":
			joined[last].Text += p.Text
		default:
			joined = append(joined, p)
		}
	}
	return joined
}

// lesions is how the note speaks of what is treated.
func (w *noteWriter) lesions() string {
	if w.c.Lesion.Counted() > 1 {
		return "these lesions"
	}
	return "this lesion"
}
