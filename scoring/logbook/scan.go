package logbook

import (
	"bytes"
	"io"
)

// ref is where a line lies and what it is sorted by.
type ref struct {
	key
	at   int64
	line int32 // bytes, newline included
	head int32
	crc  uint32 // of the head, so that equal lines are found without reading
	row  int    // line number, from 1
}

// span is a run of bytes that are no whole line.
type span struct {
	at, end int64
	row     int // line number of its first byte
	why     string
	tail    bool // it reaches to the end of the file: a write that was cut off
}

// scanned is what a walk over a logbook finds.
type scanned struct {
	refs    []ref
	newer   []ref   // whole lines of a version this program cannot read
	damaged []span  // in the order of the file, never touching
	noBreak []int64 // ends of whole lines that lack their newline
	rows    int
}

// batchBytes bounds what is written between two syncs, a single longer line
// apart. Of so much the end of a file can be torn in any way by a loss of
// power, and so that much of it is checked whole.
const batchBytes = 4 << 20

// windowBytes is how much is read at once: the head of a line and more.
const windowBytes = 16 << 10

// window reads pieces of a store through one buffer.
type window struct {
	r    io.ReaderAt
	size int64
	buf  []byte
	at   int64
	n    int
}

// bytes returns n bytes from off, fewer at the end of the store. They are good
// until the next call.
func (w *window) bytes(off int64, n int) ([]byte, error) {
	n = int(min(int64(n), w.size-off))
	if off < w.at || off+int64(n) > w.at+int64(w.n) {
		want := int(min(int64(max(n, windowBytes)), w.size-off))
		if cap(w.buf) < want {
			w.buf = make([]byte, want)
		}
		got, err := w.r.ReadAt(w.buf[:want], off)
		if err == io.EOF && got == want {
			err = nil
		}
		if err != nil {
			return nil, err
		}
		w.at, w.n = off, want
	}
	from := int(off - w.at)
	return w.buf[from : from+n], nil
}

// nextLine finds where the next line may begin behind off: behind a newline,
// or at the opening letters of a line, since a hole in the bytes may have
// swallowed the newline before them. Within a line those letters cannot stand:
// in a JSON text their quotes are escaped. At last it is the end of the store.
func (w *window) nextLine(off int64) (int64, error) {
	for off++; off < w.size; {
		b, err := w.bytes(off-1, windowBytes)
		if err != nil {
			return 0, err
		}
		next := len(b)
		if i := bytes.IndexByte(b, '\n'); i >= 0 {
			next = i + 1
		}
		if i := bytes.Index(b[1:], []byte(frameOpen)); i >= 0 && i+1 < next {
			next = i + 1
		}
		if next < len(b) || b[next-1] == '\n' {
			return off - 1 + int64(next), nil
		}
		// Letters that open a line may begin in this piece and end in the next.
		off += int64(max(len(b)-len(frameOpen), 1))
	}
	return w.size, nil
}

// scan walks over the first size bytes of a logbook. It reads the heads and
// hops over the bodies, which makes a long logbook open fast; a body is
// checked when it is read. Checked whole at once are the lines of the last
// batch, because a write that was cut off can only be there, and lines without
// their newline.
// The error is the store's.
func scan(r io.ReaderAt, size int64) (*scanned, error) {
	s := &scanned{}
	w := &window{r: r, size: size}
	row := 1
	for at := int64(0); at < size; row++ {
		got, why, err := s.line(w, at, row)
		if err != nil {
			return nil, err
		}
		if why == "" {
			at += int64(got)
			continue
		}
		end, err := w.nextLine(at)
		if err != nil {
			return nil, err
		}
		s.damage(span{at: at, end: end, row: row, why: why})
		if last, err := w.bytes(end-1, 1); err != nil {
			return nil, err
		} else if last[0] != '\n' && end < size {
			row-- // the next line goes on in this one
		}
		at = end
	}
	s.rows = row - 1
	if n := len(s.damaged); n > 0 && s.damaged[n-1].end == size {
		s.damaged[n-1].tail = true
	}
	return s, nil
}

// damage notes a span; one that touches the last is one with it.
func (s *scanned) damage(d span) {
	if n := len(s.damaged); n > 0 && s.damaged[n-1].end == d.at {
		s.damaged[n-1].end = d.end
		return
	}
	s.damaged = append(s.damaged, d)
}

// line reads the line at an offset. It returns its length, or why it is not
// whole.
func (s *scanned) line(w *window, at int64, row int) (length int, why string, err error) {
	b, err := w.bytes(at, atEntry)
	if err != nil {
		return 0, "", err
	}
	f := parseFrame(b)
	if !f.complete {
		return 0, "it does not begin as a line does", nil
	}
	// A line may lack its newline at the end of the file, or by damage.
	if at+int64(f.line)-1 > w.size {
		return 0, "it is cut off", nil
	}
	head, err := w.bytes(at, f.head)
	if err != nil {
		return 0, "", err
	}
	if !f.headWhole(head) {
		return 0, "its checksum differs", nil
	}
	k, ok := parseKey(head[atEntry:])
	if !ok && f.version <= FormatVersion {
		return 0, "it has no identity and time", nil
	}
	last, err := w.bytes(at+int64(f.line)-1, 1)
	if err != nil {
		return 0, "", err
	}
	length = f.line
	broken := len(last) == 0 || last[0] != '\n'
	if broken || at+int64(f.line) >= w.size-batchBytes {
		rest, err := w.bytes(at+int64(f.head), f.line-f.head-1)
		if err != nil {
			return 0, "", err
		}
		if !f.bodyWhole(rest) {
			return 0, "its checksum differs", nil
		}
	}
	if broken {
		s.noBreak = append(s.noBreak, at+int64(f.line)-1)
	}
	entry := ref{key: k, at: at, line: int32(f.line), head: int32(f.head), crc: f.headCRC, row: row}
	if f.version > FormatVersion {
		s.newer = append(s.newer, entry)
	} else {
		s.refs = append(s.refs, entry)
	}
	return length, "", nil
}
