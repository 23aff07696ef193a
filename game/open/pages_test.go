package open

import (
	"os"
	"testing"
)

// page is one screen in one state, and how a person gets there.
type page struct {
	name  string
	plans []string // kept from an earlier sitting
	visit func(v *visit)
	says  string // what stands there once it is reached
}

const (
	towel  = "first-list/towel"             // the case of most pages
	chapel = "face-and-neck/chapel"         // one to refer
	dark   = "trunk-and-limbs/low-neckline" // on darker skin
)

// pages are every screen of the program.
var pages = []page{
	{"today", nil, func(*visit) {}, "for today"},
	{"any-case", nil, func(v *visit) { v.keys("a") }, "# Every case"},
	{"case", nil, func(v *visit) { v.openCase(towel) }, "Asking never costs"},
	{"case-examined", nil, func(v *visit) {
		v.openCase(towel)
		v.choose("ask", "Blood thinners")
		v.choose("ask", "Change")
		v.choose("examine", "Feel")
		v.choose("examine", "Press")
	}, "shown now"},
	{"case-asked", nil, func(v *visit) {
		v.openCase(towel)
		v.choose("ask", "Change")
		v.choose("ask", "Blood thinners")
		v.choose("examine", "Feel")
	}, "freely over what lies below"},
	{"case-skin5", nil, func(v *visit) {
		v.openCase(dark)
		v.choose("ask", "Change")
		v.choose("examine", "Feel")
	}, "skin type 5"},
	{"plan-empty", nil, func(v *visit) { v.openCase(towel); v.keys("alt+2") }, "What I will do: [not decided]"},
	{"plan", []string{"towel-safe"}, func(v *visit) { v.openCase(towel); v.keys("alt+2"); v.focus("power_w") }, "No phrase is open"},
	{"plan-refer", []string{"chapel-refer"}, func(v *visit) { v.openCase(chapel); v.keys("alt+2") }, "I will [refer] her to [dermatology]"},
	{"plan-choice", []string{"towel-safe"}, func(v *visit) { v.openCase(towel); v.keys("alt+2"); v.focus("technique") }, "curettage and desiccation"},
	{"plan-ticks", []string{"towel-safe"}, func(v *visit) { v.openCase(towel); v.keys("alt+2"); v.focus("protection"); v.keys("Down", "Down") }, "respirator"},
	{"plan-typing", []string{"towel-safe"}, func(v *visit) {
		v.openCase(towel)
		v.keys("alt+2")
		v.focus("anaesthetic.injected.0.volume_ml")
		v.keys("9", "9", ".", "5", "Enter")
	}, "99.5"},
	{"debrief-unsafe", []string{"towel-unsafe"}, func(v *visit) { v.openCase(towel); v.keys("alt+2", "ctrl+Enter") }, "# Unsafe"},
	{"debrief-safe", []string{"towel-safe"}, func(v *visit) {
		v.openCase(towel)
		v.keys("alt+2", "ctrl+Enter")
		v.focus("credits")
		v.keys("Enter")
	}, "Hide them"},
	{"assess", nil, func(v *visit) { v.keys("e") }, "Watched by"},
	{"assess-plan", nil, func(v *visit) { v.keys("e", "ctrl+Enter", "alt+2") }, "Hand it in"},
	{"assess-between", nil, func(v *visit) {
		v.keys("e", "ctrl+Enter")
		v.handIn(5)
		v.keys("alt+4", "t")
	}, "Not during a self-assessment"},
	{"assess-result", nil, func(v *visit) {
		v.keys("e", "ctrl+Enter", "alt+2")
		v.handIn(11)
		v.keys("alt+4", "Enter", "alt+2", "ctrl+Enter")
	}, "Keep the sheet"},
	{"bench", []string{"towel-safe"}, func(v *visit) { v.openCase(towel); v.keys("alt+3") }, "# Bench"},
	{"bench-burst", []string{"towel-safe"}, func(v *visit) {
		v.openCase(towel)
		v.keys("alt+3", "m", "Enter", "y", "Enter", "Enter", "u")
		v.wait(16)
		v.keys("n", "Enter", "t", "e", "n", "Space")
		v.pass(600)
	}, "# Bench"},
	{"bench-review", []string{"towel-safe"}, func(v *visit) {
		v.treatTowel()
		v.keys("alt+3")
		v.until("An estimate on a coarse grid", "worked out")
	}, "Same hand, other powers"},
	{"progress", []string{"ten days"}, func(v *visit) { v.keys("p") }, "What was shown so far"},
	{"attempts", []string{"ten days"}, func(v *visit) { v.keys("p", "a") }, "as they were graded"},
	{"today-later", []string{"ten days"}, func(*visit) {}, "Shown so far"},
	{"settings", nil, func(v *visit) { v.keys(",") }, "# Settings"},
	{"rules", nil, func(v *visit) {
		v.keys("r")
		for _, c := range "alcohol dry" {
			v.keys(string(c))
		}
	}, "alcohol dry"},
	{"packs", nil, func(v *visit) { v.drop(os.DirFS("testdata"), "faulty-pack") }, "is not loaded"},
	{"keys", []string{"towel-safe"}, func(v *visit) { v.openCase(towel); v.keys("alt+2", "Escape", "?") }, "dialog Keys"},
}

// pageNamed finds a page.
func pageNamed(t *testing.T, name string) page {
	t.Helper()
	for _, p := range pages {
		if p.name == name {
			return p
		}
	}
	t.Fatalf("there is no page %q", name)
	return page{}
}

// shown is a visit that has reached a page.
func (p page) shown(t *testing.T, l look) *visit {
	t.Helper()
	v := newVisit(t, l, p.plans...)
	p.visit(v)
	if p.says != "" {
		v.wants(p.says)
	}
	return v
}
