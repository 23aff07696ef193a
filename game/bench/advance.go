package bench

import "slices"

// burst is the account of pedal time.
type burst struct {
	list    []Burst // finished and running, undone ones too
	hurtMS  int
	lastOhm float64
	trend   int
	totalMS int // of what was not undone
	looks   int
}

// Burst is one time of flowing current.
type Burst struct {
	FromMS, ToMS int
	PowerW       int64 // thousandths of a watt on the dial at its start
	Cycle        int
	Undone       bool
}

// forget marks the bursts from the n-th kept one on as undone.
func (u *burst) forget(n int) {
	kept := 0
	for i := range u.list {
		if u.list[i].Undone {
			continue
		}
		if kept >= n {
			u.list[i].Undone = true
			u.totalMS -= u.list[i].ToMS - u.list[i].FromMS
		}
		kept++
	}
}

// setPedal puts the foot down or takes it off. Current flows only when no
// hazard stands in its way, and ends with the foot.
func (b *Bench) setPedal(down bool) {
	h := &b.hand
	if !down {
		h.pedal = false
		b.endBurst()
		return
	}
	if h.pedal {
		return
	}
	h.pedal = true
	b.told.caution = ""
	b.room.waitUntilMS = b.clockMS
	b.beforeCurrent()
	if b.stopsCurrent() {
		return
	}
	if n := len(b.ops); n > 0 && b.ops[n-1].kind == opStep && b.ops[n-1].pedal {
		b.step(1) // two bursts are never one, however quick the foot
	}
	b.beforeBurst()
	b.marks = append(b.marks, mark{ops: len(b.ops), field: b.field.clone()})
	h.live = true
	b.burst.hurtMS, b.burst.lastOhm, b.burst.trend = 0, 0, 0
	b.burst.list = append(b.burst.list, Burst{FromMS: b.clockMS, ToMS: b.clockMS, PowerW: int64(h.powerW), Cycle: b.field.cycles})
}

// endBurst ends the current, whether the foot is still down or not.
func (b *Bench) endBurst() {
	if !b.hand.live {
		return
	}
	b.hand.live = false
	b.sealSpots(true)
}

// Advance lets ms milliseconds pass: heat spreads, blood wells, alcohol dries,
// the anaesthetic begins to work. How the time is cut into calls changes
// nothing.
func (b *Bench) Advance(ms int) {
	for ms > 0 && !b.ended {
		n := min(ms, untilNext(b.clockMS, lookMS), untilNext(b.clockMS, bleedMS))
		b.step(n)
		ms -= n
	}
}

// untilNext is the time to the next whole multiple of every.
func untilNext(clock, every int) int { return every - clock%every }

func (b *Bench) step(ms int) {
	live := b.hand.live
	b.apply(op{kind: opStep, pose: b.pose(), pedal: live, ms: ms})
	b.clockMS += ms
	if live {
		u := &b.burst
		u.list[len(u.list)-1].ToMS += ms
		u.totalMS += ms
		if b.clockMS%lookMS == 0 {
			b.watchBurst()
		}
	}
	if b.clockMS%bleedMS == 0 {
		b.bleed()
	}
}

// watchBurst looks into a burst from time to time: does it hurt, has it
// reached the fat, is it longer than a device allows.
func (b *Bench) watchBurst() {
	u := &b.burst
	u.looks++
	s := b.p.t.Section(b.hand.yMM.Float())
	b.feel(&s)
	if u.looks%fatEvery == 0 {
		b.fatIn(&s)
	}
	ohm := b.p.t.ImpedanceOhm()
	switch {
	case u.lastOhm == 0 || ohm == 0:
		u.trend = 0
	case ohm > float64(1.03*u.lastOhm):
		u.trend = 1
	case ohm < float64(0.97*u.lastOhm):
		u.trend = -1
	default:
		u.trend = 0
	}
	u.lastOhm = ohm
	if !b.hand.live || len(b.c.Patient.Devices) == 0 {
		return
	}
	now := u.list[len(u.list)-1]
	if most := b.longestPlannedMS(); most > 0 && now.ToMS-now.FromMS > most {
		b.stopFor("device_current")
	}
}

// Bursts lists every burst so far.
func (b *Bench) Bursts() []Burst { return slices.Clone(b.burst.list) }
