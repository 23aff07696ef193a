package cases

import (
	"fmt"
	"strings"
	"testing"
)

func readPack(text string) (*Pack, *Sheet) {
	p, _, s := ReadPack("pack.json", []byte(text))
	return p, s
}

func TestReadPack(t *testing.T) {
	p, s := readPack(samplePack)
	if p == nil || len(s.Faults)+len(s.Warnings) > 0 {
		t.Fatalf("the sample is not clean: %v %v", s.Faults, s.Warnings)
	}
	c := p.Cases[0]
	if p.Version != 3 || c.Patient.AgeYears != 44500 || c.Lesion.WidthMM != 3000 || c.Lesion.Seed != 7 || c.Lesion.Counted() != 1 || c.Lesion.Looks() != "cherry_angioma" {
		t.Errorf("read as %+v", c)
	}
	set := c.Setting
	if !set.PathologyService || !set.SmokeEvacuator || !set.MetalTable || set.OxygenRunning || set.BipolarUnit || set.CauteryUnit || set.Unit != nil {
		t.Errorf("settings: %+v", set)
	}
	p, _ = readPack(replaced(`"setting": {"metal_table": true},`, ""))
	if set := p.Cases[0].Setting; !set.PathologyService || !set.SmokeEvacuator || set.MetalTable {
		t.Errorf("without a setting: %+v", set)
	}
	p, _ = readPack(replaced(`"metal_table": true`, `"metal_table": true, "pathology_service": false, "smoke_evacuator": false`))
	if set := p.Cases[0].Setting; set.PathologyService || set.SmokeEvacuator {
		t.Errorf("switched off: %+v", set)
	}
}

// withAssessment is the sample pack with a self-assessment of its own.
func withAssessment(keys string) string {
	return replaced(`"cases":`, `"assessment": {`+keys+`}, "cases":`)
}

