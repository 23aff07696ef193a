package mastery

import (
	"fmt"
	"testing"
)

// at moves attempts to a day and families.
func at(obs []Observation, day int, families ...string) []Observation {
	for i := range obs {
		obs[i].Day, obs[i].UTC = day, int64(day)*dayMS+int64(i)
		obs[i].Case = fmt.Sprintf("p/%s-%d", families[i%len(families)], i/len(families))
		obs[i].Family = families[i%len(families)]
	}
	return obs
}

// Three domains are only asked for in one family: without a cap it would take
// the whole list, and all but one row would be lost to keep it apart.
func TestFamilyTakesHalfAtMost(t *testing.T) {
	obs := attempts("room", "rr")
	for _, d := range []string{"site", "power", "patient"} {
		obs = append(obs, attempts(d, "ww")...)
	}
	obs = at(obs, 0, "keloid")
	offers := []Offer{offer("q/b", "milia", 1, "room")}
	for i := range 3 {
		offers = append(offers, offer(fmt.Sprintf("q/a%d", i), "skin_tag", 1, "site", "power", "patient"))
	}
	for _, o := range offers { // tried, so not new, and nothing shown, so not due
		obs = append(obs, Observation{Case: o.Ref, Family: o.Family})
	}
	for seed := range uint64(20) {
		if list := Today(obs, offers, 4*dayMS, 4, seed, 3); len(list) != 3 {
			t.Fatalf("seed %d: %+v; want three rows", seed, list)
		}
	}
}

// What a case on the list will review anyway is not due a second time.
func TestDueOnce(t *testing.T) {
	obs := at(attempts("room", "rrr"), 0, "skin_tag", "skin_tag", "milia")
	offers := []Offer{offer("p/skin_tag-0", "skin_tag", 1, "room"), offer("p/skin_tag-1", "skin_tag", 1, "room"), offer("p/milia-0", "milia", 1, "room")}
	due := map[string]int{}
	for _, d := range Today(obs, offers, 30*dayMS, 30, 1, 3) {
		if d.Reason.Why == WhyDue {
			due[d.Ref[:4]]++
		}
	}
	if due["p/sk"] != 1 {
		t.Errorf("due by family: %v", due)
	}
}

// Of two patients not tried yet, the one of the family where it went wrong.
func TestWeakPrefersHard(t *testing.T) {
	obs := at(attempts("room", "rw"), 0, "skin_tag", "milia")
	offers := []Offer{offer("q/a", "skin_tag", 1, "room"), offer("q/b", "milia", 1, "room")}
	for seed := range uint64(10) {
		if list := Today(obs, offers, 4*dayMS, 4, seed, 1); len(list) != 1 || list[0].Ref != "q/b" {
			t.Fatalf("seed %d: %+v", seed, list)
		}
	}
}

// One patient brings both rules back; a second would be one too many.
func TestOnePatientForTwoRules(t *testing.T) {
	o := event(1, "p/a", kindNever)
	o.Rules = append(o.Rules, RuleResult{"smoke", "room", kindNever, 0, 2})
	both := Offer{Ref: "made/b", Family: "skin_tag", Domains: []string{"room"}, Rules: []string{"fire", "smoke"}, Made: true}
	other := Offer{Ref: "made/c", Family: "skin_tag", Domains: []string{"room"}, Made: true}
	backs := 0
	for _, d := range Today([]Observation{o}, []Offer{both, other, offer("p/m", "milia", 1, "room")}, 3*dayMS, 3, 1, 4) {
		if d.Reason.Why == WhyNever {
			backs++
		}
	}
	if backs != 1 {
		t.Errorf("%d rows bring them back", backs)
	}
}

// Never events of other families and domains go before a second of the same.
func TestComebacksSpread(t *testing.T) {
	obs := at(attempts("room", "nn"), 1, "skin_tag")
	obs[1].Rules[0].Rule = "rule-2"
	obs = append(obs, at(attempts("site", "n"), 2, "milia")...)
	var offers []Offer
	for i := range 4 {
		offers = append(offers, offer(fmt.Sprintf("q/s%d", i), "skin_tag", 1, "room"), offer(fmt.Sprintf("q/m%d", i), "milia", 1, "site"))
	}
	backs := map[string]int{}
	for _, d := range Today(obs, offers, 9*dayMS, 9, 1, 4) {
		if d.Reason.Why == WhyNever {
			backs[d.Reason.Domain]++
		}
	}
	if backs["room"] != 1 || backs["site"] != 1 {
		t.Errorf("never events back by domain: %v", backs)
	}
}

// Where two would do equally well the seed decides, and the day.
func TestSeedDecides(t *testing.T) {
	var offers []Offer
	for _, f := range families[:10] {
		offers = append(offers, offer("q/"+f, f, 1, "room"))
	}
	bySeed, byDay := map[string]bool{}, map[string]bool{}
	for i := range 20 {
		bySeed[Today(nil, offers, 0, 0, uint64(i), 1)[0].Ref] = true
		byDay[Today(nil, offers, 0, i, 1, 1)[0].Ref] = true
	}
	if len(bySeed) < 4 || len(byDay) < 4 {
		t.Errorf("20 seeds give %d first cases, 20 days %d", len(bySeed), len(byDay))
	}
}
