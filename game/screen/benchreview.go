package screen

import (
	"fmt"
	"image"
	"image/color"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/game/ui"
	"leastwatt/scoring/tissue"
)

// viewReview is the look back: the skin at a moment, the strip of acts to
// choose it, a cut through the lesion, and what other powers would have done.
func (a *App) viewReview() ui.Node {
	r := &a.review
	t := a.session.Treatment
	w := &a.work
	stage := ui.Stage{ID: "bench look", Version: w.version, Image: w.skin.Picture(), MaxW: float64(w.view.WidthPx), ScaleMM: w.view.ShownMM, Alt: "Drawn skin at " + secondsOf(r.at)}
	says := secondsOf(r.wanted) + " of " + secondsOf(t.EndMS())
	if r.playing {
		says += " · playing …"
	}
	main := ui.Column{Gap: 12, Children: []ui.Node{
		stage, ui.Text{Text: says, Role: ui.Quiet}, a.actStrip(r.wanted),
	}}
	margin := ui.Column{Gap: 8, Children: []ui.Node{
		ui.Row{Gap: 12, Align: ui.Middle, Children: []ui.Node{
			ui.Button{ID: "to debrief", Label: "To the debrief", Kind: ui.Primary, Hint: "Alt 4"},
			ui.Button{ID: "bench again", Label: "Treat again", Kind: ui.QuietLink},
			ui.Spacer{},
		}},
		ui.Spacer{Size: 4},
		ui.Text{Text: "A cut through the lesion", Role: ui.Heading},
		a.sectionPicture(t.bench),
	}}
	margin.Children = append(margin.Children, sectionLegend(), ui.Spacer{Size: 8}, ui.Text{Text: "Same hand, other powers", Role: ui.Heading})
	margin.Children = append(margin.Children, a.curveNodes()...)
	margin.Children = append(margin.Children, ui.Spacer{Size: 8}, ui.Text{Text: "What it did", Role: ui.Heading})
	for _, l := range OutcomeLines(t, a.words()) {
		margin.Children = append(margin.Children, ui.Text{Text: l, Role: ui.Quiet, Color: ui.Ink})
	}
	width, _ := a.stageSize()
	return ui.Split{Main: ui.Box{Width: float64(width), Child: main}, Margin: ui.Scroll{ID: "bench review", Child: margin}, MarginW: 420, MainMin: 400, Gap: 40}
}

// curveNodes show destroyed share and dermal depth over the dial.
func (a *App) curveNodes() []ui.Node {
	c := a.review.curve
	if c == nil {
		return []ui.Node{ui.Text{Text: "Being worked out …", Role: ui.Quiet}}
	}
	destroyed := ui.Series{Name: "lesion gone", Color: ui.Credit}
	depth := ui.Series{Name: "dermis depth", Color: ui.Caution, Style: ui.Dashed}
	known := 0
	most := 1.0
	for _, p := range c.Points {
		if !p.Done {
			continue
		}
		known++
		x := p.PowerW.Float()
		destroyed.Points = append(destroyed.Points, ui.Point{X: x, Y: p.LesionDestroyedFraction.Float()})
		depth.Points = append(depth.Points, ui.Point{X: x, Y: p.DermisFraction.Float()})
		most = max(most, p.DermisFraction.Float())
	}
	chart := ui.LineChart{MinX: 0, MaxX: 25, MinY: 0, MaxY: most, Height: 150, Series: []ui.Series{destroyed, depth}, Alt: curveSays(c)}
	if own := a.ownPower(); own > 0 {
		chart.Marks = append(chart.Marks, ui.ChartMark{X: own.Float(), Label: quantity(own, "W") + ", you", Color: ui.Indigo})
	}
	if least := c.LeastEffectiveW(); least > 0 && known == len(c.Points) {
		chart.Marks = append(chart.Marks, ui.ChartMark{X: least.Float(), Label: quantity(least, "W") + " suffices", Color: ui.Credit})
	}
	if usual := a.usualW(); usual > 0 {
		chart.XLabels = append(chart.XLabels, ui.ChartMark{X: usual.Float(), Label: "usual from " + quantity(usual, "W")})
	}
	nodes := []ui.Node{chart, ui.Text{Text: curveSays(c), Role: ui.Quiet}}
	if known < len(c.Points) {
		nodes = append(nodes, ui.Text{Text: fmt.Sprintf("%d of %d powers worked out.", known, len(c.Points)), Role: ui.Quiet})
	}
	return nodes
}

func curveSays(c *bench.Curve) string {
	const estimate = " An estimate on a coarse grid; no grade reads it."
	if least := c.LeastEffectiveW(); least > 0 {
		return "With the same hand " + quantity(least, "W") + " is the least of these that removes it." + estimate
	}
	return "The share of the lesion that is gone, and how deep into the dermis, by the dial." + estimate
}

// ownPower is the dial of the first burst.
func (a *App) ownPower() cases.Milli {
	for _, act := range a.session.Treatment.Record {
		if act.Step == "treated" {
			return act.PowerW[0]
		}
	}
	return 0
}

