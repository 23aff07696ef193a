package cases

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
)

// Decode fills the struct that into points at from v and reports, on s, every
// key that is unknown, missing or ill-valued. It reads these field tags:
//
//	json:"power_w"                     the key
//	jsonschema:"required,minimum=0.1,maximum=35,multipleOf=0.1"
//	vocab:"technique"                  the text, or each text of a list, is a
//	                                   word of that table of the vocabulary
//	default:"true"                     what an absent bool means
//	form:"id"                          the text has the form of an id
//	form:"value"                       a bare number may stand for the text
//
// The jsonschema tags are those that the published schemas are made from, so
// that an editor and this reader hold a supervisor to the same limits. Lists
// with a vocabulary may hold each word once.
func Decode(s *Sheet, v *Value, into any) {
	d := decoder{Sheet: s}
	if f, ok := into.(interface{ knownFormat() string }); ok {
		d.reads = fmt.Sprintf(" (this reads the format %s)", f.knownFormat())
	}
	d.object(v, reflect.ValueOf(into).Elem(), "")
}

// decoder writes its faults on a sheet. reads tells a writer who used a key
// of a later format which one this reader knows.
type decoder struct {
	*Sheet
	reads string
}

// limits is a parsed jsonschema tag.
type limits struct {
	required       bool
	min, max, step *Milli
}

func parseLimits(tag string) limits {
	var l limits
	for part := range strings.SplitSeq(tag, ",") {
		key, text, _ := strings.Cut(part, "=")
		n, err := ParseMilli(text)
		switch {
		case key == "required":
			l.required = true
		case err != nil:
		case key == "minimum":
			l.min = &n
		case key == "maximum":
			l.max = &n
		case key == "multipleOf":
			l.step = &n
		}
	}
	return l
}

func keyOf(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}

func (d decoder) object(v *Value, into reflect.Value, path string) {
	if v.Kind != Object {
		d.Errorf(v, "%s must be an object, not %s", pathName(path), v.Kind)
		return
	}
	t := into.Type()
	known := map[string]int{}
	for i := range t.NumField() {
		if key := keyOf(t.Field(i)); key != "" && key != "-" {
			known[key] = i
		}
	}
	for _, k := range v.Keys {
		if d.Full() {
			return
		}
		i, ok := known[k.Name]
		if !ok {
			d.Errorf(&Value{Line: k.Line, Column: k.Column}, "unknown key %q%s%s", short(join(path, k.Name)), suggestKey(k.Name, known), d.reads)
			continue
		}
		if k.Value.Kind == Null {
			d.Errorf(k.Value, "%q may not be null; leave the key out", join(path, k.Name))
			continue
		}
		d.field(k.Value, into.Field(i), t.Field(i), join(path, k.Name))
	}
	for i := range t.NumField() {
		f := t.Field(i)
		key := keyOf(f)
		if key == "" || key == "-" || v.Get(key) != nil {
			continue
		}
		if parseLimits(f.Tag.Get("jsonschema")).required {
			d.Errorf(v, "the key %q is missing", join(path, key))
		}
		d.absent(into.Field(i), f)
	}
}

// absent gives a missing field its default, inside missing objects too.
func (d decoder) absent(into reflect.Value, f reflect.StructField) {
	switch {
	case f.Tag.Get("default") == "true":
		into.SetBool(true)
	case into.Kind() == reflect.Struct:
		for i := range into.NumField() {
			d.absent(into.Field(i), into.Type().Field(i))
		}
	}
}

func (d decoder) field(v *Value, into reflect.Value, f reflect.StructField, path string) {
	switch into.Kind() {
	case reflect.Pointer:
		p := reflect.New(into.Type().Elem())
		d.field(v, p.Elem(), f, path)
		into.Set(p)
	case reflect.Struct:
		d.object(v, into, path)
	case reflect.Slice:
		d.list(v, into, f, path)
	case reflect.Map:
		d.texts(v, into, f, path)
	case reflect.Bool:
		if v.Kind != Bool {
			d.Errorf(v, "%q must be true or false, not %s", path, v.Kind)
			return
		}
		into.SetBool(v.Bool)
	case reflect.String:
		d.text(v, into, f, path)
	default:
		d.number(v, into, f, path)
	}
}

func (d decoder) list(v *Value, into reflect.Value, f reflect.StructField, path string) {
	if v.Kind == Object && f.Tag.Get("single") == "true" {
		v = &Value{Kind: List, Line: v.Line, Column: v.Column, Items: []*Value{v}}
	}
	if v.Kind != List {
		d.Errorf(v, "%q must be a list, not %s", path, v.Kind)
		return
	}
	if max := parseLimits(f.Tag.Get("jsonschema")).max; max != nil && len(v.Items) > int(*max/1000) {
		d.Errorf(v, "%q holds %d entries; at most %s are read", path, len(v.Items), max)
		return
	}
	out := reflect.MakeSlice(into.Type(), len(v.Items), len(v.Items))
	seen := map[string]bool{}
	for i, item := range v.Items {
		d.field(item, out.Index(i), f, fmt.Sprintf("%s[%d]", path, i))
		if f.Tag.Get("vocab") == "" || item.Kind != String {
			continue
		}
		if seen[item.Text] {
			d.Errorf(item, "%q stands twice in %q; keep one", item.Text, path)
		}
		seen[item.Text] = true
	}
	into.Set(out)
}

