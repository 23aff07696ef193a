package scoring

import (
	"testing"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// tumour is a proven tumour as the guidance below describes it.
func tumour(says, site string, widthMM cases.Milli, features ...string) *cases.Case {
	return &cases.Case{
		ID:      "tumour",
		Patient: cases.Patient{AgeYears: 68000, WeightKG: 80000, Sex: "male", SkinType: 2},
		Setting: cases.Setting{SmokeEvacuator: true, PathologyService: true},
		Lesion: cases.Lesion{
			Family: says, Site: site, WidthMM: widthMM, Features: append([]string{"well_defined"}, features...),
			Report: &cases.Report{DaysAgo: 14000, Specimen: "punch", Site: site, Says: says},
		},
	}
}

// worst is the worst kind that a plan draws in the given domains.
func worst(t *testing.T, c *cases.Case, p *cases.Plan, domains ...string) (tables.Kind, string) {
	t.Helper()
	j, err := NewJudge(tables.Builtin, c, nil, "cautious")
	if err != nil {
		t.Fatal(err)
	}
	kind, rule := tables.Credit, ""
	for _, m := range j.Score(p, nil).Marks {
		for _, d := range domains {
			if m.Row.Domain == d && m.Kind > kind {
				kind, rule = m.Kind, m.Row.Rule
			}
		}
	}
	return kind, rule
}

func flag(b bool) *bool { return &b }

// TestCurettageGuidance holds the tables to published guidance on where and
// for what curettage with desiccation does not suit. Want says the least that
// choosing it must draw among decision, technique and site.
func TestCurettageGuidance(t *testing.T) {
	curettage := &cases.Plan{
		Disposition: "treat", Technique: "curettage_desiccation", Electrode: "fine", Output: "low", Contact: "touch",
		PowerW: number(7000), ActivationS: number(2000), Cycles: number(3000), RimMM: number(3000),
		Specimen: &cases.Specimen{Send: flag(true), Method: "curettings", Labels: flag(true), ResultOwner: "me"},
		Record:   []string{"consent", "site_confirmed", "border_marked", "specimen_labelled", "site_photograph"},
		Asked:    []string{"past_biopsy", "biopsy_report", "immune", "healing", "change", "keloids"},
	}
	burnt := *curettage
	burnt.Specimen = &cases.Specimen{Send: flag(false), Method: "none"}
	immune := tumour("bcc_nodular", "back", 8000)
	immune.Patient.History = []string{"immune_suppressed"}
	unproven := tumour("bcc_nodular", "back", 8000, "pearly")
	unproven.Lesion.Report = nil
	for _, tt := range []struct {
		name   string
		c      *cases.Case
		want   tables.Kind
		source string
	}{
		{"nodular, back, 8 mm", tumour("bcc_nodular", "back", 8000), tables.Credit, "American Academy of Dermatology, Guidelines of care for basal cell carcinoma, 2018, J Am Acad Dermatol 78:540: may be considered for low-risk, non-terminal-hair skin"},
		{"superficial, upper arm, 12 mm", tumour("bcc_superficial", "upper_arm", 12000), tables.Credit, "as above"},
		{"in situ, calf, 10 mm", tumour("scc_in_situ", "calf", 10000), tables.Credit, "Cancer Council Australia, keratinocyte cancer guideline, 9.2: a reasonable choice on trunk and limb"},
		{"infiltrative, back", tumour("bcc_infiltrative", "back", 7000), tables.Caution, "Dermatologic Surgery, 2013, 39:719: 27 % of aggressive subtypes came back"},
		{"nose, 8 mm", tumour("bcc_nodular", "nose", 8000), tables.Caution, "National Comprehensive Cancer Network, Basal Cell Skin Cancer, 2021: mask area is high-risk"},
		{"nasolabial fold, 5 mm", tumour("bcc_nodular", "nasolabial_fold", 5000), tables.Caution, "as above; Silverman and others, J Dermatol Surg Oncol, 1991, 17:720: high-risk site"},
		{"inner canthus, 4 mm", tumour("bcc_nodular", "inner_canthus", 4000), tables.Caution, "as above"},
		{"eyelid, 4 mm", tumour("bcc_nodular", "eyelid", 4000), tables.Caution, "as above"},
		{"lip, 6 mm", tumour("scc_in_situ", "lip", 6000), tables.Caution, "as above"},
		{"ear, 9 mm", tumour("bcc_nodular", "ear", 9000), tables.Caution, "as above"},
		{"scalp, hair", tumour("bcc_nodular", "scalp", 8000, "hair_bearing"), tables.Caution, "American Academy of Dermatology, 2018, J Am Acad Dermatol 78:540: not in terminal-hair skin"},
		{"cheek, 14 mm", tumour("bcc_nodular", "cheek", 14000), tables.Caution, "National Comprehensive Cancer Network, 2021: cheek is high-risk from 10 mm"},
		{"back, 25 mm", tumour("bcc_nodular", "back", 25000), tables.Caution, "National Comprehensive Cancer Network, 2021: trunk is high-risk from 20 mm"},
		{"recurrent, back", tumour("bcc_nodular", "back", 8000, "recurrent"), tables.Caution, "J Dermatol Surg Oncol, 1989, 15:424: about 40 % of recurrent tumours came back after curettage"},
		{"irradiated, back", tumour("bcc_nodular", "back", 8000, "irradiated"), tables.Caution, "National Comprehensive Cancer Network, 2021: prior radiotherapy is high-risk"},
		{"immune suppressed", immune, tables.Caution, "National Comprehensive Cancer Network, 2021: immune suppression is high-risk"},
		{"ill-defined, back", tumour("bcc_nodular", "back", 8000, "ill_defined"), tables.Caution, "National Comprehensive Cancer Network, 2021: an ill-defined border is high-risk"},
		{"invasive squamous, hand", tumour("scc_invasive", "hand_back", 12000), tables.Caution, "American Academy of Dermatology, Guidelines of care for squamous cell carcinoma, 2018, J Am Acad Dermatol 78:560: excision first"},
		{"melanoma, back", tumour("melanoma", "back", 8000), tables.Caution, "American Academy of Dermatology, melanoma, 2019, J Am Acad Dermatol 80:208: excise"},
		{"no tissue diagnosis, nothing sent", unproven, tables.Caution, "JAMA Dermatology, 2013, 149:980: diagnose with tissue"},
	} {
		p := curettage
		if tt.c == unproven {
			p = &burnt // with curettings sent the same visit is accepted
		}
		kind, rule := worst(t, tt.c, p, "decision", "technique", "site", "tissue")
		if tt.want == tables.Credit && kind > tables.Advice || kind < tt.want {
			t.Errorf("%s: %s (%s), want %s: %s", tt.name, kind, rule, tt.want, tt.source)
		}
	}
}

// TestTradeFigures: figures of the trade, common practice, no source. Each
// dial setting draws credit, and four times the power draws more than advice.
func TestTradeFigures(t *testing.T) {
	for _, tt := range []struct {
		name, family, site string
		widthMM            cases.Milli
		says               string
		technique, contact string
		powerW, seconds    cases.Milli
		cycles             cases.Milli
	}{
		{"small cherry angioma, about 2 W", "cherry_angioma", "abdomen", 2000, "", "electrodesiccation", "touch", 2000, 1000, 1000},
		{"facial telangiectasia, about 2 W for about a second", "facial_telangiectasia", "cheek", 1000, "", "electrodesiccation", "touch", 2000, 1000, 1000},
		{"small skin tag, 1 to 3 W for under a second", "skin_tag", "neck", 2000, "", "electrodesiccation", "touch", 2000, 500, 1000},
		{"seborrhoeic keratosis, about 4 W", "seborrhoeic_keratosis", "back", 9000, "", "electrofulguration", "gap", 4000, 1000, 1000},
		{"base of a basal cell carcinoma, about 7 W, three cycles", "bcc_nodular", "back", 8000, "bcc_nodular", "curettage_desiccation", "touch", 7000, 2000, 3000},
	} {
		c := tumour(tt.family, tt.site, tt.widthMM)
		if tt.says == "" {
			c.Lesion.Report = nil
		}
		p := &cases.Plan{
			Disposition: "treat", Technique: tt.technique, Contact: tt.contact, Electrode: "fine", Output: "low",
			PowerW: number(tt.powerW), ActivationS: number(tt.seconds), Cycles: number(tt.cycles),
		}
		if kind, rule := worst(t, c, p, "power"); kind != tables.Credit {
			t.Errorf("%s: %s (%s), want credit", tt.name, kind, rule)
		}
		p.PowerW = number(min(35000, tt.powerW*4))
		if kind, rule := worst(t, c, p, "power"); kind < tables.Advice {
			t.Errorf("%s: at four times the power %s (%s), want at least advice", tt.name, kind, rule)
		}
	}
}

// TestTradeSayings are facts of the trade that some row must say: common
// practice, no source, unless the row names one.
func TestTradeSayings(t *testing.T) {
	for _, tt := range []struct{ rule, about string }{
		{"power-coagulation-more", "coagulation needs more power than destruction"},
		{"technique-recurrence", "up to about 1 in 10 come back after curettage and desiccation"},
		{"power-start-low", "start low and step up"},
	} {
		if tables.Builtin.Row(tt.rule) == nil {
			t.Errorf("no row %q says that %s", tt.rule, tt.about)
		}
	}
}
