package cases

import "strings"

// contrary pairs of features cannot both be true of one lesion.
var contrary = [][2]string{{"solitary", "multiple"}, {"well_defined", "ill_defined"}, {"soft", "firm"}}

// checkMade finds what well-formed tables may still have wrong: whatever could
// make a case that cannot be.
func checkMade(s *Sheet, tree *Value, t *madeTables) {
	if t.Version != MadeVersion {
		s.Errorf(tree.At("version"), "\"version\" is %d; this program composes version %d", t.Version, MadeVersion)
	}
	checkGrowth(s, tree, t)
	for i, l := range t.Levels {
		if l.Level != i+1 {
			s.Errorf(tree.At("levels", i, "level"), "the levels must run from 1 to 5; this is %d", l.Level)
		}
		checkRange(s, tree.At("levels", i), "hazards", l.Hazards)
	}
	if len(t.Levels) != 5 {
		s.Errorf(tree.At("levels"), "there are %d levels; 5 are needed", len(t.Levels))
	}
	for _, list := range [][]string{t.Titles.Small, t.Titles.Wide, t.Titles.Many} {
		if len(list) == 0 {
			s.Errorf(tree.At("titles"), "each of \"small\", \"wide\" and \"many\" needs a noun")
		}
	}
	areas := checkMadeSites(s, tree, t)
	numbers := map[int]bool{}
	for i := range t.Families {
		checkFamily(s, tree.At("families", i), t, &t.Families[i], numbers)
	}
	for i := range t.Hazards {
		checkHazard(s, tree.At("hazards", i), &t.Hazards[i])
	}
	for i, o := range t.Openings {
		at := tree.At("openings", i)
		checkRange(s, at, "ages", o.Ages)
		for _, text := range []string{o.One, o.Many} {
			if n := len([]rune(text)); n > maxOpening {
				s.Errorf(at, "%q has %d letters; at most %d are shown", text, n, maxOpening)
			}
		}
		for k, a := range o.Areas {
			if !areas[a] {
				s.Errorf(at.At("areas", k), "no site lies in the area %q", a)
			}
		}
	}
	for i := range t.Families {
		checkOpenings(s, tree.At("families", i), t, &t.Families[i])
	}
	for i := range t.Answers {
		checkAnswer(s, tree.At("answers", i), &t.Answers[i])
	}
}

// maxOpening is how many letters of a patient's words a list shows.
const maxOpening = 60

// checkOpenings sees that nobody of the family comes without a word to say.
func checkOpenings(s *Sheet, at *Value, t *madeTables, f *madeFamily) {
	if len(f.Openings) > 0 {
		return
	}
	for _, ages := range f.Ages {
		for age := ages.From; age <= ages.To; age++ {
			for _, bleeding := range []bool{false, true} {
				found := false
				for _, o := range t.Openings {
					open := o.Bleeding == bleeding && o.Sex == "" && !o.Raised && o.Areas == nil && o.Sites == nil
					found = found || open && len(o.Ages) == 2 && age >= o.Ages[0] && age <= o.Ages[1]
				}
				if !found {
					s.Errorf(at.At("ages"), "nobody of %d years has words to open with (bleeding %t)", age, bleeding)
				}
			}
		}
	}
}

func checkGrowth(s *Sheet, tree *Value, t *madeTables) {
	for i := 1; i < len(t.Growth); i++ {
		if t.Growth[i].AgeYears <= t.Growth[i-1].AgeYears {
			s.Errorf(tree.At("growth", i, "age_years"), "\"age_years\" is %d; it must be over the %d of the row before", t.Growth[i].AgeYears, t.Growth[i-1].AgeYears)
		}
	}
	if len(t.Growth) < 2 {
		s.Errorf(tree.At("growth"), "\"growth\" needs two rows or more")
	}
}

func checkMadeSites(s *Sheet, tree *Value, t *madeTables) (areas map[string]bool) {
	areas = map[string]bool{}
	seen := map[string]bool{}
	for i, site := range t.Sites {
		at := tree.At("sites", i)
		areas[site.Area] = true
		if seen[site.Site] {
			s.Errorf(at.At("site"), "the site %q stands twice", site.Site)
		}
		seen[site.Site] = true
		switch {
		case site.Sides != "pair" && site.Sides != "any":
			s.Errorf(at.At("sides"), "\"sides\" is %q; it may be pair or any", site.Sides)
		case (site.Sides == "pair") != strings.Contains(site.Where, "{side}"):
			s.Errorf(at.At("where"), "\"where\" needs {side} for a pair, and only then")
		}
	}
	for _, id := range Vocab.IDs("site") {
		if !seen[id] {
			s.Errorf(tree.At("sites"), "the site %q has no row", id)
		}
	}
	return areas
}

