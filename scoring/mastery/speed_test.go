package mastery

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// longHistory makes attempts as a very busy learner would: a hundred a day,
// thirty findings each, in every family, mostly right.
func longHistory(n int) ([]Observation, []Offer) {
	draw := rand.New(rand.NewPCG(1, 2))
	rules := make([]string, 200)
	for i := range rules {
		rules[i] = fmt.Sprintf("rule-%03d", i)
	}
	obs := make([]Observation, n)
	for i := range obs {
		day := i / 100
		o := Observation{
			UTC: int64(day)*dayMS + int64(i%100)*300_000, Day: day, Family: families[draw.IntN(len(families))],
			Verdict: verdictSafe, PowerW: 2 + 6*draw.Float64(), LeastUsualW: 2, Rules: make([]RuleResult, 30),
		}
		o.Case = fmt.Sprintf("pack/%s-%d", o.Family, draw.IntN(40))
		if i%2 == 0 {
			chance := float64(10+draw.IntN(11)) / 20
			o.Confidence = &chance
		}
		for k := range o.Rules {
			kind := kindCredit
			switch draw.IntN(100) {
			case 0:
				kind = kindNever
			case 1, 2, 3, 4, 5:
				kind = kindCaution
			case 6, 7, 8, 9:
				kind = kindAdvice
			}
			rule := k*6 + draw.IntN(6)
			o.Rules[k] = RuleResult{rules[rule], domains[rule%len(domains)], kind, 1, 1}
		}
		obs[i] = o
	}
	var offers []Offer
	for i := range 150 {
		f := families[i%len(families)]
		offers = append(offers, Offer{Ref: fmt.Sprintf("pack/%s-%d", f, i), Family: f, Level: 1 + i%5, Domains: domains, Made: i%3 == 0})
	}
	return obs, offers
}

func BenchmarkToday100k(b *testing.B) {
	obs, offers := longHistory(100_000)
	b.ReportAllocs()
	for b.Loop() {
		if list := Today(obs, offers, 1001*dayMS, 1001, 1, 5); len(list) != 5 {
			b.Fatalf("list %+v", list)
		}
	}
}

func BenchmarkProgress100k(b *testing.B) {
	obs, _ := longHistory(100_000)
	b.ReportAllocs()
	for b.Loop() {
		Competencies(obs)
		Calibrate(obs)
		Comebacks(obs)
		PowerSense(obs)
	}
}

func BenchmarkItems100k(b *testing.B) {
	obs, _ := longHistory(100_000)
	b.ReportAllocs()
	for b.Loop() {
		Items(obs)
	}
}

// The whole of a start: a hundred thousand attempts, then today's list and
// what was shown.
func BenchmarkLearner100k(b *testing.B) {
	obs, offers := longHistory(100_000)
	b.ReportAllocs()
	for b.Loop() {
		l := NewLearner()
		for i := range obs {
			l.Add(&obs[i])
		}
		l.Today(offers, 1001*dayMS, 1001, 1, 5)
		l.Calibrate()
	}
}
