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

// verdictOf is what one row says of a plan, or "silent".
func verdictOf(t *testing.T, c *cases.Case, p *cases.Plan, rule string) string {
	t.Helper()
	if tables.Builtin.Row(rule) == nil {
		t.Fatalf("no row %q", rule)
	}
	j, err := NewJudge(tables.Builtin, c, nil, "cautious")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range j.Score(p, nil).Marks {
		if m.Row.Rule == rule {
			return m.Kind.String()
		}
	}
	return "silent"
}

// spot is an unproven lesion of a healthy grown-up.
func spot(family, site string, widthMM cases.Milli, features ...string) *cases.Case {
	c := tumour(family, site, widthMM, features...)
	c.Patient.AgeYears, c.Lesion.Report, c.Lesion.HeightMM = 45000, nil, 1500
	return c
}

func treating(technique string) *cases.Plan {
	return &cases.Plan{Disposition: "treat", Technique: technique}
}

func sampling(technique, method string) *cases.Plan {
	return &cases.Plan{Disposition: "biopsy_first", Technique: technique, Specimen: &cases.Specimen{Send: flag(true), Method: method}}
}

func referring(to string, days cases.Milli) *cases.Plan {
	return &cases.Plan{Disposition: "refer", Referral: &cases.Referral{To: to, WithinDays: number(days * 1000)}}
}

func leaving(care string) *cases.Plan { return &cases.Plan{Disposition: "leave", OtherCare: care} }

// with changes a copy of the case.
func with(c *cases.Case, change func(*cases.Case)) *cases.Case {
	changed := *c
	change(&changed)
	return &changed
}

func ill(c *cases.Case, history ...string) *cases.Case {
	return with(c, func(c *cases.Case) { c.Patient.History = history })
}

func aged(c *cases.Case, years cases.Milli) *cases.Case {
	return with(c, func(c *cases.Case) { c.Patient.AgeYears = years * 1000 })
}

func many(c *cases.Case, count cases.Milli) *cases.Case {
	return with(c, func(c *cases.Case) { c.Lesion.Count = number(count * 1000) })
}

