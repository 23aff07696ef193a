package plain

import (
	"os"
	"path/filepath"
	"strconv"

	"leastwatt/cases"
	"leastwatt/game/screen"
	"leastwatt/scoring/logbook"
)

const todayHelp = `Type a number to begin that case. "all" lists every case, "today" today's. "assess" begins a self-assessment. "progress" tells what was shown and what is due, "attempts" what was graded. "learner" and a code goes on under that code. "code" and a case code opens a made case. "short" begins a short round of look-alikes. "rules" and some words search the rules. "packs" lists the packs. "words uk" or "words us" sets the spelling; "labels cautious", "labels us" or "labels uk" the drug labels. "quit" ends.`

// today lists the cases and opens one after another. With first it begins with
// the first case, as on a first start.
func (p *player) today(first bool) error {
	every := false
	if p.desk.Run() != nil { // under way, or ended by being taken up
		if err := p.selfAssess(); err != nil {
			return err
		}
		first = false
	}
	lines := p.desk.Lines(every)
	if first {
		if err := p.open(lines[0].Ref); err != nil {
			return err
		}
		lines = p.desk.Lines(every)
	}
	p.list(lines, every)
	for {
		answer, err := p.ask("Number of a case, or ?")
		if err != nil {
			return err
		}
		word, rest := command(answer)
		n, numErr := strconv.Atoi(answer)
		switch {
		case answer == "":
			n, numErr = 1, nil
			fallthrough
		case numErr == nil && n >= 1 && n <= len(lines):
			if err := p.open(lines[n-1].Ref); err != nil {
				return err
			}
			lines = p.desk.Lines(every)
			p.list(lines, every)
		case numErr == nil:
			p.sayf("There is no case %d here. It can be 1 to %d.", n, len(lines))
		case word == "all" || word == "any" || word == "today" || word == "list":
			every = word == "all" || word == "any"
			lines = p.desk.Lines(every)
			p.list(lines, every)
		case is(answer, "short", "short round", "round"):
			ref, err := p.shortRound()
			if err == nil {
				err = p.open(ref)
			}
			if err != nil {
				return err
			}
			lines = p.desk.Lines(every)
			p.list(lines, every)
		case is(answer, "progress"):
			p.progress()
		case is(answer, "attempts"):
			p.attempts()
		case word == "learner" && rest != "":
			p.learner(rest)
			lines = p.desk.Lines(every)
		case is(answer, "assess"):
			if err := p.selfAssess(); err != nil {
				return err
			}
			p.list(lines, every)
		case word == "code":
			if err := p.openCode(rest); err != nil {
				return err
			}
			lines = p.desk.Lines(every)
			p.list(lines, every)
		case p.aside(word, rest):
		default:
			p.say(todayHelp)
		}
	}
}

func (p *player) list(lines []screen.CaseLine, every bool) {
	if every {
		p.heading("Every case, the easier first.")
	} else {
		p.heading("Cases for today, the easier first. Each says why it is here.")
	}
	for i, l := range lines {
		p.indent(pad(strconv.Itoa(i+1), 3)+"  ", l.Quote)
		p.indent("     ", l.Who+". "+l.Why)
	}
}

// pad puts a text at the right of a column.
func pad(s string, n int) string {
	for len(s) < n {
		s = " " + s
	}
	return s
}

// open works on one case, and on the next ones when asked to.
func (p *player) open(ref string) error {
	for ref != "" {
		s, err := p.desk.Open(ref)
		if err != nil {
			return err
		}
		p.s = s
		if ref, err = p.work(); err != nil {
			return err
		}
	}
	return nil
}

// learner goes on under another code of the logbook.
func (p *player) learner(code string) {
	if err := logbook.CheckLearner(code); err != nil {
		p.say(capital(err.Error()) + ".")
		return
	}
	s := p.desk.Settings
	s.Learner = code
	p.desk.ChangeSettings(s)
	p.say("The logbook goes on as " + code + ".")
}

