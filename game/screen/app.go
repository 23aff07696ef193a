package screen

import (
	"leastwatt/cases"
	"leastwatt/game/ui"
)

// spot is one of the places of the program.
type spot uint8

const (
	atToday spot = iota
	atCase
	atPlan
	atBench
	atDebrief
	atRound
	atAssess
	atPacks // from here on Escape leads back
	atRules
	atSettings
	atProgress
	atAttempts
)

// App is the whole program as one screen: the desk, the case being worked on,
// and the place that is shown.
type App struct {
	*Desk
	gallery *gallery
	at      spot
	back    spot // where Escape leads from rules, packs and settings
	session *Session
	focus   string // what has the keyboard focus, or should get it
	help    bool   // the keys are shown
	toast   string
	w, h    float64 // of the window, logical px
	scale   float64 // text size

	listing todayList
	look    caseLook
	play    roundPlay
	exam    assessPlay
	work    benchPlay
	review  reviewPlay
	past    pastList

	newLearner    string    // a code as it is typed in the settings
	shownProgress *Progress // what the page of progress shows, nil until it is read
	edit          phraseEdit
	marks         marginNotes
	rules         ruleSearch
	reports       packReports
}

// NewApp makes the program's screen.
func NewApp(cfg Config) (*App, error) {
	d, err := NewDesk(cfg)
	if err != nil {
		return nil, err
	}
	a := &App{Desk: d, gallery: newGallery(cfg.Post), w: 1280, h: 800, scale: 1}
	a.scale = a.TextScale()
	a.goTo(atToday)
	if a.run != nil { // under way, or ended by being taken up: its sheet is shown
		a.goTo(atAssess)
	} else if cfg.FirstCase {
		a.openCase(a.today()[0].ref)
	}
	return a, nil
}

// Dark, TextScale, ReducedMotion and Sound are what a window asks before it
// paints.
func (a *App) Dark() bool { return a.Settings.Dark }

// TextScale is 1 to 2.
func (a *App) TextScale() float64 { return float64(a.Settings.TextScale) / 100 }

// ReducedMotion tells whether nothing may move by itself.
func (a *App) ReducedMotion() bool { return a.Settings.ReducedMotion }

// Sound tells whether sounds are wanted.
func (a *App) Sound() bool { return a.Settings.Sound }

// WantsText is true while an editor is open: then digits and letters belong to
// it.
func (a *App) WantsText() bool { return !a.help && a.editing() }

// Update changes the program by one message.
func (a *App) Update(msg any) {
	switch msg := msg.(type) {
	case ui.Resize:
		a.w, a.h, a.scale = float64(msg.W), float64(msg.H), msg.TextScale
		if a.at == atCase || a.at == atPlan {
			a.wantLesion()
		}
		if a.at == atBench {
			a.resizeBench()
		}
		return
	case pictureReady: // the next view shows it
		a.lookAhead()
		return
	case Tick:
		if msg.Of == runTick {
			a.runTicks()
		} else {
			a.tick(msg)
		}
		return
	case benchReckoned:
		a.reckoned(msg)
		return
	case scrubbed:
		a.cameTo(msg)
		return
	case curvePoint:
		a.curveCame(msg)
		return
	case packLoaded:
		a.packArrived(msg)
		return
	case ui.Drop:
		a.packDropped(msg)
		return
	case ui.Focused:
		a.focused(msg.ID)
		return
	case ui.Key:
		a.toast = ""
		if a.atWork() && !a.help && !msg.Alt && msg.Name != "?" && msg.Name != "F1" {
			break // letters belong to the hand
		}
		if a.key(msg) {
			return
		}
	case ui.Activate, ui.Choose, ui.Step, ui.Edited:
		a.toast = ""
	}
	if c, ok := msg.(ui.Choose); ok && c.ID == "tabs" {
		a.tab(c.Index)
		return
	}
	switch a.at {
	case atToday:
		a.updateToday(msg)
	case atCase:
		a.updateCase(msg)
	case atPlan:
		a.updatePlan(msg)
	case atBench:
		a.updateBench(msg)
	case atDebrief:
		a.updateDebrief(msg)
	case atRound:
		a.updateRound(msg)
	case atAssess:
		a.updateAssess(msg)
	case atPacks:
		a.updatePacks(msg)
	case atRules:
		a.updateRules(msg)
	case atSettings:
		a.updateSettings(msg)
	case atProgress:
		a.updateProgress(msg)
	case atAttempts:
		a.updateAttempts(msg)
	}
}

