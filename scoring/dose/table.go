package dose

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"leastwatt/cases"
)

// tableFormat is the format that this reader knows.
const tableFormat = "leastwatt.ceilings/1"

//go:embed ceilings.json
var ceilingsJSON []byte

// loaded is the built-in table, read when it is first needed.
var loaded = sync.OnceValue(func() *table {
	t, err := readTable("scoring/dose/ceilings.json", ceilingsJSON)
	if err != nil {
		panic(err) // the table is part of the program and is read by its tests
	}
	return t
})

// table is ceilings.json, with what the arithmetic needs at hand.
type table struct {
	rows   []*Row
	byRule map[string]*Row

	agents map[string]*agentRows // injected agents
	creams map[string]*[2][]*Row // topical agents, by label set

	adrenalineHealthy, adrenalineHeart          *Row
	strength, sum, mixing, reduce, infant       *Row
	noAge, lightNoAge, lightNoRate, capNeedsAge *Row
}

// agentRows are the rows of one injected agent: [us, uk][plain, with].
type agentRows struct {
	refusals, ceilings [2][2][]*Row
}

// sectionKeys are the keys that a row of each section may use besides those of
// every row.
var sectionKeys = map[Section][]string{
	SectionInjected: {
		"agent", "adrenaline", "labels", "age_from_years", "age_below_years", "weight_below_kg",
		"percent_over", "percent_to", "mg_per_kg", "cap_mg", "adrenaline_microg_per_kg",
	},
	SectionTopical: {
		"agent", "labels", "age_from_years", "age_below_years", "weight_over_kg",
		"max_g", "max_area_cm2", "minutes_from", "minutes_to",
	},
	SectionAdrenaline: {"heart_disease", "ceiling_microg"},
	SectionGeneral:    {"ratio_from", "ratio_to", "weight_below_kg"},
}

var commonKeys = []string{"rule", "kind", "says", "why", "notes", "source", "source_kind", "certainty"}

// readTable reads a table of ceilings, or returns [cases.Faults] that name
// the file, line and column of everything wrong with it.
func readTable(file string, data []byte) (*table, error) {
	tree, faults := cases.ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &cases.Sheet{File: file, Faults: faults}
	var raw struct {
		Format     string `json:"format" jsonschema:"required"`
		Injected   []Row  `json:"injected" jsonschema:"required"`
		Topical    []Row  `json:"topical" jsonschema:"required"`
		Adrenaline []Row  `json:"adrenaline" jsonschema:"required"`
		General    []Row  `json:"general" jsonschema:"required"`
	}
	cases.Decode(s, tree, &raw)
	if raw.Format != tableFormat {
		s.Errorf(tree.At("format"), "the format is %q; this reads %q", raw.Format, tableFormat)
	}
	t := &table{byRule: map[string]*Row{}, agents: map[string]*agentRows{}, creams: map[string]*[2][]*Row{}}
	sections := []struct {
		name Section
		rows []Row
	}{
		{SectionInjected, raw.Injected},
		{SectionTopical, raw.Topical},
		{SectionAdrenaline, raw.Adrenaline},
		{SectionGeneral, raw.General},
	}
	for _, section := range sections {
		for i := range section.rows {
			r := &section.rows[i]
			r.Section = section.name
			at := tree.At(string(section.name), i)
			if _, twice := t.byRule[r.Rule]; twice {
				s.Errorf(at.At("rule"), "the rule %q stands twice; give one another id", r.Rule)
			}
			t.rows = append(t.rows, r)
			t.byRule[r.Rule] = r
			checkRow(s, at, r)
		}
	}
	checkOverlaps(s, tree, raw.Injected, raw.Topical)
	t.index()
	t.pickReminders(s, tree)
	if len(s.Faults) > 0 {
		s.Faults.Sort()
		return nil, s.Faults
	}
	return t, nil
}

