// Package open brings a sitting and the window together.
package open

import (
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

// Options are the window's flags. Say and Shot serve screen readers and tests.
type Options struct {
	Data   string  `json:"data" help:"Keep settings and drafts in this folder." placeholder:"DIR"`
	Say    string  `json:"say" help:"Write each screen in words to this file, for screen readers." placeholder:"FILE"`
	Shot   string  `json:"shot" help:"Write a picture of each screen to this file." placeholder:"FILE.png"`
	Width  int     `json:"width" help:"Width of the window." default:"1280"`
	Height int     `json:"height" help:"Height of the window." default:"800"`
	Scale  float64 `json:"scale" help:"Pixels for each point; 0 asks the display." default:"0"`
}

// Window opens the window and returns when it is closed.
func Window(s *verb.Shell, o Options) int {
	cfg, err := sitting.Begin(s, o.Data, time.Now)
	if err != nil {
		return s.Fail(err)
	}
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
