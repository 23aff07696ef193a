package solve

import (
	"flag"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

var keepReport = flag.Bool("report", false, "write the table of rules to testdata/reports")

// casesFor lists cases that the row concerns: the built-in ones, else a
// built-in one with up to three facts changed to what the row looks for; and
// the first of them with each other case fact changed that the row reads.
func casesFor(r *tables.Row, bases []*cases.Case) []*cases.Case {
	var found []*cases.Case
	for _, c := range bases {
		if concerns(r, c) {
			found = append(found, c)
		}
	}
	for depth := 1; depth <= 3 && len(found) == 0; depth++ {
		for _, base := range bases[:min(4, len(bases))] {
			if c := changed(r, base, depth); c != nil {
				found = append(found, c)
				break
			}
		}
	}
	for depth := 1; depth <= 3; depth++ {
		if c := changed(r, plainCase(), depth); c != nil {
			found = append([]*cases.Case{c}, found...)
			break
		}
	}
	if len(found) == 0 {
		return nil
	}
	for _, first := range append([]*cases.Case(nil), found[:min(3, len(found))]...) {
		for _, fact := range tables.CaseFacts() {
			if !r.ReadsCase(fact) {
				continue
			}
			for _, m := range caseMoves(r, fact) {
				c := *first
				c.ID = strings.TrimSuffix(c.ID, "*") + "*"
				m(&c)
				if concerns(r, &c) {
					found = append(found, &c)
				}
			}
		}
	}
	return found
}

// plainCase is a healthy adult with a small harmless lesion on the back, in a
// room that has everything.
func plainCase() *cases.Case {
	return &cases.Case{
		ID:      "plain",
		Patient: cases.Patient{AgeYears: 45000, WeightKG: 75000, Sex: "female", SkinType: 3},
		Setting: cases.Setting{SmokeEvacuator: true, PathologyService: true, BipolarUnit: true, CauteryUnit: true},
		Lesion:  cases.Lesion{Family: "cherry_angioma", Site: "back", WidthMM: 5000, HeightMM: 1000, Features: []string{"well_defined"}},
	}
}

func concerns(r *tables.Row, c *cases.Case) bool {
	var f tables.Facts
	f.FillCase(c)
	return r.Applies(&f)
}

func changed(r *tables.Row, base *cases.Case, depth int) *cases.Case {
	if depth == 0 {
		if concerns(r, base) {
			return base
		}
		return nil
	}
	for _, fact := range tables.CaseFacts() {
		if !r.ScopeReads(fact) {
			continue
		}
		for _, m := range caseMoves(r, fact) {
			c := *base
			c.ID = base.ID + "*"
			m(&c)
			if found := changed(r, &c, depth-1); found != nil {
				return found
			}
		}
	}
	return nil
}

func caseMoves(r *tables.Row, fact string) []func(*cases.Case) {
	var out []func(*cases.Case)
	wordsOf := func(table string) []string {
		var ids []string
		for _, mask := range r.WordMasks(fact) {
			for i, id := range cases.Vocab.IDs(table) {
				if mask>>i&1 != 0 {
					ids = append(ids, id)
				}
			}
		}
		return ids
	}
	number := func(set func(*cases.Case, cases.Milli)) {
		for _, n := range r.Numbers(fact) {
			for _, v := range []cases.Milli{cases.Milli(n), cases.Milli(n) + 1000, cases.Milli(n) - 500, cases.Milli(n) / 2} {
				if v > 0 {
					out = append(out, func(c *cases.Case) { set(c, v) })
				}
			}
		}
	}
	list := func(table string, field func(*cases.Case) *[]string) {
		ids := wordsOf(table)
		out = append(out, func(c *cases.Case) { *field(c) = nil }, func(c *cases.Case) { *field(c) = with(nil, ids...) })
		for _, id := range ids {
			out = append(out, func(c *cases.Case) { *field(c) = with(*field(c), id) })
		}
	}
	report := func(set func(*cases.Report)) func(*cases.Case) {
		return func(c *cases.Case) {
			rep := &cases.Report{DaysAgo: 14000, Specimen: "punch", Site: c.Lesion.Site, Side: c.Lesion.Side, Says: "bcc_nodular"}
			if c.Lesion.Report != nil {
				*rep = *c.Lesion.Report
			}
			set(rep)
			c.Lesion.Report = rep
		}
	}
	switch fact {
	case "lesion.family":
		for _, id := range cases.Vocab.IDs("family") {
			out = append(out, func(c *cases.Case) { c.Lesion.Family, c.Lesion.LooksLike, c.Lesion.Report = id, "", nil })
			if cases.OnlyByPathologist(id) {
				out = append(out, func(c *cases.Case) {
					c.Lesion.Family, c.Lesion.LooksLike = id, ""
					report(func(rep *cases.Report) { rep.Says = id })(c)
				})
			}
		}
	case "lesion.report", "lesion.report.same_place":
		out = append(out, report(func(*cases.Report) {}), func(c *cases.Case) { c.Lesion.Report = nil },
			report(func(rep *cases.Report) { rep.Site = "sole" }))
	case "lesion.report.says":
		for _, id := range wordsOf("family") {
			out = append(out, report(func(rep *cases.Report) { rep.Says = id }))
		}
	case "lesion.report.specimen":
		for _, id := range wordsOf("specimen_method") {
			out = append(out, report(func(rep *cases.Report) { rep.Specimen = id }))
		}
	case "lesion.report.days_ago":
		number(func(c *cases.Case, n cases.Milli) { report(func(rep *cases.Report) { rep.DaysAgo = n })(c) })
	case "lesion.site":
		for _, id := range append(wordsOf("site"), "back", "cheek") {
			out = append(out, func(c *cases.Case) { c.Lesion.Site = id })
		}
	case "lesion.side":
		for _, id := range append(wordsOf("side"), "") {
			out = append(out, func(c *cases.Case) { c.Lesion.Side = id })
		}
	case "lesion.features":
		list("feature", func(c *cases.Case) *[]string { return &c.Lesion.Features })
	case "lesion.width_mm":
		number(func(c *cases.Case, n cases.Milli) { c.Lesion.WidthMM = n })
	case "lesion.height_mm":
		number(func(c *cases.Case, n cases.Milli) { c.Lesion.HeightMM = n })
	case "lesion.depth_mm":
		number(func(c *cases.Case, n cases.Milli) { c.Lesion.DepthMM = n })
	case "lesion.count":
		number(func(c *cases.Case, n cases.Milli) { c.Lesion.Count = &n })
	case "patient.age_years":
		number(func(c *cases.Case, n cases.Milli) { c.Patient.AgeYears = n })
	case "patient.weight_kg":
		number(func(c *cases.Case, n cases.Milli) { c.Patient.WeightKG = n })
	case "patient.skin_type":
		for n := 1; n <= 6; n++ {
			out = append(out, func(c *cases.Case) { c.Patient.SkinType = n })
		}
	case "patient.inr":
		number(func(c *cases.Case, n cases.Milli) { c.Patient.INR = &n })
	case "patient.gestation_weeks":
		number(func(c *cases.Case, n cases.Milli) { c.Patient.GestationWeeks, c.Patient.Pregnant = &n, true })
	case "patient.sex":
		for _, id := range cases.Vocab.IDs("sex") {
			out = append(out, func(c *cases.Case) { c.Patient.Sex = id })
		}
	case "patient.history":
		list("history", func(c *cases.Case) *[]string { return &c.Patient.History })
	case "patient.medicines":
		list("medicine", func(c *cases.Case) *[]string { return &c.Patient.Medicines })
	case "patient.allergies":
		list("allergy", func(c *cases.Case) *[]string { return &c.Patient.Allergies })
	case "patient.devices":
		for _, id := range wordsOf("device") {
			out = append(out, func(c *cases.Case) {
				d := cases.Milli(8000)
				c.Patient.Devices = []cases.Device{{Kind: id, DistanceCM: &d}}
			})
		}
		out = append(out, func(c *cases.Case) { c.Patient.Devices = nil })
	case "patient.device_distance_cm":
		number(func(c *cases.Case, n cases.Milli) {
			if len(c.Patient.Devices) > 0 {
				c.Patient.Devices = []cases.Device{{Kind: c.Patient.Devices[0].Kind, DistanceCM: &n}}
			}
		})
	}
	if set := caseSwitch(fact); set != nil {
		out = append(out, func(c *cases.Case) { set(c, true) }, func(c *cases.Case) { set(c, false) })
	}
	if strings.HasPrefix(fact, "setting.unit.") {
		for _, kind := range []string{"plate", "single_ended"} {
			out = append(out, func(c *cases.Case) {
				w := cases.Milli(10000)
				c.Setting.Unit = &cases.Unit{Return: kind, MaxW: &w}
			})
		}
	}
	return out
}

func caseSwitch(fact string) func(*cases.Case, bool) {
	switch fact {
	case "patient.pregnant":
		return func(c *cases.Case, b bool) { c.Patient.Pregnant, c.Patient.Sex = b, "female" }
	case "patient.breastfeeding":
		return func(c *cases.Case, b bool) { c.Patient.Breastfeeding = b }
	case "setting.oxygen_running":
		return func(c *cases.Case, b bool) { c.Setting.OxygenRunning = b }
	case "setting.metal_table":
		return func(c *cases.Case, b bool) { c.Setting.MetalTable = b }
	case "setting.smoke_evacuator":
		return func(c *cases.Case, b bool) { c.Setting.SmokeEvacuator = b }
	case "setting.bipolar_unit":
		return func(c *cases.Case, b bool) { c.Setting.BipolarUnit = b }
	case "setting.cautery_unit":
		return func(c *cases.Case, b bool) { c.Setting.CauteryUnit = b }
	case "setting.pathology_service":
		return func(c *cases.Case, b bool) { c.Setting.PathologyService = b }
	}
	return nil
}
