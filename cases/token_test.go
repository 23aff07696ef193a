package cases

import (
	"fmt"
	"strings"
	"testing"
)

func TestReadJSONPlaces(t *testing.T) {
	tree, faults := ReadJSON("places.json", []byte("{\n \"é\": [1,\r\n\t\"ü\", {\"b\":null}],\n \"日本\":true, \"c\": -0.5e+3 }\n"))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for _, test := range []struct {
		v            *Value
		kind         Kind
		line, column int
	}{
		{tree, Object, 1, 1},
		{tree.At("é"), List, 2, 7},
		{tree.At("é", 0), Number, 2, 8},
		{tree.At("é", 1), String, 3, 2},
		{tree.At("é", 2), Object, 3, 7},
		{tree.At("é", 2, "b"), Null, 3, 12},
		{tree.At("日本"), Bool, 4, 7},
		{tree.At("c"), Number, 4, 18},
		{tree.At("é", 9), List, 2, 7}, // as far as the path goes
		{tree.At("no"), Object, 1, 1},
	} {
		if test.v.Kind != test.kind || test.v.Line != test.line || test.v.Column != test.column {
			t.Errorf("%s at %d:%d, want %s at %d:%d", test.v.Kind, test.v.Line, test.v.Column, test.kind, test.line, test.column)
		}
	}
	if k := tree.Keys[1]; k.Name != "日本" || k.Line != 4 || k.Column != 2 {
		t.Errorf("the key stands at %d:%d", k.Line, k.Column)
	}
	if text := tree.At("c").Text; text != "-0.5e+3" {
		t.Errorf("a number is kept as written, not as %q", text)
	}
}

func TestReadJSONText(t *testing.T) {
	for source, want := range map[string]string{
		`"a\"b\\c\/d"`:                       `a"b\c/d`,
		`"\u00e9\u65e5"`:                     "é日",
		`"\uD83D\uDE00 \ud83d\ude00"`:        "😀 😀",
		`"` + "\U0001F600\u2028\uFFFD" + `"`: "\U0001F600\u2028\uFFFD",
		`""`:                                 "",
	} {
		v, faults := ReadJSON("text.json", []byte(source))
		if len(faults) > 0 || v.Text != want {
			t.Errorf("%s reads as %q, %v", source, v.Text, faults)
		}
	}
}

