package screen

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/mastery"
)

// RecordConfig is the logbook as a sitting gets it.
type RecordConfig struct {
	Book  *logbook.Book // nil: nothing is recorded
	NewID func() string // identity of an entry
	Err   error         // why there is no Book
	Found string        // what opening the logbook found amiss, told once
	Drop  func(ref string) error
}

// record is what the logbook tells of the learner in hand.
type record struct {
	learner  *mastery.Learner // what the attempts come to
	attempts int
	firstDay int             // local day of the first of them
	tried    map[string]bool // cases with an attempt
	last     string          // identity of the newest attempt
	others   []string        // codes of other learners in the logbook, in order

	marks []mastery.RuleResult // room for the marks of one attempt
}

// readRecord reads the learner's attempts. Entries that cannot be read are left
// out and told of.
func (d *Desk) readRecord() {
	d.rec = record{learner: mastery.NewLearner(), tried: map[string]bool{}}
	if d.Record.Book == nil {
		return
	}
	for e, err := range d.Record.Book.Entries() {
		switch {
		case err != nil:
			d.saveErr = "One entry of your logbook cannot be read: " + err.Error() + "."
		case e.Learner != d.Settings.Learner:
			d.rec.meet(e.Learner)
		case e.Kind == logbook.KindAttempt:
			d.rec.add(e)
		}
	}
	slices.Sort(d.rec.others)
}

// meet notes that another learner is in the logbook.
func (r *record) meet(learner string) {
	if !slices.Contains(r.others, learner) {
		r.others = append(r.others, learner)
	}
}

// add takes one more attempt. Only what it comes to is kept, so that a logbook
// of many years fits.
func (r *record) add(e *logbook.Entry) {
	o := observe(e, r.marks[:0])
	r.marks = o.Rules
	r.learner.Add(&o)
	if r.attempts == 0 {
		r.firstDay = o.Day
	}
	r.attempts++
	r.tried[e.Attempt.Case] = true
	r.last = e.ID
}

// localDay counts the days of a place whose clock is offMin minutes ahead of
// universal time.
func localDay(utcMS int64, offMin int) int {
	const day = 24 * 60 * 60 * 1000
	ms := utcMS + int64(offMin)*60_000
	if ms < 0 {
		ms -= day - 1
	}
	return int(ms / day)
}

// observe is what learning can be read from an attempt; its marks go into the
// room given.
func observe(e *logbook.Entry, marks []mastery.RuleResult) mastery.Observation {
	a := e.Attempt
	o := mastery.Observation{
		UTC: e.UTC, Day: localDay(e.UTC, e.OffsetMin), Case: a.Case, Family: a.Family, Made: strings.HasPrefix(a.Case, cases.MadePackID+"/"),
		Helped: a.Helped, Verdict: a.Verdict, Rules: marks,
	}
	for _, f := range a.Findings {
		o.Rules = append(o.Rules, mastery.RuleResult{Rule: f.Rule, Domain: f.Domain, Kind: f.Kind, Points: f.Points, Of: f.Of})
	}
	if a.ConfidenceMilli != nil {
		sure := float64(*a.ConfidenceMilli) / 1000
		o.Confidence = &sure
	}
	return o
}

// Recording tells whether attempts are kept.
func (d *Desk) Recording() bool { return d.Record.Book != nil }

// zoneOffsetMin is how far the local clock is ahead of universal time.
func (d *Desk) zoneOffsetMin() int {
	if d.Config.Today == nil {
		return 0
	}
	_, seconds := d.Config.Today().Zone()
	return seconds / 60
}

func (d *Desk) newEntry(kind string) logbook.Entry {
	return logbook.Entry{ID: d.Record.NewID(), UTC: d.nowMS(), OffsetMin: d.zoneOffsetMin(), Learner: d.Settings.Learner, Kind: kind}
}

// keepAttempt writes a graded session into the logbook. It returns nil only
// when the line is safe.
func (d *Desk) keepAttempt(s *Session, g *scoring.Grade, from string) error {
	if !d.Recording() {
		return nil
	}
	e := d.newEntry(logbook.KindAttempt)
	a, err := attemptOf(s, g, from)
	if err != nil {
		return err
	}
	a.TookS = int(max(0, e.UTC-s.openedMS) / 1000)
	a.TablesVersion, a.TablesDigest = d.Set.Version, d.Set.Digest
	e.Attempt = a
	if err := d.Record.Book.Append(e); err != nil {
		return err
	}
	s.attempt = e.ID
	d.rec.add(&e)
	if d.Record.Drop != nil { // the plan is in the logbook now: the next time begins afresh
		return d.Record.Drop(s.Ref)
	}
	return nil
}

