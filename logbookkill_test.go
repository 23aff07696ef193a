//go:build !js

package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
)

// These tests kill the program itself, not a stand-in: it is built, drilled
// through its plain mode as a person would, and killed outright. What it had
// said to be saved must be there when it is opened the next time.

const savedLine = "Saved in the logbook."

// patience is how long one start of the program may live.
const patience = 30 * time.Second

// buildProgram builds the program once and returns its file.
func buildProgram(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "leastwatt")
	if runtime.GOOS == "windows" {
		program += ".exe"
	}
	cmd := exec.Command("go", "build", "-o", program, ".")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("the program cannot be built: %v\n%s", err, out)
	}
	return program
}

// child is the program at work. Its lines are read one by one.
type child struct {
	cmd  *exec.Cmd
	in   io.WriteCloser
	out  *bufio.Reader
	errs strings.Builder
	slow *time.Timer // ends a child that hangs
}

func startChild(t *testing.T, program string, args ...string) *child {
	t.Helper()
	c := &child{cmd: exec.Command(program, args...)}
	c.cmd.Stderr = &c.errs
	in, err := c.cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := c.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	c.in, c.out = in, bufio.NewReader(out)
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	c.slow = time.AfterFunc(patience, c.kill)
	return c
}

// kill ends the child as a power cut would: it is not asked.
func (c *child) kill() { _ = c.cmd.Process.Kill() }

// typeLines writes lines. A dead child reads none, which is no fault.
func (c *child) typeLines(lines ...string) {
	_, _ = io.WriteString(c.in, strings.Join(lines, "\n")+"\n")
}

// until reads lines to the first that holds the text; false when the output
// ends before. A line without its end was not said. Each line is shown to see
// as well.
func (c *child) until(text string, see func(line string)) bool {
	for {
		line, err := c.out.ReadString('\n')
		if err != nil {
			return false
		}
		if see != nil {
			see(line)
		}
		if strings.Contains(line, text) {
			return true
		}
	}
}

// died waits for a killed child and tells of any other end.
func (c *child) died() error {
	err := c.cmd.Wait()
	if !c.slow.Stop() {
		return fmt.Errorf("it waited for more than %v", patience)
	}
	if err == nil || c.cmd.ProcessState.ExitCode() == 1 && runtime.GOOS != "windows" {
		return fmt.Errorf("it was to be killed and ended by itself: %v, %s", err, c.errs.String())
	}
	if c.errs.Len() > 0 {
		return fmt.Errorf("it complained: %s", c.errs.String())
	}
	return nil
}

// shown is an attempt as the screen told of it.
type shown struct {
	code    string
	verdict string // as the debrief names it, in small letters
}

// driller drills one made case after another.
type driller struct {
	program, dir string
	seed         int
	saved        []shown // said to be saved, in all runs on the folder
	begun        string  // code of the case in hand, "" between two
	decided      bool    // its decision was taken: the next phrase was asked for
	kills        int
}

// runAndKill drills until the wanted number of attempts is acknowledged, and
// kills the program a while after that, wherever it is by then.
func (d *driller) runAndKill(t *testing.T, wanted int, after time.Duration) {
	t.Helper()
	families := cases.MadeFamilies()
	c := startChild(t, d.program, "drill", "--data", d.dir)
	var killed *time.Timer
	if wanted == 0 {
		killed = time.AfterFunc(after, c.kill)
	}
	c.typeLines("today") // out of the case that a first start opens
	d.begun, d.decided = "", false
	for n := 1; ; n++ {
		made, err := cases.Compose(cases.MadeVersion, families[d.seed%len(families)], 1+d.seed%5, d.seed)
		if err != nil {
			t.Fatal(err)
		}
		d.seed++
		d.begun, d.decided = made.ID, false
		verdict := ""
		c.typeLines("code "+made.ID, "plan", "leave", "grade", "today")
		alive := c.until(savedLine, func(line string) {
			d.decided = d.decided || strings.HasPrefix(line, "Meanwhile I suggest [")
			if rest, ok := strings.CutPrefix(line, "Debrief. "); ok {
				verdict, _, _ = strings.Cut(strings.ToLower(rest), ":")
			}
		})
		if !alive {
			break
		}
		d.saved = append(d.saved, shown{made.ID, verdict})
		d.begun, d.decided = "", false
		if n == wanted {
			killed = time.AfterFunc(after, c.kill)
		}
	}
	d.kills++
	if err := c.died(); err != nil {
		t.Fatalf("the killed program: %v", err)
	}
	killed.Stop()
}

// checkKept opens the logbook and looks for all that was said to be saved, and
// for the decision that was taken in the case in hand. It returns how many
// attempts there are and how many torn lines were set aside.
func (d *driller) checkKept(t *testing.T) (attempts, torn int) {
	t.Helper()
	book, report := openKilled(t, d.dir)
	defer book.Close()
	kept := map[string]string{} // verdict by code
	for e, err := range book.Entries() {
		if err != nil {
			t.Errorf("an entry cannot be read: %v", err)
			continue
		}
		if e, err = book.Whole(e.ID); err != nil {
			t.Errorf("an entry cannot be read whole: %v", err)
			continue
		}
		code := strings.TrimPrefix(e.Attempt.Case, cases.MadePackID+"/")
		if _, twice := kept[code]; twice {
			t.Errorf("%s is kept twice", code)
		}
		kept[code] = e.Attempt.Verdict
		plan, err := cases.ReadPlan("logbook", e.Attempt.Plan)
		if err != nil || plan.Disposition != "leave" {
			t.Errorf("%s is kept with another plan than was made: %s, %v", code, e.Attempt.Plan, err)
		}
		grade := struct{ Verdict string }{}
		if err := json.Unmarshal(e.Attempt.Grade, &grade); err != nil || grade.Verdict != e.Attempt.Verdict {
			t.Errorf("%s is kept with the grade %q and the verdict %q, %v", code, grade.Verdict, e.Attempt.Verdict, err)
		}
	}
	for _, x := range d.saved {
		if verdict, there := kept[x.code]; !there {
			t.Errorf("%s was said to be saved and is lost", x.code)
		} else if verdict != x.verdict {
			t.Errorf("%s was shown as %q and is kept as %q", x.code, x.verdict, verdict)
		}
	}
	if n := len(kept); n > len(d.saved)+d.kills {
		t.Errorf("%d attempts are kept; %d were acknowledged and %d may have been under way", n, len(d.saved), d.kills)
	}
	if _, there := kept[d.begun]; d.decided && !there {
		d.checkDraft(t)
	}
	return len(kept), len(report.Damaged)
}

