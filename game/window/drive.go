package window

import (
	"fmt"

	"github.com/hajimehoshi/ebiten/v2"

	_ "leastwatt/game/window/display" // must be initialised before Ebitengine
)

// Drive runs f inside the loop, where Snapshot works, and ends the loop when f
// returns. A test of screens calls it once, from TestMain:
//
//	func TestMain(m *testing.M) { os.Exit(window.Drive(m.Run)) }
//
// Without a display a test binary runs under an Xvfb of its own.
func Drive(f func() int) int {
	d := &driver{f: f, code: 1}
	ebiten.SetWindowSize(leastW, leastH)
	if err := ebiten.RunGame(d); err != nil {
		fmt.Println("window:", err)
		return 1
	}
	return d.code
}

// driver is a loop whose first frame runs a function.
type driver struct {
	f    func() int
	code int
}

func (d *driver) Update() error {
	d.code = d.f()
	return ebiten.Termination
}

func (d *driver) Draw(*ebiten.Image) {}

func (d *driver) Layout(w, h int) (int, int) { return w, h }
