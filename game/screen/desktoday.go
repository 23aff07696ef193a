package screen

import (
	"hash/fnv"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/mastery"
	"leastwatt/scoring/solve"
)

// todayCount is how many cases a day offers.
const todayCount = 5

// dueCase is a row of today's list.
type dueCase struct {
	entry
	why string // by competency and time only; "" without a logbook
}

// today lists the cases for today that are not done yet; when all are done, the
// next ones.
func (d *Desk) today() []dueCase {
	left := d.leftToday()
	if len(left) == 0 {
		d.list = nil
		left = d.leftToday()
	}
	if len(left) == 0 { // every case there is was done
		return d.list
	}
	return left
}

func (d *Desk) leftToday() []dueCase {
	if d.list == nil {
		d.list = d.plannedToday()
	}
	var left []dueCase
	for _, e := range d.list {
		if d.doneGrade(e.ref) == nil {
			left = append(left, e)
		}
	}
	return left
}

// plannedToday asks the logbook what is due, weak and new; without one it takes
// the easiest cases that are not done.
func (d *Desk) plannedToday() []dueCase {
	if !d.Recording() {
		return d.easiest()
	}
	now := d.nowMS()
	day := localDay(now, d.zoneOffsetMin())
	offers := slices.Concat(d.offered(), d.comebackOffers(day))
	at := map[string]entry{}
	for _, o := range offers {
		at[o.Ref] = o.entry
	}
	plain := make([]mastery.Offer, len(offers))
	for i, o := range offers {
		plain[i] = o.Offer
	}
	var list []dueCase
	for _, due := range d.rec.learner.Today(plain, now, day, d.Seed, todayCount) {
		list = append(list, dueCase{at[due.Ref], due.Reason.Text(d.words())})
	}
	if len(list) == 0 {
		return d.easiest()
	}
	return list
}

func (d *Desk) easiest() []dueCase {
	var list []dueCase
	for _, e := range d.order {
		if len(list) < todayCount && d.doneGrade(e.ref) == nil {
			list = append(list, dueCase{e, ""})
		}
	}
	if len(list) == 0 {
		for _, e := range d.order[:min(todayCount, len(d.order))] {
			list = append(list, dueCase{e, ""})
		}
	}
	return list
}

// offer is a case that may come today.
type offer struct {
	entry
	mastery.Offer
}

// offered are the cases of the packs as they may come, looked up once.
func (d *Desk) offered() []offer {
	if d.offers != nil {
		return d.offers
	}
	for _, e := range d.order {
		if o, ok := d.offerOf(e, false); ok {
			d.offers = append(d.offers, o)
		}
	}
	return d.offers
}

func (d *Desk) offerOf(e entry, withRules bool) (offer, bool) {
	j, err := scoring.NewJudge(d.Set, e.c, e.pack.LocalRules, d.Settings.Labels)
	if err != nil {
		return offer{}, false
	}
	o := offer{e, mastery.Offer{Ref: e.ref, Family: e.c.Lesion.Family, Level: e.c.Level, Domains: j.Asks(), Made: e.pack.ID == cases.MadePackID}}
	if withRules {
		for _, r := range j.Rows() {
			o.Rules = append(o.Rules, r.Rule)
		}
	}
	return o, true
}

// mostComebacks bounds how many never events are given a new patient for one
// day.
const mostComebacks = 3

// comebackOffers makes new patients for never events that have to be met again.
func (d *Desk) comebackOffers(day int) []offer {
	var list []offer
	for _, c := range d.rec.learner.Comebacks() {
		if len(list) == mostComebacks {
			break
		}
		if c.Waits(day) {
			continue
		}
		if o, ok := d.variantFor(&c); ok {
			list = append(list, o)
		}
	}
	return list
}

// variantTries is how many patients are made before giving up on one in whom
// the rule applies.
const variantTries = 16

// variantFor makes a patient in whom the rule of a never event applies. The
// same history gives the same patient.
func (d *Desk) variantFor(c *mastery.Comeback) (offer, bool) {
	h := fnv.New64a()
	h.Write([]byte(c.Rule + " " + c.Family))
	for _, used := range c.Used {
		h.Write([]byte(" " + used))
	}
	base := h.Sum64()
	for try := range uint64(variantTries) {
		seed := int((base + try*0x9E3779B97F4A7C15) >> 20 % (cases.MaxMadeSeed + 1))
		level := 1 + int((base+try)%4)
		a, err := solve.Accept(d.Set, cases.MadeVersion, c.Family, level, seed)
		if err != nil {
			return offer{}, false
		}
		ref := cases.MadePackID + "/" + a.Case.ID
		row := d.Set.Row(c.Rule)
		if row == nil { // a later edition has dropped the rule
			return offer{}, false
		}
		o, ok := d.offerOf(entry{ref, cases.MadePack(), a.Case}, true)
		if ok && slices.Contains(o.Rules, c.Rule) && row.ForDecision(a.Plan.Disposition) && !d.rec.tried[ref] {
			return o, true
		}
	}
	return offer{}, false
}
