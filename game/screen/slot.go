package screen

import (
	"reflect"
	"strconv"
	"strings"

	"leastwatt/cases"
)

// A phrase's ID is the path of its key in the plan file, with the index of
// the list where there is one: "anaesthetic.injected.0.agent". Its path, as
// rule rows name it, leaves the index out.

// pathOf is the path of a phrase's ID.
func pathOf(id string) string {
	parts := strings.Split(id, ".")
	kept := parts[:0]
	for _, p := range parts {
		if _, err := strconv.Atoi(p); err != nil {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, ".")
}

// inList tells whether an ID needs the index of a list that is long enough.
func inList(id string) bool { return strings.HasPrefix(id, "anaesthetic.injected.") }

// slot finds the field of a plan that an ID names. With grow it makes the
// structures on the way; without, it returns an invalid value where one of
// them is absent.
func slot(p *cases.Plan, id string, grow bool) reflect.Value {
	v := reflect.ValueOf(p).Elem()
	for _, key := range strings.Split(id, ".") {
		if v = step(v, key, grow); !v.IsValid() {
			return v
		}
	}
	return v
}

func step(v reflect.Value, key string, grow bool) reflect.Value {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			if !grow {
				return reflect.Value{}
			}
			v.Set(reflect.New(v.Type().Elem()))
		}
		v = v.Elem()
	}
	if i, err := strconv.Atoi(key); err == nil {
		if v.Kind() != reflect.Slice || i < 0 || i >= v.Len() {
			return reflect.Value{}
		}
		return v.Index(i)
	}
	if v.Kind() != reflect.Struct {
		return reflect.Value{}
	}
	if i := keyIndex(v.Type(), key); i >= 0 {
		return v.Field(i)
	}
	return reflect.Value{}
}

func keyIndex(t reflect.Type, key string) int {
	for i := range t.NumField() {
		if t.Field(i).Tag.Get("json") == key {
			return i
		}
	}
	return -1
}

// tagOf is the struct field that a path names, for its tags and type.
func tagOf(path string) (reflect.StructField, bool) {
	t := reflect.TypeFor[cases.Plan]()
	var f reflect.StructField
	for _, key := range strings.Split(path, ".") {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct {
			return f, false
		}
		i := keyIndex(t, key)
		if i < 0 {
			return f, false
		}
		f = t.Field(i)
		t = f.Type
	}
	return f, true
}

// numberAt, flagAt, textAt and listAt read a slot and tell whether it is decided.
func numberAt(p *cases.Plan, id string) (cases.Milli, bool) {
	v := slot(p, id, false)
	if !v.IsValid() || v.IsNil() {
		return 0, false
	}
	return *v.Interface().(*cases.Milli), true
}

func flagAt(p *cases.Plan, id string) (on, decided bool) {
	v := slot(p, id, false)
	if !v.IsValid() || v.IsNil() {
		return false, false
	}
	return *v.Interface().(*bool), true
}

func textAt(p *cases.Plan, id string) string {
	v := slot(p, id, false)
	if !v.IsValid() {
		return ""
	}
	return v.String()
}

func listAt(p *cases.Plan, id string) ([]string, bool) {
	v := slot(p, id, false)
	if !v.IsValid() || v.IsNil() {
		return nil, false
	}
	return v.Interface().([]string), true
}

// clonePlan copies a plan with everything it points to.
func clonePlan(p *cases.Plan) *cases.Plan {
	return deepCopy(reflect.ValueOf(p)).Interface().(*cases.Plan)
}

func deepCopy(v reflect.Value) reflect.Value {
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return v
		}
		c := reflect.New(v.Type().Elem())
		c.Elem().Set(deepCopy(v.Elem()))
		return c
	case reflect.Slice:
		if v.IsNil() {
			return v
		}
		c := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := range v.Len() {
			c.Index(i).Set(deepCopy(v.Index(i)))
		}
		return c
	case reflect.Struct:
		c := reflect.New(v.Type()).Elem()
		for i := range v.NumField() {
			c.Field(i).Set(deepCopy(v.Field(i)))
		}
		return c
	}
	return v
}
