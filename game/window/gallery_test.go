package window

import (
	"image"
	"image/color"
	"math"

	"leastwatt/game/ui"
)

// still is a screen that shows one view and forgets every message.
type still struct{ view ui.Node }

func (still) Update(any)      {}
func (s still) View() ui.Node { return s.view }
func (still) WantsText() bool { return false }

// spotPicture is a soft dark spot on a warm ground, drawn by formula.
func spotPicture(n int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, n, n))
	for y := range n {
		for x := range n {
			d := math.Hypot(float64(x)-float64(n)/2, float64(y)-float64(n)/2) / float64(n)
			f := 1 / (1 + math.Exp((d-0.16)*60))
			mixed := func(a, b float64) uint8 { return uint8(math.Max(0, math.Min(255, a+(b-a)*f))) }
			img.SetRGBA(x, y, color.RGBA{mixed(205, 150), mixed(165, 70), mixed(135, 66), 255})
		}
	}
	return img
}

var lesion = spotPicture(512)

const caution = "Training only. Your supervisor, local codes, the unit’s own manual and your licence decide."

func stages(at int) *ui.Tabs {
	return &ui.Tabs{ID: "stages", Name: "stages", At: at, Hint: "Alt 1–4", Tabs: []ui.Tab{{Label: "Case"}, {Label: "Plan"}, {Label: "Bench"}, {Label: "Debrief"}}}
}

func words(s string) ui.Span { return ui.Words{Text: s} }

func phrase(id, text string) ui.Phrase { return ui.Phrase{ID: id, Text: text, Name: id} }

func marked(id, text string, m ui.Mark, n int) ui.Phrase {
	return ui.Phrase{ID: id, Text: text, Name: id, Mark: m, Number: n}
}

func note(spans ...ui.Span) ui.Node { return ui.Note{Role: ui.NoteRole, Spans: spans} }

func context() []ui.Span {
	return []ui.Span{words("Harrow Fell teaching clinic · case 7 of 12 · "), ui.Words{Text: "“It bleeds a little on the towel.”", Italic: true}}
}

func planNote() []ui.Node {
	power := phrase("power", ui.Qty("7.0", "W"))
	power.Chosen = true
	volume := phrase("volume", ui.Qty("3.0", "mL"))
	return []ui.Node{
		note(words("Before I start: "), phrase("record", "consent, site confirmed, border marked"), words(". I will "), phrase("disposition", "treat"),
			words(" this lesion by "), phrase("technique", "curettage and desiccation"), words(", with a "), phrase("electrode", "fine"),
			words(" electrode on the "), phrase("output", "low"), words(" output, "), phrase("contact", "touching"), words(", at "), power,
			words(" for at most "), phrase("activation", ui.Qty("2.0", "s")), words(" at a time, in "), phrase("cycles", "3 cycles"), words(", with a rim of "),
			phrase("rim", ui.Qty("4", "mm")), words(".")),
		note(words("I will numb it with "), phrase("agent", "lidocaine "+ui.Qty("1", "%")), words(" with adrenaline "), phrase("adrenaline", "1 : 100\u2009000"),
			words(", "), volume, words(" through a "), phrase("gauge", "30 gauge"), words(" needle. "), ui.Words{Text: "30 mg, 0.4 mg/kg", Small: true, Color: ui.QuietInk}),
		note(words("I will clean the skin with "), phrase("prep", "aqueous chlorhexidine"), words(" and wear "), phrase("protection", "gloves, respirator, goggles"),
			words("; smoke evacuator: "), ui.Phrase{ID: "smoke", State: ui.Open, Name: "smoke evacuator"}, words("; my other hand "),
			ui.Phrase{ID: "hand", Text: "stays on the patient", State: ui.Unseen, Name: "other hand"}, words(".")),
		note(words("Tissue: "), ui.Phrase{ID: "specimen", State: ui.Open, Name: "tissue"}, words(". I will see him in "), phrase("follow", "6 months"),
			words(", and tell him about "), phrase("advice", "healing, scar, return"), words(".")),
	}
}