// attemptOf turns a graded session into what the logbook holds.
func attemptOf(s *Session, g *scoring.Grade, from string) (*logbook.Attempt, error) {
	grade, err := json.Marshal(g)
	if err != nil {
		return nil, err
	}
	a := &logbook.Attempt{
		Case: s.Ref, CaseDigest: g.CaseDigest, Family: s.Case.Lesion.Family, Level: s.Case.Level, Bench: g.Bench,
		Labels: g.Labels, Words: g.Words, ModelVersion: strconv.Itoa(g.ModelVersion), Verdict: g.Verdict, Points: g.Points, Of: g.Of,
		From: from, Plan: cases.Canonical(s.Plan), Grade: grade,
	}
	if t := s.Treatment; t != nil {
		a.Session = t.File.JSON()
		if a.Outcome, err = json.Marshal(&t.Outcome); err != nil {
			return nil, err
		}
	}
	if c := s.Plan.Confidence; c != nil {
		milli := int(*c)
		a.ConfidenceMilli = &milli
	}
	spoke := map[string]bool{}
	for _, f := range g.Findings {
		spoke[f.Rule] = true
		a.Findings = append(a.Findings, logbook.FindingMark{Rule: f.Rule, Domain: f.Domain, Kind: f.Kind, Points: f.Points, Of: f.Of})
	}
	if s.judge != nil {
		a.Findings = append(a.Findings, keptClear(s.judge, s.Plan.Disposition, spoke)...)
	}
	return a, nil
}

// keptClear lists, as credits without points, the rules with a never event that
// the decision could have run into and the plan gave no occasion to: who takes
// a prep without alcohol has the alcohol right too.
func keptClear(j *scoring.Judge, disposition string, spoke map[string]bool) []logbook.FindingMark {
	var marks []logbook.FindingMark
	for _, r := range j.Rows() {
		if r.Never != "" && r.ForDecision(disposition) && !spoke[r.Rule] {
			marks = append(marks, logbook.FindingMark{Rule: r.Rule, Domain: r.Domain, Kind: "credit"})
		}
	}
	return marks
}

// Disagree keeps a reason why a finding is thought wrong, for the supervisor.
func (d *Desk) Disagree(s *Session, rule, reason string) error {
	switch {
	case !d.Recording():
		return errors.New("there is no logbook to keep it in")
	case strings.TrimSpace(reason) == "":
		return errors.New("say in a few words why")
	case s.Grade == nil:
		return errors.New("grade the plan first")
	}
	e := d.newEntry(logbook.KindDisagreement)
	e.Disagreement = &logbook.Disagreement{
		Rule: rule, Case: s.Ref, CaseDigest: s.Grade.CaseDigest, TablesVersion: d.Set.Version, TablesDigest: d.Set.Digest,
		Reason: strings.TrimSpace(reason), Attempt: s.attempt,
	}
	return d.Record.Book.Append(e)
}

// usualFromRecord is the plan of the newest attempt, for "my usual kit".
func (d *Desk) usualFromRecord() *cases.Plan {
	if d.rec.last == "" {
		return nil
	}
	e, err := d.Record.Book.Whole(d.rec.last)
	if err != nil || e.Attempt == nil {
		return nil
	}
	p, err := cases.ReadPlan("logbook", e.Attempt.Plan)
	if err != nil {
		return nil
	}
	return p
}

// Learners lists the codes that the logbook knows, the one in hand first.
func (d *Desk) Learners() []string { return append([]string{d.Settings.Learner}, d.rec.others...) }

// dayText is a local day as a date.
func dayText(day int) string {
	return time.Unix(int64(day)*24*60*60, 0).UTC().Format("2 January 2006")
}

// attemptPlan reads the plan of an attempt from the logbook.
func (d *Desk) attemptPlan(id string) (*cases.Plan, *logbook.Attempt, error) {
	e, err := d.Record.Book.Whole(id)
	if err != nil {
		return nil, nil, err
	}
	if e.Attempt == nil {
		return nil, nil, fmt.Errorf("the entry %s is no attempt", id)
	}
	p, err := cases.ReadPlan("logbook", e.Attempt.Plan)
	return p, e.Attempt, err
}
