package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"syscall"

	gojson "github.com/goccy/go-json"

	"leastwatt/game/sitting"
	"leastwatt/game/verb"
)

type windowVerb = sitting.WindowOptions

// exitNoDisplay is how the window program ends when no display answers.
const exitNoDisplay = 3

// openWindow starts the window program, or the plain mode where there is no
// display.
func openWindow(s *verb.Shell, in io.Reader, o *windowVerb) int {
	if os.Getenv("DISPLAY") == "" {
		fmt.Fprintln(s.Err, "leastwatt: there is no display, so here is the plain mode.")
		return sitting.Drill(s, in, o.Data, world())
	}
	program, err := windowProgram()
	if err != nil {
		fmt.Fprintf(s.Err, "leastwatt: %v; so here is the plain mode.\n", err)
		return sitting.Drill(s, in, o.Data, world())
	}
	call, err := gojson.Marshal(sitting.CallOf(s, *o))
	if err != nil {
		return s.Fail(err)
	}
	cmd := exec.Command(program, string(call))
	cmd.Stdout, cmd.Stderr = s.Out, s.Err
	// The window goes when this program goes. The kernel ties that to the
	// thread that started it, so this one is kept until the end.
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGTERM}
	err = cmd.Run()
	var ended *exec.ExitError
	switch {
	case errors.As(err, &ended) && ended.ExitCode() == exitNoDisplay:
		fmt.Fprintln(s.Err, "leastwatt: the display does not answer, so here is the plain mode.")
		return sitting.Drill(s, in, o.Data, world())
	case errors.As(err, &ended):
		return max(ended.ExitCode(), verb.Invalid)
	case err != nil:
		return s.Fail(err)
	}
	return verb.Done
}

// windowProgram finds the window program beside this one. Run from the source
// folder, as "go run ." does, it is built there first.
func windowProgram() (string, error) {
	self, err := os.Executable()
	if err != nil {
		return "", err
	}
	beside := filepath.Join(filepath.Dir(self), "leastwatt-window")
	if _, err := os.Stat(beside); err == nil {
		return beside, nil
	}
	if _, err := os.Stat("game/window/program/main.go"); err != nil {
		return "", errors.New("the window program leastwatt-window does not lie beside this one; make drill builds both")
	}
	built := filepath.Join("build", "leastwatt-window")
	if out, err := exec.Command("go", "build", "-o", built, "./game/window/program").CombinedOutput(); err != nil {
		return "", fmt.Errorf("the window program cannot be built (%s); make drill installs what it needs", firstLine(out))
	}
	return built, nil
}

func firstLine(text []byte) string {
	for i, c := range text {
		if c == '\n' {
			return string(text[:i])
		}
	}
	return string(text)
}
