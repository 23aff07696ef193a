package screen

import (
	"reflect"
	"slices"
	"strings"

	"leastwatt/cases"
)

// EditorKind is how a phrase is changed.
type EditorKind uint8

// The kinds of editor.
const (
	ChoiceEditor EditorKind = iota // one of Items
	TicksEditor                    // any of Items
	NumberEditor                   // a dial with a number field
)

// Item is one choice of an editor.
type Item struct {
	Label string
	Says  string // one line of explanation
	On    bool   // chosen, or ticked
	id    string
}

// Editor changes one phrase of a plan. It is made for a plan as it stands and
// knows no more than that plan; make it anew after every change.
type Editor struct {
	ID       string // the phrase
	Name     string
	Says     string
	Kind     EditorKind
	Items    []Item
	Optional bool // may be left as none
	Asks     bool // is changed on the case screen, by asking
	row      *phraseRow
	plan     *cases.Plan
	words    cases.Words
}

// EditorFor makes the editor of a phrase, or false when there is no such
// phrase.
func EditorFor(p *cases.Plan, id string, words cases.Words) (Editor, bool) {
	r := row(id)
	if r == nil || inList(id) && !slot(p, id, false).IsValid() {
		return Editor{}, false
	}
	e := Editor{
		ID: id, Name: cases.Spell(capital(r.Name), words), Says: cases.Spell(r.Says, words),
		Optional: r.optional() && id != "asked", Asks: id == "asked", row: r, plan: p, words: words,
	}
	switch r.kind {
	case numberPhrase:
		e.Kind = NumberEditor
	case ticksPhrase:
		e.Kind = TicksEditor
		e.tickItems()
	case flagPhrase:
		e.flagItems()
	case numbingPhrase:
		e.numbingItems()
	case adrenalinePhrase:
		e.adrenalineItems()
	default:
		e.choiceItems()
	}
	return e, true
}

// none is the item by which an optional phrase goes back to none. Where none
// means one of the choices, as no word on bleeding means pressure, that choice
// stands for it.
func (e *Editor) none() []Item {
	if !e.Optional || e.row.meant() != "" {
		return nil
	}
	return []Item{{Label: capital(cases.Spell(e.row.Absent, e.words)), Says: "Leave it out."}}
}

// choiceItems lists the vocabulary, less what is retired and less techniques
// that take no tissue where tissue is the aim.
func (e *Editor) choiceItems() {
	now := textAt(e.plan, e.ID)
	e.Items = e.none()
	for _, w := range cases.Vocab.List(e.row.table) {
		if w.ID != now && (w.Retired != "" || !e.offered(w.ID)) {
			continue
		}
		e.Items = append(e.Items, Item{label(e.row.table, w.ID, e.words), cases.Spell(w.Line, e.words), false, w.ID})
	}
	if now == "" {
		now = e.row.meant()
	}
	for i := range e.Items {
		e.Items[i].On = e.Items[i].id == now && (now != "" || e.Optional)
	}
}

func (e *Editor) offered(id string) bool {
	switch {
	case e.ID == "technique" && e.plan.Disposition == "biopsy_first":
		return cuts(id)
	case e.ID == "specimen.method":
		return id != "none"
	}
	return true
}

func (e *Editor) tickItems() {
	now, _ := listAt(e.plan, e.ID)
	for _, w := range cases.Vocab.List(e.row.table) {
		on := slices.Contains(now, w.ID)
		if w.Retired == "" || on {
			e.Items = append(e.Items, Item{label(e.row.table, w.ID, e.words), cases.Spell(w.Line, e.words), on, w.ID})
		}
	}
}

func (e *Editor) flagItems() {
	on, decided := flagAt(e.plan, e.ID)
	yes, no := cases.Spell(e.row.Yes, e.words), cases.Spell(e.row.No, e.words)
	e.Items = []Item{
		{Label: capital(yes), On: decided && on, id: "yes"},
		{Label: capital(no), On: decided && !on, id: "no"},
	}
}

// At is the index of the chosen item, or -1.
func (e *Editor) At() int {
	return slices.IndexFunc(e.Items, func(it Item) bool { return it.On })
}

// Pick chooses an item, or turns a tick over. An index outside the items does
// nothing.
func (e *Editor) Pick(i int) {
	if i < 0 || i >= len(e.Items) {
		return
	}
	switch e.row.kind {
	case ticksPhrase:
		e.Turn([]int{i})
	case flagPhrase:
		on := e.Items[i].id == "yes"
		slot(e.plan, e.ID, true).Set(reflect.ValueOf(&on))
		if e.ID == "specimen.send" && !on {
			e.plan.Specimen = &cases.Specimen{Send: &on}
		}
	case numbingPhrase:
		e.pickNumbing(e.Items[i].id)
	default:
		if e.Items[i].id == "" && e.row.kind == choicePhrase {
			e.Clear()
			return
		}
		e.choose(e.Items[i].id)
	}
}

