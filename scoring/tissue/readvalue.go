package tissue

import (
	"fmt"
	"strconv"

	"leastwatt/cases"
)

// object reads one JSON object of a run. It takes the placed values of
// package cases, but keeps numbers as floats: a perfusion of 0.00125 has more
// decimals than a dial of a plan.
type object struct {
	sheet *cases.Sheet
	v     *cases.Value
	path  string
}

// open makes sure that v is an object with none but the known keys.
func open(s *cases.Sheet, v *cases.Value, path string, known ...string) (object, bool) {
	o := object{sheet: s, v: v, path: path}
	if v.Kind != cases.Object {
		what := strconv.Quote(path)
		if path == "" {
			what = "the file"
		}
		s.Errorf(v, "%s must be an object, not %s", what, v.Kind)
		return o, false
	}
	for _, k := range v.Keys {
		switch {
		case !contains(known, k.Name):
			s.Errorf(&cases.Value{Line: k.Line, Column: k.Column}, "unknown key %q%s", cut(o.name(k.Name)), cases.DidYouMean(k.Name, known))
		case k.Value.Kind == cases.Null:
			s.Errorf(k.Value, "%q may not be null; leave the key out", o.name(k.Name))
		}
	}
	return o, true
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// cut keeps a text from a file to what fits in a message.
func cut(text string) string {
	if runes := []rune(text); len(runes) > 80 {
		return string(runes[:80]) + "…"
	}
	return text
}

func (o object) name(key string) string {
	if o.path == "" {
		return key
	}
	return o.path + "." + key
}

// get returns the value of a key, nil when it is absent or null.
func (o object) get(key string) *cases.Value {
	v := o.v.Get(key)
	if v != nil && v.Kind == cases.Null {
		return nil
	}
	return v
}

// need is get, and a fault when the key is missing.
func (o object) need(key string) *cases.Value {
	if o.v.Get(key) == nil {
		o.sheet.Errorf(o.v, "the key %q is missing", o.name(key))
	}
	return o.get(key)
}

// between is an allowed range; both ends belong to it.
type between struct{ low, high float64 }

func (b between) String() string { return fmt.Sprintf("from %v to %v", b.low, b.high) }

// float reads a number of a range; absent leaves into as it is.
func (o object) float(into *float64, key string, allowed between) {
	if v := o.get(key); v != nil {
		number(o.sheet, v, into, o.name(key), allowed)
	}
}

// needFloat is float for a key that must be there.
func (o object) needFloat(into *float64, key string, allowed between) {
	if v := o.need(key); v != nil {
		number(o.sheet, v, into, o.name(key), allowed)
	}
}

func number(s *cases.Sheet, v *cases.Value, into *float64, name string, allowed between) {
	if v.Kind != cases.Number {
		s.Errorf(v, "%q must be a number, not %s", name, v.Kind)
		return
	}
	f, err := strconv.ParseFloat(v.Text, 64)
	if err != nil || f < allowed.low || f > allowed.high {
		s.Errorf(v, "%q is %s; it must be %s", name, cut(v.Text), allowed)
		return
	}
	*into = f
}

func (o object) bool(into *bool, key string) {
	v := o.get(key)
	switch {
	case v == nil:
	case v.Kind != cases.Bool:
		o.sheet.Errorf(v, "%q must be true or false, not %s", o.name(key), v.Kind)
	default:
		*into = v.Bool
	}
}

// text reads free text.
func (o object) text(into *string, key string) {
	v := o.get(key)
	switch {
	case v == nil:
	case v.Kind != cases.String:
		o.sheet.Errorf(v, "%q must be text, not %s", o.name(key), v.Kind)
	default:
		*into = v.Text
	}
}

// choice reads one word of a list.
func (o object) choice(into *string, key string, words []string) {
	v := o.get(key)
	switch {
	case v == nil:
	case v.Kind != cases.String:
		o.sheet.Errorf(v, "%q must be text, not %s", o.name(key), v.Kind)
	case !contains(words, v.Text):
		o.sheet.Errorf(v, "%q is %q; it must be one of %s%s", o.name(key), cut(v.Text), listed(words), cases.DidYouMean(v.Text, words))
	default:
		*into = v.Text
	}
}

// listed writes words with commas; a long list is cut.
func listed(words []string) string {
	const most = 12
	text := ""
	for i, w := range words {
		if i == most {
			return text + fmt.Sprintf(" and %d more", len(words)-most)
		}
		if i > 0 {
			text += ", "
		}
		text += w
	}
	return text
}

// list returns the entries of a list of at most most entries.
func (o object) list(key string, most int) []*cases.Value {
	v := o.get(key)
	switch {
	case v == nil:
		return nil
	case v.Kind != cases.List:
		o.sheet.Errorf(v, "%q must be a list, not %s", o.name(key), v.Kind)
		return nil
	case len(v.Items) > most:
		o.sheet.Errorf(v, "%q holds %d entries; at most %d are read", o.name(key), len(v.Items), most)
		return nil
	}
	return v.Items
}

func (o object) item(key string, i int) string { return fmt.Sprintf("%s[%d]", o.name(key), i) }

// needText is text for a key that must be there and hold something.
func (o object) needText(into *string, key string) {
	if v := o.need(key); v != nil {
		o.text(into, key)
		if *into == "" {
			o.sheet.Errorf(v, "%q may not be empty", o.name(key))
		}
	}
}

func tableRow(key string, i int) string { return fmt.Sprintf("%s[%d]", key, i) }
