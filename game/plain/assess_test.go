package plain

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/game/screen"
	"leastwatt/scoring/assess"
)

// A whole run in the terminal: begun, rules kept out, one case handed in as it
// is, one after a decision, the sheet printed and kept.
func TestSelfAssess(t *testing.T) {
	own := onePack(t, "first-list/towel")
	own[0].Assessment = &cases.Assessment{Kinds: []cases.AssessmentKind{{Count: 2, Families: []string{"skin_tag", "milia"}, LevelMin: 1, LevelMax: 2}}}
	var steps []assess.Step
	dir := t.TempDir()
	cfg := screen.Config{
		Packs: own, Settings: screen.DefaultSettings(), Today: func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) },
		Assess: screen.RunConfig{
			SaveStep: func(s assess.Step) error { steps = append(steps, s); return nil },
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
