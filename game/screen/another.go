package screen

import (
	"fmt"
	"slices"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/solve"
)

// Another makes a case of the same kind on another patient and gives its name.
// The kind is what a hurried eye would call it: the lesion may be of the same
// family or of one that looks like it, so that knowing the last answer does
// not give away the next. The same sitting gives the same cases in the same
// order.
func (d *Desk) Another(ref string) (string, error) {
	s, err := d.Open(ref)
	if err != nil {
		return "", err
	}
	d.others++
	roll := shuffle(d.Seed+uint64(d.others), ref)
	family := s.Case.Lesion.Family
	if kin := kinOf(family); len(kin) > 1 && roll%2 == 0 {
		family = kin[int(roll>>8%uint64(len(kin)))]
	}
	seed := int(roll >> 32 % (cases.MaxMadeSeed + 1))
	a, err := solve.Accept(d.Set, cases.MadeVersion, family, s.Case.Level, seed)
	if err != nil {
		return "", err
	}
	return cases.MadePackID + "/" + a.Case.ID, nil
}

// kinOf lists the families that a hurried eye takes for this one, itself
// among them.
func kinOf(family string) []string {
	for _, g := range lookalikeGroups {
		if slices.Contains(g.Families, family) {
			return g.Families
		}
	}
	return nil
}

// whichCase reads "case 3 of 99", or the code of a made case.
func (d *Desk) whichCase(s *Session) string {
	if s.Pack.ID == cases.MadePackID {
		return "case code " + s.Case.ID
	}
	return fmt.Sprintf("case %d of %d", d.number(s.Ref), len(d.order))
}

// openCode opens the case that a code names; the toast says what is wrong with
// the code.
func (a *App) openCode(code string) {
	code = strings.TrimSpace(code)
	if code == "" {
		a.toast = "Type a case code first, such as 7KQ-4TB-9XM."
		return
	}
	c, err := cases.MadeCase(code)
	if err != nil {
		a.toast = capital(err.Error()) + "."
		return
	}
	a.listing.code = ""
	a.openCase(cases.MadePackID + "/" + c.ID)
}

// openAnother opens a case of the same kind on another patient.
func (a *App) openAnother() {
	ref, err := a.Another(a.session.Ref)
	if err != nil {
		a.toast = capital(err.Error()) + "."
		return
	}
	a.openCase(ref)
}
