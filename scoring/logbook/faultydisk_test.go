package logbook

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"math/rand/v2"
	"slices"
)

// faultyDisk is a disk in memory that fails as disks do, by a seed. It keeps
// apart what programs see and what survives a loss of power.
type faultyDisk struct {
	rng     *rand.Rand
	faults  bool // off while a test looks at what is left
	lying   bool // syncs may say they were done when they were not
	room    int  // bytes until it is full
	live    map[string]*faultyFile
	durable map[string]*faultyFile // names as of the last syncFolder
	undone  int                    // names that were changed since
	truths  int                    // syncs of the log that were done
	lied    bool                   // the last one was not
	drops   int                    // syncs of the log that failed
	liedAll bool                   // a whole new log was put in place under a lie
}

type faultyFile struct {
	live    []byte // what programs read
	durable []byte // what survives
	dropped [2]int // a range that a failed sync dropped: a later one skips it
	lied    bool
}

var (
	errIO   = errors.New("input/output error")
	errFull = errors.New("no space left on device")
)

func newFaultyDisk(rng *rand.Rand) *faultyDisk {
	return &faultyDisk{rng: rng, room: 1 << 30, live: map[string]*faultyFile{}, durable: map[string]*faultyFile{}}
}

// chance is true one time in n while faults are on.
func (d *faultyDisk) chance(n int) bool { return d.faults && d.rng.IntN(n) == 0 }

func (d *faultyDisk) open(name string) (diskFile, error) {
	if d.chance(40) {
		return nil, errIO
	}
	f := d.live[name]
	if f == nil {
		f = &faultyFile{}
		d.live[name] = f
		d.undone++
	}
	return &faultyHandle{d, f, name}, nil
}

func (d *faultyDisk) exists(name string) (bool, error) { return d.live[name] != nil, nil }

func (d *faultyDisk) rename(from, to string) error {
	if d.chance(8) {
		return errIO
	}
	d.live[to] = d.live[from]
	delete(d.live, from)
	if to == logName {
		d.liedAll = d.live[to].lied
	}
	d.undone++
	return nil
}

func (d *faultyDisk) remove(name string) error {
	if d.live[name] == nil {
		return fs.ErrNotExist
	}
	delete(d.live, name)
	d.undone++
	return nil
}

func (d *faultyDisk) syncFolder() error {
	if d.chance(20) {
		return errIO
	}
	d.durable = map[string]*faultyFile{}
	for name, f := range d.live {
		d.durable[name] = f
	}
	d.undone = 0
	return nil
}

func (d *faultyDisk) path(name string) string { return name }
func (d *faultyDisk) release() error          { return nil }

type faultyHandle struct {
	disk *faultyDisk
	*faultyFile
	name string
}

func (h *faultyHandle) ReadAt(p []byte, off int64) (int, error) {
	if h.disk.chance(200) {
		return 0, errIO
	}
	return bytes.NewReader(h.live).ReadAt(p, off)
}

func (h *faultyHandle) Write(p []byte) (int, error) {
	n, err := len(p), error(nil)
	switch {
	case n > h.disk.room:
		n, err = h.disk.room, errFull
	case h.disk.chance(12):
		n, err = h.disk.rng.IntN(n+1), errIO
	case h.disk.chance(30):
		n, err = h.disk.rng.IntN(n+1), io.ErrShortWrite
	}
	h.live = append(h.live, p[:n]...)
	h.disk.room -= n
	return n, err
}

func (h *faultyHandle) Close() error { return nil }

func (h *faultyHandle) Truncate(size int64) error {
	if h.disk.chance(15) {
		return errIO
	}
	h.disk.room += len(h.live) - int(size)
	h.live = slices.Clone(h.live[:size])
	h.dropped[1] = min(h.dropped[1], int(size)) // what is written there anew is not dropped
	h.dropped[0] = min(h.dropped[0], h.dropped[1])
	return nil
}

func (h *faultyHandle) Sync() error {
	if h.disk.chance(12) {
		h.dropped = [2]int{min(len(h.durable), len(h.live)), len(h.live)}
		if h.name == logName {
			h.disk.drops++
		}
		return errIO
	}
	if h.disk.lying && h.disk.chance(6) {
		h.lied = true
		h.disk.lied = h.name == logName
		return nil
	}
	h.lied = false
	h.durable = slices.Clone(h.live)
	clear(h.durable[min(h.dropped[0], len(h.durable)):min(h.dropped[1], len(h.durable))])
	if h.name == logName {
		h.disk.truths++
		h.disk.lied = false
		h.disk.liedAll = false
	}
	return nil
}

func (h *faultyHandle) Size() (int64, error) { return int64(len(h.live)), nil }

// losePower leaves what is durable, and of the rest what a disk may leave:
// nothing, a part, or a part with a hole. Names that were not synced may have
// gone over or not, or be torn: the old one gone and the new one not there.
func (d *faultyDisk) losePower() {
	names := d.durable
	if d.undone > 0 {
		switch d.rng.IntN(3) {
		case 0:
			names = d.live
		case 1:
			if was, is := d.durable[logName], d.live[logName]; was != nil && is != nil && was != is && d.live[freshName] == nil {
				names = map[string]*faultyFile{freshName: is}
				for name, f := range d.durable {
					if name != logName && name != freshName {
						names[name] = f
					}
				}
			}
		}
	}
	left := map[string]*faultyFile{}
	for _, name := range []string{logName, freshName, asideName} { // a fixed order, for the seed
		if f := names[name]; f != nil {
			b := d.leftOf(f)
			left[name] = &faultyFile{live: b, durable: slices.Clone(b)}
		}
	}
	d.live, d.durable, d.undone = left, map[string]*faultyFile{}, 0
	for name, f := range left {
		d.durable[name] = f
	}
}

func (d *faultyDisk) leftOf(f *faultyFile) []byte {
	if len(f.live) < len(f.durable) || d.rng.IntN(3) == 0 {
		return slices.Clone(f.durable)
	}
	n := len(f.durable) + d.rng.IntN(len(f.live)-len(f.durable)+1)
	b := slices.Concat(f.durable, f.live[len(f.durable):n])
	if fresh := n - len(f.durable); fresh > 0 && d.rng.IntN(2) == 0 {
		from := len(f.durable) + d.rng.IntN(fresh)
		clear(b[from : from+d.rng.IntN(n-from+1)])
	}
	clear(b[min(f.dropped[0], n):min(f.dropped[1], n)])
	return b
}
