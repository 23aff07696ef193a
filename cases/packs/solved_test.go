package packs_test

import (
	"io/fs"
	"sort"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// Every built-in case has a plan with full marks, without an error or a
// warning; and right answers are mixed much as a clinic mixes them.
func TestEveryCaseIsSolved(t *testing.T) {
	sets, single := map[string]int{}, map[string]int{}
	n, soon := 0, 0
	for _, l := range loadAll(t) {
		report := solve.Check(l, tables.Builtin, "")
		for _, fault := range append(report.Errors, report.Warnings...) {
			t.Errorf("%v", fault)
		}
		for i, c := range report.Cases {
			n++
			if !c.Solved {
				t.Errorf("%s: no plan with full marks; in the way: %v", c.Case, c.Conflict)
			}
			right := rightDecisions(c)
			sets[strings.Join(right, " or ")]++
			for _, d := range right {
				single[d]++
			}
			if wantsSoon(t, l, i) {
				soon++
			}
		}
	}
	t.Logf("%d cases; right decisions %v; each counted %v; %d wanted within two weeks if referred", n, told(sets), told(single), soon)
	for decision, least := range map[string]int{"treat": 30, "biopsy_first": 20, "refer": 30, "leave": 30} {
		if single[decision] < least {
			t.Errorf("%s is right in %d cases; at least %d wanted", decision, single[decision], least)
		}
	}
	notHere := 0
	for set, count := range sets {
		if !strings.Contains(set, "treat") && !strings.Contains(set, "biopsy_first") {
			notHere += count
		}
	}
	if notHere < 12 {
		t.Errorf("not today and not here is the only answer in %d cases; at least 12 wanted", notHere)
	}
	if soon < 10 {
		t.Errorf("%d cases are urgent; at least 10 wanted", soon)
	}
}

func loadAll(t *testing.T) []*cases.Loaded {
	t.Helper()
	var all []*cases.Loaded
	for _, name := range packs.Names() {
		sub, err := fs.Sub(packs.FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		l, err := cases.LoadPackFS(sub, "cases/packs/"+name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
	return all
}

// rightDecisions are those with which the solver reaches every point.
func rightDecisions(c solve.CaseReport) []string {
	var right []string
	for _, d := range cases.Vocab.IDs("disposition") {
		for _, b := range c.Best {
			if b.Disposition == d && b.Of > 0 && b.Points == b.Of {
				right = append(right, d)
				break
			}
		}
	}
	return right
}

// wantsSoon tells whether a referral within thirty days is too late.
func wantsSoon(t *testing.T, l *cases.Loaded, i int) bool {
	t.Helper()
	j, err := scoring.NewJudge(tables.Builtin, &l.Pack.Cases[i], l.Pack.LocalRules, "")
	if err != nil {
		t.Fatal(err)
	}
	month := cases.Milli(30000)
	score := j.Score(&cases.Plan{Disposition: "refer", Referral: &cases.Referral{To: "dermatology", WithinDays: &month}}, nil)
	for _, m := range score.Marks {
		switch m.Row.Rule {
		case "decision-refer-melanoma-when", "decision-refer-squamous-when":
			if m.Kind != tables.Credit {
				return true
			}
		}
	}
	return false
}

// told writes a count in a fixed order.
func told(counts map[string]int) string {
	var lines []string
	for name, n := range counts {
		lines = append(lines, name+" "+cases.Milli(n*1000).String())
	}
	sort.Strings(lines)
	return strings.Join(lines, ", ")
}
