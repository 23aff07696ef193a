package verb

import (
	"bufio"
	"errors"
	"fmt"
	"os"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
)

// Exported is what an export did.
type Exported struct {
	Logbook string           `json:"logbook"`
	File    string           `json:"file"`
	Entries int              `json:"entries"`
	LeftOut []logbook.Damage `json:"left_out"` // damaged lines
	Newer   int              `json:"newer"`    // lines of a newer version, copied unread
}

// Export copies the logbook of a folder, "" for the user's own, to one file
// that must not exist yet: nothing of the user's is written over.
func Export(s *Shell, dir, file string) int {
	dir, there, err := logbook.HasLogbook(dir)
	switch {
	case err != nil:
		return s.usage(err)
	case !there:
		return s.usage(fmt.Errorf("%s: there is no logbook here yet; drill a case first", dir))
	}
	if info, err := os.Stat(file); err == nil {
		what := "this file exists already"
		if info.IsDir() {
			what = "this is a folder"
		}
		return s.usage(fmt.Errorf("%s: %s; name a file that does not exist", file, what))
	}
	book, ok := s.openLogbook(dir)
	if !ok {
		return Usage
	}
	defer book.Close() // nothing was written to it
	report, err := writeExport(book, file)
	if err != nil {
		return s.usage(err)
	}
	for _, d := range report.Damaged {
		fmt.Fprintf(s.Err, "%s:%d:1: left out: %s\n", report.File, d.Line, d.Why)
	}
	code := s.printExported(Exported{report.File, file, report.Kept, report.Damaged, report.Newer})
	if code == Done && len(report.Damaged) > 0 {
		return Invalid
	}
	return code
}

func (s *Shell) printExported(e Exported) int {
	if s.JSON {
		return s.printJSON(e)
	}
	text := fmt.Sprintf("%s: %s from %s.\n", e.File, countedEntries(e.Entries), e.Logbook)
	if e.Newer > 0 {
		text += fmt.Sprintf("%s of a newer version copied unread.\n", counted(e.Newer, "line"))
	}
	return s.print(text)
}

// writeExport writes the file whole and synced, or leaves none.
func writeExport(book *logbook.Book, file string) (logbook.Report, error) {
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return logbook.Report{}, cases.PathError(err)
	}
	w := bufio.NewWriterSize(f, 1<<20)
	report, err := book.Export(w)
	if err == nil {
		err = w.Flush()
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return report, errors.Join(cases.PathError(err), os.Remove(file))
	}
	return report, nil
}

// openLogbook opens the logbook of a folder and says on Err what was found
// damaged, or why it cannot be opened.
func (s *Shell) openLogbook(dir string) (*logbook.Book, bool) {
	book, report, err := logbook.OpenFolder(dir)
	if err != nil {
		s.usage(cases.PathError(err))
		return nil, false
	}
	fmt.Fprint(s.Err, report.Text())
	return book, true
}

func countedEntries(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}
