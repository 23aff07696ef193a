package cases

import (
	_ "embed"
	"sync"
)

//go:embed made.json
var madeJSON []byte

// madeTables is what cases are composed of: cases/made.json. Every list of two
// numbers is a range, low end first, both ends in it.
type madeTables struct {
	Note         string        `json:"note" jsonschema:"required"`
	Version      int           `json:"version" jsonschema:"required,minimum=1,maximum=31"`
	GrowthSource string        `json:"growth_source" jsonschema:"required"`
	Growth       []madeGrowth  `json:"growth" jsonschema:"required"`
	Levels       []madeLevel   `json:"levels" jsonschema:"required"`
	Sites        []madeSite    `json:"sites" jsonschema:"required"`
	Families     []madeFamily  `json:"families" jsonschema:"required"`
	Hazards      []madeHazard  `json:"hazards" jsonschema:"required"`
	Titles       madeTitles    `json:"titles" jsonschema:"required"`
	Openings     []madeOpening `json:"openings" jsonschema:"required"`
	Answers      []madeAnswer  `json:"answers" jsonschema:"required"`
}

// madeGrowth is the middle height and weight at one age.
type madeGrowth struct {
	AgeYears       int   `json:"age_years" jsonschema:"required,minimum=0,maximum=120"`
	FemaleHeightCM Milli `json:"female_height_cm" jsonschema:"required,minimum=40,maximum=220"`
	FemaleWeightKG Milli `json:"female_weight_kg" jsonschema:"required,minimum=2,maximum=200"`
	MaleHeightCM   Milli `json:"male_height_cm" jsonschema:"required,minimum=40,maximum=220"`
	MaleWeightKG   Milli `json:"male_weight_kg" jsonschema:"required,minimum=2,maximum=200"`
}

// madeLevel says how many hazards a level holds.
type madeLevel struct {
	Level   int   `json:"level" jsonschema:"required,minimum=1,maximum=5"`
	Hazards []int `json:"hazards" jsonschema:"required,minimum=0,maximum=5"`
}

// madeSite is how a site is spoken of. Sides is "pair" for a site that is left
// or right, "any" for one with a middle too.
type madeSite struct {
	Site  string `json:"site" jsonschema:"required" vocab:"site"`
	Sides string `json:"sides" jsonschema:"required"`
	Where string `json:"where" jsonschema:"required"` // {side} stands for left or right
	Area  string `json:"area" jsonschema:"required" form:"id"`
}

// madeFamily is everything that differs by family. Number stands for the
// family in codes and is never reused.
type madeFamily struct {
	Family     string          `json:"family" jsonschema:"required" vocab:"family"`
	Number     int             `json:"number" jsonschema:"required,minimum=1,maximum=63"`
	Diagnosis  string          `json:"diagnosis" jsonschema:"required"`
	Histology  string          `json:"histology" jsonschema:"required"`
	Teaching   string          `json:"teaching" jsonschema:"required"`
	Ages       []madeAges      `json:"ages" jsonschema:"required"`
	FemaleIn   *int            `json:"female_in_100" jsonschema:"minimum=0,maximum=100"` // absent means 50
	SkinTypes  []int           `json:"skin_types" jsonschema:"required,minimum=0"`       // a weight for each of the six
	Sites      []madeWhere     `json:"sites" jsonschema:"required"`
	WidthMM    []Milli         `json:"width_mm" jsonschema:"required,minimum=0.1,maximum=200"`
	HeightMM   []Milli         `json:"height_mm" jsonschema:"required,minimum=0,maximum=50"`
	Tall       bool            `json:"tall"` // may stand higher than half its width
	DepthMM    []Milli         `json:"depth_mm" jsonschema:"required,minimum=0,maximum=30"`
	Count      []int           `json:"count" jsonschema:"required,minimum=1,maximum=500"`
	Always     []string        `json:"always" jsonschema:"required" vocab:"feature"`
	Sometimes  []madeSometimes `json:"sometimes"`
	AloneIn    *int            `json:"alone_in_100" jsonschema:"minimum=0,maximum=100"` // how often a single one has no fellows; absent: always says
	Odd        []madeOdd       `json:"odd"`                                             // harmless, yet it must be sampled
	Looks      []madeLook      `json:"looks"`                                           // what the eye takes it for, features unchanged
	Traps      []madeLook      `json:"traps"`                                           // what it copies, with a clue among its features
	Report     *madeReport     `json:"report"`
	History    []madeIllness   `json:"history"`
	Openings   []string        `json:"openings"` // in place of the shared ones; only where the eye knows it anyway
	OwnAnswers []madeAnswer    `json:"ask"`
}

type madeAges struct {
	From   int `json:"from" jsonschema:"required,minimum=2,maximum=100"`
	To     int `json:"to" jsonschema:"required,minimum=2,maximum=100"`
	Weight int `json:"weight" jsonschema:"required,minimum=1,maximum=100"`
}

// madeWhere is a site of a family, with the patients it is for.
type madeWhere struct {
	Site         string `json:"site" jsonschema:"required" vocab:"site"`
	Weight       int    `json:"weight" jsonschema:"required,minimum=1,maximum=100"`
	FromAge      int    `json:"from_age" jsonschema:"minimum=0,maximum=100"`
	FromSkinType int    `json:"from_skin_type" jsonschema:"minimum=1,maximum=6"`
}

type madeSometimes struct {
	Feature   string `json:"feature" jsonschema:"required" vocab:"feature"`
	In100     int    `json:"in_100" jsonschema:"required,minimum=1,maximum=100"`
	FromLevel int    `json:"from_level" jsonschema:"required,minimum=1,maximum=5"`
}