func checkFamily(s *Sheet, at *Value, t *madeTables, f *madeFamily, numbers map[int]bool) {
	if numbers[f.Number] {
		s.Errorf(at.At("number"), "the number %d stands twice; each family keeps its own for ever", f.Number)
	}
	numbers[f.Number] = true
	for i, a := range f.Ages {
		if a.From > a.To {
			s.Errorf(at.At("ages", i), "the ages run from %d down to %d", a.From, a.To)
		}
	}
	if len(f.Ages) == 0 || len(f.Always) == 0 {
		s.Errorf(at, "%q needs ages and features", f.Family)
	}
	if len(f.SkinTypes) != 6 {
		s.Errorf(at.At("skin_types"), "\"skin_types\" needs six weights, one for each type")
	}
	checkRange(s, at, "width_mm", f.WidthMM)
	checkRange(s, at, "height_mm", f.HeightMM)
	checkRange(s, at, "depth_mm", f.DepthMM)
	checkRange(s, at, "count", f.Count)
	open := false
	for i, w := range f.Sites {
		open = open || w.FromAge == 0 && w.FromSkinType == 0
		if len(f.WidthMM) == 2 && f.WidthMM[0] > widestMade(w.Site) {
			s.Errorf(at.At("sites", i), "%q begins at %s mm; at most %s is made on the %s", f.Family, f.WidthMM[0], widestMade(w.Site), w.Site)
		}
	}
	if !open {
		s.Errorf(at.At("sites"), "%q needs a site that is open to every age and skin", f.Family)
	}
	whole := append([]string(nil), f.Always...)
	for _, x := range f.Sometimes {
		whole = append(whole, x.Feature)
	}
	checkContrary(s, at.At("always"), whole)
	if f.AloneIn != nil && (contains(whole, "solitary") || contains(whole, "multiple")) {
		s.Errorf(at.At("alone_in_100"), "\"alone_in_100\" is given, yet the features say solitary or multiple already")
	}
	for i, o := range f.Odd {
		checkContrary(s, at.At("odd", i), append(without(whole, o.Without), o.Features...))
	}
	checkLooks(s, at, f)
	if r := f.Report; r != nil && (len(r.In100) != 5 || len(r.Specimens) == 0) {
		s.Errorf(at.At("report"), "\"report\" needs a share for each of the five levels, and a specimen")
	}
	for i, text := range f.Openings {
		if n := len([]rune(text)); n > maxOpening {
			s.Errorf(at.At("openings", i), "%q has %d letters; at most %d are shown", text, n, maxOpening)
		}
	}
	for i := range f.OwnAnswers {
		checkAnswer(s, at.At("ask", i), &f.OwnAnswers[i])
	}
}

func checkLooks(s *Sheet, at *Value, f *madeFamily) {
	for i, l := range f.Traps {
		trap := at.At("traps", i)
		if len(l.Features) == 0 {
			s.Errorf(trap, "a trap needs features, one of them a clue")
		}
		checkContrary(s, trap, l.Features)
		for k, site := range l.Sites {
			found := false
			for _, w := range f.Sites {
				found = found || w.Site == site
			}
			if !found {
				s.Errorf(trap.At("sites", k), "%q is not among the sites of %q", site, f.Family)
			}
		}
		if l.WidthMM != nil {
			checkRange(s, trap, "width_mm", l.WidthMM)
		}
		if l.HeightMM != nil {
			checkRange(s, trap, "height_mm", l.HeightMM)
		}
	}
}

func checkHazard(s *Sheet, at *Value, h *madeHazard) {
	checkRange(s, at, "ages", h.Ages)
	for _, key := range []struct {
		name string
		ints []int
	}{{"skin_types", h.SkinTypes}, {"weeks", h.Weeks}} {
		if key.ints != nil {
			checkRange(s, at, key.name, key.ints)
		}
	}
	if h.INR != nil {
		checkRange(s, at, "inr", h.INR)
	}
	if h.INR != nil && !contains(h.Medicines, "warfarin") {
		s.Errorf(at.At("inr"), "\"inr\" is given without warfarin")
	}
	if (h.Pregnant || h.Breastfeeding) && (h.Sex != "female" || len(h.Ages) == 2 && (h.Ages[0] < 12 || h.Ages[1] > 50)) {
		s.Errorf(at, "pregnancy and breastfeeding need \"sex\" female and ages within 12 and 50")
	}
	if h.Pregnant != (h.Weeks != nil) {
		s.Errorf(at, "\"pregnant\" and \"weeks\" go together")
	}
}

func checkAnswer(s *Sheet, at *Value, a *madeAnswer) {
	if a.Ages != nil {
		checkRange(s, at, "ages", a.Ages)
	}
	if len(a.Texts) == 0 {
		s.Errorf(at, "%q has no text", a.Topic)
	}
	if a.When == "" {
		return
	}
	c := &Case{Lesion: Lesion{Features: []string{a.When}}}
	facts := factsOf(c, a.Topic)
	if len(facts) == 0 {
		s.Errorf(at.At("when"), "the topic %q does not bring out %q", a.Topic, a.When)
	}
	for i, text := range a.Texts {
		for _, f := range facts {
			if !tells(text, f.tokens) {
				s.Errorf(at.At("texts", i), "%q does not tell of %s", text, f.label)
			}
		}
	}
}

func checkContrary(s *Sheet, at *Value, features []string) {
	for _, pair := range contrary {
		if contains(features, pair[0]) && contains(features, pair[1]) {
			s.Errorf(at, "the features hold both %s and %s", pair[0], pair[1])
		}
	}
}

func checkRange[N int | Milli](s *Sheet, at *Value, key string, r []N) {
	if len(r) != 2 || r[0] > r[1] {
		s.Errorf(at.At(key), "%q must be two numbers, the lower first", key)
	}
}

func without(list, dropped []string) []string {
	var kept []string
	for _, w := range list {
		if !contains(dropped, w) {
			kept = append(kept, w)
		}
	}
	return kept
}
