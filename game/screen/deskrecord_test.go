package screen

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/solve"
)

// sittingOn lays out a sitting on a logbook, on a day.
func sittingOn(t *testing.T, store logbook.Store, day int) *Desk {
	t.Helper()
	c := &clockAt{time.Date(2026, 11, day, 9, 0, 0, 0, time.UTC)}
	return runDesk(t, c, RunConfig{}, store)
}

// solved gives a session the plan with full marks.
func solved(t *testing.T, d *Desk, ref string) *Session {
	t.Helper()
	s, err := d.Open(ref)
	if err != nil {
		t.Fatal(err)
	}
	j, err := s.Judge(d.Set, d.Settings.Labels)
	if err != nil {
		t.Fatal(err)
	}
	plan := solve.Solve(j, ref).Plan
	s.Change("", func(p *cases.Plan) { *p = *plan })
	return s
}

// The first grade of a case is written before it counts; what is tried after it
// is not, and leaves no draft.
func TestAttemptIsKept(t *testing.T) {
	store := &fullStore{}
	d := sittingOn(t, store, 2)
	dropped := ""
	d.Record.Drop = func(ref string) error { dropped = ref; return nil }
	drafts := 0
	d.SaveDraft = func(*cases.Plan) error { drafts++; return nil }
	first := d.today()[0].ref
	s := solved(t, d, first)
	sure := cases.Milli(750)
	s.Change("", func(p *cases.Plan) { p.Confidence = &sure })
	store.full = true
	if err := d.Grade(s); err != nil {
		t.Fatal(err)
	}
	if d.Record.Book.Len() != 0 || !strings.Contains(d.Trouble(), "disk is full") {
		t.Fatalf("%d entries on a full disk, trouble %q", d.Record.Book.Len(), d.Trouble())
	}
	store.full = false
	if err := d.Grade(s); err != nil || d.Record.Book.Len() != 1 || dropped != first || d.Trouble() != "" {
		t.Fatalf("%v: %d entries, dropped %q, trouble %q", err, d.Record.Book.Len(), dropped, d.Trouble())
	}
	was := drafts
	s.Change("", func(p *cases.Plan) { p.Disposition = "leave" })
	if err := d.Grade(s); err != nil || d.Record.Book.Len() != 1 || drafts != was {
		t.Errorf("a change after the grade is kept: %d entries, %d drafts more", d.Record.Book.Len(), drafts-was)
	}
	plan, a, err := d.attemptPlan(s.attempt)
	if err != nil {
		t.Fatal(err)
	}
	if a.Verdict != "safe" || a.From != logbook.FromToday || a.ConfidenceMilli == nil || *a.ConfidenceMilli != 750 || a.Points != a.Of || len(a.Findings) < 5 {
		t.Errorf("kept as %+v", a)
	}
	if plan.Disposition == "leave" || plan.Case != first {
		t.Errorf("the plan kept is %+v", plan)
	}
	if err := d.Disagree(s, a.Findings[0].Rule, " It was taught otherwise here. "); err != nil {
		t.Fatal(err)
	}
	if err := d.Disagree(s, a.Findings[0].Rule, " "); err == nil {
		t.Error("a disagreement without a reason is kept")
	}
	back := sittingOn(t, store, 3)
	if back.rec.attempts != 1 || !back.rec.tried[first] || back.usual == nil {
		t.Errorf("the next day: %d attempts, usual kit %v", back.rec.attempts, back.usual)
	}
	for _, e := range back.today() {
		if e.ref == first {
			t.Error("a case done yesterday with full marks comes back today")
		}
	}
}

// Every row of today's list says why by competency and time, and gives nothing
// away.
func TestTodayGivesNothingAway(t *testing.T) {
	store := &fullStore{}
	for day := 1; day <= 6; day++ {
		d := sittingOn(t, store, day)
		for _, line := range d.Lines(false) {
			for _, table := range []string{"family", "site", "technique", "disposition"} {
				for _, w := range cases.Vocab.List(table) {
					if strings.Contains(strings.ToLower(line.Why), strings.ToLower(w.Label(cases.UK))) {
						t.Errorf("%q tells of %q", line.Why, w.ID)
					}
				}
			}
		}
		for i, e := range d.today() {
			s := solved(t, d, e.ref)
			if i%2 == 1 {
				s.Change("", func(p *cases.Plan) { p.FollowUpDays, p.Advice = nil, nil })
			}
			if err := d.Grade(s); err != nil {
				t.Fatal(err)
			}
		}
	}
	if d := sittingOn(t, store, 7); d.rec.attempts < 25 {
		t.Errorf("%d attempts in six days", d.rec.attempts)
	}
}

