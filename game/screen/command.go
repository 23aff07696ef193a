package screen

import (
	"fmt"

	"leastwatt/cases"
)

func (a *App) resizeText(by int) {
	s := a.Settings
	s.TextScale = min(max(s.TextScale+by, 100), 200)
	a.change(s)
	a.toast = fmt.Sprintf("Text size %d"+thinSpace+"%%.", s.TextScale)
}

// change takes new settings at once and hands them out to be kept.
func (a *App) change(s Settings) {
	relabelled := s.Labels != a.Settings.Labels || s.Words != a.Settings.Words
	a.ChangeSettings(s)
	if relabelled && a.session != nil && a.session.Grade != nil {
		a.regrade()
	}
}

func (a *App) undo() {
	if r := a.play.round; a.at == atRound && r != nil {
		a.undoGlance()
		return
	}
	if a.working() {
		a.dropTyping()
		if !a.session.Undo() {
			a.toast = "Nothing to undo."
		}
		a.afterChange()
	}
}

func (a *App) redo() {
	if a.working() {
		a.dropTyping()
		if !a.session.Redo() {
			a.toast = "Nothing to do again."
		}
		a.afterChange()
	}
}

// working tells whether a case is on screen, so that undo and copy mean its
// plan.
func (a *App) working() bool {
	return a.session != nil && (a.at == atCase || a.at == atPlan || a.at == atBench || a.at == atDebrief)
}

// afterChange grades again in the debrief, so that the marks move at once.
func (a *App) afterChange() {
	if a.at == atDebrief {
		a.regrade()
	}
}

func (a *App) copyNote() {
	switch {
	case !a.working():
	case a.Copy == nil:
		a.toast = "There is no clipboard here."
	default:
		if err := a.Copy(CopyText(a.session, a.words())); err != nil {
			a.toast = "The note could not be copied: " + err.Error()
			return
		}
		a.toast = "The note is copied."
	}
}

func (a *App) useUsual() {
	if !a.working() {
		return
	}
	if a.UseUsual(a.session) {
		a.afterChange()
		a.toast = cases.Spell("Protection and advice are filled from your last plan. Look at each.", a.words())
		return
	}
	a.toast = "There is no earlier plan to take from, or nothing is open."
}
