package open

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// desktop is an X server of a test's own, with a keyboard that xdotool works.
// There is no window manager: a window gets the keyboard when it opens.
type desktop struct {
	t       testing.TB
	display string
	env     []string
}

func newDesktop(t testing.TB) *desktop {
	t.Helper()
	for _, tool := range []string{"Xvfb", "xdotool"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Fatalf("this test needs %s, which is not installed; .ci/packages test installs it", tool)
		}
	}
	// A high number of this process's own: a low one may still belong to a
	// server that is ending.
	d := &desktop{t: t, display: ":" + strconv.Itoa(51000+os.Getpid()%8000)}
	for _, v := range os.Environ() {
		if !strings.HasPrefix(v, "DISPLAY=") {
			d.env = append(d.env, v)
		}
	}
	d.env = append(d.env, "DISPLAY="+d.display)
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	// -r: a key that is held longer on a busy machine must not repeat.
	server := exec.Command("Xvfb", d.display, "-displayfd", "3", "-screen", "0", "1400x900x24", "-nolisten", "tcp", "-r")
	server.ExtraFiles = []*os.File{w}
	server.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGTERM}
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	w.Close()
	t.Cleanup(func() { stop(server) })
	if err := r.SetReadDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if line, err := bufio.NewReader(r).ReadString('\n'); err != nil {
		t.Fatalf("Xvfb did not start on %s: it said %q, %v", d.display, line, err)
	}
	return d
}

// stop ends a process that this test started, and what it started itself when
// it leads a group.
func stop(cmd *exec.Cmd) {
	pid := cmd.Process.Pid
	if cmd.SysProcAttr != nil && cmd.SysProcAttr.Setpgid {
		pid = -pid
	}
	_ = syscall.Kill(pid, syscall.SIGTERM)
	ended := make(chan struct{})
	go func() { _ = cmd.Wait(); close(ended) }()
	select {
	case <-ended:
	case <-time.After(5 * time.Second):
		_ = syscall.Kill(pid, syscall.SIGKILL)
		<-ended
	}
}

// xdotool runs one command of the tool.
func (d *desktop) xdotool(args ...string) string {
	d.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, "xdotool", args...)
	cmd.Env = d.env
	out, err := cmd.CombinedOutput()
	if err != nil {
		d.t.Fatalf("xdotool %s: %v: %s", strings.Join(args, " "), err, out)
	}
	return strings.TrimSpace(string(out))
}

// askToClose sends a window the message that the close button of its frame
// sends.
func (d *desktop) askToClose(window string) {
	d.t.Helper()
	id, err := strconv.ParseUint(window, 10, 32)
	if err != nil {
		d.t.Fatalf("there is not one window but %q", window)
	}
	x, err := xgb.NewConnDisplay(d.display)
	if err != nil {
		d.t.Fatal(err)
	}
	defer x.Close()
	atom := func(name string) xproto.Atom {
		a, err := xproto.InternAtom(x, false, uint16(len(name)), name).Reply()
		if err != nil {
			d.t.Fatal(err)
		}
		return a.Atom
	}
	event := xproto.ClientMessageEvent{
		Format: 32, Window: xproto.Window(id), Type: atom("WM_PROTOCOLS"),
		Data: xproto.ClientMessageDataUnionData32New([]uint32{uint32(atom("WM_DELETE_WINDOW")), 0, 0, 0, 0}),
	}
	if err := xproto.SendEventChecked(x, false, event.Window, 0, string(event.Bytes())).Check(); err != nil {
		d.t.Fatal(err)
	}
}

// build builds the program and, beside it, the program of its window, as the
// Makefile does.
func build(t testing.TB) (program string) {
	t.Helper()
	dir := t.TempDir()
	for name, pkg := range map[string]string{"leastwatt": ".", "leastwatt-window": "./game/window/program"} {
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
		cmd := exec.CommandContext(ctx, "go", "build", "-o", filepath.Join(dir, name), pkg)
		cmd.Dir = filepath.Join("..", "..")
		out, err := cmd.CombinedOutput()
		cancel()
		if err != nil {
			t.Fatalf("go build %s: %v\n%s", pkg, err, out)
		}
	}
	return filepath.Join(dir, "leastwatt")
}

// program is the real program, running.
type program struct {
	t     testing.TB
	desk  *desktop
	cmd   *exec.Cmd
	said  string // the file it says its screens to
	ended chan error
	heard int // how much of that file was there when the last key went down

	missed int // keys that brought nothing about
}

