package mastery

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"strings"
)

// Offer is a case that may come today.
type Offer struct {
	Ref     string // "pack-id/case-id" or "made/CODE"
	Family  string
	Level   int      // 1 to 5
	Domains []string // the domains that it asks for; none is read as decision
	// Rules are the rules known to apply; none means that they were not looked
	// up. A made case with rules was made for their comeback and comes for
	// nothing else.
	Rules []string
	Made  bool // the generator made the case
}

// Due is one row of today's list.
type Due struct {
	Ref    string
	Reason Reason
}

// restMS is how long a case rests after it was tried, in milliseconds: 12
// hours, so that midnight alone makes no new day. A skill is better met
// tomorrow than again at once: of 19 comparisons in surgery, 15 favour training
// spread over days and none the same training in one go (Surgical Endoscopy,
// a review of distributed practice, 2024, issue 1, pages 39-63).
const restMS = 12 * 60 * 60 * 1000

// Today picks at most n of the offers for a local day. Never events come back
// first and take at most half of the list, rounded up. The rest goes in turns to what is
// due, what is weak and what is new. Two rows in a row never share a family.
// The list is shorter when there is too little to offer. It depends on what is
// handed over and on nothing else, least of all on its order; now is
// milliseconds of universal time.
func Today(obs []Observation, offers []Offer, now int64, day int, seed uint64, n int) []Due {
	return learn(obs).Today(offers, now, day, seed, n)
}

// Today is the function of that name over the attempts added.
func (l *Learner) Today(offers []Offer, now int64, day int, seed uint64, n int) []Due {
	if n <= 0 {
		return nil
	}
	p := picker{day: day, most: n, shown: l.Competencies(), met: map[string]bool{}, taken: map[string]int{}}
	memories := l.memories.closed()
	for family := range memories {
		p.met[family] = true
	}
	p.candidates = l.gather(offers, now, day, seed)
	for i := range p.candidates {
		p.candidates[i].lookBack(memories, day)
	}
	p.comebacks(l.Comebacks(), (n+1)/2)
	// The first turn moves on from day to day, so that never events that fill
	// half of a short list do not shut out one kind for weeks.
	first := (day%3 + 3) % 3
	for turn, idle := first, 0; len(p.list) < n && idle < 3; turn++ {
		idle++
		if [...]func() bool{p.due, p.weak, p.fresh}[turn%3]() {
			idle = 0
		}
	}
	return apart(p.list)
}

// candidate is an offer with what the past says of it.
type candidate struct {
	*Offer
	asks   []int // places of the domains it asks for
	tried  bool
	picked bool
	units  *[mostDomains]unit   // of its family; nil when it was never met
	recall [mostDomains]float64 // chance of recall by domain; 0 when never met
	isDue  [mostDomains]bool    //
	since  [mostDomains]int     // whole days since the last review
}

// gather lists the offers that are not resting, each once, in an order drawn
// from the seed and the day: where two would do equally well, chance decides.
func (l *Learner) gather(offers []Offer, now int64, day int, seed uint64) []candidate {
	sorted := make([]*Offer, len(offers))
	for i := range offers {
		sorted[i] = &offers[i]
	}
	slices.SortFunc(sorted, compareOffers)
	var awake []candidate
	for i, o := range sorted {
		if i > 0 && o.Ref == sorted[i-1].Ref {
			continue
		}
		last, tried := l.last[o.Ref]
		if tried && (last.day == day || max(now-last.utc, last.utc-now) < restMS) {
			continue
		}
		awake = append(awake, candidate{Offer: o, asks: places(o.Domains), tried: tried})
	}
	draw := rand.New(rand.NewPCG(seed, uint64(day)))
	draw.Shuffle(len(awake), func(i, j int) { awake[i], awake[j] = awake[j], awake[i] })
	return awake
}

func compareOffers(a, b *Offer) int {
	return cmp.Or(strings.Compare(a.Ref, b.Ref), strings.Compare(a.Family, b.Family), cmp.Compare(a.Level, b.Level),
		compareBool(a.Made, b.Made), slices.Compare(a.Domains, b.Domains), slices.Compare(a.Rules, b.Rules))
}

// places are the places of the known domains, in the order of the vocabulary.
// Every case asks for a decision.
func places(ids []string) []int {
	var asks []int
	for d, id := range domains {
		if slices.Contains(ids, id) {
			asks = append(asks, d)
		}
	}
	if len(asks) == 0 {
		asks = []int{domainIndex("decision")}
	}
	return asks
}

// lookBack fills in what is remembered of the candidate's family.
func (c *candidate) lookBack(all memories, day int) {
	c.units = all[c.Family]
	if c.units == nil {
		return
	}
	for _, d := range c.asks {
		u := &c.units[d]
		if !u.known {
			continue
		}
		c.since[d] = day - u.prior
		c.recall[d] = FSRS6.Recall(u.memory, float64(c.since[d]))
		c.isDue[d] = c.since[d] >= u.dueAfterDays()
	}
}

// apart puts the rows so that no two of one family follow each other, keeping
// their order as far as it goes. A family that fills more than half of what is
// left must come at once; rows that cannot be placed are left out.
func apart(rows []row) []Due {
	left := map[string]int{}
	for _, r := range rows {
		left[r.family]++
	}
	var list []Due
	last := ""
	for len(rows) > 0 {
		at := slices.IndexFunc(rows, func(r row) bool { return r.family != last && 2*left[r.family] > len(rows) })
		if at < 0 {
			at = slices.IndexFunc(rows, func(r row) bool { return r.family != last || len(list) == 0 })
		}
		if at < 0 {
			break
		}
		list = append(list, rows[at].Due)
		last = rows[at].family
		left[last]--
		rows = slices.Delete(rows, at, at+1)
	}
	return list
}
