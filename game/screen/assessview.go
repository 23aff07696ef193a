package screen

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/assess"
)

func (a *App) viewAssess() ui.Page {
	p := ui.Page{Title: "Self-assessment"}
	switch {
	case a.run == nil:
		p.Context = []ui.Span{ui.Words{Text: "a run without help"}}
		p.Body, p.Keys = a.viewRunAbout(), []ui.KeyTip{{Says: "Back", Key: "Esc"}}
	case a.run.Ending == "":
		p.Context = []ui.Span{ui.Words{Text: a.RunContext()}}
		p.Body = a.viewRunUnderWay()
	default:
		p.Context = []ui.Span{ui.Words{Text: a.run.Start.Title}}
		p.Body, p.Keys = a.viewRunEnd(), []ui.KeyTip{{Says: "Back", Key: "Esc"}}
	}
	return p
}

// AssessSays tells what a self-assessment is, in paragraphs.
func AssessSays(b NamedBlueprint, words cases.Words) []string {
	limit := "There is no time limit."
	if b.LimitMin > 0 {
		limit = fmt.Sprintf("You have %d minutes for the whole run. The clock goes on when the program is closed.", b.LimitMin)
	}
	lines := []string{
		capital(count(b.Cases(), "case")) + " that you have not seen, made from a seed. Each is planned and handed in, without a debrief. " + limit,
		"Rules, packs and the debrief are closed until the end. What you hand in stays.",
		fmt.Sprintf("You pass with no never event and every domain at its standard. A domain with fewer than %d items is not judged.", b.LeastItems),
		"Rules without a published source teach and do not judge. A run shows what was shown in it: it trains and does not certify.",
	}
	for i := range lines {
		lines[i] = cases.Spell(lines[i], words)
	}
	return lines
}

func (a *App) viewRunAbout() ui.Node {
	list := a.Blueprints()
	b := list[min(a.exam.blueprint, len(list)-1)]
	says := ui.Column{Gap: 12}
	for _, l := range AssessSays(b, a.words()) {
		says.Children = append(says.Children, ui.Text{Text: l, Role: ui.Body})
	}
	col := ui.Column{Gap: 24, Children: []ui.Node{
		ui.Text{Text: capital(count(b.Cases(), "case")) + ", no help", Role: ui.Heading},
		ui.Box{Child: says, MaxW: 620, Scale: true},
	}}
	if len(list) > 1 {
		choice := ui.ChoiceList{ID: "run kind", Name: "whose run", Chosen: a.exam.blueprint}
		for _, x := range list {
			choice.Items = append(choice.Items, ui.ChoiceItem{Label: x.Title})
		}
		col.Children = append(col.Children, ui.Box{Child: choice, MaxW: 420, Scale: true})
	}
	col.Children = append(col.Children,
		ui.Row{Gap: 24, Wrap: true, LineGap: 16, Children: []ui.Node{
			ui.Box{Width: 180, Scale: true, Child: ui.Field{ID: "run seed", Name: "Seed", Text: a.exam.seed, Hint: "20261125"}},
			ui.Box{Width: 320, Scale: true, Child: ui.Field{ID: "run watched", Name: "Watched by (leave empty if nobody)", Text: a.exam.watchedBy}},
		}},
		ui.Row{Children: []ui.Node{ui.Button{ID: "run begin", Label: "Begin", Kind: ui.Primary, Hint: "Ctrl ↵"}, ui.Spacer{}}},
	)
	return col
}

func (a *App) updateRunAbout(msg any) {
	switch msg := msg.(type) {
	case ui.Choose:
		if msg.ID == "run kind" {
			a.exam.blueprint = min(max(msg.Index, 0), len(a.Blueprints())-1)
		}
	case ui.Edited:
		switch msg.ID {
		case "run seed":
			a.exam.seed = msg.Text
		case "run watched":
			a.exam.watchedBy = msg.Text
		}
	case ui.Activate:
		if msg.ID == "run begin" {
			a.beginRun()
		}
	case ui.Key:
		switch {
		case msg.Name == "Enter" && msg.Ctrl:
			a.beginRun()
		case msg.Name == "Escape":
			a.goTo(atToday)
		}
	}
}

