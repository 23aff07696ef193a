package cases

import (
	"fmt"
	"reflect"
	"strings"

	"pgregory.net/rapid"
)

// drawPlan draws any plan that a reader must accept.
func drawPlan(t *rapid.T) *Plan {
	p := &Plan{}
	drawStruct(t, reflect.ValueOf(p).Elem(), "plan")
	p.Format = PlanFormat
	p.Case = rapid.StringMatching(`[a-z0-9][a-z0-9_-]{0,9}/[A-Za-z0-9][A-Za-z0-9_-]{0,9}`).Draw(t, "case")
	if a := p.Anaesthetic; a != nil {
		for i := range a.Injected {
			a.Injected[i].Adrenaline = rapid.SampledFrom([]string{"", "1:1000", "1:80000", "1:200000", "1:1000000"}).Draw(t, "adrenaline")
		}
		if a.None != nil && *a.None {
			a.Topical = nil
			if len(a.Injected) > 0 {
				a.Injected = nil
			}
		}
	}
	return p
}

// drawPack draws any pack that a reader must accept.
func drawPack(t *rapid.T) *Pack {
	p := &Pack{}
	drawStruct(t, reflect.ValueOf(p).Elem(), "pack")
	p.Format = PackFormat
	for i := range p.LocalRules {
		p.LocalRules[i].Date = rapid.SampledFrom([]string{"2026-11-25", "2024-02-29"}).Draw(t, "date")
	}
	if a := p.Assessment; a != nil && !mendAssessment(a) {
		p.Assessment = nil
	}
	p.Cases = make([]Case, rapid.IntRange(1, 3).Draw(t, "cases"))
	for i := range p.Cases {
		p.Cases[i] = *drawCase(t)
		p.Cases[i].ID = fmt.Sprintf("%s-%d", p.Cases[i].ID[:min(50, len(p.Cases[i].ID))], i)
	}
	return p
}

// mendAssessment puts right what the tags cannot say, and tells whether that was
// possible.
func mendAssessment(a *Assessment) bool {
	total := 0
	for i := range a.Kinds {
		k := &a.Kinds[i]
		k.LevelMax = max(k.LevelMin, k.LevelMax)
		k.Count = min(k.Count, 2)
		total += k.Count
		if len(k.Families) == 0 {
			return false
		}
	}
	seen := map[string]bool{}
	for _, s := range a.Standards {
		if seen[s.Domain] {
			return false
		}
		seen[s.Domain] = true
	}
	return total > 0 && total <= 60
}

func drawCase(t *rapid.T) *Case {
	c := &Case{}
	drawStruct(t, reflect.ValueOf(c).Elem(), "case")
	c.Lesion.WidthMM = min(c.Lesion.WidthMM, SiteByID(c.Lesion.Site).MaxWidthMM)
	if c.Patient.Sex == "male" {
		c.Patient.Pregnant = false
	}
	if !c.Patient.Pregnant {
		c.Patient.GestationWeeks = nil
	}
	if u := c.Setting.Unit; u != nil && u.MaxW != nil && u.StepW != nil {
		*u.StepW = min(*u.StepW, *u.MaxW)
	}
	return c
}

// drawStruct fills every field by the tags that the reader obeys; what may be
// open is open half of the time.
func drawStruct(t *rapid.T, v reflect.Value, path string) {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if f.Type != reflect.TypeFor[[]Case]() {
			drawField(t, v.Field(i), f, path+"."+keyOf(f))
		}
	}
}

func drawField(t *rapid.T, v reflect.Value, f reflect.StructField, path string) {
	l := parseLimits(f.Tag.Get("jsonschema"))
	mayBeOpen := v.Kind() == reflect.Pointer || v.Kind() == reflect.Slice || v.Kind() == reflect.Map || v.Kind() == reflect.String
	if mayBeOpen && !l.required && rapid.Bool().Draw(t, path+" open") {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.Tag = reflect.StructTag(strings.Replace(string(f.Tag), `jsonschema:"`, `jsonschema:"required,`, 1))
		drawField(t, v.Elem(), f, path)
	case reflect.Struct:
		drawStruct(t, v, path)
	case reflect.Slice:
		drawList(t, v, f, path)
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for _, id := range rapid.SliceOfNDistinct(rapid.SampledFrom(Vocab.IDs(f.Tag.Get("vocab"))), 0, 4, rapid.ID).Draw(t, path) {
			v.SetMapIndex(reflect.ValueOf(id), reflect.ValueOf(drawText(t, path)))
		}
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, path))
	case reflect.String:
		switch table := f.Tag.Get("vocab"); {
		case table != "":
			v.SetString(rapid.SampledFrom(Vocab.IDs(table)).Draw(t, path))
		case f.Tag.Get("form") == "id":
			v.SetString(rapid.StringMatching(`[a-z0-9][a-z0-9_-]{0,63}`).Draw(t, path))
		default:
			v.SetString(drawText(t, path))
		}
	default:
		step := Milli(1)
		if l.step != nil {
			step = *l.step
		}
		if v.Kind() == reflect.Int {
			v.SetInt(rapid.Int64Range(int64(*l.min/1000), int64(*l.max/1000)).Draw(t, path))
			return
		}
		low := (*l.min + step - 1) / step
		v.SetInt(int64(step) * rapid.Int64Range(int64(low), int64(*l.max/step)).Draw(t, path))
	}
}

func drawList(t *rapid.T, v reflect.Value, f reflect.StructField, path string) {
	if table := f.Tag.Get("vocab"); table != "" {
		ids := rapid.SliceOfNDistinct(rapid.SampledFrom(Vocab.IDs(table)), 0, 5, rapid.ID).Draw(t, path)
		v.Set(reflect.ValueOf(append([]string{}, ids...)))
		return
	}
	n := rapid.IntRange(0, 3).Draw(t, path+" length")
	v.Set(reflect.MakeSlice(v.Type(), n, n))
	for i := range n {
		drawStruct(t, v.Index(i), fmt.Sprintf("%s[%d]", path, i))
	}
}

// drawText draws text that is not blank and holds no control character.
func drawText(t *rapid.T, path string) string {
	return rapid.StringMatching(`[^\x00-\x20\x7f-\x{a0}\p{Z}\x{d800}-\x{dfff}][^\x00-\x1f\x7f-\x{9f}]{0,20}`).Draw(t, path)
}
