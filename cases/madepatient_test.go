package cases

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// growthBands are about the lightest and heaviest, and the shortest and
// tallest, one in 250 of an age: British growth charts (Royal College of
// Paediatrics and Child Health, UK-WHO growth charts, 2009 and 2012, London),
// from memory and widened by a tenth. The generator has a table of its own.
var growthBands = []struct {
	upTo                             Milli
	leastKG, mostKG, leastCM, mostCM Milli
}{
	{2000, 8500, 18000, 76000, 97000},
	{3000, 10000, 22000, 83000, 107000},
	{4000, 11500, 26000, 90000, 116000},
	{5000, 13000, 29000, 95000, 124000},
	{6000, 14000, 34000, 101000, 131000},
	{8000, 16000, 46000, 107000, 144000},
	{10000, 19000, 60000, 117000, 156000},
	{13000, 23000, 86000, 126000, 178000},
	{15000, 30000, 105000, 140000, 193000},
	{17000, 36000, 115000, 145000, 199000},
	{120000, 34000, 150000, 136000, 205000},
}

func TestNoImpossiblePatient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := compose(t, drawRecipe(t))
		p, l := &c.Patient, &c.Lesion
		age := p.AgeYears / 1000
		holds := func(ok bool, what string) {
			if !ok {
				t.Fatalf("%s: %s\n%s", c.ID, what, Canonical(c))
			}
		}
		for _, b := range growthBands {
			if p.AgeYears <= b.upTo {
				holds(p.WeightKG >= b.leastKG && p.WeightKG <= b.mostKG, "weight for the age")
				holds(*p.HeightCM >= b.leastCM && *p.HeightCM <= b.mostCM, "height for the age")
				break
			}
		}
		if age >= 18 {
			index := p.WeightKG * 10_000 / (*p.HeightCM * *p.HeightCM / 1000)
			holds(index >= 16 && index <= 45, "weight for the height")
		}
		holds(!p.Pregnant && !p.Breastfeeding || p.Sex == "female" && age >= 12 && age <= 50, "pregnancy by age and sex")
		holds(p.Pregnant == (p.GestationWeeks != nil) && !(p.Pregnant && p.Breastfeeding), "pregnancy and its weeks")
		holds(p.INR == nil || slices.Contains(p.Medicines, "warfarin"), "an INR only with warfarin")
		holds(count(p.Medicines, thinners) <= 1, "one blood thinner")
		holds(!p.HasThinner() || age >= 40 || slices.Contains(p.Medicines, "heparin") && age >= 30, "thinners by age")
		holds(age >= 18 || count(p.Medicines, Vocab.IDs("medicine")) == 0, "medicines by age")
		for _, d := range p.Devices {
			holds(age >= 25 || d.Kind == "cochlear_implant", "devices by age")
			holds(*d.DistanceCM >= 2000 && *d.DistanceCM <= 150_000 && *d.DistanceCM < *p.HeightCM, "a device within the body")
			holds(d.Site != l.Site || *d.DistanceCM <= 20_000, "a device in the same place is near")
		}
		holds(len(p.Devices) <= 1, "one device")
		if slices.Contains(p.History, "dementia") {
			holds(age >= 60, "dementia by age")
		}
		if count(p.History, []string{"heart_disease", "unstable_heart_disease", "poor_circulation", "prosthetic_valve", "joint_replacement"}) > 0 {
			holds(age >= 40, "heart, vessels and joints by age")
		}
		holds(!c.Setting.OxygenRunning || age >= 40, "oxygen by age")
		holds(l.WidthMM <= SiteByID(l.Site).MaxWidthMM, "width within the site")
		holds(l.Counted() == 1 || !slices.Contains(l.Features, "solitary"), "several that are solitary")
		for _, pair := range contrary {
			holds(!slices.Contains(l.Features, pair[0]) || !slices.Contains(l.Features, pair[1]), pair[0]+" and "+pair[1])
		}
		placed(c, holds)
	})
}

