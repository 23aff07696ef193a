package plain

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/screen"
)

const caseHelp = `Type the number or a word of what you want to ask or examine. "list" shows them again, "card" the patient. "plan" or an empty line goes on to the plan. "u" takes the last question back. "today" leaves the case.`

// examine shows the case and answers questions.
func (p *player) examine() (place, error) {
	p.card()
	p.topics()
	for {
		answer, err := p.ask("Ask, or Enter for the plan")
		if err != nil {
			return toToday, err
		}
		word, rest := command(answer)
		switch {
		case answer == "" || is(answer, "plan"):
			return toPlan, nil
		case is(answer, "today"):
			return toToday, nil
		case is(answer, "list"):
			p.topics()
		case is(answer, "card"):
			p.card()
		case is(answer, "u", "undo"):
			p.undo()
		case answer == "?":
			p.say(caseHelp)
		case p.askTopic(answer), p.aside(word, rest):
		default:
			p.sayf("%q is no question here. %s", answer, caseHelp)
		}
	}
}

// card is what may be known before asking.
func (p *player) card() {
	c := p.s.Case
	p.heading("Case. " + p.s.Pack.Author + ".")
	p.say("“" + cases.Spell(c.Presenting, p.words()) + "”")
	p.say(screen.PersonLine(c) + ".")
	p.say(screen.LesionLine(c, p.words()) + ".")
	p.say("The window shows a drawn picture of it. Here you learn of it by examining.")
}

// all lists questions, then examinations, as they are numbered.
func allTopics() []cases.Word {
	ask, examine := screen.Topics()
	return append(slices.Clone(examine), ask...)
}

func (p *player) topics() {
	p.line("")
	for i, w := range allTopics() {
		switch {
		case i == 0:
			p.say("Examine:")
		case !cases.IsExam(w.ID) && cases.IsExam(allTopics()[i-1].ID):
			p.say("Ask about:")
		}
		done := ""
		if slices.Contains(p.s.Plan.Asked, w.ID) {
			done = " (done)"
		}
		p.indent(pad(strconv.Itoa(i+1), 3)+"  ", w.Label(p.words())+done)
	}
}

// askTopic asks by number or by word, and prints what it brings.
func (p *player) askTopic(answer string) bool {
	topic, ok := findTopic(answer, p.words())
	if !ok {
		return false
	}
	p.s.Ask(topic)
	p.answer(topic)
	return true
}

func (p *player) answer(topic string) {
	text, _ := screen.Answered(p.s.Case, topic, p.words())
	p.indent("  ", cases.Vocab.Label("topic", topic, p.words())+": "+text)
}

// findTopic reads a number, an id, or the beginning of any word of a label; a
// word that fits several topics fits none.
func findTopic(answer string, words cases.Words) (string, bool) {
	all := allTopics()
	if n, err := strconv.Atoi(answer); err == nil {
		if n < 1 || n > len(all) {
			return "", false
		}
		return all[n-1].ID, true
	}
	var found []string
	for _, w := range all {
		if is(answer, w.ID, w.Label(words)) {
			return w.ID, true
		}
		if hasWord(w.Label(words), answer) {
			found = append(found, w.ID)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	return "", false
}

// hasWord tells whether a label, or a word in it, begins with a text of at
// least three letters.
func hasWord(label, text string) bool {
	if len(text) < 3 {
		return false
	}
	return strings.Contains(" "+strings.ToLower(label), " "+strings.ToLower(text))
}

func (p *player) undo() {
	if !p.s.Undo() {
		p.say("There is nothing to undo.")
		return
	}
	p.say("Undone.")
}

// printNote prints the note, each phrase in brackets with its number.
func (p *player) printNote(marks []screen.Numbered) {
	note := p.s.Note(p.words())
	n, para := 0, -1
	var text strings.Builder
	flush := func() {
		if text.Len() > 0 {
			p.line("")
			p.say(text.String())
			text.Reset()
		}
	}
	for _, sent := range note {
		if sent.Paragraph != para {
			flush()
			para = sent.Paragraph
		} else {
			text.WriteString(" ")
		}
		for _, piece := range sent.Pieces {
			if piece.ID == "" {
				text.WriteString(piece.Text)
				continue
			}
			n++
			fmt.Fprintf(&text, "[%d: %s%s]%s", n, piece.Text, unseen(piece), markText(marks, piece.ID))
			if piece.Aside != "" {
				text.WriteString(" (" + piece.Aside + ")")
			}
		}
	}
	flush()
	p.line("")
}

func unseen(piece screen.Piece) string {
	if piece.State == screen.Unseen {
		return ", not looked at"
	}
	return ""
}

// markText is "{1 never, 4 caution}" after a phrase.
func markText(marks []screen.Numbered, id string) string {
	var parts []string
	for _, m := range marks {
		if m.Number > 0 && slices.Contains(m.Phrases, id) {
			parts = append(parts, fmt.Sprintf("%d %s", m.Number, m.Kind))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " {" + strings.Join(parts, ", ") + "}"
}
