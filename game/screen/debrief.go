package screen

import (
	"fmt"
	"slices"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

// marginNotes is the state of the debrief.
type marginNotes struct {
	disagree bool   // a reason against the chosen finding is being typed
	reason   string // as typed
	chosen   int    // number of the finding chosen, 0 none
	credits  bool
}

func (a *App) enterDebrief() {
	a.regrade()
	a.marks.chosen = 0
	a.focus = "next case"
	if a.narrow() { // the margin lies below the note; the verdict comes first
		a.focus = "tabs"
		return
	}
	if list := a.numbered(); len(list) > 0 && list[0].Number == 1 {
		a.marks.chosen = 1
		a.focus = findingID(1)
	}
}

func findingID(number int) string { return fmt.Sprintf("finding %d", number) }

func (a *App) regrade() {
	if err := a.session.GradeNow(a.Set, a.Settings.Labels, a.words()); err != nil {
		a.toast = capital(err.Error()) + "."
	}
}

func (a *App) numbered() []Numbered {
	if a.session.Grade == nil {
		return nil
	}
	return NumberFindings(a.session.Grade, a.session.Note(a.words()))
}

// showFindingOf chooses the worst finding of a phrase.
func (a *App) showFindingOf(id string) {
	for _, f := range a.numbered() {
		if f.Number > 0 && slices.Contains(f.Phrases, id) {
			a.marks.chosen = f.Number
			return
		}
	}
	a.marks.chosen = 0
}

func (a *App) updateDebrief(msg any) {
	if a.updatePhrase(msg) {
		return
	}
	switch msg := msg.(type) {
	case ui.Edited:
		if msg.ID == "disagree" {
			a.marks.reason = msg.Text
		}
	case ui.Activate:
		switch {
		case msg.ID == "keep reason":
			a.keepReason()
		case msg.ID == "next case":
			a.openCase(a.Next(a.session.Ref))
		case msg.ID == "to bench":
			a.goTo(atBench)
		case msg.ID == "another":
			a.openAnother()
		case msg.ID == "change":
			a.goTo(atPlan)
		case msg.ID == "credits":
			a.marks.credits = !a.marks.credits
		case strings.HasPrefix(msg.ID, "finding "):
			a.goToPhrase(msg.ID)
		}
	case ui.Key:
		if msg.Ctrl || msg.Alt {
			return
		}
		switch msg.Name {
		case "Enter":
			if a.focus == "disagree" {
				a.keepReason()
			}
		case "d":
			a.startDisagreeing()
		case "n":
			a.nextFinding()
		case "s":
			a.source()
		case "c":
			a.goTo(atPlan)
		case "l":
			a.openAnother()
		case "Escape":
			if a.marks.disagree {
				a.marks.disagree = false
				return
			}
			a.marks.chosen = 0
		}
	}
}

// nextFinding goes round the findings that ask for something.
func (a *App) nextFinding() {
	last := 0
	for _, f := range a.numbered() {
		last = max(last, f.Number)
	}
	if last == 0 {
		a.toast = "There is no finding to go to."
		return
	}
	a.marks.chosen = a.marks.chosen%last + 1
	a.focus = findingID(a.marks.chosen)
}

// goToPhrase leads from a margin note to its phrase and opens the editor.
func (a *App) goToPhrase(id string) {
	for _, f := range a.numbered() {
		if findingID(f.Number) != id {
			continue
		}
		a.marks.chosen = f.Number
		if len(f.Phrases) > 0 {
			a.activatePhrase(f.Phrases[0])
		}
		return
	}
}

// startDisagreeing lets a reason against the chosen finding be typed.
func (a *App) startDisagreeing() {
	switch {
	case a.marks.chosen == 0:
		a.toast = "Choose a finding first."
	case !a.Recording():
		a.toast = "No logbook is open to keep a reason in."
	default:
		a.marks.disagree, a.marks.reason = true, ""
		a.focus = "disagree"
	}
}

// reasonField stands below the finding that is disagreed with.
func (a *App) reasonField(f Numbered) []ui.Node {
	if !a.marks.disagree || f.Number != a.marks.chosen {
		return nil
	}
	return []ui.Node{ui.Row{Gap: 12, Align: ui.End, Children: []ui.Node{
		ui.Grow(ui.Field{ID: "disagree", Name: "Why you disagree; your supervisor reads it", Text: a.marks.reason}),
		ui.Button{ID: "keep reason", Label: "Keep", Hint: "Enter"},
	}}}
}

// keepReason writes the reason into the logbook.
func (a *App) keepReason() {
	for _, f := range a.numbered() {
		if f.Number != a.marks.chosen {
			continue
		}
		if err := a.Disagree(a.session, f.Rule, a.marks.reason); err != nil {
			a.toast = capital(sentence(err.Error()))
			return
		}
		a.marks.disagree = false
		a.focus = findingID(f.Number)
		a.toast = "Kept with your attempt. An export takes it to your supervisor."
		return
	}
}

// source shows the rule of the chosen finding among the rules.
func (a *App) source() {
	for _, f := range a.numbered() {
		if f.Number == a.marks.chosen && f.Number > 0 {
			a.goTo(atRules)
			a.rules = ruleSearch{query: f.Rule}
			return
		}
	}
	a.toast = "Choose a finding first."
}

func (a *App) viewDebrief() ui.Page {
	g := a.session.Grade
	list := a.numbered()
	note := a.noteNodes(a.session.Note(a.words()), func(p *ui.Phrase) { a.dressMark(p, list) })
	note = append(note, a.recordNodes()...)
	sheet := ui.Sheet{Pad: ui.PadXY(a.sheetPad(), 24), Child: ui.Column{Gap: 16, Children: []ui.Node{
		ui.Grow(ui.Scroll{ID: "marked note " + a.session.Ref, Child: a.noteAndTruth(note)}),
		ui.Row{Gap: 16, Align: ui.Middle, Wrap: true, LineGap: 8, Children: []ui.Node{
			ui.Spacer{},
			ui.Button{ID: "another", Label: "Another like it", Hint: "L"},
			ui.Button{ID: "change", Label: "Change it", Hint: "C"},
			ui.Button{ID: "next case", Label: "Next case", Kind: ui.Primary},
		}},
	}}}
	verdict := ui.Row{Gap: 32, Align: ui.Middle, Wrap: true, LineGap: 4, Children: []ui.Node{
		ui.Text{Text: verdictText(g), Role: ui.Verdict, Color: verdictColor(g.Verdict), NoWrap: true},
		ui.Text{Text: capital(CountsText(g)), Role: ui.Body},
	}}
	if points := PointsText(g); points != "" {
		verdict.Children = append(verdict.Children, ui.Text{Text: points, Role: ui.Body, Color: ui.QuietInk})
	}
	if f := a.session.First; f != g && (f.Verdict != g.Verdict || CountsText(f) != CountsText(g)) {
		verdict.Children = append(verdict.Children, ui.Text{
			Text: "At first: " + f.Verdict + ", " + CountsText(f), Role: ui.Quiet,
		})
	}
	split := ui.Split{Main: sheet, Margin: ui.Scroll{ID: "margin", Child: a.margin(list)}, MarginW: 436 + min(140, 0.25*a.spare()), MainMax: 1400, Gap: 40}
	if a.tight() {
		split.MarginW, split.MainMin, split.Gap = 376, 440, 32
	}
	return ui.Page{
		Title: "Debrief", Context: a.caseContext(),
		Body: ui.Column{Gap: 20, Children: []ui.Node{verdict, ui.Grow(split)}},
		Keys: []ui.KeyTip{{Says: "Next finding", Key: "N"}, {Says: "Source", Key: "S"}, {Says: "I disagree", Key: "D"}},
	}
}

// recordNodes are what was really done on the bench and what it did.
func (a *App) recordNodes() []ui.Node {
	t := a.session.Treatment
	if t == nil {
		return nil
	}
	nodes := []ui.Node{ui.Spacer{Size: 4}, ui.Rule{}, ui.Spacer{Size: 4}, ui.Text{Text: "Done on the bench", Role: ui.Label}}
	for _, l := range RecordOf(t.Record, a.words()) {
		nodes = append(nodes, ui.Text{Text: l, Role: ui.Body})
	}
	nodes = append(nodes, ui.Text{Text: "What it did", Role: ui.Label})
	for _, l := range OutcomeLines(t, a.words()) {
		nodes = append(nodes, ui.Text{Text: l, Role: ui.Body})
	}
	return append(nodes, ui.Row{Children: []ui.Node{ui.Button{ID: "to bench", Label: "See it again, cut through, at other powers", Kind: ui.QuietLink, Hint: "Alt 3"}, ui.Spacer{}}})
}

func verdictColor(verdict string) ui.Color {
	switch verdict {
	case "unsafe":
		return ui.Never
	case "needs work":
		return ui.Caution
	}
	return ui.Credit
}

// dressMark gives a phrase the mark of its worst finding and its number.
func (a *App) dressMark(p *ui.Phrase, list []Numbered) {
	for _, f := range list { // the worst come first
		if !slices.Contains(f.Phrases, p.ID) {
			continue
		}
		if p.Mark == ui.MarkNone {
			p.Mark, p.Number = markOf(f.Kind), f.Number
		}
		if f.Number > 0 && f.Number == a.marks.chosen {
			p.Chosen = true
		}
	}
}

// margin: the open editor, the numbered notes, and the credits folded.
func (a *App) margin(list []Numbered) ui.Node {
	col := ui.Column{Gap: 20, Pad: ui.Pad{Top: 4, Bottom: 8}}
	if e := a.viewEditor(); e != nil && a.edit.open && !a.narrow() {
		col.Children = append(col.Children, e, ui.Rule{})
	}
	var loose []ui.Node
	credits := 0
	for _, f := range list {
		switch {
		case f.Number == 0:
			credits++
		case len(f.Phrases) == 0:
			loose = append(loose, a.marginMark(f))
			loose = append(loose, a.reasonField(f)...)
		default:
			col.Children = append(col.Children, a.marginMark(f))
			col.Children = append(col.Children, a.reasonField(f)...)
		}
	}
	if len(loose) > 0 {
		col.Children = append(col.Children, ui.Text{Text: "Not in your note", Role: ui.Label})
		col.Children = append(col.Children, loose...)
	}
	show := "Show them"
	if a.marks.credits {
		show = "Hide them"
	}
	spans := []ui.Span{ui.Words{Text: CreditsText(credits), Strong: true}}
	if credits > 0 {
		spans = append(spans, ui.Words{Text: " "}, ui.Link{ID: "credits", Text: show})
	}
	col.Children = append(col.Children, ui.Row{Gap: 12, Align: ui.Middle, Children: []ui.Node{
		ui.MarkIcon{Mark: ui.MarkCredit}, ui.Grow(ui.Note{Role: ui.Body, Spans: spans}),
	}})
	if a.marks.credits {
		for i, f := range list {
			if f.Number == 0 {
				col.Children = append(col.Children, ui.MarginMark{
					ID: fmt.Sprintf("credit %d", i), Mark: ui.MarkCredit, Heading: sentence(f.Heading),
					Text: f.Why, Source: SourceOf(f.Finding, a.words()),
				})
			}
		}
	}
	return col
}

func (a *App) marginMark(f Numbered) ui.Node {
	m := ui.MarginMark{
		ID: findingID(f.Number), Mark: markOf(f.Kind), Number: f.Number, Heading: HeadingOf(f.Finding),
		Text: strings.TrimSpace(sentence(f.Why) + " " + RightOf(f.Finding)), Source: SourceOf(f.Finding, a.words()),
		Chosen: f.Number == a.marks.chosen,
	}
	if len(f.Phrases) > 0 && m.Chosen {
		m.Link = "Go to this phrase"
	}
	return m
}

// noteAndTruth puts what it was below the note, or beside it in a wide window.
func (a *App) noteAndTruth(note []ui.Node) ui.Node {
	if a.spare() < 400 {
		note = append(note, ui.Spacer{Size: 4}, ui.Rule{}, ui.Spacer{Size: 4})
		return ui.Column{Gap: 14, Children: append(note, a.truth()...)}
	}
	return ui.Row{Gap: 56, Align: ui.Start, Children: []ui.Node{
		ui.Grow(ui.Column{Gap: 14, Children: note}),
		ui.Box{Width: 320, Scale: true, Child: ui.Column{Gap: 14, Pad: ui.Pad{Top: 8}, Children: a.truth()}},
	}}
}

// truth tells, at last, what it was.
func (a *App) truth() []ui.Node {
	var nodes []ui.Node
	for i, t := range TruthOf(a.session.Case, a.words()) {
		role := ui.Body
		if i == 0 {
			role = ui.Label
		}
		nodes = append(nodes, ui.Text{Text: t, Role: role})
	}
	return nodes
}

// TruthOf is what the debrief tells of a case: what it was, the tissue, the
// teaching, and this author's judgement where there is one.
func TruthOf(c *cases.Case, words cases.Words) []string {
	lines := []string{"What it was", sentence(capital(c.Truth.Diagnosis))}
	if c.Truth.Histology != "" {
		lines[1] += " Pathology: " + sentence(c.Truth.Histology)
	}
	if c.Teaching != "" {
		lines = append(lines, sentence(c.Teaching))
	}
	for _, e := range c.Expect {
		lines = append(lines, "This author's judgement: "+sentence(e.Reason))
	}
	for i := range lines {
		lines[i] = cases.Spell(lines[i], words)
	}
	return lines
}
