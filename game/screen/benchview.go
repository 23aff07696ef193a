package screen

import (
	"fmt"
	"image/color"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

func (a *App) viewBench() ui.Page {
	p := ui.Page{Title: "Bench", Context: a.caseContext()}
	switch {
	case a.session.Treatment != nil:
		p.Body, p.Keys = a.viewReview(), []ui.KeyTip{{Says: "Debrief", Key: "Alt 4"}}
	case a.work.working != "":
		p.Body = ui.Column{Gap: 12, Children: []ui.Node{
			ui.Text{Text: "The treatment has ended", Role: ui.Heading},
			ui.Text{Text: a.work.working, Role: ui.Body},
		}}
	case a.work.bench == nil:
		p.Body = ui.Text{Text: "The bench is not open.", Role: ui.Body}
	default:
		p.Body = a.viewWork()
		p.Keys = []ui.KeyTip{{Says: "Pedal", Key: "Space"}, {Says: "Next spot", Key: "N"}, {Says: "Back one burst", Key: "Ctrl Z"}}
	}
	return p
}

// viewWork is the bench at work: hands at the left, skin in the middle, meters
// at the right, the strip of acts below.
func (a *App) viewWork() ui.Node {
	stage := ui.Column{Gap: 16, Children: []ui.Node{a.stage(), a.caution(), a.actStrip(-1)}}
	if a.narrow() {
		return ui.Column{Gap: 20, Children: []ui.Node{stage, a.meters(), a.hands()}}
	}
	w, _ := a.stageSize()
	return ui.Row{Gap: 24, Align: ui.Start, Children: []ui.Node{
		ui.Box{Width: 200, Scale: true, Child: ui.Scroll{ID: "bench hands", Child: a.hands()}},
		ui.Box{Width: float64(w), Child: stage},
		ui.Grow(ui.Scroll{ID: "bench meters", Child: a.meters()}),
	}}
}

func (a *App) stage() ui.Node {
	w := &a.work
	s := &w.state
	return ui.Stage{
		ID: stageID, Version: w.version, Image: w.skin.Picture(), MaxW: float64(w.view.WidthPx), ScaleMM: w.view.ShownMM,
		Alt:    fmt.Sprintf("Drawn skin at work. %s at %s, %s.", capital(cases.Vocab.Label("bench_tool", s.Tool, a.words())), s.XMM.Fixed(1)+", "+s.YMM.Fixed(1)+thinSpace+"mm", tipText(s.GapMM)),
		Shapes: a.shapes(),
	}
}

// caution is what stopped the bench, or what the patient says.
func (a *App) caution() ui.Node {
	s := &a.work.state
	switch {
	case s.Caution != "":
		w := cases.Vocab.Word("bench_hazard", s.Caution)
		return ui.Row{Gap: 10, Align: ui.Middle, Children: []ui.Node{
			ui.MarkIcon{Mark: ui.MarkCaution},
			ui.Grow(ui.Text{Text: "Stopped: " + w.Label(a.words()) + ". " + cases.Spell(w.Line, a.words()), Role: ui.Body}),
		}}
	case s.Speech != "":
		return ui.Text{Text: "“" + s.Speech + "”", Role: ui.Quote}
	case a.work.paused:
		return ui.Text{Text: "Paused. P goes on.", Role: ui.Body}
	case s.WaitLeftMS > 0:
		return ui.Text{Text: "Waiting: " + secondsOf(s.WaitLeftMS) + " left.", Role: ui.Body}
	}
	return ui.Text{Text: a.benchHint(), Role: ui.Quiet}
}

// benchHint says what the tool in hand does.
func (a *App) benchHint() string {
	w := cases.Vocab.Word("bench_tool", a.work.state.Tool)
	return cases.Spell(w.Line, a.words())
}

func secondsOf(ms int) string { return fmt.Sprintf("%.1f"+thinSpace+"s", float64(ms)/1000) }

func tipText(gap cases.Milli) string {
	if gap == 0 {
		return "touching"
	}
	return quantity(gap, "mm") + " above the skin"
}

// hands are the tools and what the other hand and the room do.
func (a *App) hands() ui.Node {
	s := &a.work.state
	tools := ui.ChoiceList{ID: "bench tools", Name: "in your hand", Chosen: -1}
	for i, t := range benchTools {
		tools.Items = append(tools.Items, ui.ChoiceItem{Label: capital(cases.Vocab.Label("bench_tool", t.id, a.words())), Hint: t.key})
		if t.id == s.Tool {
			tools.Chosen = i
		}
	}
	col := ui.Column{Gap: 6, Children: []ui.Node{
		ui.Text{Text: "In your hand", Role: ui.Label},
		tools,
		ui.Spacer{Size: 4},
		ui.Rule{},
		ui.Spacer{Size: 4},
		ui.Text{Text: "Your other hand and the room", Role: ui.Label},
	}}
	hand := "Hand on the patient"
	if !s.HandOn {
		hand = "Hand off the patient"
	}
	nozzle := "Smoke tube near"
	if !s.NozzleNear {
		nozzle = "Smoke tube away"
	}
	link := func(id, label, key string) {
		col.Children = append(col.Children, ui.Row{Children: []ui.Node{ui.Button{ID: id, Label: label, Kind: ui.QuietLink, Hint: key}, ui.Spacer{}}})
	}
	link("act hand", hand, "H")
	if a.session.Case.Setting.SmokeEvacuator {
		link("act nozzle", nozzle, "V")
	}
	if s.CutMM3 > 0 && !s.Potted {
		link("act pot", "Tissue to the pot", "T")
	}
	if s.PlateUnit && !s.PlateOn {
		link("act plate", "Place the plate", "A")
	}
	if s.OxygenOn {
		link("act oxygen", "Oxygen off", "O")
	}
	if s.OnMetal {
		link("act metal", "Patient off metal", "L")
	}
	link("act dry", "Wait half a minute", "D")
	return col
}

// meters tell of unit and tip; in a self-assessment only what a unit itself
// shows.
func (a *App) meters() ui.Node {
	s := &a.work.state
	quiet := func(text string) ui.Node { return ui.Text{Text: text, Role: ui.Quiet} }
	col := ui.Column{Gap: 4, Children: []ui.Node{
		ui.Text{Text: "Power", Role: ui.Label},
		ui.Text{Text: quantity(s.DialW, "W"), Role: ui.Figure},
	}}
	if !a.Running() {
		col.Children = append(col.Children, quiet("delivered "+s.DeliveredW.Fixed(1)+thinSpace+"W"))
	}
	col.Children = append(col.Children, ui.Row{Gap: 6, Align: ui.Middle, Children: []ui.Node{ui.Keycap{Text: "["}, ui.Keycap{Text: "]"}, quiet("change it"), ui.Spacer{}}}, ui.Spacer{Size: 10})
	if !a.Running() {
		col.Children = append(col.Children,
			ui.Text{Text: "This burst", Role: ui.Label},
			ui.Text{Text: secondsOf(s.BurstMS), Role: ui.Figure},
			quiet(fmt.Sprintf("%s, %s in all", digits(s.Bursts, "burst"), secondsOf(s.TotalMS))),
			ui.Spacer{Size: 10},
			ui.Text{Text: "Resistance", Role: ui.Label},
			quiet(resistanceText(s.ImpedanceOhm, s.ImpedanceTrend, s.Live)),
			ui.Spacer{Size: 10},
		)
	}
	col.Children = append(col.Children, ui.Text{Text: "Tip", Role: ui.Label}, ui.Text{Text: capital(tipText(s.GapMM)), Role: ui.Body},
		ui.Row{Gap: 6, Align: ui.Middle, Children: []ui.Node{ui.Keycap{Text: "Q"}, ui.Keycap{Text: "Z"}, quiet("or wheel, by 0.1" + thinSpace + "mm"), ui.Spacer{}}})
	switch s.Tool {
	case "blade", "scissors":
		col.Children = append(col.Children, ui.Spacer{Size: 10}, ui.Text{Text: "Depth of the cut", Role: ui.Label}, ui.Text{Text: depthText(a.work.depthMM), Role: ui.Body},
			ui.Row{Gap: 6, Align: ui.Middle, Children: []ui.Node{ui.Keycap{Text: "K"}, ui.Keycap{Text: "J"}, quiet("higher, deeper"), ui.Spacer{}}})
	case "syringe":
		col.Children = append(col.Children, ui.Spacer{Size: 10}, ui.Text{Text: "Syringe", Role: ui.Label}, ui.Text{Text: a.syringeText(), Role: ui.Body},
			ui.Row{Gap: 6, Align: ui.Middle, Children: []ui.Node{ui.Keycap{Text: "F"}, quiet("slow or fast"), ui.Spacer{}}})
	}
	col.Children = append(col.Children, ui.Spacer{Size: 14}, ui.Row{Gap: 10, Wrap: true, LineGap: 10, Children: []ui.Node{
		ui.Button{ID: "bench finish", Label: a.finishLabel(), Kind: ui.Primary, Hint: "Ctrl ↵"},
		ui.Button{ID: "bench pause", Label: map[bool]string{true: "Go on", false: "Pause"}[a.work.paused], Hint: "P"},
	}})
	if !a.Running() {
		col.Children = append(col.Children, ui.Spacer{Size: 4}, ui.Row{Gap: 10, Wrap: true, LineGap: 6, Children: []ui.Node{
			ui.Button{ID: "bench undo", Label: "Back one burst", Kind: ui.QuietLink, Hint: "Ctrl Z", Off: !s.CanUndo, Why: map[bool]string{false: "there is no burst to undo"}[s.CanUndo]},
			ui.Button{ID: "bench restart", Label: "Begin again", Kind: ui.QuietLink},
		}})
	}
	return col
}

func (a *App) finishLabel() string {
	if a.Running() {
		return "Hand it in"
	}
	return "Finish"
}

func depthText(d cases.Milli) string {
	if d < 0 {
		return quantity(-d, "mm") + " above the skin"
	}
	return quantity(d, "mm") + " below the skin"
}

func (a *App) syringeText() string {
	how := "slowly"
	if a.work.fast {
		how = "fast"
	}
	text := "0.5" + thinSpace + "mL at a time, " + how
	if given := a.work.state.InjectedML; given > 0 {
		text += "; " + quantity(given, "mL") + " given"
	}
	return text
}

func resistanceText(ohm, trend int, live bool) string {
	if !live {
		return "–"
	}
	says := map[int]string{-1: "falling: the tissue warms", 0: "steady", 1: "rising: the tissue is drying"}[trend]
	return fmt.Sprintf("%d"+thinSpace+"Ω, %s", ohm, says)
}

// actStrip is the strip of acts; at is the moment chosen in ms, below 0 none.
func (a *App) actStrip(at int) ui.Node {
	w := &a.work
	strip := ui.ActStrip{Alt: "What was done, in order", At: -1}
	end, pieces := w.state.ClockMS, w.bench.Strip()
	if t := a.session.Treatment; t != nil {
		end, pieces, strip.ID = t.EndMS(), t.Strip, "bench acts"
	}
	axis := newActAxis(pieces, end)
	if at >= 0 {
		strip.At = axis.place(at)
	}
	for _, p := range pieces {
		m := ui.ActMark{From: axis.place(p.FromMS), To: axis.place(p.ToMS)}
		switch {
		case p.Step == "treated":
			m.Burst, m.Label = true, secondsOf(p.ToMS-p.FromMS)
			if p.Undone {
				m.Label += " undone"
			}
		default:
			m.Label = cases.Vocab.Label("bench_step", p.Step, a.words())
		}
		strip.Acts = append(strip.Acts, m)
	}
	if w.state.Live {
		strip.Acts = append(strip.Acts, ui.ActMark{From: axis.place(end - w.state.BurstMS), To: 1, Burst: true, Now: true, Label: "now"})
	}
	return ui.Sheet{Pad: ui.PadXY(12, 8), Child: strip}
}

var (
	handleInk  = color.RGBA{0x22, 0x2F, 0x3E, 255}
	steelInk   = color.RGBA{0xB8, 0xC2, 0xCC, 255}
	cottonInk  = color.RGBA{0xF2, 0xF0, 0xEA, 255}
	sparkInk   = color.RGBA{0xDF, 0xEA, 0xFF, 255}
	woodInk    = color.RGBA{0xC9, 0xA2, 0x6B, 255}
	inkOfBlade = color.RGBA{0x8E, 0x99, 0xA6, 255}
)

// shapes are the tool in hand, sparks and wisps over the skin.
func (a *App) shapes() []ui.Shape {
	w := &a.work
	v, s := w.view, &w.state
	aspect := float64(v.WidthPx) / float64(v.HeightPx)
	at := func(xMM, yMM float64) ui.Point {
		x, y := v.Place(xMM, yMM)
		return ui.Point{X: x / float64(v.WidthPx), Y: y / float64(v.HeightPx)}
	}
	var list []ui.Shape
	for _, p := range w.wisps {
		c := at(float64(p.XMM), float64(p.YMM))
		grey, alpha := uint8(255*p.Grey*p.Alpha), uint8(255*p.Alpha)
		list = append(list, ui.ShapeDisc(c.X, c.Y, float64(p.RadiusMM)/v.ShownMM, aspect, color.RGBA{grey, grey, grey, alpha}))
	}
	tip := at(s.XMM.Float(), s.YMM.Float())
	list = append(list, toolShapes(s.Tool, tip, 2*s.TipRadiusMM/v.ShownMM, s.GapMM.Float()/v.ShownMM, aspect)...)
	for _, k := range w.sparks {
		line := ui.Shape{Color: faded(sparkInk, float64(k.Alpha)), WidthW: max(0.0015, float64(k.WidthMM)/v.ShownMM)}
		for _, p := range k.Points {
			line.Points = append(line.Points, at(float64(p[0]), float64(p[1])))
		}
		list = append(list, line)
	}
	return list
}

func faded(c color.RGBA, alpha float64) color.RGBA {
	f := func(v uint8) uint8 { return uint8(float64(v) * alpha) }
	return color.RGBA{f(c.R), f(c.G), f(c.B), f(c.A)}
}

// toolShapes draws a tool whose end is at a place, held from the upper right.
// A lifted tip stands off by its gap.
func toolShapes(tool string, end ui.Point, width, gap, aspect float64) []ui.Shape {
	end = ui.Point{X: end.X + gap*0.7, Y: end.Y - gap*0.7*aspect}
	along := func(d, side float64) ui.Point { // d along the tool, side across it, parts of the width
		return ui.Point{X: end.X + (d*0.62 + side*0.78), Y: end.Y + (-d*0.78+side*0.62)*aspect}
	}
	line := func(from, to, w float64, c color.RGBA) ui.Shape {
		return ui.Shape{Points: []ui.Point{along(from, 0), along(to, 0)}, Color: c, WidthW: w}
	}
	handle := ui.Shape{Points: []ui.Point{along(0.17, -0.018), along(0.17, 0.018), along(0.5, 0.03), along(0.5, -0.03)}, Color: handleInk}
	switch tool {
	case "electrode":
		return []ui.Shape{line(0, 0.18, max(0.004, width), steelInk), handle}
	case "cotton":
		return []ui.Shape{line(0.02, 0.5, 0.008, woodInk), ui.ShapeDisc(along(0.015, 0).X, along(0.015, 0).Y, 0.026, aspect, cottonInk)}
	case "gauze_dry", "gauze_wet":
		return []ui.Shape{{Points: []ui.Point{along(-0.02, -0.05), along(-0.02, 0.05), along(0.1, 0.07), along(0.1, -0.07)}, Color: faded(cottonInk, 0.85)}}
	case "curette":
		return []ui.Shape{line(0.03, 0.2, 0.006, steelInk), ringShape(along(0, 0), 0.026, aspect, steelInk), handle}
	case "blade":
		return []ui.Shape{{Points: []ui.Point{along(0, 0), along(0.03, 0.028), along(0.17, 0.018), along(0.17, -0.018)}, Color: inkOfBlade}, handle}
	case "scissors":
		return []ui.Shape{
			{Points: []ui.Point{along(0, -0.012), along(0.25, 0.012)}, Color: inkOfBlade, WidthW: 0.01},
			{Points: []ui.Point{along(0, 0.012), along(0.25, -0.012)}, Color: steelInk, WidthW: 0.01},
			handle,
		}
	case "syringe":
		return []ui.Shape{line(0, 0.15, 0.003, steelInk), {Points: []ui.Point{along(0.15, -0.02), along(0.15, 0.02), along(0.45, 0.02), along(0.45, -0.02)}, Color: faded(cottonInk, 0.7)}}
	case "pen":
		return []ui.Shape{line(0, 0.05, 0.008, handleInk), {Points: []ui.Point{along(0.05, -0.016), along(0.05, 0.016), along(0.5, 0.018), along(0.5, -0.018)}, Color: color.RGBA{0x4B, 0x3F, 0x8F, 255}}}
	}
	return nil
}

func ringShape(c ui.Point, r, aspect float64, col color.RGBA) ui.Shape {
	s := ui.ShapeDisc(c.X, c.Y, r, aspect, col)
	s.Points = append(s.Points, s.Points[0])
	s.WidthW = 0.008
	return s
}