// texts reads an object of texts whose keys are words of a vocabulary.
func (d decoder) texts(v *Value, into reflect.Value, f reflect.StructField, path string) {
	if v.Kind != Object {
		d.Errorf(v, "%q must be an object, not %s", path, v.Kind)
		return
	}
	out := reflect.MakeMap(into.Type())
	for _, k := range v.Keys {
		at := &Value{Line: k.Line, Column: k.Column}
		switch {
		case !Vocab.Has(f.Tag.Get("vocab"), k.Name):
			d.Errorf(at, "unknown word %q as key of %q%s", short(k.Name), path, Vocab.Suggest(f.Tag.Get("vocab"), k.Name))
		case k.Value.Kind != String:
			d.Errorf(k.Value, "%q must be text, not %s", join(path, k.Name), k.Value.Kind)
		default:
			out.SetMapIndex(reflect.ValueOf(k.Name), reflect.ValueOf(k.Value.Text))
		}
	}
	into.Set(out)
}

var idForm = regexp.MustCompile(`^[a-z0-9][a-z0-9_-]{0,63}$`)

func (d decoder) text(v *Value, into reflect.Value, f reflect.StructField, path string) {
	if v.Kind != String && !(v.Kind == Number && f.Tag.Get("form") == "value") {
		d.Errorf(v, "%q must be text, not %s", path, v.Kind)
		return
	}
	if table := f.Tag.Get("vocab"); table != "" && !Vocab.Has(table, v.Text) {
		d.Errorf(v, "unknown %s %q in %q%s", Vocab.Title(table), short(v.Text), path, Vocab.Suggest(table, v.Text))
		return
	}
	if f.Tag.Get("form") == "id" && !idForm.MatchString(v.Text) {
		d.Errorf(v, "%q must be an id of small letters, digits, _ and -, at most 64, not %q", path, short(v.Text))
		return
	}
	if strings.TrimSpace(v.Text) == "" && parseLimits(f.Tag.Get("jsonschema")).required {
		d.Errorf(v, "%q may not be empty", path)
		return
	}
	into.SetString(v.Text)
}

func (d decoder) number(v *Value, into reflect.Value, f reflect.StructField, path string) {
	if v.Kind != Number {
		d.Errorf(v, "%q must be a number, not %s", path, v.Kind)
		return
	}
	l := parseLimits(f.Tag.Get("jsonschema"))
	whole := into.Kind() == reflect.Int
	step := Milli(1) // a thousandth is the finest that is kept
	switch {
	case l.step != nil:
		step = *l.step
	case whole:
		step = 1000
	}
	n, err := ParseMilli(v.Text)
	switch {
	case !inside(n, l):
		d.Errorf(v, "%q is %s%s; the nearest is %s", path, short(v.Text), rangeText(l), clamp(n, l))
	case err != nil && !errors.Is(err, ErrFine):
		d.Errorf(v, "%q is %s; %v", path, short(v.Text), err)
	case err != nil || n%step != 0:
		d.Errorf(v, "%q is %s; it goes in steps of %s%s; the nearest is %s", path, short(v.Text), step, rangeText(l), nearest(n, step))
	case whole:
		into.SetInt(int64(n / 1000))
	default:
		into.SetInt(int64(n))
	}
}

func inside(n Milli, l limits) bool {
	return (l.min == nil || n >= *l.min) && (l.max == nil || n <= *l.max)
}

func clamp(n Milli, l limits) Milli {
	if l.min != nil && n < *l.min {
		return *l.min
	}
	if l.max != nil && n > *l.max {
		return *l.max
	}
	return n
}

func nearest(n, step Milli) Milli {
	if n < 0 {
		return -nearest(-n, step)
	}
	return (n + step/2) / step * step
}

func rangeText(l limits) string {
	switch {
	case l.min != nil && l.max != nil:
		return fmt.Sprintf("; it must be from %s to %s", l.min, l.max)
	case l.min != nil:
		return fmt.Sprintf("; it must be at least %s", l.min)
	case l.max != nil:
		return fmt.Sprintf("; it must be at most %s", l.max)
	}
	return ""
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func pathName(path string) string {
	if path == "" {
		return "the file"
	}
	return strconv.Quote(path)
}

func suggestKey(name string, known map[string]int) string {
	words := make([]string, 0, len(known))
	for k := range known {
		words = append(words, k)
	}
	return DidYouMean(name, words)
}
