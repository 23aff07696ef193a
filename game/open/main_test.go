package open

import (
	"flag"
	"os"
	"testing"

	"leastwatt/game/window"
)

var (
	update = flag.Bool("update", false, "rewrite the golden pictures and those of the README")
	keepIn = flag.String("keep", "", "folder that gets every picture that was painted, in full size")
)

// Painting needs the loop of the window, and that needs a display; without one
// a test binary runs under an Xvfb of its own.
func TestMain(m *testing.M) { os.Exit(window.Drive(m.Run)) }
