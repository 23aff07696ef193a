package screen

import (
	"encoding/json"
	"errors"
	"fmt"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/logbook"
)

// RunConfig is what a self-assessment needs from outside.
type RunConfig struct {
	Steps   []assess.Step                                 // of the last run, when it has not ended
	HeardMS int64                                         // when the program was last heard of, UTC
	NewID   func() string                                 // identity of a run; nil uses the time
	SavePDF func(name string, pdf []byte) (string, error) // keeps a result sheet and says where; nil: it cannot be kept
}

// NamedBlueprint is a run that can be begun.
type NamedBlueprint struct {
	*assess.Blueprint
	Pack *cases.Pack // nil for the program's own
}

// Blueprints lists the runs that can be begun: the program's own first.
func (d *Desk) Blueprints() []NamedBlueprint {
	list := []NamedBlueprint{{assess.Usual(), nil}}
	for _, p := range d.packs {
		if b := assess.Of(p); b != nil {
			list = append(list, NamedBlueprint{b, p})
		}
	}
	return list
}

// nowMS is the time of day, UTC; 0 without a clock.
func (d *Desk) nowMS() int64 {
	if d.Config.Today == nil {
		return 0
	}
	return d.Config.Today().UnixMilli()
}

// resumeRun takes up a run that an earlier sitting left unfinished.
func (d *Desk) resumeRun() {
	if len(d.Assess.Steps) == 0 {
		return
	}
	run, err := assess.Fold(d.Assess.Steps)
	if err != nil {
		d.saveErr = "The last self-assessment cannot be taken up: " + err.Error() + "."
		return
	}
	if run.Ending != "" {
		return
	}
	d.run = run
	if run.Next() < 0 { // all is handed in, and the end was not written any more
		d.saved("The self-assessment", d.EndRun(assess.Done))
		return
	}
	d.saved("The self-assessment", d.step(assess.Step{Step: assess.Resume, Heard: d.Assess.HeardMS}))
	d.timeUp()
}

// Run is the run under way, or the last one of this sitting; nil before.
func (d *Desk) Run() *assess.Run { return d.run }

// NewSeed proposes a seed: the time of day, which nobody picks.
func (d *Desk) NewSeed() uint64 { return uint64(d.nowMS() / 1000 % 1_000_000) }

// Running tells whether a run is under way.
func (d *Desk) Running() bool { return d.run != nil && d.run.Ending == "" }

// BeginRun draws the cases of a run and begins it.
func (d *Desk) BeginRun(b NamedBlueprint, seed uint64, watchedBy string) error {
	if d.Running() {
		return errors.New("a self-assessment is under way; end it first")
	}
	codes, err := b.Draw(d.Set, seed)
	if err != nil {
		return err
	}
	labels, pack := d.Settings.Labels, ""
	if b.Pack != nil {
		pack = b.Pack.ID
		if b.Pack.Labels != "" {
			labels = b.Pack.Labels
		}
	}
	for _, code := range codes { // nothing written before may help
		ref := cases.MadePackID + "/" + code
		delete(d.sessions, ref)
		delete(d.drafts, ref)
	}
	was := d.run
	d.run = &assess.Run{}
	start := b.NewStart(seed, codes, pack, d.Set.Version+"-"+d.Set.Digest[:12], labels, string(d.words()), watchedBy)
	id := fmt.Sprint(d.nowMS())
	if d.Assess.NewID != nil {
		id = d.Assess.NewID()
	}
	if err := d.step(assess.Step{Run: id, Step: assess.Begin, Start: start}); err != nil {
		d.run = was
		return err
	}
	return nil
}

// step adds a step to the run once it is safe.
func (d *Desk) step(s assess.Step) error {
	s.Format, s.UTC = assess.StepFormat, d.nowMS()
	if s.Run == "" {
		s.Run = d.run.ID
	}
	trial := *d.run
	trial.Given = append([]*assess.Given(nil), d.run.Given...)
	if err := trial.Add(&s); err != nil {
		return err
	}
	if err := d.keepStep(&s); err != nil {
		return err
	}
	*d.run = trial
	return nil
}

// keepStep writes a step into the logbook; it returns nil once that is safe.
func (d *Desk) keepStep(s *assess.Step) error {
	if !d.Recording() {
		return nil
	}
	body, err := json.Marshal(s)
	if err != nil {
		return fmt.Errorf("the step cannot be written: %w", err)
	}
	e := d.newEntry(logbook.KindAssessment)
	e.Assessment = body
	return d.Record.Book.Append(e)
}

// HandIn grades the plan of the run's next case and goes on. The run ends with
// its last case.
func (d *Desk) HandIn(s *Session) error {
	at := d.run.Next()
	if d.Running() && at < 0 { // the last case is handed in; only the end could not be written
		return d.EndRun(assess.Done)
	}
	if !d.Running() || at < 0 || d.run.Ref(at) != s.Ref {
		return errors.New("this case is not the one in hand")
	}
	if d.timeUp() {
		return errors.New("the time is up; the plan in hand is not counted")
	}
	j, err := s.Judge(d.Set, d.run.Start.Labels)
	if err != nil {
		return err
	}
	g := j.GradeDone(s.Plan, s.treated(), d.words())
	if err := d.step(assess.Step{Step: assess.Answer, Given: given(at, s, g)}); err != nil {
		return fmt.Errorf("the plan could not be handed in: %w", err)
	}
	if d.run.Next() < 0 {
		return d.EndRun(assess.Done)
	}
	return nil
}

// given is a case as it is handed in.
func given(at int, s *Session, g *scoring.Grade) *assess.Given {
	x := &assess.Given{At: at, Plan: clonePlan(s.Plan), Grade: g}
	if s.Treatment != nil {
		x.Session = s.Treatment.File.JSON()
	}
	return x
}

// EndRun ends the run under way.
func (d *Desk) EndRun(ending string) error {
	return d.step(assess.Step{Step: assess.End, Ending: ending})
}

// timeUp ends a run whose time is over, and tells whether it did.
func (d *Desk) timeUp() bool {
	if !d.Running() {
		return false
	}
	if left, limited := d.run.LeftMS(d.nowMS()); !limited || left > 0 {
		return false
	}
	d.saved("The self-assessment", d.EndRun(assess.TimeUp))
	return d.run.Ending != ""
}
