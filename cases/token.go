package cases

import (
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// Limits of any JSON file that Leastwatt reads. MaxValues keeps a hostile file
// from filling the memory: no valid file of 16 MiB comes near it.
const (
	MaxFileBytes   = 16 << 20
	MaxDepth       = 32
	MaxStringBytes = 64 << 10
	MaxValues      = 3_000_000
)

// ReadJSON reads one JSON document. A fault in the grammar or a broken limit
// ends the reading and returns a nil value; doubled keys are reported and the
// first is kept, so that one reading finds them all.
func ReadJSON(file string, data []byte) (*Value, Faults) {
	r := &reader{sheet: Sheet{File: file}, data: data, line: 1, column: 1}
	v := r.document()
	r.sheet.Faults.Sort() // a doubled object is told after what is doubled in it
	if r.broken {
		return nil, r.sheet.Faults
	}
	return v, r.sheet.Faults
}

type reader struct {
	sheet        Sheet
	data         []byte
	pos          int
	line, column int
	values       int
	broken       bool
}

func (r *reader) document() *Value {
	if len(r.data) > MaxFileBytes {
		return r.fail(1, 1, "the file is larger than 16 MiB; split the pack")
	}
	if strings.HasPrefix(string(r.data[:min(3, len(r.data))]), "\uFEFF") {
		return r.fail(1, 1, "the file begins with a byte order mark; save it as plain UTF-8")
	}
	r.space()
	if r.pos == len(r.data) {
		return r.fail(r.line, r.column, "the file is empty; a JSON object is expected")
	}
	v := r.value(1)
	if r.broken {
		return nil
	}
	r.space()
	if r.pos < len(r.data) {
		return r.fail(r.line, r.column, "something follows the end of the JSON value; remove it")
	}
	return v
}

// fail records a fault that ends the reading.
func (r *reader) fail(line, column int, format string, args ...any) *Value {
	if !r.broken {
		r.sheet.Faults = append(r.sheet.Faults, r.sheet.fault(&Value{Line: line, Column: column}, format, args))
		r.broken = true
	}
	return nil
}

func (r *reader) peek() byte {
	if r.pos < len(r.data) {
		return r.data[r.pos]
	}
	return 0
}

// skip steps over n bytes of ASCII that hold no line end.
func (r *reader) skip(n int) { r.pos += n; r.column += n }

func (r *reader) space() {
	for r.pos < len(r.data) {
		switch r.data[r.pos] {
		case '\n':
			r.pos++
			r.line++
			r.column = 1
		case ' ', '\t', '\r':
			r.skip(1)
		default:
			return
		}
	}
}

func (r *reader) value(depth int) *Value {
	if depth > MaxDepth {
		return r.fail(r.line, r.column, "values are nested more than %d deep", MaxDepth)
	}
	if r.values++; r.values > MaxValues {
		return r.fail(r.line, r.column, "the file holds more than %d values", MaxValues)
	}
	v := &Value{Line: r.line, Column: r.column}
	switch c := r.peek(); {
	case c == '{':
		v.Kind = Object
		r.object(v, depth)
	case c == '[':
		v.Kind = List
		r.list(v, depth)
	case c == '"':
		v.Kind = String
		v.Text = r.text()
	case c == '-' || c >= '0' && c <= '9':
		v.Kind = Number
		v.Text = r.number()
	case r.word("true"):
		v.Kind, v.Bool = Bool, true
	case r.word("false"):
		v.Kind = Bool
	case r.word("null"):
		v.Kind = Null
	case r.pos == len(r.data):
		return r.fail(r.line, r.column, "the file ends where a value is expected")
	default:
		return r.fail(r.line, r.column, "a JSON value is expected here, not %q", r.here())
	}
	if r.broken {
		return nil
	}
	return v
}

// here returns up to eight characters of the line at the reading point, for a
// message.
func (r *reader) here() string {
	rest := r.data[r.pos:]
	if len(rest) > 32 {
		rest = rest[:32]
	}
	line, _, _ := strings.Cut(strings.ToValidUTF8(string(rest), "?"), "\n")
	runes := []rune(line)
	return string(runes[:min(8, len(runes))])
}

func firstRune(text string) string {
	_, n := utf8.DecodeRuneInString(text)
	return text[:n]
}

func (r *reader) word(w string) bool {
	if !strings.HasPrefix(string(r.data[r.pos:min(len(r.data), r.pos+len(w))]), w) {
		return false
	}
	r.skip(len(w))
	return true
}

func (r *reader) object(v *Value, depth int) {
	r.skip(1)
	seen := map[string]bool{}
	for first := true; ; first = false {
		r.space()
		if r.peek() == '}' && first {
			r.skip(1)
			return
		}
		if r.peek() != '"' {
			r.fail(r.line, r.column, "a key in double quotes is expected%s", r.ended())
			return
		}
		k := Key{Line: r.line, Column: r.column}
		k.Name = r.text()
		r.space()
		if r.broken {
			return
		}
		if r.peek() != ':' {
			r.fail(r.line, r.column, "a colon is expected after the key %q%s", short(k.Name), r.ended())
			return
		}
		r.skip(1)
		r.space()
		if k.Value = r.value(depth + 1); r.broken {
			return
		}
		if seen[k.Name] {
			r.sheet.Errorf(&Value{Line: k.Line, Column: k.Column}, "the key %q stands twice; keep one", short(k.Name))
		} else {
			seen[k.Name] = true
			v.Keys = append(v.Keys, k)
		}
		if r.space(); r.peek() == '}' {
			r.skip(1)
			return
		}
		if r.peek() != ',' {
			r.fail(r.line, r.column, "a comma or } is expected after the value of %q%s", short(k.Name), r.ended())
			return
		}
		r.skip(1)
	}
}

func (r *reader) list(v *Value, depth int) {
	r.skip(1)
	if r.space(); r.peek() == ']' {
		r.skip(1)
		return
	}
	for {
		r.space()
		item := r.value(depth + 1)
		if r.broken {
			return
		}
		v.Items = append(v.Items, item)
		if r.space(); r.peek() == ']' {
			r.skip(1)
			return
		}
		if r.peek() != ',' {
			r.fail(r.line, r.column, "a comma or ] is expected in this list%s", r.ended())
			return
		}
		r.skip(1)
	}
}

func (r *reader) ended() string {
	if r.pos == len(r.data) {
		return "; the file ends here"
	}
	return ""
}

func (r *reader) number() string {
	start, line, column := r.pos, r.line, r.column
	digits := func() int {
		n := 0
		for c := r.peek(); c >= '0' && c <= '9'; c = r.peek() {
			r.skip(1)
			n++
		}
		return n
	}
	if r.peek() == '-' {
		r.skip(1)
	}
	lead := r.peek()
	whole := digits()
	ok := whole > 0 && (whole == 1 || lead != '0')
	if ok && r.peek() == '.' {
		r.skip(1)
		ok = digits() > 0
	}
	if c := r.peek(); ok && (c == 'e' || c == 'E') {
		r.skip(1)
		if c := r.peek(); c == '+' || c == '-' {
			r.skip(1)
		}
		ok = digits() > 0
	}
	if !ok {
		r.fail(line, column, "this is not a JSON number; write it like 7, 0.5 or 1e3")
	}
	return string(r.data[start:r.pos])
}

// text reads a string. Control characters, written plainly or escaped, are
// refused: no text of a case needs them and a terminal may obey them.
func (r *reader) text() string {
	line, column := r.line, r.column
	r.skip(1)
	var b strings.Builder
	for {
		if r.pos >= len(r.data) {
			r.fail(line, column, "this text has no closing quote; the file ends first")
			return ""
		}
		if b.Len() > MaxStringBytes {
			r.fail(line, column, "this text is longer than 64 KiB")
			return ""
		}
		at := r.column
		c, size := utf8.DecodeRune(r.data[r.pos:])
		if c == utf8.RuneError && size <= 1 {
			r.fail(r.line, at, "this byte is not UTF-8; save the file as UTF-8")
			return ""
		}
		r.pos += size
		r.column++
		if c == '"' {
			return b.String()
		}
		if c == '\\' {
			if c = r.escape(at); r.broken {
				return ""
			}
		}
		if unicode.IsControl(c) {
			r.fail(r.line, at, "a control character (U+%04X) stands in text; remove it", c)
			return ""
		}
		b.WriteRune(c)
	}
}

func (r *reader) escape(at int) rune {
	if r.pos == len(r.data) {
		r.fail(r.line, at, "the file ends inside text")
		return 0
	}
	c := r.peek()
	r.skip(1)
	switch c {
	case '"', '\\', '/':
		return rune(c)
	case 'b':
		return '\b'
	case 'f':
		return '\f'
	case 'n':
		return '\n'
	case 'r':
		return '\r'
	case 't':
		return '\t'
	case 'u':
		hi := r.hex4()
		if !utf16.IsSurrogate(hi) {
			if hi < 0 {
				r.fail(r.line, at, `four hexadecimal digits are expected after \u`)
			}
			return hi
		}
		if r.word(`\u`) {
			if c := utf16.DecodeRune(hi, r.hex4()); c != utf8.RuneError {
				return c
			}
		}
		r.fail(r.line, at, "half of a surrogate pair stands alone in text")
		return 0
	}
	r.pos, r.column = r.pos-1, r.column-1
	r.fail(r.line, at, `an unknown escape stands in text: a backslash before %q`, firstRune(r.here()))
	return 0
}

// hex4 reads four hexadecimal digits, or returns -1.
func (r *reader) hex4() rune {
	if r.pos+4 > len(r.data) {
		return -1
	}
	var n rune
	for _, c := range r.data[r.pos : r.pos+4] {
		switch {
		case c >= '0' && c <= '9':
			n = n<<4 | rune(c-'0')
		case c >= 'a' && c <= 'f':
			n = n<<4 | rune(c-'a'+10)
		case c >= 'A' && c <= 'F':
			n = n<<4 | rune(c-'A'+10)
		default:
			return -1
		}
	}
	r.skip(4)
	return n
}
