package bench

// numb tells whether the skin feels nothing now.
func (b *Bench) numb() bool {
	a := b.plan.Anaesthetic
	if a == nil {
		return false
	}
	if b.room.injectedUL > 0 && b.clockMS >= b.room.injectedMS+b.onsetMS() {
		return true
	}
	t := a.Topical
	if t == nil {
		return false
	}
	r := find(rows.Numbing, func(r *numbingRow) bool { return r.Agent == t.Agent })
	if r == nil {
		return false
	}
	onSkinMS := b.clockMS
	if t.Minutes != nil {
		onSkinMS += int(*t.Minutes) * 60
	}
	return onSkinMS >= r.OnsetS*1000 && (r.LastsS == 0 || b.clockMS <= r.LastsS*1000)
}

// onsetMS is how long the injected agents need, ms: the quickest counts. What
// the plan says was waited counts for nothing; the clock does.
func (b *Bench) onsetMS() int {
	quickest := -1
	for _, in := range b.plan.Anaesthetic.Injected {
		r := find(rows.Numbing, func(r *numbingRow) bool { return r.Agent == in.Agent })
		if r != nil && (quickest < 0 || r.OnsetS*1000 < quickest) {
			quickest = r.OnsetS * 1000
		}
	}
	return max(0, quickest)
}

// adrenaline tells whether what is injected holds it.
func (b *Bench) adrenaline() bool {
	if a := b.plan.Anaesthetic; a != nil {
		for _, in := range a.Injected {
			if in.Adrenaline != "" {
				return true
			}
		}
	}
	return false
}

func (b *Bench) plansNone() bool {
	a := b.plan.Anaesthetic
	return a != nil && a.None != nil && *a.None
}

func (b *Bench) plansNumbing() bool {
	a := b.plan.Anaesthetic
	return a != nil && (len(a.Injected) > 0 || a.Topical != nil)
}

// numbInMS is how long the injection still needs, ms; 0 when it works or none
// was given.
func (b *Bench) numbInMS() int {
	if b.room.injectedUL == 0 {
		return 0
	}
	return max(0, b.room.injectedMS+b.onsetMS()-b.clockMS)
}