// RunContext says which case of the run is in hand and how much time is left.
func (d *Desk) RunContext() string {
	r := d.run
	text := fmt.Sprintf("case %d of %d", min(r.Answered()+1, len(r.Given)), len(r.Given))
	if left, limited := r.LeftMS(d.nowMS()); limited {
		text += " · " + leftText(left)
	}
	return text
}

// leftText rounds up, so that the last minute reads as one.
func leftText(ms int64) string { return digits(int((ms+59_999)/60_000), "minute") + " left" }

func (a *App) viewRunUnderWay() ui.Node {
	r := a.run
	on := "Go on"
	if r.Answered() == 0 {
		on = "Begin with the first case"
	}
	col := ui.Column{Gap: 20, Children: []ui.Node{
		ui.Text{Text: fmt.Sprintf("%d of %d handed in", r.Answered(), len(r.Given)), Role: ui.Heading},
	}}
	if left, limited := r.LeftMS(a.nowMS()); limited {
		col.Children = append(col.Children, ui.Text{Text: capital(leftText(left)) + ". The clock does not stop.", Role: ui.Body})
	}
	for _, g := range r.Away {
		col.Children = append(col.Children, ui.Text{
			Text: "The program was away for " + digits(int((g.ToMS-g.FromMS+59_999)/60_000), "minute") + ". The clock went on, and the sheet says so.", Role: ui.Body,
		})
	}
	row := ui.Row{Gap: 12, Wrap: true, LineGap: 12, Children: []ui.Node{
		ui.Button{ID: "run on", Label: on, Kind: ui.Primary, Hint: "Enter"},
	}}
	if a.exam.sure {
		col.Children = append(col.Children, ui.Text{Text: "Give up? What is handed in is kept, and the run is not passed.", Role: ui.Body})
		row.Children = append(row.Children, ui.Button{ID: "run give up", Label: "Yes, give up"}, ui.Button{ID: "run stay", Label: "No"})
	} else {
		row.Children = append(row.Children, ui.Button{ID: "run give up", Label: "Give up"})
	}
	col.Children = append(col.Children, row)
	return ui.Box{Child: col, MaxW: 640, Scale: true}
}

func (a *App) updateRunUnderWay(msg any) {
	switch msg := msg.(type) {
	case ui.Activate:
		switch msg.ID {
		case "run on":
			a.nextOfRun()
		case "run give up":
			a.giveUp()
		case "run stay":
			a.exam.sure = false
		}
	case ui.Key:
		switch {
		case msg.Name == "Enter":
			a.nextOfRun()
		case msg.Name == "Escape":
			a.exam.sure = false
		}
	}
}

func (a *App) viewRunEnd() ui.Node {
	s := a.RunSheet()
	table := ui.Column{Children: []ui.Node{a.domainLine("", "right", "share", "95 % interval", "", assess.DomainResult{}), ui.Rule{}}}
	for _, d := range s.Domains {
		table.Children = append(table.Children, a.domainLine(d.Domain, d.Right, d.Share, d.Interval, d.Says, d.Result), ui.Rule{})
	}
	left := ui.Column{Gap: 16, Children: []ui.Node{
		ui.Text{Text: s.Outcome, Role: ui.Heading},
		table,
	}}
	left.Children = append(left.Children, ui.Text{Text: strings.Join(s.Notes, " "), Role: ui.Small})
	buttons := ui.Row{Gap: 12, Wrap: true, LineGap: 12, Children: []ui.Node{
		ui.Button{ID: "run keep", Label: "Keep the sheet as a PDF", Kind: ui.Primary, Hint: "P"},
		ui.Button{ID: "run again", Label: "Another run", Hint: "N"},
		ui.Button{ID: "run today", Label: "Today", Hint: "T"},
	}}
	list := ui.List{ID: "run list", Name: "cases of the run", Chosen: a.exam.chosen}
	for i, c := range s.Cases {
		says := "No caution and no never event."
		if n := len(c.Cautions); n > 0 {
			says = capital(c.Cautions[0].Kind) + ": " + c.Cautions[0].Heading
			if n > 1 {
				says += fmt.Sprintf(" (and %d more)", n-1)
			}
		} else if c.Verdict == "not answered" {
			says = "Not handed in."
		}
		list.Rows = append(list.Rows, ui.ListRow{Title: fmt.Sprintf("%d. %s", i+1, c.Code), Says: says, Right: capital(c.Verdict)})
	}
	right := ui.Column{Gap: 16, Children: []ui.Node{
		buttons,
		ui.Text{Text: "Open a case to see its debrief", Role: ui.Label},
		ui.Grow(ui.Scroll{ID: "run cases", Child: list}),
	}}
	return ui.Split{Main: ui.Scroll{ID: "run sheet", Child: left}, Margin: right, MarginW: 480, MainMin: 440, Gap: 40}
}

