package cases

import "regexp"

// PackFormat names the format of a pack file.
const PackFormat = "leastwatt.pack/1"

var caseIDForm = regexp.MustCompile(`^[a-z0-9][a-z0-9_-]{0,63}/[A-Za-z0-9][A-Za-z0-9_-]{0,63}$`)

// Pack is the cases of one author with the author's local rules.
type Pack struct {
	Format     string      `json:"format" jsonschema:"required"`                               // leastwatt.pack/1
	ID         string      `json:"id" jsonschema:"required" form:"id"`                         // begins the name of every case
	Version    int         `json:"version" jsonschema:"required,minimum=0,maximum=1000000000"` // rises with each edition
	Title      string      `json:"title" jsonschema:"required"`                                // for supervisors
	Author     string      `json:"author" jsonschema:"required"`                               // a person or a clinic
	Language   string      `json:"language" jsonschema:"required"`                             // of the texts, for example en
	Licence    string      `json:"licence" jsonschema:"required"`                              // under which the pack may be passed on
	Note       string      `json:"note"`                                                       // for supervisors
	Labels     string      `json:"labels" vocab:"labels"`                                      // whose dose labels count: the pack's own choice
	LocalRules []LocalRule `json:"local_rules" jsonschema:"maximum=1000"`                      // your own rules for these cases
	Assessment *Assessment `json:"assessment"`                                                 // your own self-assessment
	Cases      []Case      `json:"cases" jsonschema:"required,maximum=5000"`                   // at least one
}

func (*Pack) knownFormat() string { return PackFormat }

// LocalRule is a supervisor's override of one rule for the pack's cases.
type LocalRule struct {
	Rule   string `json:"rule" jsonschema:"required" form:"id"`     // id of the rule, as the rules verb lists it
	Value  string `json:"value" jsonschema:"required" form:"value"` // in place of the rule's own value, written in the same way; a bare number where that holds one
	Reason string `json:"reason" jsonschema:"required"`             // shown with each finding it changes
	Author string `json:"author" jsonschema:"required"`             // who decided
	Date   string `json:"date" jsonschema:"required"`               // year-month-day
	Source string `json:"source"`                                   // absent means "local practice"
}

// Case is one invented patient with one lesion.
type Case struct {
	ID         string            `json:"id" jsonschema:"required" form:"id"`              // unique in the pack
	Title      string            `json:"title" jsonschema:"required"`                     // tells no diagnosis
	Level      int               `json:"level" jsonschema:"required,minimum=1,maximum=5"` // 1 is easiest, 5 hardest
	Patient    Patient           `json:"patient" jsonschema:"required"`
	Setting    Setting           `json:"setting"`
	Presenting string            `json:"presenting" jsonschema:"required"` // the patient's words
	Ask        map[string]string `json:"ask" vocab:"topic"`                // an author's answers by topic
	Lesion     Lesion            `json:"lesion" jsonschema:"required"`
	Truth      Truth             `json:"truth" jsonschema:"required"`
	Teaching   string            `json:"teaching" jsonschema:"required"` // told in the debrief
	Expect     []Expect          `json:"expect" jsonschema:"maximum=100"`
}

// Patient is who has come.
type Patient struct {
	AgeYears       Milli    `json:"age_years" jsonschema:"required,minimum=0,maximum=120"` // decimals allowed
	Sex            string   `json:"sex" jsonschema:"required" vocab:"sex"`
	WeightKG       Milli    `json:"weight_kg" jsonschema:"required,minimum=0.5,maximum=400"` // kg
	HeightCM       *Milli   `json:"height_cm" jsonschema:"minimum=30,maximum=250"`           // cm
	SkinType       int      `json:"skin_type" jsonschema:"required,minimum=1,maximum=6"`     // 1 palest to 6 darkest
	History        []string `json:"history" vocab:"history"`
	Medicines      []string `json:"medicines" vocab:"medicine"`
	Allergies      []string `json:"allergies" vocab:"allergy"`
	Devices        []Device `json:"devices" jsonschema:"maximum=20"`
	Pregnant       bool     `json:"pregnant"`
	GestationWeeks *Milli   `json:"gestation_weeks" jsonschema:"minimum=1,maximum=44"` // only with pregnant
	Breastfeeding  bool     `json:"breastfeeding"`
	INR            *Milli   `json:"inr" jsonschema:"minimum=0.5,maximum=15"` // last value
}

// Device is one implanted device. DistanceCM is from the lesion.
type Device struct {
	Kind       string `json:"kind" jsonschema:"required" vocab:"device"`
	Site       string `json:"site" vocab:"site"`                              // where it lies
	DistanceCM *Milli `json:"distance_cm" jsonschema:"minimum=0,maximum=150"` // cm from the lesion
}