// badPacks are the sample pack with one piece replaced.
var badPacks = []badSample{
	{"levels the wrong way round", withAssessment(`"kinds": [{"count": 1, "families": ["milia"], "level_min": 3, "level_max": «2}]`), "level_max is 2 and level_min 3; it must be at least as high"},
	{"too long a run", withAssessment(`"kinds": «[{"count": 40, "families": ["milia"], "level_min": 1, "level_max": 2}, {"count": 21, "families": ["milia"], "level_min": 1, "level_max": 2}]`), "a run would have 61 cases; the most is 60"},
	{"no kind of case", withAssessment(`"kinds": «[]`), "there is no kind of case; give at least one"},
	{"no family", withAssessment(`"kinds": [{"count": 1, "families": «[], "level_min": 1, "level_max": 2}]`), "there is no family to draw from; give at least one"},
	{"two standards", withAssessment(`"kinds": [{"count": 1, "families": ["milia"], "level_min": 1, "level_max": 2}], "standards": [{"domain": "room", "least": 0.9, "reason": "a"}, {"domain": «"room", "least": 0.8, "reason": "b"}]`), `"room" has a standard already; give each domain one`},
	{"unknown family", replaced(`"family": "cherry_angioma"`, `"family": «"chery_angioma"`), `unknown family "chery_angioma" in "cases[0].lesion.family"; did you mean "cherry_angioma"?`},
	{"unknown site", replaced(`"site": "chest"`, `"site": «"chests"`), `did you mean "chest"?`},
	{"700 kg", replaced(`"weight_kg": 70`, `"weight_kg": «700`), `"cases[0].patient.weight_kg" is 700; it must be from 0.5 to 400; the nearest is 400`},
	{"negative weight", replaced(`"weight_kg": 70`, `"weight_kg": «-70`), `the nearest is 0.5`},
	{"age", replaced(`"age_years": 44.5`, `"age_years": «121`), `it must be from 0 to 120`},
	{"skin type", replaced(`"skin_type": 2`, `"skin_type": «7`), `it must be from 1 to 6; the nearest is 6`},
	{"half a skin type", replaced(`"skin_type": 2`, `"skin_type": «2.5`), `it goes in steps of 1; it must be from 1 to 6; the nearest is 3`},
	{"level", replaced(`"level": 1`, `"level": «6`), `it must be from 1 to 5`},
	{"height", replaced(`"sex"`, `"height_cm": «251, "sex"`), `it must be from 30 to 250`},
	{"inr", replaced(`"sex"`, `"medicines": ["warfarin"], "inr": «15.5, "sex"`), `it must be from 0.5 to 15`},
	{"lesion height", replaced(`"height_mm": 1`, `"height_mm": «50.5`), `it must be from 0 to 50`},
	{"lesion depth", replaced(`"depth_mm": 1`, `"depth_mm": «31`), `it must be from 0 to 30`},
	{"lesion width", replaced(`"width_mm": 3`, `"width_mm": «0.05`), `it must be from 0.1 to 200`},
	{"count", replaced(`"seed": 7`, `"seed": 7, "count": «501`), `it must be from 1 to 500`},
	{"half a count", replaced(`"seed": 7`, `"seed": 7, "count": «1.5`), `it goes in steps of 1`},
	{"device distance", replaced(`"sex"`, `"devices": [{"kind": "pacemaker", "distance_cm": «151}], "sex"`), `"cases[0].patient.devices[0].distance_cm" is 151; it must be from 0 to 150`},
	{"device without kind", replaced(`"sex"`, `"devices": [«{}], "sex"`), `the key "cases[0].patient.devices[0].kind" is missing`},
	{"unit power", replaced(`"metal_table": true`, `"metal_table": true, "unit": {"max_w": «36}`), `it must be from 1 to 35`},
	{"unit step", replaced(`"metal_table": true`, `"metal_table": true, "unit": {"max_w": 2, "step_w": «3}`), `larger than "max_w"`},
	{"wider than the site", replaced(`"site": "chest", "width_mm": 3`, `"site": "nose", "width_mm": «45`), `"lesion.width_mm" is 45, wider than the nose; at most 40 fits there`},
	{"gestation without pregnancy", replaced(`"sex"`, `"gestation_weeks": «20, "sex"`), `"pregnant" is not true`},
	{"pregnant male", replaced(`"sex": "female"`, `"sex": "male", "pregnant": «true`), `true for a male patient`},
	{"unknown topic", replaced(`"metal": "The couch has a steel rail."`, `«"metals": "The couch has a steel rail."`), `unknown word "metals" as key of "cases[0].ask"; did you mean "metal"?`},
	{"answer that is no text", replaced(`"metal": "The couch has a steel rail."`, `"metal": «["rail"]`), `"cases[0].ask.metal" must be text, not a list`},
	{"case id", replaced(`"id": "ladder"`, `"id": «"Ladder"`), `"cases[0].id" must be an id of small letters, digits, _ and -, at most 64, not "Ladder"`},
	{"long id", replaced(`"id": "ladder"`, `"id": «"`+strings.Repeat("a", 65)+`"`), `must be an id`},
	{"id with a slash", replaced(`"id": "sample"`, `"id": «"a/b"`), `must be an id`},
	{"id begins with a dash", replaced(`"id": "sample"`, `"id": «"-a"`), `must be an id`},
	{"empty title", replaced(`"title": "A red spot on the chest"`, `"title": «""`), `"cases[0].title" may not be empty`},
	{"blank words", replaced(`"presenting": "It bled when I caught it."`, `"presenting": «"  "`), `may not be empty`},
	{"no diagnosis", replaced(`{"diagnosis": "cherry angioma"}`, `«{"histology": "x"}`), `the key "cases[0].truth.diagnosis" is missing`},
	{"unknown key of a patient", replaced(`"sex"`, `«"weight": 3, "sex"`), `unknown key "cases[0].patient.weight"; did you mean "weight_kg"? (this reads the format leastwatt.pack/1)`},
	{"other format", replaced(`"leastwatt.pack/1"`, `«"leastwatt.pack/2"`), `"format" is "leastwatt.pack/2"; this reads "leastwatt.pack/1"`},
	{"version", replaced(`"version": 3`, `"version": «3.5`), `"version" is 3.5; it goes in steps of 1`},
	{"version as text", replaced(`"version": 3`, `"version": «"3"`), `must be a number, not text`},
	{"labels", replaced(`"version": 3`, `"version": 3, "labels": «"eu"`), `unknown label set "eu"`},
	{"date", replaced(`"version": 3`, `"version": 3, "local_rules": [{"rule": "a", "value": "1", "reason": "r", "author": "a", "date": «"25.11.2026"}]`), `write it like 2026-11-25`},
	{"day that is none", replaced(`"version": 3`, `"version": 3, "local_rules": [{"rule": "a", "value": "1", "reason": "r", "author": "a", "date": «"2026-02-30"}]`), `write it like 2026-11-25`},
	{"local rule without a reason", replaced(`"version": 3`, `"version": 3, "local_rules": [«{"rule": "a", "value": "1", "author": "a", "date": "2026-02-03"}]`), `"local_rules[0].reason" is missing`},
	{"kind of a judgement", replaced(`"teaching"`, `"expect": [{"rule": "a", "kind": «"fatal", "reason": "r"}], "teaching"`), `unknown kind "fatal"`},
	{"report without a family", replaced(`"seed": 7`, `"seed": 7, "report": «{"days_ago": 3, "specimen": "shave", "site": "chest"}`), `"cases[0].lesion.report.says" is missing`},
	{"history twice", replaced(`"sex"`, `"history": ["hiv", «"hiv"], "sex"`), `"hiv" stands twice in "cases[0].patient.history"`},
}

