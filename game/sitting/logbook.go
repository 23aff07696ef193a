package sitting

import (
	"encoding/json"
	"strings"

	"leastwatt/game/keep"
	"leastwatt/game/screen"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/logbook"
)

// openRecord opens the logbook in the folder, "" for the user's own. A logbook
// that cannot be opened is told of on the screen, and the sitting goes on
// without: nothing is written that could hurt it.
func openRecord(data string, newID func() string, folder keep.Folder) screen.RecordConfig {
	book, report, err := logbook.OpenFolder(data)
	if err != nil {
		return screen.RecordConfig{Err: err}
	}
	return screen.RecordConfig{Book: book, NewID: newID, Found: strings.TrimSpace(report.Text()), Drop: folder.DropDraft}
}

// lastRun gathers the steps of the learner's newest self-assessment and when
// the program was last heard of.
func lastRun(rec screen.RecordConfig, learner string, folder keep.Folder) (steps []assess.Step, heardMS int64) {
	if rec.Book == nil {
		return nil, 0
	}
	for _, s := range stepsOf(rec.Book, learner) {
		if s.Step == assess.Begin {
			steps = nil
		}
		steps = append(steps, s)
		heardMS = s.UTC
	}
	if changed := folder.LastChange(); !changed.IsZero() {
		heardMS = max(heardMS, changed.UnixMilli())
	}
	return steps, heardMS
}

// stepsOf reads the steps of every self-assessment of a learner, oldest first.
// Steps of a later format are passed over: this program cannot take them up.
func stepsOf(book *logbook.Book, learner string) []assess.Step {
	var steps []assess.Step
	for e, err := range book.Entries() {
		if err != nil || e.Kind != logbook.KindAssessment || e.Learner != learner {
			continue
		}
		var s assess.Step
		if json.Unmarshal(e.Assessment, &s) == nil {
			steps = append(steps, s)
		}
	}
	return steps
}
