package cases

import (
	"strings"
)

// NotDecided is how an open phrase reads.
const NotDecided = "not decided"

// thin is a thin no-break space, as stands between a number and its unit.
const thin = "\u202f"

// PhraseText is how a plan's phrase reads in words, [NotDecided] when it is
// open. The path is that of the plan file, without list indices.
func PhraseText(p *Plan, path string, words Words) string {
	head, rest, _ := strings.Cut(path, ".")
	switch head {
	case "haemostasis":
		return p.Haemostasis.phrase(rest, words)
	case "anaesthetic":
		return p.Anaesthetic.phrase(rest, words)
	case "prep":
		return p.Prep.phrase(rest, words)
	case "specimen":
		return p.Specimen.phrase(rest, words)
	case "referral":
		return p.Referral.phrase(rest, words)
	}
	switch path {
	case "asked":
		return wordList("topic", p.Asked, "nothing", words)
	case "disposition":
		return word("disposition", p.Disposition, words)
	case "technique":
		return word("technique", p.Technique, words)
	case "electrode":
		return word("electrode", p.Electrode, words)
	case "output":
		return word("output", p.Output, words)
	case "contact":
		return contactText(p.Contact)
	case "power_w":
		return measure(p.PowerW, 1, "W")
	case "activation_s":
		return secondsText(p.ActivationS)
	case "cycles":
		return counted(p.Cycles, "cycle")
	case "rim_mm":
		return measure(p.RimMM, -1, "mm")
	case "margin_mm":
		return measure(p.MarginMM, -1, "mm")
	case "protection":
		return wordList("protection", p.Protection, "nothing", words)
	case "evacuator_cm":
		return measure(p.EvacuatorCM, -1, "cm")
	case "record":
		return wordList("record", p.Record, "nothing", words)
	case "blood_thinner":
		return word("blood_thinner", p.BloodThinner, words)
	case "prescribe":
		return wordList("prescribe", p.Prescribe, "nothing", words)
	case "follow_up_days":
		return daysText(p.FollowUpDays)
	case "other_care":
		return word("other_care", p.OtherCare, words)
	case "advice":
		return wordList("advice", p.Advice, "nothing", words)
	}
	return NotDecided
}

func (h *Haemostasis) phrase(key string, words Words) string {
	if h == nil || h.Method == "" {
		if key == "method" || key == "" {
			return Vocab.Label("haemostasis", "pressure", words)
		}
		return NotDecided
	}
	switch key {
	case "output":
		return word("output", h.Output, words)
	case "contact":
		return contactText(h.Contact)
	case "electrode":
		return word("electrode", h.Electrode, words)
	case "power_w":
		return measure(h.PowerW, 1, "W")
	case "activation_s":
		return secondsText(h.ActivationS)
	}
	return word("haemostasis", h.Method, words)
}

func (a *Anaesthetic) phrase(key string, words Words) string {
	if a == nil {
		return NotDecided
	}
	if t, ok := strings.CutPrefix(key, "topical."); ok {
		return a.Topical.phrase(t, words)
	}
	if k, ok := strings.CutPrefix(key, "injected."); ok {
		return injectedText(a.Injected, k, words)
	}
	switch key {
	case "needle_gauge":
		return measure(a.NeedleGauge, 0, "gauge")
	case "method":
		return word("injection_method", a.Method, words)
	case "wait_min":
		return measure(a.WaitMin, 0, "min")
	case "buffered":
		return yesNo(a.Buffered)
	case "warmed":
		return yesNo(a.Warmed)
	case "slow":
		return yesNo(a.Slow)
	}
	switch {
	case a.None != nil && *a.None:
		return Spell("no anaesthetic", words)
	case len(a.Injected) > 0 && a.Topical != nil:
		return "an injection and a surface agent"
	case len(a.Injected) > 0:
		return "an injection"
	case a.Topical != nil:
		return "a surface agent"
	}
	return NotDecided
}

