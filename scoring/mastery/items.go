package mastery

import (
	"cmp"
	"slices"
	"strings"
)

// Item is how hard one rule is in one family, for whoever made the attempts.
type Item struct {
	Rule, Family, Domain string
	Answers, Right       int
	// Difficulty is in logits about the usual strength of the attempts: at 0
	// half the answers are right, at 2 about one in eight is, at -2 about
	// seven in eight are (for an attempt of usual strength).
	Difficulty float64
	Error      float64 // standard error of the difficulty, logits
	Few        bool    // fewer answers than LeastItemAnswers: mostly the prior speaks
}

// The Rasch model's constants.
const (
	// raschSpread is the standard deviation of strength from attempt to
	// attempt, in logits: 1 is the model's usual scale.
	raschSpread = 1
	// raschPrior is the standard deviation of difficulties about their mean,
	// in logits; it draws items with few answers to the mean. Our own choice.
	raschPrior = 1
	// RecentSittings is how many attempts count. Our own choice: an item
	// answered in one of twenty of them has its 100 answers, enough for half a
	// logit (common practice, no source).
	RecentSittings = 2000
	// LeastItemAnswers is what a difficulty within one logit takes (common
	// practice, no source).
	LeastItemAnswers = 30
)

// Items estimates the Rasch difficulty of every rule in every family met, by
// marginal maximum likelihood with a normal prior, in the order of rule and
// family. One attempt is one sitting, with a strength of its own: nobody is
// equally awake on every day, and the attempts may be several people's.
// Helped attempts and a second try at the same patient on one day are left
// out, and so is advice. No more than the newest attempts need be handed over.
// A full RecentSittings of them in many families takes most of a second: it is
// work for the background.
func Items(obs []Observation) []Item {
	var counted []*Observation
	var today dayCases
	for _, i := range inOrder(obs) {
		if !today.again(&obs[i]) && !obs[i].Helped {
			counted = append(counted, &obs[i])
		}
	}
	counted = counted[max(len(counted)-RecentSittings, 0):]
	items := countItems(counted)
	if len(items) == 0 {
		return nil
	}
	number := make(map[[2]string]int32, len(items))
	families := map[string]int{}
	block := make([]int, len(items))
	for i, it := range items {
		number[[2]string{it.Rule, it.Family}] = int32(i)
		if _, ok := families[it.Family]; !ok {
			families[it.Family] = len(families)
		}
		block[i] = families[it.Family]
	}
	sittings := make([]sitting, 0, len(counted))
	for _, o := range counted {
		s := sitting{weight: 1}
		for i := range o.Rules {
			if is, ok := o.Rules[i].isItem(); is {
				s.answers = append(s.answers, answer{number[[2]string{o.Rules[i].Rule, o.Family}], ok})
			}
		}
		sittings = append(sittings, s)
	}
	f := rasch{raschSpread, raschPrior}.fit(sittings, len(items), block)
	for i := range items {
		items[i].Difficulty, items[i].Error = f.difficulty[i], f.err[i]
		items[i].Few = items[i].Answers < LeastItemAnswers
	}
	return items
}

// countItems counts the answers to every item.
func countItems(obs []*Observation) []Item {
	found := map[[2]string]*Item{}
	for _, o := range obs {
		for i := range o.Rules {
			r := &o.Rules[i]
			is, ok := r.isItem()
			if !is {
				continue
			}
			it := found[[2]string{r.Rule, o.Family}]
			if it == nil {
				it = &Item{Rule: r.Rule, Family: o.Family, Domain: r.Domain}
				found[[2]string{r.Rule, o.Family}] = it
			}
			it.Answers++
			if ok {
				it.Right++
			}
		}
	}
	items := make([]Item, 0, len(found))
	for _, it := range found {
		items = append(items, *it)
	}
	slices.SortFunc(items, func(a, b Item) int {
		return cmp.Or(strings.Compare(a.Rule, b.Rule), strings.Compare(a.Family, b.Family))
	})
	return items
}
