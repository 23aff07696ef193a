package screen

import (
	"fmt"

	"leastwatt/cases"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
	"leastwatt/scoring"
	"leastwatt/scoring/mastery"
)

// todayList is the state of the list of cases.
type todayList struct {
	all    bool   // every case, not only today's
	code   string // of a made case, as typed
	chosen int
}

func (a *App) rows() []dueCase {
	if !a.listing.all {
		return a.today()
	}
	rows := make([]dueCase, len(a.order))
	for i, e := range a.order {
		rows[i] = dueCase{e, ""}
	}
	return rows
}

func (a *App) enterToday() {
	a.listing.chosen = 0
	a.focus = "cases"
	a.wantThumbs()
}

func (a *App) wantThumbs() {
	for _, e := range a.rows() {
		a.gallery.want(pictureKey{e.ref, skin.ExamNone, thumbPx}, subjectOf(e.c))
	}
}

func (a *App) updateToday(msg any) {
	switch msg := msg.(type) {
	case ui.Choose:
		if msg.ID == "cases" && msg.Index >= 0 && msg.Index < len(a.rows()) {
			a.listing.chosen = msg.Index
		}
	case ui.Edited:
		if msg.ID == "code" {
			a.listing.code = msg.Text
		}
	case ui.Activate:
		switch msg.ID {
		case "open code":
			a.openCode(a.listing.code)
		case "cases", "begin":
			a.openCase(a.rows()[a.listing.chosen].ref)
		case "any":
			a.showAll(!a.listing.all)
		case "short round":
			a.goTo(atRound)
		case "assess":
			a.goTo(atAssess)
		}
	case ui.Key:
		switch {
		case msg.Name == "Enter" && a.focus == "code":
			a.openCode(a.listing.code)
		case msg.Name == "Enter":
			a.openCase(a.rows()[a.listing.chosen].ref)
		case msg.Name == "a" && !msg.Ctrl && !msg.Alt:
			a.showAll(!a.listing.all)
		case msg.Name == "s" && !msg.Ctrl && !msg.Alt:
			a.goTo(atRound)
		case msg.Name == "Escape" && a.listing.all:
			a.showAll(false)
		}
	}
}

func (a *App) showAll(all bool) {
	a.listing.all = all
	a.listing.chosen = 0
	a.wantThumbs()
}

func (a *App) viewToday() ui.Page {
	rows := a.rows()
	heading := capital(count(len(rows), "case")) + " for today"
	says := fmt.Sprintf("Chosen from %d, the easier first. Each says why it is here.", len(a.order))
	if a.Recording() {
		says = fmt.Sprintf("Chosen from %d: what is due, what is weak, and what is new.", len(a.order))
	}
	any := "Any case"
	if a.listing.all {
		heading, says, any = "Every case", "The easier first. No row says more than the patient does.", "Today's cases"
	}
	list := ui.List{ID: "cases", Name: "cases", Chosen: min(a.listing.chosen, len(rows)-1)}
	for _, e := range rows {
		list.Rows = append(list.Rows, a.caseRow(e))
	}
	main := ui.Column{Gap: 24, Children: []ui.Node{
		ui.Column{Gap: 4, Children: []ui.Node{
			ui.Text{Text: heading, Role: ui.Heading},
			ui.Text{Text: says, Role: ui.Body, Color: ui.QuietInk},
		}},
		ui.Scroll{ID: "case list", Child: list},
	}}
	margin := ui.Column{Gap: 12, Children: []ui.Node{
		ui.Text{Text: a.shownHeading(), Role: ui.Label},
		a.shownSoFar(),
		ui.Spacer{Size: 4},
		ui.Rule{},
		ui.Spacer{Size: 4},
		ui.Row{Gap: 12, Wrap: true, LineGap: 12, Children: []ui.Node{
			ui.Button{ID: "begin", Label: "Begin", Kind: ui.Primary, Hint: "Enter"},
			ui.Button{ID: "any", Label: any, Hint: "A"},
			ui.Button{ID: "short round", Label: a.roundLabel(), Hint: "S"},
			ui.Button{ID: "assess", Label: "Self-assessment", Hint: "E"},
		}},
		ui.Row{Gap: 12, Align: ui.End, Children: []ui.Node{
			ui.Box{Width: 180, Scale: true, Child: ui.Field{ID: "code", Name: "A case by its code", Text: a.listing.code, Hint: "7KQ-4TB-9XM"}},
			ui.Button{ID: "open code", Label: "Open"},
		}},
	}}
	return ui.Page{
		Title: "Leastwatt", Context: a.todayContext(),
		Body: ui.Split{Main: main, Margin: margin, MarginW: 320, Gap: 40},
		Keys: []ui.KeyTip{{Says: "Open", Key: "Enter"}, {Says: "Short round", Key: "S"}},
	}
}

