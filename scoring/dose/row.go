package dose

import (
	"strings"

	"leastwatt/cases"
)

// Labels names whose figures are used.
type Labels string

// The label sets.
const (
	Cautious Labels = "cautious"
	US       Labels = "us"
	UK       Labels = "uk"
)

// Known tells whether l is one of the three label sets.
func (l Labels) Known() bool { return l == Cautious || l == US || l == UK }

// Section is the part of the table a row stands in.
type Section string

// The sections, in table order.
const (
	SectionInjected   Section = "injected"   // limits of an agent that is injected
	SectionTopical    Section = "topical"    // limits of a cream or gel
	SectionAdrenaline Section = "adrenaline" // customary ceilings, reminders only
	SectionGeneral    Section = "general"    // reading rules and reminders
)

// Kinds of row.
const (
	KindCeiling = "ceiling" // the label gives a limit
	KindRefusal = "refusal" // the label rules it out
	KindCaution = "caution" // a reminder that changes no limit
)

// Row is one row of ceilings.json. A number that its source does not state is
// 0. [cases.Milli] holds thousandths: mg_per_kg in micrograms per kilogram,
// cap_mg in micrograms, weights in grams, percents in thousandths of a percent.
type Row struct {
	Section Section `json:"-"`

	Rule       string   `json:"rule" jsonschema:"required" form:"id"`
	Kind       string   `json:"kind" jsonschema:"required"`
	Says       string   `json:"says" jsonschema:"required"` // one plain sentence
	Why        string   `json:"why" jsonschema:"required"`  // two or three that teach
	Notes      []string `json:"notes"`                      // cautions shown whenever the row applies
	Source     string   `json:"source" jsonschema:"required"`
	SourceKind string   `json:"source_kind" jsonschema:"required"` // published, common_practice, memory
	Certainty  string   `json:"certainty" jsonschema:"required"`   // agreed, sources_differ, one_source, common_practice, memory

	Agent      string `json:"agent"`
	Adrenaline string `json:"adrenaline"` // plain, with, either
	Labels     Labels `json:"labels"`     // us, uk

	AgeFromYears  cases.Milli `json:"age_from_years" jsonschema:"minimum=0,maximum=120,multipleOf=0.01"`
	AgeBelowYears cases.Milli `json:"age_below_years" jsonschema:"minimum=0.01,maximum=120,multipleOf=0.01"` // 0: no end
	WeightBelowKg cases.Milli `json:"weight_below_kg" jsonschema:"minimum=0.5,maximum=400"`                  // 0: no end
	WeightOverKg  cases.Milli `json:"weight_over_kg" jsonschema:"minimum=0.5,maximum=400"`
	PercentOver   cases.Milli `json:"percent_over" jsonschema:"minimum=0.001,maximum=20"`
	PercentTo     cases.Milli `json:"percent_to" jsonschema:"minimum=0.001,maximum=20"` // 0: any strength

	MgPerKg               cases.Milli `json:"mg_per_kg" jsonschema:"minimum=0.1,maximum=60"`
	CapMg                 cases.Milli `json:"cap_mg" jsonschema:"minimum=1,maximum=5000"`
	AdrenalineMicrogPerKg cases.Milli `json:"adrenaline_microg_per_kg" jsonschema:"minimum=0.1,maximum=20"`
	MaxG                  cases.Milli `json:"max_g" jsonschema:"minimum=0.1,maximum=100"`
	MaxAreaCM2            cases.Milli `json:"max_area_cm2" jsonschema:"minimum=1,maximum=1000,multipleOf=1"`
	MinutesFrom           cases.Milli `json:"minutes_from" jsonschema:"minimum=1,maximum=600,multipleOf=1"`
	MinutesTo             cases.Milli `json:"minutes_to" jsonschema:"minimum=1,maximum=600,multipleOf=1"`
	HeartDisease          bool        `json:"heart_disease"`
	CeilingMicrog         cases.Milli `json:"ceiling_microg" jsonschema:"minimum=1,maximum=1000"`
	RatioFrom             int         `json:"ratio_from" jsonschema:"minimum=1000,maximum=1000000"` // N of 1:N
	RatioTo               int         `json:"ratio_to" jsonschema:"minimum=1000,maximum=1000000"`
}

// Rows returns every row of the table in table order. The rows are shared:
// do not change them.
func Rows() []*Row { return loaded().rows }

// Find returns the row of that rule id, or nil.
func Find(rule string) *Row { return loaded().byRule[rule] }

// Applies says in a few words when the row holds, for a list of rules.
func (r *Row) Applies() string {
	var parts []string
	add := func(words ...string) { parts = append(parts, strings.Join(words, "")) }
	if r.Labels != "" {
		add(strings.ToUpper(string(r.Labels)), " label")
	}
	if r.Agent != "" {
		add(strings.ReplaceAll(r.Agent, "_", " "))
	}
	switch r.Adrenaline {
	case "plain":
		add("plain")
	case "with":
		add("with adrenaline")
	}
	if r.AgeFromYears > 0 {
		add("from ", r.AgeFromYears.String(), " years")
	}
	if r.AgeBelowYears > 0 {
		add("under ", r.AgeBelowYears.String(), " years")
	}
	if r.WeightOverKg > 0 {
		add("over ", r.WeightOverKg.String(), " kg")
	}
	if r.WeightBelowKg > 0 {
		add("under ", r.WeightBelowKg.String(), " kg")
	}
	if r.PercentOver > 0 {
		add("over ", r.PercentOver.String(), " %")
	}
	if r.PercentTo > 0 {
		add("up to ", r.PercentTo.String(), " %")
	}
	if r.Section == SectionAdrenaline {
		if r.HeartDisease {
			add("adrenaline with heart disease")
		} else {
			add("adrenaline")
		}
	}
	if len(parts) == 0 {
		return "every local anaesthetic"
	}
	return strings.Join(parts, ", ")
}

// Value gives the row's figures in a few words, for a list of rules.
func (r *Row) Value() string {
	var parts []string
	add := func(n cases.Milli, before, after string) {
		if n > 0 {
			parts = append(parts, before+n.String()+after)
		}
	}
	if r.Kind == KindRefusal && r.Section != SectionGeneral {
		return "refused"
	}
	add(r.MgPerKg, "", " mg/kg")
	add(r.CapMg, "at most ", " mg")
	add(r.AdrenalineMicrogPerKg, "adrenaline ", " micrograms/kg")
	add(r.MaxG, "at most ", " g")
	add(r.MaxAreaCM2, "on ", " cm2")
	add(r.MinutesFrom, "at least ", " min")
	add(r.MinutesTo, "at most ", " min")
	add(r.CeilingMicrog, "at most ", " micrograms")
	if r.RatioFrom > 0 {
		parts = append(parts, "1:"+grouped(r.RatioFrom)+" to 1:"+grouped(r.RatioTo))
	}
	return strings.Join(parts, ", ")
}

// grouped writes a whole number with a comma before each three digits.
func grouped(n int) string {
	s := cases.Milli(int64(n) * 1000).String()
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
