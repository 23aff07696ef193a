package cases

import "strings"

// What the tests of the published schemas, which also read the built-in packs
// and the solver, need of this package.
var (
	IDForm     = idForm.String()
	CaseIDForm = caseIDForm.String()
	DrawPlan   = drawPlan
	DrawPack   = drawPack
	BadPlans   = unmarked(badPlans, badPlanRules)
	BadPacks   = unmarked(badPacks)
)

// Sample is a file that the reader refuses, and what it says.
type Sample struct{ Text, Words string }

func unmarked(lists ...[]badSample) []Sample {
	var out []Sample
	for _, list := range lists {
		for _, s := range list {
			out = append(out, Sample{strings.Replace(s.text, mark, "", 1), s.words})
		}
	}
	return out
}
