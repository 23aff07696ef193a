package plain

import (
	"strconv"

	"leastwatt/cases"
	"leastwatt/game/screen"
)

const glanceHelp = `Type 1 to treat, 2 for a biopsy first, 3 to refer, 4 to leave it. If you treat, "s" sends tissue and "n" sends nothing. An empty line leaves it not decided. "u" takes the last decision back, "today" leaves the round.`

const roundEndHelp = `Type a number to open that picture as a full case. "list" shows the round again. "again" begins another round, an empty line goes back to today.`

// shortRound shows look-alikes one after another. There is no clock in a
// terminal. It gives the case to open in full, "" for the list of today.
func (p *player) shortRound() (open string, err error) {
	for again := true; again; {
		r, err := p.desk.NewRound(false)
		if err != nil {
			p.sayf("There is no short round: %v.", err)
			return "", nil
		}
		p.heading("Short round. Pictures: " + strconv.Itoa(len(r.Items)) + ". There is no clock here; the window gives " + strconv.Itoa(screen.RoundSeconds) + " seconds for each.")
		for _, l := range screen.RoundSays(p.words()) {
			p.say(l)
		}
		if done, err := p.glances(r); err != nil || !done {
			return "", err
		}
		if open, again, err = p.roundEnd(r); err != nil {
			return "", err
		}
	}
	return open, nil
}

// glances goes through the pictures and tells whether it came to the end.
func (p *player) glances(r *screen.Round) (done bool, err error) {
	shown := -1
	for !r.Over() {
		g := r.Now()
		if shown != r.At {
			p.glance(r, g)
			shown = r.At
		}
		prompt := "Treat 1, biopsy first 2, refer 3, leave 4, or ?"
		if g.AsksTissue() {
			prompt = "Send tissue: s, nothing to send: n, or ?"
		}
		answer, err := p.ask(prompt)
		if err != nil {
			return false, err
		}
		switch {
		case answer == "":
			r.Skip()
		case is(answer, "today"):
			return false, nil
		case is(answer, "u", "undo"):
			p.backInRound(r)
			shown = -1
		case g.AsksTissue() && is(answer, "s", "send", "y", "yes"):
			r.Send(true)
		case g.AsksTissue() && is(answer, "n", "nothing", "no"):
			r.Send(false)
		case !g.AsksTissue() && decision(answer, p.words()) != "":
			r.Decide(decision(answer, p.words()))
		default:
			p.say(glanceHelp)
		}
	}
	return true, nil
}

func (p *player) backInRound(r *screen.Round) {
	if r.Undo() {
		p.say("Taken back.")
		return
	}
	p.say("There is nothing to take back.")
}

// decision reads a decision by number, or by the beginning of its name.
func decision(answer string, words cases.Words) string {
	list := cases.Vocab.List("disposition")
	if n, err := strconv.Atoi(answer); err == nil && n >= 1 && n <= len(list) {
		return list[n-1].ID
	}
	for _, w := range list {
		if is(answer, w.ID, w.Label(words)) || hasWord(w.Label(words), answer) {
			return w.ID
		}
	}
	return ""
}

// glance prints the card, and in words what the window's picture shows.
func (p *player) glance(r *screen.Round, g *screen.Glance) {
	c := g.Case()
	p.heading("Short round, " + r.Place() + ".")
	p.say("“" + cases.Spell(c.Presenting, p.words()) + "”")
	p.say(screen.PersonLine(c) + ".")
	p.say(screen.LesionLine(c, p.words()) + ".")
	p.say("Through a lens: " + g.Closer(p.words()))
	p.say("To the touch: " + g.Touch(p.words()))
}

// roundEnd lists the pictures with what each was.
func (p *player) roundEnd(r *screen.Round) (open string, again bool, err error) {
	if err := p.roundList(r); err != nil {
		return "", false, err
	}
	for {
		answer, err := p.ask("Number to open, \"again\", Enter for today, or ?")
		if err != nil {
			return "", false, err
		}
		n, numErr := strconv.Atoi(answer)
		word, rest := command(answer)
		switch {
		case answer == "" || is(answer, "today"):
			return "", false, nil
		case is(answer, "again"):
			return "", true, nil
		case is(answer, "list"):
			if err := p.roundList(r); err != nil {
				return "", false, err
			}
		case numErr == nil && n >= 1 && n <= len(r.Items):
			return r.Items[n-1].Ref(), false, nil
		case numErr == nil:
			p.sayf("There is no picture %d. It can be 1 to %d.", n, len(r.Items))
		case p.aside(word, rest):
		default:
			p.say(roundEndHelp)
		}
	}
}

func (p *player) roundList(r *screen.Round) error {
	marks := make([]screen.GlanceMark, len(r.Items))
	for i := range marks {
		m, err := p.desk.MarkGlance(&r.Items[i])
		if err != nil {
			return err
		}
		marks[i] = m
	}
	p.heading("The round is over. " + screen.RoundCounts(marks) + ". " + screen.OpenText(marks))
	for i := range marks {
		p.line("")
		p.roundLine(i, &r.Items[i], &marks[i])
	}
	p.line("")
	return nil
}

func (p *player) roundLine(i int, g *screen.Glance, m *screen.GlanceMark) {
	l := screen.LineOf(i, g, m, p.words())
	p.say(l.Was + ". " + l.Verdict + ".")
	p.indent("   ", l.You)
	told := false // the line tells the first fault
	for _, f := range m.Findings {
		if f.Kind == "credit" {
			continue
		}
		if told {
			p.indent("   ", screen.HeadingOf(f))
		}
		told = true
		p.indent("   ", f.Why)
		p.indent("   ", screen.RightOf(f))
		p.indent("   ", screen.SourceOf(f, p.words()))
	}
	if m.TissueDepends(g) {
		p.indent("   ", screen.TissueDependsText)
	}
	signs, source := screen.SignsOf(g, p.words())
	for _, s := range signs {
		p.indent("   ", s)
	}
	p.indent("   ", source)
	p.indent("   ", cases.Spell(g.Case().Teaching, p.words()))
}
