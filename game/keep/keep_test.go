package keep

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"leastwatt/cases"
	"leastwatt/game/screen"
)

func TestSettingsComeBack(t *testing.T) {
	f, err := Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(screen.DefaultSettings(), f.Settings()); diff != "" {
		t.Error("a first start: ", diff)
	}
	want := screen.Settings{TextScale: 150, Dark: true, ReducedMotion: true, Words: cases.US, Labels: "us"}
	if err := f.SaveSettings(want); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, f.Settings()); diff != "" {
		t.Error(diff)
	}
}

func TestDraftsComeBack(t *testing.T) {
	f, err := Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	seven := cases.Milli(7000)
	p := &cases.Plan{Format: cases.PlanFormat, Case: "pack/case", Disposition: "treat", PowerW: &seven, Record: []string{}}
	if err := f.SaveDraft(p); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(map[string]*cases.Plan{"pack/case": p}, f.Drafts()); diff != "" {
		t.Error(diff)
	}
}

// TestFirstAndLatest: a first start is one without anything kept; the plan
// changed last is the one whose file is newest.
func TestFirstAndLatest(t *testing.T) {
	dir := t.TempDir()
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	if !f.First() || f.Latest() != nil {
		t.Error("an empty folder is a first start without a latest plan")
	}
	for i, name := range []string{"pack/old", "pack/new", "pack/middle"} {
		if err := f.SaveDraft(&cases.Plan{Format: cases.PlanFormat, Case: name}); err != nil {
			t.Fatal(err)
		}
		at := time.Unix([]int64{1000, 3000, 2000}[i], 0)
		if err := os.Chtimes(filepath.Join(dir, "drafts", strings.ReplaceAll(name, "/", "--")+".json"), at, at); err != nil {
			t.Fatal(err)
		}
	}
	if p := f.Latest(); p == nil || p.Case != "pack/new" {
		t.Errorf("latest is %+v", p)
	}
	if f.First() {
		t.Error("with plans kept it is no first start")
	}
}

// TestDamageIsSetAside: a file that cannot be read back is kept beside its
// place, and the rest still loads.
func TestDamageIsSetAside(t *testing.T) {
	dir := t.TempDir()
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	good := &cases.Plan{Format: cases.PlanFormat, Case: "pack/good"}
	if err := f.SaveDraft(good); err != nil {
		t.Fatal(err)
	}
	torn := filepath.Join(dir, "drafts", "pack--torn.json")
	for name, data := range map[string]string{torn: `{"format": "leastwatt.pl`, filepath.Join(dir, "settings.json"): `{"text_scale": 900}`} {
		if err := os.WriteFile(name, []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(screen.DefaultSettings(), f.Settings()); diff != "" {
		t.Error(diff)
	}
	if got := f.Drafts(); len(got) != 1 || got["pack/good"] == nil {
		t.Errorf("%v", got)
	}
	for _, name := range []string{torn, filepath.Join(dir, "settings.json")} {
		if _, err := os.Stat(name + ".damaged"); err != nil {
			t.Error(err)
		}
	}
}

// TestWriteKeepsTheOld: when the new file cannot be written, the old one is
// still whole.
func TestWriteKeepsTheOld(t *testing.T) {
	dir := t.TempDir()
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.SaveSettings(screen.DefaultSettings()); err != nil {
		t.Fatal(err)
	}
	// A folder in the way of the rename makes the last step fail.
	blocked := filepath.Join(dir, "drafts", "pack--case.json")
	if err := os.MkdirAll(filepath.Join(blocked, "inside"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := f.SaveDraft(&cases.Plan{Format: cases.PlanFormat, Case: "pack/case"}); err == nil {
		t.Error("a draft was saved over a folder")
	}
	left, err := filepath.Glob(filepath.Join(dir, "drafts", ".new-*"))
	if err != nil || len(left) > 0 {
		t.Errorf("half-written files are left: %v %v", left, err)
	}
}

func TestNoFolderKeepsNothing(t *testing.T) {
	var f Folder
	if err := f.SaveSettings(screen.Settings{Dark: true}); err != nil {
		t.Error(err)
	}
	if f.Settings().Dark || len(f.Drafts()) > 0 {
		t.Error("something was kept nowhere")
	}
	if _, err := f.SaveText("x"); err == nil {
		t.Error("a text was saved nowhere")
	}
}