func planPage() ui.Page {
	sheet := append(planNote(), ui.Spacer{}, ui.Row{Gap: 16, Align: ui.Middle, Wrap: true, LineGap: 12, Children: []ui.Node{
		ui.Grow(ui.Dial{ID: "sure", Name: "Sure of “Safe”?", At: -1, Small: true}),
		ui.Button{ID: "grade", Label: "Grade now"},
		ui.Button{ID: "bench", Label: "To the bench", Kind: ui.Primary},
	}})
	return ui.Page{
		Title: "Plan", Context: context(), Tabs: stages(1), Focus: "power",
		Body: ui.Split{
			LeftW: 232, MarginW: 292, MainMin: 480, Gap: 24,
			Left: ui.Column{Gap: 8, Children: []ui.Node{
				ui.Picture{ID: "lesion", Image: lesion, Alt: "drawn picture of the lesion", ScaleMM: 16, Drawn: true, MaxW: 420},
				ui.Text{Text: "Man, 68 · 84\u2009kg · skin type 2"},
				ui.Text{Text: "Upper back, 8\u2009mm"},
				ui.Spacer{Size: 4},
				ui.Note{Role: ui.Quiet, Spans: []ui.Span{words("You asked about devices, thinners, report; you felt and pressed it. "), ui.Link{ID: "ask", Text: "Ask more"}}},
				ui.Text{Text: "Report, 14 days ago, shave, upper back: nodular basal cell carcinoma, deep edge involved.", Role: ui.Quiet, Color: ui.Ink},
			}},
			Main: ui.Sheet{Pad: ui.Pad{Top: 28, Right: 40, Bottom: 24, Left: 40}, Child: ui.Column{Gap: 14, Children: sheet}},
			Margin: ui.Column{Gap: 16, Children: []ui.Node{
				ui.Dial{ID: "power.dial", For: "power", Name: "Power while the pedal is down", Figure: "7.0", Unit: "W", At: 0.39, Ticks: []ui.DialTick{
					{At: 0, Label: "0"}, {At: 0.17, Label: "2"}, {At: 0.31, Label: "5"}, {At: 0.48, Label: "10"}, {At: 0.72, Label: "20"}, {At: 1, Label: "35"},
				}},
				ui.Note{Role: ui.Quiet, Spans: []ui.Span{ui.Cap{Text: "↑"}, words(" "), ui.Cap{Text: "↓"}, words(" by 0.1 · type a number · "), ui.Cap{Text: "Tab"}, words(" next phrase")}},
				ui.Rule{},
				ui.Text{Text: "The power while the pedal is down. Start low and step up until it works; you can change it at the bench."},
				ui.Text{Text: "Two phrases are still open. Open phrases are graded as not done.", Role: ui.Quiet},
			}},
		},
		Foot: caution, Keys: []ui.KeyTip{{Says: "Undo", Key: "Ctrl Z"}, {Says: "Text size", Key: "Ctrl +"}},
	}
}

