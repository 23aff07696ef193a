package screen

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/logbook"
)

// setting is one choice that a person makes for themselves. It takes effect at
// once.
type setting struct {
	id, name string
	items    []ui.ChoiceItem
	at       func(Settings) int
	set      func(*Settings, int)
}

var textSizes = []int{100, 125, 150, 175, 200}

func settingList() []setting {
	labels := cases.Vocab.IDs("labels")
	return []setting{
		{
			"set text", "Text size", textSizeItems(),
			func(s Settings) int { return nearestSize(s.TextScale) },
			func(s *Settings, i int) { s.TextScale = textSizes[i] },
		},
		onOff("set dark", "Ground", "Light", "Dark ink on white.", "Dark", "Light ink on black, for a dim room.",
			func(s *Settings) *bool { return &s.Dark }),
		{
			"set words", "Spelling",
			[]ui.ChoiceItem{
				{Label: "British", Says: "anaesthetic, haemostasis, adrenaline"},
				{Label: "American", Says: "anesthetic, hemostasis, epinephrine"},
			},
			func(s Settings) int { return b2i(s.Words == cases.US) },
			func(s *Settings, i int) { s.Words = []cases.Words{cases.UK, cases.US}[i] },
		},
		{
			"set labels", "Drug labels",
			[]ui.ChoiceItem{
				{Label: "Cautious", Says: "The lower of the two ceilings."},
				{Label: "American", Says: "Only what United States labels state."},
				{Label: "British", Says: "Only what United Kingdom labels state."},
			},
			func(s Settings) int { return cases.Vocab.Index("labels", s.Labels) },
			func(s *Settings, i int) { s.Labels = labels[i] },
		},
		onOff("set motion", "Motion", "Short fades", "A tenth of a second at most.", "None", "Nothing moves by itself.",
			func(s *Settings) *bool { return &s.ReducedMotion }),
		onOff("set sound", "Sound", "Off", "Nothing sounds.", "On", "A tone while the pedal is down.",
			func(s *Settings) *bool { return &s.Sound }),
	}
}

func onOff(id, name, off, offSays, on, onSays string, field func(*Settings) *bool) setting {
	return setting{
		id, name,
		[]ui.ChoiceItem{{Label: off, Says: offSays}, {Label: on, Says: onSays}},
		func(s Settings) int { return b2i(*field(&s)) },
		func(s *Settings, i int) { *field(s) = i == 1 },
	}
}

func textSizeItems() []ui.ChoiceItem {
	var items []ui.ChoiceItem
	for _, n := range textSizes {
		items = append(items, ui.ChoiceItem{Label: fmt.Sprintf("%d"+thinSpace+"%%", n)})
	}
	return items
}

func nearestSize(scale int) int {
	best := 0
	for i, n := range textSizes {
		if n <= scale {
			best = i
		}
	}
	return best
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (a *App) updateSettings(msg any) {
	switch msg := msg.(type) {
	case ui.Edited:
		if msg.ID == "set learner" {
			a.newLearner = msg.Text
		}
		return
	case ui.Activate:
		if msg.ID == "use learner" {
			a.useLearner()
		}
		return
	case ui.Key:
		if msg.Name == "Enter" && a.focus == "set learner" {
			a.useLearner()
		}
		return
	}
	c, ok := msg.(ui.Choose)
	if !ok {
		return
	}
	for _, s := range settingList() {
		if s.id == c.ID && c.Index >= 0 && c.Index < len(s.items) {
			next := a.Settings
			s.set(&next, c.Index)
			a.change(next)
		}
	}
}

// useLearner takes up the code that was typed. Cases begun under the other code
// stay begun.
func (a *App) useLearner() {
	next := a.Settings
	next.Learner = strings.TrimSpace(a.newLearner)
	if err := logbook.CheckLearner(next.Learner); err != nil {
		a.toast = capital(sentence(err.Error()))
		return
	}
	a.session = nil
	a.change(next)
	a.toast = "The logbook goes on as " + next.Learner + "."
}

// learnerSetting is the code under which attempts are kept.
func (a *App) learnerSetting() ui.Node {
	col := ui.Column{Gap: 8, Children: []ui.Node{
		ui.Row{Gap: 12, Align: ui.End, Children: []ui.Node{
			ui.Box{Width: 220, Scale: true, Child: ui.Field{ID: "set learner", Name: "Your code in the logbook", Text: a.newLearner, Hint: a.Settings.Learner}},
			ui.Button{ID: "use learner", Label: "Use it"},
		}},
		ui.Text{Role: ui.Quiet, Text: "Now: " + a.Settings.Learner + ". No name is asked. Others on this machine take another code."},
	}}
	if list := a.Learners(); len(list) > 1 {
		col.Children = append(col.Children, ui.Text{Role: ui.Quiet, Text: "Known here: " + strings.Join(list, ", ") + "."})
	}
	return ui.Box{Width: 340, Scale: true, Child: col}
}

func (a *App) viewSettings() ui.Page {
	row := ui.Row{Gap: 40, Wrap: true, LineGap: 28}
	for _, s := range settingList() {
		row.Children = append(row.Children, ui.Box{Width: 340, Scale: true, Child: ui.Column{Gap: 8, Children: []ui.Node{
			ui.Text{Text: s.name, Role: ui.Label},
			ui.ChoiceList{ID: s.id, Name: s.name, Items: s.items, Chosen: s.at(a.Settings)},
		}}})
	}
	row.Children = append(row.Children, a.learnerSetting())
	return ui.Page{
		Title: "Settings", Context: []ui.Span{ui.Words{Text: "each takes effect at once"}},
		Body: row,
		Keys: []ui.KeyTip{{Says: "Text size", Key: "Ctrl +"}, {Says: "Back", Key: "Esc"}},
	}
}
