package mastery

// What is remembered is kept by domain and family: how to make a room safe
// may be known at a wart and forgotten at a tumour. One day gives one review,
// graded by the worst of it, since a patient may meet any of them.

// surelyMilli is from where a stated chance counts as sure, in thousandths:
// the point from which the highest of three grades of certainty pays in the
// published scheme of certainty-based marking (Proceedings of the Physiological
// Society, 2006, 3:PC64).
const surelyMilli = 800

// Limits of our own on the intervals, because the model was fitted to words
// and not to procedures (common practice, no source).
const (
	earlyIntervalDays = 30  // until two unaided passes
	earlyPasses       = 2   //
	longIntervalDays  = 365 // a skill is looked at once a year
)

// unit is what is remembered of one domain in one family.
type unit struct {
	memory Memory
	known  bool // memory holds; false during the first day
	open   bool // a day is being gathered
	prior  int  // the day of the review before the open one
	day    int  // the open day
	worst  Recalled
	passes int // days passed unaided
}

// take adds an attempt.
func (u *unit) take(day int, g Recalled) {
	if u.open && day <= u.day { // the same day, or a clock that was set back
		u.worst = min(u.worst, g)
		return
	}
	u.close()
	u.open, u.day, u.worst = true, day, g
}

// close turns the open day into a review.
func (u *unit) close() {
	if !u.open {
		return
	}
	if u.known {
		u.memory = FSRS6.Next(u.memory, u.worst, u.day-u.prior)
	} else {
		u.memory, u.known = FSRS6.First(u.worst), true
	}
	if u.worst >= Passed {
		u.passes++
	}
	u.open, u.prior = false, u.day
}

// dueAfterDays is how many days after the last review the next is due.
func (u *unit) dueAfterDays() int {
	days := FSRS6.IntervalDays(u.memory, aimedRecall)
	if u.passes < earlyPasses {
		return min(days, earlyIntervalDays)
	}
	return min(days, longIntervalDays)
}

// memories holds every unit, by family and then by place of the domain.
type memories map[string]*[mostDomains]unit

func (all memories) take(o *Observation, marks *[mostDomains]mark) {
	units := all[o.Family]
	if units == nil {
		units = new([mostDomains]unit)
		all[o.Family] = units
	}
	for d, m := range marks {
		if m != unasked {
			units[d].take(o.Day, o.recalled(m))
		}
	}
}

// closed is a copy in which every open day is a review.
func (all memories) closed() memories {
	out := make(memories, len(all))
	for family, units := range all {
		copied := *units
		for d := range copied {
			copied[d].close()
		}
		out[family] = &copied
	}
	return out
}

// recalled grades one domain of an attempt by what was shown, not by how it
// felt (common practice, no source).
func (o *Observation) recalled(m mark) Recalled {
	milli, said := o.stated()
	switch {
	case m == wrong:
		return Failed
	case o.Helped:
		return WithHelp
	case m == clean && said && milli >= surelyMilli && o.Verdict == verdictSafe:
		return Sure
	}
	return Passed
}
