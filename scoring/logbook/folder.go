//go:build !js

package logbook

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"github.com/gofrs/flock"
)

// DataFolder is the user's proper folder for data of the program: below
// XDG_DATA_HOME or ~/.local/share, in Application Support, or in the local
// application data, as the system has it.
func DataFolder() (string, error) {
	base := ""
	switch runtime.GOOS {
	case "windows":
		base = os.Getenv("LocalAppData")
	case "darwin", "ios":
		if config, err := os.UserConfigDir(); err == nil {
			base = config // Application Support serves both
		}
	default:
		base = os.Getenv("XDG_DATA_HOME")
		if home, err := os.UserHomeDir(); err == nil && !filepath.IsAbs(base) {
			base = filepath.Join(home, ".local", "share")
		}
	}
	if base == "" {
		return "", errors.New("this system names no folder for your data; name one with --data DIR")
	}
	return filepath.Join(base, "leastwatt"), nil
}

// OpenFolder opens the logbook of a folder, which it makes if need be; ""
// means [DataFolder]. One process holds it at a time: for a second one the
// error is an [InUseError].
func OpenFolder(dir string) (*Book, Report, error) {
	store, err := OpenFiles(dir)
	if err != nil {
		return nil, Report{}, err
	}
	book, report, err := Open(store)
	if err != nil {
		return nil, report, errors.Join(err, store.Close())
	}
	return book, report, nil
}

// HasLogbook tells whether a folder, "" means [DataFolder], holds a logbook.
// It returns the folder too.
func HasLogbook(dir string) (string, bool, error) {
	if dir == "" {
		var err error
		if dir, err = DataFolder(); err != nil {
			return "", false, err
		}
	}
	there, err := (&folder{dir: dir}).exists(logName)
	return dir, there, err
}

// OpenFiles is the store of [OpenFolder]: the file logbook.jsonl, and beside
// it logbook.jsonl.damaged and logbook.lock.
func OpenFiles(dir string) (Store, error) {
	if dir == "" {
		var err error
		if dir, err = DataFolder(); err != nil {
			return nil, err
		}
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the folder for the logbook cannot be made: %w", err)
	}
	lock := flock.New(filepath.Join(dir, lockName))
	held, err := lock.TryLock()
	if err != nil {
		return nil, fmt.Errorf("the logbook cannot be locked against a second window: %w", err)
	}
	if !held {
		return nil, &InUseError{dir}
	}
	f, err := openFiles(&folder{dir: dir, lock: lock})
	if err != nil {
		return nil, errors.Join(fmt.Errorf("the logbook cannot be opened: %w", err), lock.Unlock())
	}
	return f, nil
}

// folder is a disk on the system's own files.
type folder struct {
	dir  string
	lock *flock.Flock
}

type folderFile struct{ *os.File }

func (f folderFile) Size() (int64, error) {
	info, err := f.Stat()
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

func (d *folder) path(name string) string { return filepath.Join(d.dir, name) }

func (d *folder) open(name string) (diskFile, error) {
	f, err := os.OpenFile(d.path(name), os.O_RDWR|os.O_APPEND|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	return folderFile{f}, nil
}

func (d *folder) exists(name string) (bool, error) {
	_, err := os.Stat(d.path(name))
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}

func (d *folder) rename(from, to string) error { return os.Rename(d.path(from), d.path(to)) }

func (d *folder) remove(name string) error { return os.Remove(d.path(name)) }

// syncFolder does nothing on Windows, which has no such call and writes names
// with the files.
func (d *folder) syncFolder() error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(d.dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

func (d *folder) release() error {
	if d.lock == nil {
		return nil
	}
	return d.lock.Unlock()
}
