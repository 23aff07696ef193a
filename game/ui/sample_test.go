package ui

import "image"

// samplePage has every kind of node, arranged as screens do.
func samplePage(over bool) Page {
	w := func(s string) Span { return Words{Text: s} }
	pic := image.NewRGBA(image.Rect(0, 0, 64, 64))
	p := Page{
		Title: "Plan", Context: []Span{w("Harrow Fell teaching clinic · case 7 of 12 · "), Words{Text: "“It bleeds.”", Italic: true}},
		Tabs: &Tabs{ID: "tabs", Name: "stages", At: 1, Hint: "Alt 1–4", Tabs: []Tab{{Label: "Case"}, {Label: "Plan", Hint: "P"}, {Label: "Bench", Off: true}, {Label: "Debrief"}}},
		Foot: "Training only. Your supervisor, local codes, the unit’s own manual and your licence decide.",
		Keys: []KeyTip{{"Undo", "Ctrl Z"}, {"All keys", "?"}}, Toast: &Toast{Text: "The note was copied as text."},
		Body: Split{
			LeftW: 232, MarginW: 292,
			Left: Column{Gap: 8, Children: []Node{
				Picture{ID: "lesion", Image: pic, Alt: "drawn picture of the lesion", ScaleMM: 16, Drawn: true},
				Text{Text: "Man, 68 · " + Qty("84", "kg")},
				nil,
				Note{Role: Quiet, Spans: []Span{w("You asked about devices. "), Link{ID: "ask", Text: "Ask more"}}},
				BodyOutline{Site: "back", Side: "left", Label: "Upper back"},
			}},
			Main: Sheet{Pad: PadXY(40, 28), Child: Column{Gap: 14, Children: []Node{
				Note{Role: NoteRole, Spans: []Span{
					w("Before I start: "),
					Phrase{ID: "record", Text: "consent, site confirmed, border marked", Name: "record", Mark: MarkCredit},
					w(". I will "),
					Phrase{ID: "disposition", Text: "treat", Name: "what you will do", Steps: StepList},
					w(" this lesion, at "),
					Phrase{ID: "power", Text: Qty("7.0", "W"), Name: "power", Chosen: true, Mark: MarkCaution, Number: 2, Aside: "of 35 W"},
					w(", touching; evacuator: "),
					Phrase{ID: "smoke", Name: "smoke evacuator", State: Open},
					w(". Then "),
					Phrase{ID: "kit", Text: "gloves, mask and goggles", Name: "kit", State: Unseen, Steps: StepNone},
					w(" and "),
					Phrase{ID: "margin", Text: "no margin", Name: "margin", State: Resting},
					w(". "),
					Phrase{ID: "prep", Text: "alcohol", Name: "prep", Mark: MarkNever, Number: 1},
					w(" with "),
					Phrase{ID: "wait", Text: Qty("5", "s"), Name: "wait", Mark: MarkAdvice},
					w("."),
				}},
				Row{Gap: 12, Wrap: true, LineGap: 8, Align: Middle, Children: []Node{
					Grow(Dial{ID: "sure", Name: "Sure of “Safe”?", At: -1, Small: true}),
					Button{ID: "grade", Label: "Grade now", Hint: "G"},
					Button{ID: "bench", Label: "To the bench", Kind: Primary},
					Button{ID: "off", Label: "Not yet", Off: true, Why: "Two phrases are open."},
					Button{ID: "quiet", Label: "Sources", Kind: QuietLink},
				}},
				LineChart{
					Alt: "what other powers do", MaxX: 20, MaxY: 1, Series: []Series{
						{Name: "lesion gone", Points: []Point{{0, 0}, {5, 0.9}, {20, 1}}},
						{Name: "depth in the dermis", Points: []Point{{0, 0}, {20, 0.95}}, Style: Dashed, Color: Ember},
					},
					Marks: []ChartMark{{X: 7, Label: Qty("7", "W") + ", you"}}, XLabels: []ChartMark{{X: 20, Label: "20 W"}},
				},
			}}},
			Margin: Scroll{ID: "margin", Child: Column{Gap: 12, Children: []Node{
				Dial{ID: "power.dial", For: "power", Name: "Power", Figure: "7.0", Unit: "W", At: 0.4, Ticks: []DialTick{{0, "0"}, {0.5, "10"}, {0.52, "11"}, {1, "35"}}, Fault: "0.1 to 35 W"},
				ChoiceList{ID: "contact", Name: "contact", Chosen: 0, Items: []ChoiceItem{{Label: "touching", Says: "The tip rests on the tissue.", Hint: "T"}, {Label: "gap", Off: true}, {Label: "near"}}},
				Ticks{ID: "wear", Name: "protection", Ticked: []bool{true}, Columns: 2, Items: []ChoiceItem{{Label: "gloves"}, {Label: "mask", Says: "Stops drops."}, {Label: "goggles"}}},
				Rule{},
				Field{ID: "search", Name: "Search", Hint: "alcohol"},
				Note{Role: Quiet, Spans: []Span{Cap{"↑"}, w(" by 0.1 · "), Cap{"Tab"}, w(" next")}},
				MarginMark{ID: "m1", Mark: MarkNever, Number: 1, Heading: "Never: the prep was wet.", Text: "Alcohol burns.", Source: "Drug label, year", Link: "Go to this phrase"},
				IntervalChart{Alt: "shown so far", Standard: 0.6, StdLabel: "standard", Rows: []IntervalRow{{Label: "decision", At: 0.7, Low: 0.5, Top: 0.8}, {Label: "room", Says: "too few to say"}}},
				BarChart{Alt: "bars", Bars: []Bar{{Label: "treat", Value: 3, Says: "3 cases"}, {Label: "refer", Value: 1, Says: "1 case"}}},
				List{ID: "cases", Name: "cases", Rows: []ListRow{{Thumb: &Picture{ID: "t", Image: pic, Alt: "thumb"}, Title: "“It bleeds.”", Says: "New to you.", Right: "Man, 68 · back"}, {Title: "A fault", Mark: MarkCaution}}},
				Keycap{"Esc"},
				MarkIcon{MarkCredit},
			}}},
		},
	}
	if over {
		p.Over = &Overlay{ID: "help", Title: "Keys", Child: Column{Children: []Node{Text{Text: "Tab goes on."}, Button{ID: "close", Label: "Close"}}}}
	}
	return p
}