// start runs the program on a folder of its own.
func (d *desktop) start(path, data string) *program {
	d.t.Helper()
	p := &program{t: d.t, desk: d, said: filepath.Join(d.t.TempDir(), "said.txt"), ended: make(chan error, 1)}
	p.cmd = exec.Command(path, "--data", data, "--say", p.said, "--scale", "1")
	p.cmd.Env = d.env
	p.cmd.Stdout, p.cmd.Stderr = os.Stderr, os.Stderr
	p.cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	if err := p.cmd.Start(); err != nil {
		d.t.Fatal(err)
	}
	go func() { p.ended <- p.cmd.Wait() }()
	d.t.Cleanup(func() { _ = syscall.Kill(-p.cmd.Process.Pid, syscall.SIGKILL) })
	return p
}

// screen is what the program said last, with the line of the focus at its end,
// and how long the whole file is.
func (p *program) screen() (words string, length int) {
	data, err := os.ReadFile(p.said)
	if err != nil {
		return "", 0
	}
	text := string(data)
	end := strings.LastIndex(text, "\n-- focus: ")
	if end < 0 {
		return "", 0
	}
	line := strings.IndexByte(text[end+1:], '\n')
	if line < 0 {
		return "", 0
	}
	length = end + 1 + line + 1
	from := 0
	if i := strings.LastIndex(text[:end], "\n-- focus: "); i >= 0 {
		from = i + 1 + strings.IndexByte(text[i+1:], '\n') + 1
	}
	return text[from:length], length
}

// focus is the ID of what has the keyboard.
func (p *program) focus() string {
	words, _ := p.screen()
	line := words[strings.LastIndex(words, "-- focus: "):]
	id, _, _ := strings.Cut(strings.TrimPrefix(line, "-- focus: "), " phrase ")
	return strings.TrimSpace(id)
}

// waitFor waits until the program has said something new that will do.
func (p *program) waitFor(what string, ok func(words string) bool) string {
	p.t.Helper()
	words, found := p.within(20*time.Second, what, ok)
	if !found {
		p.t.Fatalf("the program never said %s; it said last:\n%s", what, words)
	}
	return words
}

func (p *program) within(limit time.Duration, what string, ok func(words string) bool) (words string, found bool) {
	p.t.Helper()
	over := time.After(limit)
	for {
		words, length := p.screen()
		if length > p.heard && ok(words) {
			return words, true
		}
		select {
		case err := <-p.ended:
			p.t.Fatalf("the program ended (%v) before it said %s", err, what)
		case <-over:
			return words, false
		case <-time.After(3 * time.Millisecond):
		}
	}
}

func holds(text string) func(string) bool {
	return func(words string) bool { return strings.Contains(words, text) }
}

// The window looks at the keyboard once a frame. Where a processor does the
// graphics and others want it too, a frame can outlast a finger: a key that
// comes up and goes down between two looks was then never let go. So keys are
// settling apart, and one that brings nothing about is let go and pressed again.
const (
	settling   = 150 * time.Millisecond
	patience   = 10 * time.Second
	mostMissed = 5 // in one run; more would be a keyboard that does not work
)

// press holds a key down until the screen holds what the key should bring
// about, and returns the screen. "alt+2" is a key with another.
func (p *program) press(key, want string) string {
	p.t.Helper()
	return p.pressUntil(key, fmt.Sprintf("%q after %s", want, key), holds(want))
}

func (p *program) pressUntil(key, what string, ok func(string) bool) string {
	p.t.Helper()
	for {
		_, p.heard = p.screen()
		said := p.heard
		words, found := p.hold(key, what, ok)
		time.Sleep(settling)
		if found {
			return words
		}
		if _, length := p.screen(); length > said || p.missed == mostMissed {
			p.t.Fatalf("the program never said %s; it said last:\n%s", what, words)
		}
		p.missed++
		p.t.Logf("%s was not noticed; pressed again", key)
		time.Sleep(time.Second)
	}
}

// hold presses a key with those that go with it, and lets them go once the
// screen will do.
func (p *program) hold(key, what string, ok func(string) bool) (words string, found bool) {
	p.t.Helper()
	keys := strings.Split(key, "+")
	for _, k := range keys {
		p.desk.xdotool("keydown", k)
	}
	words, found = p.within(patience, what, ok)
	for i := len(keys) - 1; i >= 0; i-- {
		p.desk.xdotool("keyup", keys[i])
	}
	return words, found
}

// tap presses a key whose effect can be seen but is not said, such as moving
// among ticks.
func (p *program) tap(key string) {
	p.t.Helper()
	p.desk.xdotool("keydown", key)
	time.Sleep(settling)
	p.desk.xdotool("keyup", key)
	time.Sleep(settling)
}

// close closes the window as a desktop's own button does, and waits for the
// program to end well.
func (p *program) close() {
	p.t.Helper()
	p.desk.askToClose(p.desk.xdotool("search", "--name", "^Leastwatt$"))
	select {
	case err := <-p.ended:
		if err != nil {
			p.t.Errorf("the program ended with %v", err)
		}
	case <-time.After(20 * time.Second):
		p.t.Fatal("the program did not end when its window was closed")
	}
}
