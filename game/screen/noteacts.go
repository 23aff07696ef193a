package screen

import (
	"fmt"

	"leastwatt/cases"
)

// Which phrases a technique needs. The destroying part of a technique is set
// by electrode, output, contact, power, time, cycles and rim; cutting alone
// has none of them, and a bipolar or heated tip lacks some.
type needs struct {
	electrode, output, contact, power, time, cycles, rim bool
	margin                                               bool
}

var current = needs{electrode: true, output: true, contact: true, power: true, time: true, cycles: true, rim: true}

func needsOf(technique string) needs {
	switch technique {
	case "electrodesiccation", "electrofulguration", "electrocoagulation", "curettage_desiccation":
		return current
	case "shave_desiccation":
		return current
	case "bipolar_coagulation":
		return needs{electrode: true, power: true, time: true, cycles: true, rim: true}
	case "heat_cautery":
		return needs{electrode: true, time: true, cycles: true, rim: true}
	case "shave_excision", "punch_biopsy", "fusiform_excision":
		return needs{margin: true}
	}
	return needs{}
}

// cuts tells whether a technique breaks the skin, so that bleeding and blood
// thinners come in.
func cuts(technique string) bool {
	switch technique {
	case "curettage_desiccation", "shave_desiccation", "shave_excision", "snip_excision", "punch_biopsy", "fusiform_excision", "curettage":
		return true
	}
	return false
}

// asked: what was found out first.
func (w *noteWriter) asked() {
	w.say("I have ")
	w.phrase("asked")
	w.stop()
}

// record: what is settled and written down. It comes with the decision, so
// that whoever goes forward from phrase to phrase passes it.
func (w *noteWriter) record() {
	w.verb("I will record ", "I recorded ")
	w.phrase("record")
	w.stop()
}

// act: the decision and how it is carried out.
func (w *noteWriter) act() {
	switch w.p.Disposition {
	case "treat":
		w.verb("I will ", "I ")
		w.phrase("disposition")
		w.say(" " + w.lesions() + " by ")
		w.phrase("technique")
		w.settings(needsOf(w.p.Technique))
	case "biopsy_first":
		w.verb("I will ", "I ")
		w.phrase("disposition")
		w.say(" " + w.lesions() + " first, by ")
		w.phrase("technique")
		w.margin(needsOf(w.p.Technique))
	case "refer":
		w.verb("I will ", "I ")
		w.phrase("disposition")
		w.say(" " + pronoun(&w.c.Patient) + " to ")
		w.phrase("referral.to")
		w.within()
	case "leave":
		w.verb("I will ", "I ")
		w.phrase("disposition")
		w.say(" " + w.lesions() + " alone")
	}
	w.stop()
}

// settings: the dials of the destroying part, in one breath.
func (w *noteWriter) settings(n needs) {
	if n.electrode {
		w.electrode("electrode")
	}
	if n.output {
		w.measured(" on the", " on an output", "output", " output")
	}
	if n.contact {
		w.say(", the tip ")
		w.phrase("contact")
	}
	if n.power {
		w.measured(", at", ", at a power", "power_w", "")
	}
	if n.time {
		lead := " for"
		if !n.power {
			lead = ", for"
		}
		w.measured(lead+" at most", lead+" a time", "activation_s", " at a time")
	}
	if n.cycles {
		w.measured(", in", ", in a number of cycles", "cycles", "")
	}
	if n.rim {
		if rim, ok := numberAt(w.p, "rim_mm"); ok && rim == 0 {
			w.measured(", with", "", "rim_mm", "")
		} else {
			w.measured(", with a rim of", ", with a rim", "rim_mm", "")
		}
	}
	w.margin(n)
}

// electrode: "with a [fine] electrode", "with [forceps]".
func (w *noteWriter) electrode(id string) {
	switch textAt(w.p, id) {
	case "":
		w.say(", with an electrode ")
		w.phrase(id)
	case "forceps", "cautery_tip":
		w.say(", with ")
		w.phrase(id)
	default:
		w.say(", with a ")
		w.phrase(id)
		w.say(" electrode")
	}
}

func (w *noteWriter) margin(n needs) {
	margin, set := numberAt(w.p, "margin_mm")
	switch {
	case set && margin > 0:
		w.say(", with a margin of ")
		w.phrase("margin_mm")
	case set, n.margin:
		w.say(", with ")
		w.phrase("margin_mm")
	}
}

