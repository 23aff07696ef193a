package cases

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// What this reader accepts, the standard library accepts, with the same
// values. What the standard library accepts and this reader refuses, it
// refuses for one of the reasons that the format names.
func FuzzReadJSON(f *testing.F) {
	for _, seed := range []string{
		samplePack, samplePlan, `{}`, `[]`, `0`, `""`, `null`, " \t\r\n[true,false,null]", `{"a":{"b":[{}]},"c":-0.5e+3}`, `{"a":1,"a":2}`, `"\ud83d\ude00\/"`,
		`"\ud83d"`, `"\u0000"`, "\"\x7f\"", "\"\xff\"", "\uFEFF{}", `1e999`, `-0`, `007`, strings.Repeat("[", 33) + strings.Repeat("]", 33),
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		tree, faults := ReadJSON("fuzz.json", data)
		for _, fault := range faults {
			if fault.Line < 1 || fault.Column < 1 || strings.ContainsFunc(fault.Message, unicode.IsControl) || len(fault.Message) > 1000 {
				t.Fatalf("ill-placed or unprintable: %+v", fault)
			}
		}
		var theirs any
		d := json.NewDecoder(bytes.NewReader(data))
		d.UseNumber()
		err := d.Decode(&theirs)
		if err == nil {
			if _, err = d.Token(); errors.Is(err, io.EOF) {
				err = nil
			} else if err == nil {
				err = errors.New("something follows")
			}
		}
		switch {
		case tree == nil && len(faults) == 0:
			t.Fatal("nothing was read, yet no fault was told")
		case tree == nil && err == nil && !slices.ContainsFunc(faults, isListedReason):
			t.Fatalf("valid JSON is refused: %v", faults)
		case tree != nil && err != nil:
			t.Fatalf("invalid JSON is accepted: %v", err)
		case tree != nil && len(faults) == 0:
			if ours := plain(tree); !reflect.DeepEqual(theirs, ours) {
				t.Fatalf("the values differ: %v and %v", theirs, ours)
			}
		}
	})
}

func isListedReason(fault Fault) bool {
	return slices.ContainsFunc([]string{
		"larger than 16 MiB", "more than 32 deep", "longer than 64 KiB", "more than 3000000 values",
		"not UTF-8", "a control character", "half of a surrogate pair", "byte order mark",
	}, func(reason string) bool { return strings.Contains(fault.Message, reason) })
}

// plain is a value as the standard library gives it.
func plain(v *Value) any {
	switch v.Kind {
	case Bool:
		return v.Bool
	case Number:
		return json.Number(v.Text)
	case String:
		return v.Text
	case List:
		list := make([]any, len(v.Items))
		for i, item := range v.Items {
			list[i] = plain(item)
		}
		return list
	case Object:
		object := map[string]any{}
		for _, k := range v.Keys {
			object[k.Name] = plain(k.Value)
		}
		return object
	}
	return nil
}

func FuzzReadPlan(f *testing.F) {
	for _, seed := range []string{
		samplePlan, planHead + "}", planHead + `,"power_w":7.15}`, planHead + `,"anaesthetic":{"injected":{"adrenaline":"1:200000"}}}`,
		planHead + `,"anaesthetic":{"none":true}}`, planHead + `,"asked":[],"prep":{},"confidence":1e-3}`, planHead + `,"follow_up_days":73e1}`, `{}`, `[]`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		plan, err := ReadPlan("fuzz.json", data)
		if err != nil {
			checkFaults(t, err)
			return
		}
		form := Canonical(plan)
		back, err := ReadPlan("fuzz.json", form)
		if err != nil {
			t.Fatalf("the canonical form is refused: %s\n%v", form, err)
		}
		if diff := cmp.Diff(plan, back); diff != "" {
			t.Fatal(diff)
		}
	})
}

func checkFaults(t *testing.T, err error) {
	t.Helper()
	faults, ok := err.(Faults)
	if !ok || len(faults) == 0 || len(faults) > MaxFaults+1 {
		t.Fatalf("%T with %d faults", err, len(faults))
	}
	for i, fault := range faults {
		if fault.Line < 1 || fault.Column < 1 || fault.File != "fuzz.json" || strings.ContainsFunc(fault.Message, unicode.IsControl) {
			t.Fatalf("ill-placed or unprintable: %+v", fault)
		}
		if i > 0 && (faults[i-1].Line > fault.Line || faults[i-1].Line == fault.Line && faults[i-1].Column > fault.Column) {
			t.Fatal("the faults are not in the order of the file")
		}
	}
}

func FuzzReadPack(f *testing.F) {
	f.Add([]byte(samplePack))
	f.Add([]byte(strings.Replace(samplePack, `"weight_kg": 70`, `"weight_kg": 700`, 1)))
	f.Add([]byte(strings.Replace(samplePack, `"sex"`, `"devices": [{"kind": "pump"}], "history": ["hiv"], "inr": 2, "pregnant": true, "sex"`, 1)))
	f.Add([]byte(strings.Replace(samplePack, `"seed": 7`, `"looks_like": "milia", "report": {"days_ago": 2, "specimen": "shave", "site": "toe", "says": "keloid"}`, 1)))
	f.Add([]byte(`{"cases":[{}],"local_rules":[{"value":3}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		pack, _, sheet := ReadPack("fuzz.json", data)
		if len(sheet.Warnings) > 0 {
			checkFaults(t, sheet.Warnings)
		}
		if pack == nil {
			checkFaults(t, sheet.Faults)
			return
		}
		form := Canonical(pack)
		back, _, sheet := ReadPack("fuzz.json", form)
		if back == nil {
			t.Fatalf("the canonical form is refused: %s\n%v", form, sheet.Faults)
		}
		if diff := cmp.Diff(pack, back, cmpopts.EquateEmpty()); diff != "" {
			t.Fatal(diff)
		}
		for i := range pack.Cases {
			for _, topic := range Vocab.IDs("topic") {
				AnswerFor(&pack.Cases[i], topic, US)
			}
			if pack.Cases[i].Digest() != back.Cases[i].Digest() {
				t.Fatal("a case read back has another digest")
			}
		}
	})
}

func FuzzOpenZip(f *testing.F) {
	f.Add(makeZip(f, entry{name: "pack.json", text: samplePack}))
	f.Add(makeZip(f, entry{name: "a/pack.json", text: "{}"}, entry{name: "a/b.png", text: string(pngOf(f, 2, 2))}))
	f.Add(makeZip(f, entry{name: "../pack.json"}))
	f.Add(makeZip(f, entry{name: "__MACOSX/x"}, entry{name: "pack.json", text: "["}))
	f.Add(makeZip(f))
	f.Fuzz(func(t *testing.T, data []byte) {
		fsys, err := OpenZip(data)
		if err != nil {
			if strings.ContainsFunc(err.Error(), unicode.IsControl) {
				t.Fatalf("unprintable: %q", err)
			}
			return
		}
		total := 0
		files := fsys.(memoryFS)
		for name, content := range files {
			total += len(content)
			if strings.HasPrefix(name, "/") || strings.Contains("/"+name+"/", "/../") || strings.ContainsFunc(name, unicode.IsControl) {
				t.Fatalf("the name %q was let in", name)
			}
		}
		if total > MaxUnpackedBytes || len(files) > MaxZipFiles {
			t.Fatalf("%d bytes in %d files", total, len(files))
		}
		if l := loadZip("fuzz.zip", data); l.Pack == nil && len(l.Faults) == 0 {
			t.Fatal("no pack and no fault")
		}
	})
}