type madeOdd struct {
	FromLevel int      `json:"from_level" jsonschema:"required,minimum=1,maximum=5"`
	In100     int      `json:"in_100" jsonschema:"required,minimum=1,maximum=100"`
	Features  []string `json:"features" jsonschema:"required" vocab:"feature"`
	Without   []string `json:"without" vocab:"feature"`
	Teaching  string   `json:"teaching" jsonschema:"required"`
}

type madeLook struct {
	Family    string   `json:"family" jsonschema:"required" vocab:"family"`
	FromLevel int      `json:"from_level" jsonschema:"required,minimum=1,maximum=5"`
	In100     int      `json:"in_100" jsonschema:"required,minimum=1,maximum=100"`
	Sites     []string `json:"sites" vocab:"site"` // absent means every site of the family
	WidthMM   []Milli  `json:"width_mm" jsonschema:"minimum=0.1,maximum=200"`
	HeightMM  []Milli  `json:"height_mm" jsonschema:"minimum=0,maximum=50"`
	Features  []string `json:"features" vocab:"feature"`
	Teaching  string   `json:"teaching" jsonschema:"required"`
}

// madeReport is how often, by level, a specimen was read before.
type madeReport struct {
	In100     []int    `json:"in_100" jsonschema:"required,minimum=0,maximum=100"`
	Specimens []string `json:"specimens" jsonschema:"required" vocab:"specimen_method"`
}

type madeIllness struct {
	Illness string `json:"illness" jsonschema:"required" vocab:"history"`
	In100   int    `json:"in_100" jsonschema:"required,minimum=1,maximum=100"`
}

// madeHazard is one thing that a careful trainee must ask about. At most one
// of a group stands in a case.
type madeHazard struct {
	Hazard        string      `json:"hazard" jsonschema:"required" form:"id"`
	Group         string      `json:"group" jsonschema:"required" form:"id"`
	Weight        int         `json:"weight" jsonschema:"required,minimum=1,maximum=100"`
	FromLevel     int         `json:"from_level" jsonschema:"required,minimum=2,maximum=5"`
	Ages          []int       `json:"ages" jsonschema:"required,minimum=0,maximum=120"`
	Sex           string      `json:"sex" vocab:"sex"`
	SkinTypes     []int       `json:"skin_types" jsonschema:"minimum=1,maximum=6"`
	NotFamilies   []string    `json:"not_families" vocab:"family"`
	Teaching      string      `json:"teaching" jsonschema:"required"`
	History       []string    `json:"history" vocab:"history"`
	Medicines     []string    `json:"medicines" vocab:"medicine"`
	Allergies     []string    `json:"allergies" vocab:"allergy"`
	Features      []string    `json:"features" vocab:"feature"`
	Device        *madeDevice `json:"device"`
	INR           []Milli     `json:"inr" jsonschema:"minimum=0.5,maximum=15"`
	Pregnant      bool        `json:"pregnant"`
	Weeks         []int       `json:"weeks" jsonschema:"minimum=4,maximum=41"`
	Breastfeeding bool        `json:"breastfeeding"`
	Oxygen        bool        `json:"oxygen"`
	Metal         bool        `json:"metal"`
	NoEvacuator   bool        `json:"no_evacuator"`
	NoPathology   bool        `json:"no_pathology"`
	Unit          *Unit       `json:"unit"`
}

type madeDevice struct {
	Kind string `json:"kind" jsonschema:"required" vocab:"device"`
	Site string `json:"site" jsonschema:"required" vocab:"site"`
}

// madeTitles are the nouns of a title: for one lesion, one of wideMM or more,
// and several.
type madeTitles struct {
	Small []string `json:"small" jsonschema:"required"`
	Wide  []string `json:"wide" jsonschema:"required"`
	Many  []string `json:"many" jsonschema:"required"`
}

// madeOpening is what a patient may open with. It is chosen by site, age, sex
// and what the patient can see, never by family.
type madeOpening struct {
	One      string   `json:"one" jsonschema:"required"`
	Many     string   `json:"many" jsonschema:"required"`
	Areas    []string `json:"areas"`
	Sites    []string `json:"sites" vocab:"site"`
	Ages     []int    `json:"ages" jsonschema:"required,minimum=0,maximum=120"`
	Sex      string   `json:"sex" vocab:"sex"`
	Raised   bool     `json:"raised"`   // only where it stands out from the skin
	Bleeding bool     `json:"bleeding"` // only where it bleeds
}

// madeAnswer is ways of answering a topic when what the case holds on it is
// exactly When, or nothing.
type madeAnswer struct {
	Topic string   `json:"topic" jsonschema:"required" vocab:"topic"`
	When  string   `json:"when" vocab:"feature"`
	Ages  []int    `json:"ages" jsonschema:"minimum=0,maximum=120"`
	Texts []string `json:"texts" jsonschema:"required"`
}

// made gives the tables. They are read at the first use, since most runs of
// the program make no case.
var made = sync.OnceValue(func() *madeTables {
	t, err := readMade("cases/made.json", madeJSON)
	if err != nil {
		panic(err)
	}
	return t
})

func readMade(file string, data []byte) (*madeTables, error) {
	tree, faults := ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &Sheet{File: file, Faults: faults}
	t := &madeTables{}
	Decode(s, tree, t)
	if len(s.Faults) == 0 { // what follows leans on whole rows
		checkMade(s, tree, t)
	}
	if len(s.Faults) > 0 {
		s.Faults.Sort()
		return nil, s.Faults
	}
	return t, nil
}

func (t *madeTables) family(id string) *madeFamily {
	for i := range t.Families {
		if t.Families[i].Family == id {
			return &t.Families[i]
		}
	}
	return nil
}

func (t *madeTables) site(id string) *madeSite {
	for i := range t.Sites {
		if t.Sites[i].Site == id {
			return &t.Sites[i]
		}
	}
	return nil
}
