package mastery

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
)

func of(list []Competency, domain string) Competency {
	return list[slices.IndexFunc(list, func(c Competency) bool { return c.Domain == domain })]
}

// attempts makes one attempt a day in one domain: r right, a advised, w wrong,
// n never event.
func attempts(domain, kindsOf string) []Observation {
	var obs []Observation
	for i, k := range kindsOf {
		r := RuleResult{Rule: "rule", Domain: domain, Points: 2, Of: 2}
		r.Kind = map[rune]string{'r': kindCredit, 'a': kindAdvice, 'w': kindCaution, 'n': kindNever}[k]
		obs = append(obs, Observation{
			UTC: int64(i) * 86_400_000, Day: i, Case: fmt.Sprintf("p/c%d", i), Family: "skin_tag",
			Rules: []RuleResult{r}, Verdict: "needs work",
		})
	}
	return obs
}

func TestCompetencies(t *testing.T) {
	list := Competencies(attempts("room", "rrawrn"))
	if len(list) != 10 || len(list) > mostDomains || list[0].Domain != cases.Vocab.IDs("domain")[0] {
		t.Fatalf("%d competencies: %+v", len(list), list)
	}
	room := of(list, "room")
	if room.Cases != 5 || room.Right != 3 || !room.TooFew {
		t.Errorf("room %+v; want 3 of 5, advice left out, too few to say", room)
	}
	near(t, "mean", room.Mean, 3.5/6, 1e-12)
	if site := of(list, "site"); site.Cases != 0 || !site.TooFew || site.Low != 0 || site.High != 1 || site.Mean != 0.5 {
		t.Errorf("site, never met: %+v", site)
	}
}

// Six cases, all right, are the first that are told; five are too few.
func TestTooFewToSay(t *testing.T) {
	for n, want := range map[string]bool{"": true, "rrrrr": true, "rrrrrr": false, "rwrwrwrwrw": true} {
		if got := of(Competencies(attempts("room", n)), "room").TooFew; got != want {
			t.Errorf("%q: too few %v, want %v", n, got, want)
		}
	}
	half := of(Competencies(attempts("room", "rwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrwrw")), "room")
	if half.TooFew || half.Cases != RecentCases {
		t.Errorf("half right for long: %+v; want %d cases, and no longer too few", half, RecentCases)
	}
}

func TestOverSureInADomain(t *testing.T) {
	obs := attempts("room", "wrwwrwrwwrwrwwrwwrwrwwrwrwwrwrwwrwrwrw")
	sure, modest := 0.95, 0.3
	for i := range obs {
		obs[i].Confidence = &sure
	}
	if c := of(Competencies(obs), "room"); !c.OverSure || c.Stated != len(obs) {
		t.Errorf("sure and often wrong: %+v", c)
	}
	for i := range obs {
		obs[i].Confidence = &modest
	}
	if c := of(Competencies(obs), "room"); c.OverSure {
		t.Errorf("modest: %+v", c)
	}
}

// More right answers never lower the mean, and the interval holds it.
func TestMoreRightNeverLowers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		obs := drawObservations(t)
		before := Competencies(obs)
		for _, c := range before {
			if !(c.Low < c.Mean && c.Mean < c.High) || c.Cases > RecentCases || c.Right > c.Cases {
				t.Fatalf("%+v", c)
			}
		}
		better := slices.Clone(obs)
		if len(obs) > 0 && rapid.Bool().Draw(t, "turn one right") {
			o := &better[rapid.IntRange(0, len(obs)-1).Draw(t, "which")]
			o.Rules = slices.Clone(o.Rules)
			for i := range o.Rules {
				if o.Rules[i].Kind != kindAdvice {
					o.Rules[i].Kind, o.Rules[i].Points = kindCredit, o.Rules[i].Of
				}
			}
		} else {
			better = append(better, Observation{
				UTC: 1 << 50, Day: 99, Case: "p/one-more", Family: "skin_tag",
				Rules: []RuleResult{{"rule", "room", kindCredit, 2, 2}, {"other", "site", kindCredit, 2, 2}},
			})
		}
		for i, c := range Competencies(better) {
			if c.Mean < before[i].Mean-1e-12 {
				t.Fatalf("%s fell from %g to %g", c.Domain, before[i].Mean, c.Mean)
			}
		}
	})
}

// Nothing depends on the order in which the attempts are handed over, and
// least of all on that of attempts of the same moment.
func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		obs := drawObservations(t)
		offers := drawOffers(t)
		mixed := rapid.Permutation(obs).Draw(t, "mixed")
		offersMixed := rapid.Permutation(offers).Draw(t, "offers mixed")
		const now = 31 * 86_400_000
		for what, pair := range map[string][2]any{
			"competencies": {Competencies(obs), Competencies(mixed)},
			"calibration":  {Calibrate(obs), Calibrate(mixed)},
			"items":        {Items(obs), Items(mixed)},
			"comebacks":    {Comebacks(obs), Comebacks(mixed)},
			"power sense":  {PowerSense(obs), PowerSense(mixed)},
			"today":        {Today(obs, offers, now, 31, 7, 5), Today(mixed, offersMixed, now, 31, 7, 5)},
		} {
			if !reflect.DeepEqual(pair[0], pair[1]) {
				t.Fatalf("%s: %+v\nand mixed: %+v", what, pair[0], pair[1])
			}
		}
	})
}
