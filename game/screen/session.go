package screen

import (
	"reflect"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// Session is the work on one case: the plan as it stands, every state it went
// through, and the grades it was given. The window and the plain mode both
// work through it.
type Session struct {
	Case  *cases.Case
	Pack  *cases.Pack
	Ref   string // pack-id/case-id
	Plan  *cases.Plan
	Grade *scoring.Grade // of the plan as it stands; nil before the first grading
	First *scoring.Grade // the first grading, before anything was changed

	past, future []*cases.Plan
	run          string // the phrase whose run of steps the last change belongs to
	changed      func(*cases.Plan)
	unseen       map[string]bool // phrases filled in by one key and not looked at
	judge        *scoring.Judge
	judgedBy     string     // the labels of the judge
	openedMS     int64      // when the case was opened, UTC
	Treatment    *Treatment // what was done on the bench, nil without it
	attempt      string     // identity of its attempt in the logbook, "" before
}

func newSession(pack *cases.Pack, c *cases.Case, draft *cases.Plan, changed func(*cases.Plan)) *Session {
	s := &Session{Case: c, Pack: pack, Ref: pack.ID + "/" + c.ID, changed: changed, unseen: map[string]bool{}}
	s.Plan = &cases.Plan{Format: cases.PlanFormat, Case: s.Ref}
	if draft != nil {
		s.Plan = clonePlan(draft)
		s.Plan.Format, s.Plan.Case = cases.PlanFormat, s.Ref
	}
	return s
}

// Change lets f change the plan and remembers the state before it. Changes of
// one run (steps and drags on one dial) are undone together; run is "" for a
// change that stands alone. It tells whether anything changed.
func (s *Session) Change(run string, f func(*cases.Plan)) bool {
	next := clonePlan(s.Plan)
	f(next)
	if samePlan(s.Plan, next) {
		return false
	}
	if run == "" || run != s.run || len(s.past) == 0 {
		s.past = append(s.past, s.Plan)
	}
	s.run = run
	s.future = nil
	s.set(next)
	return true
}

// EndRun ends a run of steps: the next step is undone by itself.
func (s *Session) EndRun() { s.run = "" }

func (s *Session) set(p *cases.Plan) {
	s.Plan = p
	if s.changed != nil {
		s.changed(p)
	}
}

// Undo goes back by one change.
func (s *Session) Undo() bool {
	if len(s.past) == 0 {
		return false
	}
	last := len(s.past) - 1
	s.future = append(s.future, s.Plan)
	was := s.past[last]
	s.past, s.run = s.past[:last], ""
	s.set(was)
	return true
}

// Redo takes back an undo.
func (s *Session) Redo() bool {
	if len(s.future) == 0 {
		return false
	}
	last := len(s.future) - 1
	s.past = append(s.past, s.Plan)
	next := s.future[last]
	s.future, s.run = s.future[:last], ""
	s.set(next)
	return true
}

// Edit changes one phrase through its editor.
func (s *Session) Edit(run, id string, words cases.Words, f func(*Editor)) bool {
	delete(s.unseen, id)
	return s.Change(run, func(p *cases.Plan) {
		if e, ok := EditorFor(p, id, words); ok {
			f(&e)
		}
	})
}

// Ask asks a topic or makes an examination; asking twice changes nothing.
func (s *Session) Ask(topic string) bool {
	return s.Change("", func(p *cases.Plan) {
		if cases.Vocab.Has("topic", topic) && !slices.Contains(p.Asked, topic) {
			p.Asked = append(slices.Clone(p.Asked), topic)
		}
	})
}

// Judge makes the judge of the case by the labels.
func (s *Session) Judge(set *tables.Set, labels string) (*scoring.Judge, error) {
	if s.judge != nil && s.judgedBy == labels {
		return s.judge, nil
	}
	j, err := scoring.NewJudge(set, s.Case, s.Pack.LocalRules, labels)
	if err != nil {
		return nil, err
	}
	s.judge, s.judgedBy = j, labels
	return j, nil
}

// GradeNow grades the plan as it stands.
func (s *Session) GradeNow(set *tables.Set, labels string, words cases.Words) error {
	j, err := s.Judge(set, labels)
	if err != nil {
		return err
	}
	s.Grade = j.GradeDone(s.Plan, s.treated(), words)
	if s.First == nil {
		s.First = s.Grade
	}
	return nil
}

// Note is the plan as a note, with what was filled in by one key marked.
func (s *Session) Note(words cases.Words) []Sentence {
	tense := Future
	if s.Treatment != nil {
		tense = Past
	}
	note := NoteOf(s.Case, s.Plan, tense, words)
	for i := range note {
		for k := range note[i].Pieces {
			if p := &note[i].Pieces[k]; p.State == Decided && s.unseen[p.ID] {
				p.State = Unseen
			}
		}
	}
	return note
}

// fillUsual fills protection and advice from another plan, marked as not looked
// at. Only phrases that are open are filled.
func (s *Session) fillUsual(usual *cases.Plan) bool {
	if usual == nil {
		return false
	}
	var filled []string
	ok := s.Change("", func(p *cases.Plan) {
		if p.Protection == nil && usual.Protection != nil {
			p.Protection = slices.Clone(usual.Protection)
			filled = append(filled, "protection")
		}
		if p.Advice == nil && usual.Advice != nil {
			p.Advice = slices.Clone(usual.Advice)
			filled = append(filled, "advice")
		}
	})
	for _, id := range filled {
		s.unseen[id] = true
	}
	return ok
}

// Looked marks a phrase as looked at.
func (s *Session) Looked(id string) { delete(s.unseen, id) }

func samePlan(a, b *cases.Plan) bool { return reflect.DeepEqual(a, b) }
