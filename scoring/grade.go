package scoring

import (
	"slices"
	"strconv"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
	"leastwatt/scoring/tissue"
)

// ModelVersion names the edition of grading: it rises when the same input
// would give another grade. Where a bench was graded the edition of the tissue
// model stands in its place.
const ModelVersion = 1

// benchModelVersion is the edition of the tissue model as a number.
func benchModelVersion() int {
	n, err := strconv.Atoi(tissue.ModelVersion)
	if err != nil {
		panic(err) // a constant of the program
	}
	return n
}

// Verdicts.
const (
	Safe      = "safe"
	NeedsWork = "needs work"
	Unsafe    = "unsafe"
)

// Grade is a judged plan in words.
type Grade struct {
	Case         string        `json:"case"`
	CaseDigest   string        `json:"case_digest"`
	Tables       string        `json:"tables"`
	Labels       string        `json:"labels"`
	Words        string        `json:"words"`
	ModelVersion int           `json:"model_version"`
	Bench        string        `json:"bench"` // none, or done
	Outcome      *Outcome      `json:"outcome,omitempty"`
	Points       int           `json:"points"`
	Of           int           `json:"of"`
	Verdict      string        `json:"verdict"`
	Domains      []DomainMarks `json:"domains"`
	Findings     []Finding     `json:"findings"`
	Ignored      []string      `json:"ignored"`
}

// DomainMarks are the points of one domain.
type DomainMarks struct {
	Domain string `json:"domain"`
	Points int    `json:"points"`
	Of     int    `json:"of"`
}

// Finding is one graded statement.
type Finding struct {
	Rule      string   `json:"rule"`
	Kind      string   `json:"kind"`
	Domain    string   `json:"domain"`
	Points    int      `json:"points"`
	Of        int      `json:"of"`
	Phrases   []string `json:"phrases"`
	Choice    string   `json:"choice"`
	Expected  string   `json:"expected"`
	Why       string   `json:"why"`
	Source    string   `json:"source"`
	Certainty string   `json:"certainty"`
	Local     bool     `json:"local,omitempty"`
	Heading   string   `json:"-"` // what stands in the margin
}

// Counts is the number of findings of each kind.
func (g *Grade) Counts() (nevers, cautions, advices, credits int) {
	for _, f := range g.Findings {
		switch f.Kind {
		case "never":
			nevers++
		case "caution":
			cautions++
		case "advice":
			advices++
		default:
			credits++
		}
	}
	return nevers, cautions, advices, credits
}

// Whether the case was treated on the bench.
const (
	BenchNone = "none"
	BenchDone = "done"
)

// Grade judges a plan and puts the judgement into words.
func (j *Judge) Grade(p *cases.Plan, words cases.Words) *Grade { return j.GradeDone(p, nil, words) }

// GradeDone judges a plan and the outcome of carrying it out on the bench; a
// nil outcome means that it was not.
func (j *Judge) GradeDone(p *cases.Plan, o *Outcome, words cases.Words) *Grade {
	s := j.score(p, o, make([]Mark, 0, 96))
	g := &Grade{
		Case: p.Case, CaseDigest: j.caseDigest(), Tables: j.Set.Version + "-" + j.Set.Digest[:12],
		Labels: j.Labels, Words: string(words), ModelVersion: ModelVersion, Bench: BenchNone,
		Points: s.Points, Of: s.Of, Verdict: verdict(&s),
		Domains: j.domainMarks(&s, o), Findings: make([]Finding, 0, len(s.Marks)), Ignored: ignored(p),
	}
	if o != nil {
		g.Bench, g.Outcome, g.ModelVersion = BenchDone, o.complete(), benchModelVersion()
	}
	slices.SortStableFunc(s.Marks, func(a, b Mark) int { return int(b.Kind) - int(a.Kind) })
	for _, m := range s.Marks {
		g.Findings = append(g.Findings, j.finding(m, p, words))
	}
	return g
}

// caseDigest is reckoned once: the case does not change while it is drilled.
func (j *Judge) caseDigest() string {
	if j.digest == "" {
		j.digest = j.Case.Digest()
	}
	return j.digest
}

func verdict(s *Score) string {
	switch {
	case s.Nevers > 0:
		return Unsafe
	case s.Cautions > 0:
		return NeedsWork
	}
	return Safe
}

func (j *Judge) domainMarks(s *Score, o *Outcome) []DomainMarks {
	marks := make([]DomainMarks, len(domains))
	of := j.ofDomain[s.Target]
	if o != nil {
		of = j.treated.ofDomain[s.Target]
	}
	for i, name := range domains {
		marks[i].Domain = name
		if of != nil { // nil when no decision is taken and none is acceptable
			marks[i].Of = of[i]
		}
		for _, m := range s.Marks {
			if m.Row.Domain == name {
				marks[i].Points += m.Points
			}
		}
	}
	return marks
}

func (j *Judge) finding(m Mark, p *cases.Plan, words cases.Words) Finding {
	r := m.Row
	f := Finding{
		Rule: r.Rule, Kind: m.Kind.String(), Domain: r.Domain, Points: m.Points, Of: m.Of, Phrases: r.Phrases,
		Choice:   choiceText(p, r.Phrases, words),
		Expected: cases.Spell(j.expected(r, p), words),
		Why:      cases.Spell(r.Why, words), Source: r.Source, Certainty: r.Certainty,
		Heading: cases.Spell(r.Heading(m.Kind), words),
	}
	if r.Bench() {
		j.tellBench(&f, m, words)
	}
	if m.Local {
		j.tellLocal(&f, r)
	}
	return f
}

// tellLocal marks a finding that a supervisor changed and shows both rules.
func (j *Judge) tellLocal(f *Finding, r *tables.Row) {
	o := j.overrides[r.Rule]
	f.Local = true
	f.Source = o.source + "; the usual rule: " + r.Source
	f.Why = strings.TrimSpace(o.reason) + " The usual rule: " + f.Why
	if o.text != "" {
		f.Expected = "Here: " + o.text + ". Usually: " + f.Expected
	}
}

func (j *Judge) expected(r *tables.Row, p *cases.Plan) string {
	if text := tables.DoseExpected(r, j.Case, p, j.Labels); text != "" {
		return text
	}
	if r.Right != "" {
		return r.Right
	}
	return r.Says
}

func choiceText(p *cases.Plan, phrases []string, words cases.Words) string {
	if len(phrases) == 1 {
		return cases.PhraseText(p, phrases[0], words)
	}
	texts := make([]string, len(phrases))
	for i, path := range phrases {
		texts[i] = cases.PhraseText(p, path, words)
	}
	return strings.Join(texts, "; ")
}

// ignored lists the keys that the plan holds and its decision does not use.
func ignored(p *cases.Plan) []string {
	keys := []string{}
	for _, key := range cases.DecidedKeys(p) {
		if !tables.Uses(p.Disposition, key) {
			keys = append(keys, key)
		}
	}
	return keys
}
