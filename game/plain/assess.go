package plain

import (
	"strconv"
	"strings"

	"leastwatt/game/screen"
	"leastwatt/scoring/assess"
)

// selfAssess runs a self-assessment, or goes on with the one under way, and
// prints what it came to. Leaving the program leaves the run under way.
func (p *player) selfAssess() error {
	if p.desk.Run() != nil && !p.desk.Running() && !p.sheetShown { // it ended when it was taken up
		return p.runOver()
	}
	if !p.desk.Running() {
		if begun, err := p.beginRun(); err != nil || !begun {
			return err
		}
	}
	for p.desk.Running() {
		if err := p.nextOfRun(); err != nil {
			return err
		}
	}
	return p.runOver()
}

// beginRun tells what a run is and asks what it needs.
func (p *player) beginRun() (begun bool, err error) {
	list := p.desk.Blueprints()
	at := 0
	p.heading("Self-assessment.")
	if len(list) > 1 {
		for i, b := range list {
			p.indent(pad(strconv.Itoa(i+1), 3)+"  ", b.Title)
		}
		answer, err := p.ask("Number of a run, Enter for the first")
		if err != nil {
			return false, err
		}
		if n, err := strconv.Atoi(answer); err == nil && n >= 1 && n <= len(list) {
			at = n - 1
		}
	}
	for _, l := range screen.AssessSays(list[at], p.words()) {
		p.say(l)
	}
	seed := p.desk.NewSeed()
	answer, err := p.ask("Seed, Enter for " + strconv.FormatUint(seed, 10) + `, "today" to go back`)
	if err != nil || is(answer, "today") {
		return false, err
	}
	if answer != "" {
		if seed, err = strconv.ParseUint(answer, 10, 64); err != nil {
			p.say("The seed is a whole number, such as 20261125.")
			return false, nil
		}
	}
	watched, err := p.ask("Watched by, Enter for nobody")
	if err != nil {
		return false, err
	}
	if err := p.desk.BeginRun(list[at], seed, watched); err != nil {
		p.sayf("It cannot begin: %v.", err)
		return false, nil
	}
	p.sheetShown = false
	return true, nil
}

// nextOfRun works on the case in hand until it is handed in or given up.
func (p *player) nextOfRun() error {
	run := p.desk.Run()
	s, err := p.desk.Open(run.Ref(run.Next()))
	if err != nil {
		return err
	}
	p.s = s
	p.heading("Self-assessment, " + p.desk.RunContext() + ".")
	at := toCase
	for p.desk.Running() {
		switch at {
		case toCase:
			at, err = p.examine()
		case toPlan:
			at, err = p.plan()
		case toDebrief:
			if err := p.desk.HandIn(p.s); err != nil {
				p.sayf("%s.", capital(err.Error()))
				at = toPlan
				continue
			}
			return nil
		default:
			at, err = p.leaveRun()
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// leaveRun asks whether the run is to be given up.
func (p *player) leaveRun() (place, error) {
	answer, err := p.ask(`A run is under way. "give up" ends it unpassed, "quit" leaves the program and the clock goes on, Enter goes back`)
	if err != nil {
		return toToday, err
	}
	if is(answer, "give up") {
		if err := p.desk.EndRun(assess.GivenUp); err != nil {
			p.sayf("%s.", capital(err.Error()))
		}
	}
	return toCase, nil
}

// runOver prints the sheet and offers to keep it.
func (p *player) runOver() error {
	p.sheetShown = true
	for _, l := range strings.Split(strings.TrimRight(p.desk.RunSheet().Text(), "\n"), "\n") {
		p.line(l)
	}
	answer, err := p.ask(`"keep" writes the sheet as a PDF, Enter goes back to today`)
	if err != nil {
		return err
	}
	if is(answer, "keep") {
		where, err := p.desk.KeepSheet()
		if err != nil {
			p.sayf("The sheet could not be kept: %v.", err)
			return nil
		}
		p.sayf("The sheet is in %s.", where)
	}
	return nil
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
