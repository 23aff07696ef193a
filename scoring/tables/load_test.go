package tables

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"leastwatt/cases"
)

const noTerms = `{"about": "none", "terms": [{"term": "hot", "means": "power_w > 10", "says": "hot"}]}`

// tableOf is a rule file of one row, which stands at line 2, column 1.
func tableOf(row string) fstest.MapFS {
	return fstest.MapFS{
		"terms.json":      {Data: []byte(noTerms)},
		"rules/test.json": {Data: []byte("{\"about\": \"x\", \"domain\": \"room\", \"rows\": [\n" + row + "\n]}")},
	}
}

const goodRow = `{"rule": "r", "for": ["treat"], "points": 1, "ok": "power_w < 5", "phrases": ["power_w"], "says": "s", "fault": "f", "why": "w", "source": "Body, Title, 2020, Place", "source_kind": "published", "certainty": "one_source"}`

func TestLoadRow(t *testing.T) {
	s, err := Load(tableOf(goodRow))
	if err != nil {
		t.Fatal(err)
	}
	if r := s.Row("r"); r == nil || r.Domain != "room" {
		t.Fatalf("row %+v", r)
	}
}

// TestLoadFaults changes one thing of a good row and wants the fault with its
// place.
func TestLoadFaults(t *testing.T) {
	for _, tt := range []struct{ name, old, new, says string }{
		{"unknown key", `"points"`, `"pionts"`, `unknown key "rows[0].pionts"; did you mean "points"?`},
		{"unknown fact", "power_w < 5", "powr_w < 5", `"powr_w" is neither a fact nor a term`},
		{"if reads the plan", `"points": 1`, `"if": "hot"`, `"if" reads the plan`},
		{"phrase not read", `["power_w"]`, `["contact"]`, `"contact" is no plan path that the row reads`},
		{"no source", `"Body, Title, 2020, Place"`, `" "`, `"rows[0].source" may not be empty`},
		{"never without agreement", `"ok"`, `"never": "power_w > 30", "ok"`, "a never event needs sources that agree"},
		{"hard from memory", `"published", "certainty": "one_source"`, `"memory", "certainty": "memory"`, "gives advice at most"},
		{"mixed certainty", `"one_source"`, `"common_practice"`, "a published row has the certainty"},
		{"unknown domain", `"says"`, `"domain": "rooms", "says"`, `unknown domain "rooms"`},
		{"no decision", `"for": ["treat"]`, `"for": []`, `has no "for"`},
		{"no phrases", `["power_w"]`, `[]`, "names no phrases"},
		{"knowledge that grades", `"says"`, `"knowledge": true, "says"`, "a knowledge row is never graded"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			row := strings.Replace(goodRow, tt.old, tt.new, 1)
			if row == goodRow {
				t.Fatal("the change does nothing")
			}
			_, err := Load(tableOf(row))
			if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.Contains(err.Error(), "scoring/tables/rules/test.json:2:") {
				t.Fatalf("error %v; want one at scoring/tables/rules/test.json:2: with %q", err, tt.says)
			}
		})
	}
}

// TestFaultColumn counts the column of a mistake inside a condition.
func TestFaultColumn(t *testing.T) {
	row := strings.Replace(goodRow, "power_w < 5", "power_w < 5 and contct = gap", 1)
	_, err := Load(tableOf(row))
	column := strings.Index(row, "contct") + 1
	if want := fmt.Sprintf("rules/test.json:2:%d: ", column); err == nil || !strings.Contains(err.Error(), want) {
		t.Fatalf("error %v; want it at %s", err, want)
	}
}

func TestDoubledRule(t *testing.T) {
	_, err := Load(tableOf(goodRow + ",\n" + goodRow))
	if err == nil || !strings.Contains(err.Error(), `test.json:3:10: the rule "r" stands twice`) {
		t.Fatal(err)
	}
}

// TestEverySource holds the built-in rows to a source that names body or
// journal and year, or says that there is none.
func TestEverySource(t *testing.T) {
	for _, r := range Builtin.Rows {
		switch r.SourceKind {
		case "published":
			if !strings.ContainsAny(r.Source, "0123456789") && !strings.Contains(r.Source, "undated") {
				t.Errorf("%s: the published source %q names no year", r.Rule, r.Source)
			}
		case "model":
			if !r.Bench() {
				t.Errorf("%s: only a row of the bench may rest on the model", r.Rule)
			}
		}
		if r.Domain == "" || !cases.Vocab.Has("domain", r.Domain) {
			t.Errorf("%s: domain %q", r.Rule, r.Domain)
		}
	}
}
