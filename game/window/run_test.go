package window

import (
	"bufio"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
	"github.com/jezek/xgb/xtest"

	"leastwatt/game/ui"
)

// childVar makes this test binary show a window instead of running tests.
const childVar = "LEASTWATT_TEST_WINDOW"

// listener is a screen that tells every message it got.
type listener struct {
	done  chan struct{}
	got   []string
	text  string
	focus string
	power int
	letGo int // keys that came up
}

func (l *listener) WantsText() bool { return false }

func (l *listener) Update(msg any) {
	switch m := msg.(type) {
	case ui.Focused:
		l.focus = m.ID
	case ui.Edited:
		l.text = m.Text
	case ui.Step:
		l.power += m.By
	case ui.Key:
		if m.Name == "q" && m.Ctrl {
			close(l.done)
		}
	case ui.KeyUp:
		l.letGo++
		return
	case ui.Resize, ui.FocusLost, ui.FocusGained:
		return
	}
	l.got = append(l.got, fmt.Sprintf("%T%+v", msg, msg))
}

func (l *listener) View() ui.Node {
	last := ""
	if n := len(l.got); n > 0 {
		last = l.got[n-1]
	}
	return ui.Page{
		Title: "Listening", Focus: l.focus,
		Body: ui.Column{Gap: 16, Children: []ui.Node{
			ui.Text{Text: "heard: " + last},
			ui.Text{Text: fmt.Sprintf("power: %d", l.power)},
			ui.Text{Text: fmt.Sprintf("let go: %d.", l.letGo)},
			ui.Note{Role: ui.NoteRole, Spans: []ui.Span{words("At "), ui.Phrase{ID: "power", Text: ui.Qty(fmt.Sprint(l.power), "W"), Name: "power"}, words(".")}},
			ui.Field{ID: "name", Name: "Name", Text: l.text},
			ui.Row{Children: []ui.Node{ui.Button{ID: "ok", Label: "Take it", Kind: ui.Primary}}},
		}},
		Foot: caution,
	}
}

// runChild is the program of the child process.
func runChild() int {
	l := &listener{done: make(chan struct{})}
	cfg := Config{
		Screen: l, Title: "listening", SayTo: os.Stdout, Done: l.done,
		ShotTo: os.Getenv(childVar), OnClose: func() { fmt.Println("closed") },
	}
	g := newGame(cfg)
	if err := g.run(); err != nil {
		fmt.Println("error:", err)
		return 1
	}
	fmt.Println("updates:", g.updates)
	return 0
}

// keyboard types into whatever window the pointer is on, through the X server.
type keyboard struct {
	t     *testing.T
	x     *xgb.Conn
	root  xproto.Window
	codes map[xproto.Keysym]byte
	until func(said string)
	letGo int
}

func newKeyboard(t *testing.T) *keyboard {
	t.Helper()
	x, err := xgb.NewConn()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(x.Close)
	if err := xtest.Init(x); err != nil {
		t.Fatal(err)
	}
	setup := xproto.Setup(x)
	k := &keyboard{t: t, x: x, root: setup.DefaultScreen(x).Root, codes: map[xproto.Keysym]byte{}}
	first, count := setup.MinKeycode, byte(setup.MaxKeycode-setup.MinKeycode+1)
	m, err := xproto.GetKeyboardMapping(x, first, count).Reply()
	if err != nil {
		t.Fatal(err)
	}
	per := int(m.KeysymsPerKeycode)
	for i := range int(count) {
		if sym := m.Keysyms[i*per]; sym != 0 {
			if _, taken := k.codes[sym]; !taken {
				k.codes[sym] = byte(int(first) + i)
			}
		}
	}
	return k
}

func (k *keyboard) event(kind, detail byte) {
	k.t.Helper()
	if err := xtest.FakeInputChecked(k.x, kind, detail, 0, k.root, 0, 0, 0).Check(); err != nil {
		k.t.Fatal(err)
	}
}

const (
	symTab, symEnter, symUp, symDown = 0xff09, 0xff0d, 0xff52, 0xff54
	symCtrl, symShift                = 0xffe3, 0xffe1
)

