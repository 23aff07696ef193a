package packs

import (
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
)

// builtIn reads every built-in pack. Warnings are told by
// TestEveryFolderIsNamedAndReads alone.
func builtIn(t testing.TB) []*cases.Pack {
	t.Helper()
	all, _ := readAll(t)
	return all
}

func readAll(t testing.TB) (all []*cases.Pack, warnings cases.Faults) {
	t.Helper()
	for _, name := range Names() {
		file := path.Join(name, "pack.json")
		data, err := fs.ReadFile(FS(), file)
		if err != nil {
			t.Fatal(err)
		}
		pack, _, sheet := cases.ReadPack(path.Join("cases/packs", file), data)
		for _, fault := range sheet.Faults {
			t.Errorf("fault: %v", fault)
		}
		warnings = append(warnings, sheet.Warnings...)
		if pack != nil {
			all = append(all, pack)
		}
	}
	return all, warnings
}

// everyCase lists the cases of all built-in packs as pack-id/case-id.
func everyCase(t testing.TB) map[string]*cases.Case {
	t.Helper()
	all := map[string]*cases.Case{}
	for _, pack := range builtIn(t) {
		for i := range pack.Cases {
			all[pack.ID+"/"+pack.Cases[i].ID] = &pack.Cases[i]
		}
	}
	return all
}

func TestEveryFolderIsNamedAndReads(t *testing.T) {
	folders, err := fs.ReadDir(FS(), ".")
	if err != nil {
		t.Fatal(err)
	}
	if len(folders) != len(Names()) {
		t.Errorf("%d folders are embedded, %d are named", len(folders), len(Names()))
	}
	for _, f := range folders {
		if !slices.Contains(Names(), f.Name()) {
			t.Errorf("the folder %q is embedded and not named", f.Name())
		}
	}
	all, warnings := readAll(t)
	for _, w := range warnings {
		t.Errorf("warning: %v", w)
	}
	for i, pack := range all {
		if pack.ID != Names()[i] {
			t.Errorf("the folder %q holds the pack %q", Names()[i], pack.ID)
		}
		if pack.Author != "Harrow Fell teaching clinic" || pack.Licence != "CC0-1.0" || pack.Language != "en-GB" {
			t.Errorf("%s: author %q, licence %q, language %q", pack.ID, pack.Author, pack.Licence, pack.Language)
		}
	}
}

func TestNamesCannotBeChangedFromOutside(t *testing.T) {
	Names()[0] = "other"
	if Names()[0] == "other" {
		t.Error("Names hands out the package's own list")
	}
}

// The spread that a first month of drilling needs.
func TestSpread(t *testing.T) {
	families, looks, sites, types, levels, sexes := map[string]int{}, map[string]int{}, map[string]int{}, map[int]int{}, map[int]int{}, map[string]int{}
	youngest, oldest := cases.Milli(120000), cases.Milli(0)
	all := everyCase(t)
	for _, c := range all {
		families[c.Lesion.Family]++
		looks[c.Lesion.Looks()]++
		sites[c.Lesion.Site]++
		types[c.Patient.SkinType]++
		levels[c.Level]++
		sexes[c.Patient.Sex]++
		youngest, oldest = min(youngest, c.Patient.AgeYears), max(oldest, c.Patient.AgeYears)
	}
	t.Logf("%d cases, %d families, %d by looks, %d sites, ages %s to %s", len(all), len(families), len(looks), len(sites), youngest, oldest)
	t.Logf("skin types %v, levels %v, sexes %v", types, levels, sexes)
	for _, want := range []struct {
		of        string
		got, most int
	}{
		{"cases", len(all), 86},
		{"families", len(families), len(cases.Vocab.List("family"))},
		{"sites", len(sites), 36},
		{"skin types", len(types), 6},
		{"levels", len(levels), 5},
		{"sexes", len(sexes), 2},
	} {
		if want.got < want.most {
			t.Errorf("%s: %d, at least %d wanted", want.of, want.got, want.most)
		}
	}
	for typ, n := range types {
		if n < 10 || 4*n > len(all) {
			t.Errorf("skin type %d has %d cases; at least 10 and at most a quarter wanted", typ, n)
		}
	}
	for family, n := range families {
		if n < 2 {
			t.Errorf("%s is there once; a family is met at least twice", family)
		}
	}
	for level := 1; level <= 5; level++ {
		if levels[level] < 5 {
			t.Errorf("level %d has %d cases; at least 5 wanted", level, levels[level])
		}
	}
	if youngest > 5000 || oldest < 95000 {
		t.Errorf("ages %s to %s; 5 to 95 wanted", youngest, oldest)
	}
}

