package cases

// Assessment is a supervisor's own self-assessment: how many cases of which
// kind, how long, and what must be reached. Cases are made by the generator
// from a seed, so that a run can be repeated to the letter.
type Assessment struct {
	Kinds        []AssessmentKind `json:"kinds" jsonschema:"required,maximum=40"`                         // how many cases of which kind
	TimeLimitMin *Milli           `json:"time_limit_min" jsonschema:"minimum=5,maximum=600,multipleOf=1"` // minutes for the whole run; absent means no limit
	Bench        bool             `json:"bench"`                                                          // cases that are treated are treated on the bench too
	LeastItems   *Milli           `json:"least_items" jsonschema:"minimum=3,maximum=200,multipleOf=1"`    // a domain with fewer is not judged; absent means the program's own
	Standards    []Standard       `json:"standards" jsonschema:"maximum=20"`                              // what must be reached; a domain not named has the program's own
}

// AssessmentKind is one kind of case and how many of it.
type AssessmentKind struct {
	Count    int      `json:"count" jsonschema:"required,minimum=1,maximum=40"`
	Families []string `json:"families" jsonschema:"required,maximum=40" vocab:"family"` // drawn from these in turn
	LevelMin int      `json:"level_min" jsonschema:"required,minimum=1,maximum=5"`
	LevelMax int      `json:"level_max" jsonschema:"required,minimum=1,maximum=5"`
}

// Standard is the least share of a domain's items that must be right.
type Standard struct {
	Domain string `json:"domain" jsonschema:"required" vocab:"domain"`
	Least  Milli  `json:"least" jsonschema:"required,minimum=0.5,maximum=1"` // share of the items
	Reason string `json:"reason" jsonschema:"required"`                      // printed on the result sheet
}

// checkAssessment finds what the tags cannot say.
func checkAssessment(sheet *Sheet, at *Value, a *Assessment) {
	if len(a.Kinds) == 0 {
		sheet.Errorf(at.At("kinds"), "there is no kind of case; give at least one")
	}
	total := 0
	for i, k := range a.Kinds {
		total += k.Count
		if len(k.Families) == 0 {
			sheet.Errorf(at.At("kinds", i, "families"), "there is no family to draw from; give at least one")
		}
		if k.LevelMax < k.LevelMin {
			sheet.Errorf(at.At("kinds", i, "level_max"), "level_max is %d and level_min %d; it must be at least as high", k.LevelMax, k.LevelMin)
		}
	}
	if total > 60 {
		sheet.Errorf(at.At("kinds"), "a run would have %d cases; the most is 60", total)
	}
	seen := map[string]bool{}
	for i, s := range a.Standards {
		if seen[s.Domain] {
			sheet.Errorf(at.At("standards", i, "domain"), "%q has a standard already; give each domain one", s.Domain)
		}
		seen[s.Domain] = true
	}
}
