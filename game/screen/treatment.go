package screen

import (
	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/scoring"
)

// Treatment is what was done on the bench, once it has ended.
type Treatment struct {
	File    *cases.Session // replays exactly
	Outcome scoring.Outcome
	Record  []bench.Act
	Strip   []bench.StripPiece
	bench   *bench.Bench // as it ended: for the section and the curve
}

// Curve prepares "same hand, other powers".
func (t *Treatment) Curve() *bench.Curve { return t.bench.Curve() }

// BenchSeed is the seed of a case's blood spots and sparks, the same in the
// window and in the terminal.
func (d *Desk) BenchSeed(ref string) int { return int(shuffle(d.Seed, ref) % 1_000_000) }

// CanTreat tells whether the plan can be carried out on the bench.
func (s *Session) CanTreat() bool {
	if s.Plan.Disposition != "treat" && s.Plan.Disposition != "biopsy_first" {
		return false
	}
	for _, id := range bench.Techniques() {
		if id == s.Plan.Technique {
			return true
		}
	}
	return false
}

// OpenBench makes the bench ready for the plan as it stands. Assessed runs
// cannot be undone.
func (s *Session) OpenBench(seed int, assessed bool) (*bench.Bench, error) {
	return bench.Open(s.Pack, s.Case, clonePlan(s.Plan), bench.Options{Seed: seed, Assessed: assessed, Workers: 2})
}

// treated is the outcome that a grade reads; nil without a bench.
func (s *Session) treated() *scoring.Outcome {
	if s.Treatment == nil {
		return nil
	}
	return &s.Treatment.Outcome
}

// Finish ends a treatment and works out the range of the model's figures, a
// budget of work at a time: step is called until it says that all is done.
func Finish(b *bench.Bench) (t *Treatment, step func(budget int) (done bool, err error)) {
	if !b.State().Ended {
		_ = b.Do(cases.SessionEvent{Act: "stop"}) // only an ended bench refuses it
	}
	t = &Treatment{File: b.Session(), Outcome: b.Outcome(), Record: b.Record(), Strip: b.Strip(), bench: b}
	sweep := b.Sweep()
	return t, func(budget int) (bool, error) {
		done, err := sweep.Step(budget)
		if done {
			t.Outcome.Range = sweep.Range()
		}
		return done, err
	}
}

// EndMS is when the treatment ended, ms after the bench was opened.
func (t *Treatment) EndMS() int {
	if t.File.EndMS != nil {
		return *t.File.EndMS
	}
	if n := len(t.File.Events); n > 0 {
		return t.File.Events[n-1].Tick
	}
	return 0
}