func (a *App) todayContext() []ui.Span {
	text := a.packs[0].Author
	for _, p := range a.packs[1:] {
		if p.Author != a.packs[0].Author {
			text = capital(count(len(a.packs), "pack"))
		}
	}
	if a.Config.Today != nil {
		text = a.Config.Today().Format("Monday 2 January") + " · " + text
	}
	return []ui.Span{ui.Words{Text: text}}
}

// caseRow shows the patient's words, age, sex and site, and why the case is
// here: never what it is.
func (a *App) caseRow(e dueCase) ui.ListRow {
	thumb := a.picture(e.ref, e.c, skin.ExamNone, thumbPx)
	line := a.line(e)
	return ui.ListRow{Thumb: &thumb, Title: line.Quote, Says: line.Why, Right: line.Who}
}

// CaseLine is how a case reads in a list.
type CaseLine struct {
	Ref   string
	Quote string // the patient's words, in quotes
	Who   string // "Man, 68 · back"
	Why   string // why it is here: level and what was done, nothing else
}

func (d *Desk) line(e dueCase) CaseLine {
	return CaseLine{
		Ref: e.ref, Quote: "“" + cases.Spell(e.c.Presenting, d.words()) + "”",
		Who: person(&e.c.Patient) + " · " + place(&e.c.Lesion, d.words()), Why: d.whyHere(e),
	}
}

// Lines lists today's cases, or every case.
func (d *Desk) Lines(every bool) []CaseLine {
	var lines []CaseLine
	if every {
		for _, e := range d.order {
			lines = append(lines, d.line(dueCase{e, ""}))
		}
		return lines
	}
	for _, e := range d.today() {
		lines = append(lines, d.line(e))
	}
	return lines
}

func (d *Desk) whyHere(e dueCase) string {
	level := fmt.Sprintf("Level %d", e.c.Level)
	if e.why != "" {
		level = e.why + ". " + level
	}
	if g := d.doneGrade(e.ref); g != nil {
		return level + ", done in this sitting: " + g.Verdict + "."
	}
	if p := d.drafts[e.ref]; p != nil && (p.Disposition != "" || len(cases.DecidedKeys(p)) > 0) {
		return level + ", begun."
	}
	if d.glanced[e.ref] {
		return level + ", seen in a short round."
	}
	if d.rec.tried[e.ref] {
		return level + ", done before."
	}
	if e.why != "" {
		return level + "."
	}
	return level + ", new to you."
}

// roundLabel is what leads to the short round, or back into it.
func (a *App) roundLabel() string {
	switch r := a.play.round; {
	case r == nil:
		return "Short round"
	case r.Over():
		return "Your short round"
	}
	return "Back to the round"
}

// shownSoFar tells by competency what was shown, with interval and number of
// cases, and whether one is over-sure. Without a logbook it counts this
// sitting.
func (a *App) shownSoFar() ui.Node {
	if !a.Recording() {
		return a.shownThisSitting()
	}
	if a.rec.attempts == 0 {
		return ui.Text{Role: ui.Quiet, Text: "No case graded yet. What you show stands here, by competency."}
	}
	list := a.rec.learner.Competencies()
	col := ui.Column{Gap: 12, Children: []ui.Node{a.competencyChart(list)}}
	cal := a.rec.learner.Calibrate()
	if cal.Says == mastery.SaysOverSure || cal.Says == mastery.SaysUnderSure {
		col.Children = append(col.Children, ui.Text{Role: ui.Quiet, Text: SureSays(&cal)})
	}
	return col
}

// shownThisSitting counts the cases of this sitting, and gives no estimate.
func (a *App) shownThisSitting() ui.Node {
	if len(a.done) == 0 {
		return ui.Text{Role: ui.Quiet, Text: "No case graded yet. Counts by subject stand here after the first."}
	}
	col := ui.Column{Gap: 6}
	for _, d := range a.shown() {
		says := "not met yet"
		if d.cases > 0 {
			says = fmt.Sprintf("%d of %s", d.clean, digits(d.cases, "case"))
		}
		col.Children = append(col.Children, ui.Row{Gap: 12, Align: ui.Middle, Children: []ui.Node{
			ui.Text{Text: d.label, Role: ui.Body},
			ui.Spacer{},
			ui.Text{Text: says, Role: ui.Quiet, Tabular: true, NoWrap: true},
		}})
	}
	col.Children = append(col.Children, ui.Spacer{Size: 2}, ui.Text{
		Role: ui.Quiet, Text: "Cases with no caution and no never event in that subject.",
	})
	return col
}

// verdictText is a grade's verdict as a heading.
func verdictText(g *scoring.Grade) string { return capital(g.Verdict) }

// shownHeading says what the figures beside the list are of.
func (a *App) shownHeading() string {
	if a.Recording() {
		return "Shown so far"
	}
	return "This sitting"
}