func TestReadJSONRefuses(t *testing.T) {
	deep := func(n int) string { return strings.Repeat("[", n) }
	long := strings.Repeat("x", MaxStringBytes)
	for _, test := range []struct{ name, text, words string }{
		{"nothing", "«", "the file is empty"},
		{"only space", " \n \t«", "the file is empty"},
		{"byte order mark", "«\uFEFF{}", "byte order mark"},
		{"NUL", "«\x00", "a JSON value is expected here"},
		{"NUL inside", "{«\x00}", "a key in double quotes is expected"},
		{"NUL in text", "{\"a\": \"b«\x00\"}", "a control character (U+0000)"},
		{"escape character in text", "{\"a\": \"é«\x1b[2J\"}", "a control character (U+001B)"},
		{"line end in text", "{\"a\": \"b«\nc\"}", "a control character (U+000A)"},
		{"tab in text", "[\"«\t\"]", "a control character (U+0009)"},
		{"delete", "[\"«\x7f\"]", "a control character (U+007F)"},
		{"C1 control", "[\"«\u0085\"]", "a control character (U+0085)"},
		{"escaped NUL", `["a«\u0000"]`, "a control character (U+0000)"},
		{"escaped line end", `["a«\n"]`, "a control character (U+000A)"},
		{"escaped bell", `["«\b"]`, "a control character (U+0008)"},
		{"escaped C1", `["«\u009b"]`, "a control character (U+009B)"},
		{"control in a key", `{"«\r": 1}`, "a control character (U+000D)"},
		{"high surrogate alone", `["ab«\ud83d"]`, "half of a surrogate pair"},
		{"high surrogate and text", `["«\ud83dx"]`, "half of a surrogate pair"},
		{"high surrogate twice", `["«\ud83d\ud83d"]`, "half of a surrogate pair"},
		{"low surrogate alone", `["«\ude00"]`, "half of a surrogate pair"},
		{"surrogates swapped", `["«\ude00\ud83d"]`, "half of a surrogate pair"},
		{"high surrogate, short escape", `["«\ud83d\u12"]`, "half of a surrogate pair"},
		{"short escape", `["a«\u12"]`, "four hexadecimal digits"},
		{"no hexadecimal", `["a«\u12g4"]`, "four hexadecimal digits"},
		{"unknown escape", `["a«\x41"]`, `a backslash before "x"`},
		{"unknown escape, many bytes", `["a«\é"]`, `a backslash before "é"`},
		{"unknown escape, control", "[\"a«\\\x1b\"]", `a backslash before "\x1b"`},
		{"not UTF-8", "[\"a«\xff\"]", "not UTF-8"},
		{"half a rune", "[\"a«\xe2\x82\"]", "not UTF-8"},
		{"encoded surrogate", "[\"«\xed\xa0\x80\"]", "not UTF-8"},
		{"overlong slash", "[\"«\xc0\xaf\"]", "not UTF-8"},
		{"not UTF-8 outside text", "«\xff", "a JSON value is expected here"},
		{"depth 33", deep(32) + "«[" + strings.Repeat("]", 33), "more than 32 deep"},
		{"depth 33 in objects", strings.Repeat(`{"a":`, 32) + "«1" + strings.Repeat("}", 32), "more than 32 deep"},
		{"depth without end", deep(32) + "«" + deep(1<<20), "more than 32 deep"},
		{"long text", `{"a": «"` + long + `x"}`, "longer than 64 KiB"},
		{"long key", `{«"` + long + `x": 1}`, "longer than 64 KiB"},
		{"long by bytes", `[«"` + strings.Repeat("é", MaxStringBytes/2) + `x"]`, "longer than 64 KiB"},
		{"long by escapes", `[«"` + strings.Repeat(`\u00e9`, MaxStringBytes/2+1) + `"]`, "longer than 64 KiB"},
		{"NaN", `{"a": «NaN}`, `not "NaN}"`},
		{"infinity", `{"a": «Infinity}`, `not "Infinity"`},
		{"minus infinity", `{"a": «-Infinity}`, "not a JSON number"},
		{"leading zeros", `{"a": «007}`, "not a JSON number"},
		{"minus leading zero", `{"a": «-01}`, "not a JSON number"},
		{"plus", `{"a": «+1}`, `not "+1}"`},
		{"point first", `{"a": «.5}`, `not ".5}"`},
		{"point last", `{"a": «5.}`, "not a JSON number"},
		{"minus alone", `{"a": «-}`, "not a JSON number"},
		{"two minus", `{"a": «--1}`, "not a JSON number"},
		{"empty exponent", `{"a": «1e}`, "not a JSON number"},
		{"signed empty exponent", `{"a": «1e+}`, "not a JSON number"},
		{"hexadecimal", `{"a": 0«x10}`, "a comma or } is expected"},
		{"two points", `[1.2«.3]`, "a comma or ] is expected"},
		{"word", `[«True]`, "a JSON value is expected"},
		{"word that goes on", `[true«r]`, "a comma or ] is expected"},
		{"comment", "{} «// no", "something follows the end"},
		{"single quotes", "{«'a': 1}", "a key in double quotes is expected"},
		{"trailing comma", `{"a": 1, «}`, "a key in double quotes is expected"},
		{"trailing comma in a list", `[1, «]`, "a JSON value is expected"},
		{"no comma", `{"a": 1 «"b": 2}`, `after the value of "a"`},
		{"no colon", `{"a" «1}`, `a colon is expected after the key "a"`},
		{"no value", `{"a": «}`, "a JSON value is expected"},
		{"wrong bracket", `[1«}`, "a comma or ] is expected"},
		{"two values", `{}«{}`, "something follows the end"},
		{"other space", "«\u00a0{}", "a JSON value is expected"},
		{"vertical tab", "«\v{}", "a JSON value is expected"},
		{"duplicate key", `{"a": 1, «"a": 2}`, `the key "a" stands twice`},
		{"duplicate key by escape", `{"a": 1, «"\u0061": 2}`, `the key "a" stands twice`},
	} {
		t.Run(test.name, func(t *testing.T) {
			text, line, column := unmark(t, test.text)
			_, faults := ReadJSON("bad.json", []byte(text))
			wantFault(t, faults, line, column, test.words)
			if strings.ContainsFunc(faults[0].Message, func(r rune) bool { return r < ' ' || r == 0x7f }) {
				t.Errorf("the message holds a control character: %q", faults[0].Message)
			}
			if len(faults[0].Message) > 200 {
				t.Errorf("the message has %d bytes", len(faults[0].Message))
			}
		})
	}
}

