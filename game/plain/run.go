package plain

import (
	"bufio"
	"errors"
	"io"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/screen"
)

// errEnd ends the program: the input is used up, or the reader wants to leave.
var errEnd = errors.New("end")

// Run drills cases from one stream of lines to another until the input ends.
// The error is that of the configuration, or of writing.
func Run(in io.Reader, out io.Writer, cfg screen.Config) error {
	desk, err := screen.NewDesk(cfg)
	if err != nil {
		return err
	}
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 0, 4096), 1<<20)
	p := &player{lines: lines, printer: printer{out: out}, desk: desk}
	p.say("Leastwatt, plain mode.")
	p.say(screen.Caution(p.words()))
	if err := p.today(cfg.FirstCase); err != nil && !errors.Is(err, errEnd) {
		return err
	}
	if err := lines.Err(); err != nil {
		p.say("The input cannot be read further: " + err.Error() + ".")
	}
	p.say("The end. Your plans are kept as you left them.")
	return p.err
}

// RunAssess takes a self-assessment from one stream of lines to another, on a
// desk that is laid out already. The error is that of writing.
func RunAssess(in io.Reader, out io.Writer, desk *screen.Desk) error {
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 0, 4096), 1<<20)
	p := &player{lines: lines, printer: printer{out: out}, desk: desk}
	p.say(screen.Caution(p.words()))
	if err := p.selfAssess(); err != nil && !errors.Is(err, errEnd) {
		return err
	}
	return p.err
}

// player is where the reader is.
type player struct {
	printer
	lines *bufio.Scanner
	desk  *screen.Desk
	s     *screen.Session // the case in hand

	sheetShown bool // the result of the last self-assessment was printed
}

func (p *player) words() cases.Words { return p.desk.Settings.Words }

// ask prints a prompt and reads one line. It fails with errEnd at the end of
// the input or when the reader leaves.
func (p *player) ask(prompt string) (string, error) {
	p.prompt(prompt)
	if !p.lines.Scan() {
		p.line("")
		return "", errEnd
	}
	answer := strings.TrimSpace(p.lines.Text())
	if trouble := p.desk.Trouble(); trouble != "" {
		p.say(trouble)
	}
	if is(answer, "quit", "exit") {
		return "", errEnd
	}
	return answer, nil
}

// is tells whether an answer is one of the words, whatever its case.
func is(answer string, words ...string) bool {
	for _, w := range words {
		if strings.EqualFold(answer, w) {
			return true
		}
	}
	return false
}

// command splits an answer into its first word and the rest.
func command(answer string) (word, rest string) {
	word, rest, _ = strings.Cut(answer, " ")
	return strings.ToLower(word), strings.TrimSpace(rest)
}
