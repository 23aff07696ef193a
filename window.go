package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"runtime"
	"time"

	"github.com/atotto/clipboard"

	"leastwatt/cases"
	"leastwatt/game/keep"
	"leastwatt/game/plain"
	"leastwatt/game/screen"
	"leastwatt/game/verb"
	"leastwatt/game/window"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// windowVerb opens the window. Its flags serve tests and screen readers.
type windowVerb struct {
	Data   string  `help:"Keep settings and drafts in this folder." type:"path" placeholder:"DIR"`
	Say    string  `help:"Write each screen in words to this file, for screen readers." type:"path" placeholder:"FILE"`
	Shot   string  `help:"Write a picture of each screen to this file." type:"path" placeholder:"FILE.png"`
	Width  int     `help:"Width of the window." default:"1280"`
	Height int     `help:"Height of the window." default:"800"`
	Scale  float64 `help:"Pixels for each point; 0 asks the display." default:"0"`
}

// openWindow opens the window, or the plain mode where there is no display.
func openWindow(s *verb.Shell, in io.Reader, w *windowVerb) int {
	if why := noDisplay(); why != "" {
		fmt.Fprintf(s.Err, "leastwatt: %s, so here is the plain mode.\n", why)
		return drill(s, in, w.Data)
	}
	cfg, folder, err := desk(s, w.Data)
	if err != nil {
		return s.Fail(err)
	}
	var app *screen.App
	say := io.Writer(nil)
	if w.Say != "" {
		f, err := os.Create(w.Say)
		if err != nil {
			return s.Fail(err)
		}
		defer f.Close()
		say = f
	}
	var post func(any)
	cfg.Post = func(msg any) {
		if post != nil {
			post(msg)
		}
	}
	cfg.Copy = copier(folder)
	if app, err = screen.NewApp(cfg); err != nil {
		return s.Fail(err)
	}
	err = window.Run(window.Config{
		Screen: app, Settings: app, Now: time.Now, Title: "Leastwatt",
		Width: w.Width, Height: w.Height, Scale: w.Scale,
		Ready: func(p func(any)) { post = p },
		Copy:  func(text string) { _ = cfg.Copy(text) },
		Paste: func() string {
			text, err := clipboard.ReadAll()
			if err != nil {
				return ""
			}
			return text
		},
		SayTo: say, ShotTo: w.Shot,
	})
	if err != nil {
		fmt.Fprintf(s.Err, "leastwatt: the window cannot be opened (%v), so here is the plain mode.\n", err)
		return drill(s, in, w.Data)
	}
	return verb.Done
}

// noDisplay says why no window can be opened, or nothing.
func noDisplay() string {
	switch runtime.GOOS {
	case "windows", "darwin", "js":
		return ""
	}
	if os.Getenv("DISPLAY") == "" {
		return "there is no display"
	}
	return ""
}

// drill runs the plain mode on the same cases.
func drill(s *verb.Shell, in io.Reader, data string) int {
	cfg, folder, err := desk(s, data)
	if err != nil {
		return s.Fail(err)
	}
	cfg.Copy = copier(folder)
	if err := plain.Run(in, s.Out, cfg); err != nil {
		return s.Fail(err)
	}
	return verb.Done
}

// desk lays out what both the window and the plain mode start from.
func desk(s *verb.Shell, data string) (screen.Config, keep.Folder, error) {
	shelf, err := s.LoadShelf()
	if err != nil {
		return screen.Config{}, keep.Folder{}, err
	}
	folder, err := keep.Open(data)
	if err != nil {
		fmt.Fprintln(s.Err, "leastwatt:", err)
	}
	settings := folder.Settings()
	if s.Labels != "" {
		settings.Labels = s.Labels
	}
	if s.Words == cases.US {
		settings.Words = cases.US
	}
	return screen.Config{
		Packs: shelf.Packs, Set: tables.Builtin,
		Seed:     uint64(time.Now().Unix() / (24 * 60 * 60)), // another order each day
		Today:    time.Now,
		Settings: settings, SaveSettings: folder.SaveSettings,
		Drafts: folder.Drafts(), SaveDraft: folder.SaveDraft,
		LoadPack: loadDropped,
	}, folder, nil
}

// copier puts a text on the clipboard, or where there is none into a file.
func copier(folder keep.Folder) func(string) error {
	return func(text string) error {
		if clipboard.Unsupported || clipboard.WriteAll(text) != nil {
			name, err := folder.SaveText(text)
			if err != nil {
				return err
			}
			return fmt.Errorf("there is no clipboard here; the text is in %s", name)
		}
		return nil
	}
}

// loadDropped checks a pack as the check verb does.
func loadDropped(fsys fs.FS, name string) screen.PackReport {
	l, err := cases.LoadPackIn(fsys, name)
	if err != nil {
		return screen.PackReport{Name: name, Faults: cases.Faults{{File: name, Line: 1, Column: 1, Message: err.Error()}}}
	}
	checked := solve.Check(l, tables.Builtin, "")
	r := screen.PackReport{Name: name, Pack: l.Pack, Faults: checked.Errors, Warnings: checked.Warnings}
	if len(checked.Errors) > 0 {
		r.Pack = nil
	}
	for _, c := range checked.Cases {
		if !c.Solved {
			r.Unsolved = append(r.Unsolved, fmt.Sprintf("%s has no plan with full marks; these rules stand in the way: %v", c.Case, c.Conflict))
		}
	}
	return r
}
