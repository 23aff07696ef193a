package mastery

// Learner is what a learner's attempts have shown, folded together as they
// come: a logbook of a hundred thousand attempts need not be held in memory to
// be read. The functions of this package that take a list of attempts are
// shorthand for one that was filled from it.
type Learner struct {
	today    dayCases
	last     map[string]moment // by case
	recent   [mostDomains]ring[trial]
	answers  ring[said]
	memories memories
	owed     map[string]debts // by family
	points   []Point
}

// moment is when a case was last tried.
type moment struct {
	utc int64
	day int
}

// NewLearner is a learner without attempts.
func NewLearner() *Learner {
	return &Learner{last: map[string]moment{}, memories: memories{}, owed: map[string]debts{}}
}

// Add takes the next attempt. Attempts come oldest first; those of the same
// millisecond in an order that is always the same, such as that of their
// identities in the logbook. Nothing of o is kept but its texts, so that the
// caller may use it again.
func (l *Learner) Add(o *Observation) {
	again := l.today.again(o)
	l.last[o.Case] = moment{max(o.UTC, l.last[o.Case].utc), o.Day}
	marks := o.marks()
	if !again {
		l.memories.take(o, &marks)
	}
	// What counts shows what the learner can do alone. The second try at a
	// patient on one day shows that the debrief was read.
	counts := !again && !o.Helped
	l.note(o, counts)
	if !counts {
		return
	}
	milli, ok := o.stated()
	for d := range domains {
		if marks[d] != unasked {
			l.recent[d].add(RecentCases, trial{marks[d] != wrong, ok, int32(milli)})
		}
	}
	if ok {
		l.answers.add(RecentAnswers, said{milli, o.Verdict == verdictSafe})
	}
	l.dial(o)
}

// learn fills a learner from a list in any order.
func learn(obs []Observation) *Learner {
	l := NewLearner()
	for _, i := range inOrder(obs) {
		l.Add(&obs[i])
	}
	return l
}

// ring keeps the newest of what is added.
type ring[T any] struct {
	kept []T
	next int
}

// add keeps v in place of the oldest, once there are most.
func (r *ring[T]) add(most int, v T) {
	if len(r.kept) < most {
		r.kept = append(r.kept, v)
		return
	}
	r.kept[r.next] = v
	r.next = (r.next + 1) % most
}

// dayCases knows which cases were tried on the day at hand.
type dayCases struct {
	day   int
	tried map[string]bool
}

// again tells whether the case of o was tried before on its day.
func (d *dayCases) again(o *Observation) bool {
	if d.tried == nil {
		d.tried = map[string]bool{}
	}
	if o.Day != d.day {
		d.day = o.Day
		clear(d.tried)
	}
	was := d.tried[o.Case]
	d.tried[o.Case] = true
	return was
}
