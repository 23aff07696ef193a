package packs

import (
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
)

// pair is two cases that a hurried eye takes for one another. One sign tells
// them apart: a feature that one of the two has and the other has not.
type pair struct {
	harmless, doubtful string
	sign               string // the feature
	on                 string // which of the two has it: "doubtful" or "harmless"
	topic              string // the question or examination that shows it
	alike              string // why they are taken for one another, when their looks differ by name
}

var pairs = []pair{
	{"first-list/strap", "trunk-and-limbs/itchy-one", "asymmetric", "doubtful", "magnify", ""},
	{"first-list/collar", "hands-and-folds/waistband", "firm", "doubtful", "feel", ""},
	{"face-and-neck/shaving-light", "face-and-neck/powder", "branching_vessels", "doubtful", "magnify", "one smooth bump among oil bumps"},
	{"first-list/glasses", "look-alikes/hearth", "branching_vessels", "doubtful", "magnify", ""},
	{"first-list/lambing", "look-alikes/gate-latch", "ulcerated", "doubtful", "magnify", ""},
	{"face-and-neck/mug", "look-alikes/ink", "blanches", "harmless", "press_glass", "a dark spot on a lip"},
	{"first-list/razor-leg", "look-alikes/belt-loop", "dimples_when_pinched", "harmless", "pinch", ""},
	{"first-list/hedger", "look-alikes/thatch", "tender_base", "doubtful", "feel", ""},
	{"look-alikes/hay-cart", "look-alikes/picnic", "pearly", "doubtful", "magnify", ""},
	{"look-alikes/pool-locker", "look-alikes/bonnet", "branching_vessels", "doubtful", "dermoscope", ""},
	{"trunk-and-limbs/acne-scar", "look-alikes/veil", "pearly", "doubtful", "feel", ""},
	{"first-list/mirror", "look-alikes/lantern", "pearly", "doubtful", "feel", ""},
	{"hands-and-folds/fell-race", "look-alikes/cobbles", "indurated", "doubtful", "feel", ""},
	{"hands-and-folds/minor-scale", "look-alikes/fiddle", "ulcerated", "doubtful", "magnify", ""},
	{"hands-and-folds/clinic-door", "look-alikes/hymn-book", "indurated", "doubtful", "feel", ""},
	{"look-alikes/church-step", "face-and-neck/ear-point", "indurated", "doubtful", "feel", ""},
	{"face-and-neck/sailing", "look-alikes/windmill", "pearly", "doubtful", "feel", ""},
}

// serious are words of which a truth that is not harmless has at least one.
var serious = []string{"carcinoma", "melanoma", "sarcoma"}

func isSerious(c *cases.Case) bool {
	return slices.ContainsFunc(serious, func(word string) bool { return strings.Contains(c.Truth.Diagnosis, word) })
}

func TestLookAlikePairs(t *testing.T) {
	all := everyCase(t)
	seen := map[string]bool{}
	for _, p := range pairs {
		h, d := all[p.harmless], all[p.doubtful]
		if h == nil || d == nil {
			t.Errorf("%s and %s: one of the two is not there", p.harmless, p.doubtful)
			continue
		}
		if isSerious(h) || !isSerious(d) {
			t.Errorf("%s is %q, %s is %q: one has to be harmless and one not", p.harmless, h.Truth.Diagnosis, p.doubtful, d.Truth.Diagnosis)
		}
		if (h.Lesion.Looks() == d.Lesion.Looks()) != (p.alike == "") {
			t.Errorf("%s looks like %s, %s like %s, alike %q", p.harmless, h.Lesion.Looks(), p.doubtful, d.Lesion.Looks(), p.alike)
		}
		has, lacks := d, h
		if p.on == "harmless" {
			has, lacks = h, d
		}
		if !slices.Contains(has.Lesion.Features, p.sign) || slices.Contains(lacks.Lesion.Features, p.sign) {
			t.Errorf("%s and %s are not told apart by %q", p.harmless, p.doubtful, p.sign)
		}
		if !slices.Contains(cases.Reveals(p.sign), p.topic) {
			t.Errorf("%s: %q does not show %q", p.doubtful, p.topic, p.sign)
		}
		word := strings.ToLower(strings.Fields(cases.Vocab.Label("feature", p.sign, cases.UK))[0])
		told := strings.ToLower(cases.AnswerFor(has, p.topic, cases.UK).Text)
		if i := strings.Index(told, word); i < 0 || strings.Contains(told[max(0, i-4):i], "no") {
			t.Errorf("%s: %q does not tell of %q: %s", p.doubtful, p.topic, word, told)
		}
		if seen[p.doubtful] {
			t.Errorf("%s stands in two pairs", p.doubtful)
		}
		seen[p.doubtful] = true
		t.Logf("%-28s %-28s %s (%s, on the %s one)", p.harmless, p.doubtful, p.sign, p.topic, p.on)
	}
	if len(pairs) < 10 {
		t.Errorf("%d pairs; at least 10 wanted", len(pairs))
	}
}