// focused remembers where the focus is, and tells the places that mind.
func (a *App) focused(id string) {
	was := a.focus
	a.focus = id
	if a.help {
		return
	}
	switch a.at {
	case atPlan, atDebrief:
		a.phraseFocused(was, id)
	}
}

// goTo shows a place.
func (a *App) goTo(at spot) {
	if a.keptOut(at) {
		return
	}
	if a.at == atBench {
		a.pedal(false)
	}
	a.leaveEditor()
	a.stopClock()
	switch at {
	case atPacks, atRules, atSettings, atProgress:
		if a.at < atPacks {
			a.back = a.at
		}
	}
	a.at = at
	a.help = false
	switch at {
	case atToday:
		a.enterToday()
	case atCase:
		a.enterCase()
	case atPlan:
		a.enterPlan()
	case atBench:
		a.enterBench()
	case atDebrief:
		a.enterDebrief()
	case atRound:
		a.enterRound()
	case atAssess:
		a.enterAssess()
	case atRules:
		a.focus = "rules search"
	case atSettings:
		a.focus = "set text"
	case atPacks:
		a.focus = "packs"
	case atAttempts:
		a.enterAttempts()
	case atProgress:
		a.shownProgress = nil
		a.focus = "tabs"
	}
}

func (a *App) openCase(ref string) {
	s, err := a.Open(ref)
	if err != nil {
		a.toast = err.Error()
		return
	}
	a.session = s
	a.look = caseLook{}
	a.edit = phraseEdit{}
	a.marks = marginNotes{}
	a.goTo(atCase)
}

// key handles the keys that mean the same everywhere and tells whether it did.
func (a *App) key(k ui.Key) bool {
	switch {
	case a.help:
		if k.Name == "Escape" || k.Name == "?" {
			a.help = false
		}
		return true
	case k.Alt && !k.Ctrl:
		return a.altKey(k.Name)
	case k.Ctrl && !k.Alt:
		return a.ctrlKey(k)
	}
	switch k.Name {
	case "?", "F1":
		a.help = true
	case "t":
		a.goTo(atToday)
	case "e":
		if a.at != atToday {
			return false
		}
		a.goTo(atAssess)
	case "k":
		a.goTo(atPacks)
	case "p":
		if a.at == atAssess {
			return false
		}
		a.goTo(atProgress)
	case "r":
		a.goTo(atRules)
	case ",":
		a.goTo(atSettings)
	case "Escape":
		if a.at == atAttempts {
			a.goTo(atProgress)
			return true
		}
		if a.at >= atPacks {
			a.goTo(a.back)
			return true
		}
		return false
	default:
		return false
	}
	return true
}

// atWork tells whether the hand is on the bench.
func (a *App) atWork() bool {
	return a.at == atBench && a.session != nil && a.session.Treatment == nil && a.work.bench != nil && a.work.working == ""
}

// toBench leads to the bench where the plan can be carried out there.
func (a *App) toBench() {
	switch {
	case a.Running() && !a.run.Start.Bench:
		a.toast = "This self-assessment is of plans only."
	case !a.session.CanTreat():
		a.toast = "The bench opens for a plan that treats or takes tissue by current, blade, scissors or curette."
	default:
		a.goTo(atBench)
	}
}

func (a *App) altKey(name string) bool {
	if len(name) != 1 || name[0] < '1' || name[0] > '4' {
		return false
	}
	switch {
	case a.session == nil:
		a.toast = "Open a case first."
	case name == "1":
		a.goTo(atCase)
	case name == "2":
		a.goTo(atPlan)
	case name == "3":
		a.toBench()
	case a.Running():
		a.goTo(atAssess)
	case a.session.Grade == nil:
		a.toast = "Grade the plan first. The debrief comes after that."
	default:
		a.goTo(atDebrief)
	}
	return true
}

