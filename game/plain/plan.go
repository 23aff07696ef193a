package plain

import (
	"strconv"

	"leastwatt/game/screen"
)

const planHelp = `Enter leaves a phrase as it is and goes on. A number, or the beginning of a choice, decides it. "-" leaves it open again. "?" explains, "<" goes back, "u" undoes. "note" prints the note, "usual" fills protection and advice from your last plan. "case" goes back to asking, "bench" after the note treats by hand, "grade" grades, "today" leaves the case.`

// plan walks the note phrase by phrase, then prints it.
func (p *player) plan() (place, error) {
	p.heading("Plan. " + planHelp)
	at := 0
	for {
		phrases := p.phrases()
		if at >= len(phrases) {
			return p.reviewPlan()
		}
		step, to, err := p.visit(phrases[at].ID)
		if err != nil || step == 0 {
			return to, err
		}
		at = max(0, p.indexOf(phrases[at].ID, at)+step)
	}
}

// phrases lists the note's phrases less what was asked, which has its own
// place.
func (p *player) phrases() []screen.Piece {
	return screen.Phrases(p.s.Note(p.words()))[1:]
}

// indexOf finds a phrase again after the note has changed.
func (p *player) indexOf(id string, was int) int {
	for i, x := range p.phrases() {
		if x.ID == id {
			return i
		}
	}
	return was
}

// visit shows one phrase and takes answers until the reader moves on by step;
// step 0 leaves the walk for a place.
func (p *player) visit(id string) (step int, to place, err error) {
	p.s.Looked(id)
	p.line("")
	p.show(id)
	for {
		answer, err := p.ask("")
		if err != nil {
			return 0, toToday, err
		}
		word, rest := command(answer)
		switch {
		case answer == "":
			return 1, toPlan, nil
		case answer == "<":
			return -1, toPlan, nil
		case answer == "?":
			p.explain(id)
		case is(answer, "u", "undo"):
			p.undo()
			p.show(id)
		case is(answer, "note"):
			p.printNote(nil)
		case is(answer, "usual"):
			p.usual()
		case is(answer, "case"):
			return 0, toCase, nil
		case is(answer, "grade"):
			return 0, toDebrief, nil
		case is(answer, "today"):
			return 0, toToday, nil
		case p.aside(word, rest):
		case p.decide(id, answer):
			return 1, toPlan, nil
		}
	}
}

// reviewPlan prints the note after the walk; a phrase's number goes back to it.
func (p *player) reviewPlan() (place, error) {
	if err := p.sure(); err != nil {
		return toToday, err
	}
	p.printNote(nil)
	p.say(openText(screen.OpenPhrases(p.s.Note(p.words()))))
	for {
		answer, err := p.ask(p.planAsks())
		if err != nil {
			return toToday, err
		}
		word, rest := command(answer)
		n, numErr := strconv.Atoi(answer)
		switch {
		case answer == "" || is(answer, "grade"):
			return toDebrief, nil
		case is(answer, "bench"):
			return p.treat()
		case is(answer, "case"):
			return toCase, nil
		case is(answer, "today"):
			return toToday, nil
		case is(answer, "plan"):
			return toPlan, nil
		case is(answer, "note"):
			p.printNote(nil)
		case is(answer, "usual"):
			p.usual()
		case is(answer, "u", "undo"):
			p.undo()
			p.printNote(nil)
		case numErr == nil:
			if to, err := p.change(n); err != nil || to != toPlan {
				return to, err
			}
			p.printNote(nil)
		case p.aside(word, rest):
		default:
			p.say(planHelp)
		}
	}
}

// planAsks is the prompt after the walk; the bench is named where it opens.
func (p *player) planAsks() string {
	if p.s.CanTreat() {
		return `Number of a phrase to change it, "bench" to treat, "grade", "case", "today" or ?`
	}
	return `Number of a phrase to change it, "grade", "case", "today" or ?`
}

func openText(open int) string {
	switch open {
	case 0:
		return "No phrase is open."
	case 1:
		return "One phrase is open. It is graded as not done."
	}
	return strconv.Itoa(open) + " phrases are open. They are graded as not done."
}

// change visits the phrase of a number in the printed note.
func (p *player) change(n int) (place, error) {
	all := screen.Phrases(p.s.Note(p.words()))
	switch {
	case n < 1 || n > len(all):
		p.sayf("There is no phrase %d. It can be 1 to %d.", n, len(all))
		return toPlan, nil
	case all[n-1].ID == "asked":
		return toCase, nil
	}
	step, to, err := p.visit(all[n-1].ID)
	if err != nil || step == 0 {
		return to, err
	}
	return toPlan, nil
}

func (p *player) usual() {
	if p.desk.UseUsual(p.s) {
		p.say("Protection and advice are filled from your last plan. Look at each.")
		return
	}
	p.say("There is no earlier plan to take from, or nothing is open.")
}

// sure asks how sure the reader is, which earns nothing.
func (p *player) sure() error {
	e, _ := screen.EditorFor(p.s.Plan, "confidence", p.words())
	now := "not set"
	if n, ok := e.Number(); ok {
		now = (n * 100).String() + " %"
	}
	p.line("")
	for {
		answer, err := p.ask("How sure are you that the verdict will be safe, in per cent? Now " + now + ". Enter leaves it.")
		if err != nil || answer == "" {
			return err
		}
		ok := false
		p.s.Edit("", "confidence", p.words(), func(e *screen.Editor) { ok = e.TypePercent(answer) == nil })
		if ok {
			return nil
		}
		p.say("It can be 0 to 100.")
	}
}