// domainLine is one domain of the result: figures with their n and interval.
func (a *App) domainLine(domain, right, share, interval, says string, d assess.DomainResult) ui.Node {
	mark := ui.MarkNone
	switch {
	case d.Judged && d.Reached:
		mark = ui.MarkCredit
	case d.Judged:
		mark = ui.MarkCaution
	}
	cell := func(text string, w float64) ui.Node {
		return ui.Box{Width: w, Scale: true, Child: ui.Text{Text: text, Role: ui.Quiet, Color: ui.Ink, Tabular: true}}
	}
	var icon ui.Node = ui.Box{Width: 24, Child: ui.Text{Text: "", Role: ui.Quiet}}
	if mark != ui.MarkNone {
		icon = ui.Box{Width: 24, Child: ui.MarkIcon{Mark: mark}}
	}
	return ui.Row{Gap: 12, Align: ui.Middle, Pad: ui.PadXY(0, 6), Children: []ui.Node{
		icon, cell(domain, 110), cell(right, 84), cell(share, 56), cell(interval, 120), ui.Grow(ui.Text{Text: says, Role: ui.Quiet}),
	}}
}

func (a *App) updateRunEnd(msg any) {
	open := func() {
		if a.exam.chosen < len(a.run.Start.Codes) {
			a.openHandedIn(a.exam.chosen)
		}
	}
	switch msg := msg.(type) {
	case ui.Choose:
		if msg.ID == "run list" && msg.Index >= 0 && msg.Index < len(a.run.Start.Codes) {
			a.exam.chosen = msg.Index
		}
	case ui.Activate:
		switch msg.ID {
		case "run list":
			open()
		case "run keep":
			a.keepSheet()
		case "run again":
			a.anotherRun()
		case "run today":
			a.goTo(atToday)
		}
	case ui.Key:
		switch {
		case msg.Ctrl || msg.Alt:
		case msg.Name == "p":
			a.keepSheet()
		case msg.Name == "n":
			a.anotherRun()
		case msg.Name == "Escape":
			a.goTo(atToday)
		}
	}
}

// openHandedIn shows the debrief of a case as it was handed in, or the case
// where it was not.
func (a *App) openHandedIn(at int) {
	g := a.run.Given[at]
	a.openCase(a.run.Ref(at))
	if g == nil || a.session == nil {
		return
	}
	a.session.Change("", func(p *cases.Plan) { *p = *clonePlan(g.Plan) })
	if err := a.Grade(a.session); err == nil {
		a.goTo(atDebrief)
	}
}

func (a *App) keepSheet() {
	where, err := a.KeepSheet()
	if err != nil {
		a.toast = "The sheet could not be kept: " + sentence(err.Error())
		return
	}
	a.toast = "The sheet is in " + where + "."
}

func (a *App) anotherRun() {
	a.run = nil
	a.exam = assessPlay{blueprint: a.exam.blueprint, watchedBy: a.exam.watchedBy}
	a.goTo(atAssess)
}
