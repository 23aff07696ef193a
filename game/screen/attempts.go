package screen

import (
	"fmt"

	"leastwatt/game/ui"
)

// pastList is the state of the list of attempts.
type pastList struct {
	rows   []PastAttempt
	chosen int
	shown  *ThenAndNow
	err    error
}

func (a *App) enterAttempts() {
	a.past = pastList{rows: a.PastAttempts()}
	a.focus = "attempts"
	a.choosePast(0)
}

func (a *App) choosePast(i int) {
	if i < 0 || i >= len(a.past.rows) {
		return
	}
	a.past.chosen = i
	a.past.shown, a.past.err = a.ThenAndNow(a.past.rows[i].ID)
}

func (a *App) updateAttempts(msg any) {
	switch msg := msg.(type) {
	case ui.Choose:
		if msg.ID == "attempts" {
			a.choosePast(msg.Index)
		}
	case ui.Activate:
		if msg.ID == "attempts" && len(a.past.rows) > 0 {
			a.openCase(a.past.rows[a.past.chosen].Ref)
		}
	}
}

func (a *App) viewAttempts() ui.Page {
	page := ui.Page{Title: "Attempts", Context: []ui.Span{ui.Words{Text: "as they were graded"}}, Keys: []ui.KeyTip{{Says: "Open the case", Key: "Enter"}, {Says: "Back", Key: "Esc"}}}
	if len(a.past.rows) == 0 {
		page.Body = ui.Text{Role: ui.Body, Text: "Nothing is in your logbook yet."}
		return page
	}
	list := ui.List{ID: "attempts", Name: "attempts, the newest first", Chosen: a.past.chosen}
	for _, p := range a.past.rows {
		list.Rows = append(list.Rows, ui.ListRow{Title: p.Quote, Says: p.When + " · " + p.Counts, Right: capital(p.Verdict)})
	}
	page.Body = ui.Split{
		Main:   ui.Scroll{ID: "attempt list", Child: list},
		Margin: ui.Scroll{ID: "attempt " + a.past.rows[a.past.chosen].ID, Child: a.pastDetail()}, MarginW: 460, MainMin: 440, Gap: 40,
	}
	return page
}

func (a *App) pastDetail() ui.Node {
	t := a.past.shown
	if t == nil {
		return ui.Text{Role: ui.Body, Text: "This attempt cannot be read whole: " + fmt.Sprint(a.past.err)}
	}
	col := ui.Column{Gap: 12, Children: []ui.Node{
		ui.Text{Text: verdictText(t.Then), Role: ui.Verdict, Color: verdictColor(t.Then.Verdict)},
		ui.Text{Text: capital(CountsText(t.Then)), Role: ui.Body},
	}}
	for _, n := range t.Notes {
		col.Children = append(col.Children, ui.Text{Text: n, Role: ui.Quiet})
	}
	if t.Now != "" {
		same := "By today's rules it would be the same."
		if len(t.Diffs) > 0 || t.Now != t.Then.Verdict {
			same = "By today's rules: " + t.Now + "."
		}
		col.Children = append(col.Children, ui.Text{Text: same, Role: ui.Body})
		for _, d := range t.Diffs {
			col.Children = append(col.Children, ui.Text{Text: d, Role: ui.Quiet})
		}
	}
	col.Children = append(col.Children, ui.Rule{})
	for i, f := range t.Then.Findings {
		if f.Kind == "credit" {
			continue
		}
		col.Children = append(col.Children, ui.MarginMark{
			ID: fmt.Sprintf("past %d", i), Mark: markOf(f.Kind), Heading: sentence(capital(f.Expected)), Text: sentence(f.Why), Source: SourceOf(f, a.words()),
		})
	}
	return col
}
