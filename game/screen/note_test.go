package screen

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// wholeText is a note as plain text, a paragraph a line.
func wholeText(note []Sentence) string {
	var b strings.Builder
	for i, s := range note {
		switch {
		case i == 0:
		case s.Paragraph != note[i-1].Paragraph:
			b.WriteString("\n")
		default:
			b.WriteString(" ")
		}
		b.WriteString(PlainText(s.Text()))
	}
	return b.String()
}

func TestNotesRead(t *testing.T) {
	full := cases.Plan{
		Asked: []string{"devices", "allergies", "feel"}, Disposition: "treat", Technique: "curettage_desiccation",
		Electrode: "fine", Output: "low", Contact: "touch", PowerW: milli(7000), ActivationS: milli(2000), Cycles: milli(3000), RimMM: milli(4000),
		Anaesthetic: &cases.Anaesthetic{
			Injected:    []cases.Injected{{Agent: "lidocaine", Percent: milli(1000), Adrenaline: "1:200000", VolumeML: milli(3000)}},
			NeedleGauge: milli(30000), Method: "wheal", Slow: yes(), Buffered: yes(), WaitMin: milli(5000),
		},
		Prep:       &cases.Prep{Agent: "chlorhexidine_aqueous", DryWaitS: milli(60000), DryChecked: yes()},
		Protection: []string{"gloves", "mask", "smoke_evacuator", "hand_contact"}, EvacuatorCM: milli(3000),
		Record:      []string{"consent", "site_confirmed", "border_marked"},
		Specimen:    &cases.Specimen{Send: yes(), Method: "curettings", Labels: yes(), ResultOwner: "me"},
		Haemostasis: &cases.Haemostasis{Method: "electrocoagulation", Electrode: "ball", Output: "low", Contact: "gap", PowerW: milli(5000), ActivationS: milli(500)},
		Prescribe:   []string{"petrolatum"}, FollowUpDays: milli(180000),
		Advice: []string{"infection_signs", "press_if_bleeds"},
	}
	for _, test := range []struct {
		name  string
		tense Tense
		words cases.Words
		plan  cases.Plan
		want  string
	}{
		{"nothing decided", Future, cases.UK, cases.Plan{}, "I have asked nothing yet. What I will do: not decided."},
		{"all of a treatment", Future, cases.UK, full, "" +
			"I have asked about implanted devices and allergies, and felt it. I will treat this lesion by curettage and desiccation, with a fine electrode on the low output, the tip touching, at 7.0 W for at most 2.0 s at a time, in 3 cycles, with a rim of 4 mm. I will record consent, the site confirmed and the border marked.\n" +
			"I will numb it with an injection of lidocaine 1 %, with adrenaline 1 : 200 000, 3.0 mL (30 mg, 0.4 mg/kg). I will inject it slowly, as a wheal, through a 30 gauge needle, buffered and unwarmed, and begin after 5 min.\n" +
			"I will clean the skin with aqueous chlorhexidine, let it dry for 60 s, and check that it is dry. I will work with gloves, a surgical mask, a smoke evacuator and my other hand on the patient, the smoke tube 3 cm away.\n" +
			"I will stop any bleeding with electrocoagulation, with a ball electrode on the low output, the tip just off the skin, at 5.0 W for at most 0.5 s at a time. Tissue: sent as curettings, with site and side on every pot; I will see to the result. Blood thinner: nothing to decide.\n" +
			"I will prescribe petrolatum and refer to no one. I will see him in 6 months. I will tell him about signs of infection and pressing if it bleeds."},
		{"the same done, in American words", Past, cases.US, full, "" +
			"I have asked about implanted devices and allergies, and felt it. I treated this lesion by curettage and desiccation, with a fine electrode on the low output, the tip touching, at 7.0 W for at most 2.0 s at a time, in 3 cycles, with a rim of 4 mm. I recorded consent, the site confirmed and the border marked.\n" +
			"I numbed it with an injection of lidocaine 1 %, with epinephrine 1 : 200 000, 3.0 mL (30 mg, 0.4 mg/kg). I injected it slowly, as a wheal, through a 30 gauge needle, buffered and unwarmed, and began after 5 min.\n" +
			"I cleaned the skin with aqueous chlorhexidine, let it dry for 60 s, and checked that it was dry. I worked with gloves, a surgical mask, a smoke evacuator and my other hand on the patient, the smoke tube 3 cm away.\n" +
			"I stopped bleeding with electrocoagulation, with a ball electrode on the low output, the tip just off the skin, at 5.0 W for at most 0.5 s at a time. Tissue: sent as curettings, with site and side on every pot; I will see to the result. Blood thinner: nothing to decide.\n" +
			"I prescribed petrolatum and referred to no one. I will see him in 6 months. I told him about signs of infection and pressing if it bleeds."},
		{"a treatment just begun", Future, cases.UK, cases.Plan{Disposition: "treat", Technique: "heat_cautery", Anaesthetic: &cases.Anaesthetic{Injected: []cases.Injected{{}, {Agent: "bupivacaine"}}}}, "" +
			"I have asked nothing yet. I will treat this lesion by heat cautery, with an electrode not decided, for a time not decided, in a number of cycles not decided, with a rim not decided. I will record not decided.\n" +
			"I will numb it with injections of two agents: an agent not decided, at a strength not decided, plain, a volume not decided, and bupivacaine, at a strength not decided, plain, a volume not decided. I will inject it at no set speed, in any pattern, through any needle, unbuffered and unwarmed, and begin after no set wait.\n" +
			"I will clean the skin with not decided, let it dry for not decided, and go on without a check. I will work with not decided.\n" +
			"I will stop any bleeding with pressure. Tissue: not decided.\n" +
			"I will prescribe nothing and refer to no one. I will see him again: not decided. What I will tell him: not decided."},
		{"a biopsy", Future, cases.UK, cases.Plan{
			Asked: []string{"blood_thinners"}, Disposition: "biopsy_first", Technique: "punch_biopsy",
			Anaesthetic: &cases.Anaesthetic{Topical: &cases.Topical{Agent: "lidocaine_prilocaine_cream", AmountG: milli(2000), AreaCM2: milli(10000), Minutes: milli(60000)}},
			Prep:        &cases.Prep{Agent: "none"}, Protection: []string{}, Record: []string{}, Specimen: &cases.Specimen{Send: no()},
			Haemostasis: &cases.Haemostasis{Method: "suture"}, Prescribe: []string{}, FollowUpDays: milli(0),
			Referral: &cases.Referral{To: "dermatology", WithinDays: milli(14000)}, Advice: []string{}, BloodThinner: "continue",
		}, "" +
			"I have asked about blood thinners. I will biopsy this lesion first, by punch biopsy, with no set margin. I will record nothing.\n" +
			"I will numb it with a surface agent: lidocaine and prilocaine cream, 2 g on 10 cm² for 60 min.\n" +
			"I will clean the skin with nothing. I will work with no protection.\n" +
			"I will stop any bleeding with stitches. Tissue: nothing sent. Blood thinner: continue.\n" +
			"I will prescribe nothing and refer him to dermatology, within 2 weeks. I will see him again the same day. I will tell him about nothing."},
		{"a referral", Future, cases.UK, cases.Plan{Disposition: "refer", Referral: &cases.Referral{To: "device_clinic"}, Record: []string{"site_photograph"}, FollowUpDays: milli(14000), Advice: []string{"bring_device_card"}}, "" +
			"I have asked nothing yet. I will refer him to the device clinic, to be seen within a time not decided. I will record a photograph of the site.\n" +
			"I will see him in 2 weeks. I will tell him about bringing the device card."},
		{"left alone", Future, cases.UK, cases.Plan{Asked: []string{"feel", "pinch", "magnify"}, Disposition: "leave", OtherCare: "wait_and_see", FollowUpDays: milli(1000)}, "" +
			"I have felt it, pinched it and magnified it. I will leave this lesion alone. Meanwhile I suggest that we wait and see.\n" +
			"I will see him in 1 day. What I will tell him: not decided."},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := &cases.Case{Patient: cases.Patient{Sex: "male", AgeYears: 68000, WeightKG: 84000}, Lesion: cases.Lesion{Site: "back"}}
			if got := wholeText(NoteOf(c, &test.plan, test.tense, test.words)); got != test.want {
				t.Errorf("the note reads\n%s\n\nand should read\n%s", got, test.want)
			}
		})
	}
}

