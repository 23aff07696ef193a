package window

import (
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"leastwatt/game/ui"
)

// fadeTime is how long one screen takes to give way to the next.
const fadeTime = 120 * time.Millisecond

// fade carries one screen over into the next. It is asked for only where the
// title changes: a phrase that changes answers at once.
type fade struct {
	title         string
	before, after *ebiten.Image
	since         time.Time
	on            bool
}

// begin keeps the old picture when the page about to be painted is another
// one than the last. It must be called before painting.
func (f *fade) begin(g *game, screen *ebiten.Image) {
	page, ok := g.cfg.Screen.View().(ui.Page)
	if !ok {
		return
	}
	turned := f.title != "" && f.title != page.Title
	f.title = page.Title
	f.on = turned && g.cfg.Now != nil && g.shots == nil && g.cfg.Settings != nil && !g.cfg.Settings.ReducedMotion()
	if f.on {
		f.before = copyOf(screen, f.before)
		f.since = g.cfg.Now()
	}
}

// keep keeps the new picture once it is painted.
func (f *fade) keep(screen *ebiten.Image) {
	if f.on {
		f.after = copyOf(screen, f.after)
	}
}

// draw mixes the two and ends the fade when its time is over.
func (f *fade) draw(screen *ebiten.Image, now time.Time) {
	gone := float32(now.Sub(f.since)) / float32(fadeTime)
	screen.DrawImage(f.after, nil)
	if gone >= 1 || gone < 0 {
		f.on = false
		return
	}
	var o ebiten.DrawImageOptions
	o.ColorScale.ScaleAlpha(1 - gone)
	screen.DrawImage(f.before, &o)
}

// copyOf copies a picture, into an earlier copy of the same size if there is
// one.
func copyOf(screen, old *ebiten.Image) *ebiten.Image {
	if old == nil || old.Bounds() != screen.Bounds() {
		if old != nil {
			old.Deallocate()
		}
		old = ebiten.NewImage(screen.Bounds().Dx(), screen.Bounds().Dy())
	}
	old.Clear()
	old.DrawImage(screen, nil)
	return old
}