// usualW is the least usual figure of the rule on this plan's watts.
func (a *App) usualW() cases.Milli {
	if a.session.Grade == nil {
		return 0
	}
	for _, f := range a.session.Grade.Findings {
		if r := a.Set.Row(f.Rule); r != nil && r.LeastW() > 0 {
			return r.LeastW()
		}
	}
	return 0
}

// Colours and patterns of the section: what each voxel is, and what was done
// to it by pattern as well as by colour.
var (
	airInk   = color.RGBA{0xF4, 0xF6, 0xF9, 255}
	layerInk = map[tissue.Kind]color.RGBA{
		tissue.Horny:     {0xE3, 0xCF, 0xA6, 255},
		tissue.Epidermis: {0xD9, 0xA8, 0x8A, 255},
		tissue.Papillary: {0xF0, 0xC4, 0xB4, 255},
		tissue.Reticular: {0xF3, 0xD6, 0xCA, 255},
		tissue.Fat:       {0xF7, 0xE7, 0xA8, 255},
		tissue.Other:     {0xE6, 0xD2, 0xCB, 255},
	}
	lesionTone = color.RGBA{0xC9, 0x7B, 0x8E, 255}
)

// sectionPx is the size of one voxel in the section.
const sectionPx = 4

// sectionPicture is a cut through the middle, true to scale.
func (a *App) sectionPicture(b *bench.Bench) ui.Node {
	r := &a.review
	if r.section == nil {
		r.section, r.sectionMM = SectionImage(b.Section(0))
	}
	return ui.Picture{
		ID: "section/" + a.session.Ref, Version: a.work.version + 1, Image: r.section, MaxW: 420 * a.scale, ScaleMM: r.sectionMM,
		Alt: "A cut through the lesion, true to scale: layers, and what is destroyed, dried and charred.",
	}
}

// SectionImage draws a slice: layers by colour; destroyed tissue striped, dried
// cross-hatched, charred black. It gives the width shown in mm.
func SectionImage(s tissue.Slice) (img *image.RGBA, widthMM float64) {
	from, to := 0, s.NX
	if margin := s.NX - int(16/s.GridMM); margin > 1 { // the middle 16 mm
		from, to = margin/2, s.NX-margin/2
	}
	img = image.NewRGBA(image.Rect(0, 0, (to-from)*sectionPx, s.NZ*sectionPx))
	for z := range s.NZ {
		for x := from; x < to; x++ {
			i := z*s.NX + x
			for py := range sectionPx {
				for px := range sectionPx {
					X, Y := (x-from)*sectionPx+px, z*sectionPx+py
					img.SetRGBA(X, Y, sectionInk(&s, i, X, Y))
				}
			}
		}
	}
	return img, float64(to-from) * s.GridMM
}

func sectionInk(s *tissue.Slice, i, x, y int) color.RGBA {
	if !s.Solid[i] {
		return airInk
	}
	ground := layerInk[s.Kind[i]]
	if s.Lesion[i] {
		ground = lesionTone
	}
	stripe, cross := (x+y)%8 < 2, (x-y+8000)%8 < 2
	switch {
	case s.Charred[i]:
		return color.RGBA{0x22, 0x1C, 0x1A, 255}
	case s.Water[i] < 0.1 && s.Omega[i] >= 1 && (stripe || cross):
		return color.RGBA{0x6B, 0x3F, 0x1E, 255}
	case s.Omega[i] >= 1 && stripe:
		return color.RGBA{0x7A, 0x4B, 0x52, 255}
	}
	return ground
}

// sectionLegend names what the section shows, each with a piece of it.
func sectionLegend() ui.Node {
	row := ui.Row{Gap: 16, Wrap: true, LineGap: 4}
	one := func(name string, kind tissue.Kind, lesion bool, omega, water float32, charred bool) {
		s := tissue.Slice{
			Solid: []bool{true}, Lesion: []bool{lesion}, Kind: []tissue.Kind{kind},
			Omega: []float32{omega}, Water: []float32{water}, Charred: []bool{charred},
		}
		img := image.NewRGBA(image.Rect(0, 0, 22, 14))
		for y := range 14 {
			for x := range 22 {
				img.SetRGBA(x, y, sectionInk(&s, 0, x, y))
			}
		}
		row.Children = append(row.Children, ui.Row{Gap: 6, Align: ui.Middle, Children: []ui.Node{
			ui.Picture{ID: "legend/" + name, Version: 1, Image: img, Alt: name, MaxW: 22}, ui.Text{Text: name, Role: ui.Small, NoWrap: true},
		}})
	}
	one("horny layer", tissue.Horny, false, 0, 1, false)
	one("epidermis", tissue.Epidermis, false, 0, 1, false)
	one("upper dermis", tissue.Papillary, false, 0, 1, false)
	one("dermis", tissue.Reticular, false, 0, 1, false)
	one("fat", tissue.Fat, false, 0, 1, false)
	one("lesion", tissue.Reticular, true, 0, 1, false)
	one("destroyed", tissue.Reticular, false, 2, 1, false)
	one("dried", tissue.Reticular, false, 2, 0, false)
	one("charred", tissue.Reticular, false, 2, 0, true)
	return row
}