// TestGuidanceRows holds single rows to what their source says, each from both
// sides of its line.
func TestGuidanceRows(t *testing.T) {
	injected := &cases.Anaesthetic{Injected: []cases.Injected{{Agent: "lidocaine", Percent: number(1000), VolumeML: number(1000)}}}
	numbed := func(technique string) *cases.Plan {
		p := treating(technique)
		p.Anaesthetic = injected
		return p
	}
	guarded := func(technique string, protection ...string) *cases.Plan {
		p := treating(technique)
		p.Protection = protection
		return p
	}
	unnumbed := sampling("punch_biopsy", "punch")
	unnumbed.Anaesthetic = &cases.Anaesthetic{None: flag(true)}
	labelled := referring("dermatology", 30)
	labelled.Record = []string{"specimen_labelled"}
	soothed := treating("snip_excision")
	soothed.Prescribe = []string{"pain_relief"}
	asked := treating("electrodesiccation")
	asked.Asked = []string{"illnesses"}
	const (
		growth = "tissue of a possible cancer reaches the deep dermis: National Comprehensive Cancer Network, Squamous Cell Skin Cancer, 2021"
		fibro  = "a suspected dermatofibrosarcoma is sampled first: National Comprehensive Cancer Network, 2025, J Natl Compr Canc Netw 23(1)"
		paint  = "no wart paint with diabetes or poor circulation: US Food and Drug Administration, 21 CFR 358.150, 1990"
		frost  = "frost wounds of the lower leg took 90 days: British Journal of Dermatology, 2000, 143:759"
		heart  = "recent pain goes to hospital: National Institute for Health and Care Excellence, CG95, 2010"
		spider = "extensive spiders: look at the liver: online medical textbook, Spider angioma: workup; JAMA, 2012, 307:832"
		child  = "child safety before the wart: Sexually Transmitted Infections, 2017, 93:267; the days are common practice"
		ak     = "frost, cream and light first: American Academy of Dermatology, 2021, J Am Acad Dermatol 85:e209"
		trees  = "54 % of lesions with tree-like vessels were basal cell carcinoma: Annals of Dermatology, 2017, 29:288"
		inr    = "no skin surgery over an INR of 3.5: British Journal of Dermatology, 2015, 172:597"
		noPain = "frost needs no injection: British Association of Dermatologists, leaflet, Cryotherapy"
		lid    = "children at the lid did better asleep: International Eye Science, 2018"
		custom = "common practice, no source"
	)
	ulcerated := spot("bcc_nodular", "back", 8000, "ulcerated")
	fibroma := spot("dermatofibroma", "thigh", 26000, "recent_change", "firm")
	sole := spot("plantar_wart", "sole", 5000, "warty")
	shaky := ill(spot("seborrhoeic_keratosis", "back", 9000), "unstable_heart_disease")
	crop := many(spot("spider_angioma", "chest", 5000), 5)
	girl := aged(spot("genital_wart", "genital", 3000), 5)
	bleeder := with(spot("common_wart", "finger", 5000), func(c *cases.Case) {
		c.Patient.Medicines, c.Patient.INR = []string{"warfarin"}, number(4200)
	})
	for _, tt := range []struct {
		rule   string
		c      *cases.Case
		p      *cases.Plan
		want   string
		source string
	}{
		{"technique-biopsy-growth", ulcerated, sampling("shave_excision", "shave"), "advice", growth},
		{"technique-biopsy-growth", ulcerated, sampling("shave_excision", "saucerisation"), "credit", growth},
		{"technique-biopsy-growth", ulcerated, sampling("curettage", "curettings"), "caution", growth},
		{"technique-biopsy-growth", spot("keratoacanthoma", "forearm", 14000, "horn_plugs"), sampling("shave_excision", "shave"), "advice", growth},
		{"technique-biopsy-growth", spot("bcc_nodular", "back", 8000, "pearly"), sampling("shave_excision", "shave"), "credit", growth},
		{"technique-biopsy-other", fibroma, sampling("shave_excision", "shave"), "advice", fibro},
		{"technique-biopsy-other", fibroma, sampling("fusiform_excision", "excision"), "advice", fibro},
		{"technique-biopsy-other", fibroma, sampling("punch_biopsy", "punch"), "credit", fibro},
		{"decision-dermatofibroma", fibroma, treating("fusiform_excision"), "caution", fibro},
		{"decision-dermatofibroma", fibroma, leaving("none"), "caution", fibro},
		{"decision-dermatofibroma", fibroma, referring("dermatology", 28), "credit", fibro},
		{"decision-dermatofibroma", spot("dermatofibroma", "thigh", 7000), treating("fusiform_excision"), "credit", fibro},
		{"anaesthesia-numb", spot("facial_telangiectasia", "cheek", 4000, "pearly"), unnumbed, "caution", custom},
		{"anaesthesia-tiny", spot("facial_telangiectasia", "cheek", 4000, "pearly"), unnumbed, "silent", custom},
		{"anaesthesia-needless-needle", spot("common_wart", "finger", 5000), numbed("cryotherapy"), "advice", noPain},
		{"anaesthesia-needless-needle", spot("common_wart", "finger", 5000), numbed("curettage"), "silent", noPain},
		{"anaesthesia-steroid-needle", spot("keloid", "ear", 9000), numbed("intralesional_steroid"), "advice", "cream eased the needle, the mixture did not: Dermatologic Surgery, 2017, 43:66"},
		{"patient-poor-leg-wound", ill(sole, "poor_circulation"), treating("cryotherapy"), "caution", frost},
		{"patient-poor-leg-wound", ill(sole, "poor_circulation"), leaving("freezing"), "caution", frost},
		{"patient-poor-leg-wound", ill(sole, "poor_circulation"), treating("keratolytic"), "silent", frost},
		{"patient-poor-leg-acid", ill(sole, "poor_circulation"), treating("keratolytic"), "caution", paint},
		{"patient-poor-leg-acid", ill(sole, "poor_circulation"), leaving("keratolytic"), "caution", paint},
		{"patient-poor-leg-acid", ill(sole, "diabetes"), leaving("keratolytic"), "advice", paint},
		{"patient-poor-leg-acid", sole, leaving("keratolytic"), "silent", paint},
		{"decision-refer-heart-to", shaky, referring("emergency", 0), "credit", heart},
		{"decision-refer-heart-to", shaky, referring("dermatology", 0), "advice", heart},
		{"decision-refer-heart-when", shaky, referring("emergency", 0), "credit", heart},
		{"decision-refer-heart-when", shaky, referring("emergency", 30), "caution", heart},
		{"decision-refer-other-to", shaky, referring("emergency", 0), "silent", heart},
		{"decision-refer-other-to", ill(shaky, "heart_disease"), referring("emergency", 0), "caution", custom},
		{"decision-spider-liver", crop, treating("electrodesiccation"), "advice", spider},
		{"decision-spider-liver", crop, asked, "credit", spider},
		{"decision-spider-liver", aged(crop, 9), asked, "silent", spider},
		{"decision-spider-liver-known", ill(crop, "liver_disease"), asked, "advice", custom},
		{"decision-refer-liver-to", crop, referring("other", 28), "credit", spider},
		{"decision-refer-liver-when", ill(crop, "liver_disease"), referring("other", 60), "advice", custom},
		{"decision-harmless", crop, referring("other", 28), "credit", spider},
		{"site-lid-still", aged(spot("skin_tag", "eyelid", 2000), 5), treating("snip_excision"), "advice", lid},
		{"site-lid-still", aged(spot("skin_tag", "eyelid", 2000), 5), referring("surgery", 60), "credit", lid},
		{"site-lid-still", spot("skin_tag", "eyelid", 2000), treating("snip_excision"), "silent", lid},
		{"site-lid-still-work", ill(spot("bcc_nodular", "eyelid", 4000, "pearly"), "dementia"), sampling("punch_biopsy", "punch"), "advice", lid},
		{"decision-refer-child-when", girl, referring("paediatrics", 7), "credit", child},
		{"decision-refer-child-when", girl, referring("paediatrics", 120), "caution", child},
		{"decision-refer-harmless-when", girl, referring("paediatrics", 120), "silent", child},
		{"room-heat-kit-needless", spot("skin_tag", "neck", 4000), guarded("snip_excision", "gloves", "respirator"), "advice", custom},
		{"room-heat-kit-needless", spot("skin_tag", "neck", 4000), guarded("electrodesiccation", "gloves", "respirator"), "silent", custom},
		{"room-smoke-others", with(spot("skin_tag", "neck", 4000), func(c *cases.Case) { c.Setting.SmokeEvacuator = false }), guarded("electrodesiccation", "respirator"), "advice", "smoke is caught at its source: National Institute for Occupational Safety and Health, HC11, 1996"},
		{"technique-actinic-keratosis", with(spot("actinic_keratosis", "forehead", 6000), func(c *cases.Case) { c.Lesion.HeightMM = 300 }), treating("curettage"), "advice", ak},
		{"technique-actinic-keratosis", spot("actinic_keratosis", "forehead", 6000), treating("curettage"), "credit", ak},
		{"technique-actinic-keratosis", spot("actinic_keratosis", "forehead", 6000), treating("cryotherapy"), "credit", ak},
		{"decision-growth-signs", spot("sebaceous_hyperplasia", "cheek", 3000, "branching_vessels"), treating("electrodesiccation"), "caution", trees},
		{"decision-growth-signs", spot("milia", "cheek", 1500, "solitary"), treating("nick_and_express"), "silent", trees},
		{"decision-growth-signs", spot("facial_telangiectasia", "cheek", 4000, "branching_vessels"), treating("electrodesiccation"), "silent", trees},
		{"decision-inr-high", bleeder, treating("cryotherapy"), "silent", inr},
		{"decision-inr-high", with(bleeder, func(c *cases.Case) { c.Lesion.Features = []string{"ulcerated"} }), sampling("punch_biopsy", "punch"), "caution", inr},
		{"tissue-record-label-false", spot("skin_tag", "neck", 4000), labelled, "caution", custom},
		{"aftercare-pain-relief-needless", spot("skin_tag", "neck", 4000), soothed, "advice", custom},
	} {
		if got := verdictOf(t, tt.c, tt.p, tt.rule); got != tt.want {
			t.Errorf("%s: %s %s %s by %s%s%s is %s, want %s: %s", tt.rule, tt.c.Lesion.Family, tt.c.Lesion.Site, tt.p.Disposition, tt.p.Technique,
				tt.p.OtherCare, referTo(tt.p), got, tt.want, tt.source)
		}
	}
}

func referTo(p *cases.Plan) string {
	if p.Referral == nil {
		return ""
	}
	return p.Referral.To
}
