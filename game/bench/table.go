package bench

import (
	_ "embed"

	"leastwatt/cases"
)

//go:embed bench.json
var benchJSON []byte

// table is bench.json: what the bench knows beside the tissue model, each row
// with its source.
type table struct {
	Note       string         `json:"note" jsonschema:"required"`
	Tips       []tipRow       `json:"tips" jsonschema:"required"`
	Techniques []techniqueRow `json:"techniques" jsonschema:"required"`
	Numbing    []numbingRow   `json:"numbing" jsonschema:"required"`
	Drying     []dryingRow    `json:"drying" jsonschema:"required"`
	Hazards    []hazardRow    `json:"hazards" jsonschema:"required"`
	Virus      []virusRow     `json:"virus" jsonschema:"required"`
	Bleeding   []bleedingRow  `json:"bleeding" jsonschema:"required"`
	Sweep      []SweepRow     `json:"sweep" jsonschema:"required"`
}

type tipRow struct {
	Electrode string      `json:"electrode" jsonschema:"required" vocab:"electrode"`
	RadiusMM  cases.Milli `json:"radius_mm" jsonschema:"required,minimum=0.1,maximum=3"`
	Source    string      `json:"source" jsonschema:"required"`
}

// techniqueRow says which acts a technique consists of.
type techniqueRow struct {
	Technique string `json:"technique" jsonschema:"required" vocab:"technique"`
	Heats     bool   `json:"heats"`
	Curettes  bool   `json:"curettes"`
	Shaves    bool   `json:"shaves"`
	Snips     bool   `json:"snips"`
	CutsFirst bool   `json:"cuts_first"` // blade or curette before any current
	Source    string `json:"source" jsonschema:"required"`
}

type numbingRow struct {
	Agent  string `json:"agent" jsonschema:"required"`
	OnsetS int    `json:"onset_s" jsonschema:"minimum=0,maximum=7200"`
	LastsS int    `json:"lasts_s" jsonschema:"minimum=0,maximum=36000"` // 0 means longer than a session
	Source string `json:"source" jsonschema:"required"`
}

type dryingRow struct {
	Prep   string `json:"prep" jsonschema:"required" vocab:"prep"`
	SkinS  int    `json:"skin_s" jsonschema:"required,minimum=0,maximum=7200"`
	HairS  int    `json:"hair_s" jsonschema:"required,minimum=0,maximum=7200"`
	Source string `json:"source" jsonschema:"required"`
}

// hazardRow says whether a hazard stops the bench each time or once only: a
// fire can start each time; the rest is told once and then left to the hand.
type hazardRow struct {
	Hazard    string `json:"hazard" jsonschema:"required" vocab:"bench_hazard"`
	EveryTime bool   `json:"every_time"`
	Source    string `json:"source" jsonschema:"required"`
}

type virusRow struct {
	Family string `json:"family" jsonschema:"required" vocab:"family"`
	Source string `json:"source" jsonschema:"required"`
}

type bleedingRow struct {
	Family      string      `json:"family" jsonschema:"required"` // or other
	SpotsPerCM2 int         `json:"spots_per_cm2" jsonschema:"required,minimum=1,maximum=400"`
	UlPerMin    cases.Milli `json:"ul_per_min" jsonschema:"required,minimum=0.1,maximum=1000"` // of one spot, freshly open
	Open        bool        `json:"open"`                                                      // bleeds as the bench opens
	Source      string      `json:"source" jsonschema:"required"`
}

// SweepRow is one other choice of the model's uncertain constants.
type SweepRow struct {
	ID        string `json:"id" jsonschema:"required" form:"id"`
	Damage    string `json:"damage" jsonschema:"required"` // id of a damage set of the tissue model
	OtherFlow bool   `json:"other_flow"`                   // the blood flow as if the adrenaline were not there, or were
	Source    string `json:"source" jsonschema:"required"`
}

var rows = mustRead("game/bench/bench.json", benchJSON)

func mustRead(file string, data []byte) *table {
	t, err := readTable(file, data)
	if err != nil {
		panic(err) // a fault of a built-in table is a fault of the program
	}
	return t
}

func readTable(file string, data []byte) (*table, error) {
	tree, faults := cases.ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &cases.Sheet{File: file, Faults: faults}
	t := &table{}
	cases.Decode(s, tree, t)
	if len(s.Faults) > 0 {
		s.Faults.Sort()
		return nil, s.Faults
	}
	return t, nil
}

// find returns the row that fits, or nil.
func find[T any](list []T, fits func(*T) bool) *T {
	for i := range list {
		if fits(&list[i]) {
			return &list[i]
		}
	}
	return nil
}

func techniqueOf(id string) *techniqueRow {
	return find(rows.Techniques, func(r *techniqueRow) bool { return r.Technique == id })
}

func tipRadiusMM(electrode string) float64 {
	if r := find(rows.Tips, func(r *tipRow) bool { return r.Electrode == electrode }); r != nil {
		return r.RadiusMM.Float()
	}
	return rows.Tips[0].RadiusMM.Float()
}

func carriesVirus(family string) bool {
	return find(rows.Virus, func(r *virusRow) bool { return r.Family == family }) != nil
}

// SweepRows lists the stated sweep of uncertain constants, for the debrief.
func SweepRows() []SweepRow { return rows.Sweep }