// Setting is the room and what stands in it.
type Setting struct {
	OxygenRunning    bool  `json:"oxygen_running"`
	MetalTable       bool  `json:"metal_table"`                    // skin can touch bare metal
	SmokeEvacuator   bool  `json:"smoke_evacuator" default:"true"` // absent means true
	BipolarUnit      bool  `json:"bipolar_unit"`
	CauteryUnit      bool  `json:"cautery_unit"`
	PathologyService bool  `json:"pathology_service" default:"true"` // absent means true
	Unit             *Unit `json:"unit"`                             // when the case needs a special one
}

// Unit is the electrosurgical unit when a case needs a special one.
type Unit struct {
	Return string `json:"return" vocab:"return"`
	MaxW   *Milli `json:"max_w" jsonschema:"minimum=1,maximum=35"`   // highest dial setting in watts
	StepW  *Milli `json:"step_w" jsonschema:"minimum=0.1,maximum=5"` // step of the dial in watts
}

// Lesion is what is on the skin. Family is what truly is there; LooksLike,
// when given, is what a careful eye takes it for.
type Lesion struct {
	Family    string   `json:"family" jsonschema:"required" vocab:"family"` // what truly is there
	LooksLike string   `json:"looks_like" vocab:"family"`                   // what a careful eye takes it for, when that differs
	Site      string   `json:"site" jsonschema:"required" vocab:"site"`
	Side      string   `json:"side" vocab:"side"`
	WidthMM   Milli    `json:"width_mm" jsonschema:"required,minimum=0.1,maximum=200"` // mm, not wider than the site
	HeightMM  Milli    `json:"height_mm" jsonschema:"minimum=0,maximum=50"`            // mm above the skin
	DepthMM   Milli    `json:"depth_mm" jsonschema:"minimum=0,maximum=30"`             // mm below the skin
	Count     *Milli   `json:"count" jsonschema:"minimum=1,maximum=500,multipleOf=1"`  // how many there are; absent means 1
	Features  []string `json:"features" vocab:"feature"`
	Seed      int      `json:"seed" jsonschema:"minimum=0,maximum=1000000000"` // draws the same picture each time
	Report    *Report  `json:"report"`
}

// Report is what a pathologist said of an earlier specimen.
type Report struct {
	DaysAgo  Milli  `json:"days_ago" jsonschema:"required,minimum=0,maximum=36500,multipleOf=1"` // days
	Specimen string `json:"specimen" jsonschema:"required" vocab:"specimen_method"`
	Site     string `json:"site" jsonschema:"required" vocab:"site"`
	Side     string `json:"side" vocab:"side"`
	Says     string `json:"says" jsonschema:"required" vocab:"family"` // the family that the pathologist names
	Margins  string `json:"margins"`                                   // in words
}

// Truth is told in the debrief only.
type Truth struct {
	Diagnosis string `json:"diagnosis" jsonschema:"required"` // in words
	Histology string `json:"histology"`
}

// Expect is this author's judgement on one rule for one case.
type Expect struct {
	Rule   string `json:"rule" jsonschema:"required" form:"id"` // id of the rule
	Kind   string `json:"kind" vocab:"kind"`                    // in place of the kind of fault
	Value  string `json:"value" form:"value"`                   // in place of the rule's value
	Reason string `json:"reason" jsonschema:"required"`         // shown with the finding
}

// Counted is how many lesions there are: 1 when nothing is said.
func (l *Lesion) Counted() int {
	if l.Count == nil {
		return 1
	}
	return int(*l.Count / 1000)
}

// Looks is what a careful eye takes the lesion for.
func (l *Lesion) Looks() string {
	if l.LooksLike != "" {
		return l.LooksLike
	}
	return l.Family
}

// ReadPack reads a pack.json and checks what can be checked without rules.
// The sheet holds every fault and warning with its place; the pack is nil
// when it cannot be used at all.
func ReadPack(file string, data []byte) (*Pack, *Value, *Sheet) {
	s := &Sheet{File: file}
	tree, faults := ReadJSON(file, data)
	s.Faults = append(s.Faults, faults...)
	if tree == nil {
		return nil, nil, s
	}
	p := &Pack{}
	Decode(s, tree, p)
	checkPack(s, tree, p)
	s.Faults.Sort()
	s.Warnings.Sort()
	if len(s.Faults) > 0 {
		return nil, tree, s
	}
	return p, tree, s
}