// checkRow checks one row against its section. at is the row's place.
func checkRow(s *cases.Sheet, at *cases.Value, r *Row) {
	for _, k := range at.Keys {
		here := &cases.Value{Line: k.Line, Column: k.Column}
		if !slices.Contains(commonKeys, k.Name) && !slices.Contains(sectionKeys[r.Section], k.Name) {
			s.Errorf(here, "the key %q has no meaning in the section %q", k.Name, r.Section)
		}
	}
	oneOf(s, at, "kind", r.Kind, kindsOf(r.Section)...)
	oneOf(s, at, "source_kind", r.SourceKind, "published", "common_practice", "memory")
	oneOf(s, at, "certainty", r.Certainty, "agreed", "sources_differ", "one_source", "common_practice", "memory")
	if (r.SourceKind == "memory") != (r.Certainty == "memory") {
		s.Errorf(at.At("certainty"), "%q: source_kind and certainty must both be memory, or neither", r.Rule)
	}
	if r.AgeBelowYears > 0 && r.AgeBelowYears <= r.AgeFromYears {
		s.Errorf(at.At("age_below_years"), "%q ends at %s years, which is not after its start at %s", r.Rule, r.AgeBelowYears, r.AgeFromYears)
	}
	if r.PercentTo > 0 && r.PercentTo <= r.PercentOver {
		s.Errorf(at.At("percent_to"), "%q ends at %s %%, which is not above its start at %s", r.Rule, r.PercentTo, r.PercentOver)
	}
	if r.MinutesTo > 0 && r.MinutesTo < r.MinutesFrom {
		s.Errorf(at.At("minutes_to"), "%q ends at %s minutes, before its start at %s", r.Rule, r.MinutesTo, r.MinutesFrom)
	}
	switch r.Section {
	case SectionInjected:
		checkAgent(s, at, r, "agent")
		oneOf(s, at, "adrenaline", r.Adrenaline, "plain", "with", "either")
		hasFigure := r.MgPerKg > 0 || r.CapMg > 0
		checkFigures(s, at, r, hasFigure, "mg_per_kg or cap_mg")
		if r.Kind == KindCeiling && r.PercentTo == 0 {
			s.Errorf(at, "%q needs percent_to, the strongest solution its label knows", r.Rule)
		}
		if r.Kind == KindCeiling && r.WeightBelowKg > 0 {
			s.Errorf(at.At("weight_below_kg"), "%q is a ceiling; only a refusal may go by weight", r.Rule)
		}
		if r.AdrenalineMicrogPerKg > 0 && r.Adrenaline != "with" {
			s.Errorf(at.At("adrenaline_microg_per_kg"), "%q limits adrenaline but is not for a solution with it", r.Rule)
		}
	case SectionTopical:
		checkAgent(s, at, r, "topical_agent")
		hasFigure := r.MaxG > 0 || r.MaxAreaCM2 > 0 || r.MinutesTo > 0 || r.MinutesFrom > 0
		checkFigures(s, at, r, hasFigure, "max_g, max_area_cm2, minutes_from or minutes_to")
	case SectionAdrenaline:
		if r.CeilingMicrog == 0 {
			s.Errorf(at, "%q needs ceiling_microg", r.Rule)
		}
	}
}

func kindsOf(section Section) []string {
	switch section {
	case SectionInjected, SectionTopical:
		return []string{KindCeiling, KindRefusal}
	case SectionAdrenaline:
		return []string{KindCaution}
	}
	return []string{KindCaution, KindRefusal}
}

func checkAgent(s *cases.Sheet, at *cases.Value, r *Row, vocabulary string) {
	if !cases.Vocab.Has(vocabulary, r.Agent) {
		s.Errorf(at.At("agent"), "%q: unknown agent %q; it must be one of %s", r.Rule, r.Agent, strings.Join(cases.Vocab.IDs(vocabulary), ", "))
	}
	oneOf(s, at, "labels", string(r.Labels), string(US), string(UK))
}

func checkFigures(s *cases.Sheet, at *cases.Value, r *Row, hasFigure bool, keys string) {
	switch {
	case r.Kind == KindCeiling && !hasFigure:
		s.Errorf(at, "%q is a ceiling without a figure; give %s", r.Rule, keys)
	case r.Kind == KindRefusal && hasFigure:
		s.Errorf(at, "%q refuses, so it may not give a figure", r.Rule)
	}
}

func oneOf(s *cases.Sheet, at *cases.Value, key, word string, words ...string) {
	if !slices.Contains(words, word) {
		s.Errorf(at.At(key), "%q is %q; it must be one of %s", key, word, strings.Join(words, ", "))
	}
}