func count(list, of []string) int {
	n := 0
	for _, w := range list {
		if slices.Contains(of, w) {
			n++
		}
	}
	return n
}

// placed holds families to where and whom they come: common teaching, from
// memory, and stated here apart from the generator's table.
func placed(c *Case, holds func(bool, string)) {
	l, p := &c.Lesion, &c.Patient
	age := p.AgeYears / 1000
	at := func(sites ...string) bool { return slices.Contains(sites, l.Site) }
	switch l.Family {
	case "periungual_wart":
		holds(at("nail_fold"), "warts by the nail lie by the nail")
	case "plantar_wart":
		holds(at("sole", "toe"), "warts of the sole lie on it")
	case "genital_wart":
		holds(at("genital", "perianal", "groin") && age >= 16, "genital warts: place and age")
	case "leg_veins":
		holds(at("thigh", "knee", "shin", "calf", "ankle", "foot_back") && age >= 18, "leg veins lie on legs")
	case "facial_telangiectasia", "sebaceous_hyperplasia":
		holds(at("nose", "cheek", "nasolabial_fold", "chin", "forehead", "temple") && age >= 30, "a lesion of grown faces")
	case "venous_lake":
		holds(age >= 50 && at("lip", "ear", "cheek", "neck", "nose"), "venous lakes: old, and in the sun")
	case "dermatosis_papulosa_nigra":
		holds(p.SkinType >= 4, "a lesion of dark skin")
	case "actinic_keratosis":
		holds(p.SkinType <= 3 && age >= 45, "sun damage: fair and old")
	case "keloid", "hypertrophic_scar":
		holds(age >= 8 && age <= 65, "raised scars: age")
	case "bcc_nodular", "bcc_superficial", "bcc_infiltrative", "scc_invasive", "scc_in_situ", "keratoacanthoma", "cutaneous_horn":
		holds(age >= 40 && !at("palm", "sole"), "tumours of sunlit skin: age and place")
	case "melanoma", "pigmented_suspicious", "seborrhoeic_keratosis", "cherry_angioma", "skin_tag", "intradermal_naevus", "dermatofibroma", "syringoma":
		holds(age >= 18, "a lesion of grown people")
	}
	if at("genital", "perianal") {
		holds(age >= 16, "no child has a case of a private place")
	}
	if r := l.Report; r != nil {
		holds(OnlyByPathologist(l.Family) && r.Says == l.Family && r.Site == l.Site, "a report of the tumour that is there")
	}
}

func TestBodyDistance(t *testing.T) {
	// Chest to nose, chin to knee and the like on one's own body, cm, with a
	// tape: wide bands, no source.
	for _, c := range []struct {
		site, side, device string
		least, most        Milli
	}{
		{"nose", "midline", "chest", 22, 38},
		{"chest", "left", "chest", 0, 3},
		{"back", "left", "chest", 15, 25},
		{"abdomen", "midline", "chest", 15, 30},
		{"sole", "left", "chest", 110, 135},
		{"sole", "right", "chest", 110, 140},
		{"finger", "left", "chest", 45, 75},
		{"finger", "right", "chest", 50, 85},
		{"temple", "left", "postauricular", 4, 16},
		{"shoulder", "left", "chest", 8, 25},
		{"shoulder", "right", "chest", 15, 40},
		{"knee", "left", "buttock", 30, 55},
	} {
		if got := bodyDistance(172_000, c.site, c.side, c.device); got < c.least*1000 || got > c.most*1000 {
			t.Errorf("%s %s to a device in the %s: %s cm; %d to %d is likely", c.side, c.site, c.device, got, c.least, c.most)
		}
	}
}

func TestRoot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(0, 1<<50).Draw(t, "n")
		if r := root(n); r*r > n || (r+1)*(r+1) <= n {
			t.Fatalf("root(%d) = %d", n, r)
		}
	})
}
