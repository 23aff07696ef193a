package cases

import (
	"fmt"
	"strings"
)

// Answer is what asking a topic, or making an examination, brings.
type Answer struct {
	Topic  string
	Exam   bool   // an examination's finding rather than speech
	Text   string // plain sentences
	Author bool   // the author's own words
}

// AnswerFor gives the author's words for the topic, or an answer composed
// from the facts of the case.
func AnswerFor(c *Case, topic string, words Words) Answer {
	a := Answer{Topic: topic, Exam: IsExam(topic)}
	if text, ok := c.Ask[topic]; ok {
		a.Text, a.Author = Spell(text, words), true
		return a
	}
	a.Text = Spell(speech(c, topic), words)
	return a
}

// nothing is what is said or found when the case holds nothing on a topic.
var nothing = map[string]string{
	"devices":         "No, nothing put in.",
	"device_card":     "I have no such card.",
	"blood_thinners":  "No, nothing that thins the blood.",
	"allergies":       "None that I know of.",
	"keloids":         "My scars heal flat.",
	"viral_infection": "No, nothing like that.",
	"past_biopsy":     "No, nobody has taken a piece of it.",
	"biopsy_report":   "There is no report of this spot.",
	"change":          "It has been much the same for a long time.",
	"symptoms":        "It does not hurt, itch or bleed.",
	"healing":         "I heal well enough.",
	"immune":          "No, nothing wrong with my defences.",
	"oxygen":          "No oxygen is running.",
	"metal":           "The couch is padded. Nothing metal touches the patient.",
	"expectations":    "I would like to know what it is, and whether it needs doing.",
	"illnesses":       "I have been well.",
	"medicines":       "Nothing regular.",
	"faints":          "No, I do not faint.",
	"feel":            "It feels like the skin around it.",
	"pinch":           "Nothing dimples when you pinch it.",
	"press_glass":     "The redness around it pales under glass. The lesion itself keeps its look.",
	"scrape":          "Nothing lifts when you scrape it.",
	"magnify":         "Magnified, nothing more shows.",
	"dermoscope":      "No worrying pattern shows.",
	"feel_nodes":      "No enlarged nodes.",
	"look_elsewhere":  "Nothing like it is seen elsewhere.",
}

func speech(c *Case, topic string) string {
	p := &c.Patient
	switch topic {
	case "devices":
		return devicesText(p.Devices)
	case "device_card":
		if len(p.Devices) > 0 {
			return "Yes, I carry the card for it."
		}
	case "blood_thinners":
		return thinnersText(p)
	case "medicines":
		return takenText(p.Medicines)
	case "allergies":
		if len(p.Allergies) > 0 {
			return "Yes: " + labels("allergy", p.Allergies) + "."
		}
	case "pregnancy":
		return pregnancyText(p)
	case "past_biopsy":
		if c.Lesion.Report != nil {
			return strings.Join(append([]string{reportText(c, topic)}, told(c, topic)...), " ")
		}
	case "biopsy_report":
		if c.Lesion.Report != nil {
			return reportText(c, topic)
		}
	case "oxygen":
		if c.Setting.OxygenRunning {
			return "Oxygen is running through a tube under the nose."
		}
	case "metal":
		if c.Setting.MetalTable {
			return "The couch has bare metal rails that skin can touch."
		}
	case "kit":
		return kitText(&c.Setting)
	case "hold_still", "who_decides":
		return ageText(p, topic)
	}
	if facts := told(c, topic); len(facts) > 0 {
		return strings.Join(facts, " ")
	}
	return nothing[topic]
}

// told says what illnesses and features the topic brings out.
func told(c *Case, topic string) []string {
	var told []string
	for _, h := range c.Patient.History {
		if contains(historyTopics(h), topic) {
			told = append(told, historySpeech(h))
		}
	}
	for _, f := range c.Lesion.Features {
		if contains(exams[topic], f) {
			told = append(told, featureText[f])
		}
	}
	return told
}

func historySpeech(illness string) string {
	switch illness {
	case "keloid":
		return "Yes, I make thick raised scars, keloid scars."
	case "immune_suppressed":
		return "Yes, my immune system is held down by treatment: I am immune suppressed."
	case "bleeding_tendency":
		return "I have a bleeding tendency; small cuts take a long time."
	}
	return "I have been told of " + Vocab.Label("history", illness, UK) + "."
}

