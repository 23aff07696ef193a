package screen

import (
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/game/ui"
)

// Another case is on another patient, of a family that looks like the first,
// at the same level, and the same from one sitting to the next.
func TestAnother(t *testing.T) {
	first, again := mustDesk(t), mustDesk(t)
	seen := map[string]bool{}
	same, other := 0, 0
	for _, e := range first.order {
		ref, err := first.Another(e.ref)
		if err != nil {
			t.Fatal(err)
		}
		if twin, err := again.Another(e.ref); err != nil || twin != ref {
			t.Fatalf("%s, then %s in a like sitting: %v", ref, twin, err)
		}
		if seen[ref] {
			t.Errorf("%s comes twice", ref)
		}
		seen[ref] = true
		s, err := first.Open(ref)
		if err != nil {
			t.Fatal(err)
		}
		if s.Case.Level != e.c.Level {
			t.Errorf("%s of level %d follows %s of level %d", ref, s.Case.Level, e.ref, e.c.Level)
		}
		switch family := s.Case.Lesion.Family; {
		case family == e.c.Lesion.Family:
			same++
		case slices.Contains(kinOf(e.c.Lesion.Family), family):
			other++
		default:
			t.Errorf("%s follows %s", family, e.c.Lesion.Family)
		}
	}
	if same == 0 || other == 0 {
		t.Errorf("%d of the same family and %d of another: the answer can be told beforehand", same, other)
	}
}

func mustDesk(t *testing.T) *Desk {
	t.Helper()
	d, err := NewDesk(config())
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// A code typed on the list opens its case; a slip is told and opens nothing.
func TestCodeOnTheList(t *testing.T) {
	a, err := NewApp(config())
	if err != nil {
		t.Fatal(err)
	}
	c, err := cases.Compose(cases.MadeVersion, "milia", 3, 99)
	if err != nil {
		t.Fatal(err)
	}
	a.Update(ui.Focused{ID: "code"})
	a.Update(ui.Edited{ID: "code", Text: c.ID[:len(c.ID)-1]})
	a.Update(ui.Key{Name: "Enter"})
	if a.session != nil || a.toast == "" {
		t.Fatalf("a broken code opened %v, toast %q", a.session, a.toast)
	}
	a.Update(ui.Edited{ID: "code", Text: strings.ToLower(c.ID)})
	a.Update(ui.Key{Name: "Enter"})
	if a.at != atCase || a.session == nil || a.session.Case.ID != c.ID {
		t.Fatalf("the code opened %v", a.session)
	}
}