func TestPackFaults(t *testing.T) {
	for _, test := range badPacks {
		t.Run(test.name, func(t *testing.T) {
			text, line, column := unmark(t, test.text)
			p, s := readPack(text)
			if p != nil {
				t.Error("a faulty pack was returned")
			}
			wantFault(t, s.Faults, line, column, test.words)
		})
	}
}

func TestPackNeedsACase(t *testing.T) {
	begin, end := strings.Index(samplePack, "[\n"), strings.LastIndex(samplePack, "]")
	text, line, column := unmark(t, samplePack[:begin]+"«[]"+samplePack[end+1:])
	_, s := readPack(text)
	wantFault(t, s.Faults, line, column, "at least one case")

	one := samplePack[begin+1 : end]
	many := strings.Repeat(one+",", 5000) + one
	text, line, column = unmark(t, samplePack[:begin]+"«["+many+samplePack[end:])
	_, s = readPack(text)
	wantFault(t, s.Faults, line, column, `"cases" holds 5001 entries; at most 5000 are read`)

	text, line, column = unmark(t, samplePack[:begin]+"["+one+","+strings.Replace(one, `"ladder"`, `«"ladder"`, 1)+samplePack[end:])
	_, s = readPack(text)
	wantFault(t, s.Faults, line, column, `the case id "ladder" stands twice; the first is at line 11`)
}

func TestFiveThousandCasesAreRead(t *testing.T) {
	begin, end := strings.Index(samplePack, "[\n"), strings.LastIndex(samplePack, "]")
	var b strings.Builder
	for i := range 5000 {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(strings.Replace(samplePack[begin+1:end], `"ladder"`, fmt.Sprintf("\"case-%d\"", i), 1))
	}
	p, s := readPack(samplePack[:begin+1] + b.String() + samplePack[end:])
	if p == nil || len(p.Cases) != 5000 {
		t.Fatalf("%v", s.Faults[0])
	}
}

