package cases

import "regexp"

// PackFormat names the format of a pack file.
const PackFormat = "leastwatt.pack/1"

var caseIDForm = regexp.MustCompile(`^[a-z0-9][a-z0-9_-]{0,63}/[A-Za-z0-9][A-Za-z0-9_-]{0,63}$`)

// Pack is the cases of one author with the author's local rules.
type Pack struct {
	Format     string      `json:"format" jsonschema:"required"`
	ID         string      `json:"id" jsonschema:"required" form:"id"`
	Version    int         `json:"version" jsonschema:"required,minimum=0,maximum=1000000000"`
	Title      string      `json:"title" jsonschema:"required"`
	Author     string      `json:"author" jsonschema:"required"`
	Language   string      `json:"language" jsonschema:"required"`
	Licence    string      `json:"licence" jsonschema:"required"`
	Note       string      `json:"note"`
	Labels     string      `json:"labels" vocab:"labels"`
	LocalRules []LocalRule `json:"local_rules" jsonschema:"maximum=1000"`
	Cases      []Case      `json:"cases" jsonschema:"required,maximum=5000"`
}

func (*Pack) knownFormat() string { return PackFormat }

// LocalRule is a supervisor's override of one rule for the pack's cases.
type LocalRule struct {
	Rule   string `json:"rule" jsonschema:"required" form:"id"`
	Value  string `json:"value" jsonschema:"required" form:"value"`
	Reason string `json:"reason" jsonschema:"required"`
	Author string `json:"author" jsonschema:"required"`
	Date   string `json:"date" jsonschema:"required"`
	Source string `json:"source"` // absent means "local practice"
}

// Case is one invented patient with one lesion.
type Case struct {
	ID         string            `json:"id" jsonschema:"required" form:"id"`
	Title      string            `json:"title" jsonschema:"required"` // tells no diagnosis
	Level      int               `json:"level" jsonschema:"required,minimum=1,maximum=5"`
	Patient    Patient           `json:"patient" jsonschema:"required"`
	Setting    Setting           `json:"setting"`
	Presenting string            `json:"presenting" jsonschema:"required"` // the patient's words
	Ask        map[string]string `json:"ask" vocab:"topic"`                // an author's answers by topic
	Lesion     Lesion            `json:"lesion" jsonschema:"required"`
	Truth      Truth             `json:"truth" jsonschema:"required"`
	Teaching   string            `json:"teaching" jsonschema:"required"`
	Expect     []Expect          `json:"expect" jsonschema:"maximum=100"`
}

// Patient is who has come.
type Patient struct {
	AgeYears       Milli    `json:"age_years" jsonschema:"required,minimum=0,maximum=120"`
	Sex            string   `json:"sex" jsonschema:"required" vocab:"sex"`
	WeightKG       Milli    `json:"weight_kg" jsonschema:"required,minimum=0.5,maximum=400"`
	HeightCM       *Milli   `json:"height_cm" jsonschema:"minimum=30,maximum=250"`
	SkinType       int      `json:"skin_type" jsonschema:"required,minimum=1,maximum=6"`
	History        []string `json:"history" vocab:"history"`
	Medicines      []string `json:"medicines" vocab:"medicine"`
	Allergies      []string `json:"allergies" vocab:"allergy"`
	Devices        []Device `json:"devices" jsonschema:"maximum=20"`
	Pregnant       bool     `json:"pregnant"`
	GestationWeeks *Milli   `json:"gestation_weeks" jsonschema:"minimum=1,maximum=44"`
	Breastfeeding  bool     `json:"breastfeeding"`
	INR            *Milli   `json:"inr" jsonschema:"minimum=0.5,maximum=15"`
}

// Device is one implanted device. DistanceCM is from the lesion.
type Device struct {
	Kind       string `json:"kind" jsonschema:"required" vocab:"device"`
	Site       string `json:"site" vocab:"site"`
	DistanceCM *Milli `json:"distance_cm" jsonschema:"minimum=0,maximum=150"`
}

// Setting is the room and what stands in it.
type Setting struct {
	OxygenRunning    bool  `json:"oxygen_running"`
	MetalTable       bool  `json:"metal_table"`
	SmokeEvacuator   bool  `json:"smoke_evacuator" default:"true"`
	BipolarUnit      bool  `json:"bipolar_unit"`
	CauteryUnit      bool  `json:"cautery_unit"`
	PathologyService bool  `json:"pathology_service" default:"true"`
	Unit             *Unit `json:"unit"`
}

// Unit is the electrosurgical unit when a case needs a special one.
type Unit struct {
	Return string `json:"return" vocab:"return"`
	MaxW   *Milli `json:"max_w" jsonschema:"minimum=1,maximum=35"`
	StepW  *Milli `json:"step_w" jsonschema:"minimum=0.1,maximum=5"`
}

// Lesion is what is on the skin. Family is what truly is there; LooksLike,
// when given, is what a careful eye takes it for.
type Lesion struct {
	Family    string   `json:"family" jsonschema:"required" vocab:"family"`
	LooksLike string   `json:"looks_like" vocab:"family"`
	Site      string   `json:"site" jsonschema:"required" vocab:"site"`
	Side      string   `json:"side" vocab:"side"`
	WidthMM   Milli    `json:"width_mm" jsonschema:"required,minimum=0.1,maximum=200"`
	HeightMM  Milli    `json:"height_mm" jsonschema:"minimum=0,maximum=50"`
	DepthMM   Milli    `json:"depth_mm" jsonschema:"minimum=0,maximum=30"`
	Count     *Milli   `json:"count" jsonschema:"minimum=1,maximum=500,multipleOf=1"`
	Features  []string `json:"features" vocab:"feature"`
	Seed      int      `json:"seed" jsonschema:"minimum=0,maximum=1000000000"`
	Report    *Report  `json:"report"`
}

// Report is what a pathologist said of an earlier specimen.
type Report struct {
	DaysAgo  Milli  `json:"days_ago" jsonschema:"required,minimum=0,maximum=36500,multipleOf=1"`
	Specimen string `json:"specimen" jsonschema:"required" vocab:"specimen_method"`
	Site     string `json:"site" jsonschema:"required" vocab:"site"`
	Side     string `json:"side" vocab:"side"`
	Says     string `json:"says" jsonschema:"required" vocab:"family"`
	Margins  string `json:"margins"`
}

// Truth is told in the debrief only.
type Truth struct {
	Diagnosis string `json:"diagnosis" jsonschema:"required"`
	Histology string `json:"histology"`
}

// Expect is this author's judgement on one rule for one case.
type Expect struct {
	Rule   string `json:"rule" jsonschema:"required" form:"id"`
	Kind   string `json:"kind" vocab:"kind"`
	Value  string `json:"value" form:"value"`
	Reason string `json:"reason" jsonschema:"required"`
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
