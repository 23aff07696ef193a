//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring/assess"
)

// killAssess kills the program again and again in a self-assessment, between
// two hand-ins or in the middle of one. What was handed in stays as it was, the
// plan in hand comes back, and the clock has gone on meanwhile.
func killAssess(t *testing.T, program string) {
	runs := 1
	if long() {
		runs = 10
	}
	for seed := range runs {
		a := &assessed{program: program, dir: t.TempDir(), rng: rand.New(rand.NewPCG(12, uint64(seed)))}
		a.started = time.Now()
		for !a.over {
			a.sitting(t)
			if t.Failed() {
				t.Fatalf("seed %d, after %d kills", seed, a.kills)
			}
		}
		t.Logf("seed %d: %d kills, %d cases handed in, %d plans in hand came back", seed, a.kills, len(a.given), a.cameBack)
	}
}

// assessed is a self-assessment that is killed and taken up again.
type assessed struct {
	program, dir string
	rng          *rand.Rand
	started      time.Time
	given        []string // what is handed in, as it was first read back
	inHand       bool     // the decision of the case in hand was taken before the kill
	over         bool
	kills        int
	cameBack     int
	away         time.Duration // at least, over all kills
}

// sitting takes the run up, hands in a case or two, begins the next one, and is
// killed. The last sitting goes on to the result sheet.
func (a *assessed) sitting(t *testing.T) {
	t.Helper()
	c := startChild(t, a.program, "assess", "--data", a.dir)
	if a.kills == 0 {
		c.typeLines("20261125", "") // the seed; watched by nobody
	}
	at := len(a.given)
	total := 0
	told := c.until(fmt.Sprintf("Self-assessment, case %d of ", at+1), func(line string) {
		_, _ = fmt.Sscanf(line, "Self-assessment, case %d of %d", new(int), &total)
	})
	if !told || total == 0 {
		c.kill()
		t.Fatalf("case %d is not taken up: %v", at+1, c.died())
	}
	if a.inHand {
		a.cameBack++ // what is handed in without a decision shows whether it did
	}
	for range 1 + a.rng.IntN(2) {
		c.typeLines("plan")
		if !a.inHand {
			c.typeLines("leave")
		}
		c.typeLines("grade")
		a.inHand = false
		if at++; at == total {
			a.finish(t, c)
			return
		}
		if !c.until(fmt.Sprintf("Self-assessment, case %d of ", at+1), nil) {
			t.Fatalf("case %d is not handed in: %v", at, c.died())
		}
	}
	c.typeLines("plan", "leave")
	a.inHand = c.until("Meanwhile I suggest [", nil)
	handing := a.rng.IntN(2) == 0
	if handing {
		c.typeLines("grade") // the kill may come before, in, or after it
	}
	time.Sleep(time.Duration(a.rng.IntN(8_000)) * time.Microsecond)
	c.kill()
	a.kills++
	if err := c.died(); err != nil {
		t.Fatalf("the killed program: %v", err)
	}
	killed := time.Now()
	run := a.run(t)
	a.checkGiven(t, run, at, handing)
	a.checkClock(t, run)
	if run.Next() < 0 { // the last hand-in went through before the kill
		a.over = true
		if run.Ending == "" {
			run = a.endAnew(t, len(run.Given))
		}
		a.checkTold(t, run)
		return
	}
	pause := 50 * time.Millisecond
	if a.kills == 1 {
		pause = 1200 * time.Millisecond // longer than the clock's second
	}
	time.Sleep(pause - min(pause, time.Since(killed)))
	a.away += pause
}

// finish reads the result sheet and leaves the program as a person does.
func (a *assessed) finish(t *testing.T, c *child) {
	t.Helper()
	a.over = true
	if !c.until("Trainee: ____", nil) {
		t.Errorf("there is no result sheet: %v", c.died())
		return
	}
	c.typeLines("")
	_ = c.in.Close()
	_, _ = io.Copy(io.Discard, c.out)
	if err := c.cmd.Wait(); err != nil || !c.slow.Stop() {
		t.Errorf("after the last case it ends with %v, %s", err, c.errs.String())
	}
	run := a.run(t)
	a.checkGiven(t, run, len(run.Given), false)
	a.checkClock(t, run)
	a.checkTold(t, run)
	a.checkLostEnd(t, run)
}

// checkLostEnd takes the last line from the logbook, as a kill between the last
// hand-in and the end of the run leaves it. The run is ended and its result
// shown the next time, and no case is asked again.
func (a *assessed) checkLostEnd(t *testing.T, run *assess.Run) {
	t.Helper()
	name := filepath.Join(a.dir, "logbook.jsonl")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines := bytes.SplitAfter(data, []byte("\n"))
	last := lines[len(lines)-2] // behind the last line end stands nothing
	if !bytes.Contains(last, []byte(`"step":"end"`)) {
		t.Fatalf("the last line is no end: %s", last)
	}
	if err := os.WriteFile(name, bytes.TrimSuffix(data, last), 0o600); err != nil {
		t.Fatal(err)
	}
	a.endAnew(t, len(run.Given))
}

