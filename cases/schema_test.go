package cases_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/invopop/jsonschema"

	"leastwatt/cases"
)

var update = flag.Bool("update", false, "write the published schemas anew")

// The published schemas are made from the Go types, so that an editor completes
// what the reader reads. After a change of the types or of the vocabulary run
//
//	go test ./cases -run TestPublishedSchemas -update
func TestPublishedSchemas(t *testing.T) {
	for _, kind := range []string{"pack", "plan", "session"} {
		file := filepath.Join("schema", kind+".schema.json")
		want := schemaText(t, kind)
		if *update {
			if err := os.WriteFile(file, want, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		got, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); diff != "" {
			t.Errorf("%s is stale; run the test with -update\n%.2000s", file, diff)
		}
	}
}

func schemaText(t *testing.T, kind string) []byte {
	t.Helper()
	g := generator{reflector: &jsonschema.Reflector{
		Anonymous: true, ExpandedStruct: true, RequiredFromJSONSchemaTags: true,
		Mapper: func(t reflect.Type) *jsonschema.Schema {
			if t == reflect.TypeFor[cases.Milli]() {
				return &jsonschema.Schema{Type: "number"}
			}
			return nil
		},
	}}
	if err := g.reflector.AddGoComments("leastwatt/cases", "."); err != nil {
		t.Fatal(err)
	}
	var schema *jsonschema.Schema
	switch kind {
	case "pack":
		schema = g.schema(reflect.TypeFor[cases.Pack]())
		demand(schema, "format").Const = cases.PackFormat
		minItems := uint64(1)
		demand(schema, "cases").MinItems = &minItems
		demand(schema.Definitions["LocalRule"], "date").Format = "date"
		onlyWith(schema.Definitions["Patient"], "gestation_weeks", "pregnant")
	case "plan":
		schema = g.schema(reflect.TypeFor[cases.Plan]())
		demand(schema, "format").Const = cases.PlanFormat
		demand(schema, "case").Pattern = cases.CaseIDForm
		demand(schema.Definitions["Injected"], "adrenaline").Pattern = `^1:([1-9][0-9]{3,5}|1000000)$`
		noAgentBesideNone(schema.Definitions["Anaesthetic"])
	case "session":
		schema = g.schema(reflect.TypeFor[cases.Session]())
		demand(schema, "format").Const = cases.SessionFormat
		demand(schema, "case").Pattern = cases.CaseIDForm
		plan := schema.Definitions["Plan"]
		demand(plan, "format").Const = cases.PlanFormat
		demand(plan, "case").Pattern = cases.CaseIDForm
		demand(schema.Definitions["Injected"], "adrenaline").Pattern = `^1:([1-9][0-9]{3,5}|1000000)$`
		noAgentBesideNone(schema.Definitions["Anaesthetic"])
	}
	schema.Title = "Leastwatt " + kind
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetIndent("", "  ")
	if err := enc.Encode(schema); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// demand returns the schema of a property.
func demand(s *jsonschema.Schema, key string) *jsonschema.Schema {
	p, ok := s.Properties.Get(key)
	if !ok {
		panic("no property " + key)
	}
	return p
}

// onlyWith says that a key may stand only where another one is true.
func onlyWith(s *jsonschema.Schema, key, other string) {
	then := &jsonschema.Schema{Required: []string{other}, Properties: jsonschema.NewProperties()}
	then.Properties.Set(other, &jsonschema.Schema{Const: true})
	s.DependentSchemas = map[string]*jsonschema.Schema{key: then}
}

// noAgentBesideNone says that "none": true stands alone.
func noAgentBesideNone(s *jsonschema.Schema) {
	none := jsonschema.NewProperties()
	none.Set("none", &jsonschema.Schema{Const: true})
	zero := uint64(0)
	empty := jsonschema.NewProperties()
	empty.Set("injected", &jsonschema.Schema{Type: "array", MaxItems: &zero})
	s.If = &jsonschema.Schema{Properties: none, Required: []string{"none"}}
	s.Then = &jsonschema.Schema{Properties: empty, Not: &jsonschema.Schema{Required: []string{"topical"}}}
}

// generator turns the reflected schema of a type into what the reader reads:
// it adds what the reader takes from tags that the reflector does not know.
type generator struct {
	reflector *jsonschema.Reflector
	out       *jsonschema.Schema
	done      map[string]bool
}

func (g *generator) schema(t reflect.Type) *jsonschema.Schema {
	g.out, g.done = g.reflector.ReflectFromType(t), map[string]bool{}
	if g.out.Definitions == nil {
		g.out.Definitions = jsonschema.Definitions{}
	}
	g.fields(g.out, t)
	return g.out
}

func (g *generator) fields(s *jsonschema.Schema, t reflect.Type) {
	s.Description = oneLine(s.Description)
	for i := range t.NumField() {
		f := t.Field(i)
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		s.Properties.Set(key, g.property(demand(s, key), f))
	}
}

// define fills the definition of a struct once.
func (g *generator) define(t reflect.Type) {
	if !g.done[t.Name()] {
		g.done[t.Name()] = true
		g.fields(g.out.Definitions[t.Name()], t)
	}
}

func (g *generator) property(p *jsonschema.Schema, f reflect.StructField) *jsonschema.Schema {
	p.Description = oneLine(p.Description)
	t := f.Type
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	table := f.Tag.Get("vocab")
	switch t.Kind() {
	case reflect.Struct:
		g.define(t)
	case reflect.Slice:
		return g.list(p, f, t)
	case reflect.Map:
		p.AdditionalProperties, p.Properties = jsonschema.FalseSchema, jsonschema.NewProperties()
		for _, w := range cases.Vocab.List(table) {
			p.Properties.Set(w.ID, &jsonschema.Schema{Type: "string", Title: w.UK, Description: w.Line})
		}
	case reflect.String:
		switch {
		case table != "":
			p.Type, p.Ref = "", g.words(table)
		case f.Tag.Get("form") == "id":
			p.Pattern = cases.IDForm
		case required(f):
			p.Pattern = `\S`
		}
		if f.Tag.Get("form") == "value" {
			p.AnyOf = []*jsonschema.Schema{{Type: "string", Pattern: p.Pattern}, {Type: "number"}}
			p.Type, p.Pattern = "", ""
		}
	case reflect.Int64:
		if p.MultipleOf == "" {
			p.MultipleOf = "0.001"
		}
	case reflect.Bool:
		if f.Type.Kind() == reflect.Bool {
			p.Default = f.Tag.Get("default") == "true"
		}
	}
	return p
}

func (g *generator) list(p *jsonschema.Schema, f reflect.StructField, t reflect.Type) *jsonschema.Schema {
	if m := tagNumber.FindStringSubmatch(f.Tag.Get("jsonschema")); m != nil {
		var most uint64
		if err := json.Unmarshal([]byte(m[1]), &most); err != nil {
			panic(err)
		}
		p.MaxItems = &most
	}
	if table := f.Tag.Get("vocab"); table != "" {
		p.Items, p.UniqueItems = &jsonschema.Schema{Ref: g.words(table)}, true
		return p
	}
	g.define(t.Elem())
	if f.Tag.Get("single") != "true" {
		return p
	}
	one := *p.Items
	list := *p
	list.Description = ""
	return &jsonschema.Schema{Description: p.Description, AnyOf: []*jsonschema.Schema{&list, &one}}
}

var tagNumber = regexp.MustCompile(`maximum=([0-9]+)`)

func required(f reflect.StructField) bool {
	return strings.HasPrefix(f.Tag.Get("jsonschema"), "required")
}

// words defines a table of the vocabulary once and returns the reference.
func (g *generator) words(table string) string {
	if _, ok := g.out.Definitions[table]; !ok {
		s := &jsonschema.Schema{Title: cases.Vocab.Title(table)}
		for _, w := range cases.Vocab.List(table) {
			s.OneOf = append(s.OneOf, &jsonschema.Schema{Const: w.ID, Title: w.UK, Description: w.Line, Deprecated: w.Retired != ""})
		}
		g.out.Definitions[table] = s
	}
	return "#/$defs/" + table
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
