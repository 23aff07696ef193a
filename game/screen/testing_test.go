package screen

import (
	"fmt"
	"io/fs"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/game/ui"
)

// builtin reads the built-in packs once.
var builtin = sync.OnceValue(func() []*cases.Pack {
	var list []*cases.Pack
	for _, name := range packs.Names() {
		data, err := fs.ReadFile(packs.FS(), name+"/pack.json")
		if err != nil {
			panic(err)
		}
		p, _, sheet := cases.ReadPack(name+"/pack.json", data)
		if p == nil {
			panic(sheet.Faults)
		}
		list = append(list, p)
	}
	return list
})

func config() Config {
	return Config{
		Packs: builtin(), Seed: 7, Settings: DefaultSettings(),
		Today: func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) },
	}
}

// caseOf finds a built-in case.
func caseOf(t testing.TB, ref string) (*cases.Pack, *cases.Case) {
	t.Helper()
	for _, p := range builtin() {
		for i := range p.Cases {
			if p.ID+"/"+p.Cases[i].ID == ref {
				return p, &p.Cases[i]
			}
		}
	}
	t.Fatalf("there is no case %q", ref)
	return nil, nil
}

// newApp makes the program without background work, so that a test is the same
// every time.
func newApp(t testing.TB, cfg Config) *App {
	t.Helper()
	a, err := NewApp(cfg)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// quiet keeps pictures from being drawn: they are not what the test is about.
func quiet(cfg Config) Config {
	cfg.Post = func(any) {}
	return cfg
}

// keys sends named keys and typed characters to a host.
func keys(h *ui.Host, names ...string) {
	for _, n := range names {
		switch {
		case len(n) == 5 && n[:4] == "alt+":
			h.KeyDown(ui.Key{Name: n[4:], Alt: true})
		case len(n) == 6 && n[:5] == "ctrl+":
			h.KeyDown(ui.Key{Name: n[5:], Ctrl: true})
		case len([]rune(n)) == 1:
			h.Type(n)
		default:
			h.KeyDown(ui.Key{Name: n})
		}
		h.Frame()
	}
}

// anyCase draws a built-in case.
func anyCase(t *rapid.T) (*cases.Pack, *cases.Case) {
	p := rapid.SampledFrom(builtin()).Draw(t, "pack")
	return p, &p.Cases[rapid.IntRange(0, len(p.Cases)-1).Draw(t, "case")]
}

// anyPlan makes a plan by a run of random edits through the editors: what a
// trainee can reach, and nothing else.
func anyPlan(t *rapid.T, c *cases.Case) *cases.Plan {
	p := &cases.Plan{Format: cases.PlanFormat, Case: "test/" + c.ID}
	for _, topic := range cases.Vocab.IDs("topic") {
		if rapid.IntRange(0, 2).Draw(t, "ask") == 0 {
			p.Asked = append(p.Asked, topic)
		}
	}
	if d := rapid.SampledFrom([]string{"", "treat", "treat", "biopsy_first", "refer", "leave"}).Draw(t, "decision"); d != "" {
		p.Disposition = d
	}
	for range 2 {
		phrases := Phrases(NoteOf(c, p, Future, cases.UK))
		for i := 0; i < len(phrases); i, phrases = i+1, Phrases(NoteOf(c, p, Future, cases.UK)) {
			ph := phrases[i]
			if rapid.IntRange(0, 3).Draw(t, "leave open") > 0 && ph.ID != "disposition" {
				anyEdit(t, p, ph.ID)
			}
		}
	}
	return p
}

func anyEdit(t *rapid.T, p *cases.Plan, id string) {
	e, ok := EditorFor(p, id, cases.UK)
	switch {
	case !ok:
		t.Fatalf("the phrase %q has no editor", id)
	case e.Asks:
	case e.Kind == NumberEditor:
		e.SetFraction(rapid.Float64Range(0, 1).Draw(t, "dial"))
	case e.Kind == TicksEditor && rapid.Bool().Draw(t, "none"):
		e.TickNone()
	default:
		if len(e.Items) == 0 {
			t.Fatalf("the editor of %s offers nothing", e.ID)
		}
		e.Pick(rapid.IntRange(0, len(e.Items)-1).Draw(t, "item"))
	}
}

func milli(m int64) *cases.Milli { v := cases.Milli(m); return &v }

func yes() *bool { v := true; return &v }
func no() *bool  { v := false; return &v }

// mustPlan is a plan of a built-in case, without the parts a test leaves out.
func mustPlan(ref string, p cases.Plan) *cases.Plan {
	p.Format, p.Case = cases.PlanFormat, ref
	return &p
}

func textOf(a *App) string { tree := ui.Accessible(a.View()); return fmt.Sprint(tree.Text()) }
