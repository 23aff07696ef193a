package plain

import (
	"slices"
	"strconv"
	"strings"

	"leastwatt/game/screen"
)

// show prints the sentence that a phrase stands in, and its choices.
func (p *player) show(id string) {
	for _, sent := range p.s.Note(p.words()) {
		if i := slices.IndexFunc(sent.Pieces, func(x screen.Piece) bool { return x.ID == id }); i >= 0 {
			p.say(sentenceWith(sent, i))
		}
	}
	e, ok := screen.EditorFor(p.s.Plan, id, p.words())
	if !ok {
		return
	}
	head := e.Name
	switch e.Kind {
	case screen.NumberEditor:
		head += ", " + e.Range()
	case screen.TicksEditor:
		head += ", any of these; numbers turn them over, \"none\" decides for none"
	}
	p.indent("  ", head+":")
	for i, it := range e.Items {
		sign := " "
		if it.On {
			sign = "*"
		}
		p.indent(sign+pad(strconv.Itoa(i+1), 3)+"  ", it.Label)
	}
}

// sentenceWith writes a sentence with one phrase in brackets.
func sentenceWith(sent screen.Sentence, at int) string {
	var b strings.Builder
	for i, piece := range sent.Pieces {
		if i == at {
			b.WriteString("[" + piece.Text + "]")
		} else {
			b.WriteString(piece.Text)
		}
		if piece.Aside != "" {
			b.WriteString(" (" + piece.Aside + ")")
		}
	}
	return b.String()
}

// explain prints what a phrase means and one line for each choice.
func (p *player) explain(id string) {
	e, _ := screen.EditorFor(p.s.Plan, id, p.words())
	p.say(e.Says)
	for i, it := range e.Items {
		says := it.Label
		if it.Says != "" {
			says += ": " + it.Says
		}
		p.indent(pad(strconv.Itoa(i+1), 4)+"  ", says)
	}
	if e.Optional {
		p.say(`It may stay out: "-" leaves it out.`)
	}
	p.say(planHelp)
}

// decide changes a phrase by an answer and tells whether the answer was one.
func (p *player) decide(id, answer string) bool {
	e, ok := screen.EditorFor(p.s.Plan, id, p.words())
	if !ok {
		return false
	}
	switch {
	case answer == "-":
		p.s.Edit("", id, p.words(), func(e *screen.Editor) { e.Clear() })
		return true
	case e.Kind == screen.NumberEditor:
		var err error
		p.s.Edit("", id, p.words(), func(e *screen.Editor) { err = e.Type(answer) })
		if err != nil {
			p.sayf("It can be %v.", err)
			return false
		}
		return true
	case e.Kind == screen.TicksEditor:
		return p.tick(e, answer)
	}
	i, err := choose(e.Items, answer)
	if err != "" {
		p.say(err)
		return false
	}
	p.s.Edit("", id, p.words(), func(e *screen.Editor) { e.Pick(i) })
	return true
}

// tick turns several choices over: "1 3 8", "gloves, mask", or "none".
func (p *player) tick(e screen.Editor, answer string) bool {
	if is(answer, "none", "nothing") {
		p.s.Edit("", e.ID, p.words(), func(e *screen.Editor) { e.TickNone() })
		return true
	}
	parts := strings.Split(answer, ",")
	if len(parts) == 1 && strings.Trim(answer, "0123456789 ") == "" {
		parts = strings.Fields(answer)
	}
	var picked []int
	for _, part := range parts {
		i, err := choose(e.Items, strings.TrimSpace(part))
		if err != "" {
			p.say(err)
			return false
		}
		picked = append(picked, i)
	}
	p.s.Edit("", e.ID, p.words(), func(e *screen.Editor) { e.Turn(picked) })
	return true
}

// choose reads a number, or the beginning of a label or of a word in it.
func choose(items []screen.Item, answer string) (int, string) {
	if n, err := strconv.Atoi(answer); err == nil {
		if n < 1 || n > len(items) {
			return 0, "There is no choice " + answer + ". It can be 1 to " + strconv.Itoa(len(items)) + "."
		}
		return n - 1, ""
	}
	var found []int
	for i, it := range items {
		if strings.EqualFold(it.Label, answer) {
			return i, ""
		}
		if strings.HasPrefix(strings.ToLower(it.Label), strings.ToLower(answer)) || hasWord(it.Label, answer) {
			found = append(found, i)
		}
	}
	switch len(found) {
	case 1:
		return found[0], ""
	case 0:
		return 0, "“" + answer + "” is no choice here. Type a number, or ? for help."
	}
	return 0, "“" + answer + "” fits several choices. Type the number."
}
