package plain

import (
	"fmt"

	"leastwatt/cases"
)

// glanceMS is how often a burst is looked at.
const glanceMS = 20

// burstSeen is what was seen and heard while the pedal was down.
type burstSeen struct {
	ms, firstOhm, lastOhm int
	sparks, steam, smoke  bool
}

// burst holds the pedal down for so many seconds, or until something stops
// the current, and tells what happened.
func (t *treating) burst(args []string) error {
	long, err := figure(args, "a burst", "s", 50, 30_000, 10)
	if err != nil {
		return err
	}
	energy := t.b.Outcome().EnergyJ
	down, up := true, false
	if s := t.b.State(); s.Pressing {
		_ = t.b.Do(cases.SessionEvent{Act: "release"}) // only an ended bench refuses it
	}
	if err := t.b.Do(cases.SessionEvent{Tool: "electrode", Pedal: &down}); err != nil {
		return err
	}
	seen := t.watch(int(long))
	if err := t.b.Do(cases.SessionEvent{Pedal: &up}); err != nil {
		return err
	}
	if seen.ms == 0 {
		t.say("No current flows.")
	} else {
		t.burstLines(&seen, t.b.Outcome().EnergyJ-energy)
	}
	t.hear()
	return nil
}

// watch lets the burst run for ms at most.
func (t *treating) watch(ms int) burstSeen {
	var seen burstSeen
	for s := t.b.State(); s.Live && seen.ms < ms; s = t.b.State() {
		n := min(glanceMS, ms-seen.ms)
		t.b.Advance(n)
		seen.ms += n
		now := t.b.State()
		seen.sparks = seen.sparks || now.Sparking
		seen.steam = seen.steam || now.HotColumns > now.Smoking
		seen.smoke = seen.smoke || now.Smoking > 0
		if now.ImpedanceOhm > 0 {
			seen.lastOhm = now.ImpedanceOhm
			if seen.firstOhm == 0 {
				seen.firstOhm = now.ImpedanceOhm
			}
		}
		t.listen(&now)
	}
	return seen
}

// burstLines tell of a burst in words: meters first, then what is seen.
func (t *treating) burstLines(seen *burstSeen, energy cases.Milli) {
	s := t.b.State()
	if !t.assessed {
		all := t.b.Bursts()
		last := all[len(all)-1]
		long := cases.Milli(last.ToMS - last.FromMS)
		t.sayf("Burst %d: %s s with the dial at %s W, %s W delivered.", s.Bursts, long.Fixed(2), s.DialW, (energy * 1000 / max(long, 1)).Fixed(1))
		t.say(ohmText(seen.firstOhm, seen.lastOhm))
	}
	t.say(plumeText(seen))
	t.surfaceLine()
	if !t.assessed {
		t.figuresLine()
	}
	t.bleedLine()
}

func ohmText(first, last int) string {
	if first == 0 {
		return "Resistance: none read, for no current passed the tip."
	}
	trend := "steady"
	switch {
	case last*100 > first*103:
		trend = "the tissue is drying"
	case last*100 < first*97:
		trend = "the tissue warms"
	}
	return fmt.Sprintf("Resistance: %d ohm at first, %d ohm at last, %s.", first, last, trend)
}

func plumeText(seen *burstSeen) string {
	text := ""
	for _, x := range [...]struct {
		seen bool
		says string
	}{{seen.sparks, "Sparks jump. "}, {seen.steam, "Steam rises. "}, {seen.smoke, "Smoke rises. "}} {
		if x.seen {
			text += x.says
		}
	}
	if text == "" {
		return "No sparks, no steam, no smoke."
	}
	return text[:len(text)-1]
}

// figuresLine is what the bench has done to the tissue so far. Hidden in a
// self-assessment.
func (t *treating) figuresLine() {
	o := t.b.Outcome()
	t.sayf("So far: %.0f %% of the lesion destroyed or taken. Depth %s mm, %.0f %% of the dermis here. Rim beyond the edge %s mm.",
		o.LesionDestroyedFraction.Float()*100, o.DermisDepthMM.Fixed(2), o.DermisFraction.Float()*100, o.RimMM.Fixed(1))
	if o.FloorDepthMM > 0 || o.BaseCoveredFraction > 0 {
		t.sayf("Base under the cut: %.0f %% covered, %s mm deep.", o.BaseCoveredFraction.Float()*100, o.FloorDepthMM.Fixed(2))
	}
	if o.CharredMM3 >= 5 {
		t.sayf("Charred: %s mm³.", o.CharredMM3.Fixed(2))
	}
}
