package ui

import (
	"fmt"
	"strings"
)

// Access is a node as words: what a screen reader says, the plain mode prints
// and a test asserts on. Nothing exists only as a picture, so this tree holds
// all that a screen tells.
type Access struct {
	// Role: page, heading, text, note, words, phrase, link, key, button, list,
	// item, ticks, tick, dial, field, tabs, tab, mark, chart, picture, body,
	// dialog, status.
	Role     string
	ID       string // of an operable node
	Name     string
	Value    string
	State    []string // chosen, ticked, not decided, not looked at, off, marks
	Children []Access
}

// Accessible describes a tree.
func Accessible(root Node) Access {
	if isNil(root) {
		return Access{Role: "page"}
	}
	kids := root.access()
	if p, ok := root.(Page); ok {
		return Access{Role: "page", Name: p.Title, Children: kids}
	}
	return Access{Role: "page", Children: kids}
}

func accessAll(nodes []Node) []Access {
	var out []Access
	for _, n := range present(nodes) {
		out = append(out, n.access()...)
	}
	return out
}

// Find gives the entry with an ID, nil when there is none.
func (a *Access) Find(id string) *Access {
	if a.ID == id && id != "" {
		return a
	}
	for i := range a.Children {
		if f := a.Children[i].Find(id); f != nil {
			return f
		}
	}
	return nil
}

// Text prints the tree, one line per entry and each paragraph of a note on one
// line with its phrases in square brackets.
func (a Access) Text() string {
	var b strings.Builder
	a.write(&b, 0)
	return b.String()
}

func (a Access) write(b *strings.Builder, depth int) {
	kids := a.Children
	switch a.Role {
	case "page":
		depth--
	case "note":
		fmt.Fprintf(b, "%s%s\n", strings.Repeat("  ", depth), strings.TrimSpace(a.inline()))
		return
	default:
		fmt.Fprintf(b, "%s%s\n", strings.Repeat("  ", depth), a.Line())
	}
	for _, k := range kids {
		k.write(b, depth+1)
	}
}

// inline is a note in one line.
func (a Access) inline() string {
	var b strings.Builder
	for _, k := range a.Children {
		switch k.Role {
		case "words":
			b.WriteString(k.Name)
		case "key":
			b.WriteString("<" + k.Name + ">")
		case "link":
			b.WriteString("{" + k.Name + "}")
		case "phrase":
			b.WriteString("[" + k.Value)
			if s := k.states("not decided", "chosen"); s != "" {
				b.WriteString(" (" + s + ")")
			}
			b.WriteString("]")
			for _, aside := range k.Children {
				b.WriteString(" (" + aside.Name + ")")
			}
		}
	}
	return plainSpaces(b.String())
}

// states joins the states, without some that the text shows anyway.
func (a Access) states(without ...string) string {
	var out []string
next:
	for _, s := range a.State {
		for _, w := range without {
			if s == w {
				continue next
			}
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// Line is one entry in one line, as a screen reader says it: name, value, role
// where it is operable, state.
func (a Access) Line() string {
	var parts []string
	switch {
	case a.Name != "" && a.Value != "" && a.Name != a.Value:
		if strings.HasSuffix(a.Name, ".") { // a heading that is a sentence of its own
			parts = append(parts, a.Name+" "+a.Value)
		} else {
			parts = append(parts, a.Name+": "+a.Value)
		}
	case a.Value != "":
		parts = append(parts, a.Value)
	default:
		parts = append(parts, a.Name)
	}
	if s := a.states(); s != "" {
		parts = append(parts, "("+s+")")
	}
	line := strings.Join(parts, " ")
	switch a.Role {
	case "heading":
		line = "# " + line
	case "button", "link", "dial", "field", "phrase", "tab", "picture", "chart", "body", "dialog":
		line = a.Role + " " + line
	case "item", "tick", "tabs", "list", "ticks":
		line = "- " + line
	}
	return plainSpaces(strings.TrimSpace(line))
}

// plainSpaces turns thin and no-break spaces into plain ones, which every
// terminal and reader knows.
func plainSpaces(s string) string {
	return strings.NewReplacer("\u2009", " ", "\u202f", " ", "\u00a0", " ").Replace(s)
}

func (t Text) access() []Access {
	if t.Text == "" {
		return nil
	}
	role := "text"
	if t.Role == Title || t.Role == Heading || t.Role == Verdict || t.Role == Label {
		role = "heading"
	}
	return []Access{{Role: role, Name: t.Text}}
}

func (n Note) access() []Access {
	note := Access{Role: "note"}
	for _, sp := range n.Spans {
		switch sp := sp.(type) {
		case Words:
			note.Children = append(note.Children, Access{Role: "words", Name: sp.Text})
		case Cap:
			note.Children = append(note.Children, Access{Role: "key", Name: sp.Text})
		case Link:
			note.Children = append(note.Children, Access{Role: "link", ID: sp.ID, Name: sp.Text})
		case Phrase:
			note.Children = append(note.Children, sp.access())
		}
	}
	return []Access{note}
}

func (p Phrase) access() Access {
	a := Access{Role: "phrase", ID: p.ID, Name: p.Name, Value: p.Reads()}
	switch p.State {
	case Open:
		a.State = append(a.State, "not decided")
	case Unseen:
		a.State = append(a.State, "not looked at")
	}
	if p.Mark != MarkNone {
		m := p.Mark.Word()
		if p.Number > 0 {
			m += fmt.Sprintf(" %d", p.Number)
		}
		a.State = append(a.State, m)
	}
	if p.Chosen {
		a.State = append(a.State, "chosen")
	}
	if p.Aside != "" {
		a.Children = append(a.Children, Access{Role: "text", Name: p.Aside})
	}
	return a
}
