//go:build !js

package logbook

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// writerFolder names the folder in which the test binary, run anew, writes.
const writerFolder = "LEASTWATT_TEST_WRITER"

func TestMain(m *testing.M) {
	if dir := os.Getenv(writerFolder); dir != "" {
		if err := writeWithoutEnd(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// writeWithoutEnd appends attempts and prints the identity of each when it is
// acknowledged.
func writeWithoutEnd(dir string) error {
	book, _, err := OpenFolder(dir)
	if err != nil {
		return err
	}
	for n := book.Len(); ; n++ {
		e := attempt(n, 10, longGrade(1<<(n%18)))
		e.ID = fmt.Sprintf("k%d-%d", os.Getpid(), n)
		if err := book.Append(e); err != nil {
			return err
		}
		fmt.Println(e.ID)
	}
}

// writer is the program that is killed.
func writer(dir string) (*exec.Cmd, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), writerFolder+"="+dir)
	cmd.Stderr = os.Stderr
	return cmd, nil
}

// runAndKill lets the program write for a while, kills it outright, and
// returns what it had said to be saved.
func runAndKill(cmd *exec.Cmd, after time.Duration) ([]string, error) {
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	killed := time.AfterFunc(after, func() { _ = cmd.Process.Kill() })
	defer killed.Stop()
	var saved []string
	in := bufio.NewReader(out)
	for {
		line, err := in.ReadString('\n')
		if err != nil {
			break // a line without its end was not said
		}
		saved = append(saved, line[:len(line)-1])
	}
	if err := cmd.Wait(); err == nil || cmd.ProcessState.ExitCode() == 1 {
		return nil, fmt.Errorf("the writer was to be killed and ended with %v", err)
	}
	return saved, nil
}

// TestKilledWriter kills a writing process at moments drawn from a seed: every
// entry that it had said to be saved is there.
func TestKilledWriter(t *testing.T) {
	runs := 20
	if long() {
		runs = 300
	}
	rng := rand.New(rand.NewPCG(20, 12))
	dir := t.TempDir()
	saved, torn, total := map[string]bool{}, 0, 0
	for run := range runs {
		cmd := must(writer(dir))(t)
		said := must(runAndKill(cmd, time.Duration(5_000+rng.IntN(75_000))*time.Microsecond))(t)
		for _, id := range said {
			saved[id] = true
		}
		total += len(said)
		torn += checkSaved(t, dir, saved)
		if t.Failed() {
			t.Fatalf("after run %d", run+1)
		}
		if run%20 == 19 { // a fresh folder, so that the file stays short
			dir, saved = t.TempDir(), map[string]bool{}
		}
	}
	if total < runs {
		t.Errorf("only %d entries were saved in %d runs: the kills came too early to show anything", total, runs)
	}
	t.Logf("%d kills, %d entries acknowledged, %d torn lines set aside", runs, total, torn)
}

func checkSaved(t *testing.T, dir string, saved map[string]bool) (torn int) {
	book, report, err := OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	for e, err := range book.Entries() {
		if err != nil {
			t.Error(err)
			continue
		}
		there[e.ID] = true
	}
	for id := range saved {
		if !there[id] {
			t.Errorf("%s was said to be saved and is lost", id)
		}
	}
	for _, d := range report.Damaged {
		if !d.Torn {
			t.Errorf("%s:%d: damage that no kill does: %s", filepath.Join(dir, logName), d.Line, d.Why)
		}
	}
	if err := book.Close(); err != nil {
		t.Error(err)
	}
	return len(report.Damaged)
}