// openCode works on the case that a code names, or says what is wrong with the
// code.
func (p *player) openCode(code string) error {
	c, err := cases.MadeCase(code)
	if err != nil {
		p.say(capital(err.Error()) + ".")
		return nil
	}
	return p.open(cases.MadePackID + "/" + c.ID)
}

// place says what comes after a part of a case.
type place uint8

const (
	toCase place = iota
	toPlan
	toDebrief
	toNext
	toAnother
	toToday
)

// work goes between case, plan and debrief. It gives the next case, or "" for
// the list.
func (p *player) work() (next string, err error) {
	at := toCase
	for {
		switch at {
		case toCase:
			at, err = p.examine()
		case toPlan:
			at, err = p.plan()
		case toDebrief:
			at, err = p.debrief()
		case toNext:
			return p.desk.Next(p.s.Ref), nil
		case toAnother:
			return p.desk.Another(p.s.Ref)
		default:
			return "", nil
		}
		if err != nil {
			return "", err
		}
	}
}

// aside handles what can be asked anywhere and tells whether it did.
func (p *player) aside(word, rest string) bool {
	switch {
	case p.desk.Running() && (word == "rules" || word == "packs" || word == "load"):
		p.say("Not during a self-assessment.")
	case word == "rules":
		p.rules(rest)
	case word == "packs":
		p.packs()
	case word == "load" && rest != "":
		p.load(rest)
	case word == "words" && cases.Vocab.Has("words", rest):
		s := p.desk.Settings
		s.Words = cases.Words(rest)
		p.desk.ChangeSettings(s)
		p.say("The spelling is " + cases.Vocab.Label("words", rest, p.words()) + " now.")
	case word == "labels" && cases.Vocab.Has("labels", rest):
		s := p.desk.Settings
		s.Labels = rest
		p.desk.ChangeSettings(s)
		p.say("The drug labels are " + cases.Vocab.Label("labels", rest, p.words()) + " now.")
	default:
		return false
	}
	return true
}

// mostRules is how many rules one search prints.
const mostRules = 20

func (p *player) rules(query string) {
	found := screen.FindRules(p.desk.Set, query, "", p.words())
	p.heading(strconv.Itoa(len(found)) + " rules.")
	if query == "" {
		audit := screen.AuditRules(p.desk.Set)
		p.say(audit.Line(p.words()))
	}
	for i, r := range found {
		if i == mostRules {
			p.say("The first 20 are shown. Another word narrows it.")
			return
		}
		p.indent("- ", cases.Spell(r.Says, p.words()))
		p.indent("  ", cases.Spell(r.Why, p.words()))
		p.indent("  ", screen.SourceText(r.Source, r.Certainty, p.words())+" · "+r.Rule)
	}
}

func (p *player) packs() {
	p.heading("Packs:")
	for _, k := range p.desk.PackList() {
		p.indent("- ", k.Title+", "+k.Author+", version "+strconv.Itoa(k.Version)+", cases: "+strconv.Itoa(len(k.Cases)))
	}
	p.say(`"load" and a path add a pack after the same check as in the window.`)
}

// load checks a pack and adds it when it can be used.
func (p *player) load(name string) {
	if p.desk.LoadPack == nil {
		p.say("Packs cannot be added here. Name them on the command line.")
		return
	}
	whole, err := filepath.Abs(name)
	if err == nil {
		_, err = os.Stat(whole)
	}
	if err != nil {
		p.sayf("%s cannot be opened: %v.", name, err)
		return
	}
	r := p.desk.AddPack(p.desk.LoadPack(os.DirFS(filepath.Dir(whole)), filepath.Base(whole)))
	p.say(r.Outcome())
	for _, f := range r.Faults {
		p.indent("  ", "Error: "+f.Error())
	}
	for _, f := range r.Warnings {
		p.indent("  ", "Warning: "+f.Error())
	}
	for _, u := range r.Unsolved {
		p.indent("  ", u)
	}
}
