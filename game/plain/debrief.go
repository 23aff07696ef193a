package plain

import (
	"fmt"
	"strconv"
	"strings"

	"leastwatt/game/screen"
	"leastwatt/scoring"
)

const debriefHelp = `Type the number of a finding to change its phrase and be graded again. "p" and a number goes to that phrase of the note. "next" opens the next case, "another" a made one like it. "credits" lists what was right, "findings" and "note" print again, "u" undoes a change, "copy" prints the note as text. "bench" treats by hand; after that "powers" tells what other powers would have done. "plan", "case" and "today" go back.`

// debrief grades the plan and lets the reader try changes.
func (p *player) debrief() (place, error) {
	unsaved := p.s.First == nil || p.desk.Trouble() != ""
	if err := p.desk.Grade(p.s); err != nil {
		p.sayf("The plan cannot be graded: %v.", err)
		return toPlan, nil
	}
	p.printGrade(true)
	if unsaved && p.desk.Recording() && p.desk.Trouble() == "" { // the first grade counts, and is kept once
		p.say("Saved in the logbook.")
	}
	for {
		answer, err := p.ask("Number of a finding, \"next\", \"today\" or ?")
		if err != nil {
			return toToday, err
		}
		word, rest := command(answer)
		n, numErr := strconv.Atoi(answer)
		switch {
		case is(answer, "n", "next") || answer == "":
			return toNext, nil
		case is(answer, "another"):
			return toAnother, nil
		case is(answer, "plan"):
			return toPlan, nil
		case is(answer, "case"):
			return toCase, nil
		case is(answer, "today"):
			return toToday, nil
		case is(answer, "bench"):
			return p.treat()
		case is(answer, "powers"):
			p.powers()
		case is(answer, "credits"):
			p.credits()
		case is(answer, "findings", "note", "grade"):
			p.printGrade(false)
		case is(answer, "copy"):
			p.line("")
			for _, l := range strings.Split(screen.CopyText(p.s, p.words()), "\n") {
				p.say(l)
			}
		case is(answer, "u", "undo"):
			p.undo()
			if err := p.regrade(); err != nil {
				return toToday, err
			}
		case numErr == nil:
			to, err := p.whatIf(n)
			if err != nil || to != toDebrief {
				return to, err
			}
		case word == "p":
			to, err := p.whatIfPhrase(rest)
			if err != nil || to != toDebrief {
				return to, err
			}
		case p.aside(word, rest):
		default:
			p.say(debriefHelp)
		}
	}
}

func (p *player) findings() []screen.Numbered {
	return screen.NumberFindings(p.s.Grade, p.s.Note(p.words()))
}

// printGrade prints verdict, note with marks, findings, and at first the truth.
func (p *player) printGrade(first bool) {
	g := p.s.Grade
	list := p.findings()
	p.heading("Debrief. " + strings.ToUpper(g.Verdict[:1]) + g.Verdict[1:] + ": " + screen.CountsText(g) + ".")
	if points := screen.PointsText(g); points != "" {
		p.say(points + ".")
	}
	p.printNote(list)
	p.printTreatment()
	for _, f := range list {
		if f.Number > 0 {
			p.finding(f)
		}
	}
	_, _, _, credits := g.Counts()
	p.say(screen.CreditsText(credits) + ` "credits" lists them.`)
	if first {
		p.line("")
		for _, l := range screen.TruthOf(p.s.Case, p.words()) {
			p.say(l)
		}
	}
}

func (p *player) finding(f screen.Numbered) {
	lead := pad(strconv.Itoa(f.Number), 3) + "  "
	p.indent(lead, screen.HeadingOf(f.Finding))
	if f.Choice != "" {
		p.indent("     ", "You: "+f.Choice+".")
	}
	p.indent("     ", f.Why)
	p.indent("     ", screen.RightOf(f.Finding))
	p.indent("     ", screen.SourceOf(f.Finding, p.words()))
	if len(f.Phrases) == 0 {
		p.indent("     ", "It is about something that your note does not hold.")
	}
	p.line("")
}

func (p *player) credits() {
	for _, f := range p.findings() {
		if f.Kind == "credit" {
			p.indent("  +  ", f.Heading)
			p.indent("     ", screen.SourceOf(f.Finding, p.words()))
		}
	}
}

// whatIf changes the phrase of a finding and grades again.
func (p *player) whatIf(n int) (place, error) {
	for _, f := range p.findings() {
		switch {
		case f.Number != n || n == 0:
		case len(f.Phrases) == 0:
			p.say("That finding has no phrase in your note. Change the decision or the technique first.")
			return toDebrief, nil
		default:
			return p.visitAndGrade(f.Phrases[0])
		}
	}
	p.sayf("There is no finding %d.", n)
	return toDebrief, nil
}

func (p *player) whatIfPhrase(text string) (place, error) {
	all := screen.Phrases(p.s.Note(p.words()))
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > len(all) {
		p.sayf("A phrase is \"p 1\" to \"p %d\".", len(all))
		return toDebrief, nil
	}
	return p.visitAndGrade(all[n-1].ID)
}

func (p *player) visitAndGrade(id string) (place, error) {
	if id == "asked" {
		return toCase, nil
	}
	was := p.s.Grade
	step, to, err := p.visit(id)
	switch {
	case err != nil:
		return toToday, err
	case step == 0 && to != toDebrief:
		return to, nil
	}
	if err := p.regrade(); err != nil {
		return toToday, err
	}
	p.compare(was)
	return toDebrief, nil
}

func (p *player) regrade() error {
	if err := p.desk.Grade(p.s); err != nil {
		return fmt.Errorf("grading: %w", err)
	}
	p.printGrade(false)
	return nil
}

// compare says what a change did to the verdict.
func (p *player) compare(was *scoring.Grade) {
	now := p.s.Grade
	p.say("Before this change: " + was.Verdict + ", " + screen.CountsText(was) + ". Now: " + now.Verdict + ", " + screen.CountsText(now) + ".")
}
