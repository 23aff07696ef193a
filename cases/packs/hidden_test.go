package packs

import (
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
)

// hiddenIn lists what changes the right plan of a case and does not show on
// its card or in its picture: it has to be asked for, felt for or looked for.
// Aspirin, a plain scar history and the like are not counted.
func hiddenIn(c *cases.Case) []string {
	p, l := &c.Patient, &c.Lesion
	var traps []string
	add := func(there bool, name string) {
		if there {
			traps = append(traps, name)
		}
	}
	holds := func(list []string, words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	add(len(p.Devices) > 0, "device")
	add(holds(p.Medicines, "warfarin", "direct_anticoagulant", "clopidogrel", "two_antiplatelets", "heparin"), "blood thinner")
	add(len(p.Allergies) > 0, "allergy")
	add(p.Pregnant || p.Breastfeeding, "pregnancy or feeding")
	add(holds(p.History, "keloid"), "keloid")
	add(holds(p.History, "immune_suppressed", "hiv", "hepatitis_b", "hepatitis_c"), "weak defence or virus")
	add(holds(p.History, "bleeding_tendency", "liver_disease", "unstable_heart_disease", "prosthetic_valve", "methaemoglobinaemia", "epilepsy"), "illness")
	add(holds(p.History, "diabetes", "poor_circulation", "raynaud"), "slow healing")
	add(holds(p.History, "dementia") || p.AgeYears < 16000, "someone else decides")
	add(c.Setting.OxygenRunning, "oxygen")
	add(c.Setting.MetalTable, "metal")
	add(c.Setting.Unit != nil, "another unit")
	add(!c.Setting.SmokeEvacuator || !c.Setting.PathologyService, "something missing in the room")
	add(l.LooksLike != "", "looks like another thing")
	add(l.Report != nil && (l.Report.Says != l.Looks() || l.Report.Site != l.Site || l.Report.Side != l.Side), "what the report says")
	add(holds(l.Features, "infected", "recurrent", "irradiated", "failed_first_line"), "the story of the lesion")
	return traps
}

func TestAThirdHideATrap(t *testing.T) {
	all := everyCase(t)
	kinds, hiding := map[string]int{}, 0
	for _, c := range all {
		traps := hiddenIn(c)
		if len(traps) > 0 {
			hiding++
		}
		for _, name := range traps {
			kinds[name]++
		}
	}
	t.Logf("%d of %d cases hide something: %v", hiding, len(all), kinds)
	if 3*hiding < len(all) {
		t.Errorf("only %d of %d cases hide something; at least a third wanted", hiding, len(all))
	}
}

// What an author expects beyond the tables has a reason that reads as one.
func TestExpectationsAreExplained(t *testing.T) {
	n := 0
	for id, c := range everyCase(t) {
		for _, e := range c.Expect {
			n++
			if words := strings.Fields(e.Reason); len(words) < 6 || !strings.HasSuffix(e.Reason, ".") {
				t.Errorf("%s %s: reason %q", id, e.Rule, e.Reason)
			}
		}
	}
	t.Logf("%d expectations", n)
}
