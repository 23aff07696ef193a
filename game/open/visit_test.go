package open

import (
	"fmt"
	"image"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/game/keep"
	"leastwatt/game/screen"
	"leastwatt/game/sitting"
	"leastwatt/game/ui"
	"leastwatt/game/verb"
	"leastwatt/game/window"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// theMorning is the clock of every visit: it sets the date on the screen and
// the order of the day's cases.
func theMorning() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) }

// look is how a window shows the program.
type look struct {
	w, h      int     // logical px
	scale     float64 // device pixels for each
	dark      bool
	textScale int // per cent
}

var usual = look{1280, 800, 1, false, 100}

// visit is the whole program as a window runs it, with the built-in packs and a
// folder of its own to keep things in; only the clock stands still, and keys
// come from the test.
type visit struct {
	t    *testing.T
	app  *screen.App
	host *ui.Host
	look look
}

// newVisit opens the program on plans that were kept in an earlier sitting.
// Plans are names of files in testdata/plans.
func newVisit(t *testing.T, l look, plans ...string) *visit {
	t.Helper()
	data := t.TempDir()
	if len(plans) > 0 && plans[0] == "ten days" {
		tenDays(t, data)
		plans = plans[1:]
	}
	folder, err := keep.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range plans {
		if err := folder.SaveDraft(planFile(t, name)); err != nil {
			t.Fatal(err)
		}
	}
	settings := screen.DefaultSettings()
	settings.Dark, settings.TextScale = l.dark, l.textScale
	if err := folder.SaveSettings(settings); err != nil {
		t.Fatal(err)
	}
	v := &visit{t: t, look: l}
	cfg, err := sitting.Begin(verb.Stdio(), data, sitting.World{Now: theMorning, Random: rand.NewChaCha8([32]byte{})})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cfg.Close() })
	cfg.Post = func(msg any) { v.host.Post(msg) }
	if v.app, err = screen.NewApp(cfg); err != nil {
		t.Fatal(err)
	}
	v.host = ui.NewHost(v.app)
	v.host.SetSize(float64(l.w), float64(l.h))
	v.settle()
	return v
}

