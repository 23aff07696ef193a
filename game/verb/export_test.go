package verb

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leastwatt/scoring/logbook"
)

// logbookOf makes a folder with a logbook of n attempts from a first number on.
func logbookOf(t *testing.T, first, n int) string {
	t.Helper()
	dir := t.TempDir()
	book, _, err := logbook.OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	for i := first; i < first+n; i++ {
		err := book.Append(logbook.Entry{
			ID: fmt.Sprintf("try-%d", i), UTC: int64(1000 * i), Learner: "fell-1", Kind: logbook.KindAttempt,
			Attempt: &logbook.Attempt{
				Case: "harrow-fell/gate", Verdict: "safe", Points: 3, Of: 3, From: logbook.FromList,
				Plan: json.RawMessage(`{"format":"leastwatt.plan/1"}`), Grade: json.RawMessage(`{"verdict":"safe"}`),
			},
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	return dir
}

// ran holds what a verb did.
type ran struct {
	code      int
	out, errs string
}

func runVerb(asJSON bool, verb func(*Shell) int) ran {
	var out, errs bytes.Buffer
	code := verb(&Shell{Out: &out, Err: &errs, JSON: asJSON})
	return ran{code, out.String(), errs.String()}
}

func (r ran) want(t *testing.T, code int, out, errs string) {
	t.Helper()
	if r.code != code || !strings.Contains(r.out, out) || !strings.Contains(r.errs, errs) || (out == "" && r.out != "") || (errs == "" && r.errs != "") {
		t.Errorf("exit %d, out %q, errors %q; want %d, %q, %q", r.code, r.out, r.errs, code, out, errs)
	}
}

func exportTo(dir, file string) func(*Shell) int {
	return func(s *Shell) int { return Export(s, dir, file) }
}

func importFrom(dir string, files ...string) func(*Shell) int {
	return func(s *Shell) int { return Import(s, dir, files) }
}

func TestExportAndImport(t *testing.T) {
	mine, theirs := logbookOf(t, 1, 3), logbookOf(t, 3, 2)
	file := filepath.Join(t.TempDir(), "mine.jsonl")
	runVerb(false, exportTo(mine, file)).want(t, Done, "mine.jsonl: 3 entries from ", "")
	runVerb(false, importFrom(theirs, file)).want(t, Done, "mine.jsonl: 3 entries, 2 of them new.", "")
	again := runVerb(true, importFrom(theirs, file))
	again.want(t, Done, `"added": 0`, "")
	again.want(t, Done, `"entries": 4`, "")

	// The way back, and then both hold the same.
	back, first, second := filepath.Join(t.TempDir(), "back"), filepath.Join(t.TempDir(), "1"), filepath.Join(t.TempDir(), "2")
	runVerb(false, exportTo(theirs, back)).want(t, Done, "4 entries", "")
	runVerb(false, importFrom(mine, back, file)).want(t, Done, "1 of them new", "")
	runVerb(true, exportTo(mine, first)).want(t, Done, `"entries": 4`, "")
	runVerb(true, exportTo(theirs, second)).want(t, Done, `"left_out": []`, "")
	one, err1 := os.ReadFile(first)
	two, err2 := os.ReadFile(second)
	if err1 != nil || err2 != nil || !bytes.Equal(one, two) {
		t.Errorf("two logbooks of the same set differ, or %v %v", err1, err2)
	}
}

func TestExportRefusals(t *testing.T) {
	dir, empty := logbookOf(t, 1, 1), t.TempDir()
	file := filepath.Join(empty, "out")
	runVerb(true, exportTo(empty, file)).want(t, Usage, "", "there is no logbook here yet")
	runVerb(true, exportTo(dir, empty)).want(t, Usage, "", "this is a folder")
	runVerb(true, exportTo(dir, filepath.Join(empty, "no", "out"))).want(t, Usage, "", "there is no such file or folder")
	if err := os.WriteFile(file, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	runVerb(true, exportTo(dir, file)).want(t, Usage, "", "this file exists already")
	if data, err := os.ReadFile(file); err != nil || string(data) != "kept" {
		t.Errorf("the file holds %q, %v", data, err)
	}
	book, _, err := logbook.OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	runVerb(true, exportTo(dir, filepath.Join(empty, "new"))).want(t, Usage, "", "another window")
	runVerb(true, importFrom(dir, file)).want(t, Usage, "", "another window")
}

func TestImportRefusals(t *testing.T) {
	source, dir := logbookOf(t, 1, 3), logbookOf(t, 7, 1)
	whole, err := os.ReadFile(filepath.Join(source, "logbook.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	torn := filepath.Join(t.TempDir(), "torn")
	letter := filepath.Join(t.TempDir(), "letter")
	for name, data := range map[string][]byte{torn: whole[:len(whole)-9], letter: []byte("Dear colleague\n")} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	runVerb(true, importFrom(dir, torn, "missing")).want(t, Usage, "", "missing: there is no such file or folder")
	runVerb(true, importFrom(dir, t.TempDir())).want(t, Usage, "", "this is a folder; a file is needed")
	runVerb(true, importFrom(dir, letter)).want(t, Invalid, `"entries": 1`, letter+":1:1: 15 bytes are damaged")
	runVerb(false, importFrom(dir, torn)).want(t, Invalid, "2 entries, 2 of them new", torn+":3:1: a last line of ")
}

// Damage in the user's own logbook is told once, by whichever verb comes first.
func TestDamageIsTold(t *testing.T) {
	dir := logbookOf(t, 1, 3)
	name := filepath.Join(dir, "logbook.jsonl")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, data[:len(data)-9], 0o600); err != nil {
		t.Fatal(err)
	}
	runVerb(false, exportTo(dir, filepath.Join(dir, "1"))).want(t, Done, "2 entries", "the damaged bytes are in "+name+".damaged")
	runVerb(false, exportTo(dir, filepath.Join(dir, "2"))).want(t, Done, "2 entries", "")
}