func debriefPage() ui.Page {
	specimen := marked("specimen", "nothing sent", ui.MarkCaution, 2)
	specimen.Chosen = true
	sheet := []ui.Node{
		note(marked("record", "Consent, site and border", ui.MarkCredit, 0), words(" were settled. I "), marked("disposition", "treated", ui.MarkCredit, 0),
			words(" this lesion by "), marked("technique", "curettage and desiccation", ui.MarkCredit, 0), words(", with a "), marked("electrode", "fine", ui.MarkCredit, 0),
			words(" electrode on the "), marked("output", "low", ui.MarkCredit, 0), words(" output, "), marked("contact", "touching", ui.MarkCredit, 0), words(", at "),
			marked("power", ui.Qty("7.0", "W"), ui.MarkCredit, 0), words(" for up to "), marked("activation", ui.Qty("4.0", "s"), ui.MarkCaution, 3),
			words(" at a time, in "), marked("cycles", "3 cycles", ui.MarkAdvice, 4), words(", with a rim of "), marked("rim", ui.Qty("4", "mm"), ui.MarkCredit, 0), words(".")),
		note(words("I cleaned the skin with "), marked("prep", "alcohol", ui.MarkNever, 1), words(", left "), marked("wait", ui.Qty("5", "s"), ui.MarkNever, 1),
			words(" to dry. I wore "), marked("protection", "gloves, mask, goggles", ui.MarkCredit, 0), words("; my other hand "), marked("hand", "stayed on the patient", ui.MarkAdvice, 0), words(".")),
		note(words("Tissue: "), specimen, words(". I will see him in "), marked("follow", "6 months", ui.MarkCredit, 0), words(", and told him about "),
			marked("advice", "healing, scar, return", ui.MarkCredit, 0), words(".")),
		ui.Spacer{},
		ui.Row{Gap: 24, Align: ui.End, Wrap: true, LineGap: 16, Children: []ui.Node{
			ui.Grow(powerCurve()), ui.Button{ID: "change", Label: "Change it"}, ui.Button{ID: "next", Label: "Next case", Kind: ui.Primary},
		}},
	}
	return ui.Page{
		Title: "Debrief", Context: context(), Tabs: stages(3), Focus: "specimen",
		Body: ui.Column{Gap: 20, Children: []ui.Node{
			ui.Row{Gap: 24, Align: ui.Baseline, Children: []ui.Node{ui.Text{Text: "Unsafe", Role: ui.Verdict, Color: ui.Never}, ui.Text{Text: "1 never event, 2 cautions"}}},
			ui.Grow(ui.Split{
				MarginW: 440, MainMin: 520, Gap: 32,
				Main: ui.Sheet{Pad: ui.Pad{Top: 24, Right: 40, Bottom: 24, Left: 40}, Child: ui.Column{Gap: 14, Children: sheet}},
				Margin: ui.Scroll{ID: "margin", Child: ui.Column{Gap: 12, Children: []ui.Node{
					ui.MarginMark{
						ID: "m1", Mark: ui.MarkNever, Number: 1, Heading: "Never: the prep was still wet.",
						Text:   "Alcohol burns with a flame you may not see. Under 60\u2009s every source calls it wet; the label says 3\u2009min, and far longer in hair. Or choose a prep without alcohol.",
						Source: "Drug label, year, section · agreed · local code may ask for longer",
					},
					ui.MarginMark{
						ID: "m2", Mark: ui.MarkCaution, Number: 2, Heading: "Caution: nothing was sent.", Text: "The curettings show what was removed. Send them.",
						Source: "Guideline of care, body, year, section · one source", Link: "Go to this phrase", Chosen: true,
					},
					ui.MarginMark{
						ID: "m3", Mark: ui.MarkCaution, Number: 3, Heading: "Caution: 4.0\u2009s at a time is long.",
						Text: "Below the crater floor the heat went to 0.9 to 1.2\u2009mm; two shorter touches did the same work at 0.5 to 0.7\u2009mm.", Source: "Model, range over its uncertain constants",
					},
					ui.MarginMark{ID: "m4", Mark: ui.MarkAdvice, Number: 4, Heading: "Many teach one more pass.", Source: "Common practice, no source"},
					ui.MarginMark{ID: "m5", Mark: ui.MarkCredit, Heading: "Eleven choices were right.", Link: "Show them"},
				}}},
			}),
		}},
		Foot: caution, Keys: []ui.KeyTip{{Says: "Next finding", Key: "N"}, {Says: "Source", Key: "S"}},
	}
}

func powerCurve() ui.Node {
	var gone, depth []ui.Point
	for i := range 41 {
		w := float64(i) / 2
		gone = append(gone, ui.Point{X: w, Y: 1 / (1 + math.Exp(-(w-4)*1.3)) * 0.97})
		depth = append(depth, ui.Point{X: w, Y: 0.9 / (1 + math.Exp(-(w-14)*0.4))})
	}
	return ui.LineChart{
		Alt:    "What the same hand would have done at other powers.",
		Series: []ui.Series{{Name: "lesion gone", Points: gone}, {Name: "depth in the dermis", Points: depth, Color: ui.Ember, Style: ui.Dashed}},
		Marks:  []ui.ChartMark{{X: 7, Label: "7\u2009W, you", Color: ui.Ember}}, XLabels: []ui.ChartMark{{X: 0, Label: "0"}, {X: 20, Label: "20\u2009W"}},
		MaxX: 20, MaxY: 1, Height: 88,
	}
}

