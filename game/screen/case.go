package screen

import (
	"fmt"
	"slices"

	"leastwatt/cases"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

// caseLook is the state of the case screen.
type caseLook struct {
	exam   skin.Exam // how the lesion is looked at
	latest string    // the topic answered last, "" none
}

// examViews are the examinations that change the picture.
var examViews = map[string]skin.Exam{
	"press_glass": skin.ExamPressed, "pinch": skin.ExamPinched,
	"magnify": skin.ExamMagnified, "dermoscope": skin.ExamDermoscope,
}

// Topics splits the topics into questions and examinations.
func Topics() (ask, examine []cases.Word) {
	for _, w := range cases.Vocab.List("topic") {
		switch {
		case w.Retired != "":
		case cases.IsExam(w.ID):
			examine = append(examine, w)
		default:
			ask = append(ask, w)
		}
	}
	return ask, examine
}

func (a *App) enterCase() {
	a.focus = "examine"
	if a.narrow() { // the lists lie below the picture, which comes first
		a.focus = "tabs"
	}
	a.wantLesion()
}

func (a *App) wantLook() {
	a.gallery.want(pictureKey{a.session.Ref, a.look.exam, a.lesionPx()}, subjectOf(a.session.Case))
}

// wantLesion asks for the lesion on bare skin, and as it is looked at.
func (a *App) wantLesion() {
	a.gallery.want(pictureKey{a.session.Ref, skin.ExamNone, a.lesionPx()}, subjectOf(a.session.Case))
	a.wantLook()
}

// lesionPx is the size in which the lesion is drawn: larger in a large window.
func (a *App) lesionPx() int {
	if a.lesionSide() > lesionPx {
		return widePx
	}
	return lesionPx
}

func (a *App) updateCase(msg any) {
	ask, examine := Topics()
	switch msg := msg.(type) {
	case ui.Choose:
		switch {
		case msg.ID == "ask" && msg.Index >= 0 && msg.Index < len(ask):
			a.ask(ask[msg.Index].ID)
		case msg.ID == "examine" && msg.Index >= 0 && msg.Index < len(examine):
			a.ask(examine[msg.Index].ID)
		}
	case ui.Activate:
		switch msg.ID {
		case "to plan":
			a.goTo(atPlan)
		default:
			a.lookBy(msg.ID)
		}
	case ui.Key:
		if msg.Name == "v" && !msg.Ctrl && !msg.Alt {
			a.nextLook()
		}
	}
}

// ask asks a topic, or shows its answer again.
func (a *App) ask(topic string) {
	a.session.Ask(topic)
	a.look.latest = topic
	if exam, ok := examViews[topic]; ok {
		a.look.exam = exam
		a.wantLook()
	}
}

// looks lists the ways of looking that are open so far: bare, and those of the
// examinations made.
func (a *App) looks() []string {
	list := []string{""}
	for _, t := range cases.Vocab.IDs("topic") {
		if _, ok := examViews[t]; ok && slices.Contains(a.session.Plan.Asked, t) {
			list = append(list, t)
		}
	}
	return list
}

func (a *App) nextLook() {
	looks := a.looks()
	for i, t := range looks {
		if examViews[t] == a.look.exam {
			a.look.exam = examViews[looks[(i+1)%len(looks)]]
			a.wantLook()
			return
		}
	}
}

func (a *App) lookBy(id string) {
	for _, t := range a.looks() {
		if id == "look "+t {
			a.look.exam = examViews[t]
			a.wantLook()
		}
	}
}

func (a *App) viewCase() ui.Page {
	if a.look.exam != skin.ExamNone && !slices.ContainsFunc(a.looks(), func(t string) bool { return examViews[t] == a.look.exam }) {
		a.look.exam = skin.ExamNone // its examination was undone
	}
	return ui.Page{
		Title: "Case", Context: a.caseContext(), Body: a.caseBody(),
		Keys: []ui.KeyTip{{Says: "Ask", Key: "Enter"}, {Says: "Plan", Key: "Alt 2"}, {Says: "Undo", Key: "Ctrl Z"}},
	}
}

// caseBody puts the lesion at the left, as large as the window lets it be.
func (a *App) caseBody() ui.Node {
	s := a.session
	pic := a.picture(s.Ref, s.Case, a.look.exam, a.lesionPx())
	pic.MaxH, pic.MaxW = a.lesionSide(), a.lesionSide()
	if a.narrow() {
		return ui.Column{Gap: 20, Children: []ui.Node{
			ui.Split{Left: pic, LeftW: a.lesionSide() / a.scale, Main: a.patientCard(), MainMin: 300, Gap: 28},
			a.lookButtons(),
			ui.Rule{},
			ui.Grow(a.topics()),
		}}
	}
	left := ui.Column{Gap: 12, Children: []ui.Node{pic, a.lookButtons()}}
	right := ui.Column{Gap: 20, Children: []ui.Node{a.patientCard(), ui.Rule{}, ui.Grow(a.topics())}}
	split := ui.Split{Left: left, LeftW: a.lesionSide() / a.scale, Main: right, MainMin: 460, Gap: 40}
	if a.tight() {
		split.MainMin, split.Gap = 400, 28
	}
	return split
}

// lesionSide is the side of the picture in px: about half the window's width,
// and no more than its height leaves below the top line, above the scale bar
// and the buttons.
func (a *App) lesionSide() float64 {
	width := 0.48 * (a.w - 64)
	height := a.h - (56+40)*a.scale - 48 - 34*a.scale
	if n := len(a.looks()); n > 1 {
		rows := 1 + int(float64(n)*158*a.scale/width)
		height -= float64(rows)*44*a.scale + 12
	}
	return max(260, min(width, height))
}

// lookButtons choose between the pictures, once there is more than one.
func (a *App) lookButtons() ui.Node {
	looks := a.looks()
	if len(looks) < 2 {
		return nil
	}
	row := ui.Row{Gap: 8, Wrap: true, LineGap: 8, Align: ui.Middle}
	for _, t := range looks {
		name := "Bare skin"
		if t != "" {
			name = label("topic", t, a.words())
		}
		b := ui.Button{ID: "look " + t, Label: name}
		if examViews[t] == a.look.exam {
			b.Why = "shown now"
			b.Label = "● " + name
		}
		row.Children = append(row.Children, b)
	}
	row.Children = append(row.Children, ui.Keycap{Text: "V"})
	return row
}

// patientCard is what a trainee may know before asking.
func (a *App) patientCard() ui.Node {
	c := a.session.Case
	facts := ui.Column{Gap: 4, Children: []ui.Node{
		ui.Text{Text: "“" + cases.Spell(c.Presenting, a.words()) + "”", Role: ui.Heading},
		ui.Spacer{Size: 4},
		ui.Text{Text: PersonLine(c), Role: ui.Body},
		ui.Text{Text: LesionLine(c, a.words()), Role: ui.Body},
	}}
	return ui.Row{Gap: 24, Children: []ui.Node{
		ui.Grow(facts),
		ui.BodyOutline{Site: c.Lesion.Site, Side: c.Lesion.Side, Label: label("site", c.Lesion.Site, a.words()), Height: 132},
	}}
}

// PersonLine: "Man, 68 · 84 kg · skin type 2".
func PersonLine(c *cases.Case) string {
	line := fmt.Sprintf("%s · %s · skin type %d", person(&c.Patient), quantity(c.Patient.WeightKG, "kg"), c.Patient.SkinType)
	if c.Patient.HeightCM != nil {
		line += " · " + quantity(*c.Patient.HeightCM, "cm tall")
	}
	return line
}

// LesionLine: "Back, 8 mm wide, 2 mm high"; "Left axilla, 12 of them, the largest 4 mm wide".
func LesionLine(c *cases.Case, words cases.Words) string {
	l := &c.Lesion
	line := capital(place(l, words))
	if n := l.Counted(); n > 1 {
		line += fmt.Sprintf(", %s of them, each about %s wide", numberWord(n), quantity(l.WidthMM, "mm"))
	} else {
		line += fmt.Sprintf(", %s wide", quantity(l.WidthMM, "mm"))
	}
	if l.HeightMM > 0 {
		line += fmt.Sprintf(", %s high", quantity(l.HeightMM, "mm"))
	} else {
		line += ", flat"
	}
	return line
}

// topics: what may be asked and examined, and the answers so far.
func (a *App) topics() ui.Node {
	ask, examine := Topics()
	choices := ui.Column{Gap: 4, Children: []ui.Node{
		ui.Text{Text: "Examine", Role: ui.Label},
		a.topicTicks("examine", "ways to examine", examine),
		ui.Spacer{Size: 8},
		ui.Text{Text: "Ask about", Role: ui.Label},
		a.topicTicks("ask", "questions to ask", ask),
	}}
	width := 250.0
	if a.tight() && !a.narrow() {
		width = 204
	}
	return ui.Row{Gap: 24, Children: []ui.Node{
		ui.Box{Child: ui.Scroll{ID: "topics " + a.session.Ref, Child: choices}, Width: width, Scale: true},
		ui.Grow(ui.Column{Gap: 16, Children: []ui.Node{
			ui.Grow(ui.Scroll{ID: "answers " + a.session.Ref, Child: a.answers()}),
			ui.Row{Children: []ui.Node{ui.Spacer{}, ui.Button{ID: "to plan", Label: "Write the plan", Kind: ui.Primary, Hint: "Alt 2"}}},
		}}),
	}}
}

func (a *App) topicTicks(id, name string, list []cases.Word) ui.Node {
	t := ui.Ticks{ID: id, Name: name}
	for _, w := range list {
		t.Items = append(t.Items, ui.ChoiceItem{Label: label("topic", w.ID, a.words())})
		t.Ticked = append(t.Ticked, slices.Contains(a.session.Plan.Asked, w.ID))
	}
	return t
}

// answers shows what was learnt, the last first. Speech stands in quotes.
func (a *App) answers() ui.Node {
	asked := slices.Clone(a.session.Plan.Asked)
	if len(asked) == 0 {
		return ui.Text{Role: ui.Quiet, Text: "Choose a question or an examination. What you learn stands here. Asking never costs."}
	}
	slices.Reverse(asked)
	if i := slices.Index(asked, a.look.latest); i > 0 {
		asked = append([]string{a.look.latest}, slices.Delete(asked, i, i+1)...)
	}
	col := ui.Column{Gap: 14}
	for _, t := range asked {
		col.Children = append(col.Children, ui.Column{Gap: 2, Children: []ui.Node{
			ui.Text{Text: label("topic", t, a.words()), Role: ui.Label},
			answerNode(Answered(a.session.Case, t, a.words())),
		}})
	}
	return col
}

func answerNode(text string, speech bool) ui.Node {
	if speech {
		return ui.Text{Text: text, Role: ui.Quote}
	}
	return ui.Text{Text: text, Role: ui.Body}
}

// reports are read from paper and the room is looked at, so neither is speech.
func isSpeech(topic string) bool {
	switch topic {
	case "biopsy_report", "oxygen", "metal", "kit":
		return false
	}
	return !cases.IsExam(topic)
}

// Answered is what a topic brings, in quotes where it is speech.
func Answered(c *cases.Case, topic string, words cases.Words) (text string, speech bool) {
	text = cases.AnswerFor(c, topic, words).Text
	if isSpeech(topic) {
		return "“" + text + "”", true
	}
	return text, false
}
