package screen

import (
	"strings"
	"testing"

	"leastwatt/cases"
)

// A generated case is found by its code, with the draft that was begun on it,
// and its first grade is kept like any other.
func TestMadeCaseOnTheDesk(t *testing.T) {
	c, err := cases.Compose(cases.MadeVersion, "skin_tag", 2, 4711)
	if err != nil {
		t.Fatal(err)
	}
	ref := cases.MadePackID + "/" + c.ID
	draft := &cases.Plan{Format: cases.PlanFormat, Case: ref, Disposition: "leave"}
	cfg := config()
	cfg.Drafts = map[string]*cases.Plan{ref: draft}
	d, err := NewDesk(cfg)
	if err != nil {
		t.Fatal(err)
	}
	s, err := d.Open(strings.ToLower(ref))
	if err != nil || s.Ref != ref || s.Plan.Disposition != "leave" || s.Case.Digest() != c.Digest() {
		t.Fatalf("%+v %v", s, err)
	}
	if again, err := d.Open(ref); err != nil || again != s {
		t.Error("the same code opens another session", err)
	}
	if err := d.Grade(s); err != nil || s.First == nil || d.doneGrade(ref) == nil {
		t.Error("not graded", err)
	}
	if _, err := d.Open("made/AAAAAAAAA"); err == nil || !strings.Contains(err.Error(), "slip") {
		t.Errorf("a wrong code: %v", err)
	}
	if err := d.addPack(&cases.Pack{ID: cases.MadePackID}); err == nil {
		t.Error("a pack may take the id of generated cases")
	}
}