func planFile(t *testing.T, name string) *cases.Plan {
	t.Helper()
	name = filepath.Join("testdata", "plans", name+".json")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := cases.ReadPlan(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// settle lays the screen out by the settings as they are now, as the window's
// loop does, and waits until no picture on it is still being drawn.
func (v *visit) settle() *ui.Frame {
	v.t.Helper()
	limit := time.Now().Add(time.Minute)
	for {
		theme := ui.Light
		if v.app.Dark() {
			theme = ui.Dark
		}
		v.host.SetLook(theme, v.app.TextScale(), false)
		f := v.host.Frame()
		if !slices.ContainsFunc(f.Ops, unfinished) {
			return f
		}
		if time.Now().After(limit) {
			v.t.Fatal("a picture was not drawn within a minute")
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// unfinished finds the plain tone that stands where a picture is being drawn.
func unfinished(op ui.Op) bool {
	d, ok := op.(ui.DrawImage)
	return ok && d.Version == 0
}

// keys sends keys as a window would: a name such as "Tab", "alt+2", "ctrl+z",
// "shift+Tab", or a character that is typed.
func (v *visit) keys(names ...string) {
	v.t.Helper()
	for _, name := range names {
		mod, key, combined := strings.Cut(name, "+")
		switch {
		case combined && key != "":
			v.host.KeyDown(ui.Key{Name: key, Ctrl: mod == "ctrl", Alt: mod == "alt", Shift: mod == "shift"})
		case len([]rune(name)) == 1:
			v.host.Type(name)
		default:
			v.host.KeyDown(ui.Key{Name: name})
		}
		v.host.Frame()
	}
}

// openCase opens a case from the list of every case.
func (v *visit) openCase(ref string) {
	v.t.Helper()
	at := slices.Index(v.app.Cases(), ref)
	if at < 0 {
		v.t.Fatalf("there is no case %q", ref)
	}
	v.keys("a")
	for range at {
		v.keys("Down")
	}
	v.keys("Enter")
	v.wants("# Case")
}

// focus tabs to a control.
func (v *visit) focus(id string) {
	v.t.Helper()
	for range 200 {
		if v.host.Focus() == id {
			return
		}
		v.keys("Tab")
	}
	v.t.Fatalf("Tab never reaches %q", id)
}

// choose moves to a line of the list in focus by its first words and takes it.
func (v *visit) choose(list, line string) {
	v.t.Helper()
	v.focus(list)
	tree := ui.Accessible(v.host.Tree())
	at := tree.Find(list)
	if at == nil {
		v.t.Fatalf("there is no list %q", list)
	}
	i := slices.IndexFunc(at.Children, func(c ui.Access) bool { return strings.HasPrefix(c.Name, line) })
	if i < 0 {
		v.t.Fatalf("the list %q has no line %q: %s", list, line, at.Text())
	}
	v.keys("Home")
	for range i {
		v.keys("Down")
	}
	v.keys("Enter")
}

// words is the screen as a screen reader tells it.
func (v *visit) words() string { return ui.Accessible(v.host.Tree()).Text() }

// wants makes sure that the visit is where the picture should be taken.
func (v *visit) wants(text string) {
	v.t.Helper()
	v.settle()
	if words := v.words(); !strings.Contains(words, text) {
		v.t.Fatalf("the screen does not say %q:\n%s", text, words)
	}
}

// drop drops a folder on the window and waits for the check.
func (v *visit) drop(fsys fs.FS, name string) {
	v.t.Helper()
	v.host.Drop(name, fsys)
	for limit := time.Now().Add(time.Minute); strings.Contains(v.words(), "Checking "+name) || !strings.Contains(v.words(), name); {
		if time.Now().After(limit) {
			v.t.Fatalf("the check of %s did not end within a minute", name)
		}
		time.Sleep(5 * time.Millisecond)
		v.host.Frame()
	}
}

// picture paints the screen.
func (v *visit) picture() (*image.RGBA, error) {
	img, err := window.SnapshotFrame(v.settle(), v.look.scale)
	if err != nil {
		return nil, fmt.Errorf("painting: %w", err)
	}
	return img, nil
}

// handIn hands in the next n cases of a self-assessment with the plan that has
// full marks, except that every fourth is left empty.
func (v *visit) handIn(n int) {
	v.t.Helper()
	for range n {
		run := v.app.Run()
		s, err := v.app.Open(run.Ref(run.Next()))
		if err != nil {
			v.t.Fatal(err)
		}
		j, err := s.Judge(tables.Builtin, run.Start.Labels)
		if err != nil {
			v.t.Fatal(err)
		}
		if run.Next()%4 != 3 {
			plan := solve.Solve(j, s.Ref).Plan
			s.Change("", func(p *cases.Plan) { *p = *plan })
		}
		if err := v.app.HandIn(s); err != nil {
			v.t.Fatal(err)
		}
	}
}

// tenDays fills a logbook with the attempts of ten days: most with full marks,
// some without aftercare, some with twice the watts, and a wet prep once.
func tenDays(t *testing.T, data string) {
	t.Helper()
	n := 0
	for day := -12; day < -2; day++ {
		now := func() time.Time { return theMorning().AddDate(0, 0, day) }
		cfg, err := sitting.Begin(verb.Stdio(), data, sitting.World{Now: now, Random: rand.NewChaCha8([32]byte{byte(day)})})
		if err != nil {
			t.Fatal(err)
		}
		desk, err := screen.NewDesk(cfg)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range desk.Lines(false) {
			s, err := desk.Open(line.Ref)
			if err != nil {
				t.Fatal(err)
			}
			j, err := s.Judge(desk.Set, desk.Settings.Labels)
			if err != nil {
				t.Fatal(err)
			}
			plan := solve.Solve(j, s.Ref).Plan
			careless(plan, n)
			n++
			s.Change("", func(p *cases.Plan) { *p = *plan })
			if err := desk.Grade(s); err != nil {
				t.Fatal(err)
			}
		}
		if err := cfg.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// careless spoils the n-th plan in its own way.
func careless(p *cases.Plan, n int) {
	sure := cases.Milli(500 + 100*(n%6))
	p.Confidence = &sure
	if n%3 == 1 {
		p.Advice, p.FollowUpDays = nil, nil
	}
	if p.PowerW != nil && n < 30 {
		*p.PowerW = min(35000, *p.PowerW*2)
	}
	if p.Prep != nil && n%7 == 3 {
		p.Prep.DryChecked = nil
	}
	if wet := cases.Milli(0); p.Prep != nil && n == 4 {
		p.Prep.Agent, p.Prep.DryWaitS = "alcohol", &wet
	}
}

// pass lets time go by on the bench, in steps of a frame.
func (v *visit) pass(ms int) {
	v.t.Helper()
	for left := ms; left > 0; left -= 40 {
		v.app.Update(ui.Elapsed{MS: min(40, left)})
	}
	v.host.Tell(ui.Elapsed{})
	v.settle()
}

// wait lets half minutes go by with the hands still.
func (v *visit) wait(halves int) {
	for range halves {
		v.keys("d")
	}
}

// treatTowel scrapes and dries the lesion of the usual case in two rounds,
// with the tissue to the pot first, and finishes.
func (v *visit) treatTowel() {
	v.t.Helper()
	v.openCase(towel)
	v.keys("alt+3", "m", "Enter", "y", "Enter", "Enter")
	v.wait(16)
	for range 2 {
		v.keys("u")
		for range 4 {
			v.keys("n", "Enter")
		}
		v.keys("t", "e")
		for range 3 {
			v.keys("n")
			v.app.Update(ui.Key{Name: "Space"})
			v.pass(600)
			v.app.Update(ui.KeyUp{Name: "Space"})
			v.pass(200)
		}
		v.keys("g", "Enter")
	}
	v.keys("ctrl+Enter")
	v.until("# Debrief", "")
}

// until waits for background work: until the screen says one thing and no
// longer another.
func (v *visit) until(says, not string) {
	v.t.Helper()
	limit := time.Now().Add(4 * time.Minute)
	for {
		v.settle()
		if w := v.words(); strings.Contains(w, says) && (not == "" || !strings.Contains(w, not)) {
			return
		}
		if time.Now().After(limit) {
			v.t.Fatalf("after four minutes the screen does not say %q without %q", says, not)
		}
		time.Sleep(20 * time.Millisecond)
	}
}
