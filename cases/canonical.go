package cases

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"reflect"
	"sort"
	"strconv"
	"unicode/utf8"
)

// Canonical writes a Plan, Case or other struct of this package as JSON in
// one fixed form: keys in the order of the struct, nothing that is open, no
// spaces, numbers as short as they can be. Equal values give equal bytes.
//
// In a plan an empty list is a decision and is written; anywhere else it is
// the same as an absent one.
func Canonical(v any) []byte {
	s := reflect.Indirect(reflect.ValueOf(v))
	return appendCanonical(nil, s, s.Type() == reflect.TypeFor[Plan]())
}

func appendCanonical(b []byte, v reflect.Value, emptyLists bool) []byte {
	switch v.Kind() {
	case reflect.Struct:
		b = append(b, '{')
		first := true
		for i := range v.NumField() {
			key := keyOf(v.Type().Field(i))
			if key == "" || key == "-" || isOpen(v.Field(i)) || !emptyLists && isEmptyList(v.Field(i)) {
				continue
			}
			if !first {
				b = append(b, ',')
			}
			first = false
			b = append(appendText(b, key), ':')
			b = appendCanonical(b, v.Field(i), emptyLists)
		}
		return append(b, '}')
	case reflect.Pointer:
		return appendCanonical(b, v.Elem(), emptyLists)
	case reflect.Slice:
		b = append(b, '[')
		for i := range v.Len() {
			if i > 0 {
				b = append(b, ',')
			}
			b = appendCanonical(b, v.Index(i), emptyLists)
		}
		return append(b, ']')
	case reflect.Map:
		keys := v.MapKeys()
		sort.Slice(keys, func(i, j int) bool { return keys[i].String() < keys[j].String() })
		b = append(b, '{')
		for i, k := range keys {
			if i > 0 {
				b = append(b, ',')
			}
			b = append(appendText(b, k.String()), ':')
			b = appendText(b, v.MapIndex(k).String())
		}
		return append(b, '}')
	case reflect.String:
		return appendText(b, v.String())
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool())
	case reflect.Int:
		return strconv.AppendInt(b, v.Int(), 10)
	case reflect.Int64:
		return append(b, Milli(v.Int()).String()...)
	}
	panic(fmt.Sprintf("cases: no canonical form for %s", v.Type()))
}

// isOpen tells whether a field is left out: nil, or an empty text. A bool
// that is a plain setting is always written.
func isOpen(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map:
		return v.IsNil()
	case reflect.String:
		return v.Len() == 0
	}
	return false
}

func isEmptyList(v reflect.Value) bool {
	return (v.Kind() == reflect.Slice || v.Kind() == reflect.Map) && v.Len() == 0
}

func appendText(b []byte, s string) []byte {
	const hexDigits = "0123456789abcdef"
	b = append(b, '"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b = append(b, '\\', byte(r))
		case r < 0x20:
			b = append(b, '\\', 'u', '0', '0', hexDigits[r>>4], hexDigits[r&15])
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return append(b, '"')
}

// Digest is the SHA-256 of the case's canonical JSON without what a grade may
// not depend on: truth, teaching, title and the reasons of expect.
func (c *Case) Digest() string {
	d := *c
	d.Truth, d.Teaching, d.Title = Truth{}, "", ""
	d.Expect = append([]Expect(nil), c.Expect...)
	for i := range d.Expect {
		d.Expect[i].Reason = ""
	}
	sum := sha256.Sum256(Canonical(&d))
	return hex.EncodeToString(sum[:])
}
