package mastery

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Attempts handed over one by one, through one value used again and again,
// give what the whole list gives; and to ask changes nothing.
func TestLearnerOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		obs, offers := drawObservations(t), drawOffers(t)
		slices.SortStableFunc(obs, func(a, b Observation) int { return compare(&a, &b) })
		l := NewLearner()
		ask := rapid.IntRange(0, len(obs)).Draw(t, "ask after")
		var one Observation
		var rules []RuleResult
		for i := range obs {
			if i == ask {
				l.Today(offers, int64(i)*dayMS, i, 1, 5)
				l.Comebacks()
			}
			rules = append(rules[:0], obs[i].Rules...)
			one = obs[i]
			one.Rules = rules
			l.Add(&one)
			clear(rules)
		}
		for what, pair := range map[string][2]any{
			"competencies": {Competencies(obs), l.Competencies()},
			"calibration":  {Calibrate(obs), l.Calibrate()},
			"comebacks":    {Comebacks(obs), l.Comebacks()},
			"power sense":  {PowerSense(obs), l.PowerSense()},
			"today":        {Today(obs, offers, 31*dayMS, 31, 7, 5), l.Today(offers, 31*dayMS, 31, 7, 5)},
		} {
			if !reflect.DeepEqual(pair[0], pair[1]) {
				t.Fatalf("%s of the list: %+v\none by one: %+v", what, pair[0], pair[1])
			}
		}
	})
}

// A second try at a patient on the same day changes no memory, for better or
// worse; a second patient does.
func TestSecondTryLeavesMemory(t *testing.T) {
	l := NewLearner()
	for _, o := range []Observation{event(0, "p/a", kindCredit), event(0, "p/a", kindCaution)} {
		l.Add(&o)
	}
	room := domainIndex("room")
	if got := l.memories.closed()["skin_tag"][room].memory; got != FSRS6.First(Passed) {
		t.Errorf("after a second try: %+v", got)
	}
	o := event(0, "p/b", kindCaution)
	l.Add(&o)
	if got := l.memories.closed()["skin_tag"][room].memory; got != FSRS6.First(Failed) {
		t.Errorf("after a second patient: %+v", got)
	}
}

// What a caller does to a list of comebacks stays with the caller.
func TestComebacksAreCopies(t *testing.T) {
	l := NewLearner()
	o := event(0, "p/a", kindNever)
	l.Add(&o)
	l.Comebacks()[0].Used[0] = "p/b"
	if used := l.Comebacks()[0].Used; used[0] != "p/a" {
		t.Errorf("used %v", used)
	}
}
