package screen

import (
	"fmt"
	"strings"

	"leastwatt/cases"
)

const notDone = "not done" // how an open phrase reads in the record

// phraseText is how a phrase reads now, and how far it is decided.
func phraseText(p *cases.Plan, id string, tense Tense, words cases.Words) (string, State) {
	r := row(id)
	if r == nil {
		return cases.NotDecided, Open
	}
	if text := r.decidedText(p, id, tense, words); text != "" {
		return text, Decided
	}
	switch {
	case id == "asked":
		return r.Absent, Open
	case r.optional():
		return cases.Spell(inTense(tense, r.Absent, r.AbsentPast), words), Resting
	case tense == Past:
		return notDone, Open
	}
	return cases.NotDecided, Open
}

// decidedText is empty while the phrase is open.
func (r *phraseRow) decidedText(p *cases.Plan, id string, tense Tense, words cases.Words) string {
	switch r.kind {
	case numberPhrase:
		if n, ok := numberAt(p, id); ok {
			return numberText(r, n, words)
		}
	case flagPhrase:
		switch on, decided := flagAt(p, id); {
		case decided && on:
			return cases.Spell(inTense(tense, r.Yes, r.YesPast), words)
		case decided:
			return cases.Spell(inTense(tense, r.No, r.NoPast), words)
		}
	case ticksPhrase:
		return ticksText(r, p, id, words)
	case numbingPhrase:
		return numbingText(p.Anaesthetic)
	case adrenalinePhrase:
		return adrenalineText(textAt(p, id), words)
	default:
		choice := textAt(p, id)
		switch {
		case choice == "":
		case tense == Past:
			return pastText(r.table, choice, words)
		default:
			return noteText(r.table, choice, words)
		}
	}
	return ""
}

// inTense takes the past form in the record, where there is one.
func inTense(tense Tense, text, past string) string {
	if tense == Past && past != "" {
		return past
	}
	return text
}

// numberText writes a number as a plan reads it everywhere.
func numberText(r *phraseRow, n cases.Milli, words cases.Words) string {
	switch {
	case r.Unit == "days":
		return cases.PhraseText(&cases.Plan{FollowUpDays: &n}, "follow_up_days", words)
	case r.Path == "rim_mm" && n == 0:
		return "no rim"
	case r.Path == "margin_mm" && n == 0:
		return "no margin"
	case r.Unit == "gauge":
		return "a " + n.String() + thinSpace + "gauge needle"
	case r.Path == "confidence":
		return (n * 100).String() + thinSpace + "%"
	}
	return r.figure(n) + thinSpace + r.unitOf(n)
}

// figure is the number alone: with as many decimals as its phrase shows, and
// the second decimal of seconds only when it says something.
func (r *phraseRow) figure(n cases.Milli) string {
	switch {
	case r.Decimals == 2 && n%100 == 0:
		return n.Fixed(1)
	case r.Decimals > 0:
		return n.Fixed(r.Decimals)
	}
	return n.String()
}

func ticksText(r *phraseRow, p *cases.Plan, id string, words cases.Words) string {
	ids, decided := listAt(p, id)
	switch {
	case !decided:
		return ""
	case id == "asked":
		return askedText(ids, words)
	case len(ids) == 0 && id == "protection":
		return "no protection"
	case len(ids) == 0:
		return "nothing"
	}
	texts := make([]string, len(ids))
	for i, t := range ids {
		texts[i] = noteText(r.table, t, words)
	}
	return listAnd(texts)
}

// askedText says what was asked and what examined: "asked about blood thinners
// and allergies, felt it and pinched it".
func askedText(ids []string, words cases.Words) string {
	var asked, done []string
	for _, t := range ids {
		if cases.IsExam(t) {
			done = append(done, noteText("topic", t, words))
		} else {
			asked = append(asked, noteText("topic", t, words))
		}
	}
	switch {
	case len(asked) > 6:
		asked = []string{"asked about " + count(len(asked), "thing")}
	case len(asked) > 0:
		asked = []string{"asked about " + listAnd(asked)}
	}
	if len(done) > 4 {
		done = []string{"examined it in " + count(len(done), "way")}
	}
	parts := append(asked, done...)
	switch {
	case len(parts) == 0:
		return phraseRows["asked"].Absent
	case len(asked) > 0 && len(done) == 1:
		return asked[0] + ", and " + done[0]
	}
	return listAnd(parts)
}

func numbingText(a *cases.Anaesthetic) string {
	if a == nil {
		return ""
	}
	n := len(a.Injected)
	switch {
	case a.None != nil && *a.None:
		return "no anaesthetic"
	case n > 1 && a.Topical != nil:
		return fmt.Sprintf("a surface agent and injections of %s agents", numberWord(n))
	case n == 1 && a.Topical != nil:
		return "a surface agent and an injection"
	case n > 1:
		return fmt.Sprintf("injections of %s agents", numberWord(n))
	case n == 1:
		return "an injection"
	case a.Topical != nil:
		return "a surface agent"
	}
	return ""
}

func adrenalineText(ratio string, words cases.Words) string {
	if ratio == "" {
		return "plain"
	}
	return cases.Spell("with adrenaline ", words) + cases.RatioText(ratio)
}

// doseAside is the dose that a volume holds, and per kilogram: nothing about
// what is too much.
func doseAside(c *cases.Case, in cases.Injected) string {
	if in.Percent == nil || in.VolumeML == nil {
		return ""
	}
	mg := *in.Percent * *in.VolumeML / 100 // one per cent is 10 mg in each mL; thousandths of a mg
	perKG := mg * 1000 / c.Patient.WeightKG
	decimals := 1
	if perKG < 100 {
		decimals = 2
	}
	shown := mg.Fixed(1)
	return strings.TrimSuffix(shown, ".0") + thinSpace + "mg,\u00a0" + perKG.Fixed(decimals) + thinSpace + "mg/kg"
}
