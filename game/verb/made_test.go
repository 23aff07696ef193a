package verb

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/game/skin"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// gradePlan runs the verb on a plan, and gives what it printed.
func gradePlan(t *testing.T, plan []byte) (code int, out, err string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "plan.json")
	if e := os.WriteFile(file, plan, 0o600); e != nil {
		t.Fatal(e)
	}
	var o, e bytes.Buffer
	s := &Shell{Out: &o, Err: &e, JSON: true, Words: cases.UK}
	code = Grade(s, file, "")
	return code, o.String(), e.String()
}

func TestGradeOfMadeCase(t *testing.T) {
	a, err := solve.Accept(tables.Builtin, cases.MadeVersion, "seborrhoeic_keratosis", 3, 77)
	if err != nil {
		t.Fatal(err)
	}
	code, out, stderr := gradePlan(t, cases.Canonical(a.Plan))
	var grade struct {
		Case    string `json:"case"`
		Digest  string `json:"case_digest"`
		Verdict string `json:"verdict"`
		Points  int    `json:"points"`
		Of      int    `json:"of"`
	}
	if err := json.Unmarshal([]byte(out), &grade); err != nil || code != Done || stderr != "" {
		t.Fatalf("exit %d, %v, %s", code, err, stderr)
	}
	if grade.Case != "made/"+a.Case.ID || grade.Digest != a.Case.Digest() || grade.Verdict != "safe" || grade.Points != grade.Of {
		t.Errorf("%+v", grade)
	}
	// The same code, written by hand.
	p := *a.Plan
	p.Case = "made/" + strings.ToLower(strings.ReplaceAll(a.Case.ID, "-", ""))
	if code, out, _ := gradePlan(t, cases.Canonical(&p)); code != Done || !strings.Contains(out, a.Case.Digest()) {
		t.Errorf("the code in small letters: exit %d", code)
	}
}

func TestGradeOfWrongCode(t *testing.T) {
	for code, says := range map[string]string{
		"7KQ-4TB-9X": "plan.json:1:40: \"7KQ-4TB-9X\" has 8 letters; a case code has 9, like 7KQ-4TB-9XM",
		"AAAAAAAAA":  "plan.json:1:40: the case code \"AAAAAAAAA\" has a slip in it",
	} {
		plan := fmt.Sprintf(`{"format": "leastwatt.plan/1", "case": "made/%s"}`, code)
		exit, out, stderr := gradePlan(t, []byte(plan))
		if exit != Invalid || !strings.Contains(stderr, says) || !strings.Contains(out, `"errors"`) {
			t.Errorf("%s: exit %d, %s", code, exit, stderr)
		}
	}
}

func TestPackMayNotBeCalledMade(t *testing.T) {
	dir := t.TempDir()
	pack := `{"format": "leastwatt.pack/1", "id": "made", "version": 1, "title": "t", "author": "a", "language": "en", "licence": "CC0-1.0", "cases": [
		{"id": "a", "title": "A spot", "level": 1, "patient": {"age_years": 40, "sex": "female", "weight_kg": 70, "skin_type": 2}, "presenting": "Is it all right?",
		"lesion": {"family": "milia", "site": "cheek", "width_mm": 1}, "truth": {"diagnosis": "milia"}, "teaching": "Leave it."}]}`
	if err := os.WriteFile(filepath.Join(dir, "pack.json"), []byte(pack), 0o600); err != nil {
		t.Fatal(err)
	}
	s := &Shell{Out: &bytes.Buffer{}, Err: &bytes.Buffer{}, Packs: []string{dir}}
	if _, err := s.LoadShelf(); err == nil || !strings.Contains(err.Error(), `the pack id "made" is kept for generated cases`) {
		t.Errorf("%v", err)
	}
}

// Every family, as drawn at every level, gives a picture: small here, and with
// more seeds when the full numbers are asked for. A picture that is one flat
// colour, or that holds no lesion, is none.
func TestMadePicturesDraw(t *testing.T) {
	seeds := 1
	if os.Getenv("LEASTWATT_LONG") == "1" {
		seeds = 60
	}
	drawn := 0
	for _, family := range cases.MadeFamilies() {
		for level := 1; level <= 5; level++ {
			for seed := range seeds {
				c, err := cases.Compose(cases.MadeVersion, family, level, seed*7919)
				if err != nil {
					t.Fatal(err)
				}
				drawMade(t, c)
				drawn++
			}
		}
	}
	t.Logf("%d pictures", drawn)
}

func drawMade(t *testing.T, c *cases.Case) {
	t.Helper()
	l := &c.Lesion
	s := skin.Subject{
		SkinType: c.Patient.SkinType, AgeYears: c.Patient.AgeYears.Float(), Site: l.Site, Family: l.Family,
		WidthMM: l.WidthMM.Float(), HeightMM: l.HeightMM.Float(), Count: l.Counted(), Features: l.Features, Seed: uint64(l.Seed),
	}
	view := skin.DefaultView(s, 96)
	with := skin.Draw(s, view)
	s.Family, s.Features = "", nil
	bare := skin.Draw(s, view)
	differ := 0
	for i, v := range with.Pix {
		if d := int(v) - int(bare.Pix[i]); d > 3 || d < -3 {
			differ++
		}
	}
	if differ < 40 {
		t.Errorf("%s: a %s of %s mm on %s, skin type %d, hardly differs from bare skin (%d)", c.ID, l.Family, l.WidthMM, l.Site, c.Patient.SkinType, differ)
	}
}
