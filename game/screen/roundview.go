package screen

import (
	"fmt"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

func (a *App) viewRound() ui.Page {
	switch r := a.play.round; {
	case r == nil:
		return a.viewRoundAbout()
	case r.Over():
		return a.viewRoundEnd()
	}
	return a.viewGlance()
}

// RoundSays tells what a short round is, in paragraphs.
func RoundSays(words cases.Words) []string {
	lines := []string{
		"They look alike. Some are harmless and some are not.",
		"At each picture you decide what to do: treat, biopsy first, refer or leave. If you treat, you also decide whether tissue is sent.",
		"You cannot ask here. The picture, the patient's words, the card and a touch must do. Whatever only a question would bring out is not graded.",
		"At the end you see what each one was, and which to open as a full case. Nothing of a round is kept.",
	}
	for i := range lines {
		lines[i] = cases.Spell(lines[i], words)
	}
	return lines
}

func (a *App) viewRoundAbout() ui.Page {
	says := ui.Column{Gap: 12}
	for _, l := range RoundSays(a.words()) {
		says.Children = append(says.Children, ui.Text{Text: l, Role: ui.Body})
	}
	heading := fmt.Sprintf("%s pictures, %d seconds each", capital(numberWord(min(roundSize, max(1, len(a.fair()))))), RoundSeconds)
	body := ui.Column{Gap: 24, Children: []ui.Node{
		ui.Text{Text: heading, Role: ui.Heading},
		ui.Box{Child: says, MaxW: 620, Scale: true},
		ui.Row{Gap: 12, Wrap: true, LineGap: 12, Children: []ui.Node{
			ui.Button{ID: "round begin", Label: "Begin", Kind: ui.Primary, Hint: "Enter"},
			ui.Button{ID: "round unhurried", Label: "Begin without the clock", Hint: "W"},
		}},
	}}
	return ui.Page{
		Title: "Short round", Context: []ui.Span{ui.Words{Text: "look-alikes at a glance"}},
		Body: body, Keys: []ui.KeyTip{{Says: "Back", Key: "Esc"}},
	}
}

func (a *App) viewGlance() ui.Page {
	r := a.play.round
	g := r.Now()
	key := a.glanceKey(g)
	pic := a.picture(g.ref, g.c, key.exam, key.px)
	pic.MaxH, pic.MaxW = a.glanceSide(), a.glanceSide()
	side := a.glanceSide() / a.scale
	card := a.glanceCard(g)
	choices := a.glanceChoices(g)
	p := ui.Page{
		Title: "Short round", Context: []ui.Span{ui.Words{Text: a.glanceContext()}},
		Keys: []ui.KeyTip{{Says: "Take back", Key: "⌫"}, {Says: "Stop", Key: "Esc"}},
	}
	if a.narrow() {
		p.Body = ui.Column{Gap: 20, Children: []ui.Node{
			ui.Split{Left: pic, LeftW: side, Main: card, MainMin: 300, Gap: 28}, choices,
		}}
		return p
	}
	right := ui.Column{Gap: 20, Children: []ui.Node{card, ui.Rule{}, choices}}
	split := ui.Split{Left: pic, LeftW: side, Main: right, MainMin: 440, Gap: 40}
	if a.tight() {
		split.MainMin, split.Gap = 400, 28
	}
	p.Body = split
	return p
}

// glanceSide is the side of the picture in px.
func (a *App) glanceSide() float64 {
	share := 0.48
	if a.narrow() {
		share = 0.34
	}
	return max(220, min(share*(a.w-64), a.h-(56+40)*a.scale-48-34*a.scale))
}

// glanceCard is what may be known without asking, and how it feels.
func (a *App) glanceCard(g *Glance) ui.Node {
	facts := ui.Column{Gap: 4, Children: []ui.Node{
		ui.Text{Text: "“" + cases.Spell(g.c.Presenting, a.words()) + "”", Role: ui.Heading},
		ui.Spacer{Size: 4},
		ui.Text{Text: PersonLine(g.c), Role: ui.Body},
		ui.Text{Text: LesionLine(g.c, a.words()), Role: ui.Body},
		ui.Spacer{Size: 8},
		ui.Text{Text: "To the touch", Role: ui.Label},
		ui.Text{Text: g.Touch(a.words()), Role: ui.Body},
	}}
	if g.Lens {
		facts.Children = append(facts.Children, ui.Spacer{Size: 4},
			ui.Text{Text: "Through a lens", Role: ui.Label}, ui.Text{Text: g.Closer(a.words()), Role: ui.Body})
	}
	look := ui.Button{ID: "lens", Label: "Look through a lens", Hint: "L"}
	if g.Lens {
		look.Label = "Look without the lens"
	}
	facts.Children = append(facts.Children, ui.Spacer{Size: 8}, ui.Row{Children: []ui.Node{look, ui.Spacer{}}})
	return ui.Row{Gap: 24, Children: []ui.Node{
		ui.Grow(facts),
		ui.BodyOutline{Site: g.c.Lesion.Site, Side: g.c.Lesion.Side, Label: label("site", g.c.Lesion.Site, a.words()), Height: 132},
	}}
}

// glanceChoices are the two things to decide, one after the other, and the
// clock.
func (a *App) glanceChoices(g *Glance) ui.Node {
	row := ui.Row{Gap: 12, Wrap: true, LineGap: 12}
	ask := "What will you do?"
	if g.AsksTissue() {
		ask = "You treat it. And the tissue?"
		row.Children = []ui.Node{
			ui.Button{ID: "send yes", Label: "Send it", Hint: "S", Why: "It goes to the pathologist."},
			ui.Button{ID: "send no", Label: "Nothing to send", Hint: "N", Why: "No tissue goes to the pathologist."},
			ui.Button{ID: "round back", Label: "Take it back", Hint: "⌫", Kind: ui.QuietLink},
		}
	} else {
		for i, w := range cases.Vocab.List("disposition") {
			row.Children = append(row.Children, ui.Button{
				ID: "decide " + w.ID, Label: capital(w.Label(a.words())), Hint: fmt.Sprint(i + 1), Why: cases.Spell(w.Line, a.words()),
			})
		}
	}
	col := ui.Column{Gap: 12, Children: []ui.Node{ui.Text{Text: ask, Role: ui.Label}, row}}
	if !a.clockAbove() {
		col.Children = append(col.Children, ui.Spacer{Size: 12}, a.clockNode(g))
	}
	return col
}

// clockAbove tells whether the time left stands in the top line, because there
// may be no room for it in sight beside the picture.
func (a *App) clockAbove() bool { return a.narrow() || a.h/a.scale < 760 }

// glanceContext says which picture it is, and perhaps the time left.
func (a *App) glanceContext() string {
	r := a.play.round
	switch {
	case !a.clockAbove():
		return r.Place()
	case r.Timed:
		return fmt.Sprintf("%d of %d · %s left", r.At+1, len(r.Items), secondsText(r.Now()))
	}
	return fmt.Sprintf("%d of %d · no clock", r.At+1, len(r.Items))
}

func secondsText(g *Glance) string { return fmt.Sprintf("%d%ss", ShownSeconds(g.LeftS), thinSpace) }

// clockNode shows the seconds left: in steps of five at first, so that nothing
// hurries the eye, then one by one.
func (a *App) clockNode(g *Glance) ui.Node {
	if !a.play.round.Timed {
		return ui.Text{Text: "No clock runs in this round.", Role: ui.Quiet}
	}
	return ui.BarChart{
		Max: RoundSeconds, Alt: "Clock",
		Bars: []ui.Bar{{Label: "Time left", Value: float64(ShownSeconds(g.LeftS)), Says: secondsText(g), Color: ui.QuietInk}},
	}
}

// ShownSeconds is the time left as the clock shows it.
func ShownSeconds(left int) int {
	if left > 10 {
		return (left + 4) / 5 * 5
	}
	return left
}
