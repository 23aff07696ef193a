package screen

import (
	"slices"
	"strconv"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/tables"
)

// GlanceMark is how one picture of a round was judged.
type GlanceMark struct {
	Verdict  string            // safe, needs work, unsafe, or not decided
	Findings []scoring.Finding // about what was asked, the worst first
}

// notDecided is the verdict on a picture that was left open.
const notDecided = "not decided"

// asks tells whether a round asked for all that a rule's row reads: the
// decision, and of a lesion that is treated whether tissue is sent. Rows that
// read more, such as who gets the referral, are for the full case.
func (g *Glance) asks(domain string, phrases []string) bool {
	if domain != "decision" && domain != "tissue" || len(phrases) == 0 {
		return false
	}
	return !slices.ContainsFunc(phrases, func(p string) bool {
		return p != "disposition" && (p != "specimen.send" || !g.AsksTissue())
	})
}

// MarkGlance judges what was decided at a picture: the real judge on a plan
// that holds no more, and of its findings those about what was asked.
func (d *Desk) MarkGlance(g *Glance) (GlanceMark, error) {
	j, err := scoring.NewJudge(d.Set, g.c, g.pack.LocalRules, d.Settings.Labels)
	if err != nil {
		return GlanceMark{}, err
	}
	m := GlanceMark{Verdict: verdictAtAGlance(j, g)}
	for _, f := range j.Grade(g.plan(), d.words()).Findings {
		if g.asks(f.Domain, f.Phrases) {
			m.Findings = append(m.Findings, f)
		}
	}
	return m, nil
}

// marksAtAGlance are the marks of the rows that read no more than was asked.
func marksAtAGlance(j *scoring.Judge, g *Glance) []scoring.Mark {
	var marks []scoring.Mark
	for _, m := range j.Score(g.plan(), nil).Marks {
		if g.asks(m.Row.Domain, m.Row.Phrases) {
			marks = append(marks, m)
		}
	}
	return marks
}

// verdictAtAGlance is the verdict on what was asked.
func verdictAtAGlance(j *scoring.Judge, g *Glance) string {
	if !g.Decided() {
		return notDecided
	}
	worst := tables.Credit
	for _, m := range marksAtAGlance(j, g) {
		worst = max(worst, m.Kind)
	}
	switch worst {
	case tables.Never:
		return scoring.Unsafe
	case tables.Caution:
		return scoring.NeedsWork
	}
	return scoring.Safe
}

// TissueDepends tells whether a lesion was rightly treated and no row could
// judge the tissue by what was asked: it then depends on how it is removed.
func (m *GlanceMark) TissueDepends(g *Glance) bool {
	return m.Verdict == scoring.Safe && g.AsksTissue() && g.Send != nil && !slices.ContainsFunc(m.Findings, func(f scoring.Finding) bool { return f.Domain == "tissue" })
}

// kind is the mark of a verdict.
func (m *GlanceMark) kind() string {
	switch {
	case m.Verdict == scoring.Unsafe:
		return "never"
	case m.Verdict != scoring.Safe:
		return "caution"
	case slices.ContainsFunc(m.Findings, func(f scoring.Finding) bool { return f.Kind == "advice" }):
		return "advice"
	}
	return "credit"
}

// RoundCounts says how a round went, in words: "Six safe, three need work, one
// not decided".
func RoundCounts(marks []GlanceMark) string {
	n := map[string]int{}
	for _, m := range marks {
		n[m.Verdict]++
	}
	var parts []string
	for _, v := range []struct{ verdict, one, many string }{
		{scoring.Safe, "safe", "safe"},
		{scoring.NeedsWork, "needs work", "need work"},
		{scoring.Unsafe, "unsafe", "unsafe"},
		{notDecided, "not decided", "not decided"},
	} {
		switch k := n[v.verdict]; {
		case k == 1:
			parts = append(parts, "one "+v.one)
		case k > 1:
			parts = append(parts, numberWord(k)+" "+v.many)
		}
	}
	return capital(listAnd(parts))
}

// TellsOf is how the look-alikes of a case are told apart, with the source.
func TellsOf(c *cases.Case, words cases.Words) (told, source string) {
	g := lookalikeGroups[groupOf(c)]
	return cases.Spell(g.Told, words), capital(g.Source)
}

// WorthOpening tells whether the picture should be opened as a full case.
func (m *GlanceMark) WorthOpening() bool { return m.Verdict != scoring.Safe }

// OpenText says which pictures to open as full cases.
func OpenText(marks []GlanceMark) string {
	var worth []string
	for i := range marks {
		if marks[i].WorthOpening() {
			worth = append(worth, strconv.Itoa(i+1))
		}
	}
	switch len(worth) {
	case 0:
		return "Any of them can be opened as a full case."
	case 1:
		return "Open number " + worth[0] + " as a full case."
	}
	return "Open numbers " + listAnd(worth) + " as full cases."
}
