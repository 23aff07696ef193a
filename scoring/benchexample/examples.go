// Package benchexample holds, for every row that grades the bench, a case with
// one outcome that satisfies the row and one that breaks it. The rows' tests
// and the report of every rule draw on it, since no change to a plan can fire
// a row that reads the outcome.
package benchexample

import (
	"leastwatt/cases"
	"leastwatt/scoring"
)

// Example is one row fired both ways.
type Example struct {
	Rule      string
	Case      *cases.Case
	Satisfied scoring.Outcome
	Broken    scoring.Outcome
	As        string // the kind of finding that Broken gives
	Shows     string // the figure, hazard or fault, in a few words
}

// Plan is the plan that the outcomes are of: touches of a second, a rim of
// 3 mm; the rows read nothing else of it.
func Plan() *cases.Plan {
	second, rim := cases.Milli(1000), cases.Milli(3000)
	return &cases.Plan{Disposition: "treat", ActivationS: &second, RimMM: &rim}
}

// a is a case of a family on the abdomen, changed as asked.
func a(family string, changes ...func(*cases.Case)) *cases.Case {
	c := &cases.Case{
		ID: family, Patient: cases.Patient{AgeYears: 50000, WeightKG: 70000, Sex: "female", SkinType: 3},
		Setting: cases.Setting{PathologyService: true, SmokeEvacuator: true},
		Lesion:  cases.Lesion{Family: family, Site: "abdomen", WidthMM: 5000, HeightMM: 1000, DepthMM: 300},
	}
	for _, change := range changes {
		change(c)
	}
	return c
}

// proven adds a report that names the tumour, of this very place.
func proven(c *cases.Case) {
	c.Lesion.Report = &cases.Report{DaysAgo: 10000, Specimen: "punch", Site: c.Lesion.Site, Says: c.Lesion.Family}
}

func oxygen(c *cases.Case) { c.Setting.OxygenRunning = true }
func metal(c *cases.Case)  { c.Setting.MetalTable = true }
func plate(c *cases.Case)  { c.Setting.Unit = &cases.Unit{Return: "plate"} }
func onCheek(c *cases.Case) {
	c.Lesion.Site = "cheek"
}

func paced(c *cases.Case) { c.Patient.Devices = []cases.Device{{Kind: "pacemaker", Site: "chest"}} }

// tiny is a lesion so small that a touch may hurt less than a needle.
func tiny(c *cases.Case) { c.Lesion.WidthMM = 2000 }

func hazard(id string) scoring.Outcome { return scoring.Outcome{Bursts: 1, Hazards: []string{id}} }

func fault(id string) scoring.Outcome { return scoring.Outcome{Bursts: 1, OrderFaults: []string{id}} }

func gone(share cases.Milli) scoring.Outcome {
	return scoring.Outcome{Bursts: 4, LesionDestroyedFraction: share}
}

func deep(share, mm cases.Milli) scoring.Outcome {
	return scoring.Outcome{Bursts: 4, DermisFraction: share, DermisDepthMM: mm}
}