// checkDraft looks for the plan of the case in hand, whose decision was taken.
func (d *driller) checkDraft(t *testing.T) {
	t.Helper()
	name := filepath.Join(d.dir, "drafts", cases.MadePackID+"--"+d.begun+".json")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Errorf("the plan in hand is lost: %v", err)
		return
	}
	if plan, err := cases.ReadPlan(name, data); err != nil || plan.Disposition != "leave" {
		t.Errorf("the plan in hand is not as it was left: %s, %v", data, err)
	}
}

// attemptsTold asks the program itself how many attempts there are.
func attemptsTold(t *testing.T, program, dir string) int {
	t.Helper()
	told := struct{ Attempts int }{-1}
	runJSON(t, &told, program, "progress", "--json", "--data", dir)
	return told.Attempts
}

// runJSON runs the program to its end and reads what it prints.
func runJSON(t *testing.T, into any, program string, args ...string) {
	t.Helper()
	out, err := exec.Command(program, args...).Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			err = fmt.Errorf("%w: %s", err, exit.Stderr)
		}
		t.Fatal(err)
	}
	if err := json.Unmarshal(out, into); err != nil {
		t.Fatal(err)
	}
}

// TestKilledProgram builds the program, kills it, and looks at what is left.
func TestKilledProgram(t *testing.T) {
	if testing.Short() {
		t.Skip("the program is built and killed some thirty times")
	}
	program := buildProgram(t)
	t.Run("drill", func(t *testing.T) { killDrill(t, program) })
	t.Run("assess", func(t *testing.T) { killAssess(t, program) })
	t.Run("saved only when it is", func(t *testing.T) { savedOnlyWhenItIs(t, program) })
	t.Run("full disk", func(t *testing.T) { drillOnFullDisk(t, program) })
}

// long tells whether the full numbers are asked for.
func long() bool { return os.Getenv("LEASTWATT_LONG") != "" }

// killDrill kills the program at moments drawn from a seed. Every attempt that
// it had said to be saved is there, whole and once, and its own progress counts
// the same. Every other time the program is the first to open what the kill
// left behind, and mends it.
func killDrill(t *testing.T, program string) {
	runs := 20
	if long() {
		runs = 300
	}
	rng := rand.New(rand.NewPCG(12, 300))
	d := &driller{program: program, dir: t.TempDir()}
	acknowledged, beyond, torn, plans := 0, 0, 0, 0
	for run := range runs {
		wanted, within := rng.IntN(6), 40*time.Millisecond
		if wanted == 0 {
			within = 150 * time.Millisecond // in the start, or in the first cases
		}
		before := len(d.saved)
		d.runAndKill(t, wanted, time.Duration(rng.Int64N(int64(within))))
		acknowledged += len(d.saved) - before
		if d.decided {
			plans++
		}
		told := -1
		if run%2 == 0 {
			told = attemptsTold(t, program, d.dir)
		}
		there, cut := d.checkKept(t)
		if run%2 == 1 {
			told = attemptsTold(t, program, d.dir)
		}
		torn += cut
		if told != there {
			t.Errorf("progress tells of %d attempts; %d are in the logbook", told, there)
		}
		if t.Failed() {
			t.Fatalf("after run %d: %d attempts asked for, %d acknowledged", run+1, wanted, len(d.saved)-before)
		}
		if run%20 == 19 || run == runs-1 { // a fresh folder, so that the file stays short
			beyond += there - len(d.saved)
			checkNothingSetAside(t, d.dir)
			d = &driller{program: program, dir: t.TempDir(), seed: d.seed}
		}
	}
	if acknowledged < runs {
		t.Errorf("only %d attempts were saved in %d runs: the kills came too early to show anything", acknowledged, runs)
	}
	t.Logf("%d kills, %d attempts acknowledged and all there, %d more kept before they could be acknowledged, %d plans in hand, %d torn lines seen first here", runs, acknowledged, beyond, plans, torn)
}

// checkNothingSetAside looks for plans and settings that a later start found
// damaged: they are written whole or not at all.
func checkNothingSetAside(t *testing.T, dir string) {
	t.Helper()
	for _, pattern := range []string{"*.json.damaged", filepath.Join("drafts", "*.damaged")} {
		if found, err := filepath.Glob(filepath.Join(dir, pattern)); err != nil || len(found) > 0 {
			t.Errorf("damaged by a kill: %v, %v", found, err)
		}
	}
}

// openKilled opens what a killed program left; the only damage that a kill does
// is a last line cut off.
func openKilled(t *testing.T, dir string) (*logbook.Book, logbook.Report) {
	t.Helper()
	book, report, err := logbook.OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range report.Damaged {
		if !x.Torn {
			t.Errorf("%s:%d: damage that no kill does: %s", report.File, x.Line, x.Why)
		}
	}
	return book, report
}
