package screen

import (
	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

// Tick tells that a second has gone by at a picture of a short round. Of is
// the number that [Config.Ticks] was started with, so that a late one is known.
type Tick struct{ Of int }

// roundPlay is the state of the short round in the window.
type roundPlay struct {
	round  *Round // nil before the first
	marks  []GlanceMark
	by     Settings // that the marks were made with
	chosen int      // in the list at the end
	clock  int      // counts the clocks started
	stop   func()   // ends the running clock, nil when none runs
	held   string   // the key that took the last decision, while it is down
}

// enterRound shows the round in hand, or tells what a round is.
func (a *App) enterRound() {
	r := a.play.round
	switch {
	case r == nil:
		a.focus = "round begin"
	case r.Over():
		a.focus = "round list"
		a.wantGlances()
	default:
		a.nextGlance()
	}
}

func (a *App) beginRound(timed bool) {
	r, err := a.NewRound(timed && a.Ticks != nil)
	if err != nil {
		a.toast = capital(sentence(err.Error()))
		return
	}
	a.play = roundPlay{round: r, clock: a.play.clock}
	a.goTo(atRound)
}

// nextGlance brings the picture in hand, with a clock of its own.
func (a *App) nextGlance() {
	a.stopClock()
	r := a.play.round
	if r.Over() {
		a.play.chosen = a.firstToOpen()
		a.enterRound()
		return
	}
	a.focus = "lens" // Enter looks closer; it never decides by itself
	a.wantGlance(r.Now())
	if r.Timed && a.Ticks != nil {
		a.play.clock++
		a.play.stop = a.Ticks(a.play.clock)
	}
}

// stopClock ends the clock. It runs only while a picture is in sight.
func (a *App) stopClock() {
	if a.play.stop != nil {
		a.play.stop()
		a.play.stop = nil
	}
}

// tick counts a second of the picture in hand, once that is drawn.
func (a *App) tick(t Tick) {
	r := a.play.round
	if a.at != atRound || a.help || a.play.stop == nil || t.Of != a.play.clock || a.gallery.have(a.glanceKey(r.Now())) == nil {
		return
	}
	was := r.At
	if r.Tick(); r.At != was {
		a.toast = "The time for that picture is over."
		a.nextGlance()
	}
}

func (a *App) glanceKey(g *Glance) pictureKey {
	exam := skin.ExamNone
	if g.Lens {
		exam = skin.ExamMagnified
	}
	return pictureKey{g.ref, exam, lesionPx}
}

func (a *App) wantGlance(g *Glance) { a.gallery.want(a.glanceKey(g), subjectOf(g.c)) }

// lookAhead draws the picture that comes next while this one is looked at.
func (a *App) lookAhead() {
	if r := a.play.round; a.at == atRound && r != nil && r.At+1 < len(r.Items) {
		a.wantGlance(&r.Items[r.At+1])
	}
}

func (a *App) wantGlances() {
	for i := range a.play.round.Items {
		g := &a.play.round.Items[i]
		a.gallery.want(pictureKey{g.ref, skin.ExamNone, thumbPx}, subjectOf(g.c))
	}
	a.wantGlance(a.glanceChosen())
}

func (a *App) updateRound(msg any) {
	switch msg := msg.(type) {
	case ui.KeyUp, ui.FocusLost:
		a.play.held = ""
	case ui.Key:
		if msg.Name == a.play.held { // held down it decides one picture, not all
			return
		}
	}
	switch r := a.play.round; {
	case r == nil:
		a.updateRoundAbout(msg)
	case r.Over():
		a.updateRoundEnd(msg)
	default:
		a.updateGlance(msg)
	}
}

func (a *App) updateRoundAbout(msg any) {
	switch msg := msg.(type) {
	case ui.Activate:
		switch msg.ID {
		case "round begin":
			a.beginRound(true)
		case "round unhurried":
			a.beginRound(false)
		}
	case ui.Key:
		switch {
		case msg.Ctrl || msg.Alt:
		case msg.Name == "Enter":
			a.beginRound(true)
		case msg.Name == "w":
			a.beginRound(false)
		case msg.Name == "Escape":
			a.goTo(atToday)
		}
	}
}

// glanceKeys are the keys of a round, one for each choice.
var glanceKeys = map[string]string{
	"1": "decide treat", "2": "decide biopsy_first", "3": "decide refer", "4": "decide leave",
	"s": "send yes", "n": "send no", "l": "lens",
}

func (a *App) updateGlance(msg any) {
	switch msg := msg.(type) {
	case ui.Activate:
		a.choose(msg.ID)
	case ui.Key:
		switch {
		case msg.Ctrl || msg.Alt:
		case msg.Name == "Escape":
			a.goTo(atToday)
		case msg.Name == "Backspace":
			a.undoGlance()
		default:
			a.play.held = msg.Name
			a.choose(glanceKeys[msg.Name])
		}
	}
}

// choose takes a decision, or looks closer.
func (a *App) choose(id string) {
	r := a.play.round
	was := r.At
	switch id {
	case "lens":
		g := r.Now()
		g.Lens = !g.Lens
		a.wantGlance(g)
		return
	case "send yes":
		r.Send(true)
	case "send no":
		r.Send(false)
	case "decide treat", "decide biopsy_first", "decide refer", "decide leave":
		r.Decide(id[len("decide "):])
	case "round back":
		a.undoGlance()
		return
	default:
		return
	}
	switch {
	case r.At != was:
		a.nextGlance()
	case r.Now().AsksTissue():
		a.focus = "send yes"
	}
}

func (a *App) undoGlance() {
	r := a.play.round
	was := r.At
	switch {
	case !r.Undo():
		a.toast = "Nothing to take back."
	case r.At != was:
		a.nextGlance()
	default:
		a.focus = "lens"
	}
}

func (a *App) updateRoundEnd(msg any) {
	switch msg := msg.(type) {
	case ui.Choose:
		if msg.ID == "round list" && msg.Index >= 0 && msg.Index < len(a.play.round.Items) {
			a.play.chosen = msg.Index
			a.wantGlance(a.glanceChosen())
		}
	case ui.Activate:
		switch msg.ID {
		case "round list", "round open":
			a.openCase(a.glanceChosen().ref)
		case "round again":
			a.anotherRound()
		case "round today":
			a.goTo(atToday)
		default:
			a.seeRule(msg.ID)
		}
	case ui.Key:
		switch {
		case msg.Ctrl || msg.Alt:
		case msg.Name == "s":
			a.anotherRound()
		case msg.Name == "Escape":
			a.goTo(atToday)
		}
	}
}

// anotherRound tells again what a round is: its clock starts only when one is
// ready for it.
func (a *App) anotherRound() {
	a.play = roundPlay{clock: a.play.clock}
	a.enterRound()
}

func (a *App) glanceChosen() *Glance { return &a.play.round.Items[a.play.chosen] }

// glanceMarks judges the pictures of a round that is over.
func (a *App) glanceMarks() []GlanceMark {
	if a.play.marks != nil && a.play.by == a.Settings {
		return a.play.marks
	}
	a.play.marks, a.play.by = make([]GlanceMark, len(a.play.round.Items)), a.Settings
	for i := range a.play.marks {
		m, err := a.MarkGlance(&a.play.round.Items[i])
		if err != nil {
			m.Verdict = notDecided
			a.toast = capital(sentence(err.Error()))
		}
		a.play.marks[i] = m
	}
	return a.play.marks
}

// firstToOpen is the first picture worth opening as a full case, else the
// first of all.
func (a *App) firstToOpen() int {
	for i, m := range a.glanceMarks() {
		if m.WorthOpening() {
			return i
		}
	}
	return 0
}
