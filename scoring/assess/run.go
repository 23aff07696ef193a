package assess

import (
	"encoding/json"
	"fmt"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring"
)

// StepFormat names the format of a step in the logbook.
const StepFormat = "leastwatt.assessment/1"

// The kinds of step.
const (
	Begin  = "begin"
	Answer = "answer"
	Resume = "resume"
	End    = "end"
)

// Step is one thing that happened in a run. Begin carries what the run is;
// Answer one case as it was planned and graded; Resume that the program came
// back, and when it had last been heard of; End why there is no more.
type Step struct {
	Format string `json:"format"`
	Run    string `json:"run"` // identity of the run
	Step   string `json:"step"`
	UTC    int64  `json:"utc_ms"`

	Start  *Start `json:"start,omitempty"`
	Given  *Given `json:"given,omitempty"`
	Heard  int64  `json:"heard_utc_ms,omitempty"` // of Resume: the last sign of life before it
	Ending string `json:"ending,omitempty"`       // of End: done, time or given_up
}

// Why a run ended.
const (
	Done    = "done"
	TimeUp  = "time"
	GivenUp = "given_up"
)

// Start is what a run is made of: enough to make it again.
type Start struct {
	Title      string           `json:"title"`
	Pack       string           `json:"pack,omitempty"` // whose blueprint, "" the program's own
	Seed       uint64           `json:"seed,string"`
	Codes      []string         `json:"codes"`
	LimitMin   int              `json:"limit_min"`
	Bench      bool             `json:"bench"`
	LeastItems int              `json:"least_items"`
	Standards  []cases.Standard `json:"standards"` // one a domain
	Tables     string           `json:"tables"`
	Labels     string           `json:"labels"`
	Words      string           `json:"words"`
	WatchedBy  string           `json:"watched_by,omitempty"` // as typed; "" says that nobody watched
}

// Given is a case as it was answered.
type Given struct {
	At    int            `json:"at"` // place in Start.Codes
	Plan  *cases.Plan    `json:"plan"`
	Grade *scoring.Grade `json:"grade"`

	Session json.RawMessage `json:"session,omitempty"` // leastwatt.session/1, of a case that was treated on the bench
}

// NewStart makes the start of a run.
func (b *Blueprint) NewStart(seed uint64, codes []string, pack, tables, labels, words, watchedBy string) *Start {
	s := &Start{
		Title: b.Title, Pack: pack, Seed: seed, Codes: codes, LimitMin: b.LimitMin, Bench: b.Bench, LeastItems: b.LeastItems,
		Tables: tables, Labels: labels, Words: words, WatchedBy: watchedBy,
	}
	for _, domain := range cases.Vocab.IDs("domain") {
		least, reason := b.Standard(domain)
		s.Standards = append(s.Standards, cases.Standard{Domain: domain, Least: least, Reason: reason})
	}
	return s
}

// Run is the state of a run.
type Run struct {
	ID      string
	Start   *Start
	Given   []*Given // by place in Start.Codes; nil is not answered
	Ending  string   // "" while it goes on
	BeganMS int64
	EndedMS int64
	Away    []Gap // while the program was not there
	SetBack bool  // the machine's clock went back during the run

	lastMS int64
}

// Gap is a time in which nothing was heard of the program.
type Gap struct{ FromMS, ToMS int64 }

// Fold turns the steps of one run, in the order they happened, into its state.
// A step that cannot follow is an error and changes nothing.
func Fold(steps []Step) (*Run, error) {
	r := &Run{}
	for i := range steps {
		if err := r.Add(&steps[i]); err != nil {
			return nil, fmt.Errorf("step %d: %w", i+1, err)
		}
	}
	if r.Start == nil {
		return nil, fmt.Errorf("there is no step; a run opens with %q", Begin)
	}
	return r, nil
}

// Add takes one more step. The error says why it cannot follow.
func (r *Run) Add(s *Step) error {
	switch {
	case s.Format != StepFormat:
		return fmt.Errorf("the format is %q; this reads %q", s.Format, StepFormat)
	case r.Start == nil && s.Step != Begin:
		return fmt.Errorf("%q comes before %q", s.Step, Begin)
	case r.Start != nil && s.Run != r.ID:
		return fmt.Errorf("it belongs to the run %q, not to %q", s.Run, r.ID)
	case r.Ending != "":
		return fmt.Errorf("%q comes after the end", s.Step)
	}
	switch s.Step {
	case Begin:
		return r.begin(s)
	case Answer:
		g := s.Given
		switch {
		case g == nil || g.Plan == nil || g.Grade == nil:
			return fmt.Errorf("the answer holds no plan or no grade")
		case g.At < 0 || g.At >= len(r.Given):
			return fmt.Errorf("the answer is to case %d of %d", g.At+1, len(r.Given))
		case r.Given[g.At] != nil:
			return fmt.Errorf("case %d is answered already", g.At+1)
		}
		r.Given[g.At] = g
	case Resume:
		if gap := (Gap{s.Heard, s.UTC}); gap.ToMS > gap.FromMS && gap.FromMS > 0 {
			r.Away = append(r.Away, gap)
		}
	case End:
		if !slices.Contains([]string{Done, TimeUp, GivenUp}, s.Ending) {
			return fmt.Errorf("the ending is %q; it is %s, %s or %s", s.Ending, Done, TimeUp, GivenUp)
		}
		r.Ending = s.Ending
	default:
		return fmt.Errorf("%q is no step; it is %s, %s, %s or %s", s.Step, Begin, Answer, Resume, End)
	}
	r.heard(s.UTC)
	r.EndedMS = r.lastMS
	return nil
}

func (r *Run) begin(s *Step) error {
	switch {
	case r.Start != nil:
		return fmt.Errorf("the run has begun already")
	case s.Start == nil || len(s.Start.Codes) == 0:
		return fmt.Errorf("the beginning names no case")
	}
	r.ID, r.Start, r.BeganMS, r.lastMS = s.Run, s.Start, s.UTC, s.UTC
	r.Given = make([]*Given, len(s.Start.Codes))
	return nil
}

// heard takes note of the time of day; time never goes back.
func (r *Run) heard(utcMS int64) {
	if utcMS < r.lastMS {
		r.SetBack = true
		return
	}
	r.lastMS = utcMS
}

// ElapsedMS is how long the run has been going on at a time of day.
func (r *Run) ElapsedMS(nowMS int64) int64 {
	if r.Ending != "" {
		return r.EndedMS - r.BeganMS
	}
	return max(nowMS, r.lastMS) - r.BeganMS
}

// LeftMS is how much of the time limit is left; ok is false without a limit.
func (r *Run) LeftMS(nowMS int64) (left int64, ok bool) {
	if r.Start.LimitMin == 0 {
		return 0, false
	}
	return max(0, int64(r.Start.LimitMin)*60_000-r.ElapsedMS(nowMS)), true
}

// Next is the place of the first case that is not answered, -1 when all are.
func (r *Run) Next() int { return slices.Index(r.Given, nil) }

// Answered counts the cases that are answered.
func (r *Run) Answered() int {
	n := 0
	for _, g := range r.Given {
		if g != nil {
			n++
		}
	}
	return n
}

// Ref is the name of a case of the run.
func (r *Run) Ref(at int) string { return cases.MadePackID + "/" + r.Start.Codes[at] }
