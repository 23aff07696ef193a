package logbook

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
)

// Export writes the whole logbook as one file of the same lines, in the order
// of time, identity and content: equal sets give equal bytes. Every line is
// checked on the way. A damaged one is left out, and the report names it; the
// error is the writer's or the store's.
func (b *Book) Export(w io.Writer) (Report, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.store == nil {
		return Report{}, errClosed
	}
	report := Report{File: b.store.Name(), Damaged: []Damage{}, Clashes: []string{}, Newer: len(b.newer)}
	lines, err := b.inOrder()
	if err != nil {
		return report, err
	}
	for _, r := range lines {
		line, err := b.read(r.at, int(r.line))
		if err != nil {
			return report, err
		}
		if _, err := checkLine(line); err != nil && !errors.Is(err, errNewer) {
			report.Damaged = append(report.Damaged, Damage{Line: r.row, Bytes: int64(r.line), Why: err.Error()})
			continue
		}
		if _, err := w.Write(line); err != nil {
			return report, err
		}
		if r.id != "" {
			report.Kept++
		}
	}
	return report, nil
}

// inOrder lists every line: those of one key by their bytes, and behind them
// those of newer versions by their bytes.
func (b *Book) inOrder() ([]ref, error) {
	lines := slices.Clone(b.refs)
	var failure error
	byBytes := func(x, y ref) int {
		p, err := b.head(x)
		if err != nil {
			failure = err
		}
		q, err := b.head(y)
		if err != nil {
			failure = err
		}
		return bytes.Compare(p, q)
	}
	slices.SortFunc(lines, func(x, y ref) int {
		if c := compareRefs(x, y); c != 0 {
			return c
		}
		return byBytes(x, y)
	})
	newer := slices.Clone(b.newer)
	slices.SortFunc(newer, byBytes)
	for i := range newer {
		newer[i].key = key{}
	}
	return slices.Concat(lines, newer), failure
}

// Import adds the lines of an exported file that are not here yet. Whatever
// the order and however often files are imported, the same set comes out. A
// line that is not whole is left out and named in the report, with the file
// and line; the rest is taken. name is what messages call the file. The error
// is the reader's or the store's: what was synced before it stays, and
// importing again finishes the work.
func (b *Book) Import(name string, r io.Reader) (Report, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	report := Report{File: name, Damaged: []Damage{}, Clashes: []string{}}
	if b.store == nil {
		return report, errClosed
	}
	before := make(map[string]bool)
	for _, id := range b.clashing() {
		before[id] = true
	}
	in := &intake{book: b, report: &report}
	err := in.readAll(bufio.NewReaderSize(r, 1<<20))
	if err == nil {
		err = in.flush()
	}
	for _, id := range b.clashing() {
		if !before[id] {
			report.Clashes = append(report.Clashes, id)
		}
	}
	return report, err
}

// clashing lists the identities that have several contents.
func (b *Book) clashing() []string {
	if len(b.byID) == len(b.refs) {
		return nil
	}
	times := make(map[string]int)
	var ids []string
	for _, r := range b.refs {
		if times[r.id]++; times[r.id] == 2 {
			ids = append(ids, r.id)
		}
	}
	slices.Sort(ids)
	return ids
}

// intake collects lines up to a batch, which is one write and one sync.
type intake struct {
	book   *Book
	report *Report
	lines  []byte
	refs   []ref
	heads  map[string]bool // of this batch
}

func (in *intake) readAll(r *bufio.Reader) error {
	for row := 1; ; row++ {
		line, tooLong, err := readLine(r)
		if err != nil && err != io.EOF {
			return fmt.Errorf("%s: %w", in.report.File, err)
		}
		if len(line) == 0 && err == io.EOF {
			return nil
		}
		if tooLong > 0 {
			in.refuse(row, tooLong, fmt.Sprintf("the line is longer than %d bytes", MaxLineBytes), false)
		} else if err := in.take(row, line); err != nil {
			return err
		}
		if err == io.EOF {
			return nil
		}
	}
}

// readLine reads up to a newline, which it leaves in. Of a line that is too
// long it returns how long it was.
func readLine(r *bufio.Reader) (line []byte, tooLong int64, err error) {
	for {
		piece, err := r.ReadSlice('\n')
		if tooLong > 0 || len(line)+len(piece) > MaxLineBytes {
			tooLong += int64(len(line) + len(piece))
			line = line[:0]
		} else {
			line = append(line, piece...)
		}
		if err != bufio.ErrBufferFull {
			if tooLong > 0 {
				line = []byte{'\n'}
			}
			return line, tooLong, err
		}
	}
}

func (in *intake) refuse(row int, bytes int64, why string, torn bool) {
	in.report.Damaged = append(in.report.Damaged, Damage{Line: row, Bytes: bytes, Why: why, Torn: torn})
}

// take adds one line of the file, unless it is here or not whole.
func (in *intake) take(row int, line []byte) error {
	if len(bytes.TrimSpace(line)) == 0 {
		return nil
	}
	whole := bytes.HasSuffix(line, []byte("\n"))
	if bytes.HasSuffix(line, []byte("\r\n")) { // a transfer as text may have added it
		line = append(line[:len(line)-2], '\n')
	}
	if !whole {
		line = append(line, '\n') // the checksums tell whether more is missing
	}
	if _, err := DecodeLine(line); err != nil {
		if errors.Is(err, errNewer) {
			in.report.Newer++
			return nil
		}
		in.refuse(row, int64(len(line)), err.Error(), !whole)
		return nil
	}
	in.report.Kept++
	r := refOf(line)
	head := string(line[:r.head])
	if known, err := in.book.among(in.book.refs, r, []byte(head)); err != nil {
		return err
	} else if known || in.heads[head] {
		in.report.Repeated++
		return nil
	}
	if len(in.lines) > 0 && len(in.lines)+len(line) > batchBytes {
		if err := in.flush(); err != nil {
			return err
		}
	}
	if in.heads == nil {
		in.heads = make(map[string]bool)
	}
	in.heads[head] = true
	r.at = int64(len(in.lines))
	in.refs = append(in.refs, r)
	in.lines = append(in.lines, line...)
	return nil
}

func (in *intake) flush() error {
	if len(in.refs) == 0 {
		return nil
	}
	if err := in.book.add(in.lines, in.refs); err != nil {
		return err
	}
	in.report.Added += len(in.refs)
	in.lines, in.refs, in.heads = in.lines[:0], nil, nil
	return nil
}
