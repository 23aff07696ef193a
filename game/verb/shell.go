package verb

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	gojson "github.com/goccy/go-json"

	"leastwatt/cases"
	"leastwatt/cases/packs"
)

// Shell is what every verb gets: where to write, and the flags they share.
type Shell struct {
	Out, Err io.Writer
	JSON     bool
	Packs    []string // --packs, in order
	Labels   string   // "" leaves it to the pack
	Words    cases.Words
}

// Exit codes.
const (
	Done    = 0
	Invalid = 1
	Usage   = 2
)

// printJSON writes a value as JSON, one value a run.
func (s *Shell) printJSON(v any) int {
	var b bytes.Buffer
	enc := gojson.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return s.usage(err)
	}
	return s.print(b.String())
}

// print writes a whole text, so that a full disk or a closed pipe is noticed.
func (s *Shell) print(text string) int {
	if _, err := io.WriteString(s.Out, text); err != nil {
		return s.usage(err)
	}
	return Done
}

// counted writes a number with its noun.
func counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

// usage reports a wrong call or an unreachable file.
func (s *Shell) usage(err error) int {
	fmt.Fprintf(s.Err, "leastwatt: %v\n", err)
	return Usage
}

// invalid reports faults in what was read.
func (s *Shell) invalid(faults cases.Faults) int {
	for _, f := range faults {
		fmt.Fprintln(s.Err, f.Error())
	}
	if s.JSON {
		s.printJSON(struct {
			Errors []cases.Fault `json:"errors"`
		}{faults})
	}
	return Invalid
}

// Fail sorts an error into faults of a file or a failed call.
func (s *Shell) Fail(err error) int {
	var faults cases.Faults
	if errors.As(err, &faults) {
		return s.invalid(faults)
	}
	return s.usage(err)
}

// Shelf is the packs at hand.
type Shelf struct {
	Packs  []*cases.Pack
	loaded map[*cases.Pack]*cases.Loaded
	from   map[*cases.Pack]string // where each came from, for messages
}

func newShelf() *Shelf {
	return &Shelf{loaded: map[*cases.Pack]*cases.Loaded{}, from: map[*cases.Pack]string{}}
}

// Find returns the case named pack-id/case-id, with its pack; a name made/CODE
// is composed. The error says that there is no such case, or what is wrong
// with the code.
func (sh *Shelf) Find(ref string) (*cases.Pack, *cases.Case, error) {
	if code, made := strings.CutPrefix(ref, cases.MadePackID+"/"); made {
		c, err := cases.MadeCase(code)
		return cases.MadePack(), c, err
	}
	for _, p := range sh.Packs {
		for i := range p.Cases {
			if p.ID+"/"+p.Cases[i].ID == ref {
				return p, &p.Cases[i], nil
			}
		}
	}
	return nil, nil, fmt.Errorf("unknown case %q%s", ref, cases.DidYouMean(ref, sh.Refs()))
}

// Refs lists the case names at hand.
func (sh *Shelf) Refs() []string {
	var refs []string
	for _, p := range sh.Packs {
		for i := range p.Cases {
			refs = append(refs, p.ID+"/"+p.Cases[i].ID)
		}
	}
	return refs
}

func (sh *Shelf) addBuiltin() error {
	loaded, err := packs.Load()
	if err != nil {
		return err
	}
	for _, l := range loaded {
		if err := sh.add(l, "the built-in packs"); err != nil {
			return err
		}
	}
	return nil
}

// add puts a pack on the shelf. The error is [cases.Faults] when the pack is
// invalid or its id is taken.
func (sh *Shelf) add(l *cases.Loaded, from string) error {
	if l.Pack == nil {
		return l.Faults
	}
	at := l.Tree.At("id")
	if l.Pack.ID == cases.MadePackID {
		return cases.Faults{{File: l.File, Line: at.Line, Column: at.Column, Message: fmt.Sprintf("the pack id %q is kept for generated cases; choose another", l.Pack.ID)}}
	}
	for _, p := range sh.Packs {
		if p.ID == l.Pack.ID {
			return cases.Faults{{File: l.File, Line: at.Line, Column: at.Column, Message: fmt.Sprintf("a pack with the id %q is already loaded from %s", p.ID, sh.from[p])}}
		}
	}
	sh.Packs = append(sh.Packs, l.Pack)
	sh.loaded[l.Pack], sh.from[l.Pack] = l, from
	return nil
}

// LoadShelf reads the built-in packs and those of --packs. The error is
// [cases.Faults] when a pack is invalid or its id is taken.
func (s *Shell) LoadShelf() (*Shelf, error) {
	shelf := newShelf()
	if err := shelf.addBuiltin(); err != nil {
		return nil, err
	}
	for _, dir := range s.Packs {
		found, err := cases.FindPacks(dir)
		if err != nil {
			return nil, err
		}
		for _, name := range found {
			l, err := cases.LoadPack(name)
			if err != nil {
				return nil, err
			}
			if err := shelf.add(l, name); err != nil {
				return nil, err
			}
		}
	}
	return shelf, nil
}

// Stdio is a shell on the process's own streams.
func Stdio() *Shell { return &Shell{Out: os.Stdout, Err: os.Stderr, Words: cases.UK} }

// PrintJSON writes a value as JSON, one value a run, for verbs of other
// packages.
func (s *Shell) PrintJSON(v any) int { return s.printJSON(v) }

// Print writes a whole text, so that a full disk or a closed pipe is noticed.
func (s *Shell) Print(text string) int { return s.print(text) }
