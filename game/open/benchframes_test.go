package open

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"leastwatt/cases"
	"leastwatt/game/keep"
	"leastwatt/game/screen"
	"leastwatt/game/sitting"
	"leastwatt/game/ui"
	"leastwatt/game/verb"
)

// stageID is the picture of the bench.
const stageID = "bench stage"

// benchFolder holds what an earlier sitting left: settings, and the plan for
// the usual case.
func benchFolder(t testing.TB) (data string) {
	t.Helper()
	data = usedFolder(t)
	folder, err := keep.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join("testdata", "plans", "towel-safe.json"))
	if err != nil {
		t.Fatal(err)
	}
	plan, err := cases.ReadPlan("towel-safe.json", text)
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.SaveDraft(plan); err != nil {
		t.Fatal(err)
	}
	return data
}

// openedBench is the program without a window, laid out as the usual window
// lays it out, with the usual case on the bench.
func openedBench(t testing.TB) *ui.Host {
	t.Helper()
	cfg, err := sitting.Begin(verb.Stdio(), benchFolder(t), sitting.World{Now: theMorning, Random: rand.NewChaCha8([32]byte{})})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cfg.Close() })
	app, err := screen.NewApp(cfg)
	if err != nil {
		t.Fatal(err)
	}
	host := ui.NewHost(app)
	host.SetSize(float64(usual.w), float64(usual.h))
	host.Frame()
	host.Type("a")
	for range slices.Index(app.Cases(), towel) {
		host.KeyDown(ui.Key{Name: "Down"})
	}
	host.KeyDown(ui.Key{Name: "Enter"})
	host.KeyDown(ui.Key{Name: "3", Alt: true})
	if host.Frame().Stop(stageID) == nil {
		t.Fatalf("the bench does not open:\n%s", ui.Accessible(host.Tree()).Text())
	}
	return host
}