func todayPage() ui.Page {
	rows := []ui.ListRow{
		{Title: "“It bleeds a little on the towel.”", Says: "Room, comes back until right on three days.", Right: "Man, 68 · back"},
		{Title: "“Can they go before the wedding?”", Says: "Power, due after 9 days.", Right: "Woman, 31 · chest"},
		{Title: "“It scabs, and then it opens again.”", Says: "Site, the least sure so far.", Right: "Woman, 74 · nose"},
		{Title: "“I keep knocking it with the razor.”", Says: "New to you.", Right: "Man, 25 · lip"},
		{Title: "“My mother had these as well.”", Says: "Aftercare, where you were sure and wrong.", Right: "Woman, 52 · cheek"},
	}
	for i := range rows {
		rows[i].Thumb = &ui.Picture{ID: "thumb", Image: lesion, Alt: "drawn picture"}
	}
	return ui.Page{
		Title: "Leastwatt", Context: []ui.Span{words("Wednesday 25 November · Harrow Fell teaching clinic")}, Focus: "cases",
		Tabs: &ui.Tabs{ID: "places", Name: "places", Tabs: []ui.Tab{
			{Label: "Today", Hint: "T"}, {Label: "Self-assessment", Hint: "A"}, {Label: "Progress", Hint: "P"}, {Label: "Packs", Hint: "K"}, {Label: "Rules", Hint: "R"}, {Label: "Settings", Hint: ","},
		}},
		Body: ui.Split{
			MarginW: 376, MainMin: 520, Gap: 40,
			Main: ui.Column{Gap: 20, Children: []ui.Node{
				ui.Column{Gap: 2, Children: []ui.Node{
					ui.Text{Text: "Five cases for today, about 20 minutes", Role: ui.Heading},
					ui.Text{Text: "Chosen from 96. Each says why it is here.", Color: ui.QuietInk},
				}},
				ui.List{ID: "cases", Name: "today’s cases", Rows: rows},
			}},
			Margin: ui.Column{Gap: 8, Children: []ui.Node{
				ui.Text{Text: "Shown so far", Role: ui.Label},
				ui.IntervalChart{Alt: "What you have shown so far.", Standard: 0.65, StdLabel: "standard", Rows: []ui.IntervalRow{
					{Label: "decision", At: 0.68, Low: 0.5, Top: 0.82},
					{Label: "technique", At: 0.6, Low: 0.41, Top: 0.76},
					{Label: "power", At: 0.5, Low: 0.28, Top: 0.69},
					{Label: "anaesthesia", At: 0.73, Low: 0.57, Top: 0.86},
					{Label: "site", At: 0.31, Low: 0.12, Top: 0.49},
					{Label: "patient", At: 0.61, Low: 0.44, Top: 0.76},
					{Label: "room", Says: "too few to say"},
					{Label: "bench", At: 0.48, Low: 0.22, Top: 0.73},
				}},
				ui.Text{Text: "Dot: best estimate. Bar: where it may truly lie. Right of the dotted line is the standard your supervisor set.", Role: ui.Quiet},
				ui.Spacer{Size: 8},
				ui.Rule{},
				ui.Spacer{Size: 8},
				ui.Text{Text: "Sure and right?", Role: ui.Label},
				ui.Text{Text: "When you say 90\u2009%, you are right 7 times in 10."},
				ui.Spacer{Size: 8},
				ui.Row{Gap: 12, Children: []ui.Node{ui.Button{ID: "begin", Label: "Begin", Kind: ui.Primary}, ui.Button{ID: "any", Label: "Any case"}}},
			}},
		},
		Foot: caution, Keys: []ui.KeyTip{{Says: "Open", Key: "Enter"}, {Says: "All keys", Key: "?"}},
	}
}

