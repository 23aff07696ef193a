package window

import (
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/hajimehoshi/ebiten/v2/text/v2"

	"leastwatt/game/ui"
	"leastwatt/game/window/display"
)

// What the kit measures is what the painter draws, or words would run into each
// other: both shape the text with the same library, but through different doors.
func TestPaintedWidthIsMeasuredWidth(t *testing.T) {
	var g glyphs
	for _, s := range []string{"fine", "at most 7.0\u2006W,", "1 : 100\u2006000", "Before I start: consent, site confirmed", "AVATAR fi fl ffi", "10.1 11.1", "“It bleeds.”", "0.4 mg/kg · 30 gauge"} {
		for id := ui.Sans; id <= ui.SerifStrong; id++ {
			for _, size := range []float64{13, 14, 16, 18, 24, 36, 44} {
				for _, tabular := range []bool{false, true} {
					f, err := g.face(faceKey{id, size, tabular})
					if err != nil {
						t.Fatal(err)
					}
					drawn, measured := text.Advance(s, f), ui.TextWidth(id, size, tabular, s)
					if math.Abs(drawn-measured) > 0.02*size {
						t.Errorf("%q in font %d at %v px: drawn %.2f wide, measured %.2f", s, id, size, drawn, measured)
					}
				}
			}
		}
	}
}

// Without a display the program must end with one sentence and the agreed code,
// not with the stack trace that Ebitengine's own initialisation would give. That
// holds only while package display is initialised before it.
func TestNoDisplayIsOneSentence(t *testing.T) {
	self, err := filepath.Abs(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	prog := filepath.Join(t.TempDir(), "leastwatt")
	if err := os.Symlink(self, prog); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(prog)
	for _, v := range os.Environ() {
		if !strings.HasPrefix(v, "DISPLAY=") {
			cmd.Env = append(cmd.Env, v)
		}
	}
	out, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != display.ExitNoDisplay {
		t.Errorf("it ended with %v, want code %d", err, display.ExitNoDisplay)
	}
	if s := string(out); strings.Count(s, "\n") != 1 || !strings.Contains(s, "no display") {
		t.Errorf("it said %q, want one line about the display", s)
	}
}
