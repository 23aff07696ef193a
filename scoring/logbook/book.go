package logbook

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"
	"sync"
)

// Book is an open logbook: the set of its lines, in the order of time and then
// identity. A line that stands twice counts once. Two lines of one identity
// with different content are both kept, for neither can be told to be the
// better one; the one whose head has the smaller bytes counts, whatever the
// order in which they came. A Book may be used from several goroutines.
type Book struct {
	mu     sync.Mutex
	store  Store
	size   int64            // bytes that are acknowledged
	rows   int              // lines in them
	refs   []ref            // sorted; one a line
	shown  []int            // indexes into refs of those that count; nil means all
	byID   map[string]int64 // time of a line of each identity
	newer  []ref
	failed bool // an append failed: what stands behind size is to be cut
	hurt   bool // damage was found and is not set aside yet
}

// Open reads a logbook. Damaged bytes are set aside, once; the report says so.
// When they cannot be, the entries are still there to read, and Append tries
// again first. The error says why nothing can be read at all.
func Open(store Store) (*Book, Report, error) {
	b := &Book{store: store}
	report := Report{File: store.Name(), Damaged: []Damage{}, Clashes: []string{}}
	found, err := b.load(&report)
	if err != nil {
		return nil, report, err
	}
	if len(found.damaged) == 0 && len(found.noBreak) == 0 {
		return b, report, nil
	}
	if err := b.setAside(found); err != nil {
		b.hurt = true
		report.Undone = err.Error()
		return b, report, nil
	}
	if len(found.damaged) > 0 {
		report.Aside = store.AsideName()
	}
	return b, report, nil
}

// load scans the store and fills the book and the report from it.
func (b *Book) load(report *Report) (*scanned, error) {
	size, err := b.store.Size()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", b.store.Name(), err)
	}
	found, err := scan(b.store, size)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", b.store.Name(), err)
	}
	b.size, b.rows, b.newer = size, found.rows, found.newer
	for _, d := range found.damaged {
		report.Damaged = append(report.Damaged, Damage{d.row, d.end - d.at, d.why, d.tail})
	}
	report.Newer = len(found.newer)
	return found, b.fill(found.refs, report)
}

// fill takes the lines that were found: sorted, each once.
func (b *Book) fill(refs []ref, report *Report) error {
	slices.SortStableFunc(refs, compareRefs)
	kept := refs[:0]
	b.byID = make(map[string]int64, len(refs))
	for _, r := range refs {
		if n := len(kept); n > 0 && kept[n-1].key == r.key {
			same, err := b.among(kept, r, nil)
			if err != nil {
				return err
			}
			if same {
				report.Repeated++
				continue
			}
		}
		b.byID[r.id] = r.utc
		kept = append(kept, r)
	}
	b.refs = kept
	clashes, err := b.choose()
	report.Clashes = append(report.Clashes, clashes...)
	report.Kept = b.count()
	return err
}

func compareRefs(x, y ref) int {
	switch {
	case x.utc < y.utc:
		return -1
	case x.utc > y.utc:
		return 1
	}
	return strings.Compare(x.id, y.id)
}

// among tells whether a line is one of those of the same key in a sorted list.
// Its head is read from the store unless it is given.
func (b *Book) among(refs []ref, r ref, head []byte) (bool, error) {
	from := sort.Search(len(refs), func(i int) bool { return compareRefs(refs[i], r) >= 0 })
	for _, other := range refs[from:] {
		if other.key != r.key {
			break
		}
		if other.crc != r.crc || other.head != r.head || other.line != r.line {
			continue
		}
		if head == nil {
			var err error
			if head, err = b.head(r); err != nil {
				return false, err
			}
		}
		theirs, err := b.head(other)
		if err != nil {
			return false, err
		}
		if bytes.Equal(head, theirs) {
			return true, nil
		}
	}
	return false, nil
}

// choose settles which line counts for an identity with several contents.
func (b *Book) choose() (clashes []string, err error) {
	b.shown = nil
	if len(b.byID) == len(b.refs) {
		return nil, nil
	}
	best := make(map[string]int, len(b.refs))
	for i, r := range b.refs {
		old, taken := best[r.id]
		if !taken {
			best[r.id] = i
			continue
		}
		if !slices.Contains(clashes, r.id) {
			clashes = append(clashes, r.id)
		}
		mine, err := b.head(r)
		if err != nil {
			return nil, err
		}
		theirs, err := b.head(b.refs[old])
		if err != nil {
			return nil, err
		}
		if bytes.Compare(mine[atCovered:], theirs[atCovered:]) < 0 {
			best[r.id] = i
		}
	}
	b.shown = make([]int, 0, len(best))
	for i, r := range b.refs {
		if best[r.id] == i {
			b.shown = append(b.shown, i)
		}
	}
	slices.Sort(clashes)
	return clashes, nil
}

func (b *Book) count() int {
	if b.shown != nil {
		return len(b.shown)
	}
	return len(b.refs)
}

// at is the i-th line that counts.
func (b *Book) at(i int) ref {
	if b.shown != nil {
		i = b.shown[i]
	}
	return b.refs[i]
}

func (b *Book) head(r ref) ([]byte, error) { return b.read(r.at, int(r.head)) }