// choose sets a choice, and drops what only another choice needs and the note
// would not show: nothing unseen may count.
func (e *Editor) choose(id string) {
	slot(e.plan, e.ID, true).SetString(id)
	switch {
	case e.ID == "haemostasis.method" && id != "electrocoagulation":
		e.plan.Haemostasis = &cases.Haemostasis{Method: id}
	case e.ID == "prep.agent" && id == "none":
		e.plan.Prep = &cases.Prep{Agent: id}
	}
}

// Turn turns ticks over. The list stays in the order of the vocabulary, so
// that the note does not depend on the order of clicks.
func (e *Editor) Turn(items []int) {
	chosen := []string{}
	for k, it := range e.Items {
		if it.On != slices.Contains(items, k) {
			chosen = append(chosen, it.id)
		}
	}
	slot(e.plan, e.ID, true).Set(reflect.ValueOf(chosen))
}

// TickNone decides for an empty list.
func (e *Editor) TickNone() {
	if e.Kind == TicksEditor {
		slot(e.plan, e.ID, true).Set(reflect.ValueOf([]string{}))
	}
}

// Step goes by items of a choice, or by steps of a number. From an open
// phrase it goes to the first item, or to the least value.
func (e *Editor) Step(by int) {
	switch e.Kind {
	case NumberEditor:
		e.stepNumber(by)
	case ChoiceEditor:
		at := e.At()
		if at < 0 {
			e.Pick(0)
			return
		}
		e.Pick(min(max(at+by, 0), len(e.Items)-1))
	}
}

// Clear opens the phrase again, or leaves an optional one out.
func (e *Editor) Clear() {
	if v := slot(e.plan, e.ID, false); v.IsValid() && v.CanSet() {
		v.SetZero()
	}
	switch {
	case e.ID == "haemostasis.method", e.ID == "referral.to":
		slot(e.plan, strings.SplitN(e.ID, ".", 2)[0], true).SetZero()
	}
}

// numbing's choices, by id.
func (e *Editor) numbingItems() {
	e.Items = []Item{
		{Label: "No anaesthetic", Says: "Nothing is injected or put on.", id: "none"},
		{Label: "An injection", Says: "One agent under the skin.", id: "one"},
		{Label: "Injections of two agents", Says: "Each counts with its share.", id: "two"},
		{Label: "A surface agent", Says: "A cream, a gel or cold.", id: "surface"},
		{Label: "A surface agent and an injection", Says: "First the skin is dulled, then injected.", id: "both"},
	}
	now := numbingKind(e.plan.Anaesthetic)
	for i := range e.Items {
		e.Items[i].Label = cases.Spell(e.Items[i].Label, e.words)
		e.Items[i].On = e.Items[i].id == now
	}
}

func numbingKind(a *cases.Anaesthetic) string {
	switch {
	case a == nil:
	case a.None != nil && *a.None:
		return "none"
	case len(a.Injected) > 0 && a.Topical != nil:
		return "both"
	case len(a.Injected) > 1:
		return "two"
	case len(a.Injected) == 1:
		return "one"
	case a.Topical != nil:
		return "surface"
	}
	return ""
}

// pickNumbing keeps what was dialled already and still fits.
func (e *Editor) pickNumbing(kind string) {
	a := e.plan.Anaesthetic
	if a == nil || kind == "none" {
		a = &cases.Anaesthetic{}
	}
	yes := true
	a.None = nil
	injections := map[string]int{"one": 1, "two": 2, "both": max(1, len(a.Injected))}[kind]
	for len(a.Injected) < injections {
		a.Injected = append(a.Injected, cases.Injected{})
	}
	if a.Injected = a.Injected[:injections]; injections == 0 {
		a.Injected = nil
	}
	switch kind {
	case "none":
		a.None = &yes
	case "surface", "both":
		if a.Topical == nil {
			a.Topical = &cases.Topical{}
		}
	default:
		a.Topical = nil
	}
	e.plan.Anaesthetic = a
}

// adrenalineStrengths are those that cartridges and vials come in.
var adrenalineStrengths = []string{"1:50000", "1:80000", "1:100000", "1:200000", "1:300000", "1:400000"}

func (e *Editor) adrenalineItems() {
	now := textAt(e.plan, e.ID)
	e.Items = []Item{{Label: "Plain", Says: cases.Spell("No adrenaline in it.", e.words), On: now == ""}}
	for _, s := range adrenalineStrengths {
		e.Items = append(e.Items, Item{Label: cases.RatioText(s), On: s == now, id: s})
	}
	if e.At() < 0 {
		e.Items = append(e.Items, Item{Label: cases.RatioText(now), On: true, id: now})
	}
}
