package screen

import "leastwatt/game/ui"

// keyLine is one key and what it does.
type keyLine struct{ key, says string }

var everywhere = []keyLine{
	{"Tab", "to the next control; Shift Tab goes back"},
	{"T", "today"},
	{"P", "progress"},
	{"K", "packs"},
	{"R", "rules"},
	{",", "settings"},
	{"Alt 1", "case"},
	{"Alt 2", "plan"},
	{"Alt 3", "bench"},
	{"Alt 4", "debrief"},
	{"Ctrl Z", "undo; a run of steps on one dial counts as one"},
	{"Ctrl Y", "do again"},
	{"Ctrl C", "copy the note as text"},
	{"Ctrl +", "larger text; Ctrl − smaller, Ctrl 0 as at first"},
	{"?", "these keys"},
	{"Esc", "close, or back"},
}

var keysOf = map[spot][]keyLine{
	atToday: {{"↑ ↓", "choose a case"}, {"Enter", "begin"}, {"A", "any case, or today's"}, {"S", "a short round of look-alikes"}, {"E", "self-assessment"}},
	atCase:  {{"↑ ↓", "move in the list"}, {"Enter", "ask or examine; Space does the same"}, {"V", "look again another way"}, {"Alt 2", "write the plan"}},
	atPlan: {
		{"← →", "to the phrase before or after"},
		{"↑ ↓", "change the phrase"},
		{"Page ↑ ↓", "by ten steps"},
		{"0–9", "type a number, or choose a line"},
		{"Enter", "take it"},
		{"Esc", "leave it"},
		{"Delete", "leave it open"},
		{"Ctrl K", "my usual kit: protection and advice of your last plan"},
		{"Ctrl ↵", "grade now; G does too when no editor is open"},
	},
	atBench: {
		{"Space", "the pedal, while it is held; other tools act once"},
		{"← ↑ ↓ →", "move by 0.1 mm; with Shift by 1 mm"},
		{"N", "to the lesion's next spot"},
		{"Q Z", "lift or lower the tip by 0.1 mm"},
		{"[ ]", "less or more power; Page ↑ ↓ by ten steps"},
		{"M Y E C", "pen, syringe, electrode, cotton tip"},
		{"G W", "gauze, dry or wet; R lets go"},
		{"U B X", "curette, blade, scissors; K J set the depth"},
		{"H V T D", "other hand, smoke tube, tissue to the pot, wait"},
		{"O L A F", "oxygen off, off metal, plate, slow or fast injection"},
		{"+ − 0", "zoom about the tip; as at first"},
		{"P", "pause"},
		{"Ctrl Z", "back one burst"},
		{"Ctrl ↵", "finish"},
	},
	atDebrief: {{"N", "next finding"}, {"S", "its rule and source"}, {"D", "disagree with it, with a reason"}, {"Enter", "to its phrase, to change it"}, {"C", "back to the plan"}, {"L", "another patient with a lesion like it"}},
	atRound: {
		{"1 2 3 4", "treat, biopsy first, refer, leave"},
		{"S N", "send tissue, or nothing to send"},
		{"L", "look through a lens, or without it"},
		{"⌫", "take the last decision back"},
		{"W", "begin without the clock"},
		{"Enter", "at the end: open the chosen one as a full case"},
		{"S", "at the end: another round"},
	},
	atProgress: {{"A", "your attempts, as they were graded"}},
	atRules:    {{"Page ↑ ↓", "scroll"}},
}

// viewKeys is the sheet of keys of the place one is in.
func (a *App) viewKeys() *ui.Overlay {
	col := ui.Column{Gap: 8}
	if here := keysOf[a.at]; len(here) > 0 {
		col.Children = append(col.Children, ui.Text{Text: "Here", Role: ui.Label})
		col.Children = append(col.Children, keyRows(here)...)
		col.Children = append(col.Children, ui.Spacer{Size: 8})
	}
	col.Children = append(col.Children, ui.Text{Text: "Everywhere, while no editor has the letters", Role: ui.Label})
	col.Children = append(col.Children, keyRows(everywhere)...)
	return &ui.Overlay{ID: "keys", Title: "Keys", Width: 600, Child: ui.Scroll{ID: "key list", Child: col}}
}

func keyRows(list []keyLine) []ui.Node {
	var rows []ui.Node
	for _, k := range list {
		rows = append(rows, ui.Row{Gap: 16, Align: ui.Middle, Children: []ui.Node{
			ui.Box{Child: ui.Row{Children: []ui.Node{ui.Keycap{Text: k.key}, ui.Spacer{}}}, Width: 110, Scale: true},
			ui.Grow(ui.Text{Text: k.says, Role: ui.Quiet, Color: ui.Ink}),
		}})
	}
	return rows
}
