package plain

import (
	"strings"

	"leastwatt/game/screen"
)

// progress tells what the logbook shows and what is due.
func (p *player) progress() {
	if !p.desk.Recording() {
		p.say("No logbook is open, so nothing is known between sittings.")
		return
	}
	g := p.desk.Progress()
	if g.Attempts == 0 {
		p.say("Nothing is in your logbook yet. Each first grade of a case goes in.")
		return
	}
	p.heading("Progress of " + g.Learner + ".")
	p.sayf("%d attempts since %s. What was shown so far:", g.Attempts, g.FirstDay)
	for i := range g.Competencies {
		c := &g.Competencies[i]
		p.indent("- ", screen.DomainLabel(c.Domain, p.words())+": "+screen.PlainText(screen.CompetencySays(c)))
	}
	if names := g.NotYet(p.words()); len(names) > 0 {
		p.say("Not yet met: " + strings.Join(names, ", ") + ".")
	}
	p.say(screen.PlainText(screen.SureSays(&g.Calibration)))
	p.say(screen.PlainText(screen.PowerSays(g.Power)))
	for i := range g.Items {
		p.indent("- ", "Hard for you: "+p.desk.ItemSays(&g.Items[i]))
	}
	for _, d := range g.Due {
		p.indent("- ", "Due: "+d+".")
	}
	if g.Comebacks > 0 {
		p.sayf("Never events to meet again in other patients: %d.", g.Comebacks)
	}
}

// attempts lists what was graded, and shows one as it was.
func (p *player) attempts() {
	list := p.desk.PastAttempts()
	if len(list) == 0 {
		p.say("Nothing is in your logbook yet.")
		return
	}
	p.heading("Your attempts, the newest first.")
	for i, a := range list[:min(len(list), 10)] {
		p.sayf("%d. %s: %s. %s, %s.", i+1, a.When, a.Quote, a.Verdict, a.Counts)
		if t, err := p.desk.ThenAndNow(a.ID); err == nil {
			for _, d := range t.Diffs {
				p.indent("   ", d)
			}
		}
	}
}
