package logbook

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// The names in the folder of a logbook.
const (
	logName   = "logbook.jsonl"
	freshName = "logbook.jsonl.new"     // half of a Replace
	asideName = "logbook.jsonl.damaged" // what Aside keeps
	lockName  = "logbook.lock"
)

// disk is the little that a files store needs of a folder. Tests put a faulty
// one in its place.
type disk interface {
	// open opens a file for reading and appending; it makes one if there is none.
	open(name string) (diskFile, error)
	exists(name string) (bool, error)
	rename(from, to string) error
	remove(name string) error
	// syncFolder returns when names made and changed survive a loss of power.
	syncFolder() error
	path(name string) string
	release() error
}

type diskFile interface {
	io.ReaderAt
	io.Writer // at the end
	io.Closer
	Truncate(size int64) error
	Sync() error
	Size() (int64, error)
}

// files is a Store in a folder.
type files struct {
	disk disk
	log  diskFile // nil after a failure to open it again
}

// openFiles opens the log of a folder. A Replace that was interrupted is
// undone, or finished where its last step had begun: the fresh file is whole
// before the old one is touched.
func openFiles(d disk) (*files, error) {
	there, err := d.exists(logName)
	if err != nil {
		return nil, err
	}
	fresh, err := d.exists(freshName)
	switch {
	case err != nil:
		return nil, err
	case fresh && there:
		err = d.remove(freshName)
	case fresh:
		err = d.rename(freshName, logName)
	}
	if err != nil {
		return nil, err
	}
	f := &files{disk: d}
	if f.log, err = d.open(logName); err != nil {
		return nil, err
	}
	// The name must be as durable as the lines in it. An earlier opening may
	// have made it and failed before this.
	if err := d.syncFolder(); err != nil {
		return nil, errors.Join(err, f.log.Close())
	}
	return f, nil
}

// open opens the log again where an earlier try failed.
func (f *files) open() error {
	if f.log != nil {
		return nil
	}
	log, err := f.disk.open(logName)
	if err == nil {
		f.log = log
	}
	return err
}

func (f *files) ReadAt(p []byte, off int64) (int, error) {
	if err := f.open(); err != nil {
		return 0, err
	}
	return f.log.ReadAt(p, off)
}

func (f *files) Size() (int64, error) {
	if err := f.open(); err != nil {
		return 0, err
	}
	return f.log.Size()
}

func (f *files) Append(b []byte) error {
	if err := f.open(); err != nil {
		return err
	}
	_, err := f.log.Write(b)
	return err
}

func (f *files) Sync() error {
	if err := f.open(); err != nil {
		return err
	}
	return f.log.Sync()
}

// Cut opens the file anew: after a failed sync the old handle is not to be
// trusted, since a second sync may report success for what was dropped.
func (f *files) Cut(size int64) error {
	if err := f.reopen(); err != nil {
		return err
	}
	if err := f.log.Truncate(size); err != nil {
		return err
	}
	return f.log.Sync()
}

func (f *files) reopen() error {
	if f.log != nil {
		_ = f.log.Close() // what it had to say was said by the write or the sync
		f.log = nil
	}
	return f.open()
}

func (f *files) Replace(write func(io.Writer) error) error {
	if err := f.writeFresh(write); err != nil {
		_ = f.disk.remove(freshName)
		return err
	}
	// Some systems do not rename over a file that is open.
	if f.log != nil {
		_ = f.log.Close()
		f.log = nil
	}
	if err := f.disk.rename(freshName, logName); err != nil {
		return errors.Join(err, f.reopen())
	}
	return errors.Join(f.disk.syncFolder(), f.reopen())
}

func (f *files) writeFresh(write func(io.Writer) error) error {
	if err := f.disk.remove(freshName); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	fresh, err := f.disk.open(freshName)
	if err != nil {
		return err
	}
	if err := write(fresh); err != nil {
		return errors.Join(err, fresh.Close())
	}
	if err := fresh.Sync(); err != nil {
		return errors.Join(err, fresh.Close())
	}
	return fresh.Close()
}

func (f *files) Aside(b []byte) error {
	aside, err := f.disk.open(asideName)
	if err != nil {
		return err
	}
	if _, err := aside.Write(b); err != nil {
		return errors.Join(err, aside.Close())
	}
	if err := aside.Sync(); err != nil {
		return errors.Join(err, aside.Close())
	}
	return errors.Join(aside.Close(), f.disk.syncFolder())
}

func (f *files) Name() string      { return f.disk.path(logName) }
func (f *files) AsideName() string { return f.disk.path(asideName) }

func (f *files) Close() error {
	var err error
	if f.log != nil {
		err = f.log.Close()
		f.log = nil
	}
	return errors.Join(err, f.disk.release())
}

// InUseError says that another window has the logbook open.
type InUseError struct{ Folder string }

func (e *InUseError) Error() string {
	return fmt.Sprintf("%s: another window of Leastwatt has this logbook open; close it, or go on there", e.Folder)
}
