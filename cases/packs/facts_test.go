package packs

import (
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
)

func TestSeedsDiffer(t *testing.T) {
	first := map[int]string{}
	for id, c := range everyCase(t) {
		if other, twice := first[c.Lesion.Seed]; twice {
			t.Errorf("%s and %s share the seed %d", id, other, c.Lesion.Seed)
		}
		first[c.Lesion.Seed] = id
	}
}

// The bands are wide: about the lightest and heaviest one in 250 children of
// the age on British growth charts, from memory.
func TestWeightFitsAge(t *testing.T) {
	bands := []struct{ upTo, least, most cases.Milli }{
		{6000, 14000, 29000}, {8000, 17000, 38000}, {10000, 20000, 48000}, {13000, 26000, 70000}, {120000, 36000, 140000},
	}
	for id, c := range everyCase(t) {
		for _, b := range bands {
			if c.Patient.AgeYears > b.upTo {
				continue
			}
			if w := c.Patient.WeightKG; w < b.least || w > b.most {
				t.Errorf("%s: %s kg at %s years", id, w, c.Patient.AgeYears)
			}
			break
		}
		if h := c.Patient.HeightCM; h != nil && c.Patient.AgeYears >= 18000 {
			index := c.Patient.WeightKG.Float() / (h.Float() / 100) / (h.Float() / 100)
			if index < 16 || index > 42 {
				t.Errorf("%s: body mass index %.1f", id, index)
			}
		}
	}
}

// A trainee can be held to what can be found out only.
func TestEveryFeatureCanBeFound(t *testing.T) {
	for id, c := range everyCase(t) {
		for _, feature := range c.Lesion.Features {
			if len(cases.Reveals(feature)) == 0 {
				t.Errorf("%s: no topic reveals %q", id, feature)
			}
		}
		for _, topic := range cases.Vocab.IDs("topic") {
			if a := cases.AnswerFor(c, topic, cases.UK); strings.TrimSpace(a.Text) == "" {
				t.Errorf("%s: no answer to %q", id, topic)
			}
		}
	}
}

// What is told must name the figure that a rule reads.
func TestFiguresAreTold(t *testing.T) {
	for id, c := range everyCase(t) {
		if c.Patient.INR != nil {
			mustTell(t, id, c, "blood_thinners", c.Patient.INR.Fixed(1))
		}
		if c.Patient.GestationWeeks != nil {
			mustTell(t, id, c, "pregnancy", c.Patient.GestationWeeks.String()+" weeks")
		}
		for _, d := range c.Patient.Devices {
			mustTell(t, id, c, "devices", strings.ReplaceAll(d.Kind, "_", " "))
			if d.DistanceCM != nil {
				mustTell(t, id, c, "devices", d.DistanceCM.String()+" cm")
			}
		}
		if u := c.Setting.Unit; u != nil && u.MaxW != nil {
			mustTell(t, id, c, "kit", u.MaxW.String()+" W")
			mustTell(t, id, c, "kit", "plate")
		}
		if r := c.Lesion.Report; r != nil {
			for _, part := range []string{
				r.DaysAgo.String() + " days", cases.Vocab.Label("site", r.Site, cases.UK), r.Side,
				cases.Vocab.Label("specimen_method", r.Specimen, cases.UK), cases.Vocab.Label("family", r.Says, cases.UK),
			} {
				mustTell(t, id, c, "biopsy_report", part)
			}
		}
	}
}

func mustTell(t *testing.T, id string, c *cases.Case, topic, what string) {
	t.Helper()
	if text := cases.AnswerFor(c, topic, cases.UK).Text; !strings.Contains(strings.ToLower(text), strings.ToLower(what)) {
		t.Errorf("%s: the answer to %q does not tell %q: %s", id, topic, what, text)
	}
}

// Lesions of these families have a size that textbooks give; far outside it
// the picture and the plan would both be wrong, unless the case itself calls the
// size unusual. Widths in mm, from memory.
func TestWidthFitsFamily(t *testing.T) {
	widths := map[string][2]cases.Milli{
		"cherry_angioma": {500, 8000}, "spider_angioma": {2000, 12000}, "venous_lake": {2000, 12000},
		"seborrhoeic_keratosis": {3000, 35000}, "dermatosis_papulosa_nigra": {1000, 5000}, "skin_tag": {1000, 12000},
		"common_wart": {2000, 15000}, "filiform_wart": {1000, 5000}, "plantar_wart": {2000, 20000}, "periungual_wart": {2000, 15000},
		"genital_wart": {1000, 20000}, "molluscum": {1000, 8000}, "pyogenic_granuloma": {3000, 20000},
		"intradermal_naevus": {3000, 12000}, "actinic_keratosis": {2000, 15000}, "keratoacanthoma": {8000, 30000},
		"bcc_nodular": {3000, 25000}, "bcc_superficial": {5000, 40000}, "bcc_infiltrative": {4000, 30000},
		"scc_in_situ": {4000, 40000}, "sebaceous_hyperplasia": {2000, 6000}, "syringoma": {1000, 4000}, "milia": {500, 3000},
		"dermatofibroma": {3000, 12000},
	}
	for id, c := range everyCase(t) {
		w, known := widths[c.Lesion.Family]
		if known && !slices.Contains(c.Lesion.Features, "unusually_large") && (c.Lesion.WidthMM < w[0] || c.Lesion.WidthMM > w[1]) {
			t.Errorf("%s: %s mm wide", id, c.Lesion.WidthMM)
		}
	}
}
