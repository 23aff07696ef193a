package cases_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	validator "github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// published compiles a committed schema with a validator that shares no code
// with the reader.
func published(t *testing.T, kind string) *validator.Schema {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("schema", kind+".schema.json"))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := validator.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := validator.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource(kind, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(kind)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func validate(s *validator.Schema, data []byte) error {
	doc, err := validator.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		return err
	}
	return s.Validate(doc)
}

func TestSchemasAcceptWhatIsBuiltIn(t *testing.T) {
	pack, plan := published(t, "pack"), published(t, "plan")
	solved := 0
	for _, name := range packs.Names() {
		file := name + "/pack.json"
		data, err := fs.ReadFile(packs.FS(), file)
		if err != nil {
			t.Fatal(err)
		}
		if err := validate(pack, data); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		sub, err := fs.Sub(packs.FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		l, err := cases.LoadPackFS(sub, name)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range solve.Check(l, tables.Builtin, "").Cases {
			if !c.Solved {
				continue // the tests of the packs tell of that
			}
			solved++
			if err := validate(plan, c.Plan); err != nil {
				t.Errorf("%s: %s\n%v", c.Case, c.Plan, err)
			}
			if _, err := cases.ReadPlan("plan.json", c.Plan); err != nil {
				t.Errorf("%s: %s\n%v", c.Case, c.Plan, err)
			}
		}
	}
	if solved == 0 {
		t.Error("no solved plan was seen")
	}
}

// What a schema cannot say stays with the reader.
var readerOnly = []string{
	"wider than the", `larger than "max_w"`, "for a male patient", "stands twice; the first is at",
	"it must be at least as high", "the most is 60", "has a standard already", "there is no kind of case", "there is no family to draw from",
}

func TestSchemasRefuseWhatTheReaderRefuses(t *testing.T) {
	refused := 0
	for kind, samples := range map[string][]cases.Sample{"plan": cases.BadPlans, "pack": cases.BadPacks} {
		schema := published(t, kind)
		for _, s := range samples {
			left := slices.ContainsFunc(readerOnly, func(w string) bool { return strings.Contains(s.Words, w) })
			err := validate(schema, []byte(s.Text))
			if (err == nil) != left {
				t.Errorf("%s: the schema says %v to %.300s", s.Words, err, s.Text)
			}
			if err != nil {
				refused++
			}
		}
	}
	if refused < 100 {
		t.Errorf("only %d samples were refused", refused)
	}
}

func TestSchemaAndReaderAgree(t *testing.T) {
	schemas := map[string]*validator.Schema{"plan": published(t, "plan"), "pack": published(t, "pack")}
	accepted, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]string{"plan", "pack"}).Draw(t, "kind")
		var doc any
		if kind == "plan" {
			doc = parse(t, cases.Canonical(cases.DrawPlan(t)))
		} else {
			doc = parse(t, cases.Canonical(cases.DrawPack(t)))
		}
		for range rapid.IntRange(0, 2).Draw(t, "changes") {
			doc = change(t, doc)
		}
		data, err := json.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		faults := readerFaults(kind, data)
		schemaErr := validate(schemas[kind], data)
		switch left := !slices.ContainsFunc(faults, expressible); {
		case left && schemaErr != nil:
			t.Fatalf("the reader accepts, the schema refuses: %s\n%v", data, schemaErr)
		case !left && schemaErr == nil:
			t.Fatalf("the schema accepts, the reader refuses: %s\n%v", data, faults)
		case left:
			accepted++
		default:
			refused++
		}
	})
	if accepted < 10 || refused < 10 {
		t.Errorf("%d accepted and %d refused: the changes are too many or too few", accepted, refused)
	}
}

func expressible(f cases.Fault) bool {
	return !slices.ContainsFunc(readerOnly, func(w string) bool { return strings.Contains(f.Message, w) })
}

func readerFaults(kind string, data []byte) cases.Faults {
	if kind == "pack" {
		_, _, sheet := cases.ReadPack("pack.json", data)
		return sheet.Faults
	}
	_, err := cases.ReadPlan("plan.json", data)
	faults, _ := err.(cases.Faults)
	return faults
}

func parse(t *rapid.T, data []byte) any {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatal(err)
	}
	return v
}

// change replaces, drops, adds or doubles one value somewhere in the document.
func change(t *rapid.T, v any) any {
	switch v := v.(type) {
	case map[string]any:
		keys := make([]string, 0, len(v))
		for k := range v {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		if len(keys) == 0 {
			break
		}
		key := rapid.SampledFrom(keys).Draw(t, "key")
		switch rapid.SampledFrom([]string{"into", "into", "into", "drop", "add", "replace"}).Draw(t, "how") {
		case "drop":
			delete(v, key)
		case "add":
			v[rapid.SampledFrom([]string{"note", "none", "pregnant", "seed", "side", "asked", "Title", "x"}).Draw(t, "new key")] = drawValue(t)
		case "replace":
			v[key] = drawValue(t)
		default:
			v[key] = change(t, v[key])
		}
		return v
	case []any:
		if len(v) == 0 {
			return []any{drawValue(t)}
		}
		at := rapid.IntRange(0, len(v)-1).Draw(t, "at")
		if rapid.Bool().Draw(t, "double") {
			return append(v, v[at])
		}
		v[at] = change(t, v[at])
		return v
	}
	return drawValue(t)
}

func drawValue(t *rapid.T) any {
	return rapid.SampledFrom([]any{
		nil, true, false, "", " ", "none", "left", "treat", "devices", "skin_tag", "a/b", "1:200000", "2026-11-25", "x y",
		json.Number("0"), json.Number("1"), json.Number("-1"), json.Number("0.05"), json.Number("7.15"), json.Number("12.3456"), json.Number("3.0"), json.Number("1e2"), json.Number("400.5"),
		[]any{},
		[]any{"devices"},
		[]any{"hiv", "hiv"},
		map[string]any{},
		map[string]any{"agent": "lidocaine"},
	}).Draw(t, "value")
}
