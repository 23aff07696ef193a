package solve

import (
	"testing"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// provenBasal is a low-risk tumour with a report, which may be treated here.
func provenBasal() *cases.Case {
	c := plainCase()
	c.Lesion.Family, c.Lesion.WidthMM = "bcc_nodular", 8000
	c.Lesion.Report = &cases.Report{DaysAgo: 14000, Specimen: "punch", Site: "back", Says: "bcc_nodular"}
	return c
}

// oddTag is a tag that may be sampled, treated or referred.
func oddTag() *cases.Case {
	c := plainCase()
	c.Lesion.Family, c.Lesion.Features = "skin_tag", []string{"firm", "bleeding", "on_a_stalk", "well_defined"}
	return c
}

// A local rule may ask for a value that no row of the tables names. The solver
// reads it, and finds a plan of that decision and technique with full marks.
func TestLocalValuesAreTried(t *testing.T) {
	for _, tt := range []struct {
		name, rule, value, disposition, technique string
		c                                         *cases.Case
	}{
		{"a number", "technique-rim-tumour", "rim_mm = 5", "treat", "curettage_desiccation", provenBasal()},
		{"a bare number", "anaesthesia-wait", "20", "treat", "curettage_desiccation", provenBasal()},
		{"a phrase that the row does not read", "technique-cycles-basal", "cycles = 3 and follow_up_days = 200", "treat", "curettage_desiccation", provenBasal()},
		{"a word", "technique-biopsy-other", "technique = shave_excision and specimen.method = saucerisation", "biopsy_first", "shave_excision", oddTag()},
		{"a word of a list", "aftercare-moist", "advice has keep_clean_and_moist|sun_protection", "treat", "electrodesiccation", plainCase()},
		{"a truth", "tissue-needless", "specimen.send", "treat", "shave_excision", plainCase()},
	} {
		t.Run(tt.name, func(t *testing.T) {
			local := []cases.LocalRule{{Rule: tt.rule, Value: tt.value, Reason: "a test"}}
			j, err := scoring.NewJudge(tables.Builtin, tt.c, local, "cautious")
			if err != nil {
				t.Fatal(err)
			}
			full := func(best []Best) bool {
				for _, b := range best {
					if b.Disposition == tt.disposition && b.Technique == tt.technique {
						return b.Points == b.Of
					}
				}
				t.Fatalf("no attempt at %s by %s", tt.disposition, tt.technique)
				return false
			}
			if !full(Solve(j, "t/t", local...).Best) {
				t.Errorf("%s: no plan with full marks by %s", tt.value, tt.technique)
			}
			if tt.name == "a number" && full(Solve(j, "t/t").Best) {
				t.Error("the value is met without being read, so this test shows nothing")
			}
		})
	}
}

// What the text of a value holds is found, in thousandths and bits.
func TestReadValue(t *testing.T) {
	w := readValue(tables.Builtin.Row("technique-rim-tumour"), "rim_mm >= 2.5 and not prep.agent in alcohol|povidone_iodine or specimen.send and advice has any crust_will_fall")
	if got := w.Numbers("rim_mm"); len(got) != 1 || got[0] != 2500 {
		t.Errorf("rim_mm: %v", got)
	}
	want := int64(1)<<cases.Vocab.Index("prep", "alcohol") | 1<<cases.Vocab.Index("prep", "povidone_iodine")
	if got := w.WordMasks("prep.agent"); len(got) != 1 || got[0] != want {
		t.Errorf("prep.agent: %v, want %v", got, want)
	}
	if got := w.WordMasks("advice"); len(got) != 1 || got[0] != 1<<cases.Vocab.Index("advice", "crust_will_fall") {
		t.Errorf("advice: %v", got)
	}
	if !w.Reads("specimen.send") || w.Reads("power_w") {
		t.Errorf("reads %v", w.reads)
	}
}
