package tables

import "testing"

func TestBuiltinLoads(t *testing.T) {
	s, err := Load(files)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Rows) == 0 {
		t.Fatal("no rows")
	}
}
