package skin

import (
	"flag"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Contact sheets for a person to look at:
//
//	go test -run Sheet -sheet /some/folder -only cherry_angioma,skin_tag -types 2,5 -px 400 -exams 0,1,3
var (
	sheetDir   = flag.String("sheet", "", "folder to write contact sheets to")
	sheetOnly  = flag.String("only", "", "families, comma-separated; empty = all; \"skin\" = plain skin by site")
	sheetTypes = flag.String("types", "2,5", "skin types")
	sheetExams = flag.String("exams", "0", "examinations by number")
	sheetPx    = flag.Int("px", 400, "pixels per picture")
	sheetSites = flag.String("sites", "", "sites; empty = the family's example")
	sheetSeed  = flag.Uint64("seed", 0, "added to the seed")
	sheetName  = flag.String("name", "sheet.png", "file name")
	sheetFeats = flag.String("features", "", "features to add")
)

func TestSheet(t *testing.T) {
	if *sheetDir == "" {
		t.Skip("no -sheet folder")
	}
	var subjects []Subject
	var views []View
	types := strings.Split(*sheetTypes, ",")
	exams := strings.Split(*sheetExams, ",")
	only := strings.Split(*sheetOnly, ",")
	add := func(s Subject) {
		for _, ty := range types {
			for _, e := range exams {
				s := s
				s.SkinType, _ = strconv.Atoi(ty)
				s.Seed += *sheetSeed
				if *sheetFeats != "" {
					s.Features = append(slices.Clone(s.Features), strings.Split(*sheetFeats, ",")...)
				}
				n, _ := strconv.Atoi(e)
				v := DefaultView(s, *sheetPx)
				v.Exam = Exam(n)
				subjects, views = append(subjects, s), append(views, v)
			}
		}
	}
	if *sheetOnly == "skin" {
		for _, site := range strings.Split(*sheetSites, ",") {
			add(Subject{Site: site, Seed: 5, AgeYears: 45, WidthMM: 8})
		}
	} else {
		for _, s := range examples() {
			if *sheetOnly == "" || slices.Contains(only, s.Family) {
				if *sheetSites != "" {
					s.Site = *sheetSites
				}
				add(s)
			}
		}
	}
	if len(subjects) == 0 {
		t.Fatal("nothing to draw")
	}
	per := len(types) * len(exams)
	cols := per * max(1, 4/per)
	if len(subjects) < cols {
		cols = len(subjects)
	}
	px := *sheetPx
	sheet := image.NewRGBA(image.Rect(0, 0, cols*px, (len(subjects)+cols-1)/cols*px))
	for i, s := range subjects {
		at := image.Rect(0, 0, px, px).Add(image.Pt(i%cols*px, i/cols*px))
		draw.Draw(sheet, at, Draw(s, views[i]), image.Point{}, draw.Src)
	}
	writePNG(t, filepath.Join(*sheetDir, *sheetName), sheet)
}

func writePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

// example is a typical subject of a family.
func example(family, site string, width, height, age float64, count int, features ...string) Subject {
	return Subject{
		SkinType: 2, AgeYears: age, Site: site, Family: family, WidthMM: width, HeightMM: height,
		Count: count, Features: features, Seed: 7,
	}
}

// examples lists one typical subject for every family.
func examples() []Subject {
	return []Subject{
		example("cherry_angioma", "chest", 4, 0.9, 52, 1),
		example("seborrhoeic_keratosis", "back", 12, 1.6, 66, 1, "stuck_on", "horn_plugs"),
		example("bcc_nodular", "temple", 7, 1.8, 71, 1, "pearly", "branching_vessels", "ulcerated"),
		example("skin_tag", "neck", 4, 3, 48, 1, "on_a_stalk"),
		example("facial_telangiectasia", "nose", 10, 0, 55, 5, "blanches"),
		example("spider_angioma", "cheek", 7, 0.3, 28, 1, "blanches"),
		example("dermatosis_papulosa_nigra", "cheek", 2.5, 0.8, 45, 14, "multiple"),
		example("intradermal_naevus", "chin", 6, 2, 44, 1, "soft"),
		example("pigmented_suspicious", "back", 9, 0.3, 39, 1, "irregular_pigment"),
		example("melanoma", "calf", 9, 0.6, 58, 1, "asymmetric", "many_colours"),
		example("common_wart", "finger", 6, 2, 17, 1, "warty"),
		example("pyogenic_granuloma", "hand_back", 7, 4, 24, 1, "bleeding"),
		example("sebaceous_hyperplasia", "forehead", 4, 1, 61, 3, "umbilicated"),
		example("actinic_keratosis", "forehead", 9, 0.3, 74, 1, "ill_defined"),
		example("scc_in_situ", "shin", 14, 0.6, 77, 1, "well_defined"),
		example("bcc_superficial", "back", 14, 0.2, 63, 1, "well_defined"),
		example("leg_veins", "thigh", 22, 0, 51, 5),
		example("keloid", "chest", 25, 4, 27, 1, "firm"),
		example("venous_lake", "lip", 5, 1.5, 68, 1, "blanches"),
		example("molluscum", "abdomen", 4, 1.6, 7, 5, "umbilicated", "multiple"),
		example("filiform_wart", "chin", 4, 4, 23, 1, "warty"),
		example("plantar_wart", "sole", 8, 0.2, 19, 1, "warty"),
		example("cutaneous_horn", "ear", 6, 8, 76, 1, "firm"),
		example("bcc_infiltrative", "nasolabial_fold", 12, 0.4, 69, 1, "ill_defined", "indurated"),
		example("keratoacanthoma", "forearm", 15, 6, 70, 1, "horn_plugs"),
		example("scc_invasive", "scalp", 16, 5, 79, 1, "ulcerated", "indurated"),
		example("syringoma", "eyelid", 2, 0.5, 36, 14, "multiple"),
		example("milia", "eyelid", 1.5, 0.6, 33, 6, "multiple"),
		example("dermatofibroma", "shin", 7, 0.8, 38, 1, "dimples_when_pinched", "firm"),
		example("genital_wart", "genital", 5, 2.5, 26, 4, "multiple"),
		example("periungual_wart", "nail_fold", 7, 1.5, 15, 1, "warty"),
		example("hypertrophic_scar", "shoulder", 24, 2.5, 31, 1, "firm"),
		example("wound_bleeding", "forearm", 9, 0, 42, 1, "bleeding"),
	}
}

func BenchmarkDraw512(b *testing.B) {
	for _, s := range examples() {
		b.Run(s.Family, func(b *testing.B) {
			v := DefaultView(s, 512)
			for b.Loop() {
				Draw(s, v)
			}
		})
	}
}