// controlsPage has what the other pages do not.
func controlsPage() ui.Page {
	return ui.Page{
		Title: "Controls", Context: []ui.Span{words("every node the other pages lack")}, Focus: "contact", Tabs: stages(0),
		Body: ui.Row{Gap: 32, Children: []ui.Node{
			ui.Box{Width: 300, Child: ui.Column{Gap: 16, Children: []ui.Node{
				ui.Text{Text: "Contact", Role: ui.Label},
				ui.ChoiceList{ID: "contact", Name: "contact", Chosen: 0, Items: []ui.ChoiceItem{
					{Label: "touching", Says: "The tip rests on the tissue and dries it.", Hint: "T"},
					{Label: "with a gap", Says: "Sparks cross a small gap; the surface chars and the depth is shallow.", Hint: "G"},
					{Label: "not with this technique", Off: true},
				}},
				ui.Rule{},
				ui.Text{Text: "Protection", Role: ui.Label},
				ui.Ticks{ID: "protection", Name: "protection", Ticked: []bool{true, false, true}, Items: []ui.ChoiceItem{
					{Label: "gloves"}, {Label: "mask", Says: "Stops drops, not smoke."}, {Label: "respirator", Says: "Fits the face and filters smoke."}, {Label: "eye protection"},
				}},
			}}},
			ui.Box{Width: 300, Child: ui.Column{Gap: 16, Children: []ui.Node{
				ui.Field{ID: "search", Name: "Search the rules", Hint: "alcohol, pacemaker, eyelid …"},
				ui.Field{ID: "filled", Name: "Filled", Text: "prep with alcohol"},
				ui.Dial{ID: "typed", Name: "Volume", Figure: "3.0", Unit: "mL", At: 0.3, Typing: true, Typed: "4.", Fault: "0.1 to 20 mL in steps of 0.1"},
				ui.Dial{ID: "unset", Name: "Follow-up", Unit: "days", At: -1, Ticks: []ui.DialTick{{At: 0, Label: "1 day"}, {At: 1, Label: "1 year"}}},
				ui.Row{Gap: 12, Wrap: true, LineGap: 12, Children: []ui.Node{
					ui.Button{ID: "b1", Label: "Take my usual kit", Hint: "K"},
					ui.Button{ID: "b2", Label: "Grade", Kind: ui.Primary, Hint: "G"},
					ui.Button{ID: "b3", Label: "Not yet", Off: true, Why: "Two phrases are open."},
					ui.Button{ID: "b4", Label: "Show sources", Kind: ui.QuietLink},
				}},
				ui.Row{Gap: 8, Children: []ui.Node{ui.MarkIcon{Mark: ui.MarkCredit}, ui.MarkIcon{Mark: ui.MarkAdvice}, ui.MarkIcon{Mark: ui.MarkCaution}, ui.MarkIcon{Mark: ui.MarkNever}}},
			}}},
			ui.Grow(ui.Column{Gap: 16, Children: []ui.Node{
				ui.Row{Gap: 16, Children: []ui.Node{
					ui.BodyOutline{Site: "back", Side: "left", Label: "Upper back"}, ui.BodyOutline{Site: "nose", Side: "right", Label: "Nose"},
				}},
				powerCurve(),
				ui.BarChart{Alt: "bars", Bars: []ui.Bar{{Label: "treat", Value: 12, Says: "12 cases"}, {Label: "biopsy first", Value: 7, Says: "7 cases"}, {Label: "refer", Value: 3, Says: "3 cases", Color: ui.Ember}}},
				ui.List{ID: "findings", Name: "findings", Chosen: 1, Rows: []ui.ListRow{
					{Title: "No mark on the specimen", Says: "pack.json:41:9", Mark: ui.MarkCaution}, {Title: "The lesion is wider than the site", Says: "pack.json:52:17", Mark: ui.MarkNever, Right: "error"},
				}},
			}}),
		}},
		Foot: caution, Keys: []ui.KeyTip{{Says: "All keys", Key: "?"}},
	}
}

func overlayPage() ui.Page {
	p := planPage()
	var rows []ui.Node
	for _, k := range [][2]string{{"Tab", "next phrase"}, {"↑ ↓", "change the phrase"}, {"Enter", "take it"}, {"Escape", "leave it"}, {"Ctrl Z", "undo"}, {"Ctrl C", "copy the note"}} {
		rows = append(rows, ui.Row{Gap: 16, Align: ui.Middle, Children: []ui.Node{ui.Box{Width: 72, Align: ui.Start, Child: ui.Keycap{Text: k[0]}}, ui.Text{Text: k[1]}}})
	}
	rows = append(rows, ui.Spacer{Size: 8}, ui.Row{Children: []ui.Node{ui.Spacer{}, ui.Button{ID: "close", Label: "Close", Kind: ui.Primary}}})
	p.Over = &ui.Overlay{ID: "help", Title: "Keys of this screen", Width: 420, Child: ui.Column{Gap: 12, Children: rows}}
	return p
}

// toastPage also has the rarer states: a resting phrase, a tab that is off.
func toastPage() ui.Page {
	p := planPage()
	p.Toast = &ui.Toast{Text: "The note was copied as text."}
	p.Tabs.Tabs[3].Off = true
	p.Focus = "margin"
	p.Body = ui.Sheet{Pad: ui.PadXY(40, 28), Child: ui.Column{Gap: 14, Children: append(planNote()[:2],
		note(words("I will take it with "), ui.Phrase{ID: "margin", Text: "no margin", Name: "margin", State: ui.Resting}, words(" and close with "),
			ui.Phrase{ID: "close", Text: "pressure", Name: "closing", State: ui.Resting}, words(".")))}}
	return p
}
