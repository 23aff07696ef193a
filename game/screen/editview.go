package screen

import (
	"leastwatt/game/ui"
)

// viewEditor shows the editor of the phrase in the margin, nil when there is
// none.
func (a *App) viewEditor() ui.Node {
	e, ok := a.editor()
	if !ok || e.Asks {
		return nil
	}
	col := ui.Column{Gap: 12}
	switch e.Kind {
	case NumberEditor:
		col.Children = []ui.Node{a.dial(e), a.dialHelp(e), ui.Text{Text: e.Says, Role: ui.Body}}
	case TicksEditor:
		t := ui.Ticks{ID: "editor", Name: e.Name, For: e.ID}
		for _, it := range e.Items {
			t.Items = append(t.Items, ui.ChoiceItem{Label: it.Label, Says: it.Says})
			t.Ticked = append(t.Ticked, it.On)
		}
		col.Children = []ui.Node{ui.Text{Text: e.Name, Role: ui.Label}, ui.Text{Text: e.Says, Role: ui.Body}, tickHelp(), t}
	default:
		l := ui.ChoiceList{ID: "editor", Name: e.Name, For: e.ID, Chosen: e.At()}
		for _, it := range e.Items {
			l.Items = append(l.Items, ui.ChoiceItem{Label: it.Label, Says: it.Says})
		}
		col.Children = []ui.Node{ui.Text{Text: e.Name, Role: ui.Label}, ui.Text{Text: e.Says, Role: ui.Body}, l}
	}
	return col
}

func (a *App) dial(e Editor) ui.Dial {
	d := ui.Dial{
		ID: "editor", For: e.ID, Name: e.Name, Figure: e.Figure(), Unit: e.Unit(), At: e.At01(),
		Typing: a.edit.typing, Typed: a.edit.typed, Fault: a.edit.fault,
	}
	for i, m := range e.row.marks {
		d.Ticks = append(d.Ticks, ui.DialTick{At: e.row.along(m), Label: e.row.Marks[i]})
	}
	return d
}

func (a *App) dialHelp(e Editor) ui.Node {
	by := " change it"
	if step := e.ArrowSays(); step != "" {
		by = " by " + step
	}
	return ui.Note{Role: ui.Quiet, Spans: []ui.Span{
		ui.Cap{Text: "↑"}, ui.Words{Text: " "}, ui.Cap{Text: "↓"}, ui.Words{Text: by + " · type a number · "},
		ui.Cap{Text: "Tab"}, ui.Words{Text: " next phrase"},
	}}
}

func tickHelp() ui.Node {
	return ui.Note{Role: ui.Quiet, Spans: []ui.Span{
		ui.Cap{Text: "↑"}, ui.Words{Text: " "}, ui.Cap{Text: "↓"}, ui.Words{Text: " move · "},
		ui.Cap{Text: "Space"}, ui.Words{Text: " ticks · "}, ui.Cap{Text: "Tab"}, ui.Words{Text: " next phrase"},
	}}
}

// noteNodes shows a note, one paragraph a node. dress may add to a phrase.
func (a *App) noteNodes(note []Sentence, dress func(*ui.Phrase)) []ui.Node {
	var nodes []ui.Node
	var spans []ui.Span
	para := 0
	flush := func() {
		if len(spans) > 0 {
			nodes = append(nodes, ui.Note{Role: ui.NoteRole, Spans: spans})
			spans = nil
		}
	}
	for _, s := range note {
		if s.Paragraph != para {
			flush()
			para = s.Paragraph
		}
		if len(spans) > 0 {
			spans = append(spans, ui.Words{Text: " "})
		}
		for _, p := range s.Pieces {
			if p.ID == "" {
				spans = append(spans, ui.Words{Text: p.Text})
				continue
			}
			ph := ui.Phrase{
				ID: p.ID, Text: p.Text, Name: phraseName(p.ID, a.words()), State: phraseState(p.State),
				Aside: p.Aside, Steps: stepsOf(p.ID), Chosen: a.edit.id == p.ID,
			}
			if dress != nil {
				dress(&ph)
			}
			spans = append(spans, ph)
		}
	}
	flush()
	return nodes
}

func phraseState(s State) ui.PhraseState {
	switch s {
	case Open:
		return ui.Open
	case Unseen:
		return ui.Unseen
	}
	return ui.Decided
}

func stepsOf(id string) ui.StepKind {
	switch row(id).kind {
	case numberPhrase:
		return ui.StepNumber
	case ticksPhrase:
		return ui.StepNone
	}
	return ui.StepList
}
