package cases

import (
	"strings"
	"time"
)

// checkPack finds what a well-formed pack may still have wrong.
func checkPack(s *Sheet, tree *Value, p *Pack) {
	if v := tree.Get("format"); v != nil && p.Format != "" && p.Format != PackFormat {
		s.Errorf(v, "\"format\" is %q; this reads %q", short(p.Format), PackFormat)
	}
	if v := tree.Get("cases"); v != nil && v.Kind == List && len(v.Items) == 0 {
		s.Errorf(v, "\"cases\" is empty; a pack holds at least one case")
	}
	for i, r := range p.LocalRules {
		if _, err := time.Parse(time.DateOnly, r.Date); err != nil && r.Date != "" {
			s.Errorf(tree.At("local_rules", i, "date"), "\"local_rules[%d].date\" is %q; write it like 2026-11-25", i, short(r.Date))
		}
	}
	if p.Assessment != nil {
		checkAssessment(s, tree.At("assessment"), p.Assessment)
	}
	firstAt := map[string]*Value{}
	for i := range p.Cases {
		c := &p.Cases[i]
		at := tree.At("cases", i)
		checkCase(s, at, c)
		if c.ID == "" {
			continue
		}
		if first, twice := firstAt[c.ID]; twice {
			s.Errorf(at.At("id"), "the case id %q stands twice; the first is at line %d", c.ID, first.Line)
		} else {
			firstAt[c.ID] = at.At("id")
		}
	}
}

func checkCase(s *Sheet, at *Value, c *Case) {
	l := &c.Lesion
	if widest := SiteByID(l.Site).MaxWidthMM; widest > 0 && l.WidthMM > widest {
		s.Errorf(at.At("lesion", "width_mm"), "\"lesion.width_mm\" is %s, wider than the %s; at most %s fits there",
			l.WidthMM, Vocab.Label("site", l.Site, UK), widest)
	}
	p := &c.Patient
	if p.GestationWeeks != nil && !p.Pregnant {
		s.Errorf(at.At("patient", "gestation_weeks"), "\"patient.gestation_weeks\" is given, yet \"pregnant\" is not true")
	}
	if p.Pregnant && p.Sex == "male" {
		s.Errorf(at.At("patient", "pregnant"), "\"patient.pregnant\" is true for a male patient")
	}
	if p.INR != nil && !contains(p.Medicines, "warfarin") {
		s.Warnf(at.At("patient", "inr"), "\"patient.inr\" is given, yet \"medicines\" holds no warfarin")
	}
	if n := int(p.AgeYears / 1000); n >= 18 && p.WeightKG > 0 && p.WeightKG < 25000 {
		s.Warnf(at.At("patient", "weight_kg"), "\"patient.weight_kg\" is %s for an adult; is that meant?", p.WeightKG)
	}
	if u := c.Setting.Unit; u != nil && u.MaxW != nil && u.StepW != nil && *u.StepW > *u.MaxW {
		s.Errorf(at.At("setting", "unit", "step_w"), "\"setting.unit.step_w\" is larger than \"max_w\"")
	}
	checkAnswers(s, at, c)
	checkTitle(s, at, c)
}

// checkAnswers warns when an author's words for a topic leave out the fact
// that the topic is there to reveal: the trainee could not know it.
func checkAnswers(s *Sheet, at *Value, c *Case) {
	for _, topic := range Vocab.IDs("topic") {
		words, ok := c.Ask[topic]
		if !ok {
			continue
		}
		for _, fact := range factsOf(c, topic) {
			if !tells(words, fact.tokens) {
				s.Warnf(at.At("ask", topic), "the answer to %q does not tell of %s, which the case holds; a trainee cannot know it", topic, fact.label)
			}
		}
	}
}

// checkTitle warns when the title gives the diagnosis away.
func checkTitle(s *Sheet, at *Value, c *Case) {
	title := strings.ToLower(c.Title)
	names := []string{c.Truth.Diagnosis}
	for _, family := range []string{c.Lesion.Family, c.Lesion.Looks()} {
		names = append(names, Vocab.Label("family", family, UK), Vocab.Label("family", family, US))
	}
	for _, name := range names {
		if name != "" && strings.Contains(title, strings.ToLower(name)) {
			s.Warnf(at.At("title"), "\"title\" names the %s; a title tells no diagnosis", strings.ToLower(name))
			return
		}
	}
}

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}
