package cases

import "strings"

// fact is something a topic reveals: how an answer names it and the letters
// by which an author's own words are recognised as telling it.
type fact struct {
	label  string
	tokens []string
}

// exams are the topics that are examinations, with the features each shows.
var exams = map[string][]string{
	"feel":           {"indurated", "soft", "firm", "tender_base", "pearly", "stuck_on", "perilesional_scar"},
	"pinch":          {"dimples_when_pinched", "on_a_stalk"},
	"press_glass":    {"blanches"},
	"scrape":         {"warty", "horn_plugs"},
	"magnify":        {"asymmetric", "irregular_pigment", "many_colours", "ulcerated", "pearly", "branching_vessels", "umbilicated", "well_defined", "ill_defined", "horn_plugs", "perilesional_scar", "reaches_vermilion", "hair_bearing"},
	"dermoscope":     {"irregular_pigment", "many_colours", "asymmetric", "branching_vessels", "horn_plugs", "umbilicated", "pearly"},
	"look_elsewhere": {"solitary", "multiple", "unusually_large"},
	"feel_nodes":     {},
	"change":         {"recent_change", "recurrent"},
	"symptoms":       {"bleeding", "inflamed", "infected", "tender_base"},
	"healing":        {"irradiated"},
	"past_biopsy":    {"biopsied_shave", "biopsied_punch"},
	"expectations":   {"failed_first_line"},
}

// IsExam tells whether a topic is an examination rather than a question.
func IsExam(topic string) bool {
	switch topic {
	case "feel", "pinch", "press_glass", "scrape", "magnify", "dermoscope", "feel_nodes", "look_elsewhere":
		return true
	}
	return false
}

// Reveals lists the topics that show the feature.
func Reveals(feature string) []string {
	var topics []string
	for _, topic := range Vocab.IDs("topic") {
		if contains(exams[topic], feature) {
			topics = append(topics, topic)
		}
	}
	return topics
}

var thinners = []string{"warfarin", "direct_anticoagulant", "aspirin", "clopidogrel", "two_antiplatelets", "heparin"}

// historyTopic says which question brings out which illness.
func historyTopics(illness string) []string {
	switch illness {
	case "keloid":
		return []string{"keloids"}
	case "hiv", "hepatitis_b", "hepatitis_c":
		return []string{"viral_infection"}
	case "immune_suppressed":
		return []string{"immune", "illnesses"}
	case "diabetes", "poor_circulation", "raynaud":
		return []string{"healing", "illnesses"}
	}
	return []string{"illnesses"}
}

// factsOf lists what the case holds that the topic is there to reveal.
func factsOf(c *Case, topic string) []fact {
	var facts []fact
	add := func(table, id string, more ...string) {
		label := Vocab.Label(table, id, UK)
		facts = append(facts, fact{label, append(strings.Fields(strings.ToLower(label)), more...)})
	}
	switch topic {
	case "devices":
		for _, d := range c.Patient.Devices {
			add("device", d.Kind, "device", "implant", "box", "battery")
		}
	case "device_card":
		if len(c.Patient.Devices) > 0 {
			facts = append(facts, fact{"the implanted device", []string{"yes", "card", "device", "implant", "box", "battery"}})
		}
	case "blood_thinners":
		for _, m := range c.Patient.Medicines {
			if contains(thinners, m) {
				add("medicine", m, "thinner", "blood", "tablet")
			}
		}
		if inr := c.Patient.INR; inr != nil {
			facts = append(facts, fact{"the INR", []string{"inr", inr.Fixed(1)}})
		}
	case "medicines":
		for _, m := range c.Patient.Medicines {
			if !contains(thinners, m) {
				add("medicine", m, "blocker", "tablet")
			}
		}
	case "allergies":
		for _, a := range c.Patient.Allergies {
			add("allergy", a, "allerg", "rash", "react")
		}
	case "pregnancy":
		if c.Patient.Pregnant {
			facts = append(facts, fact{"pregnancy", []string{"pregnan", "weeks", "expecting", "baby"}})
		}
		if weeks := c.Patient.GestationWeeks; weeks != nil {
			facts = append(facts, fact{"the weeks of pregnancy", []string{"week", "month", weeks.String() + " "}})
		}
		if c.Patient.Breastfeeding {
			facts = append(facts, fact{"breastfeeding", []string{"breast", "feeding", "nursing"}})
		}
	case "biopsy_report", "past_biopsy":
		if c.Lesion.Report != nil {
			facts = append(facts, fact{"the report", []string{"report", "biops", "sample", "pathol", "result", "said", Vocab.Label("family", c.Lesion.Report.Says, UK)}})
		}
	case "oxygen":
		if c.Setting.OxygenRunning {
			facts = append(facts, fact{"the running oxygen", []string{"oxygen", "on ", "running", "litre", "liter", "nose"}})
		}
	case "metal":
		if c.Setting.MetalTable {
			facts = append(facts, fact{"the metal table", []string{"metal", "steel", "rail"}})
		}
	}
	if topic == "kit" {
		facts = append(facts, kitFacts(&c.Setting)...)
	}
	for _, h := range c.Patient.History {
		if contains(historyTopics(h), topic) {
			add("history", h)
		}
	}
	for _, f := range c.Lesion.Features {
		if contains(exams[topic], f) {
			add("feature", f)
		}
	}
	return facts
}

// kitFacts are what the room has or lacks against what every room is taken to
// have.
func kitFacts(s *Setting) []fact {
	var facts []fact
	for _, k := range []struct {
		there bool
		fact
	}{
		{s.Unit != nil, fact{"the special unit", []string{"unit", "plate", "watt", "single"}}},
		{s.BipolarUnit, fact{"the bipolar forceps", []string{"bipolar", "forceps"}}},
		{s.CauteryUnit, fact{"the heat cautery", []string{"cautery"}}},
		{!s.SmokeEvacuator, fact{"the missing smoke evacuator", []string{"smoke", "evacuator", "suction", "extractor"}}},
		{!s.PathologyService, fact{"the missing pathology service", []string{"pathology", "laboratory", "courier", "specimen"}}},
	} {
		if k.there {
			facts = append(facts, k.fact)
		}
	}
	return facts
}

// tells says whether words hold any of the tokens; a token is matched by its
// first five letters, so that "bleeds" tells of "bleeding".
func tells(words string, tokens []string) bool {
	words = strings.ToLower(words)
	for _, t := range tokens {
		t = strings.ToLower(t)
		if runes := []rune(t); len(runes) > 5 && !strings.Contains(t, " ") {
			t = string(runes[:5])
		}
		if len(t) > 2 && strings.Contains(words, t) {
			return true
		}
	}
	return false
}
