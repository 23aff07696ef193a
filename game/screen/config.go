package screen

import (
	"fmt"
	"io/fs"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/tables"
)

// Config is what a screen needs from outside. Everything that reads a clock,
// keeps a file or reaches the clipboard comes in here.
type Config struct {
	Packs []*cases.Pack
	Set   *tables.Set // nil means the built-in tables
	Seed  uint64      // orders today's cases
	Today func() time.Time

	Settings     Settings
	SaveSettings func(Settings) error // nil: settings last as long as the program

	Drafts    map[string]*cases.Plan     // by pack-id/case-id
	SaveDraft func(*cases.Plan) error    // called after every change of a plan; nil keeps them in memory only
	Usual     *cases.Plan                // the last plan of an earlier sitting, for "my usual kit"
	Copy      func(text string) error    // to the clipboard; nil: there is none
	LoadPack  PackLoader                 // for a dropped pack; nil: packs cannot be added
	Post      func(msg any)              // brings the result of background work back to Update; nil: it is done at once
	Ticks     func(of int) (stop func()) // posts Tick{of} once a second until stopped; nil: rounds have no clock
	Assess    RunConfig
	Record    RecordConfig
	Close     func() error // ends the sitting: the logbook is free for others
	FirstCase bool         // begin with the first case on screen, as on a first start
}

// PackLoader reads and checks a pack that was dropped on the window, or named
// in the plain mode. The name is that of the file or folder in fsys.
type PackLoader func(fsys fs.FS, name string) PackReport

// PackReport is what a check found.
type PackReport struct {
	Name     string
	Pack     *cases.Pack // nil: it cannot be used
	Faults   cases.Faults
	Warnings cases.Faults
	Unsolved []string // a sentence for each case without a plan that gets full marks
}

// Settings are a person's own.
type Settings struct {
	TextScale     int // per cent: 100 to 200
	Dark          bool
	ReducedMotion bool
	Sound         bool
	Words         cases.Words
	Labels        string // cautious, us or uk
	Learner       string // a code of the person's choice, under which attempts are kept
}

// DefaultSettings are those of a first start.
func DefaultSettings() Settings {
	return Settings{TextScale: 100, Sound: true, Words: cases.UK, Labels: "cautious", Learner: "learner"}
}

// mended puts settings that were read from a file into range.
func (s Settings) mended() Settings {
	if s.TextScale == 0 {
		s.TextScale = 100
	}
	s.TextScale = min(max(s.TextScale, 100), 200)
	if s.Words != cases.US {
		s.Words = cases.UK
	}
	if logbook.CheckLearner(s.Learner) != nil {
		s.Learner = "learner"
	}
	if !cases.Vocab.Has("labels", s.Labels) {
		s.Labels = "cautious"
	}
	return s
}

// Caution is the short form of the caution that stands on every screen.
func Caution(words cases.Words) string {
	return cases.Spell("Training only. Your supervisor, local codes, the unit's own manual and your licence decide.", words)
}

// CopyHead begins every copied or printed text.
const CopyHead = "TRAINING - not a patient record, not a prescription"

func (c *Config) check() error {
	n := 0
	for _, p := range c.Packs {
		n += len(p.Cases)
	}
	if n == 0 {
		return fmt.Errorf("there is no case to work on; name a folder of packs")
	}
	return nil
}
