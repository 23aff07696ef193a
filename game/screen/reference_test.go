package screen

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring/tables"
)

func TestRulesAreFound(t *testing.T) {
	all := FindRules(tables.Builtin, "", "", cases.UK)
	if len(all) != len(tables.Builtin.Rows) {
		t.Errorf("an empty search finds %d of %d rules", len(all), len(tables.Builtin.Rows))
	}
	for _, r := range all {
		found := FindRules(tables.Builtin, r.Rule+" "+r.Certainty, r.Domain, cases.UK)
		hit := false
		for _, f := range found {
			hit = hit || f == r
		}
		if !hit {
			t.Fatalf("%s is not found by its own name", r.Rule)
		}
	}
	uk, us := FindRules(tables.Builtin, "adrenaline", "", cases.UK), FindRules(tables.Builtin, "epinephrine", "", cases.US)
	if len(uk) == 0 || len(us) < len(uk) {
		t.Errorf("adrenaline finds %d, epinephrine in American words %d", len(uk), len(us))
	}
	if n := len(FindRules(tables.Builtin, "zzz no such words", "", cases.UK)); n != 0 {
		t.Errorf("nonsense finds %d", n)
	}
}

func TestRulesScreenSearches(t *testing.T) {
	a := newApp(t, quiet(config()))
	h := ui.NewHost(a)
	keys(h, "r", "a", "l", "c", "o", "h", "o", "l")
	if a.rules.query != "alcohol" {
		t.Fatalf("the search holds %q", a.rules.query)
	}
	text := textOf(a)
	for _, r := range FindRules(tables.Builtin, "alcohol", "", cases.UK) {
		if !strings.Contains(text, r.Rule) || !strings.Contains(text, capital(r.Source)) {
			t.Errorf("%s or its source is not shown", r.Rule)
		}
	}
	a.Update(ui.Choose{ID: "rules domain", Index: 1 + cases.Vocab.Index("domain", "room")})
	for _, r := range FindRules(tables.Builtin, "alcohol", "", cases.UK) {
		if r.Domain != "room" && strings.Contains(textOf(a), r.Rule) {
			t.Errorf("%s of another subject is shown", r.Rule)
		}
	}
	keys(h, "Escape")
	if a.at != atToday {
		t.Error("Escape does not lead back")
	}
}

func TestADroppedPackIsCheckedAndLoaded(t *testing.T) {
	cfg := quiet(config())
	extra := *builtin()[0]
	extra.ID = "extra"
	reports := map[string]PackReport{
		"extra": {Name: "extra", Pack: &extra, Warnings: cases.Faults{{File: "extra/pack.json", Line: 4, Column: 2, Message: "the answer does not tell the fact"}}},
		"bad":   {Name: "bad", Faults: cases.Faults{{File: "bad/pack.json", Line: 7, Column: 19, Message: `unknown family "cherry"`}}},
		"again": {Name: "again", Pack: &extra},
	}
	var posted []any
	done := make(chan any, 1)
	cfg.LoadPack = func(_ fs.FS, name string) PackReport { return reports[name] }
	cfg.Post = func(msg any) {
		if _, ok := msg.(packLoaded); ok {
			done <- msg
		}
	}
	a := newApp(t, cfg)
	before := len(a.order)
	for _, name := range []string{"extra", "bad", "again"} {
		a.Update(ui.Drop{Name: name, FS: fstest.MapFS{}})
		if !strings.Contains(textOf(a), "Checking "+name) {
			t.Errorf("nothing says that %s is being checked", name)
		}
		msg := <-done
		posted = append(posted, msg)
		a.Update(msg)
	}
	if len(a.order) != before+len(extra.Cases) || len(posted) != 3 {
		t.Errorf("%d cases, should be %d", len(a.order), before+len(extra.Cases))
	}
	text := textOf(a)
	for _, want := range []string{
		"extra is loaded: 12 cases, 1 warning.", "extra/pack.json:4:2",
		"bad is not loaded: 1 error.", `Error: unknown family "cherry".`, "bad/pack.json:7:19",
		"again is not loaded: 1 error.", `a pack with the id "extra" is here already`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the packs screen does not say %q:\n%s", want, text)
		}
	}
}
