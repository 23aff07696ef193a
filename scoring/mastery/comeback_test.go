package mastery

import (
	"reflect"
	"testing"
)

// event is one attempt with one finding of the rule fire, in the room.
func event(day int, ref, kind string) Observation {
	return Observation{
		UTC: int64(day) * 86_400_000, Day: day, Case: ref, Family: "skin_tag",
		Rules: []RuleResult{{"fire", "room", kind, 0, 3}},
	}
}

func TestComebackUntilThreeDaysRight(t *testing.T) {
	helped := event(5, "made/d", kindCredit)
	helped.Helped = true
	later := func(o Observation, ms int64) Observation { o.UTC += ms; return o }
	other := event(6, "made/e", kindCredit)
	other.Family = "common_wart"
	for _, row := range []struct {
		name string
		obs  []Observation
		want []Comeback
	}{
		{"never wrong", []Observation{event(1, "p/a", kindCredit), event(2, "p/b", kindCaution)}, nil},
		{
			"just happened",
			[]Observation{event(1, "p/a", kindNever)},
			[]Comeback{{"fire", "skin_tag", "room", 0, 1, []string{"p/a"}}},
		},
		{
			"the same day, the same patient, with help, another family, advice: none counts",
			[]Observation{
				event(1, "p/a", kindNever), later(event(1, "made/b", kindCredit), 1), event(2, "p/a", kindCredit),
				event(3, "made/c", kindAdvice), helped, other,
			},
			[]Comeback{{"fire", "skin_tag", "room", 0, 1, []string{"p/a"}}},
		},
		{
			"two days right, each on a patient of its own",
			[]Observation{
				event(1, "p/a", kindNever), event(2, "made/b", kindCredit), later(event(2, "made/c", kindCredit), 1),
				event(4, "made/b", kindCredit), event(7, "made/d", kindCredit),
			},
			[]Comeback{{"fire", "skin_tag", "room", 2, 7, []string{"p/a", "made/b", "made/d"}}},
		},
		{
			"three days right",
			[]Observation{
				event(1, "p/a", kindNever), event(2, "made/b", kindCredit), event(4, "made/c", kindCredit), event(7, "made/d", kindCredit),
			},
			nil,
		},
		{
			"wrong again starts again",
			[]Observation{
				event(1, "p/a", kindNever), event(2, "made/b", kindCredit), event(4, "made/c", kindCredit), event(7, "made/d", kindNever),
				event(8, "made/e", kindCredit),
			},
			[]Comeback{{"fire", "skin_tag", "room", 1, 8, []string{"p/a", "made/b", "made/c", "made/d", "made/e"}}},
		},
		{
			"a second try at the patient can fail but not settle",
			[]Observation{event(1, "p/a", kindCredit), later(event(1, "p/a", kindNever), 1)},
			[]Comeback{{"fire", "skin_tag", "room", 0, 1, []string{"p/a"}}},
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := Comebacks(row.obs); !reflect.DeepEqual(got, row.want) {
				t.Errorf("got  %+v\nwant %+v", got, row.want)
			}
		})
	}
}

func TestComebackWaitsADay(t *testing.T) {
	c := Comeback{LastDay: 4}
	if !c.Waits(4) || c.Waits(5) {
		t.Errorf("on the day itself %v, on the next %v", c.Waits(4), c.Waits(5))
	}
}
