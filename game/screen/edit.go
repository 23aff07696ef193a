package screen

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"leastwatt/game/ui"
)

// phraseEdit is the editor in the margin: the phrase it belongs to, and what
// was typed into its number field so far.
type phraseEdit struct {
	id     string // "" none
	open   bool
	typing bool
	typed  string
	fault  string
}

// isPhrase tells whether an ID is that of a phrase in the note.
func isPhrase(id string) bool { return id != "confidence" && row(id) != nil }

// editorID is the ID of the control that edits a phrase. It differs from
// phrase to phrase, so that each list remembers its own place.
func editorID(phrase string) string { return "edit " + phrase }

// phraseOf is the phrase of an editor's ID; any other ID stays as it is.
func phraseOf(id string) string { return strings.TrimPrefix(id, "edit ") }

// editing tells whether an editor is open and has the keys.
func (a *App) editing() bool {
	return (a.at == atPlan || a.at == atDebrief) && a.edit.open && a.edit.id == a.focus && a.edit.id != "asked"
}

// editor is the editor of the phrase in the margin.
func (a *App) editor() (Editor, bool) {
	if a.session == nil || a.edit.id == "" {
		return Editor{}, false
	}
	return EditorFor(a.session.Plan, a.edit.id, a.words())
}

// phraseFocused closes the editor of the phrase that was left, and opens that
// of the phrase reached. In the debrief a phrase is only shown; Enter opens it.
func (a *App) phraseFocused(was, id string) {
	if was == id {
		return
	}
	a.takeTyped(false)
	a.session.EndRun()
	a.edit = phraseEdit{}
	if !isPhrase(id) {
		return
	}
	a.edit = phraseEdit{id: id, open: a.at == atPlan}
	a.session.Looked(id)
	if a.at == atDebrief {
		a.showFindingOf(id)
	}
}

// leaveEditor takes what was typed, if it can be, and closes the editor.
func (a *App) leaveEditor() {
	if a.session != nil {
		a.takeTyped(false)
		a.session.EndRun()
	}
	a.edit = phraseEdit{}
}

func (a *App) dropTyping() { a.edit.typing, a.edit.typed, a.edit.fault = false, "", "" }

// takeTyped sets the number that was typed. When the editor stays, a number
// that does not fit is kept on show with what would be right; when it is left,
// the old value stays and one line says so.
func (a *App) takeTyped(stays bool) {
	if !a.edit.typing {
		return
	}
	typed := a.edit.typed
	if strings.TrimSpace(typed) == "" {
		a.dropTyping()
		return
	}
	var err error
	a.session.Edit("", a.edit.id, a.words(), func(e *Editor) { err = e.Type(typed) })
	switch {
	case err == nil:
		a.dropTyping()
		a.afterChange()
	case stays:
		a.edit.fault = capital(err.Error())
	default:
		a.toast = "“" + typed + "” was left out. It can be " + err.Error() + "."
		a.dropTyping()
	}
}

// updatePhrase lets the note and its editor have a message and tells whether
// it was theirs.
func (a *App) updatePhrase(msg any) bool {
	switch msg := msg.(type) {
	case ui.Step:
		return a.stepPhrase(msg)
	case ui.Choose:
		if msg.ID != editorID(a.edit.id) {
			return false
		}
		a.change1("", func(e *Editor) { e.Pick(msg.Index) })
		return true
	case ui.SetFraction:
		return a.drag(msg)
	case ui.TextInput:
		return a.typeIn(msg)
	case ui.Activate:
		return a.activatePhrase(msg.ID)
	case ui.Key:
		return a.editKey(msg)
	}
	return false
}

// change1 changes the phrase in the margin.
func (a *App) change1(run string, f func(*Editor)) {
	if a.session.Edit(run, a.edit.id, a.words(), f) {
		a.afterChange()
	}
}

// stepPhrase steps the phrase under the wheel or the focus; the editor goes
// with it.
func (a *App) stepPhrase(msg ui.Step) bool {
	id := phraseOf(msg.ID)
	if row(id) == nil {
		return false
	}
	if id == "confidence" {
		a.session.Edit(id, id, a.words(), func(e *Editor) { e.Step(msg.By) })
		return true
	}
	if id != a.edit.id {
		a.focus = id
		a.phraseFocused("", id)
	}
	a.dropTyping()
	a.edit.open = true
	a.change1(id, func(e *Editor) { e.Step(msg.By) })
	return true
}

func (a *App) drag(msg ui.SetFraction) bool {
	switch phraseOf(msg.ID) {
	case "confidence":
		a.session.Edit(msg.ID, msg.ID, a.words(), func(e *Editor) { e.SetFraction(msg.F) })
	case a.edit.id:
		a.dropTyping()
		a.change1(a.edit.id, func(e *Editor) { e.SetFraction(msg.F) })
	default:
		return false
	}
	return true
}

// typeIn types a number, or goes to a choice by its number or first letter.
func (a *App) typeIn(msg ui.TextInput) bool {
	e, ok := a.editor()
	switch {
	case !ok || !a.editing():
		return false
	case msg.Text == "?":
		a.help = true
		return true
	case e.Kind == NumberEditor:
		a.typeDigits(msg.Text)
		return true
	}
	r, _ := utf8.DecodeRuneInString(msg.Text)
	if i := int(r - '1'); r >= '1' && r <= '9' {
		a.change1("", func(e *Editor) { e.Pick(i) })
		return true
	}
	if e.Kind == ChoiceEditor {
		if i := nextWith(e.Items, e.At(), r); i >= 0 {
			a.change1("", func(e *Editor) { e.Pick(i) })
		}
	}
	return true
}

// typeDigits takes what a number is made of, and leaves letters alone.
func (a *App) typeDigits(text string) {
	if strings.Trim(text, "0123456789.,") != "" || len(a.edit.typed)+len(text) > 12 {
		return
	}
	a.edit.typing = true
	a.edit.fault = ""
	a.edit.typed += text
}

// nextWith is the next item, going round, whose label begins with a letter.
func nextWith(items []Item, at int, letter rune) int {
	for k := range items {
		i := (max(at, -1) + 1 + k) % len(items)
		first, _ := utf8.DecodeRuneInString(items[i].Label)
		if unicode.ToLower(first) == unicode.ToLower(letter) {
			return i
		}
	}
	return -1
}

func (a *App) activatePhrase(id string) bool {
	id = phraseOf(id)
	if !isPhrase(id) {
		return false
	}
	if id == "asked" {
		a.goTo(atCase)
		return true
	}
	if a.edit.id == id && a.edit.typing {
		a.takeTyped(true)
		return true
	}
	a.edit = phraseEdit{id: id, open: true}
	a.focus = id
	a.session.Looked(id)
	return true
}

// editKey: what an open editor does with keys that are no characters.
func (a *App) editKey(k ui.Key) bool {
	if k.Ctrl || k.Alt || !a.editing() {
		return false
	}
	switch k.Name {
	case "Escape":
		if a.edit.typing {
			a.dropTyping()
		} else {
			a.edit.open = false
		}
	case "Backspace":
		if !a.edit.typing {
			a.change1("", func(e *Editor) { e.Clear() })
			return true
		}
		_, n := utf8.DecodeLastRuneInString(a.edit.typed)
		a.edit.typed = a.edit.typed[:len(a.edit.typed)-n]
		a.edit.fault = ""
		a.edit.typing = a.edit.typed != ""
	case "Delete":
		a.dropTyping()
		a.change1("", func(e *Editor) { e.Clear() })
	default:
		return false
	}
	return true
}
