package verb

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	gojson "github.com/goccy/go-json"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/scoring/tissue"
)

// shortSession writes a treatment of a second and a half on a coarse grid, and
// its plan as a file of its own.
func shortSession(t *testing.T, change func(*cases.Plan)) (planFile, sessionFile string, session *cases.Session) {
	t.Helper()
	version, err := strconv.Atoi(tissue.ModelVersion)
	if err != nil {
		t.Fatal(err)
	}
	session, err = cases.ReadSession("short", []byte(fmt.Sprintf(`{"format": "leastwatt.session/1", "case": "first-list/wedding", "model_version": %d, "grid_mm": 0.4, "seed": 7, "end_ms": 1500,
"plan": {"format": "leastwatt.plan/1", "case": "first-list/wedding", "disposition": "treat", "technique": "electrodesiccation", "electrode": "fine", "output": "low", "contact": "touch",
  "power_w": 8, "activation_s": 1, "cycles": 1, "anaesthetic": {"none": true}, "prep": {"agent": "povidone_iodine"}, "protection": ["hand_contact"]},
"events": [{"tick": 0, "tool": "electrode", "x_mm": 0, "y_mm": 0}, {"tick": 100, "pedal": true}, {"tick": 500, "pedal": false}]}`, version)))
	if err != nil {
		t.Fatal(err)
	}
	plan := *session.Plan
	change(&plan)
	dir := t.TempDir()
	planFile, sessionFile = filepath.Join(dir, "plan.json"), filepath.Join(dir, "session.json")
	for file, data := range map[string][]byte{planFile: cases.Canonical(&plan), sessionFile: session.JSON()} {
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return planFile, sessionFile, session
}

func unchanged(*cases.Plan) {}

// sessionGrade is what a grade of a session says, as far as the test reads it.
type sessionGrade struct {
	Bench        string `json:"bench"`
	ModelVersion int    `json:"model_version"`
	Outcome      struct {
		Bursts    int     `json:"bursts"`
		Destroyed float64 `json:"lesion_destroyed_fraction"`
		Range     struct {
			Destroyed [2]float64 `json:"lesion_destroyed_fraction"`
		} `json:"range"`
	} `json:"outcome"`
	Findings []struct {
		Rule, Domain, Why string
	} `json:"findings"`
}

func TestGradeSession(t *testing.T) {
	plan, file, session := shortSession(t, unchanged)
	var out, errs bytes.Buffer
	s := &Shell{Out: &out, Err: &errs, JSON: true, Words: cases.UK}
	if code := Grade(s, plan, file); code != Done || errs.Len() > 0 {
		t.Fatalf("exit %d: %s", code, errs.String())
	}
	shelf, err := s.LoadShelf()
	if err != nil {
		t.Fatal(err)
	}
	pack, c, err := shelf.Find(session.Case)
	if err != nil {
		t.Fatal(err)
	}
	again, err := bench.Replay(pack, c, session, bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := again.Outcome()
	var g sessionGrade
	if err := gojson.Unmarshal(out.Bytes(), &g); err != nil {
		t.Fatal(err)
	}
	o := g.Outcome
	if g.Bench != "done" || g.ModelVersion != session.ModelVersion || o.Bursts != 1 || o.Destroyed != want.LesionDestroyedFraction.Float() {
		t.Errorf("bench %q, model %d, outcome %+v; want that of %+v", g.Bench, g.ModelVersion, o, want)
	}
	if low, high := o.Range.Destroyed[0], o.Range.Destroyed[1]; low > o.Destroyed || high < o.Destroyed || high == 0 {
		t.Errorf("the range %v to %v does not hold %v", low, high, o.Destroyed)
	}
	told := false
	for _, f := range g.Findings {
		told = told || f.Rule == "bench-gone-vascular" && strings.HasPrefix(f.Why, "The model destroyed or removed "+want.LesionDestroyedFraction.String())
	}
	if !told {
		t.Errorf("no finding tells the share: %+v", g.Findings)
	}
}

func TestGradeSessionFaults(t *testing.T) {
	var out, errs bytes.Buffer
	s := &Shell{Out: &out, Err: &errs, Words: cases.UK}
	for _, tt := range []struct {
		name, says string
		change     func(*cases.Plan)
		session    string // "" takes the short one
		code       int
	}{
		{"another case", "session.json:1:40: the session is of \"first-list/wedding\", the plan of \"first-list/collar\"; they must agree", func(p *cases.Plan) { p.Case = "first-list/collar" }, "", Invalid},
		{"no such file", "no such file", unchanged, "no-such.json", Usage},
		{"another plan is a warning", "the session carried out another plan", func(p *cases.Plan) { p.Cycles = nil }, "", Done},
	} {
		t.Run(tt.name, func(t *testing.T) {
			errs.Reset()
			plan, file, _ := shortSession(t, tt.change)
			if tt.session != "" {
				file = tt.session
			}
			if code := Grade(s, plan, file); code != tt.code || !strings.Contains(errs.String(), tt.says) {
				t.Errorf("exit %d: %s", code, errs.String())
			}
		})
	}
}
