package logbook

import (
	"bytes"
	"io"
	"slices"
)

// Store is where the bytes of a logbook lie: a file, a browser's database, or
// memory. A Book uses it from one goroutine at a time, except ReadAt.
type Store interface {
	io.ReaderAt

	// Size is the number of bytes, written but unsynced ones included.
	Size() (int64, error)
	// Append adds bytes at the end. After an error any part of them, or none,
	// may be there.
	Append(b []byte) error
	// Sync returns when all that was appended survives a loss of power.
	Sync() error
	// Cut drops what stands behind the first size bytes, and syncs. It is also
	// how a Book starts afresh after a failed Append or Sync.
	Cut(size int64) error
	// Replace puts in place of everything what write writes, and syncs: all of
	// it, or after an error the old bytes.
	Replace(write func(io.Writer) error) error
	// Aside keeps damaged bytes beside the logbook, and syncs. It adds to what
	// it kept before.
	Aside(b []byte) error
	// Name is what messages call the logbook, AsideName where Aside keeps.
	Name() string
	AsideName() string
	// Close gives the store free for others.
	Close() error
}

// Memory is a store that ends with the process: for a system without a place
// to keep anything, and for tests. The zero value is empty and ready.
type Memory struct {
	Kept   []byte // the logbook
	Beside []byte // what was set aside
}

// ReadAt reads as io.ReaderAt says.
func (m *Memory) ReadAt(p []byte, off int64) (int, error) {
	return bytes.NewReader(m.Kept).ReadAt(p, off)
}

// Size is the number of bytes.
func (m *Memory) Size() (int64, error) { return int64(len(m.Kept)), nil }

// Append adds bytes at the end.
func (m *Memory) Append(b []byte) error { m.Kept = append(m.Kept, b...); return nil }

// Sync has nothing to do.
func (m *Memory) Sync() error { return nil }

// Cut drops the end.
func (m *Memory) Cut(size int64) error { m.Kept = m.Kept[:size]; return nil }

// Replace puts other bytes in place.
func (m *Memory) Replace(write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	m.Kept = b.Bytes()
	return nil
}

// Aside keeps damaged bytes.
func (m *Memory) Aside(b []byte) error { m.Beside = slices.Concat(m.Beside, b); return nil }

// Name is what messages call the logbook.
func (m *Memory) Name() string { return "logbook in memory" }

// AsideName is where Aside keeps.
func (m *Memory) AsideName() string { return "memory beside it" }

// Close has nothing to do.
func (m *Memory) Close() error { return nil }