func injectedText(list []Injected, key string, words Words) string {
	var parts []string
	for _, in := range list {
		switch key {
		case "agent":
			parts = append(parts, word("agent", in.Agent, words))
		case "percent":
			parts = append(parts, measure(in.Percent, -1, "%"))
		case "adrenaline":
			if in.Adrenaline == "" {
				parts = append(parts, "plain")
			} else {
				parts = append(parts, RatioText(in.Adrenaline))
			}
		case "volume_ml":
			parts = append(parts, measure(in.VolumeML, 1, "mL"))
		}
	}
	if len(parts) == 0 {
		return NotDecided
	}
	return strings.Join(parts, " and ")
}

// RatioText writes an adrenaline strength with its thousands apart, as a
// syringe label does: 1 : 200 000.
func RatioText(ratio string) string {
	digits, ok := strings.CutPrefix(ratio, "1:")
	if !ok {
		return ratio
	}
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + thin + digits[i:]
	}
	return "1" + thin + ":" + thin + digits
}

func (t *Topical) phrase(key string, words Words) string {
	if t == nil {
		return NotDecided
	}
	switch key {
	case "amount_g":
		return measure(t.AmountG, -1, "g")
	case "area_cm2":
		return measure(t.AreaCM2, -1, "cm²")
	case "minutes":
		return measure(t.Minutes, 0, "min")
	}
	return word("topical_agent", t.Agent, words)
}

func (r *Prep) phrase(key string, words Words) string {
	if r == nil {
		return NotDecided
	}
	switch key {
	case "dry_wait_s":
		return measure(r.DryWaitS, 0, "s")
	case "dry_checked":
		return yesNo(r.DryChecked)
	}
	return word("prep", r.Agent, words)
}

func (s *Specimen) phrase(key string, words Words) string {
	if s == nil {
		return NotDecided
	}
	switch key {
	case "send":
		if s.Send == nil {
			return NotDecided
		}
		if *s.Send {
			return "sent"
		}
		return "nothing sent"
	case "labels":
		return yesNo(s.Labels)
	case "result_owner":
		return word("result_owner", s.ResultOwner, words)
	}
	return word("specimen_method", s.Method, words)
}

func (r *Referral) phrase(key string, words Words) string {
	if r == nil {
		return NotDecided
	}
	if key == "within_days" {
		return daysText(r.WithinDays)
	}
	return word("referral", r.To, words)
}

func word(table, id string, words Words) string {
	if id == "" {
		return NotDecided
	}
	return Vocab.Label(table, id, words)
}

func wordList(table string, ids []string, none string, words Words) string {
	if ids == nil {
		return NotDecided
	}
	if len(ids) == 0 {
		return none
	}
	labels := make([]string, len(ids))
	for i, id := range ids {
		labels[i] = Vocab.Label(table, id, words)
	}
	return strings.Join(labels, ", ")
}

func contactText(id string) string {
	switch id {
	case "touch":
		return "touching"
	case "gap":
		return "just off the skin"
	}
	return NotDecided
}

// measure writes a number with its unit; decimals -1 means as few as needed.
func measure(m *Milli, decimals int, unit string) string {
	switch {
	case m == nil:
		return NotDecided
	case decimals < 0:
		return m.String() + thin + unit
	}
	return m.Fixed(decimals) + thin + unit
}

// secondsText keeps the second decimal only when it says something.
func secondsText(m *Milli) string {
	if m != nil && *m%100 != 0 {
		return measure(m, 2, "s")
	}
	return measure(m, 1, "s")
}

func counted(m *Milli, noun string) string {
	if m == nil {
		return NotDecided
	}
	if *m != 1000 {
		noun += "s"
	}
	return m.String() + thin + noun
}

func daysText(m *Milli) string {
	switch {
	case m == nil:
		return NotDecided
	case *m == 0:
		return "the same day"
	case *m >= 60000 && *m%30000 == 0:
		return (*m / 30).String() + thin + "months"
	case *m >= 14000 && *m%7000 == 0:
		return (*m / 7).String() + thin + "weeks"
	}
	return counted(m, "day")
}

func yesNo(b *bool) string {
	switch {
	case b == nil:
		return NotDecided
	case *b:
		return "yes"
	}
	return "no"
}
