package logbook

import (
	"fmt"
	"io"
	"iter"
	"runtime"
	"slices"
	"sort"
	"sync"
)

// batchHeads is how many heads are read and decoded together.
const batchHeads = 256

// Entries goes through the entries that count, in the order of time and then
// identity, without the bodies of attempts. What is appended meanwhile may or
// may not be met. An entry that cannot be read gives an error that names its
// line, and the walk goes on behind it.
func (b *Book) Entries() iter.Seq2[*Entry, error] {
	return func(yield func(*Entry, error) bool) {
		heads := make([][]byte, batchHeads)
		batch := make([]ref, 0, batchHeads)
		out := make([]*Entry, batchHeads)
		errs := make([]error, batchHeads)
		var last *key
		for {
			batch = b.batch(batch[:0], last)
			if len(batch) == 0 {
				return
			}
			b.readHeads(batch, heads, errs)
			decodeHeads(batch, heads, out, errs)
			for i := range batch {
				if errs[i] != nil {
					out[i] = nil
					errs[i] = fmt.Errorf("%s:%d:1: %w", b.Name(), batch[i].row, errs[i])
				}
				if !yield(out[i], errs[i]) {
					return
				}
			}
			k := batch[len(batch)-1].key
			last = &k
		}
	}
}

// All is Entries in one list. The error is the first that was met; the list
// holds the rest.
func (b *Book) All() ([]*Entry, error) {
	all := make([]*Entry, 0, b.Len())
	var first error
	for e, err := range b.Entries() {
		if err == nil {
			all = append(all, e)
		} else if first == nil {
			first = err
		}
	}
	return all, first
}

// Name is what messages call the logbook.
func (b *Book) Name() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.store == nil {
		return "the logbook"
	}
	return b.store.Name()
}

// batch is the next lines that count behind a key.
func (b *Book) batch(into []ref, last *key) []ref {
	b.mu.Lock()
	defer b.mu.Unlock()
	n, i := b.count(), 0
	if last != nil {
		i = sort.Search(n, func(i int) bool { return compareRefs(b.at(i), ref{key: *last}) > 0 })
	}
	for ; i < n && len(into) < batchHeads; i++ {
		into = append(into, b.at(i))
	}
	return into
}

// readHeads reads what the checksums of the heads cover, into buffers that are
// used again.
func (b *Book) readHeads(batch []ref, heads [][]byte, errs []error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for i, r := range batch {
		n := int(r.head) - atCovered
		heads[i] = slices.Grow(heads[i][:0], n)[:n]
		if b.store == nil {
			errs[i] = errClosed
			continue
		}
		got, err := b.store.ReadAt(heads[i], r.at+int64(atCovered))
		if err == io.EOF && got == n {
			err = nil
		}
		errs[i] = err
	}
}

// decodeHeads shares the work among the processors. The result does not depend
// on how many there are.
func decodeHeads(batch []ref, heads [][]byte, out []*Entry, errs []error) {
	workers := min(runtime.GOMAXPROCS(0), 4)
	share := (len(batch) + workers - 1) / workers
	var wg sync.WaitGroup
	for from := 0; from < len(batch); from += share {
		wg.Go(func() {
			for i := from; i < min(from+share, len(batch)); i++ {
				if errs[i] == nil && checksum(heads[i]) != batch[i].crc {
					errs[i] = errDamaged
				}
				if errs[i] == nil {
					out[i], errs[i] = decodeHead(heads[i][atEntry-atCovered:])
				}
			}
		})
	}
	wg.Wait()
}

// Whole reads one entry with its body. The error says that there is no such
// entry, or which line is damaged.
func (b *Book) Whole(id string) (*Entry, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.store == nil {
		return nil, errClosed
	}
	r, there := b.find(id)
	if !there {
		return nil, fmt.Errorf("%s: there is no entry with the identity %q", b.store.Name(), shorten(id))
	}
	line, err := b.read(r.at, int(r.line))
	if err != nil {
		return nil, err
	}
	e, err := DecodeLine(line)
	if err != nil {
		return nil, fmt.Errorf("%s:%d:1: %w", b.store.Name(), r.row, err)
	}
	return e, nil
}

// find returns the line that counts for an identity. Only one with several
// contents must be looked for.
func (b *Book) find(id string) (ref, bool) {
	utc, there := b.byID[id]
	if !there {
		return ref{}, false
	}
	n := b.count()
	want := ref{key: key{utc, id}}
	i := sort.Search(n, func(i int) bool { return compareRefs(b.at(i), want) >= 0 })
	if i < n && b.at(i).key == want.key {
		return b.at(i), true
	}
	for i := range n {
		if r := b.at(i); r.id == id {
			return r, true
		}
	}
	return ref{}, false
}
