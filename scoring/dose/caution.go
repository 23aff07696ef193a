package dose

// Caution is a reminder that never changes a limit. Rule is the row it comes
// from.
type Caution struct {
	Rule string
	Text string
}

// cautions collects the reminders for a list of injections, in table order of
// what they are about: the patient, the limits, the adrenaline, the mixture.
func cautions(p Patient, items []Item, adrenalineMicroG, adrenalineNanoG int64) []Caution {
	t := loaded()
	var list []Caution
	add := func(r *Row, text string) {
		for _, c := range list {
			if c.Text == text {
				return
			}
		}
		list = append(list, Caution{r.Rule, text})
	}
	if p.AgeCentiYears < 0 {
		add(t.noAge, t.noAge.Says)
		if p.WeightG < int64(t.lightNoAge.WeightBelowKg) {
			add(t.lightNoAge, t.lightNoAge.Says)
		}
	}
	if p.age() >= oldCentiYears || p.LiverDisease || p.Frail {
		add(t.reduce, t.reduce.Says)
	}
	if p.age() < infantLimit {
		add(t.infant, t.infant.Says)
	}
	for _, item := range items {
		if item.Limit.MgPerKgMicro == 0 && p.WeightG < int64(t.lightNoRate.WeightBelowKg) {
			add(t.lightNoRate, t.lightNoRate.Says)
		}
		for _, r := range item.Limit.bounds.noteRows {
			if r == nil {
				continue
			}
			for _, note := range r.Notes {
				add(r, note)
			}
		}
	}
	custom := t.adrenalineHealthy
	if p.HeartDisease {
		custom = t.adrenalineHeart
	}
	if adrenalineNanoG > int64(custom.CeilingMicrog) {
		add(custom, "This holds "+grouped(int(adrenalineMicroG))+" micrograms of adrenaline. "+custom.Says)
	}
	if agents(items) > 1 {
		add(t.sum, t.sum.Says)
		add(t.mixing, t.mixing.Says)
	}
	return list
}

// agents counts the different agents of a list.
func agents(items []Item) int {
	n := 0
	for i, item := range items {
		n++
		for _, before := range items[:i] {
			if before.Agent == item.Agent {
				n--
				break
			}
		}
	}
	return n
}
