// Package open brings a sitting and the window together.
package open

import (
	"crypto/rand"
	"fmt"
	"io"
	"os"
	"sync/atomic"
	"time"

	"leastwatt/game/screen"
	"leastwatt/game/sitting"
	"leastwatt/game/verb"
	"leastwatt/game/window"
)

// Window opens the window and returns when it is closed.
func Window(s *verb.Shell, o sitting.WindowOptions) int {
	cfg, err := sitting.Begin(s, o.Data, sitting.World{Now: time.Now, Random: rand.Reader})
	if err != nil {
		return s.Fail(err)
	}
	defer cfg.Close()
	var say io.Writer
	if o.Say != "" {
		f, err := os.Create(o.Say)
		if err != nil {
			return s.Fail(err)
		}
		defer f.Close()
		say = f
	}
	// Pictures are drawn in the background, and may be done before the window
	// is there to be told.
	var post atomic.Pointer[func(any)]
	cfg.Post = func(msg any) {
		if p := post.Load(); p != nil {
			(*p)(msg)
		}
	}
	cfg.Ticks = func(of int) func() { return everySecond(cfg.Post, of) }
	app, err := screen.NewApp(cfg)
	if err != nil {
		return s.Fail(err)
	}
	err = window.Run(window.Config{
		Screen: app, Settings: app, Now: time.Now, Title: "Leastwatt",
		Width: o.Width, Height: o.Height, Scale: o.Scale,
		Ready: func(p func(any)) { post.Store(&p) },
		Copy:  func(text string) { _ = cfg.Copy(text) },
		Paste: sitting.Pasted,
		SayTo: say, ShotTo: o.Shot,
	})
	if err != nil {
		return s.Fail(fmt.Errorf("the window cannot be opened: %w", err))
	}
	return verb.Done
}

// everySecond posts a tick every second until it is stopped. It is the only clock of
// a short round.
func everySecond(post func(any), of int) (stop func()) {
	ended := make(chan struct{})
	go func() {
		t := time.NewTicker(time.Second)
		defer t.Stop()
		for {
			select {
			case <-t.C:
				post(screen.Tick{Of: of})
			case <-ended:
				return
			}
		}
	}()
	return func() { close(ended) }
}