// press holds keys down together until the window says what they should do, and
// lets them go until it has noticed that too. The window looks at the keys once
// a frame; on a busy machine a frame can take longer than a finger.
func (k *keyboard) press(effect string, syms ...xproto.Keysym) {
	k.t.Helper()
	for _, s := range syms {
		if k.codes[s] == 0 {
			k.t.Fatalf("the X server has no key for %#x", s)
		}
		k.event(xproto.KeyPress, k.codes[s])
	}
	k.until(effect)
	for i := len(syms) - 1; i >= 0; i-- {
		k.event(xproto.KeyRelease, k.codes[syms[i]])
		if named := syms[i] != symCtrl && syms[i] != symShift; named && effect != "closed" {
			k.letGo++
			k.until(fmt.Sprintf("let go: %d.", k.letGo))
		}
	}
}

// focus is the window that keys go to.
func (k *keyboard) focus() xproto.Window {
	k.t.Helper()
	f, err := xproto.GetInputFocus(k.x).Reply()
	if err != nil {
		k.t.Fatal(err)
	}
	return f.Focus
}

func (k *keyboard) pointer(x, y int16) {
	k.t.Helper()
	if err := xproto.WarpPointerChecked(k.x, 0, k.root, 0, 0, 0, 0, x, y).Check(); err != nil {
		k.t.Fatal(err)
	}
	time.Sleep(30 * time.Millisecond)
}

// TestRealWindow runs the program's window in a process of its own and works it
// by the X server's keyboard and pointer.
func TestRealWindow(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "frame.png")
	k := newKeyboard(t)
	before := k.focus()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childVar+"="+shot)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := false
	defer func() {
		if !ended {
			_ = cmd.Process.Kill()
			_ = cmd.Wait()
		}
	}()
	lines := make(chan string, 1000)
	go func() {
		sc := bufio.NewScanner(out)
		for sc.Scan() {
			lines <- sc.Text()
		}
		close(lines)
	}()
	var heard []string
	until := func(want string) {
		t.Helper()
		limit := time.After(20 * time.Second)
		for {
			select {
			case l, ok := <-lines:
				if !ok {
					t.Fatalf("the window ended before it said %q; it said:\n%s", want, strings.Join(heard, "\n"))
				}
				heard = append(heard, l)
				if strings.Contains(l, want) {
					return
				}
			case <-limit:
				t.Fatalf("the window never said %q; it said:\n%s", want, strings.Join(heard, "\n"))
			}
		}
	}
	until("-- focus: none")

	for range 200 { // the X server takes a moment to hand over the keyboard
		if f := k.focus(); f != before && f > 1 {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	k.pointer(1300, 850)
	k.until = until
	k.press("-- focus: power phrase power: 0 W", symTab)
	k.press("power: 1", symUp)
	k.press("power: 2", symUp)
	k.press("power: 1", symDown)
	k.press("ui.Activate{ID:power}", symEnter)
	k.press("-- focus: name field Name", symTab)
	for i, r := range "two w" {
		k.press("field Name: "+strings.TrimSpace("two w"[:i+1]), xproto.Keysym(r))
	}
	k.press("-- focus: ok button Take it", symTab)
	k.press("ui.Activate{ID:ok}", ' ')
	k.press("-- focus: name", symShift, symTab)
	k.press("-- focus: power", symShift, symTab)
	k.press("ui.Key{Name:n Ctrl:false Alt:false Shift:false}", 'n')
	time.Sleep(time.Second) // idle: counted below
	f, err := os.Open(shot)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(f)
	f.Close()
	if err != nil {
		t.Fatal(err)
	}
	if b := img.Bounds(); b.Dx() != defaultW || b.Dy() != defaultH {
		t.Errorf("the picture of the frame is %v, want %d by %d", b, defaultW, defaultH)
	}
	k.press("closed", symCtrl, 'q')
	until("updates:")
	updates := 0
	if _, err := fmt.Sscanf(heard[len(heard)-1], "updates: %d", &updates); err != nil {
		t.Fatal(err)
	}
	ended = true
	if err := cmd.Wait(); err != nil {
		t.Errorf("the window ended with %v", err)
	}
	// The loop is awake for half a second after every key and asleep in the
	// idle seconds; awake all the time it would have run many times more.
	if updates > 600 {
		t.Errorf("the loop ran %d times, so it does not sleep between events", updates)
	}
	t.Logf("the loop ran %d times", updates)
}
