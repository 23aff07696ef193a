package mastery

import (
	"fmt"

	"pgregory.net/rapid"

	"leastwatt/cases"
)

var (
	families = cases.Vocab.IDs("family")
	kinds    = []string{kindCredit, kindCredit, kindCredit, kindAdvice, kindCaution, kindNever}
)

// drawRules draws findings of up to eight rules, each with a domain of its own.
func drawRules(t *rapid.T) []RuleResult {
	var rules []RuleResult
	for k := range 8 {
		if !rapid.Bool().Draw(t, "applies") {
			continue
		}
		r := RuleResult{Rule: fmt.Sprintf("rule-%d", k), Domain: domains[k%len(domains)], Of: 2, Kind: rapid.SampledFrom(kinds).Draw(t, "kind")}
		switch r.Kind {
		case kindCredit:
			r.Points = 2
		case kindAdvice:
			r.Of = 0
		}
		rules = append(rules, r)
	}
	return rules
}

// drawObservations draws a history with few families, cases and moments, so
// that they meet often.
func drawObservations(t *rapid.T) []Observation {
	var obs []Observation
	for range rapid.IntRange(0, 40).Draw(t, "attempts") {
		day := rapid.IntRange(0, 30).Draw(t, "day")
		o := Observation{
			Day: day, UTC: int64(day)*86_400_000 + int64(rapid.IntRange(0, 2).Draw(t, "hour"))*3_600_000,
			Family: families[rapid.IntRange(0, 3).Draw(t, "family")],
			Helped: rapid.IntRange(0, 9).Draw(t, "helped") == 0,
			Rules:  drawRules(t), Verdict: rapid.SampledFrom([]string{"safe", "needs work", "unsafe"}).Draw(t, "verdict"),
			PowerW: float64(rapid.IntRange(0, 9).Draw(t, "watts")), LeastUsualW: 3,
		}
		o.Case = fmt.Sprintf("p/%s-%d", o.Family, rapid.IntRange(0, 3).Draw(t, "case"))
		if rapid.Bool().Draw(t, "states") {
			c := float64(rapid.IntRange(0, 20).Draw(t, "chance")) / 20
			o.Confidence = &c
		}
		obs = append(obs, o)
	}
	return obs
}

func drawOffers(t *rapid.T) []Offer {
	var offers []Offer
	for range rapid.IntRange(0, 30).Draw(t, "offers") {
		family := families[rapid.IntRange(0, 5).Draw(t, "family")]
		o := Offer{
			Ref: fmt.Sprintf("p/%s-%d", family, rapid.IntRange(0, 6).Draw(t, "case")), Family: family,
			Level: rapid.IntRange(1, 5).Draw(t, "level"), Made: rapid.Bool().Draw(t, "made"),
		}
		for _, d := range domains {
			if rapid.Bool().Draw(t, "asks") {
				o.Domains = append(o.Domains, d)
			}
		}
		if rapid.IntRange(0, 3).Draw(t, "rules known") == 0 {
			o.Rules = []string{fmt.Sprintf("rule-%d", rapid.IntRange(0, 7).Draw(t, "rule"))}
		}
		offers = append(offers, o)
	}
	return offers
}
