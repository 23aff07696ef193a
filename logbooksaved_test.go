//go:build !js

package main

import (
	"fmt"
	"os/exec"
	"runtime"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
)

// savedOnlyWhenItIs drills beside another holder of the logbook: the case
// is graded, and nothing is said to be saved.
func savedOnlyWhenItIs(t *testing.T, program string) {
	dir := t.TempDir()
	book, _, err := logbook.OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	lines := "today\n1\nplan\nleave\ngrade\nplan\ngrade\nquit\n"
	drill := func() string {
		cmd := exec.Command(program, "drill", "--data", dir)
		cmd.Stdin = strings.NewReader(lines)
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(out), "\nDebrief. "); n != 2 {
			t.Fatalf("%d debriefs in place of 2:\n%s", n, out)
		}
		return string(out)
	}
	if out := drill(); strings.Contains(out, savedLine) || !strings.Contains(out, "Nothing of this sitting is kept") {
		t.Errorf("beside another window it says:\n%s", out)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(drill(), savedLine); n != 1 {
		t.Errorf("a case graded twice is said to be saved %d times; the first grade counts", n)
	}
}

// drillOnFullDisk gives the program a limit on the size of its files, which
// cuts a write short as a full disk does. What fitted is said to be saved and
// is there; the rest is told of; and with room again everything is kept.
func drillOnFullDisk(t *testing.T, program string) {
	if runtime.GOOS == "windows" {
		t.Skip("this system has no limit on the size of a file")
	}
	const drilled = 20
	var lines strings.Builder
	lines.WriteString("today\n")
	for seed := range drilled {
		made, err := cases.Compose(cases.MadeVersion, "skin_tag", 1, seed)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&lines, "code %s\nplan\nleave\ngrade\ntoday\n", made.ID)
	}
	dir := t.TempDir()
	drill := func(cmd *exec.Cmd) string {
		cmd.Stdin = strings.NewReader(lines.String())
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		return string(out)
	}
	// 32 blocks of 512 bytes, as POSIX counts, or of 1024, as some shells do
	out := drill(exec.Command("sh", "-c", `ulimit -f 32; exec "$0" drill --data "$1"`, program, dir))
	saved := strings.Count(out, savedLine)
	if saved == 0 || saved == drilled {
		t.Fatalf("%d of %d attempts are saved; the limit shows nothing", saved, drilled)
	}
	if !strings.Contains(out, "Your attempt could not be kept:") {
		t.Errorf("it does not say that an attempt could not be kept:\n%s", out)
	}
	if told := attemptsTold(t, program, dir); told != saved {
		t.Errorf("%d attempts were said to be saved; progress tells of %d", saved, told)
	}
	if n := strings.Count(drill(exec.Command(program, "drill", "--data", dir)), savedLine); n != drilled {
		t.Errorf("with room again %d of %d attempts are saved", n, drilled)
	}
	if told := attemptsTold(t, program, dir); told != saved+drilled {
		t.Errorf("%d attempts were said to be saved in all; progress tells of %d", saved+drilled, told)
	}
}