func TestLocalRuleValueMayBeANumber(t *testing.T) {
	p, s := readPack(replaced(`"version": 3`, `"version": 0, "local_rules": [{"rule": "a", "value": 90.5, "reason": "r", "author": "a", "date": "2026-02-03"}]`))
	if p == nil || p.LocalRules[0].Value != "90.5" {
		t.Fatal(s.Faults)
	}
}

func TestPackWarnings(t *testing.T) {
	patient := func(more string) string {
		return strings.Replace(samplePack, `"sex"`, more+`, "sex"`, 1)
	}
	answer := func(patientMore, topic, words string) string {
		return strings.Replace(patient(patientMore), `"ask": {`, `"ask": {"`+topic+`": «"`+words+`", `, 1)
	}
	for _, test := range []struct{ name, text, words string }{
		{"title that tells", replaced(`"A red spot on the chest"`, `«"A Cherry Angioma on the chest"`), `"title" names the cherry angioma; a title tells no diagnosis`},
		{"title that tells in American", strings.Replace(replaced(`"A red spot on the chest"`, `«"A seborrheic keratosis"`), `"family": "cherry_angioma"`, `"family": "seborrhoeic_keratosis"`, 1), `"title" names the seborrheic keratosis`},
		{"title that tells the look-alike", strings.Replace(replaced(`"A red spot on the chest"`, `«"A venous lake?"`), `"family": "cherry_angioma"`, `"family": "cherry_angioma", "looks_like": "venous_lake"`, 1), `"title" names the venous lake`},
		{"title that tells the truth", strings.Replace(replaced(`"A red spot on the chest"`, `«"De Morgan spot"`), `"diagnosis": "cherry angioma"`, `"diagnosis": "De Morgan spot"`, 1), `"title" names the de morgan spot`},
		{"metal", replaced(`"metal": "The couch has a steel rail."`, `"metal": «"All is padded."`), `the answer to "metal" does not tell of the metal table, which the case holds; a trainee cannot know it`},
		{"device", answer(`"devices": [{"kind": "pacemaker"}]`, "devices", "None that I know."), `does not tell of pacemaker`},
		{"device card", answer(`"devices": [{"kind": "pacemaker"}]`, "device_card", "No."), `does not tell of the implanted device`},
		{"thinner", answer(`"medicines": ["warfarin"]`, "blood_thinners", "No."), `does not tell of warfarin`},
		{"inr", answer(`"medicines": ["warfarin"], "inr": 2.8`, "blood_thinners", "Warfarin."), `does not tell of the INR`},
		{"medicine", answer(`"medicines": ["steroid"]`, "medicines", "No."), `does not tell of steroid`},
		{"allergy", answer(`"allergies": ["latex"]`, "allergies", "No."), `does not tell of latex`},
		{"pregnancy", answer(`"pregnant": true`, "pregnancy", "No."), `does not tell of pregnancy`},
		{"weeks", answer(`"pregnant": true, "gestation_weeks": 20`, "pregnancy", "I am expecting."), `does not tell of the weeks of pregnancy`},
		{"breastfeeding", answer(`"breastfeeding": true`, "pregnancy", "No."), `does not tell of breastfeeding`},
		{"keloid", answer(`"history": ["keloid"]`, "keloids", "No."), `does not tell of keloid`},
		{"virus", answer(`"history": ["hiv"]`, "viral_infection", "No."), `does not tell of HIV`},
		{"illness", answer(`"history": ["epilepsy"]`, "illnesses", "No."), `does not tell of epilepsy`},
		{"oxygen", strings.Replace(replaced(`"metal_table": true`, `"metal_table": true, "oxygen_running": true`), `"ask": {`, `"ask": {"oxygen": «"No.", `, 1), `does not tell of the running oxygen`},
		{"cautery", strings.Replace(replaced(`"metal_table": true`, `"metal_table": true, "cautery_unit": true`), `"ask": {`, `"ask": {"kit": «"A trolley.", `, 1), `does not tell of the heat cautery`},
		{"no evacuator", strings.Replace(replaced(`"metal_table": true`, `"metal_table": true, "smoke_evacuator": false`), `"ask": {`, `"ask": {"kit": «"A trolley.", `, 1), `does not tell of the missing smoke evacuator`},
		{"feature", strings.Replace(replaced(`"seed": 7`, `"seed": 7, "features": ["indurated"]`), `"ask": {`, `"ask": {"feel": «"Nothing.", `, 1), `does not tell of indurated`},
		{"inr without warfarin", patient(`"inr": «2`), `"medicines" holds no warfarin`},
		{"light adult", replaced(`"weight_kg": 70`, `"weight_kg": «7`), `is 7 for an adult; is that meant?`},
	} {
		t.Run(test.name, func(t *testing.T) {
			text, line, column := unmark(t, test.text)
			p, s := readPack(text)
			if p == nil {
				t.Fatal(s.Faults)
			}
			wantFault(t, s.Warnings, line, column, test.words)
		})
	}
}

