package verb

import (
	"fmt"
	"os"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
)

// Imported is what an import did.
type Imported struct {
	Logbook string           `json:"logbook"`
	Added   int              `json:"added"`
	Entries int              `json:"entries"` // in the logbook now
	Files   []logbook.Report `json:"files"`
}

// Import adds what exported files hold to the logbook of a folder, "" for the
// user's own. What is there already is passed over, so that importing twice or
// in any order gives the same logbook. Lines that are not whole are told with
// their place, and the rest is taken.
func Import(s *Shell, dir string, files []string) int {
	for _, name := range files { // before anything is changed
		if err := readable(name); err != nil {
			return s.usage(err)
		}
	}
	book, ok := s.openLogbook(dir)
	if !ok {
		return Usage
	}
	done, err := importAll(book, files)
	if closing := book.Close(); err == nil {
		err = closing
	}
	code := Done
	for _, r := range done.Files {
		fmt.Fprint(s.Err, r.Text())
		if len(r.Damaged) > 0 || r.Newer > 0 {
			code = Invalid
		}
	}
	if err != nil {
		return s.usage(cases.PathError(err))
	}
	if printed := s.printImported(done); printed != Done {
		return printed
	}
	return code
}

func readable(name string) error {
	info, err := os.Stat(name)
	if err != nil {
		return cases.PathError(err)
	}
	if info.IsDir() {
		return fmt.Errorf("%s: this is a folder; a file is needed", name)
	}
	return nil
}

func importAll(book *logbook.Book, files []string) (Imported, error) {
	done := Imported{Files: []logbook.Report{}, Logbook: book.Name()}
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			return done, err
		}
		report, err := book.Import(name, f)
		f.Close() // it was only read
		done.Added += report.Added
		done.Files = append(done.Files, report)
		if err != nil {
			return done, err
		}
	}
	done.Entries = book.Len()
	return done, nil
}

func (s *Shell) printImported(done Imported) int {
	if s.JSON {
		return s.printJSON(done)
	}
	var b strings.Builder
	for _, r := range done.Files {
		fmt.Fprintf(&b, "%s: %s, %d of them new.\n", r.File, countedEntries(r.Kept), r.Added)
	}
	fmt.Fprintf(&b, "%s now holds %s.\n", done.Logbook, countedEntries(done.Entries))
	return s.print(b.String())
}
