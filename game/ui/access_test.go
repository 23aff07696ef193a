package ui

import (
	"strings"
	"testing"
)

func TestAccessibleText(t *testing.T) {
	want := `# Plan
Harrow Fell teaching clinic · case 7 of 12 · “It bleeds.”
- stages: Alt 1–4
  tab Case
  tab Plan: P (here)
  tab Bench (off)
  tab Debrief
picture drawn picture of the lesion: 16 mm wide (drawn)
Man, 68 · 84 kg
You asked about devices. {Ask more}
body Upper back, left
Before I start: [consent, site confirmed, border marked (credit)]. I will [treat] this lesion, at [7.0 W (caution 2)] (of 35 W), touching; evacuator: [not decided]. Then [gloves, mask and goggles (not looked at)] and [no margin]. [alcohol (never event 1)] with [5 s (advice)].
dial Sure of “Safe”?: not set
button Grade now: key G
button To the bench
button Not yet (off)
  Two phrases are open.
button Sources
`
	got := Accessible(samplePage(false)).Text()
	if !strings.HasPrefix(got, want) {
		t.Errorf("the page reads\n%s\nwant it to begin\n%s", got, want)
	}
	for _, line := range []string{
		"chart what other powers do", "  lesion gone", "dial Power: 7.0 W", "  0.1 to 35 W", "- contact", "  - touching: The tip rests on the tissue. (chosen)", "  - gap (off)",
		"  - gloves (ticked)", "field Search", "1 Never: the prep was wet. Alcohol burns. (never event)", "  Drug label, year", "  decision: about 70 in 100, between 50 and 80",
		"  room: too few to say", "  refer: 1 case", "  - “It bleeds.”: New to you. Man, 68 · back (chosen)", "  - A fault (caution)", "Undo: Ctrl Z", "The note was copied as text.",
	} {
		if !strings.Contains(got, "\n"+line+"\n") {
			t.Errorf("the page does not read %q; it reads\n%s", line, got)
		}
	}
}

// Everything that can have the focus is in the accessible tree, by its ID and
// with a name or value; and the other way round.
func TestEveryControlIsAccessible(t *testing.T) {
	for _, over := range []bool{false, true} {
		a := Accessible(samplePage(over))
		f := Layout(samplePage(over), Size{1280, 4000}, State{TextScale: 1})
		for _, s := range f.Stops {
			if s.Layer != f.Layers-1 {
				continue
			}
			e := a.Find(s.ID)
			if e == nil {
				t.Errorf("%q is not in the accessible tree", s.ID)
			} else if e.Name == "" {
				t.Errorf("%q has no accessible name", s.ID)
			}
		}
		var walk func(Access)
		walk = func(e Access) {
			operable := e.ID != "" && e.Role != "picture" && e.Role != "dialog"
			for _, st := range e.State {
				operable = operable && st != "off"
			}
			if operable && f.Stop(e.ID) == nil {
				t.Errorf("%q is accessible as %s but cannot have the focus", e.ID, e.Role)
			}
			for _, k := range e.Children {
				walk(k)
			}
		}
		walk(a)
	}
}

func TestDialogHidesThePage(t *testing.T) {
	got := Accessible(samplePage(true)).Text()
	if strings.Contains(got, "Grade now") || !strings.Contains(got, "dialog Keys") || !strings.Contains(got, "button Close") {
		t.Errorf("with a dialog open the screen reads\n%s", got)
	}
}
