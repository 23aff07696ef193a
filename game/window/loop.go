package window

import (
	"errors"
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"leastwatt/game/ui"
)

// Run shows the window until it is closed. It must be called from the program's
// main goroutine.
func Run(cfg Config) error {
	if cfg.Screen == nil {
		return errors.New("window: no screen to show")
	}
	return newGame(cfg).run()
}

func (g *game) run() error {
	cfg := g.cfg
	w, h := cfg.Width, cfg.Height
	if w <= 0 || h <= 0 {
		w, h = defaultW, defaultH
	}
	ebiten.SetWindowTitle(cfg.Title)
	ebiten.SetWindowSize(max(w, leastW), max(h, leastH))
	ebiten.SetWindowSizeLimits(leastW, leastH, -1, -1)
	ebiten.SetWindowResizingMode(ebiten.WindowResizingModeEnabled)
	ebiten.SetWindowClosingHandled(true)
	ebiten.SetScreenClearedEveryFrame(false)
	g.host.OnPost(wake)
	if cfg.Ready != nil {
		cfg.Ready(g.host.Post)
	}
	if cfg.Done != nil {
		ended := make(chan struct{})
		defer close(ended)
		go func() {
			select {
			case <-cfg.Done:
				g.host.Post(closing{})
			case <-ended:
			}
		}()
	}
	if cfg.ShotTo != "" {
		g.shots = newShooter(cfg.ShotTo)
	}
	err := ebiten.RunGame(g)
	if g.shots != nil {
		err = errors.Join(err, g.shots.close())
	}
	return err
}

// closing is posted when Done closes; its only use is to wake the loop.
type closing struct{}

// game is the loop as Ebitengine sees it.
type game struct {
	cfg   Config
	host  *ui.Host
	in    input
	paint *painter
	say   sayer
	scale float64

	drawnVersion int
	drawnW       int
	drawnH       int
	drawnScale   float64
	shape        ebiten.CursorShapeType
	fault        error
	updates      int // how often the loop ran
	pace         pace
	tone         tone
	lastLive     time.Time // when the screen was last told the time; zero while it is not live
	fade         fade
	shots        *shooter // nil when no pictures are asked for
}

func newGame(cfg Config) *game {
	g := &game{cfg: cfg, host: ui.NewHost(cfg.Screen), paint: newPainter(), say: sayer{to: cfg.SayTo}, scale: 1, drawnVersion: -1}
	g.host.Copy, g.host.Paste = cfg.Copy, cfg.Paste
	return g
}

// LayoutF makes the game's screen as large in pixels as the window is on the
// device.
func (g *game) LayoutF(w, h float64) (float64, float64) {
	g.scale = g.cfg.Scale
	if g.scale <= 0 {
		g.scale = ebiten.Monitor().DeviceScaleFactor()
	}
	if g.scale <= 0 {
		g.scale = 1
	}
	g.host.SetSize(w, h)
	return w * g.scale, h * g.scale
}

// Layout is required by the interface; LayoutF replaces it.
func (g *game) Layout(int, int) (int, int) { panic("window: Layout is replaced by LayoutF") }

// Update tells the host what happened and lets the screen answer.
func (g *game) Update() error {
	g.updates++
	if g.fault != nil {
		return g.fault
	}
	if ebiten.IsWindowBeingClosed() || g.done() {
		if g.cfg.OnClose != nil {
			g.cfg.OnClose()
		}
		return ebiten.Termination
	}
	theme, textScale := g.cfg.look()
	g.host.SetLook(theme, textScale, false)
	busy := g.in.read(g.host, g.scale, g.cfg.Now)
	theme, textScale = g.cfg.look() // a key may have changed a setting
	g.host.SetLook(theme, textScale, false)
	live := g.live()
	g.sound()
	g.host.Frame()
	g.pointerShape()
	g.pace.set(busy || live || g.fade.on)
	return g.say.say(g.host)
}

// sound lets the screen's tone be heard, unless sound is turned off.
func (g *game) sound() {
	s, ok := g.cfg.Screen.(Sounding)
	if !ok {
		return
	}
	hz := s.ToneHz()
	if g.cfg.Settings != nil && !g.cfg.Settings.Sound() {
		hz = 0
	}
	g.tone.set(hz)
}

// longestElapsed is the most time that one frame tells of: a machine that falls
// behind slows what is live and never makes it jump.
const longestElapsed = 50 * time.Millisecond

// live tells a screen in which time goes by how much has gone.
func (g *game) live() bool {
	s, ok := g.cfg.Screen.(ui.Live)
	if !ok || g.cfg.Now == nil || !s.Live() {
		g.lastLive = time.Time{}
		return false
	}
	now := g.cfg.Now()
	if !g.lastLive.IsZero() {
		gone := min(now.Sub(g.lastLive), longestElapsed)
		if ms := int(gone / time.Millisecond); ms > 0 {
			g.host.Tell(ui.Elapsed{MS: ms})
			g.lastLive = g.lastLive.Add(time.Duration(ms) * time.Millisecond)
		}
		if now.Sub(g.lastLive) > longestElapsed {
			g.lastLive = now
		}
		return true
	}
	g.lastLive = now
	return true
}

func (g *game) done() bool {
	if g.cfg.Done == nil {
		return false
	}
	select {
	case <-g.cfg.Done:
		return true
	default:
		return false
	}
}

func (g *game) pointerShape() {
	shape := ebiten.CursorShapeDefault
	if g.host.OverControl() {
		shape = ebiten.CursorShapePointer
	}
	if shape != g.shape {
		g.shape = shape
		ebiten.SetCursorShape(shape)
	}
}

// Draw paints only what differs from the last frame, which is all or nothing.
func (g *game) Draw(screen *ebiten.Image) {
	b := screen.Bounds()
	if g.host.Version() == g.drawnVersion && b.Dx() == g.drawnW && b.Dy() == g.drawnH && g.scale == g.drawnScale {
		if g.fade.on {
			g.fade.draw(screen, g.cfg.Now())
		}
		return
	}
	g.fade.begin(g, screen)
	g.drawnVersion, g.drawnW, g.drawnH, g.drawnScale = g.host.Version(), b.Dx(), b.Dy(), g.scale
	if err := g.paint.paint(screen, g.host.Frame(), g.scale); err != nil {
		g.fault = err
		return
	}
	g.fade.keep(screen)
	if g.fade.on {
		g.fade.draw(screen, g.cfg.Now())
	}
	if g.shots != nil {
		g.fault = g.shots.shoot(pixels(screen))
	}
}
