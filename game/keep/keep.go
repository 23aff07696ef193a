// Package keep holds what stays between two sittings on one machine: the
// person's settings and the plans they have begun. Each is a small file of its
// own in the user's configuration folder.
//
// A file is written beside its place, synced, and then renamed over the old
// one, so that a killed process or a full disk leaves the old file whole.
// Damaged files are set aside with the ending .damaged, never deleted.
package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	gojson "github.com/goccy/go-json"

	"leastwatt/cases"
	"leastwatt/game/screen"
)

// Folder is the place where things are kept. An empty Folder keeps nothing.
type Folder struct{ dir string }

// Open makes the folder if need be. An empty dir means the user's own
// configuration folder; where a system has none, as in a browser, nothing is
// kept and that is no error.
func Open(dir string) (Folder, error) {
	if dir == "" {
		config, err := os.UserConfigDir()
		if err != nil {
			return Folder{}, nil
		}
		dir = filepath.Join(config, "leastwatt")
	}
	if err := os.MkdirAll(filepath.Join(dir, "drafts"), 0o700); err != nil {
		return Folder{}, fmt.Errorf("the folder %s cannot be made, so nothing will be kept: %w", dir, err)
	}
	return Folder{dir}, nil
}

// settingsFile is screen.Settings as it is written.
type settingsFile struct {
	TextScale     int    `json:"text_scale" jsonschema:"minimum=100,maximum=200"`
	Dark          bool   `json:"dark"`
	ReducedMotion bool   `json:"reduced_motion"`
	Sound         bool   `json:"sound"`
	Words         string `json:"words" vocab:"words"`
	Labels        string `json:"labels" vocab:"labels"`
	Learner       string `json:"learner"`
}

// Settings reads the kept settings, or those of a first start.
func (f Folder) Settings() screen.Settings {
	s := screen.DefaultSettings()
	name := filepath.Join(f.dir, "settings.json")
	data, err := f.read(name)
	if err != nil {
		return s
	}
	file := settingsFile{s.TextScale, s.Dark, s.ReducedMotion, s.Sound, string(s.Words), s.Labels, s.Learner}
	tree, faults := cases.ReadJSON(name, data)
	sheet := &cases.Sheet{File: name, Faults: faults}
	if tree != nil {
		cases.Decode(sheet, tree, &file)
	}
	if len(sheet.Faults) > 0 {
		f.setAside(name)
		return s
	}
	return screen.Settings{
		TextScale: file.TextScale, Dark: file.Dark, ReducedMotion: file.ReducedMotion,
		Sound: file.Sound, Words: cases.Words(file.Words), Labels: file.Labels, Learner: file.Learner,
	}
}

// SaveSettings keeps the settings.
func (f Folder) SaveSettings(s screen.Settings) error {
	data, err := gojson.MarshalIndent(settingsFile{s.TextScale, s.Dark, s.ReducedMotion, s.Sound, string(s.Words), s.Labels, s.Learner}, "", "  ")
	if err != nil {
		return err
	}
	return f.write("settings.json", append(data, '\n'))
}

// Drafts reads every plan that was begun, by pack-id/case-id.
func (f Folder) Drafts() map[string]*cases.Plan {
	drafts := map[string]*cases.Plan{}
	if f.dir == "" {
		return drafts
	}
	names, err := filepath.Glob(filepath.Join(f.dir, "drafts", "*.json"))
	if err != nil {
		return drafts
	}
	for _, name := range names {
		data, err := f.read(name)
		if err != nil {
			continue
		}
		p, err := cases.ReadPlan(name, data)
		if err != nil {
			f.setAside(name)
			continue
		}
		drafts[p.Case] = p
	}
	return drafts
}

// First tells whether nothing was ever kept here: a first start.
func (f Folder) First() bool {
	if f.dir == "" {
		return false
	}
	_, err := os.Stat(filepath.Join(f.dir, "settings.json"))
	return errors.Is(err, fs.ErrNotExist) && f.Latest() == nil
}

// Latest is the plan that was changed last, nil when there is none.
func (f Folder) Latest() *cases.Plan {
	if f.dir == "" {
		return nil
	}
	names, err := filepath.Glob(filepath.Join(f.dir, "drafts", "*.json"))
	if err != nil {
		return nil
	}
	newest, changed := "", time.Time{}
	for _, name := range names { // in order of their names, so that a tie has one answer
		if info, err := os.Stat(name); err == nil && info.ModTime().After(changed) {
			newest, changed = name, info.ModTime()
		}
	}
	if newest == "" {
		return nil
	}
	data, err := f.read(newest)
	if err != nil {
		return nil
	}
	p, err := cases.ReadPlan(newest, data)
	if err != nil {
		return nil
	}
	return p
}

// SaveDraft keeps a plan that was begun.
func (f Folder) SaveDraft(p *cases.Plan) error {
	return f.write(filepath.Join("drafts", draftName(p.Case)), append(cases.Canonical(p), '\n'))
}

// DropDraft forgets a plan that was begun: it is graded and in the logbook.
func (f Folder) DropDraft(ref string) error {
	if f.dir == "" {
		return nil
	}
	err := os.Remove(filepath.Join(f.dir, "drafts", draftName(ref)))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

func draftName(ref string) string { return strings.ReplaceAll(ref, "/", "--") + ".json" }

// LastChange is when something was last kept here; the zero time when nothing
// was.
func (f Folder) LastChange() time.Time {
	if f.dir == "" {
		return time.Time{}
	}
	var latest time.Time
	for _, pattern := range []string{"*.json", "drafts/*.json"} {
		names, err := filepath.Glob(filepath.Join(f.dir, pattern))
		if err != nil {
			continue
		}
		for _, name := range names {
			if info, err := os.Stat(name); err == nil && info.ModTime().After(latest) {
				latest = info.ModTime()
			}
		}
	}
	return latest
}

// SaveSheet keeps a result sheet and says where it is.
func (f Folder) SaveSheet(name string, pdf []byte) (string, error) {
	if f.dir == "" {
		return "", errors.New("there is no folder to keep the sheet in")
	}
	if err := os.MkdirAll(filepath.Join(f.dir, "sheets"), 0o700); err != nil {
		return "", err
	}
	return filepath.Join(f.dir, "sheets", name), f.write(filepath.Join("sheets", name), pdf)
}

// SaveText keeps a text where there is no clipboard, and says where it is.
func (f Folder) SaveText(text string) (string, error) {
	if f.dir == "" {
		return "", errors.New("there is neither a clipboard nor a folder to keep the text in")
	}
	return filepath.Join(f.dir, "note.txt"), f.write("note.txt", []byte(text+"\n"))
}

func (f Folder) read(name string) ([]byte, error) {
	if f.dir == "" {
		return nil, fs.ErrNotExist
	}
	return cases.ReadFile(name)
}

func (f Folder) setAside(name string) { _ = os.Rename(name, name+".damaged") }

// write puts data under a name of the folder, all of it or nothing.
func (f Folder) write(name string, data []byte) error {
	if f.dir == "" {
		return nil
	}
	place := filepath.Join(f.dir, name)
	t, err := os.CreateTemp(filepath.Dir(place), ".new-*")
	if err != nil {
		return err
	}
	defer os.Remove(t.Name()) // gone already when all went well
	if _, err := t.Write(data); err != nil {
		t.Close()
		return err
	}
	if err := t.Sync(); err != nil {
		t.Close()
		return err
	}
	if err := t.Close(); err != nil {
		return err
	}
	return os.Rename(t.Name(), place)
}