// endAnew takes up a run whose cases are all handed in: its result is shown.
func (a *assessed) endAnew(t *testing.T, total int) *assess.Run {
	t.Helper()
	cmd := exec.Command(a.program, "assess", "--data", a.dir)
	cmd.Stdin = strings.NewReader("\n")
	out, err := cmd.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "Trainee: ____") {
		t.Fatalf("a run without its end is taken up with %v:\n%s", err, out)
	}
	again := a.run(t)
	if again.Ending != assess.Done || again.Answered() != total {
		t.Errorf("it is ended as %q with %d cases answered", again.Ending, again.Answered())
	}
	return again
}

// run reads the steps of the one run back from the logbook.
func (a *assessed) run(t *testing.T) *assess.Run {
	t.Helper()
	book, _ := openKilled(t, a.dir)
	defer book.Close()
	var steps []assess.Step
	for e, err := range book.Entries() {
		if err != nil {
			t.Fatal(err)
		}
		var s assess.Step
		if err := json.Unmarshal(e.Assessment, &s); err != nil {
			t.Fatal(err)
		}
		steps = append(steps, s)
	}
	run, err := assess.Fold(steps)
	if err != nil {
		t.Fatal(err)
	}
	return run
}

// checkGiven looks for the cases that were handed in, the first ones of the
// run, and holds each to what was first read back of it. With handing one more
// may have gone through before the kill.
func (a *assessed) checkGiven(t *testing.T, run *assess.Run, acknowledged int, handing bool) {
	t.Helper()
	answered := run.Answered()
	switch {
	case answered < acknowledged:
		t.Fatalf("%d cases were handed in and %d are answered", acknowledged, answered)
	case answered > acknowledged && !handing, answered > acknowledged+1:
		t.Fatalf("%d cases were handed in, and yet %d are answered", acknowledged, answered)
	}
	if answered > acknowledged {
		a.inHand = false
	}
	for i, g := range run.Given {
		if (g != nil) != (i < answered) {
			t.Fatalf("case %d of %d answered ones: %v", i+1, answered, g)
		}
		if g == nil {
			break
		}
		grade, err := json.Marshal(g.Grade)
		if err != nil {
			t.Fatal(err)
		}
		text := string(cases.Canonical(g.Plan)) + string(grade)
		if i == len(a.given) {
			if g.Plan.Disposition != "leave" {
				t.Errorf("case %d was handed in with another decision than was taken: %q", i+1, g.Plan.Disposition)
			}
			a.given = append(a.given, text)
		}
		if a.given[i] != text {
			t.Errorf("case %d has changed since it was handed in:\n%s\n%s", i+1, a.given[i], text)
		}
	}
}

// checkClock holds the run's clock to the test's own: it began after the test,
// never went back, and did not stop while the program was dead.
func (a *assessed) checkClock(t *testing.T, run *assess.Run) {
	t.Helper()
	passed := time.Since(a.started).Milliseconds()
	dead := a.away.Milliseconds()
	if run.SetBack {
		t.Error("the clock is said to have been set back")
	}
	if run.BeganMS < a.started.UnixMilli() {
		t.Errorf("the run began at %d, before the program was started at %d", run.BeganMS, a.started.UnixMilli())
	}
	if ran := run.ElapsedMS(0); ran < dead || ran > passed {
		t.Errorf("the run's clock shows %d ms; the program was dead for %d ms, and %d ms have passed in all", ran, dead, passed)
	}
	away := int64(0)
	for _, gap := range run.Away {
		away += gap.ToMS - gap.FromMS
	}
	if away < dead || away > passed {
		t.Errorf("the run was without the program for %d ms; it was dead for %d ms, and %d ms have passed in all", away, dead, passed)
	}
}

// checkTold asks the program itself for the run.
func (a *assessed) checkTold(t *testing.T, run *assess.Run) {
	t.Helper()
	var told []struct {
		Run       string
		Seed      string
		Ending    string
		ElapsedMS int64 `json:"elapsed_ms"`
		Cases     []struct{ Verdict string }
	}
	runJSON(t, &told, a.program, "assess", "--json", "--data", a.dir)
	if len(told) != 1 || len(told[0].Cases) != len(run.Given) {
		t.Fatalf("assess tells of %+v; one run of %d cases was taken", told, len(run.Given))
	}
	x := told[0]
	if x.Run != run.ID || x.Seed != "20261125" || x.Ending != assess.Done || x.ElapsedMS != run.ElapsedMS(0) {
		t.Errorf("assess tells of run %s, seed %s, ending %q after %d ms; the logbook holds %s, 20261125, %q, %d ms",
			x.Run, x.Seed, x.Ending, x.ElapsedMS, run.ID, assess.Done, run.ElapsedMS(0))
	}
	for i, c := range x.Cases {
		if want := run.Given[i].Grade.Verdict; c.Verdict != want {
			t.Errorf("assess tells that case %d was %q; it is kept as %q", i+1, c.Verdict, want)
		}
	}
}