// featureText is how each feature is told, by the patient or by the eye.
var featureText = map[string]string{
	"irregular_pigment":    "The pigment is irregular.",
	"asymmetric":           "The two halves differ: it is asymmetric.",
	"many_colours":         "It holds many colours.",
	"recent_change":        "It is a recent change: it has grown or altered within months.",
	"bleeding":             "It keeps bleeding.",
	"ulcerated":            "The surface is ulcerated.",
	"pearly":               "It has a pearly, see-through edge.",
	"branching_vessels":    "Branching vessels run across it.",
	"indurated":            "The base is indurated: thick and hard.",
	"tender_base":          "It is tender at its base.",
	"stuck_on":             "It sits on the skin as if stuck on.",
	"horn_plugs":           "Small horn plugs dot the surface.",
	"warty":                "The surface is warty and crumbles.",
	"umbilicated":          "It has a small dell in the middle: it is umbilicated.",
	"on_a_stalk":           "It hangs on a stalk.",
	"soft":                 "It is soft.",
	"firm":                 "It is firm.",
	"dimples_when_pinched": "It dimples when pinched.",
	"blanches":             "It blanches under glass.",
	"inflamed":             "It is sore and inflamed.",
	"infected":             "It is infected: hot, swollen and weeping.",
	"recurrent":            "It came back after earlier treatment: it is recurrent.",
	"biopsied_shave":       "A shave biopsy was taken from it.",
	"biopsied_punch":       "A punch biopsy was taken from it.",
	"perilesional_scar":    "A scar lies beside it.",
	"reaches_vermilion":    "It reaches the vermilion, the red of the lip.",
	"hair_bearing":         "Terminal hair grows here: the skin is hair bearing.",
	"unusually_large":      "It is unusually large for its kind.",
	"well_defined":         "Its edge is well defined.",
	"ill_defined":          "Its edge is ill defined.",
	"irradiated":           "This skin was irradiated years ago.",
	"solitary":             "It is solitary: there is no other like it.",
	"multiple":             "There are multiple others like it.",
	"failed_first_line":    "The usual first treatment has failed.",
}

func devicesText(devices []Device) string {
	if len(devices) == 0 {
		return nothing["devices"]
	}
	var parts []string
	for _, d := range devices {
		text := "a " + Vocab.Label("device", d.Kind, UK)
		if d.Site != "" {
			text += " in the " + Vocab.Label("site", d.Site, UK)
		}
		if d.DistanceCM != nil {
			text += fmt.Sprintf(", about %s cm from this spot", d.DistanceCM)
		}
		parts = append(parts, text)
	}
	return "Yes, I have " + strings.Join(parts, " and ") + "."
}

func thinnersText(p *Patient) string {
	var taken []string
	for _, m := range p.Medicines {
		if contains(thinners, m) {
			taken = append(taken, m)
		}
	}
	if len(taken) == 0 {
		return nothing["blood_thinners"]
	}
	text := "Yes, I take " + labels("medicine", taken) + "."
	if p.INR != nil {
		text += fmt.Sprintf(" My last INR was %s.", p.INR.Fixed(1))
	}
	return text
}

func takenText(medicines []string) string {
	var taken []string
	for _, m := range medicines {
		if !contains(thinners, m) {
			taken = append(taken, m)
		}
	}
	if len(taken) == 0 {
		return nothing["medicines"]
	}
	return "I take " + labels("medicine", taken) + "."
}

func pregnancyText(p *Patient) string {
	var told []string
	switch {
	case p.Pregnant && p.GestationWeeks != nil:
		told = append(told, fmt.Sprintf("I am pregnant, %s weeks.", p.GestationWeeks))
	case p.Pregnant:
		told = append(told, "I am pregnant.")
	}
	if p.Breastfeeding {
		told = append(told, "I am breastfeeding.")
	}
	if len(told) == 0 {
		return "No."
	}
	return strings.Join(told, " ")
}

func reportText(c *Case, topic string) string {
	r := c.Lesion.Report
	place := Place(r.Site, r.Side, UK)
	when := fmt.Sprintf("%s days ago", r.DaysAgo)
	if topic == "past_biopsy" {
		return fmt.Sprintf("Yes, a sample was taken from the %s %s. There is a report.", place, when)
	}
	text := fmt.Sprintf("Report, %s, %s from the %s: %s.", when, Vocab.Label("specimen_method", r.Specimen, UK), place, Vocab.Label("family", r.Says, UK))
	if r.Margins != "" {
		text += " " + strings.TrimRight(r.Margins, ".") + "."
	}
	return text
}

func kitText(s *Setting) string {
	unit := "a low-power unit without a return plate"
	if s.Unit != nil {
		if s.Unit.Return == "plate" {
			unit = "a unit with a return plate"
		}
		if s.Unit.MaxW != nil {
			unit += fmt.Sprintf(", up to %s W", s.Unit.MaxW)
		}
	}
	have := []string{unit}
	for _, k := range []struct {
		there bool
		name  string
	}{{s.BipolarUnit, "bipolar forceps"}, {s.CauteryUnit, "a heat cautery"}, {s.SmokeEvacuator, "a smoke evacuator"}} {
		if k.there {
			have = append(have, k.name)
		}
	}
	text := "The room has " + joinAnd(have) + "."
	if !s.SmokeEvacuator {
		text += " There is no smoke evacuator."
	}
	if !s.PathologyService {
		text += " No pathology service collects from here."
	}
	return text
}

func ageText(p *Patient, topic string) string {
	switch {
	case topic == "who_decides" && contains(p.History, "dementia"):
		return "My daughter speaks for me now. There is dementia, and I mix things up."
	case topic == "who_decides" && p.AgeYears < 16000:
		return "The parent who has come with the child decides."
	case topic == "who_decides":
		return "I decide for myself."
	case p.AgeYears < 8000:
		return "Only for a moment, and not if it hurts."
	}
	return "Yes, I can hold still."
}

func labels(table string, ids []string) string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = Vocab.Label(table, id, UK)
	}
	return joinAnd(names)
}

// joinAnd writes a list as a sentence does: a, b and c.
func joinAnd(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