// A never event comes back on another day, on another patient in whom the rule
// applies, until it was got right on three days.
func TestNeverEventComesBack(t *testing.T) {
	store := &fullStore{}
	d := sittingOn(t, store, 1)
	var rule, family string
	for _, e := range d.order {
		s := solved(t, d, e.ref)
		s.Change("", func(p *cases.Plan) {
			zero := cases.Milli(0)
			if p.Prep != nil {
				p.Prep.Agent, p.Prep.DryWaitS = "alcohol", &zero
			}
		})
		if err := s.GradeNow(d.Set, d.Settings.Labels, cases.UK); err != nil {
			t.Fatal(err)
		}
		if g := s.Grade; g.Verdict == "unsafe" {
			rule, family = g.Findings[0].Rule, e.c.Lesion.Family
			s.First = nil
			if err := d.Grade(s); err != nil {
				t.Fatal(err)
			}
			break
		}
	}
	if rule == "" {
		t.Fatal("no case gives a never event for wet alcohol")
	}
	met := map[string]bool{}
	right := 0
	for day := 2; day <= 12 && right < 4; day++ {
		d := sittingOn(t, store, day)
		found := false
		for _, e := range d.today() {
			if e.c.Lesion.Family != family || e.pack.ID != cases.MadePackID {
				continue
			}
			found = true
			if met[e.ref] {
				t.Errorf("day %d: the patient %s comes twice", day, e.ref)
			}
			met[e.ref] = true
			s := solved(t, d, e.ref)
			if err := d.Grade(s); err != nil {
				t.Fatal(err)
			}
			right++
		}
		if !found && right < 3 {
			t.Errorf("day %d: nobody in whom %s applies, after %d right days", day, rule, right)
		}
		if found && right > 3 {
			t.Errorf("day %d: it comes back after three right days", day)
		}
	}
}

// Two people on one machine do not see each other's attempts.
func TestTwoLearners(t *testing.T) {
	store := &fullStore{}
	d := sittingOn(t, store, 1)
	if err := d.Grade(solved(t, d, d.today()[0].ref)); err != nil {
		t.Fatal(err)
	}
	s := d.Settings
	s.Learner = "blue-heron"
	d.ChangeSettings(s)
	if d.rec.attempts != 0 || len(d.done) != 0 {
		t.Errorf("another learner sees %d attempts", d.rec.attempts)
	}
	if err := d.Grade(solved(t, d, d.today()[1].ref)); err != nil {
		t.Fatal(err)
	}
	if list := d.Learners(); len(list) != 2 || list[0] != "blue-heron" || list[1] != "learner" {
		t.Errorf("learners %v", list)
	}
	s.Learner = "learner"
	d.ChangeSettings(s)
	if d.rec.attempts != 1 {
		t.Errorf("the first learner has %d attempts", d.rec.attempts)
	}
}

// An attempt is shown as it was graded, with what today's rules would say
// otherwise.
func TestThenAndNow(t *testing.T) {
	store := &fullStore{}
	d := sittingOn(t, store, 1)
	s := solved(t, d, d.today()[0].ref)
	s.Change("", func(p *cases.Plan) { p.Advice, p.FollowUpDays, p.Protection, p.Record = nil, nil, nil, nil })
	if err := d.Grade(s); err != nil {
		t.Fatal(err)
	}
	list := d.PastAttempts()
	if len(list) != 1 || list[0].Verdict != s.First.Verdict || !strings.Contains(list[0].Quote, s.Case.Presenting) {
		t.Fatalf("%+v", list)
	}
	same, err := d.ThenAndNow(list[0].ID)
	if err != nil || same.Now != s.First.Verdict || len(same.Diffs) != 0 || len(same.Then.Findings) != len(s.First.Findings) {
		t.Fatalf("%v %+v", err, same)
	}
	// The same attempt under older tables, in which one caution was a credit.
	e, err := d.Record.Book.Whole(list[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	var g scoring.Grade
	if err := json.Unmarshal(e.Attempt.Grade, &g); err != nil {
		t.Fatal(err)
	}
	changed := ""
	for i := range g.Findings {
		if g.Findings[i].Kind == "caution" {
			g.Findings[i].Kind, changed = "credit", g.Findings[i].Rule
			break
		}
	}
	if changed == "" {
		t.Fatal("there is no caution to change")
	}
	e.Attempt.Grade, _ = json.Marshal(&g)
	e.ID, e.Attempt.TablesVersion, e.Attempt.TablesDigest = "older", "0", "0000"
	if err := d.Record.Book.Append(*e); err != nil {
		t.Fatal(err)
	}
	old, err := d.ThenAndNow("older")
	if err != nil || len(old.Diffs) != 1 || !strings.Contains(old.Diffs[0], "Then right, now a caution") || !strings.Contains(old.Notes[0], "tables 0") {
		t.Errorf("%v %+v", err, old)
	}
}
