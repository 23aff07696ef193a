// Package sitting lays out what a person sits down to: the packs at hand, the
// settings and plans kept from last time, the clipboard, and how a pack that
// is dropped in gets checked. The window and the plain mode both start here,
// so that they offer the same cases in the same order.
package sitting

import (
	"fmt"
	"io"
	"io/fs"
	"time"

	"leastwatt/cases"
	"leastwatt/game/keep"
	"leastwatt/game/plain"
	"leastwatt/game/screen"
	"leastwatt/game/verb"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// World is what a sitting gets from outside: the clock and the source of
// chance.
type World struct {
	Now    func() time.Time
	Random io.Reader
}

// Begin lays out a sitting. Data is the folder to keep things in, empty for
// the user's own. End it with [screen.Config.Close].
func Begin(s *verb.Shell, data string, w World) (screen.Config, error) {
	now := w.Now
	shelf, err := s.LoadShelf()
	if err != nil {
		return screen.Config{}, err
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
	newID, err := Identities(w.Random)
	if err != nil {
		return screen.Config{}, err
	}
	rec := openRecord(data, newID, folder)
	steps, heard := lastRun(rec, settings.Learner, folder)
	run := screen.RunConfig{Steps: steps, HeardMS: heard, NewID: newID, SavePDF: folder.SaveSheet}
	year, month, day := now().Date()
	return screen.Config{
		Record: rec, Assess: run, Close: closer(rec),
		Packs:    shelf.Packs,
		Set:      tables.Builtin,
		Seed:     uint64(year*10000 + int(month)*100 + day), // another order each day
		Today:    now,
		Settings: settings, SaveSettings: folder.SaveSettings,
		Drafts: folder.Drafts(), SaveDraft: folder.SaveDraft,
		Usual: folder.Latest(), FirstCase: folder.First(),
		Copy:     copier(folder),
		LoadPack: loadDropped,
	}, nil
}

// Drill runs the plain mode.
func Drill(s *verb.Shell, in io.Reader, data string, w World) int {
	cfg, err := Begin(s, data, w)
	if err != nil {
		return s.Fail(err)
	}
	defer cfg.Close()
	if err := plain.Run(in, s.Out, cfg); err != nil {
		return s.Fail(err)
	}
	return verb.Done
}

func closer(rec screen.RecordConfig) func() error {
	return func() error {
		if rec.Book == nil {
			return nil
		}
		return rec.Book.Close()
	}
}

// copier puts a text on the clipboard, or where there is none into a file.
func copier(folder keep.Folder) func(string) error {
	return func(text string) error {
		if writeClipboard(text) == nil {
			return nil
		}
		name, err := folder.SaveText(text)
		if err != nil {
			return err
		}
		return fmt.Errorf("there is no clipboard here; the text is in %s", name)
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
