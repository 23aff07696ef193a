package screen

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/tables"
)

// Desk is what lies before the trainee whatever screen is shown: the packs,
// the order of today's cases, drafts, settings, and what was done in this
// sitting. The window and the plain mode both work from it.
type Desk struct {
	Config
	packs    []*cases.Pack
	order    []entry
	drafts   map[string]*cases.Plan
	sessions map[string]*Session
	done     []doneCase
	usual    *cases.Plan
	saveErr  string // the last draft or setting that could not be kept

	rec       record          // what the logbook tells of the learner
	list      []dueCase       // today's list, nil until it is made
	offers    []offer         // the packs' cases as they may come, nil until looked up
	run       *assess.Run     // the self-assessment under way, or the last
	others    int             // cases made like another in this sitting
	rounds    int             // short rounds begun in this sitting
	glanced   map[string]bool // cases that a short round showed
	fairCases []fairEntry     // cases that a short round may show
}

// entry is one case in the order it is offered.
type entry struct {
	ref  string
	pack *cases.Pack
	c    *cases.Case
}

// doneCase is the first grade of a case in this sitting.
type doneCase struct {
	ref   string
	grade *scoring.Grade
}

// NewDesk checks the configuration and lays out the cases.
func NewDesk(cfg Config) (*Desk, error) {
	if err := cfg.check(); err != nil {
		return nil, err
	}
	if cfg.Set == nil {
		cfg.Set = tables.Builtin
	}
	cfg.Settings = cfg.Settings.mended()
	d := &Desk{Config: cfg, drafts: map[string]*cases.Plan{}, sessions: map[string]*Session{}, glanced: map[string]bool{}, usual: cfg.Usual}
	maps.Copy(d.drafts, cfg.Drafts)
	for _, p := range cfg.Packs {
		if err := d.addPack(p); err != nil {
			return nil, err
		}
	}
	if cfg.Record.Err != nil {
		d.saveErr = "Nothing of this sitting is kept: " + cfg.Record.Err.Error() + "."
	}
	if cfg.Record.Found != "" {
		d.saveErr = strings.TrimSpace(cfg.Record.Found)
	}
	d.readRecord()
	if d.usual == nil {
		d.usual = d.usualFromRecord()
	}
	d.resumeRun()
	return d, nil
}

// addPack puts the cases of a pack into the order. A second pack with the same
// id is an error.
func (d *Desk) addPack(p *cases.Pack) error {
	if p.ID == cases.MadePackID {
		return fmt.Errorf("the pack id %q is kept for generated cases; give the pack another id", p.ID)
	}
	for _, known := range d.packs {
		if known.ID == p.ID {
			return fmt.Errorf("a pack with the id %q is here already; give one of them another id", p.ID)
		}
	}
	d.packs = append(d.packs, p)
	d.fairCases, d.offers, d.list = nil, nil, nil // to be looked through again
	for i := range p.Cases {
		d.order = append(d.order, entry{p.ID + "/" + p.Cases[i].ID, p, &p.Cases[i]})
	}
	seed := d.Seed
	slices.SortStableFunc(d.order, func(a, b entry) int {
		if a.c.Level != b.c.Level {
			return a.c.Level - b.c.Level
		}
		ha, hb := shuffle(seed, a.ref), shuffle(seed, b.ref)
		switch {
		case ha < hb:
			return -1
		case ha > hb:
			return 1
		}
		return 0
	})
	return nil
}

// shuffle gives a case its place among those of its level: a hash of seed and
// name (FNV-1a, 64 bit, with a last mix), the same on every machine.
func shuffle(seed uint64, ref string) uint64 {
	h := uint64(14695981039346656037) ^ seed*0x9E3779B97F4A7C15
	for _, b := range []byte(ref) {
		h = (h ^ uint64(b)) * 1099511628211
	}
	h ^= h >> 33
	h *= 0xFF51AFD7ED558CCD
	return h ^ h>>33
}

// Cases lists every case in the order offered, by pack-id/case-id.
func (d *Desk) Cases() []string {
	refs := make([]string, len(d.order))
	for i, e := range d.order {
		refs[i] = e.ref
	}
	return refs
}

// Open gives the session of a case, a new one on its draft where there is one.
func (d *Desk) Open(ref string) (*Session, error) {
	if s := d.sessions[ref]; s != nil {
		return s, nil
	}
	for _, e := range d.order {
		if e.ref == ref {
			return d.begin(ref, e.pack, e.c), nil
		}
	}
	if code, made := strings.CutPrefix(ref, cases.MadePackID+"/"); made {
		return d.openMade(code)
	}
	return nil, fmt.Errorf("there is no case %q", ref)
}

