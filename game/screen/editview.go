package screen

import (
	"slices"

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
		t := ui.Ticks{ID: editorID(e.ID), Name: e.Name, For: e.ID}
		for _, it := range e.Items {
			t.Items = append(t.Items, ui.ChoiceItem{Label: it.Label, Says: it.Says})
			t.Ticked = append(t.Ticked, it.On)
		}
		col.Children = []ui.Node{ui.Text{Text: e.Name, Role: ui.Label}, ui.Text{Text: e.Says, Role: ui.Body}, tickHelp(), t}
	default:
		l := ui.ChoiceList{ID: editorID(e.ID), Name: e.Name, For: e.ID, Chosen: e.At()}
		for _, it := range e.Items {
			l.Items = append(l.Items, ui.ChoiceItem{Label: it.Label, Says: it.Says})
		}
		col.Children = []ui.Node{ui.Text{Text: e.Name, Role: ui.Label}, ui.Text{Text: e.Says, Role: ui.Body}, l}
	}
	return col
}

func (a *App) dial(e Editor) ui.Dial {
	d := ui.Dial{
		ID: editorID(e.ID), For: e.ID, Name: e.Name, Figure: e.Figure(), Unit: e.Unit(), At: e.At01(),
		Typing: a.edit.typing, Typed: a.edit.typed, Fault: a.edit.fault,
	}
	if a.edit.typing {
		d.Unit = e.row.unitTyped(a.edit.typed)
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
	return arrowHelp(ui.Words{Text: by + " · type a number · "})
}

func tickHelp() ui.Node {
	return arrowHelp(ui.Words{Text: " move · "}, ui.Cap{Text: "Space"}, ui.Words{Text: " ticks · "})
}

// arrowHelp tells what the arrows do in an editor, and how to leave it.
func arrowHelp(does ...ui.Span) ui.Node {
	spans := append([]ui.Span{ui.Cap{Text: "↑"}, ui.Words{Text: " "}, ui.Cap{Text: "↓"}}, does...)
	return ui.Note{Role: ui.Quiet, Spans: append(spans, ui.Cap{Text: "Tab"}, ui.Words{Text: " next phrase"})}
}

// narrow tells whether the window has no room for a margin beside the note.
// The editor then stands in the note, below the paragraph of its phrase.
func (a *App) narrow() bool { return a.w/a.scale < 860 }

// spare is the width beyond that of the usual window.
func (a *App) spare() float64 { return max(0, a.w/a.scale-1280) }

// tight tells whether there is room for a margin only when all is made small.
func (a *App) tight() bool { return a.w/a.scale < 1120 }

func (a *App) inlineEditor() []ui.Node {
	e := a.viewEditor()
	if e == nil {
		return nil
	}
	return []ui.Node{ui.Rule{}, e, ui.Rule{}}
}

// noteNodes shows a note, one paragraph a node. dress may add to a phrase.
func (a *App) noteNodes(note []Sentence, dress func(*ui.Phrase)) []ui.Node {
	var nodes []ui.Node
	var spans []ui.Span
	para := 0
	chosen := false // the paragraph holds the phrase whose editor stands below it
	flush := func() {
		if len(spans) > 0 {
			nodes = append(nodes, ui.Note{Role: ui.NoteRole, Spans: spans})
			spans = nil
		}
		if chosen {
			nodes = append(nodes, a.inlineEditor()...)
			chosen = false
		}
	}
	for _, s := range note {
		if s.Paragraph != para {
			flush()
			para = s.Paragraph
		}
		chosen = chosen || a.narrow() && a.edit.open && slices.ContainsFunc(s.Pieces, func(p Piece) bool { return p.ID == a.edit.id })
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
			a.showTyping(&ph)
			if dress != nil {
				dress(&ph)
			}
			spans = append(spans, ph)
		}
	}
	flush()
	return nodes
}

// showTyping lets the phrase read what is being typed, so that it can be seen
// wherever the editor stands.
func (a *App) showTyping(p *ui.Phrase) {
	if a.edit.typing && a.edit.id == p.ID {
		p.Text, p.State = a.edit.typed+thinSpace+row(p.ID).unitTyped(a.edit.typed), ui.Unseen
	}
}

func phraseState(s State) ui.PhraseState {
	switch s {
	case Open:
		return ui.Open
	case Unseen:
		return ui.Unseen
	case Resting:
		return ui.Resting
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
