package screen

import (
	"cmp"
	"fmt"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/mastery"
)

// Progress is what the logbook shows of the learner in hand.
type Progress struct {
	Learner      string
	Attempts     int
	FirstDay     string // date of the first attempt, "" without one
	Competencies []mastery.Competency
	Calibration  mastery.Calibration
	Power        []mastery.Point
	Due          []string       // why today's cases are there
	Comebacks    int            // never events that wait for another patient
	Items        []mastery.Item // rules in families, the hardest first; those with enough answers
}

// Progress reads the logbook for what was shown so far and what is due.
func (d *Desk) Progress() *Progress {
	p := &Progress{
		Learner: d.Settings.Learner, Attempts: d.rec.attempts, Competencies: d.rec.learner.Competencies(),
		Calibration: d.rec.learner.Calibrate(), Comebacks: len(d.rec.learner.Comebacks()), Power: d.powerSense(), Items: d.hardItems(),
	}
	if d.rec.attempts > 0 {
		p.FirstDay = dayText(d.rec.firstDay)
	}
	for _, e := range d.today() {
		if e.why != "" && d.doneGrade(e.ref) == nil {
			p.Due = append(p.Due, e.why)
		}
	}
	return p
}

// mostItems is how many hard rules are told of.
const mostItems = 8

// hardItems estimates how hard each rule is in each family and gives the
// hardest of which there are answers enough to say so.
func (d *Desk) hardItems() []mastery.Item {
	if d.Record.Book == nil {
		return nil
	}
	var newest []mastery.Observation
	for e, err := range d.Record.Book.Entries() {
		if err != nil || e.Kind != logbook.KindAttempt || e.Learner != d.Settings.Learner {
			continue
		}
		if newest = append(newest, observe(e, nil)); len(newest) >= 2*mastery.RecentSittings {
			newest = append(newest[:0], newest[len(newest)-mastery.RecentSittings:]...)
		}
	}
	var items []mastery.Item
	for _, it := range mastery.Items(newest) {
		if !it.Few && it.Right < it.Answers {
			items = append(items, it)
		}
	}
	slices.SortStableFunc(items, func(a, b mastery.Item) int { return cmp.Compare(b.Difficulty, a.Difficulty) })
	return items[:min(mostItems, len(items))]
}

// ItemSays tells of a rule that is hard in a family.
func (d *Desk) ItemSays(it *mastery.Item) string {
	name := it.Rule
	if r := d.Set.Row(it.Rule); r != nil {
		name = cases.Spell(r.Says, d.words())
	}
	return fmt.Sprintf("%s In %s right %d of %d times.", sentence(name), cases.Vocab.Label("family", it.Family, d.words()), it.Right, it.Answers)
}

// powerAttempts is how many attempts the chart of watts looks back on: reading
// whole plans costs more than reading marks.
const powerAttempts = 200

// powerSense sets the watts that were dialled against the least usual figure of
// the rule that judged them.
func (d *Desk) powerSense() []mastery.Point {
	if d.Record.Book == nil {
		return nil
	}
	var judged []*logbook.Entry
	least := map[string]float64{}
	for e, err := range d.Record.Book.Entries() {
		if err != nil || e.Kind != logbook.KindAttempt || e.Learner != d.Settings.Learner {
			continue
		}
		for _, f := range e.Attempt.Findings {
			if r := d.Set.Row(f.Rule); r != nil && r.LeastW() > 0 {
				judged = append(judged, e)
				least[e.ID] = r.LeastW().Float()
				break
			}
		}
	}
	var obs []mastery.Observation
	for _, e := range judged[max(0, len(judged)-powerAttempts):] {
		plan, _, err := d.attemptPlan(e.ID)
		if err != nil || plan.PowerW == nil {
			continue
		}
		o := observe(e, nil)
		o.PowerW, o.LeastUsualW = plan.PowerW.Float(), least[e.ID]
		obs = append(obs, o)
	}
	return mastery.PowerSense(obs)
}

// CompetencySays tells in words what was shown in a domain.
func CompetencySays(c *mastery.Competency) string {
	switch {
	case c.Cases == 0:
		return "not met yet"
	case c.TooFew:
		return "too few to say (" + digits(c.Cases, "case") + ")"
	}
	return fmt.Sprintf("%.0f"+thinSpace+"%%, %.0f to %.0f, %s", 100*c.Mean, 100*c.Low, 100*c.High, digits(c.Cases, "case"))
}

// SureSays tells in words whether the stated chances fit what came.
func SureSays(c *mastery.Calibration) string {
	if c.N == 0 {
		return "You have not said yet how sure you were. The dial is below the plan."
	}
	figures := fmt.Sprintf("You said %.0f"+thinSpace+"%% on average; %.0f"+thinSpace+"%% came out safe (%.0f to %.0f, %s).",
		100*c.Stated, 100*c.Safe, 100*c.Low, 100*c.High, digits(c.N, "answer"))
	switch c.Says {
	case mastery.SaysTooFew:
		return fmt.Sprintf("Too few to say: %d of %d answers.", c.N, mastery.LeastAnswers)
	case mastery.SaysOverSure:
		return "You are surer than you are right. " + figures
	case mastery.SaysUnderSure:
		return "You are right more often than you think. " + figures
	}
	return "Your sureness fits. " + figures
}

// PowerSays tells in words how the watts stand to the least usual figure.
func PowerSays(points []mastery.Point) string {
	switch n := len(points); {
	case n == 0:
		return "No case with watts is graded yet."
	case n < 5:
		return "Too few to say: " + digits(n, "case") + " with watts."
	default:
		first, last := points[min(4, n-1)].Smooth, points[n-1].Smooth
		trend := "about as before"
		if last < first*0.9 {
			trend = "lower than at first"
		} else if last > first*1.1 {
			trend = "higher than at first"
		}
		return fmt.Sprintf("You dial %.1f times the least usual figure, %s (%s).", last, trend, digits(n, "case"))
	}
}

// DomainLabel is a competency's name as a heading.
func DomainLabel(id string, words cases.Words) string {
	return capital(cases.Vocab.Label("domain", id, words))
}

// NotYet lists the competencies that no case has asked for yet.
func (p *Progress) NotYet(words cases.Words) []string {
	var names []string
	for _, c := range p.Competencies {
		if c.Cases == 0 {
			names = append(names, cases.Vocab.Label("domain", c.Domain, words))
		}
	}
	slices.Sort(names)
	return names
}
