package mastery

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// A learner works through today's list of five for sixty days. She gets a rule
// wrong the first two times she meets it in a family and right from then on;
// rules 0 and 1 are never events. The list must take her through every family,
// bring each never event back until it is settled, and turn from new things to
// due ones.
func TestCourse(t *testing.T) {
	const length, perDay = 60, 5
	drill := families[:12]
	var obs []Observation
	var offers []Offer
	for i, f := range drill {
		for k := range 4 {
			offers = append(offers, Offer{Ref: fmt.Sprintf("p/%s-%d", f, k), Family: f, Level: 1 + (i+k)%5, Domains: domains[:6], Made: k > 1})
		}
	}
	met := map[[2]string]int{}
	draw := rand.New(rand.NewPCG(5, 6))
	var whys []map[string]int
	for day := range length {
		now := int64(day)*dayMS + 9*3_600_000
		todays := offers
		for i, back := range Comebacks(obs) {
			todays = append(todays, Offer{
				Ref: fmt.Sprintf("made/%d-%d", day, i), Family: back.Family, Level: 1,
				Domains: []string{back.Domain}, Rules: []string{back.Rule}, Made: true,
			})
		}
		why := map[string]int{}
		for i, d := range Today(obs, todays, now, day, 11, perDay) {
			why[d.Reason.Why]++
			for _, o := range todays {
				if o.Ref != d.Ref {
					continue
				}
				obs = append(obs, sitDown(o, met, now+int64(i)*600_000, day, draw))
			}
			if day%20 < 3 {
				t.Logf("day %2d  %-28s %s", day, d.Ref, d.Reason.Text("uk"))
			}
		}
		whys = append(whys, why)
	}
	seen := map[string]bool{}
	for _, o := range obs {
		seen[o.Family] = true
	}
	if len(seen) != len(drill) {
		t.Errorf("%d of %d families were met in %d days", len(seen), len(drill), length)
	}
	if back := Comebacks(obs); len(back) > 0 {
		t.Errorf("%d never events are still open after %d days: %+v", len(back), length, back)
	}
	count := func(from, to int, why string) (n int) {
		for _, w := range whys[from:to] {
			n += w[why]
		}
		return n
	}
	if early, late := count(0, 10, WhyNew), count(50, 60, WhyNew); early <= late {
		t.Errorf("%d new cases in the first ten days, %d in the last", early, late)
	}
	if count(2, 20, WhyNever) == 0 || count(0, length, WhyDue) == 0 || count(0, length, WhyWeak) == 0 {
		t.Errorf("whys by day: %v", whys)
	}
	for _, c := range Competencies(obs)[:6] {
		if c.TooFew || c.Low < 0.5 {
			t.Errorf("after %d days: %+v", length, c)
		}
	}
}

// sitDown makes the attempt at an offer.
func sitDown(o Offer, met map[[2]string]int, now int64, day int, draw *rand.Rand) Observation {
	a := Observation{UTC: now, Day: day, Case: o.Ref, Family: o.Family, Made: o.Made, Verdict: verdictSafe}
	for k := range 6 {
		rule := fmt.Sprintf("rule-%d", k)
		if len(o.Rules) > 0 && o.Rules[0] != rule || len(o.Rules) == 0 && draw.IntN(3) == 0 {
			continue
		}
		key := [2]string{rule, o.Family}
		r := RuleResult{rule, domains[k], kindCredit, 2, 2}
		if met[key]++; met[key] <= 2 {
			r.Kind, r.Points = kindCaution, 0
			if k < 2 {
				r.Kind = kindNever
			}
			a.Verdict = "unsafe"
		}
		a.Rules = append(a.Rules, r)
	}
	return a
}
