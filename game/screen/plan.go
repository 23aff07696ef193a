package screen

import (
	"strings"

	"leastwatt/cases"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

// enterPlan leads to the first phrase that is open.
func (a *App) enterPlan() {
	a.wantLesion()
	first := "disposition"
	for _, p := range Phrases(a.session.Note(a.words())) {
		if p.State == Open && p.ID != "asked" {
			first = p.ID
			break
		}
	}
	a.focus = first
	a.edit = phraseEdit{id: first, open: true}
	a.session.Looked(first)
}

func (a *App) updatePlan(msg any) {
	if a.updatePhrase(msg) {
		return
	}
	switch msg := msg.(type) {
	case ui.Activate:
		switch msg.ID {
		case "grade":
			a.gradeNow()
		case "to bench":
			a.toBench()
		case "ask more":
			a.goTo(atCase)
		}
	case ui.Key:
		if msg.Name == "g" && !msg.Ctrl && !msg.Alt {
			a.gradeNow()
		}
	}
}

func (a *App) gradeNow() {
	a.leaveEditor()
	if a.Running() {
		a.handIn()
		return
	}
	if err := a.Grade(a.session); err != nil {
		a.toast = capital(err.Error()) + "."
		return
	}
	a.goTo(atDebrief)
}

// benchButton leads on to the bench, where the plan can be carried out there.
func (a *App) benchButton() ui.Node {
	if !a.session.CanTreat() || a.Running() && !a.run.Start.Bench {
		return nil
	}
	return ui.Button{ID: "to bench", Label: "To the bench", Hint: "Alt 3"}
}

// gradeLabel is what the end of a plan is called.
func (a *App) gradeLabel() string {
	if a.Running() {
		return "Hand it in"
	}
	return "Grade now"
}

func (a *App) viewPlan() ui.Page {
	note := a.session.Note(a.words())
	body := a.noteNodes(note, func(*ui.Phrase) {})
	sheet := ui.Sheet{Pad: ui.PadXY(a.sheetPad(), 24), Child: ui.Column{Gap: 16, Children: []ui.Node{
		ui.Grow(ui.Scroll{ID: "note " + a.session.Ref, Child: ui.Column{Gap: 14, Children: body}}),
		ui.Row{Gap: 16, Align: ui.Middle, Wrap: true, LineGap: 8, Children: []ui.Node{
			a.confidence(),
			ui.Spacer{},
			a.benchButton(),
			ui.Button{ID: "grade", Label: a.gradeLabel(), Kind: ui.Primary, Hint: "Ctrl ↵"},
		}},
	}}}
	split := ui.Split{
		Left: a.caseCard(), LeftW: 232 + min(180, 0.3*a.spare()), Main: sheet,
		Margin: a.planMargin(note), MarginW: 292 + min(140, 0.25*a.spare()), MainMin: 440,
	}
	switch {
	case a.narrow():
		split = ui.Split{Left: a.caseLine(), Main: sheet, Margin: a.planMargin(note), LeftW: 4000, MarginW: 4000}
	case a.tight():
		split.LeftW, split.MarginW, split.MainMin, split.Gap = 176, 264, 360, 24
	}
	return ui.Page{
		Title: "Plan", Context: a.caseContext(),
		Body: split,
		Keys: []ui.KeyTip{{Says: "Undo", Key: "Ctrl Z"}, {Says: "My usual kit", Key: "Ctrl K"}, {Says: "Copy", Key: "Ctrl C"}},
	}
}

// sheetPad is the edge beside the note; a wide window has room for more.
func (a *App) sheetPad() float64 {
	if a.tight() {
		return 28
	}
	return 40 + min(80, 0.12*a.spare())
}

func (a *App) confidence() ui.Node {
	d := ui.Dial{ID: "confidence", Name: "Sure of “Safe”?", Small: true, At: -1}
	if e, ok := EditorFor(a.session.Plan, "confidence", a.words()); ok {
		if n, set := e.Number(); set {
			d.Figure, d.Unit, d.At = (n * 100).String(), "%", e.At01()
		}
	}
	return d
}

// planMargin is the editor, or where to begin, and what is still open.
func (a *App) planMargin(note []Sentence) ui.Node {
	col := ui.Column{Gap: 16}
	if e := a.viewEditor(); e != nil && a.edit.open && a.narrow() {
		return ui.Text{Text: openText(OpenPhrases(note)), Role: ui.Quiet}
	} else if e != nil && a.edit.open {
		col.Children = append(col.Children, e, ui.Rule{})
	} else {
		col.Children = append(col.Children, ui.Note{Role: ui.Body, Spans: []ui.Span{
			ui.Words{Text: "Each underlined phrase is a choice. "},
			ui.Cap{Text: "Tab"},
			ui.Words{Text: " goes from one to the next, "},
			ui.Cap{Text: "Enter"},
			ui.Words{Text: " opens it, "},
			ui.Cap{Text: "Esc"},
			ui.Words{Text: " leaves it."},
		}}, ui.Rule{})
	}
	col.Children = append(col.Children, ui.Text{Text: openText(OpenPhrases(note)), Role: ui.Quiet})
	return ui.Scroll{ID: "margin", Child: col}
}

func openText(open int) string {
	switch open {
	case 0:
		return "No phrase is open."
	case 1:
		return "One phrase is still open. An open phrase is graded as not done."
	}
	return capital(count(open, "phrase")) + " are still open. Open phrases are graded as not done."
}

// caseLine is the card in two lines, where there is no room for more.
func (a *App) caseLine() ui.Node {
	c := a.session.Case
	return ui.Text{Text: PersonLine(c) + " · " + LesionLine(c, a.words()), Role: ui.Quiet, Color: ui.Ink}
}

// caseCard is the case at a glance, with what was learnt so far.
func (a *App) caseCard() ui.Node {
	s := a.session
	col := ui.Column{Gap: 4, Children: []ui.Node{
		a.picture(s.Ref, s.Case, skin.ExamNone, a.lesionPx()),
		ui.Spacer{Size: 4},
		ui.Text{Text: PersonLine(s.Case), Role: ui.Quiet, Color: ui.Ink},
		ui.Text{Text: LesionLine(s.Case, a.words()), Role: ui.Quiet, Color: ui.Ink},
		ui.Spacer{Size: 8},
	}}
	more := "Ask more"
	if len(s.Plan.Asked) == 0 {
		more = "Ask and examine"
		col.Children = append(col.Children, ui.Text{Text: "You have asked nothing yet.", Role: ui.Quiet})
	}
	col.Children = append(col.Children, ui.Row{Children: []ui.Node{ui.Button{ID: "ask more", Label: more, Kind: ui.QuietLink, Hint: "Alt 1"}, ui.Spacer{}}}, ui.Spacer{Size: 4})
	for _, t := range s.Plan.Asked {
		text, _ := Answered(s.Case, t, a.words())
		col.Children = append(col.Children, ui.Column{Children: []ui.Node{
			ui.Text{Text: label("topic", t, a.words()), Role: ui.Label},
			ui.Text{Text: text, Role: ui.Quiet, Color: ui.Ink},
		}}, ui.Spacer{Size: 4})
	}
	return ui.Scroll{ID: "card " + s.Ref, Child: col}
}

// CopyText is the note as text, ready to paste: never a patient record.
func CopyText(s *Session, words cases.Words) string {
	var b strings.Builder
	b.WriteString(CopyHead + "\n\n")
	b.WriteString(PlainText("Invented case " + s.Ref + ". " + PersonLine(s.Case) + ". " + LesionLine(s.Case, words) + "."))
	para := -1
	for _, sent := range s.Note(words) {
		if sent.Paragraph != para {
			b.WriteString("\n\n")
			para = sent.Paragraph
		} else {
			b.WriteString(" ")
		}
		b.WriteString(PlainText(sent.Text()))
	}
	b.WriteString("\n\n" + Caution(words) + "\n")
	return b.String()
}

// PlainText puts plain spaces for thin ones, which not every program shows.
func PlainText(s string) string {
	return strings.NewReplacer("\u202f", " ", "\u2009", " ", "\u00a0", " ").Replace(s)
}