func TestEveryTrapIsThere(t *testing.T) {
	has := slices.Contains[[]string]
	device := func(kind string) func(*cases.Case) bool {
		return func(c *cases.Case) bool {
			return slices.ContainsFunc(c.Patient.Devices, func(d cases.Device) bool { return d.Kind == kind })
		}
	}
	traps := []struct {
		name string
		is   func(*cases.Case) bool
	}{
		{"pacemaker within 15 cm", func(c *cases.Case) bool {
			return device("pacemaker")(c) && *c.Patient.Devices[0].DistanceCM < 15000
		}},
		{"defibrillator", device("defibrillator")},
		{"deep brain stimulator", device("deep_brain_stimulator")},
		{"alcohol in hair, scalp", func(c *cases.Case) bool { return c.Lesion.Site == "scalp" && has(c.Lesion.Features, "hair_bearing") }},
		{"alcohol in hair, axilla", func(c *cases.Case) bool { return c.Lesion.Site == "axilla" }},
		{"keratosis that is melanoma", func(c *cases.Case) bool {
			return c.Lesion.Family == "melanoma" && c.Lesion.LooksLike == "seborrhoeic_keratosis"
		}},
		{"tag that is not one", func(c *cases.Case) bool {
			return c.Lesion.Family != "skin_tag" && c.Lesion.LooksLike == "skin_tag"
		}},
		{"wart that is not one", func(c *cases.Case) bool {
			return strings.HasPrefix(c.Lesion.Family, "scc_") && strings.HasSuffix(c.Lesion.LooksLike, "_wart")
		}},
		{"leg veins", func(c *cases.Case) bool { return c.Lesion.Family == "leg_veins" }},
		{"tumour of the nose", func(c *cases.Case) bool { return c.Lesion.Site == "nose" && c.Lesion.Family == "bcc_nodular" }},
		{"many lesions in a light adult", func(c *cases.Case) bool {
			return c.Patient.AgeYears >= 18000 && c.Patient.WeightKG < 45000 && c.Lesion.Counted() >= 6
		}},
		{"many lesions in a light child", func(c *cases.Case) bool {
			return c.Patient.AgeYears < 14000 && c.Patient.WeightKG < 40000 && c.Lesion.Counted() >= 6
		}},
		{"report of an aggressive subtype", func(c *cases.Case) bool {
			return c.Lesion.Report != nil && c.Lesion.Report.Says == "bcc_infiltrative" && c.Lesion.LooksLike == "bcc_nodular"
		}},
		{"report of another place", func(c *cases.Case) bool {
			r := c.Lesion.Report
			return r != nil && (r.Site != c.Lesion.Site || r.Side != c.Lesion.Side)
		}},
		{"keloid of the chest", func(c *cases.Case) bool { return c.Lesion.Family == "keloid" && c.Lesion.Site == "chest" }},
		{"harmless lesion where keloids form", func(c *cases.Case) bool {
			return has(c.Patient.History, "keloid") && c.Lesion.Family != "keloid"
		}},
		{"oxygen running", func(c *cases.Case) bool { return c.Setting.OxygenRunning }},
		{"metal table", func(c *cases.Case) bool { return c.Setting.MetalTable }},
		{"unit with a return plate", func(c *cases.Case) bool { return c.Setting.Unit != nil && c.Setting.Unit.Return == "plate" }},
		{"high INR", func(c *cases.Case) bool { return c.Patient.INR != nil && *c.Patient.INR > 3500 }},
		{"INR in range", func(c *cases.Case) bool { return c.Patient.INR != nil && *c.Patient.INR <= 3500 }},
		{"pyogenic granuloma in pregnancy", func(c *cases.Case) bool {
			return c.Patient.Pregnant && c.Lesion.Family == "pyogenic_granuloma"
		}},
		{"sebaceous hyperplasia", func(c *cases.Case) bool { return c.Lesion.Looks() == "sebaceous_hyperplasia" }},
		{"periungual wart", func(c *cases.Case) bool { return c.Lesion.Family == "periungual_wart" }},
		{"plantar wart", func(c *cases.Case) bool { return c.Lesion.Family == "plantar_wart" }},
		{"molluscum in a child", func(c *cases.Case) bool {
			return c.Lesion.Family == "molluscum" && c.Patient.AgeYears < 12000
		}},
		{"papulosa nigra on dark skin", func(c *cases.Case) bool {
			return c.Lesion.Family == "dermatosis_papulosa_nigra" && c.Patient.SkinType >= 5
		}},
		{"immune suppressed", func(c *cases.Case) bool { return has(c.Patient.History, "immune_suppressed") }},
		{"infected", func(c *cases.Case) bool { return has(c.Lesion.Features, "infected") }},
		{"sulphite allergy", func(c *cases.Case) bool { return has(c.Patient.Allergies, "sulphite") }},
		{"latex allergy", func(c *cases.Case) bool { return has(c.Patient.Allergies, "latex") }},
		{"amide allergy", func(c *cases.Case) bool { return has(c.Patient.Allergies, "amide") }},
		{"someone else decides", func(c *cases.Case) bool { return has(c.Patient.History, "dementia") }},
	}
	all := everyCase(t)
	for _, trap := range traps {
		n := 0
		for _, c := range all {
			if trap.is(c) {
				n++
			}
		}
		if n == 0 {
			t.Errorf("no case holds the trap: %s", trap.name)
		}
	}
	t.Logf("%d kinds of trap", len(traps))
}
