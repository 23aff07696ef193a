package cases

import "strings"

// words composes what is read: title, the patient's words, answers, and what
// the debrief tells. Only the debrief may know the family.
func (m *composing) words() {
	d := m.dice("words")
	c := m.c
	c.Title = m.title(d)
	c.Presenting = m.opening(d)
	c.Ask = m.answers()
	c.Truth = Truth{m.f.Diagnosis, m.f.Histology}
	if r := c.Lesion.Report; r != nil && r.Says == c.Lesion.Family && r.Side == c.Lesion.Side {
		c.Truth.Histology = m.f.Histology + ", as reported"
	}
	lessons := m.lessons
	if len(lessons) > 2 {
		lessons = lessons[:2]
	}
	c.Teaching = strings.Join(append([]string{m.f.Teaching}, lessons...), " ")
}

// wideMM is the width from which a lesion is called a patch rather than a spot.
const wideMM = Milli(12_000)

func (m *composing) title(d *dice) string {
	nouns := m.Titles.Small
	switch {
	case m.c.Lesion.Counted() > 1:
		nouns = m.Titles.Many
	case m.c.Lesion.WidthMM >= wideMM:
		nouns = m.Titles.Wide
	}
	where := strings.ReplaceAll(m.site(m.c.Lesion.Site).Where, "{side}", m.c.Lesion.Side)
	return nouns[d.below(len(nouns))] + " " + where
}

// standsOut is the height, mm, from which cloth or a razor can catch a lesion.
const standsOut = Milli(800)

// opening chooses the patient's first words by what anybody could see.
func (m *composing) opening(d *dice) string {
	if own := m.f.Openings; len(own) > 0 {
		return own[d.below(len(own))]
	}
	bleeding := contains(m.c.Lesion.Features, "bleeding")
	weights := make([]int, len(m.Openings))
	for i := range m.Openings {
		if o := &m.Openings[i]; o.Bleeding == bleeding && m.suits(o) {
			weights[i] = 1
			if o.Areas != nil || o.Sites != nil {
				weights[i] = 3 // words about the place say more than words that fit any
			}
		}
	}
	o := &m.Openings[d.pick(weights)]
	if m.c.Lesion.Counted() > 1 {
		return o.Many
	}
	return o.One
}

func (m *composing) suits(o *madeOpening) bool {
	l, p := &m.c.Lesion, &m.c.Patient
	switch {
	case !inAges(p, o.Ages),
		o.Sex != "" && o.Sex != p.Sex,
		o.Raised && l.HeightMM < standsOut,
		o.Areas != nil && !contains(o.Areas, m.site(l.Site).Area),
		o.Sites != nil && !contains(o.Sites, l.Site):
		return false
	}
	return true
}

func inAges(p *Patient, ages []int) bool {
	return ages == nil || p.AgeYears >= Milli(ages[0])*1000 && p.AgeYears <= Milli(ages[1])*1000
}

// answers gives the topics words of their own where the case holds nothing on
// them, or one feature that such words can tell. The rest is composed from the
// facts when it is asked.
func (m *composing) answers() map[string]string {
	ask := map[string]string{}
	for _, topic := range Vocab.IDs("topic") {
		facts := factsOf(m.c, topic)
		var texts []string
		for _, list := range [][]madeAnswer{m.f.OwnAnswers, m.Answers} {
			for i := range list {
				a := &list[i]
				if a.Topic == topic && inAges(&m.c.Patient, a.Ages) && m.holdsOnly(facts, a.When) {
					texts = append(texts, a.Texts...)
				}
			}
			if len(texts) > 0 {
				ask[topic] = texts[m.dice("answer "+topic).below(len(texts))]
				break
			}
		}
	}
	return ask
}

func (m *composing) holdsOnly(facts []fact, feature string) bool {
	if feature == "" {
		return len(facts) == 0
	}
	return len(facts) == 1 && facts[0].label == Vocab.Label("feature", feature, UK)
}
