package bench

import (
	"slices"

	"leastwatt/cases"
)

// Act is one line of the Record: what was really done, with its figures, or
// what the plan held and was skipped. Step is a word of the vocabulary
// bench_step.
type Act struct {
	Step    string
	FromMS  int
	ToMS    int
	Skipped bool

	Count    int            // strokes, bursts or times
	Cycle    int            // round that it belongs to, for bursts
	PowerW   [2]cases.Milli // least and greatest setting of the bursts
	LongestS cases.Milli    // longest burst
	TotalS   cases.Milli    // all of them
	VolumeML cases.Milli    // injected
	MM3      cases.Milli    // taken
	Contact  string         // of the bursts
	Output   string
	Tip      string
}

// stepOf is the line of the Record that an act belongs to.
var stepOf = map[string]string{
	"mark": "border_marked", "inject": "injected", "roll": "pressed", "press": "pressed", "wipe": "wiped", "shave": "shaved", "curette": "curetted",
	"snip": "snipped", "specimen_to_pot": "specimen_potted", "hand_on": "hand_on", "evacuator_near": "evacuated", "oxygen_off": "oxygen_off",
	"off_metal": "off_metal", "place_plate": "plate_placed", "wait": "waited",
}

// Record is what was really done, in order; like acts that follow each other
// are one line. What the plan held and was not done stands at the end.
func (b *Bench) Record() []Act {
	var out []Act
	add := func(a Act) {
		n := len(out) - 1
		if n < 0 || out[n].Step != a.Step || out[n].Cycle != a.Cycle {
			out = append(out, a)
			return
		}
		o := &out[n]
		o.ToMS, o.Count = a.ToMS, o.Count+a.Count
		o.PowerW = [2]cases.Milli{min(o.PowerW[0], a.PowerW[0]), max(o.PowerW[1], a.PowerW[1])}
		o.LongestS = max(o.LongestS, a.LongestS)
		o.TotalS += a.TotalS
		o.VolumeML += a.VolumeML
	}
	h, next := firstHand(b), 0
	bursts := b.burst.list
	for i := range b.events {
		e := &b.events[i]
		for next < len(bursts) && bursts[next].FromMS < e.Tick {
			add(b.burstLine(&bursts[next], &h))
			next++
		}
		follow(&h, e)
		step := stepOf[e.Act]
		if step == "" {
			continue
		}
		a := Act{Step: step, FromMS: e.Tick, ToMS: e.Tick, Count: 1}
		if e.VolumeML != nil && step == "injected" {
			a.VolumeML = *e.VolumeML
		}
		if e.WaitS != nil && step == "waited" {
			a.TotalS = *e.WaitS
		}
		add(a)
	}
	for ; next < len(bursts); next++ {
		add(b.burstLine(&bursts[next], &h))
	}
	return append(out, b.skipped(out)...)
}

// follow keeps the tip and the outlet as events set them.
func follow(h *hand, e *cases.SessionEvent) {
	for _, f := range [...]struct {
		to   *string
		from string
	}{{&h.tip, e.Tip}, {&h.output, e.Output}, {&h.contact, e.Contact}} {
		if f.from != "" {
			*f.to = f.from
		}
	}
}

func (b *Bench) burstLine(u *Burst, h *hand) Act {
	a := Act{Step: "treated", FromMS: u.FromMS, ToMS: u.ToMS, Count: 1, Cycle: u.Cycle, Contact: h.contact, Output: h.output, Tip: h.tip}
	if u.Undone {
		a.Step = "undone"
	}
	power, long := cases.Milli(u.PowerW), cases.Milli(u.ToMS-u.FromMS)
	a.PowerW, a.LongestS, a.TotalS = [2]cases.Milli{power, power}, long, long
	return a
}

// skipped lists what the plan held and was not done.
func (b *Bench) skipped(done []Act) []Act {
	var out []Act
	want := func(step string, planned bool) {
		if planned && !slices.ContainsFunc(done, func(a Act) bool { return a.Step == step }) {
			out = append(out, Act{Step: step, Skipped: true, FromMS: b.clockMS, ToMS: b.clockMS})
		}
	}
	a := b.plan.Anaesthetic
	want("border_marked", slices.Contains(b.plan.Record, "border_marked"))
	want("injected", a != nil && len(a.Injected) > 0)
	want("shaved", b.tech.Shaves)
	want("snipped", b.tech.Snips)
	want("curetted", b.tech.Curettes)
	want("specimen_potted", b.wantsSpecimen())
	want("treated", b.tech.Heats)
	if b.cyclesMissed() && b.field.cycles > 0 {
		out = append(out, Act{Step: "rounds", Skipped: true, FromMS: b.clockMS, ToMS: b.clockMS, Count: int(*b.plan.Cycles/1000) - b.field.cycles})
	}
	return out
}

// StripPiece is one piece of the strip of acts under a replay.
type StripPiece struct {
	Step         string // word of the vocabulary bench_step
	FromMS, ToMS int
	Undone       bool
}

// Strip is the strip of acts: every act and burst with its time.
func (b *Bench) Strip() []StripPiece {
	var out []StripPiece
	for i := range b.events {
		e := &b.events[i]
		if step := stepOf[e.Act]; step != "" {
			to := e.Tick
			if e.Act == "wait" {
				to += int(*e.WaitS)
			}
			out = append(out, StripPiece{Step: step, FromMS: e.Tick, ToMS: min(to, b.clockMS)})
		}
	}
	for _, u := range b.burst.list {
		out = append(out, StripPiece{Step: "treated", FromMS: u.FromMS, ToMS: u.ToMS, Undone: u.Undone})
	}
	slices.SortStableFunc(out, func(a, b StripPiece) int { return a.FromMS - b.FromMS })
	return out
}
