package logbook

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"strconv"

	gojson "github.com/goccy/go-json"
)

// FormatVersion is the version of line that this program writes. It reads
// every version from 1 to this one.
const FormatVersion = 1

// MaxLineBytes bounds one line: a session of 16 MiB, its grade and its plan.
const MaxLineBytes = 64 << 20

// A line is framed as
//
//	{"head_crc32c":"HHHHHHHH","logbook":1,"line":"LLLLLLLL","head":"EEEEEEEE","body_crc32c":"BBBBBBBB","entry":{...},"body":{...}}\n
//
// with eight hexadecimal digits each. LLLLLLLL counts the bytes of the line
// with its newline, EEEEEEEE those up to the end of the entry object. The head
// checksum covers all from the comma behind it to the end of the entry, the
// body checksum the rest up to the newline.
const (
	frameOpen  = `{"head_crc32c":"`
	frameLine  = `,"line":"`
	frameHead  = `","head":"`
	frameBody  = `","body_crc32c":"`
	frameEntry = `","entry":`

	atHeadCRC = len(frameOpen)
	atCovered = atHeadCRC + 8 + 1 // behind the closing quote
	atVersion = atCovered + len(`,"logbook":`)
	atLine    = atVersion + 1 + len(frameLine)
	atHead    = atLine + 8 + len(frameHead)
	atBodyCRC = atHead + 8 + len(frameBody)
	atEntry   = atBodyCRC + 8 + len(frameEntry)
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(b []byte) uint32 { return crc32.Checksum(b, castagnoli) }

// frame is what stands before the entry of a line.
type frame struct {
	version  int
	line     int // bytes of the line with its newline
	head     int // bytes up to the end of the entry
	headCRC  uint32
	bodyCRC  uint32
	complete bool // false when the bytes are no frame at all
}

// parseFrame reads the first bytes of a line. It checks the form only: the
// checksum says whether to believe it.
func parseFrame(b []byte) frame {
	var f frame
	if len(b) < atEntry || string(b[:atHeadCRC]) != frameOpen || string(b[atCovered-1:atVersion]) != `","logbook":` ||
		string(b[atVersion+1:atLine]) != frameLine || string(b[atLine+8:atHead]) != frameHead ||
		string(b[atHead+8:atBodyCRC]) != frameBody || string(b[atBodyCRC+8:atEntry]) != frameEntry {
		return f
	}
	headCRC, ok1 := hex8(b[atHeadCRC:])
	line, ok2 := hex8(b[atLine:])
	head, ok3 := hex8(b[atHead:])
	bodyCRC, ok4 := hex8(b[atBodyCRC:])
	version := int(b[atVersion] - '0')
	if !ok1 || !ok2 || !ok3 || !ok4 || version < 1 || version > 9 ||
		line > MaxLineBytes || int(head) < atEntry+2 || int(line) < int(head)+2 {
		return f
	}
	return frame{version, int(line), int(head), headCRC, bodyCRC, true}
}

// headWhole tells whether the head of a line is as it was written.
func (f *frame) headWhole(head []byte) bool {
	return len(head) == f.head && checksum(head[atCovered:]) == f.headCRC
}

// bodyWhole tells the same of the rest, newline excluded.
func (f *frame) bodyWhole(rest []byte) bool {
	return len(rest) == f.line-f.head-1 && checksum(rest) == f.bodyCRC
}

// hex8 reads eight lower-case hexadecimal digits.
func hex8(b []byte) (n uint32, ok bool) {
	for _, c := range b[:8] {
		switch {
		case c >= '0' && c <= '9':
			n = n<<4 | uint32(c-'0')
		case c >= 'a' && c <= 'f':
			n = n<<4 | uint32(c-'a'+10)
		default:
			return 0, false
		}
	}
	return n, true
}

func putHex8(b []byte, n uint32) {
	for i := 7; i >= 0; i-- {
		b[i] = "0123456789abcdef"[n&15]
		n >>= 4
	}
}

// headAttempt is Attempt as the head of a line holds it.
type headAttempt struct {
	*Attempt
	Marks string `json:"findings,omitempty"`
}

// headEntry is Entry as the head of a line holds it.
type headEntry struct {
	*Entry
	Attempt *headAttempt `json:"attempt,omitempty"`
}

// EncodeLine writes an entry as one line with its newline. Equal entries give
// equal bytes. The error says what is wrong with the entry.
func EncodeLine(e *Entry) ([]byte, error) {
	if err := e.check(); err != nil {
		return nil, err
	}
	size := 1024 + len(e.Assessment) + len(e.Resume)
	if a := e.Attempt; a != nil {
		size += 64*len(a.Findings) + len(a.Plan) + len(a.Session) + len(a.Outcome) + len(a.Grade)
	}
	if size > MaxLineBytes {
		return nil, fmt.Errorf("the entry takes about %d bytes; %d are the most", size, MaxLineBytes)
	}
	out := bytes.NewBuffer(make([]byte, 0, size))
	out.WriteString(frameOpen + `00000000","logbook":` + strconv.Itoa(FormatVersion) + frameLine + `00000000` + frameHead + `00000000` + frameBody + `00000000` + frameEntry)
	if err := encodeHead(out, e); err != nil {
		return nil, err
	}
	head := out.Len()
	if a := e.Attempt; a != nil {
		if err := encodeBody(out, a); err != nil {
			return nil, err
		}
	}
	out.WriteString("}\n")
	line := out.Bytes()
	if len(line) > MaxLineBytes {
		return nil, fmt.Errorf("the entry takes %d bytes; %d are the most", len(line), MaxLineBytes)
	}
	putHex8(line[atLine:], uint32(len(line)))
	putHex8(line[atHead:], uint32(head))
	putHex8(line[atBodyCRC:], checksum(line[head:len(line)-1]))
	putHex8(line[atHeadCRC:], checksum(line[atCovered:head]))
	return line, nil
}

func encodeHead(out *bytes.Buffer, e *Entry) error {
	h := headEntry{Entry: e}
	if e.Attempt != nil {
		h.Attempt = &headAttempt{e.Attempt, string(appendFindings(nil, e.Attempt.Findings))}
	}
	enc := json.NewEncoder(out) // its compact form keeps keys in the order of the fields
	enc.SetEscapeHTML(false)
	if err := enc.Encode(h); err != nil {
		return fmt.Errorf("the entry cannot be written as JSON: %w", err)
	}
	out.Truncate(out.Len() - 1) // the encoder's newline
	return nil
}

func encodeBody(out *bytes.Buffer, a *Attempt) error {
	sep := `,"body":{`
	for _, part := range []struct {
		name string
		raw  json.RawMessage
	}{{"plan", a.Plan}, {"session", a.Session}, {"outcome", a.Outcome}, {"grade", a.Grade}} {
		if part.raw == nil {
			continue
		}
		out.WriteString(sep + `"` + part.name + `":`)
		if err := json.Compact(out, part.raw); err != nil {
			return fmt.Errorf("the %s is no valid JSON: %w", part.name, err)
		}
		sep = ","
	}
	out.WriteByte('}')
	return nil
}

// key is what the logbook sorts by and tells lines apart with.
type key struct {
	utc int64
	id  string
}

// parseKey reads identity and time, which stand first in every entry.
func parseKey(entry []byte) (k key, ok bool) {
	const open, mid = `{"id":"`, `","utc_ms":`
	if len(entry) < len(open) || string(entry[:len(open)]) != open {
		return k, false
	}
	entry = entry[len(open):]
	end := bytes.IndexByte(entry, '"')
	if end < 1 || end > 64 || len(entry) < end+len(mid)+1 || string(entry[end:end+len(mid)]) != mid {
		return k, false
	}
	k.id = string(entry[:end])
	if !made(k.id, 64, true) {
		return k, false
	}
	digits := 0
	for _, c := range entry[end+len(mid):] {
		if c < '0' || c > '9' {
			break
		}
		if digits++; digits > 15 {
			return k, false
		}
		k.utc = k.utc*10 + int64(c-'0')
	}
	return k, digits > 0
}

// decodeHead reads the entry of a line, without the body.
func decodeHead(entry []byte) (*Entry, error) {
	e := &Entry{}
	h := headEntry{Entry: e}
	if err := gojson.Unmarshal(entry, &h); err != nil {
		return nil, fmt.Errorf("the entry is no entry of a logbook: %w", err)
	}
	if h.Attempt != nil {
		a := h.Attempt.Attempt
		if a == nil { // an empty attempt object
			a = &Attempt{}
		}
		var err error
		if a.Findings, err = parseFindings(h.Attempt.Marks); err != nil {
			return nil, err
		}
		e.Attempt = a
	}
	// Whoever reads an entry goes by its kind.
	if e.Kind == KindAttempt && e.Attempt == nil || e.Kind == KindDisagreement && e.Disagreement == nil {
		return nil, fmt.Errorf("the entry is of the kind %q and that part is missing", e.Kind)
	}
	return e, nil
}

// decodeBody fills the body of an attempt from the rest of its line: what
// stands between the entry and the newline.
func decodeBody(rest []byte, a *Attempt) error {
	const open = `,"body":`
	if len(rest) < len(open)+1 || string(rest[:len(open)]) != open {
		return errors.New("the attempt has no body")
	}
	var body struct {
		Plan, Session, Outcome, Grade json.RawMessage
	}
	if err := json.Unmarshal(rest[len(open):len(rest)-1], &body); err != nil {
		return fmt.Errorf("the body of the attempt is no valid JSON: %w", err)
	}
	a.Plan, a.Session, a.Outcome, a.Grade = body.Plan, body.Session, body.Outcome, body.Grade
	return nil
}

// DecodeLine reads one whole line, with or without its newline. The error says
// what is wrong with it.
func DecodeLine(line []byte) (*Entry, error) {
	f, err := checkLine(line)
	if err != nil {
		return nil, err
	}
	e, err := decodeHead(line[atEntry:f.head])
	if err != nil {
		return nil, err
	}
	if e.Attempt != nil {
		if err := decodeBody(bytes.TrimSuffix(line, []byte("\n"))[f.head:], e.Attempt); err != nil {
			return nil, err
		}
	}
	if k, ok := parseKey(line[atEntry:f.head]); !ok || k.id != e.ID || k.utc != e.UTC {
		return nil, errors.New("identity and time do not stand first in the entry, as they must")
	}
	return e, e.checkWho()
}

// errNewer marks a whole line of a version that this program cannot read.
var errNewer = errors.New("this line was written by a newer version of the program; use that version to read it")

var errDamaged = errors.New("the line is damaged: its checksum differs")

// checkLine checks the frame and both checksums.
func checkLine(line []byte) (frame, error) {
	line = bytes.TrimSuffix(line, []byte("\n"))
	f := parseFrame(line)
	switch {
	case !f.complete:
		return f, errors.New("this is no line of a logbook; each begins with " + frameOpen)
	case len(line)+1 < f.line:
		return f, fmt.Errorf("the line is cut off: it has %d bytes and says %d", len(line)+1, f.line)
	case len(line)+1 > f.line:
		return f, fmt.Errorf("the line is too long: it has %d bytes and says %d", len(line)+1, f.line)
	case !f.headWhole(line[:f.head]) || !f.bodyWhole(line[f.head:]):
		return f, errDamaged
	case f.version > FormatVersion:
		return f, errNewer
	}
	return f, nil
}