func TestReadJSONLimitsHold(t *testing.T) {
	for name, text := range map[string]string{
		"depth 32":                strings.Repeat("[", 32) + strings.Repeat("]", 32),
		"depth 32 with a value":   strings.Repeat("[", 31) + "1" + strings.Repeat("]", 31),
		"text of 64 KiB":          `"` + strings.Repeat("x", MaxStringBytes) + `"`,
		"text of 64 KiB, escaped": `"` + strings.Repeat(`\u00e9`, MaxStringBytes/2) + `"`,
		"minus zero":              "-0",
		"huge exponent":           "1e999", // JSON allows it; the decoder holds it to its key's range
		"16 MiB":                  "{}" + strings.Repeat(" ", MaxFileBytes-2),
	} {
		if _, faults := ReadJSON(name, []byte(text)); len(faults) > 0 {
			t.Errorf("%s is refused: %v", name, faults)
		}
	}
	_, faults := ReadJSON("big.json", []byte("{}"+strings.Repeat(" ", MaxFileBytes-1)))
	wantFault(t, faults, 1, 1, "larger than 16 MiB")
	many := "[" + strings.Repeat("0,", MaxValues) + "0]"
	_, faults = ReadJSON("many.json", []byte(many))
	wantFault(t, faults, 1, 2*MaxValues, "more than 3000000 values")
}

// A file that ends too early names its end, or the text that never closes.
func TestReadJSONTruncated(t *testing.T) {
	if _, faults := ReadJSON("whole.json", []byte(samplePack)); len(faults) > 0 {
		t.Fatal(faults)
	}
	whole := strings.TrimSpace(samplePack)
	for n := range len(whole) {
		tree, faults := ReadJSON("part.json", []byte(whole[:n]))
		if tree != nil || len(faults) != 1 {
			t.Fatalf("the first %d bytes are read as a whole file: %v", n, faults)
		}
		if f := faults[0]; !strings.Contains(f.Message, "ends") && !strings.Contains(f.Message, "empty") && !strings.Contains(f.Message, "not UTF-8") && !strings.Contains(f.Message, "JSON") {
			t.Errorf("the first %d bytes: %s", n, f.Message)
		}
	}
	for _, test := range []struct{ text, words string }{
		{`{«`, "a key in double quotes is expected; the file ends here"},
		{`{"a"«`, `a colon is expected after the key "a"; the file ends here`},
		{`{"a":«`, "the file ends where a value is expected"},
		{`{"a":1«`, `after the value of "a"; the file ends here`},
		{`{"a":1,«`, "a key in double quotes is expected; the file ends here"},
		{`{"a":«"b`, "no closing quote"},
		{`{«"a`, "no closing quote"},
		{`["a«\`, "the file ends inside text"},
		{`["a«\u00`, "four hexadecimal digits"},
		{`["a«\ud83d`, "half of a surrogate pair"},
		{`[1«`, "a comma or ] is expected in this list; the file ends here"},
		{`[1,«`, "the file ends where a value is expected"},
		{`[«tru`, `a JSON value is expected here, not "tru"`},
		{`[«-`, "not a JSON number"},
	} {
		text, line, column := unmark(t, test.text)
		_, faults := ReadJSON("part.json", []byte(text))
		wantFault(t, faults, line, column, test.words)
	}
}

func TestReadJSONFindsEveryDuplicate(t *testing.T) {
	tree, faults := ReadJSON("twice.json", []byte("{\"a\": 1,\n\"a\": 2, \"b\": {\"c\": 1,\n \"c\": 2, \"c\": 3}}"))
	want := "[twice.json:2:1: the key \"a\" stands twice; keep one twice.json:3:2: the key \"c\" stands twice; keep one twice.json:3:10: the key \"c\" stands twice; keep one]"
	if got := fmt.Sprint([]Fault(faults)); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if tree.Get("a").Text != "1" || tree.Get("b").Get("c").Text != "1" {
		t.Error("the first of two keys is not the one kept")
	}
}

// A hostile file may bring millions of faults; what is listed is bounded.
func TestFaultsAreBounded(t *testing.T) {
	text := `{` + strings.Repeat(`"a":0,`, 3*MaxFaults) + `"b":0}`
	_, faults := ReadJSON("many.json", []byte(text))
	if len(faults) != MaxFaults+1 || !strings.Contains(faults[0].Message, "more than 10000 faults") {
		t.Errorf("%d faults, the first %v", len(faults), faults[0])
	}
	var keys strings.Builder
	for i := range 3 * MaxFaults {
		fmt.Fprintf(&keys, `"k%d":0,`, i)
	}
	_, err := ReadPlan("many.json", []byte(`{`+keys.String()+`"format":"leastwatt.plan/1","case":"a/b"}`))
	if faults, ok := err.(Faults); !ok || len(faults) != MaxFaults+1 {
		t.Errorf("%T of %d", err, len(faults))
	}
}