// All lists the examples, one for each graded row of the bench.
func All() []Example {
	clean := scoring.Outcome{Bursts: 1}
	bcc := func(changes ...func(*cases.Case)) *cases.Case {
		return a("bcc_nodular", append([]func(*cases.Case){proven}, changes...)...)
	}
	return []Example{
		{"bench-gone-growth", a("common_wart"), gone(970), gone(700), "caution", "lesion destroyed"},
		{"bench-gone-papulosa-nigra", a("dermatosis_papulosa_nigra"), gone(800), gone(500), "caution", "lesion destroyed"},
		{"bench-gone-vascular", a("cherry_angioma"), gone(850), gone(600), "caution", "lesion destroyed"},
		{"bench-vessel-closed", a("facial_telangiectasia", onCheek), gone(400), gone(100), "advice", "lesion destroyed"},
		{"bench-tag-stalk", a("skin_tag"), gone(1000), gone(50), "caution", "lesion destroyed"},
		{"bench-gone-gland", a("sebaceous_hyperplasia", onCheek), gone(800), gone(300), "advice", "lesion destroyed"},
		{"bench-depth-surface", a("seborrhoeic_keratosis"), deep(150, 400), deep(600, 1400), "caution", "dermis destroyed"},
		{"bench-depth-dermal", a("cherry_angioma"), deep(450, 900), deep(900, 1900), "caution", "dermis destroyed"},
		{"bench-rim-benign", a("common_wart"), scoring.Outcome{Bursts: 1, RimMM: 500}, scoring.Outcome{Bursts: 1, RimMM: 3000}, "caution", "rim"},
		{"bench-char-vascular", a("cherry_angioma"), clean, scoring.Outcome{Bursts: 1, CharredMM3: 600}, "advice", "char"},
		{"bench-base-covered", bcc(), scoring.Outcome{Bursts: 9, BaseCoveredFraction: 980}, scoring.Outcome{Bursts: 9, BaseCoveredFraction: 700}, "caution", "base treated"},
		{"bench-rim-tumour", bcc(), scoring.Outcome{Bursts: 9, RimMM: 3000}, scoring.Outcome{Bursts: 9, RimMM: 500}, "caution", "rim"},
		{"bench-rim-planned", bcc(), scoring.Outcome{Bursts: 9, RimMM: 3000}, scoring.Outcome{Bursts: 9, RimMM: 2000}, "advice", "rim short of the plan"},
		{"bench-fat-tumour", bcc(), clean, hazard("fat_reached"), "caution", "fat reached"},
		{"bench-fat-other", a("cherry_angioma"), clean, hazard("fat_reached"), "caution", "fat reached"},
		{"bench-specimen-first", a("pyogenic_granuloma"), clean, hazard("specimen_late"), "never", "current before the pot"},
		{"bench-specimen-planned", a("skin_tag"), clean, fault("specimen_late"), "caution", "current before the pot"},
		{"bench-specimen-edge", a("pyogenic_granuloma"), scoring.Outcome{SpecimenEdgeMM: 50}, scoring.Outcome{SpecimenEdgeMM: 900}, "caution", "specimen edge"},
		{"bench-alcohol-wet", a("cherry_angioma"), clean, hazard("alcohol_wet"), "never", "wet alcohol"},
		{"bench-oxygen-near", a("cherry_angioma", onCheek, oxygen), clean, hazard("oxygen_on"), "never", "oxygen on"},
		{"bench-oxygen-far", a("cherry_angioma", oxygen), clean, hazard("oxygen_on"), "advice", "oxygen on"},
		{"bench-device-current", a("cherry_angioma", paced), clean, hazard("device_current"), "caution", "current beyond the plan"},
		{"bench-device-burst", a("cherry_angioma", paced), scoring.Outcome{Bursts: 1, LongestBurstS: 900}, scoring.Outcome{Bursts: 1, LongestBurstS: 6000}, "caution", "longest burst"},
		{"bench-metal", a("cherry_angioma", metal), clean, hazard("metal_touched"), "caution", "metal touched"},
		{"bench-smoke-virus", a("common_wart"), clean, hazard("no_smoke_evacuation"), "caution", "smoke not caught"},
		{"bench-smoke-other", a("cherry_angioma"), clean, hazard("no_smoke_evacuation"), "advice", "smoke not caught"},
		{"bench-contact-plate", a("cherry_angioma", plate), clean, hazard("contact_broken"), "caution", "plate off"},
		{"bench-contact-hand", a("cherry_angioma"), clean, hazard("contact_broken"), "advice", "hand off"},
		{"bench-felt", a("common_wart"), clean, fault("not_numb"), "caution", "not numb"},
		{"bench-felt-tiny", a("cherry_angioma", tiny), clean, hazard("felt_pain"), "advice", "felt"},
		{"bench-burst-planned", a("cherry_angioma"), scoring.Outcome{Bursts: 1, LongestBurstS: 1050}, scoring.Outcome{Bursts: 1, LongestBurstS: 2500}, "caution", "longest burst against the plan"},
		{"bench-contact-breaks", a("cherry_angioma"), clean, scoring.Outcome{Bursts: 1, ContactBreaks: 2}, "advice", "contact broken under current"},
		{"bench-prep-wet", a("cherry_angioma"), clean, fault("prep_wet"), "advice", "prep wet"},
		{"bench-border", bcc(), clean, fault("border_unmarked"), "advice", "border not marked"},
		{"bench-curette-first", bcc(), clean, fault("coagulated_before_curette"), "caution", "heated before the curette"},
		{"bench-char-off", bcc(), clean, fault("char_left"), "caution", "char left"},
		{"bench-rounds", bcc(), clean, fault("cycle_missed"), "caution", "round missed"},
		{"bench-order-benign", a("seborrhoeic_keratosis"), clean, fault("char_left"), "advice", "char left"},
	}
}

// Find is what the judge finds for the example's row on an outcome; ok is
// false where the row stays silent.
func (e *Example) Find(j *scoring.Judge, o *scoring.Outcome) (f scoring.Finding, ok bool) {
	for _, f := range j.GradeDone(Plan(), o, cases.UK).Findings {
		if f.Rule == e.Rule {
			return f, true
		}
	}
	return scoring.Finding{}, false
}