// bleeding: how it is stopped; current there has its own dials.
func (w *noteWriter) bleeding() {
	w.verb("I will stop any bleeding with ", "I stopped bleeding with ")
	w.phrase("haemostasis.method")
	if h := w.p.Haemostasis; h != nil && h.Method == "electrocoagulation" {
		w.electrode("haemostasis.electrode")
		w.measured(" on the", " on an output", "haemostasis.output", " output")
		w.say(", the tip ")
		w.phrase("haemostasis.contact")
		w.measured(", at", ", at a power", "haemostasis.power_w", "")
		w.measured(" for at most", " for a time", "haemostasis.activation_s", " at a time")
	}
	w.stop()
}

// within: "within [2 weeks]"; the same day needs no preposition.
func (w *noteWriter) within() {
	days, ok := numberAt(w.p, "referral.within_days")
	switch {
	case ok && days == 0:
		w.say(", ")
		w.phrase("referral.within_days")
	case ok:
		w.say(", within ")
		w.phrase("referral.within_days")
	default:
		w.say(", to be seen within a time ")
		w.phrase("referral.within_days")
	}
}

// numbing: which anaesthetic, how much and how.
func (w *noteWriter) numbing() {
	a := w.p.Anaesthetic
	if a != nil && a.None != nil && *a.None {
		w.verb("I will use ", "I used ")
		w.phrase("anaesthetic")
		w.stop()
		return
	}
	w.verb("I will numb it with ", "I numbed it with ")
	w.phrase("anaesthetic")
	if a != nil && a.Topical != nil {
		w.surface(a)
	}
	if a != nil && len(a.Injected) > 0 {
		w.injected(a)
	}
	w.stop()
	if a != nil && len(a.Injected) > 0 {
		w.injecting()
	}
}

// surface: ": [lidocaine prilocaine cream], [2 g] on [10 cm²] for [60 min]".
func (w *noteWriter) surface(a *cases.Anaesthetic) {
	w.say(": ")
	w.phrase("anaesthetic.topical.agent")
	if cold := a.Topical.Agent == "cold"; !cold || a.Topical.AmountG != nil {
		w.measured(",", ", an amount", "anaesthetic.topical.amount_g", "")
	}
	if cold := a.Topical.Agent == "cold"; !cold || a.Topical.AreaCM2 != nil {
		w.measured(" on", " on an area", "anaesthetic.topical.area_cm2", "")
	}
	w.measured(" for", " for a time", "anaesthetic.topical.minutes", "")
}

// injected: "of [lidocaine] [1 %], [plain], [3.0 mL]", agent by agent.
func (w *noteWriter) injected(a *cases.Anaesthetic) {
	lead := " of "
	if a.Topical != nil {
		lead = ", then "
	} else if len(a.Injected) > 1 {
		lead = ": "
	}
	for i, in := range a.Injected {
		id := func(key string) string { return fmt.Sprintf("anaesthetic.injected.%d.%s", i, key) }
		if i > 0 {
			lead = ", and "
		}
		if in.Agent == "" {
			lead += "an agent "
		}
		w.say(lead)
		w.phrase(id("agent"))
		w.measured("", ", at a strength", id("percent"), "")
		w.say(", ")
		w.phrase(id("adrenaline"))
		w.measured(",", ", a volume", id("volume_ml"), "")
		w.asideOf(id("volume_ml"), doseAside(w.c, in))
	}
}

func (w *noteWriter) asideOf(id, aside string) {
	for i := range w.pieces {
		if w.pieces[i].ID == id {
			w.pieces[i].Aside = aside
		}
	}
}

// injecting: needle, pattern, comfort and wait.
func (w *noteWriter) injecting() {
	w.verb("I will inject it ", "I injected it ")
	w.phrase("anaesthetic.slow")
	w.say(", ")
	w.phrase("anaesthetic.method")
	w.say(", through ")
	w.phrase("anaesthetic.needle_gauge")
	w.say(", ")
	w.phrase("anaesthetic.buffered")
	w.say(" and ")
	w.phrase("anaesthetic.warmed")
	w.verb(", and begin after ", ", and began after ")
	w.phrase("anaesthetic.wait_min")
	w.stop()
}