var (
	twoSpaces = regexp.MustCompile(`  | [.,;:]|,,|\.\.|\( | \)`)
	oneStop   = regexp.MustCompile(`[^.]\.$`)
)

// The note of any plan holds each phrase once, and is clean prose.
func TestNotesHoldEveryPhraseOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, c := anyCase(t)
		p := anyPlan(t, c)
		for _, tense := range []Tense{Future, Past} {
			for _, words := range []cases.Words{cases.UK, cases.US} {
				note := NoteOf(c, p, tense, words)
				checkProse(t, note)
				checkKeys(t, c, p, note)
			}
		}
	})
}

func checkProse(t *rapid.T, note []Sentence) {
	for _, s := range note {
		text := PlainText(s.Text())
		if bad := twoSpaces.FindString(strings.ReplaceAll(text, "1 : ", "1:")); bad != "" {
			t.Fatalf("%q stands in %q", bad, text)
		}
		if !oneStop.MatchString(text) {
			t.Fatalf("%q does not end in one full stop", text)
		}
		if first := []rune(text)[0]; first < 'A' || first > 'Z' {
			t.Fatalf("%q does not begin with a capital letter", text)
		}
	}
}

// checkKeys holds the note against a list of keys made by other means: the
// keys that the decision uses by the rule tables, less those that technique
// and choices leave no room for.
func checkKeys(t *rapid.T, c *cases.Case, p *cases.Plan, note []Sentence) {
	seen := map[string]int{}
	heads := map[string]bool{}
	for _, ph := range Phrases(note) {
		seen[ph.ID]++
		heads[strings.SplitN(pathOf(ph.ID), ".", 2)[0]] = true
		if seen[ph.ID] > 1 {
			t.Fatalf("the phrase %q stands twice", ph.ID)
		}
	}
	if p.Disposition == "" {
		if len(heads) != 2 || !heads["asked"] || !heads["disposition"] {
			t.Fatalf("before the decision the note holds %v", heads)
		}
		return
	}
	for _, key := range tables.UsedKeys(p.Disposition) {
		if want := wanted(c, p, key); want != heads[key] {
			t.Fatalf("decision %s, technique %q: the key %s in the note: %v, should be %v", p.Disposition, p.Technique, key, heads[key], want)
		}
	}
	for head := range heads {
		if head != "disposition" && !tables.Uses(p.Disposition, head) {
			t.Fatalf("the note of %s holds %s, which that decision does not use", p.Disposition, head)
		}
	}
}