func (a *App) ctrlKey(k ui.Key) bool {
	switch k.Name {
	case "+", "=":
		a.resizeText(25)
	case "-":
		a.resizeText(-25)
	case "0":
		a.resizeText(100 - a.Settings.TextScale)
	case "z":
		if k.Shift {
			a.redo()
		} else {
			a.undo()
		}
	case "y":
		a.redo()
	case "c":
		a.copyNote()
	case "k":
		a.useUsual()
	case "Enter":
		if a.at != atPlan {
			return false
		}
		a.gradeNow()
	default:
		return false
	}
	return true
}

// tab goes where a tab of the top line leads.
func (a *App) tab(i int) {
	if a.working() {
		a.altKey([]string{"1", "2", "3", "4"}[min(max(i, 0), 3)])
		return
	}
	a.goTo([]spot{atToday, atProgress, atPacks, atRules, atSettings}[min(max(i, 0), 4)])
}

// View shows the place as a tree of nodes.
func (a *App) View() ui.Node {
	var p ui.Page
	switch a.at {
	case atCase:
		p = a.viewCase()
	case atPlan:
		p = a.viewPlan()
	case atBench:
		p = a.viewBench()
	case atDebrief:
		p = a.viewDebrief()
	case atRound:
		p = a.viewRound()
	case atAssess:
		p = a.viewAssess()
	case atProgress:
		p = a.viewProgress()
	case atAttempts:
		p = a.viewAttempts()
	case atPacks:
		p = a.viewPacks()
	case atRules:
		p = a.viewRules()
	case atSettings:
		p = a.viewSettings()
	default:
		p = a.viewToday()
	}
	p.Tabs = a.tabs()
	p.Foot = Caution(a.words())
	if a.tight() && len(p.Keys) > 2 {
		p.Keys = p.Keys[:2]
	}
	p.Keys = append(p.Keys, ui.KeyTip{Says: "All keys", Key: "?"})
	p.Focus = a.focus
	switch {
	case a.toast != "":
		p.Toast = &ui.Toast{Text: a.toast}
	case a.saveErr != "":
		p.Toast = &ui.Toast{Text: a.saveErr}
	}
	if a.help {
		p.Over = a.viewKeys()
	}
	return p
}

func (a *App) tabs() *ui.Tabs {
	if a.working() {
		at := map[spot]int{atCase: 0, atPlan: 1, atBench: 2, atDebrief: 3}[a.at]
		bench := ui.Tab{Label: "Bench", Off: !a.session.CanTreat()}
		if a.Running() {
			return &ui.Tabs{ID: "tabs", Name: "parts of the run", At: at, Hint: "Alt 1–4", Tabs: []ui.Tab{{Label: "Case"}, {Label: "Plan"}, bench, {Label: "The run"}}}
		}
		return &ui.Tabs{ID: "tabs", Name: "parts of the case", At: at, Hint: "Alt 1–4", Tabs: []ui.Tab{
			{Label: "Case"}, {Label: "Plan"}, bench, {Label: "Debrief", Off: a.session.Grade == nil},
		}}
	}
	at := map[spot]int{atToday: 0, atProgress: 1, atAttempts: 1, atPacks: 2, atRules: 3, atSettings: 4}[a.at]
	return &ui.Tabs{ID: "tabs", Name: "places", At: at, Tabs: []ui.Tab{
		{Label: "Today", Hint: "T"}, {Label: "Progress", Hint: "P"}, {Label: "Packs", Hint: "K"}, {Label: "Rules", Hint: "R"}, {Label: "Settings", Hint: ","},
	}}
}

// caseContext is the quiet line beside the title: pack, number, the patient's
// words. Nothing of it tells what the lesion is.
func (a *App) caseContext() []ui.Span {
	s := a.session
	if a.Running() {
		return []ui.Span{ui.Words{Text: "Self-assessment · " + a.RunContext() + " · "}, ui.Words{Text: "“" + cases.Spell(s.Case.Presenting, a.words()) + "”", Italic: true}}
	}
	return []ui.Span{
		ui.Words{Text: s.Pack.Author + " · " + a.whichCase(s) + " · "},
		ui.Words{Text: "“" + cases.Spell(s.Case.Presenting, a.words()) + "”", Italic: true},
	}
}