// checkOverlaps finds two ceilings of one label that would hold for the same
// patient and solution: the answer would then depend on their order.
func checkOverlaps(s *cases.Sheet, tree *cases.Value, injected, topical []Row) {
	for i := range injected {
		for j := range i {
			if overlap(&injected[j], &injected[i]) {
				s.Errorf(tree.At("injected", i), "%q overlaps %q: both hold for the same patient and solution", injected[i].Rule, injected[j].Rule)
			}
		}
	}
	for i := range topical {
		for j := range i {
			a, b := &topical[j], &topical[i]
			if a.Agent != b.Agent || a.Labels != b.Labels || a.Kind != KindCeiling || b.Kind != KindCeiling {
				continue
			}
			if b.AgeFromYears <= a.AgeFromYears || b.WeightOverKg < a.WeightOverKg {
				s.Errorf(tree.At("topical", i), "%q must start at a higher age and no lower weight than %q before it", b.Rule, a.Rule)
			}
		}
	}
}

func overlap(a, b *Row) bool {
	sameUse := a.Adrenaline == b.Adrenaline || a.Adrenaline == "either" || b.Adrenaline == "either"
	return a.Kind == KindCeiling && b.Kind == KindCeiling &&
		a.Agent == b.Agent && a.Labels == b.Labels && sameUse &&
		below(a.AgeFromYears, b.AgeBelowYears) && below(b.AgeFromYears, a.AgeBelowYears) &&
		below(a.PercentOver, b.PercentTo) && below(b.PercentOver, a.PercentTo)
}

// below tells whether n lies under an end that is open when 0.
func below(n, end cases.Milli) bool { return end == 0 || n < end }

// index sorts the rows by agent, label set and adrenaline.
func (t *table) index() {
	for _, r := range t.rows {
		set := 0
		if r.Labels == UK {
			set = 1
		}
		switch r.Section {
		case SectionInjected:
			a := t.agents[r.Agent]
			if a == nil {
				a = &agentRows{}
				t.agents[r.Agent] = a
			}
			list := &a.ceilings[set]
			if r.Kind == KindRefusal {
				list = &a.refusals[set]
			}
			if r.Adrenaline != "with" {
				list[0] = append(list[0], r)
			}
			if r.Adrenaline != "plain" {
				list[1] = append(list[1], r)
			}
		case SectionTopical:
			c := t.creams[r.Agent]
			if c == nil {
				c = &[2][]*Row{}
				t.creams[r.Agent] = c
			}
			c[set] = append(c[set], r)
		}
	}
}

// pickReminders finds the rows that the arithmetic shows by name.
func (t *table) pickReminders(s *cases.Sheet, tree *cases.Value) {
	pick := func(into **Row, rule string, section Section, complete func(*Row) bool) {
		r := t.byRule[rule]
		switch {
		case r == nil || r.Section != section:
			s.Errorf(tree.At(string(section)), "the section %q lacks the row %q", section, rule)
		case !complete(r):
			s.Errorf(tree.At(string(section)), "the row %q lacks its figure", rule)
		}
		*into = r
	}
	always := func(*Row) bool { return true }
	weighed := func(r *Row) bool { return r.WeightBelowKg > 0 }
	pick(&t.adrenalineHealthy, "dose-adrenaline-healthy", SectionAdrenaline, func(r *Row) bool { return !r.HeartDisease })
	pick(&t.adrenalineHeart, "dose-adrenaline-heart", SectionAdrenaline, func(r *Row) bool { return r.HeartDisease })
	pick(&t.strength, "dose-adrenaline-strength", SectionGeneral, func(r *Row) bool { return r.RatioFrom > 0 && r.RatioTo >= r.RatioFrom })
	pick(&t.sum, "dose-sum-of-fractions", SectionGeneral, always)
	pick(&t.mixing, "dose-mixing-not-advised", SectionGeneral, always)
	pick(&t.reduce, "dose-reduce-no-figure", SectionGeneral, always)
	pick(&t.infant, "dose-infant-under-6-months", SectionGeneral, always)
	pick(&t.noAge, "dose-age-not-given", SectionGeneral, always)
	pick(&t.lightNoAge, "dose-light-without-age", SectionGeneral, weighed)
	pick(&t.capNeedsAge, "dose-cap-needs-age", SectionGeneral, weighed)
	pick(&t.lightNoRate, "dose-light-without-rate", SectionGeneral, weighed)
}

// String helps a failing test to print a row.
func (r *Row) String() string { return fmt.Sprintf("%s (%s: %s)", r.Rule, r.Applies(), r.Value()) }