// The techniques that pass current through a tip held by hand, in the words of
// FORMATS.md: those that cut alone and those not simulated use none of its
// keys, bipolar and heat only some.
var (
	byTip  = []string{"electrodesiccation", "electrofulguration", "electrocoagulation", "curettage_desiccation", "shave_desiccation"}
	noTip  = []string{"bipolar_coagulation", "heat_cautery"}
	blades = []string{"curettage_desiccation", "shave_desiccation", "shave_excision", "snip_excision", "punch_biopsy", "fusiform_excision", "curettage"}
)

func wanted(c *cases.Case, p *cases.Plan, key string) bool {
	switch key {
	case "electrode", "activation_s", "cycles", "rim_mm":
		return slices.Contains(byTip, p.Technique) || slices.Contains(noTip, p.Technique)
	case "output", "contact":
		return slices.Contains(byTip, p.Technique)
	case "power_w":
		return slices.Contains(byTip, p.Technique) || p.Technique == "bipolar_coagulation"
	case "margin_mm":
		return p.MarginMM != nil || slices.Contains([]string{"shave_excision", "punch_biopsy", "fusiform_excision"}, p.Technique)
	case "evacuator_cm":
		return p.EvacuatorCM != nil || slices.Contains(p.Protection, "smoke_evacuator")
	case "blood_thinner":
		acts := p.Disposition == "treat" || p.Disposition == "biopsy_first"
		told := c.Patient.HasThinner() && slices.Contains(p.Asked, "blood_thinners")
		return p.BloodThinner != "" || told || acts && slices.Contains(blades, p.Technique)
	}
	return true
}

func TestDoseAsideIsArithmetic(t *testing.T) {
	for _, test := range []struct {
		percent, volume, weight int64
		want                    string
	}{
		{1000, 3000, 84000, "30 mg, 0.4 mg/kg"},
		{2000, 5000, 50000, "100 mg, 2.0 mg/kg"},
		{500, 100, 70000, "0.5 mg, 0.01 mg/kg"},
		{250, 1500, 12000, "3.8 mg, 0.3 mg/kg"}, // 3.75 mg, rounded half up
		{4000, 1700, 60000, "68 mg, 1.1 mg/kg"},
	} {
		c := &cases.Case{Patient: cases.Patient{WeightKG: cases.Milli(test.weight)}}
		got := PlainText(doseAside(c, cases.Injected{Percent: milli(test.percent), VolumeML: milli(test.volume)}))
		if got != test.want {
			t.Errorf("%d thousandths of a per cent, %d uL, %d g: %q, should be %q", test.percent, test.volume, test.weight, got, test.want)
		}
	}
}
