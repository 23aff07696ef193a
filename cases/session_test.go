package cases_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leastwatt/cases"
)

const sampleSession = `{"format":"leastwatt.session/1","case":"one/case","plan":{"format":"leastwatt.plan/1","case":"one/case","disposition":"treat","protection":[]},
"model_version":2,"grid_mm":0.1,"seed":7,"events":[{"tick":0,"tool":"electrode","x_mm":-0.1,"y_mm":0,"gap_mm":0,"pedal":true,"power_w":7},{"tick":900,"pedal":false},{"tick":900,"act":"stop"}]}`

func TestReadSession(t *testing.T) {
	s, err := cases.ReadSession("s.json", []byte(sampleSession))
	if err != nil {
		t.Fatal(err)
	}
	if e := s.Events[0]; *e.XMM != -100 || !*e.Pedal || *e.PowerW != 7000 || s.Events[1].XMM != nil || *s.Events[1].Pedal {
		t.Errorf("the events were read as %+v", s.Events)
	}
	again, err := cases.ReadSession("s.json", s.JSON())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(s, again); diff != "" {
		t.Errorf("written and read again it differs:\n%s", diff)
	}
}

func TestReadSessionFaults(t *testing.T) {
	for _, c := range []struct{ name, old, new, want string }{
		{"unknown key", `"act":"stop"`, `"act":"stop","speed":1`, `unknown key "events[2].speed"`},
		{"unknown act", `"act":"stop"`, `"act":"halt"`, `unknown act "halt"`},
		{"unknown tool", `"tool":"electrode"`, `"tool":"laser"`, `unknown tool "laser"`},
		{"a falling tick", `"tick":900,"act"`, `"tick":899,"act"`, `"events[2].tick" is 899, before the event above it at 900`},
		{"no plan", `"plan":{"format":"leastwatt.plan/1","case":"one/case","disposition":"treat","protection":[]},`, ``, `the key "plan" is missing`},
		{"another case", `"case":"one/case","plan"`, `"case":"one/other","plan"`, `the plan is for "one/case", the session for "one/other"`},
		{"too strong", `"power_w":7`, `"power_w":35.1`, `"events[0].power_w" is 35.1`},
		{"another format", `leastwatt.session/1`, `leastwatt.session/2`, `this reads "leastwatt.session/1"`},
		{"an end too early", `"seed":7`, `"seed":7,"end_ms":899`, `"end_ms" is 899, before the last event at 900`},
	} {
		text := strings.Replace(sampleSession, c.old, c.new, 1)
		if text == sampleSession {
			t.Fatalf("%s: the sample has no %s", c.name, c.old)
		}
		_, err := cases.ReadSession("s.json", []byte(text))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "s.json:") {
			t.Errorf("%s: got %v, want a fault with its place and %q", c.name, err, c.want)
		}
	}
}

// TestSessionSchema: the committed sessions fit the published schema.
func TestSessionSchema(t *testing.T) {
	schema := published(t, "session")
	files, err := filepath.Glob("../testdata/sessions/*.json")
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	for _, file := range files {
		if strings.HasSuffix(file, ".outcome.json") {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := cases.ReadSession(file, data); err != nil {
			t.Error(err)
		}
		if err := validate(schema, data); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		read++
	}
	if read < 5 {
		t.Errorf("%d sessions are committed, want five and more", read)
	}
	if validate(schema, []byte(strings.Replace(sampleSession, `"tick":0`, `"tick":-1`, 1))) == nil {
		t.Error("the schema takes a tick before the beginning")
	}
}

// FuzzReadSession: whatever is read is written so that it is read again as the
// same.
func FuzzReadSession(f *testing.F) {
	f.Add([]byte(sampleSession))
	f.Add([]byte(strings.Replace(sampleSession, `"act":"stop"`, `"act":"inject","volume_ml":1.5,"fast":true`, 1)))
	f.Add([]byte(`{"format":"leastwatt.session/1","events":[]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := cases.ReadSession("s.json", data)
		if err != nil {
			return
		}
		written := s.JSON()
		again, err := cases.ReadSession("s.json", written)
		if err != nil {
			t.Fatalf("what was written cannot be read: %v\n%s", err, written)
		}
		if !bytes.Equal(again.JSON(), written) {
			t.Fatalf("written twice it differs:\n%s\n%s", written, again.JSON())
		}
	})
}
