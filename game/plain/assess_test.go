package plain

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/game/screen"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/logbook"
)

// A whole run in the terminal: begun, rules kept out, one case handed in as it
// is, one after a decision, the sheet printed and kept.
func TestSelfAssess(t *testing.T) {
	own := onePack(t, "first-list/towel")
	own[0].Assessment = &cases.Assessment{Kinds: []cases.AssessmentKind{{Count: 2, Families: []string{"skin_tag", "milia"}, LevelMin: 1, LevelMax: 2}}}
	store := &logbook.Memory{}
	book, _, err := logbook.Open(store)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	dir := t.TempDir()
	cfg := screen.Config{
		Packs: own, Settings: screen.DefaultSettings(), Today: func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) },
		Record: screen.RecordConfig{Book: book, NewID: func() string { n++; return fmt.Sprint("id-", n) }},
		Assess: screen.RunConfig{
			SavePDF: func(name string, pdf []byte) (string, error) {
				name = filepath.Join(dir, name)
				return name, os.WriteFile(name, pdf, 0o600)
			},
		},
	}
	input := strings.Join([]string{"assess", "2", "7", "a supervisor", "rules wart", "plan", "grade", "today", "", "plan", "leave", "grade", "keep", "quit"}, "\n")
	var out strings.Builder
	if err := Run(strings.NewReader(input), &out, cfg); err != nil {
		t.Fatal(err)
	}
	said := out.String()
	for _, want := range []string{"case 1 of 2", "case 2 of 2", "Not during a self-assessment.", "A run is under way", "Watched  by a supervisor", "Seed     7", "Trainee: ____", "The sheet is in"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if strings.Contains(said, "Debrief.") {
		t.Error("a debrief is shown in a run")
	}
	var steps []assess.Step
	for e, err := range book.Entries() {
		if err != nil {
			t.Fatal(err)
		}
		var s assess.Step
		if err := json.Unmarshal(e.Assessment, &s); err != nil {
			t.Fatal(err)
		}
		steps = append(steps, s)
	}
	if len(steps) != 4 || steps[3].Ending != assess.Done || steps[2].Given.Plan.Disposition != "leave" {
		t.Errorf("%d steps kept", len(steps))
	}
	if made, _ := filepath.Glob(filepath.Join(dir, "*.pdf")); len(made) != 1 {
		t.Errorf("kept sheets: %v", made)
	}
	if t.Failed() {
		t.Log(said)
	}
}
