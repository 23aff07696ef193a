package screen

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/scoring"
)

// Of a case in a round nothing hidden matters: with any hazard that only a
// question brings out taken away or added, the same rules judge each decision
// alike, or the case is not offered.
func TestARoundHidesNothingThatCounts(t *testing.T) {
	d, err := NewDesk(quiet(config()))
	if err != nil {
		t.Fatal(err)
	}
	offered := map[string]bool{}
	for _, e := range d.fair() {
		offered[e.ref] = true
		if e.c.Lesion.Report != nil {
			t.Errorf("%s has a report, which nobody can ask for", e.ref)
		}
		if g := groupOf(e.c); g < 0 {
			t.Errorf("%s looks like nothing else", e.ref)
		}
	}
	if len(offered) < 2*roundSize {
		t.Errorf("only %d cases can be offered", len(offered))
	}
	// A report decides, a change that only words tell decides, a missing
	// pathologist decides: none of these can be met at a glance.
	for _, ref := range []string{"first-list/towel", "face-and-neck/letter", "hands-and-folds/waistband"} {
		caseOf(t, ref)
		if offered[ref] {
			t.Errorf("%s is offered, though its answer is hidden", ref)
		}
	}
	_, c := caseOf(t, "first-list/strap")
	remote := *c
	remote.Setting.PathologyService = false
	if fair, _ := d.fairAtAGlance(entry{"first-list/strap", builtin()[0], &remote}); fair {
		t.Error("a room without a pathologist is offered")
	}
	pregnant := *c
	pregnant.Patient.Pregnant, pregnant.Patient.AgeYears = true, 30_000
	if fair, _ := d.fairAtAGlance(entry{"first-list/strap", builtin()[0], &pregnant}); fair {
		t.Error("a pregnancy that nobody can ask about is offered")
	}
}

func TestRoundsMixHarmlessAndNot(t *testing.T) {
	selections := map[string]bool{}
	counts := map[int]bool{}
	for seed := range uint64(12) {
		cfg := quiet(config())
		cfg.Seed = seed
		d, err := NewDesk(cfg)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := NewDesk(cfg)
		for range 3 {
			r, err := d.NewRound(true)
			if err != nil {
				t.Fatal(err)
			}
			same, _ := again.NewRound(true)
			refs := refsOf(r)
			if !slices.Equal(refs, refsOf(same)) {
				t.Fatal("the same seed gives another round")
			}
			selections[strings.Join(refs, " ")] = true
			slices.Sort(refs)
			if len(refs) != roundSize || len(slices.Compact(refs)) != roundSize {
				t.Fatalf("a round of %v", refs)
			}
			harmless := 0
			for _, g := range r.Items {
				j, err := scoring.NewJudge(d.Set, g.c, g.pack.LocalRules, "cautious")
				if err != nil {
					t.Fatal(err)
				}
				harmless += b2i(j.Acceptable("leave"))
			}
			counts[harmless] = true
			if harmless < 2 || harmless > roundSize-2 {
				t.Errorf("seed %d: %d of %d may be left", seed, harmless, roundSize)
			}
		}
	}
	if len(selections) < 30 {
		t.Errorf("36 rounds hold only %d selections", len(selections))
	}
	if len(counts) < 2 {
		t.Error("every round has as many that may be left: that can be counted")
	}
}

func refsOf(r *Round) []string {
	var refs []string
	for _, g := range r.Items {
		refs = append(refs, g.ref)
	}
	return refs
}

func TestEarlierPicturesComeLast(t *testing.T) {
	d, err := NewDesk(quiet(config()))
	if err != nil {
		t.Fatal(err)
	}
	first, _ := d.NewRound(false)
	second, _ := d.NewRound(false)
	again := 0
	for _, ref := range refsOf(second) {
		again += b2i(slices.Contains(refsOf(first), ref))
	}
	if again > 3 {
		t.Errorf("%d of ten pictures come again at once", again)
	}
}

func TestAPackWithoutLookalikesHasNoRound(t *testing.T) {
	pack, c := caseOf(t, "first-list/shorts")
	one := *pack
	one.Cases = []cases.Case{*c}
	a := newApp(t, quiet(Config{Packs: []*cases.Pack{&one}, Settings: DefaultSettings()}))
	if _, err := a.NewRound(false); err == nil {
		t.Fatal("a round was made of a case that looks like no other")
	}
	a.goTo(atRound)
	a.beginRound(true)
	if a.play.round != nil || !strings.Contains(textOf(a), "No case at hand can be decided") {
		t.Errorf("nothing says why there is no round:\n%s", textOf(a))
	}
}

func TestLookalikesAreChecked(t *testing.T) {
	for _, test := range []struct{ data, want string }{
		{`{"about": "x", "groups": [{"group": "a", "families": ["skin_tag", "no_such"], "told": "x", "source": "y"}]}`, "f.json:1:67"},
		{`{"about": "x", "groups": [{"group": "a", "families": ["skin_tag"], "told": "x", "source": "y"}, {"group": "b", "families": ["skin_tag"], "told": "x", "source": "y"}]}`, `"skin_tag" is in "a" already`},
		{`{"about": "x", "groups": [{"group": "a", "families": ["skin_tag"], "told": "x"}]}`, "source"},
	} {
		_, err := readLookalikes("f.json", []byte(test.data))
		var faults cases.Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, should name %q", test.data, err, test.want)
		}
	}
	if len(lookalikeGroups) > 16 {
		t.Error("pickRound has room for 16 groups")
	}
}