// openMade gives the session of a generated case, on its draft where there is
// one.
func (d *Desk) openMade(code string) (*Session, error) {
	c, err := cases.MadeCase(code)
	if err != nil {
		return nil, err
	}
	ref := cases.MadePackID + "/" + c.ID // the code as it is written in full
	if s := d.sessions[ref]; s != nil {
		return s, nil
	}
	return d.begin(ref, cases.MadePack(), c), nil
}

// begin makes the session of a case, on its draft where there is one.
func (d *Desk) begin(ref string, pack *cases.Pack, c *cases.Case) *Session {
	s := newSession(pack, c, d.drafts[ref], d.keepDraft)
	s.openedMS = d.nowMS()
	d.sessions[ref] = s
	return s
}

// number is the case's place in the order, from 1.
func (d *Desk) number(ref string) int {
	for i, e := range d.order {
		if e.ref == ref {
			return i + 1
		}
	}
	return 0
}

// Next is the first case after ref that is not done, going round; ref itself
// when there is no other.
func (d *Desk) Next(ref string) string {
	at := d.number(ref)
	for i := range d.order {
		e := d.order[(at+i)%len(d.order)]
		if e.ref != ref && d.doneGrade(e.ref) == nil {
			return e.ref
		}
	}
	return d.order[at%len(d.order)].ref
}

func (d *Desk) keepDraft(p *cases.Plan) {
	if s := d.sessions[p.Case]; s != nil && s.attempt != "" {
		return // what is tried after the grade is not a plan to come back to
	}
	d.drafts[p.Case] = p
	if d.SaveDraft == nil {
		return
	}
	d.saved("Your plan", d.SaveDraft(clonePlan(p)))
}

// ChangeSettings takes new settings at once and hands them out to be kept.
func (d *Desk) ChangeSettings(s Settings) {
	learner := d.Settings.Learner
	d.Settings = s.mended()
	if d.SaveSettings != nil {
		d.saved("Your settings", d.SaveSettings(d.Settings))
	}
	if learner != d.Settings.Learner {
		d.list, d.done, d.sessions = nil, nil, map[string]*Session{}
		d.readRecord()
	}
}

// saved notes what could not be kept, until the same can be again.
func (d *Desk) saved(what string, err error) {
	d.saveErr = ""
	if err != nil {
		d.saveErr = what + " could not be kept: " + err.Error()
	}
}

// Grade grades a session's plan. The first grade counts: it is noted as done
// and written into the logbook before this returns.
func (d *Desk) Grade(s *Session) error {
	if err := s.GradeNow(d.Set, d.Settings.Labels, d.Settings.Words); err != nil {
		return err
	}
	if s.attempt == "" {
		d.saved("Your attempt", d.keepAttempt(s, s.First, d.cameFrom(s.Ref)))
	}
	if d.doneGrade(s.Ref) == nil {
		d.done = append(d.done, doneCase{s.Ref, s.First})
	}
	d.usual = s.Plan
	return nil
}

// cameFrom tells how a case was come by.
func (d *Desk) cameFrom(ref string) string {
	switch {
	case slices.ContainsFunc(d.list, func(e dueCase) bool { return e.ref == ref }):
		return logbook.FromToday
	case strings.HasPrefix(ref, cases.MadePackID+"/"):
		return logbook.FromAgain
	}
	return logbook.FromList
}

func (d *Desk) doneGrade(ref string) *scoring.Grade {
	for _, x := range d.done {
		if x.ref == ref {
			return x.grade
		}
	}
	return nil
}

// UseUsual fills open protection and advice from the last plan that was
// graded, unless that is this very plan.
func (d *Desk) UseUsual(s *Session) bool {
	return d.usual != s.Plan && s.fillUsual(d.usual)
}

// shown counts, per domain, the cases of this sitting that asked for it and
// those of them without a caution or a never event in it.
func (d *Desk) shown() []domainCount {
	var list []domainCount
	for _, w := range cases.Vocab.List("domain") {
		c := domainCount{domain: w.ID, label: w.Label(d.Settings.Words)}
		for _, x := range d.done {
			met, clean := false, true
			for _, f := range x.grade.Findings {
				if f.Domain == w.ID {
					met = true
					clean = clean && f.Kind != "never" && f.Kind != "caution"
				}
			}
			if met {
				c.cases++
			}
			if met && clean {
				c.clean++
			}
		}
		if w.ID != "bench" {
			list = append(list, c)
		}
	}
	return list
}

type domainCount struct {
	domain, label string
	cases, clean  int
}

func (d *Desk) words() cases.Words { return d.Settings.Words }

// PackList lists the packs on the desk.
func (d *Desk) PackList() []*cases.Pack { return d.packs }

// Trouble is what could not be kept, "" when all was.
func (d *Desk) Trouble() string { return d.saveErr }
