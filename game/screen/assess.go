package screen

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"time"

	"leastwatt/game/sheet"
	"leastwatt/scoring/assess"
)

// assessPlay is the state of the self-assessment in the window.
type assessPlay struct {
	blueprint int
	seed      string
	watchedBy string
	chosen    int    // in the list of cases at the end
	sure      bool   // asked whether to give up
	stop      func() // ends the running clock, nil when none runs
	kept      string // where the sheet was kept
}

// runTick is the number that the clock of a run ticks with.
const runTick = -1

func (a *App) enterAssess() {
	switch r := a.run; {
	case r == nil:
		a.focus = "run begin"
		if a.exam.seed == "" {
			a.exam.seed = strconv.FormatUint(a.NewSeed(), 10)
		}
	case r.Ending == "":
		a.focus = "run on"
		a.startRunClock()
	default:
		a.focus = "run list"
	}
}

// startRunClock ticks while a run with a limit is under way.
func (a *App) startRunClock() {
	if a.exam.stop == nil && a.Ticks != nil && a.run.Start.LimitMin > 0 {
		a.exam.stop = a.Ticks(runTick)
	}
}

func (a *App) stopRunClock() {
	if a.exam.stop != nil {
		a.exam.stop()
		a.exam.stop = nil
	}
}

// runTicks looks whether the time of a run is over.
func (a *App) runTicks() {
	if !a.timeUp() {
		return
	}
	a.stopRunClock()
	a.session = nil
	a.goTo(atAssess)
	a.toast = "The time is up."
}

// keptOut tells whether a place is closed while a run is under way, and says
// so.
func (a *App) keptOut(at spot) bool {
	if !a.Running() {
		return false
	}
	switch at {
	case atCase, atPlan, atBench, atAssess, atSettings:
		return false
	}
	a.toast = "Not during a self-assessment. Hand in or give up first."
	return true
}

func (a *App) updateAssess(msg any) {
	switch {
	case a.run == nil:
		a.updateRunAbout(msg)
	case a.run.Ending == "":
		a.updateRunUnderWay(msg)
	default:
		a.updateRunEnd(msg)
	}
}

func (a *App) beginRun() {
	seed, err := strconv.ParseUint(strings.TrimSpace(a.exam.seed), 10, 64)
	if err != nil {
		a.toast = "The seed is a whole number, such as 20261125."
		return
	}
	list := a.Blueprints()
	b := list[min(max(a.exam.blueprint, 0), len(list)-1)]
	if err := a.BeginRun(b, seed, strings.TrimSpace(a.exam.watchedBy)); err != nil {
		a.toast = capital(sentence(err.Error()))
		return
	}
	a.exam.sure, a.exam.kept, a.exam.chosen = false, "", 0
	a.startRunClock()
	a.nextOfRun()
}

// nextOfRun opens the next case of the run, or shows what the run came to.
func (a *App) nextOfRun() {
	at := a.run.Next()
	if a.run.Ending != "" || at < 0 {
		a.stopRunClock()
		a.session = nil
		a.goTo(atAssess)
		return
	}
	a.openCase(a.run.Ref(at))
}

// handIn gives the plan in hand away and goes on.
func (a *App) handIn() {
	if err := a.HandIn(a.session); err != nil {
		a.toast = capital(sentence(err.Error()))
		if a.Running() {
			return
		}
	}
	a.nextOfRun()
}

func (a *App) giveUp() {
	if !a.exam.sure {
		a.exam.sure = true
		return
	}
	if err := a.EndRun(assess.GivenUp); err != nil {
		a.toast = capital(sentence(err.Error()))
		return
	}
	a.nextOfRun()
}

// RunSheet is what the run in hand came to, as a page.
func (d *Desk) RunSheet() *sheet.Sheet {
	zone := time.UTC
	if d.Config.Today != nil {
		zone = d.Config.Today().Location()
	}
	return sheet.Make(d.Set, d.run, assess.Judge(d.run), d.words(), zone)
}

// KeepSheet writes the result sheet of the run and says where it is.
func (d *Desk) KeepSheet() (string, error) {
	if d.Assess.SavePDF == nil {
		return "", fmt.Errorf("there is no place here to keep a sheet")
	}
	var b bytes.Buffer
	if err := d.RunSheet().PDF(&b); err != nil {
		return "", err
	}
	return d.Assess.SavePDF("self-assessment-"+d.run.ID+".pdf", b.Bytes())
}
