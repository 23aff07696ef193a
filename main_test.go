package main

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"leastwatt/cases"
)

// The scripts run the program as its users do, each call in a process of its
// own. With the test binary under the name of the program, no build is needed.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"leastwatt": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                "testdata/script",
		RequireUniqueNames: true,
		Condition: func(name string) (bool, error) {
			if name == "root" {
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("unknown condition %s", name)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":  exits,
			"zip":    makeZip,
			"bomb":   makeBomb,
			"sparse": makeSparse,
			"keys":   jsonKeys,
			"value":  jsonValue,
		},
	})
}

// exits CODE COMMAND ARGS... runs a command that must exit with the code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	code := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		code = exit.ExitCode()
	}
	if (code == want) == neg {
		ts.Fatalf("%s exits with %d, want %d", strings.Join(args[1:], " "), code, want)
	}
}

// zip FILE NAME=SOURCE... makes a zip; a name may be one that no tool writes.
// A source of "-" leaves the entry empty, one that begins with @ is a link.
func makeZip(ts *testscript.TestScript, _ bool, args []string) {
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	w := zip.NewWriter(f)
	for _, arg := range args[1:] {
		name, source, _ := strings.Cut(arg, "=")
		h := &zip.FileHeader{Name: name, Method: zip.Deflate}
		text := ""
		switch {
		case strings.HasPrefix(source, "@"):
			h.SetMode(os.ModeSymlink | 0o777)
			text = source[1:]
		case source != "-":
			text = ts.ReadFile(source)
		}
		e, err := w.CreateHeader(h)
		ts.Check(err)
		_, err = io.WriteString(e, text)
		ts.Check(err)
	}
	ts.Check(w.Close())
}

// bomb FILE MIB makes a small zip that unpacks to many MiB of zeros.
func makeBomb(ts *testscript.TestScript, _ bool, args []string) {
	mib, err := strconv.Atoi(args[1])
	ts.Check(err)
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	w := zip.NewWriter(f)
	e, err := w.Create("pack.json")
	ts.Check(err)
	zeros := make([]byte, 1<<20)
	for range mib {
		_, err := e.Write(zeros)
		ts.Check(err)
	}
	ts.Check(w.Close())
	if info, err := f.Stat(); err != nil || info.Size() > 1<<20 {
		ts.Fatalf("the bomb takes %d bytes on disk, %v", info.Size(), err)
	}
}

// sparse FILE BYTES makes a file that claims a size and takes no room.
func makeSparse(ts *testscript.TestScript, _ bool, args []string) {
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	name := ts.MkAbs(args[0])
	ts.Check(os.WriteFile(name, nil, 0o644))
	ts.Check(os.Truncate(name, size))
}

// jsonAt finds a value of the last standard output by a path like
// findings.0.rule; "." is the whole.
func jsonAt(ts *testscript.TestScript, path string) *cases.Value {
	v, faults := cases.ReadJSON("stdout", []byte(ts.ReadFile("stdout")))
	if len(faults) > 0 {
		ts.Fatalf("the output is no JSON: %v", faults)
	}
	for _, step := range strings.Split(strings.Trim(path, "."), ".") {
		switch n, err := strconv.Atoi(step); {
		case step == "":
		case err == nil && v.Kind == cases.List && n < len(v.Items):
			v = v.Items[n]
		case v.Get(step) != nil:
			v = v.Get(step)
		default:
			ts.Fatalf("the output has no %s", path)
		}
	}
	return v
}

// keys PATH KEY... says which keys the object holds, in this order; one with ?
// may be absent. With a path that ends in "*" every entry of the list is held
// to it.
func jsonKeys(ts *testscript.TestScript, _ bool, args []string) {
	objects := []*cases.Value{}
	if list, each := strings.CutSuffix(args[0], "*"); each {
		objects = jsonAt(ts, list).Items
		if len(objects) == 0 {
			ts.Fatalf("%s is an empty list", args[0])
		}
	} else {
		objects = append(objects, jsonAt(ts, args[0]))
	}
	for _, o := range objects {
		keys := o.Keys
		for _, want := range args[1:] {
			name, optional := strings.CutSuffix(want, "?")
			switch {
			case len(keys) > 0 && keys[0].Name == name:
				keys = keys[1:]
			case !optional:
				ts.Fatalf("%s lacks the key %q at its place", args[0], name)
			}
		}
		if len(keys) > 0 {
			ts.Fatalf("%s holds the key %q too", args[0], keys[0].Name)
		}
	}
}

// value PATH TEXT compares a number, a text, a truth value, or the length of a
// list written as [3].
func jsonValue(ts *testscript.TestScript, neg bool, args []string) {
	v := jsonAt(ts, args[0])
	got := v.Text
	switch v.Kind {
	case cases.Bool:
		got = strconv.FormatBool(v.Bool)
	case cases.List:
		got = fmt.Sprintf("[%d]", len(v.Items))
	}
	if (got == args[1]) == neg {
		ts.Fatalf("%s is %q", args[0], got)
	}
}
