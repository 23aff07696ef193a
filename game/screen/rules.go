package screen

import (
	"strings"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/tables"
)

// ruleSearch is the state of the reference of rules.
type ruleSearch struct {
	query  string
	domain int // 0 every subject, else 1 + its row in the vocabulary
}

// mostRules is how many rules are shown at once; a narrower search shows the
// rest.
const mostRules = 60

func (a *App) updateRules(msg any) {
	switch msg := msg.(type) {
	case ui.Edited:
		if msg.ID == "rules search" {
			a.rules.query = msg.Text
		}
	case ui.Choose:
		if msg.ID == "rules domain" {
			a.rules.domain = msg.Index
		}
	case ui.Activate:
		if msg.ID == "clear search" {
			a.rules = ruleSearch{}
			a.focus = "rules search"
		}
	}
}

// FindRules lists the rules that hold every word of a query, in table order. A
// domain "" means every one.
func FindRules(set *tables.Set, query, domain string, words cases.Words) []*tables.Row {
	wanted := strings.Fields(strings.ToLower(query))
	var found []*tables.Row
	for _, r := range set.Rows {
		if domain != "" && r.Domain != domain {
			continue
		}
		text := strings.Join([]string{r.Rule, r.Says, r.Why, r.Right, r.Source, r.Certainty, r.Value(), r.Scope(), r.Domain}, "\n")
		text = strings.ToLower(text + "\n" + cases.Spell(text, words))
		all := true
		for _, w := range wanted {
			all = all && strings.Contains(text, w)
		}
		if all {
			found = append(found, r)
		}
	}
	return found
}

func (a *App) domainID() string {
	ids := cases.Vocab.IDs("domain")
	if i := a.rules.domain - 1; i >= 0 && i < len(ids) {
		return ids[i]
	}
	return ""
}

func (a *App) viewRules() ui.Page {
	found := FindRules(a.Set, a.rules.query, a.domainID(), a.words())
	domains := ui.ChoiceList{ID: "rules domain", Name: "subject", Chosen: a.rules.domain, Items: []ui.ChoiceItem{{Label: "Every subject"}}}
	for _, w := range cases.Vocab.List("domain") {
		domains.Items = append(domains.Items, ui.ChoiceItem{Label: capital(w.Label(a.words()))})
	}
	says := capital(count(len(found), "rule"))
	if len(found) > mostRules {
		says += "; the first 60 are shown. Another word narrows it."
	} else {
		says += "."
	}
	col := ui.Column{Gap: 18}
	for i, r := range found {
		if i < mostRules {
			col.Children = append(col.Children, a.ruleNode(r))
		}
	}
	head := ui.Row{Gap: 16, Align: ui.End, Children: []ui.Node{
		ui.Grow(ui.Field{ID: "rules search", Name: "Search in rules, reasons and sources", Text: a.rules.query, Hint: "alcohol dry, nose, lidocaine"}),
	}}
	if a.rules.query != "" || a.rules.domain != 0 {
		head.Children = append(head.Children, ui.Button{ID: "clear search", Label: "Show all"})
	}
	return ui.Page{
		Title: "Rules", Context: []ui.Span{ui.Words{Text: "what is graded, and whose word it is"}},
		Body: ui.Split{
			Left: ui.Column{Gap: 8, Children: []ui.Node{ui.Text{Text: "Subject", Role: ui.Label}, domains}}, LeftW: 220,
			Main: ui.Column{Gap: 16, Children: []ui.Node{
				head, ui.Column{Gap: 2, Children: []ui.Node{ui.Text{Text: says, Role: ui.Quiet}, a.auditNode()}}, ui.Grow(ui.Scroll{ID: "rules", Child: col}),
			}},
		},
		Keys: []ui.KeyTip{{Says: "Back", Key: "Esc"}},
	}
}

// auditNode tells whose word the rules are, and how sure, by number; a search
// leaves it out, because it counts every rule.
func (a *App) auditNode() ui.Node {
	if a.rules.query != "" || a.rules.domain != 0 {
		return nil
	}
	audit := AuditRules(a.Set)
	return ui.Text{Text: audit.Line(a.words()), Role: ui.Quiet}
}

func (a *App) ruleNode(r *tables.Row) ui.Node {
	words := a.words()
	col := ui.Column{Gap: 2, Children: []ui.Node{
		ui.Text{Text: sentence(cases.Spell(r.Says, words)), Role: ui.Body, Strong: true},
		ui.Text{Text: cases.Spell(r.Why, words), Role: ui.Body},
	}}
	if r.Right != "" {
		lead := "Right: "
		if r.Certainty == "common_practice" || r.Certainty == "memory" {
			lead = "Many teach: "
		}
		col.Children = append(col.Children, ui.Text{Text: lead + sentence(lowerFirst(cases.Spell(r.Right, words))), Role: ui.Body})
	}
	meta := SourceText(r.Source, r.Certainty, words)
	if r.Knowledge {
		meta += " · taught, not graded"
	}
	col.Children = append(col.Children, ui.Text{Text: meta, Role: ui.Small}, ui.Text{
		Text: cases.Vocab.Label("domain", r.Domain, words) + " · " + r.Rule, Role: ui.Small,
	})
	return col
}
