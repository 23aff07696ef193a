package screen

import (
	"fmt"
	"strings"

	"leastwatt/game/ui"
	"leastwatt/scoring/mastery"
)

func (a *App) updateProgress(msg any) {
	switch msg := msg.(type) {
	case ui.Activate:
		if msg.ID == "to attempts" {
			a.goTo(atAttempts)
		}
	case ui.Key:
		if msg.Name == "a" && !msg.Ctrl && !msg.Alt {
			a.goTo(atAttempts)
		}
	}
}

func (a *App) viewProgress() ui.Page {
	p := a.progressNow()
	page := ui.Page{
		Title: "Progress", Context: []ui.Span{ui.Words{Text: progressContext(p)}},
		Keys: []ui.KeyTip{{Says: "Back", Key: "Esc"}},
	}
	switch {
	case !a.Recording():
		page.Body = ui.Text{Role: ui.Body, Text: "No logbook is open, so nothing is known between sittings."}
	case p.Attempts == 0:
		page.Body = ui.Text{Role: ui.Body, Text: "Nothing is in your logbook yet. Each first grade of a case goes in. What it shows stands here."}
	default:
		page.Body = a.progressBody(p)
	}
	return page
}

func progressContext(p *Progress) string {
	if p.Attempts == 0 {
		return p.Learner
	}
	return p.Learner + " · " + digits(p.Attempts, "attempt") + " since " + p.FirstDay
}

func (a *App) progressBody(p *Progress) ui.Node {
	left := ui.Column{Gap: 16, Children: []ui.Node{
		ui.Text{Text: "What was shown so far", Role: ui.Heading},
		a.competencyChart(p.Competencies),
		ui.Text{Text: "Each bar is the 95 % interval of the share of cases right in that competency. The number beside it is how many cases; your last " +
			digits(mastery.RecentCases, "case") + " count. It narrows as you do more.", Role: ui.Small},
	}}
	if names := p.NotYet(a.words()); len(names) > 0 {
		left.Children = append(left.Children, ui.Text{Text: "Not yet met: " + strings.Join(names, ", ") + ".", Role: ui.Body})
	}
	if len(p.Items) > 0 {
		left.Children = append(left.Children, ui.Spacer{Size: 8}, ui.Text{Text: "Hardest for you", Role: ui.Heading})
		for i := range p.Items {
			left.Children = append(left.Children, ui.Text{Text: a.ItemSays(&p.Items[i]), Role: ui.Body})
		}
	}
	left.Children = append(left.Children, ui.Spacer{Size: 8}, ui.Text{Text: "Due today", Role: ui.Heading})
	left.Children = append(left.Children, dueNodes(p)...)
	right := ui.Column{Gap: 16, Children: []ui.Node{
		ui.Row{Children: []ui.Node{ui.Button{ID: "to attempts", Label: "Your attempts", Hint: "A"}, ui.Spacer{}}},
		ui.Text{Text: "Are you over-sure?", Role: ui.Heading},
		ui.Text{Text: SureSays(&p.Calibration), Role: ui.Body},
	}}
	if len(p.Calibration.Bins) > 1 {
		right.Children = append(right.Children, sureChart(&p.Calibration))
	}
	right.Children = append(right.Children, ui.Spacer{Size: 8}, ui.Text{Text: "Least power", Role: ui.Heading}, ui.Text{Text: PowerSays(p.Power), Role: ui.Body})
	if len(p.Power) > 1 {
		right.Children = append(right.Children, powerChart(p.Power))
	}
	return ui.Split{Main: ui.Scroll{ID: "progress", Child: left}, Margin: ui.Scroll{ID: "progress charts", Child: right}, MarginW: 460, MainMin: 480, Gap: 48}
}

// competencyChart shows estimate, interval and number of cases by competency.
func (a *App) competencyChart(list []mastery.Competency) ui.Node {
	chart := ui.IntervalChart{Standard: -1, Alt: "What was shown, by competency"}
	for i := range list {
		c := &list[i]
		row := ui.IntervalRow{Label: fmt.Sprintf("%s · %d", DomainLabel(c.Domain, a.words()), c.Cases), At: c.Mean, Low: c.Low, Top: c.High}
		switch {
		case c.Cases == 0:
			row.Label, row.Says = DomainLabel(c.Domain, a.words()), "not met yet"
		case c.TooFew:
			row.Says = "too few to say"
		}
		chart.Rows = append(chart.Rows, row)
	}
	return chart
}

func dueNodes(p *Progress) []ui.Node {
	var nodes []ui.Node
	for _, d := range p.Due {
		nodes = append(nodes, ui.Text{Text: d + ".", Role: ui.Body})
	}
	if len(nodes) == 0 {
		nodes = append(nodes, ui.Text{Text: "Nothing. Come back tomorrow: practice on separate days lasts longer.", Role: ui.Body})
	}
	if p.Comebacks > 0 {
		nodes = append(nodes, ui.Text{
			Text: capital(count(p.Comebacks, "never event")) + " to meet again in other patients, until right on three days.", Role: ui.Body,
		})
	}
	return nodes
}

// sureChart sets stated chances against what came; the dashed line is a perfect
// fit.
func sureChart(c *mastery.Calibration) ui.Node {
	line := ui.Series{Name: "yours", Color: ui.Indigo}
	for _, b := range c.Bins {
		line.Points = append(line.Points, ui.Point{X: b.Stated, Y: b.Safe})
	}
	return ui.LineChart{
		Series: []ui.Series{{Name: "a fit", Style: ui.Dashed, Color: ui.QuietInk, Points: []ui.Point{{X: 0, Y: 0}, {X: 1, Y: 1}}}, line},
		MinX:   0, MaxX: 1, MinY: 0, MaxY: 1, Height: 150,
		XLabels: []ui.ChartMark{{X: 0, Label: "sure of nothing"}, {X: 1, Label: "quite sure"}},
		Alt:     SureSays(c),
	}
}

// powerChart shows the watts over the least usual figure, case by case.
func powerChart(points []mastery.Point) ui.Node {
	each := ui.Series{Name: "each case", Style: ui.Dotted, Color: ui.QuietInk}
	smooth := ui.Series{Name: "smoothed", Color: ui.Indigo}
	most := 2.0
	for i, p := range points {
		x := float64(i)
		each.Points = append(each.Points, ui.Point{X: x, Y: p.Ratio})
		smooth.Points = append(smooth.Points, ui.Point{X: x, Y: p.Smooth})
		most = max(most, min(8, p.Ratio))
	}
	last := float64(len(points) - 1)
	return ui.LineChart{
		Series: []ui.Series{each, smooth, {Name: "least usual", Style: ui.Dashed, Color: ui.Credit, Points: []ui.Point{{X: 0, Y: 1}, {X: last, Y: 1}}}},
		MinX:   0, MaxX: last, MinY: 0, MaxY: most * 1.05, Height: 150,
		XLabels: []ui.ChartMark{{X: 0, Label: "first case"}, {X: last, Label: "latest"}},
		Alt:     PowerSays(points),
	}
}

// progressNow is read once for each visit of the page.
func (a *App) progressNow() *Progress {
	if a.shownProgress == nil {
		a.shownProgress = a.Progress()
	}
	return a.shownProgress
}
