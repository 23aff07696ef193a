package dose

import (
	"fmt"
	"strings"

	"leastwatt/cases"
)

// TopicalLimit is the most cream or gel that one label set allows. A figure
// that the labels do not state is 0.
type TopicalLimit struct {
	MaxMilliG   int64 // thousandths of a gram of the product
	MaxAreaCM2  int64
	MinutesFrom int64 // before this the skin is not numb
	MinutesTo   int64
	Rows        []*Row // every row read, in table order

	AgeAssumedAdult bool
}

// Topical returns the limit of a cream or gel for a patient. A child below the
// weight of the row for its age takes the row that its weight does reach, as
// the US label asks. Cautious takes the smaller amount, area and longest time,
// and the later earliest time. The errors are those of [Ceiling].
func Topical(p Patient, agent string, l Labels) (TopicalLimit, error) {
	t := loaded()
	if err := checkPatient(p, l); err != nil {
		return TopicalLimit{}, err
	}
	rows := t.creams[agent]
	if rows == nil {
		return TopicalLimit{}, inputErrorf("the surface agent %q is unknown; it must be one of %s", agent, strings.Join(creamIDs(t), ", "))
	}
	limit := TopicalLimit{AgeAssumedAdult: p.AgeCentiYears < 0}
	for set, name := range [2]Labels{US, UK} {
		if l != Cautious && l != name {
			continue
		}
		r := matchTopical(rows[set], p)
		if r == nil {
			continue
		}
		if r.Kind == KindRefusal {
			return TopicalLimit{}, &Refusal{agent, l, r.Says, r}
		}
		limit.Rows = append(limit.Rows, r)
		smaller(&limit.MaxMilliG, int64(r.MaxG))
		smaller(&limit.MaxAreaCM2, int64(r.MaxAreaCM2)/1000)
		smaller(&limit.MinutesTo, int64(r.MinutesTo)/1000)
		limit.MinutesFrom = max(limit.MinutesFrom, int64(r.MinutesFrom)/1000)
	}
	if len(limit.Rows) == 0 {
		set := "No label in this table gives"
		if l != Cautious {
			set = "No " + strings.ToUpper(string(l)) + " label in this table gives"
		}
		return TopicalLimit{}, &Refusal{agent, l, fmt.Sprintf("%s a limit for %s.", set, spoken(agent)), nil}
	}
	return limit, nil
}

// matchTopical returns the last row whose age and weight are both reached, or
// a refusal that holds.
func matchTopical(rows []*Row, p Patient) *Row {
	age := cases.Milli(p.age() * 10)
	var found *Row
	for _, r := range rows {
		if age < r.AgeFromYears || !below(age, r.AgeBelowYears) {
			continue
		}
		if r.Kind == KindRefusal {
			return r
		}
		if r.WeightOverKg == 0 || cases.Milli(p.WeightG) > r.WeightOverKg {
			found = r
		}
	}
	return found
}

func smaller(into *int64, n int64) {
	if n > 0 && (*into == 0 || n < *into) {
		*into = n
	}
}

// creamIDs lists the surface agents that the table knows, in vocabulary order.
func creamIDs(t *table) []string {
	var ids []string
	for _, id := range cases.Vocab.IDs("topical_agent") {
		if t.creams[id] != nil {
			ids = append(ids, id)
		}
	}
	return ids
}
