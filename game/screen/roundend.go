package screen

import (
	"fmt"

	"leastwatt/cases"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
	"leastwatt/scoring"
)

// GlanceLine is one picture in the list at the end of a round.
type GlanceLine struct {
	Was     string // "3. Melanoma"
	You     string // "You: treat, nothing sent. Caution: ..."
	Verdict string // "Needs work"
}

// LineOf writes the line of the picture at index i.
func LineOf(i int, g *Glance, m *GlanceMark, words cases.Words) GlanceLine {
	l := GlanceLine{
		Was:     fmt.Sprintf("%d. %s", i+1, capital(cases.Spell(g.c.Truth.Diagnosis, words))),
		You:     "You: " + sentence(g.Choice(words)),
		Verdict: capital(m.Verdict),
	}
	if g.TimeUp {
		l.You += " The time was over."
	}
	for _, f := range m.Findings {
		if f.Kind != "credit" && g.Disposition != "" {
			l.You += " " + HeadingOf(f)
			break
		}
	}
	return l
}

// SignsOf is what told: what a lens and a touch show, how such look-alikes are
// told apart, and whose word that is.
func SignsOf(g *Glance, words cases.Words) (signs []string, source string) {
	told, source := TellsOf(g.c, words)
	return []string{"Through a lens: " + g.Closer(words), "To the touch: " + g.Touch(words), told}, source
}

func (a *App) viewRoundEnd() ui.Page {
	r, marks := a.play.round, a.glanceMarks()
	list := ui.List{ID: "round list", Name: "pictures of the round", Chosen: a.play.chosen}
	for i := range r.Items {
		g := &r.Items[i]
		thumb := a.picture(g.ref, g.c, skin.ExamNone, thumbPx)
		l := LineOf(i, g, &marks[i], a.words())
		list.Rows = append(list.Rows, ui.ListRow{Thumb: &thumb, Mark: markOf(marks[i].kind()), Title: l.Was, Says: l.You, Right: l.Verdict})
	}
	main := ui.Column{Gap: 24, Children: []ui.Node{
		ui.Column{Gap: 4, Children: []ui.Node{
			ui.Text{Text: RoundCounts(marks) + ".", Role: ui.Heading},
			ui.Text{Text: OpenText(marks), Role: ui.Body, Color: ui.QuietInk},
		}},
		ui.Scroll{ID: "round lines", Child: list},
	}}
	split := ui.Split{Main: main, Margin: a.glanceDetail(marks), MarginW: 400, Gap: 40}
	if a.tight() {
		split.MarginW, split.MainMin, split.Gap = 360, 440, 28
	}
	return ui.Page{
		Title: "Short round", Context: []ui.Span{ui.Words{Text: "what each one was"}},
		Body: split,
		Keys: []ui.KeyTip{{Says: "Open as a full case", Key: "Enter"}, {Says: "Another round", Key: "S"}},
	}
}

// glanceDetail tells of the chosen picture: the buttons first, so that they
// stay in sight.
func (a *App) glanceDetail(marks []GlanceMark) ui.Node {
	g, m := a.glanceChosen(), &marks[a.play.chosen]
	key := a.glanceKey(g)
	pic := a.picture(g.ref, g.c, key.exam, key.px)
	pic.MaxH, pic.MaxW = 150*a.scale, 150*a.scale
	who := ui.Column{Gap: 4, Children: []ui.Node{
		ui.Text{Text: "“" + cases.Spell(g.c.Presenting, a.words()) + "”", Role: ui.Quote},
		ui.Text{Text: PersonLine(g.c), Role: ui.Quiet},
		ui.Text{Text: LesionLine(g.c, a.words()), Role: ui.Quiet},
	}}
	col := ui.Column{Gap: 12, Children: []ui.Node{
		ui.Row{Gap: 20, Align: ui.Start, Children: []ui.Node{ui.Box{Child: pic, Width: 150, Scale: true}, ui.Grow(who)}},
		ui.Text{Text: "What told", Role: ui.Label},
	}}
	signs, source := SignsOf(g, a.words())
	for _, l := range signs {
		col.Children = append(col.Children, ui.Text{Text: l, Role: ui.Body})
	}
	col.Children = append(col.Children, ui.Text{Text: source, Role: ui.Small},
		ui.Text{Text: "What the case teaches", Role: ui.Label},
		ui.Text{Text: sentence(cases.Spell(g.c.Teaching, a.words())), Role: ui.Body})
	col.Children = append(col.Children, ui.Rule{})
	for i, f := range m.Findings {
		col.Children = append(col.Children, a.glanceFinding(i, f))
	}
	if m.TissueDepends(g) {
		col.Children = append(col.Children, ui.Text{Text: TissueDependsText, Role: ui.Body})
	}
	return ui.Column{Gap: 16, Children: []ui.Node{
		ui.Grow(ui.Scroll{ID: "round detail " + g.ref, Child: col}),
		ui.Row{Gap: 12, Wrap: true, LineGap: 12, Children: []ui.Node{
			ui.Button{ID: "round open", Label: "Open as a full case", Kind: ui.Primary, Hint: "Enter"},
			ui.Button{ID: "round again", Label: "Another round", Hint: "S"},
			ui.Button{ID: "round today", Label: "Today", Hint: "T"},
		}},
	}}
}

// TissueDependsText stands where no row judges the tissue by itself.
const TissueDependsText = "Whether tissue is sent depends here on how you remove it. The full case grades that."

// glanceFinding tells of one finding; activating it leads to its rule.
func (a *App) glanceFinding(i int, f scoring.Finding) ui.Node {
	m := ui.MarginMark{
		ID: fmt.Sprintf("glance %d", i), Mark: markOf(f.Kind), Heading: HeadingOf(f), Text: sentence(f.Why),
		Source: SourceOf(f, a.words()), Link: "See the rule",
	}
	switch {
	case f.Kind == "credit":
		m.Heading = sentence(f.Heading)
	case a.glanceChosen().Disposition == "":
		m.Heading = RightOf(f)
	default:
		m.Text += " " + RightOf(f)
	}
	return m
}

// seeRule shows the rule of a finding of the chosen picture.
func (a *App) seeRule(id string) {
	for i, f := range a.glanceMarks()[a.play.chosen].Findings {
		if id == fmt.Sprintf("glance %d", i) {
			a.goTo(atRules)
			a.rules = ruleSearch{query: f.Rule}
		}
	}
}
