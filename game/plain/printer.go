package plain

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"leastwatt/game/screen"
)

// width is the longest line, in characters.
const width = 78

// printer writes wrapped lines and keeps the first error of writing.
type printer struct {
	out io.Writer
	err error
}

func (p *printer) write(s string) {
	if p.err == nil {
		_, p.err = io.WriteString(p.out, s)
	}
}

// line writes one line as it is, with the spaces that every terminal knows.
func (p *printer) line(s string) {
	p.write(strings.TrimRight(screen.PlainText(s), " ") + "\n")
}

// say writes a paragraph, wrapped.
func (p *printer) say(s string) { p.indent("", s) }

// sayf is say with a format.
func (p *printer) sayf(format string, args ...any) { p.say(fmt.Sprintf(format, args...)) }

// heading writes a line with room above it.
func (p *printer) heading(s string) {
	p.line("")
	p.say(s)
}

// indent writes a paragraph whose first line begins with lead and whose other
// lines stand below the text.
func (p *printer) indent(lead, s string) {
	rest := strings.Repeat(" ", utf8.RuneCountInString(lead))
	for i, l := range wrap(screen.PlainText(s), width-len(rest)) {
		if i > 0 {
			lead = rest
		}
		p.line(lead + l)
	}
}

// prompt asks for a line.
func (p *printer) prompt(s string) {
	if s != "" {
		p.say(s)
	}
	p.write("> ")
}

// wrap breaks a text at spaces. A word longer than the line stands alone.
func wrap(s string, room int) []string {
	var lines []string
	now, n := "", 0
	for _, w := range strings.Fields(s) {
		k := utf8.RuneCountInString(w)
		if n > 0 && n+1+k > room {
			lines = append(lines, now)
			now, n = "", 0
		}
		if n > 0 {
			now += " "
			n++
		}
		now += w
		n += k
	}
	return append(lines, now)
}
