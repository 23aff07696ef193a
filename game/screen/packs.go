package screen

import (
	"fmt"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

// packReports is what the checks of dropped packs found, the last first.
type packReports struct {
	list    []PackReport
	pending string // the name being checked, "" none
	chosen  int
}

// packLoaded brings a report from the background.
type packLoaded struct{ report PackReport }

// packDropped checks a dropped pack beside the loop and shows what was found.
func (a *App) packDropped(d ui.Drop) {
	a.goTo(atPacks)
	switch {
	case a.LoadPack == nil:
		a.toast = "Packs cannot be added here."
	case a.reports.pending != "":
		a.toast = "Wait until " + a.reports.pending + " is checked."
	case a.Post == nil:
		a.packArrived(packLoaded{a.LoadPack(d.FS, d.Name)})
	default:
		a.reports.pending = d.Name
		load, post := a.LoadPack, a.Post
		go func() { post(packLoaded{load(d.FS, d.Name)}) }()
	}
}

func (a *App) packArrived(msg packLoaded) {
	a.reports.pending = ""
	a.reports.list = append([]PackReport{a.AddPack(msg.report)}, a.reports.list...)
	a.wantThumbs()
}

// AddPack puts the pack of a report on the desk. When the desk has no room for
// it, the report says so and carries no pack.
func (d *Desk) AddPack(r PackReport) PackReport {
	if r.Pack == nil {
		return r
	}
	if err := d.addPack(r.Pack); err != nil {
		r.Pack = nil
		r.Faults = append(r.Faults, cases.Fault{File: r.Name, Line: 1, Column: 1, Message: err.Error()})
	}
	return r
}

// Outcome is a report's first line.
func (r *PackReport) Outcome() string {
	if r.Pack == nil {
		return fmt.Sprintf("%s is not loaded: %s.", r.Name, digits(len(r.Faults), "error"))
	}
	text := fmt.Sprintf("%s is loaded: %s", r.Name, digits(len(r.Pack.Cases), "case"))
	if n := len(r.Warnings); n > 0 {
		text += ", " + digits(n, "warning")
	}
	return text + "."
}

func (a *App) updatePacks(msg any) {
	if c, ok := msg.(ui.Choose); ok && c.ID == "packs" && c.Index >= 0 && c.Index < len(a.packs) {
		a.reports.chosen = c.Index
	}
}

func (a *App) viewPacks() ui.Page {
	list := ui.List{ID: "packs", Name: "packs", Chosen: a.reports.chosen}
	for _, p := range a.packs {
		list.Rows = append(list.Rows, ui.ListRow{
			Title: cases.Spell(p.Title, a.words()),
			Says:  fmt.Sprintf("%s · version %d · %s", p.Author, p.Version, p.Licence),
			Right: digits(len(p.Cases), "case"),
		})
	}
	main := ui.Column{Gap: 20, Children: []ui.Node{
		ui.Column{Gap: 4, Children: []ui.Node{
			ui.Text{Text: capital(count(len(a.packs), "pack")) + ", " + count(len(a.order), "case"), Role: ui.Heading},
			ui.Text{Text: a.dropHint(), Role: ui.Body, Color: ui.QuietInk},
		}},
		list,
	}}
	chosen := a.packs[min(a.reports.chosen, len(a.packs)-1)]
	if chosen.Note != "" {
		main.Children = append(main.Children, ui.Text{Text: cases.Spell(chosen.Note, a.words()), Role: ui.Body})
	}
	return ui.Page{
		Title: "Packs", Context: []ui.Span{ui.Words{Text: "cases by one author"}},
		Body: ui.Split{Main: main, Margin: a.reportNodes(), MarginW: 436, Gap: 40},
		Keys: []ui.KeyTip{{Says: "Back", Key: "Esc"}},
	}
}

func (a *App) dropHint() string {
	if a.LoadPack == nil {
		return "Packs named on the command line stand here."
	}
	return "Drag a pack folder, a zip or a pack.json onto the window to add it."
}

func (a *App) reportNodes() ui.Node {
	col := ui.Column{Gap: 12, Children: []ui.Node{ui.Text{Text: "What the check found", Role: ui.Label}}}
	if a.reports.pending != "" {
		col.Children = append(col.Children, ui.Text{Text: "Checking " + a.reports.pending + " …", Role: ui.Body})
	}
	if len(a.reports.list) == 0 && a.reports.pending == "" {
		col.Children = append(col.Children, ui.Text{Text: "No pack was added in this sitting.", Role: ui.Quiet})
	}
	for _, r := range a.reports.list {
		mark := ui.MarkCredit
		switch {
		case r.Pack == nil:
			mark = ui.MarkNever
		case len(r.Warnings)+len(r.Unsolved) > 0:
			mark = ui.MarkCaution
		}
		col.Children = append(col.Children, ui.Row{Gap: 12, Children: []ui.Node{
			ui.MarkIcon{Mark: mark}, ui.Grow(ui.Text{Text: r.Outcome(), Role: ui.Body, Strong: true}),
		}})
		col.Children = append(col.Children, faultNodes("Error", r.Faults)...)
		col.Children = append(col.Children, faultNodes("Warning", r.Warnings)...)
		for _, u := range r.Unsolved {
			col.Children = append(col.Children, ui.Text{Text: u, Role: ui.Body})
		}
		col.Children = append(col.Children, ui.Rule{})
	}
	return ui.Scroll{ID: "reports", Child: col}
}

func faultNodes(word string, faults cases.Faults) []ui.Node {
	var nodes []ui.Node
	for _, f := range faults {
		nodes = append(nodes, ui.Column{Children: []ui.Node{
			ui.Text{Text: word + ": " + sentence(f.Message), Role: ui.Body},
			ui.Text{Text: fmt.Sprintf("%s:%d:%d", f.File, f.Line, f.Column), Role: ui.Small},
		}})
	}
	return nodes
}