func (b *Book) read(at int64, n int) ([]byte, error) {
	p := make([]byte, n)
	got, err := b.store.ReadAt(p, at)
	if err != nil && (err != io.EOF || got < n) {
		return nil, fmt.Errorf("%s: %w", b.store.Name(), err)
	}
	return p, nil
}

// setAside keeps the damaged bytes beside the logbook and then takes them out
// of it. Nothing is taken out before it is safe elsewhere.
func (b *Book) setAside(found *scanned) error {
	for _, d := range found.damaged {
		for at := d.at; at < d.end; {
			piece, err := b.read(at, int(min(d.end-at, 1<<20)))
			if err != nil {
				return err
			}
			if at += int64(len(piece)); at == d.end && !bytes.HasSuffix(piece, []byte("\n")) {
				piece = append(piece, '\n')
			}
			if err := b.store.Aside(piece); err != nil {
				return err
			}
		}
	}
	if len(found.damaged) == 1 && found.damaged[0].tail && len(found.noBreak) == 0 {
		if err := b.store.Cut(found.damaged[0].at); err != nil {
			return err
		}
		b.size = found.damaged[0].at
		return nil
	}
	// An error may also come after the new bytes are in place, so that lines lie
	// elsewhere than they did.
	failure := b.store.Replace(b.copyWhole)
	_, err := b.load(&Report{})
	return errors.Join(failure, err)
}

// copyWhole copies the whole lines, each with its newline, as they stand.
func (b *Book) copyWhole(w io.Writer) error {
	lines := slices.Concat(b.refs, b.newer)
	slices.SortFunc(lines, func(x, y ref) int {
		if x.at < y.at {
			return -1
		}
		return 1
	})
	buffered := bufio.NewWriterSize(w, 1<<20)
	for _, r := range lines {
		if _, err := io.Copy(buffered, io.NewSectionReader(b.store, r.at, int64(r.line)-1)); err != nil {
			return err
		}
		if err := buffered.WriteByte('\n'); err != nil {
			return err
		}
	}
	return buffered.Flush()
}

// mend makes the store ready for an append: the end of a failed one is cut
// off, and damage that could not be set aside is tried again.
func (b *Book) mend() error {
	if b.failed {
		if err := b.store.Cut(b.size); err != nil {
			return fmt.Errorf("%s: an earlier save failed and its rest cannot be taken back: %w", b.store.Name(), err)
		}
		b.failed = false
	}
	if b.hurt {
		found, err := b.load(&Report{})
		if err != nil {
			return err
		}
		if err := b.setAside(found); err != nil {
			return fmt.Errorf("%s: damaged bytes cannot be set aside: %w", b.store.Name(), err)
		}
		b.hurt = false
	}
	return nil
}

// errClosed is what a closed book answers.
var errClosed = errors.New("the logbook is closed")

// Append adds an entry. It returns nil only after the whole line is synced.
// After an error the entry is not saved and may be given again. An entry that
// is there already changes nothing; its identity with other content is an
// error.
func (b *Book) Append(e Entry) error {
	line, err := EncodeLine(&e)
	if err != nil {
		return err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.store == nil {
		return errClosed
	}
	r := refOf(line)
	if _, taken := b.byID[e.ID]; taken {
		same, err := b.among(b.refs, r, line[:r.head])
		if err == nil && !same {
			err = fmt.Errorf("%s: the identity %s is taken by another entry; every entry needs its own", b.store.Name(), e.ID)
		}
		return err
	}
	return b.add(line, []ref{r})
}

// refOf is where a whole line will lie: r.at counts from its own start.
func refOf(line []byte) ref {
	f := parseFrame(line)
	k, _ := parseKey(line[atEntry:])
	return ref{key: k, line: int32(f.line), head: int32(f.head), crc: f.headCRC}
}

// add writes whole lines, syncs, and takes them into the book.
func (b *Book) add(lines []byte, refs []ref) error {
	if err := b.mend(); err != nil {
		return err
	}
	err := b.store.Append(lines)
	if err == nil {
		err = b.store.Sync()
	}
	if err != nil {
		// Taken back at once: after a failed sync the lines may be there to read
		// now and gone after a loss of power. What fails here, the next append
		// tries again.
		b.failed = true
		_ = b.mend()
		return fmt.Errorf("%s: the entry is not saved: %w", b.store.Name(), err)
	}
	for i := range refs {
		refs[i].at += b.size
		b.rows++
		refs[i].row = b.rows
	}
	b.merge(refs)
	b.size += int64(len(lines))
	_, err = b.choose()
	return err
}

// merge takes new lines into the order. It works from the end, where new lines
// nearly always belong.
func (b *Book) merge(fresh []ref) {
	slices.SortStableFunc(fresh, compareRefs)
	i, j := len(b.refs)-1, len(fresh)-1
	b.refs = append(b.refs, fresh...)
	for k := len(b.refs) - 1; j >= 0; k-- {
		b.byID[fresh[j].id] = fresh[j].utc
		if i >= 0 && compareRefs(b.refs[i], fresh[j]) > 0 {
			b.refs[k] = b.refs[i]
			i--
			continue
		}
		b.refs[k] = fresh[j]
		j--
	}
}

// Len is the number of entries that count.
func (b *Book) Len() int {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.count()
}

// Close gives the logbook free for others.
func (b *Book) Close() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.store == nil {
		return nil
	}
	err := b.store.Close()
	b.store = nil
	return err
}
