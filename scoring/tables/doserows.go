package tables

import "leastwatt/cases"

const doseRows = "dose_row"

func doseRowIndex(rule string) int { return -1 }
func (s *Set) addDoseRows()        {}
func (f *Facts) fillDose(c *cases.Case, a *cases.Anaesthetic, labels string) {
}

// DoseExpected x
func DoseExpected(r *Row, c *cases.Case, p *cases.Plan, labels string) string { return "" }
