package tables

import (
	"fmt"
	"strings"

	"leastwatt/cases"
)

// Watts is one row of the power table: for a family, a technique and a size
// band, the watts and the seconds that work. It becomes two rules, the id
// with -w and with -s.
type Watts struct {
	Rule       string   `json:"rule" jsonschema:"required" form:"id"`
	Families   []string `json:"families" jsonschema:"required" `
	Reports    []string `json:"reports" vocab:"family"` // where only the report can name it
	Techniques []string `json:"techniques" jsonschema:"required" vocab:"technique"`
	Contact    string   `json:"contact" vocab:"contact"`
	WidthMM    *band    `json:"width_mm"`
	PowerW     band     `json:"power_w" jsonschema:"required"`      // usual range; From is the least that works
	NamedW     *band    `json:"named_w"`                            // lowest and highest figure any source names
	ActiveS    band     `json:"activation_s" jsonschema:"required"` // usual range of one touch
	NamedS     *band    `json:"named_s"`
	Says       string   `json:"says" jsonschema:"required"`
	Why        string   `json:"why" jsonschema:"required"`
	Source     string   `json:"source" jsonschema:"required"`
	SourceKind string   `json:"source_kind" jsonschema:"required" vocab:"source_kind"`
	Certainty  string   `json:"certainty" jsonschema:"required" vocab:"certainty"`
}

// band is a range with both ends in it.
type band struct {
	From cases.Milli `json:"from" jsonschema:"required,minimum=0,maximum=500"`
	To   cases.Milli `json:"to" jsonschema:"required,minimum=0,maximum=500"`
}

type wattsFile struct {
	About  string  `json:"about" jsonschema:"required"`
	Domain string  `json:"domain" jsonschema:"required" vocab:"domain"`
	Watts  []Watts `json:"watts" jsonschema:"required"`
	Rows   []Row   `json:"rows"` // what the slots fall back on
}

func (s *Set) readWatts(sheet *cases.Sheet, tree *cases.Value) {
	var f wattsFile
	cases.Decode(sheet, tree, &f)
	for i := range f.Watts {
		w, at := &f.Watts[i], tree.At("watts", i)
		for key, b := range map[string]*band{"power_w": &w.PowerW, "activation_s": &w.ActiveS, "width_mm": w.WidthMM, "named_w": w.NamedW, "named_s": w.NamedS} {
			if b != nil && b.From > b.To {
				sheet.Errorf(at.At(key), "%q runs from %s down to %s", key, b.From, b.To)
			}
		}
		s.add(sheet, at, w.rule("power_w", "power", "W", w.PowerW, w.NamedW))
		s.add(sheet, at, w.rule("activation_s", "time", "s", w.ActiveS, w.NamedS))
	}
	for i := range f.Rows {
		row := &f.Rows[i]
		if row.Domain == "" {
			row.Domain = f.Domain
		}
		s.add(sheet, tree.At("rows", i), row)
	}
}

// rule turns the figures for one dial into a row. Outside the usual range a
// row without a published source advises, and cautions only under half of the
// lowest figure named or over twice the highest; a published row cautions
// outside every figure named.
func (w *Watts) rule(path, slot, unit string, usual band, named *band) *Row {
	wide := usual
	if named != nil {
		wide = *named
	}
	if w.SourceKind != "published" {
		wide = band{wide.From / 2, wide.To * 2}
	}
	r := &Row{
		Rule: w.Rule + "-" + strings.ToLower(unit), Domain: "power", For: []string{"treat"}, Points: 2, Slot: slot,
		If: w.scope(), Acts: w.acts(),
		OK:      fmt.Sprintf("%s >= %s and %s <= %s", path, usual.From, path, usual.To),
		Advice:  fmt.Sprintf("%s >= %s and %s <= %s", path, wide.From, path, wide.To),
		Phrases: []string{path},
		Says:    w.Says, Why: w.Why,
		Right:  fmt.Sprintf("%s to %s %s, the least that works.", usual.From, usual.To, unit),
		Source: w.Source, SourceKind: w.SourceKind, Certainty: w.Certainty,
	}
	if w.SourceKind == "memory" {
		r.Else = "advice"
	}
	if path == "power_w" {
		r.leastW = usual.From
	}
	if unit == "W" {
		r.Fault = "the power is far from what this lesion needs"
		r.AdviceSays = "the power is outside the usual range"
		return r
	}
	r.Fault = "the touch is far from the time that works"
	r.AdviceSays = "the touch is outside the usual time"
	return r
}

func (w *Watts) scope() string {
	scope := "lesion.family in " + strings.Join(w.Families, "|")
	if len(w.Reports) > 0 {
		scope += " and lesion.report.says in " + strings.Join(w.Reports, "|")
	}
	if w.WidthMM != nil {
		scope += fmt.Sprintf(" and lesion.width_mm > %s and lesion.width_mm <= %s", w.WidthMM.From, w.WidthMM.To)
	}
	return scope
}

func (w *Watts) acts() string {
	acts := "technique in " + strings.Join(w.Techniques, "|")
	if w.Contact != "" {
		acts += " and contact = " + w.Contact
	}
	return acts
}