// An answer that tells its facts in other words brings no warning.
func TestAnswersThatTell(t *testing.T) {
	for _, test := range []struct{ facts, topic, words string }{
		{`"devices": [{"kind": "pacemaker"}]`, "devices", "They put a box in my chest."},
		{`"devices": [{"kind": "pacemaker"}]`, "device_card", "Yes, it is in my purse."},
		{`"medicines": ["warfarin"], "inr": 2.8`, "blood_thinners", "Warfarin. It was 2.8 last week."},
		{`"pregnant": true, "gestation_weeks": 20`, "pregnancy", "I am expecting, five months gone."},
		{`"history": ["bleeding_tendency"]`, "illnesses", "It bleeds for long when I cut myself."},
	} {
		text := strings.Replace(samplePack, `"sex"`, test.facts+`, "sex"`, 1)
		text = strings.Replace(text, `"ask": {`, `"ask": {"`+test.topic+`": "`+test.words+`", `, 1)
		if p, s := readPack(text); p == nil || len(s.Warnings) > 0 {
			t.Errorf("%s: %v %v", test.words, s.Faults, s.Warnings)
		}
	}
}

// Every fact that a case can hold is told by some topic, whether the answer
// is composed or an author's.
func TestComposedAnswersTellEveryFact(t *testing.T) {
	text := strings.Replace(samplePack, `"sex"`, `"history": ["keloid", "hiv", "diabetes", "dementia"], "medicines": ["warfarin", "steroid"], "allergies": ["latex"], "inr": 2.8, `+
		`"devices": [{"kind": "pump", "site": "abdomen", "distance_cm": 20}], "pregnant": true, "gestation_weeks": 20, "breastfeeding": true, "sex"`, 1)
	text = strings.Replace(text, `"metal_table": true`, `"metal_table": true, "oxygen_running": true, "bipolar_unit": true, "cautery_unit": true, "smoke_evacuator": false, "pathology_service": false, "unit": {"return": "plate", "max_w": 30}`, 1)
	text = strings.Replace(text, `"seed": 7`, `"seed": 7, "features": ["`+strings.Join(Vocab.IDs("feature"), `","`)+`"], "report": {"days_ago": 20, "specimen": "shave", "site": "chest", "says": "bcc_nodular"}`, 1)
	p, s := readPack(strings.Replace(text, `"metal": "The couch has a steel rail."`, "", 1))
	if p == nil {
		t.Fatal(s.Faults)
	}
	for _, topic := range Vocab.IDs("topic") {
		answer := AnswerFor(&p.Cases[0], topic, UK).Text
		for _, fact := range factsOf(&p.Cases[0], topic) {
			if !tells(answer, fact.tokens) {
				t.Errorf("%s: %q does not tell of %s", topic, answer, fact.label)
			}
		}
	}
}
