package sitting

import (
	"fmt"
	"strings"

	"leastwatt/game/screen"
	"leastwatt/game/verb"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/mastery"
)

// openDesk lays out a sitting for a verb of the logbook. A logbook that cannot
// be opened ends the verb: there is nothing else to tell of. With takeUp a
// self-assessment that was left unfinished is under way again.
func openDesk(s *verb.Shell, data, learner string, takeUp bool, w World) (*screen.Desk, screen.Config, error) {
	cfg, err := Begin(s, data, w)
	if err != nil {
		return nil, cfg, err
	}
	if cfg.Record.Err != nil {
		return nil, cfg, cfg.Record.Err
	}
	if !takeUp { // looking writes nothing
		cfg.Assess.Steps = nil
	}
	if learner != "" {
		if err := logbook.CheckLearner(learner); err != nil {
			return nil, cfg, err
		}
		cfg.Settings.Learner = learner
	}
	if s.Labels == "" { // verbs read no user setting
		cfg.Settings.Labels = screen.DefaultSettings().Labels
	}
	cfg.Settings.Words = s.Words
	desk, err := screen.NewDesk(cfg)
	return desk, cfg, err
}

// progressJSON is what progress prints as JSON.
type progressJSON struct {
	Learner      string           `json:"learner"`
	Attempts     int              `json:"attempts"`
	Since        string           `json:"since,omitempty"`
	Competencies []competencyJSON `json:"competencies"`
	Calibration  calibrationJSON  `json:"calibration"`
	Due          []string         `json:"due"`
	NeverEvents  int              `json:"never_events_due"`
	Power        []powerJSON      `json:"power"`
	Hardest      []itemJSON       `json:"hardest"`
}

// itemJSON is a rule in a family; difficulty in logits, see mastery.Item.
type itemJSON struct {
	Rule       string  `json:"rule"`
	Family     string  `json:"family"`
	Answers    int     `json:"answers"`
	Right      int     `json:"right"`
	Difficulty float64 `json:"difficulty"`
	Error      float64 `json:"error"`
}

type competencyJSON struct {
	Domain   string  `json:"domain"`
	Right    int     `json:"right"`
	Cases    int     `json:"cases"`
	Mean     float64 `json:"mean"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	TooFew   bool    `json:"too_few"`
	OverSure bool    `json:"over_sure"`
}

type calibrationJSON struct {
	N           int       `json:"n"`
	Says        string    `json:"says"`
	Stated      float64   `json:"stated"`
	Safe        float64   `json:"safe"`
	Low         float64   `json:"low"`
	High        float64   `json:"high"`
	Brier       float64   `json:"brier"`
	Reliability float64   `json:"reliability"`
	Resolution  float64   `json:"resolution"`
	Uncertainty float64   `json:"uncertainty"`
	Bins        []binJSON `json:"bins"`
}

type binJSON struct {
	From   float64 `json:"from"`
	To     float64 `json:"to"`
	N      int     `json:"n"`
	Stated float64 `json:"stated"`
	Safe   float64 `json:"safe"`
}

type powerJSON struct {
	UTC    int64   `json:"utc_ms"`
	Ratio  float64 `json:"ratio"`
	Smooth float64 `json:"smooth"`
}

// Progress prints what the logbook shows of a learner and what is due.
func Progress(s *verb.Shell, data, learner string, w World) int {
	desk, cfg, err := openDesk(s, data, learner, false, w)
	if err != nil {
		return s.Fail(err)
	}
	defer cfg.Close()
	p := desk.Progress()
	if s.JSON {
		return s.PrintJSON(progressAsJSON(p))
	}
	return s.Print(ProgressText(p, s))
}

func progressAsJSON(p *screen.Progress) progressJSON {
	out := progressJSON{
		Learner: p.Learner, Attempts: p.Attempts, Since: p.FirstDay, NeverEvents: p.Comebacks,
		Competencies: []competencyJSON{}, Due: []string{}, Power: []powerJSON{}, Hardest: []itemJSON{},
	}
	for _, c := range p.Competencies {
		out.Competencies = append(out.Competencies, competencyJSON{c.Domain, c.Right, c.Cases, c.Mean, c.Low, c.High, c.TooFew, c.OverSure})
	}
	c := &p.Calibration
	out.Calibration = calibrationJSON{c.N, string(c.Says), c.Stated, c.Safe, c.Low, c.High, c.Brier, c.Reliability, c.Resolution, c.Uncertainty, []binJSON{}}
	for _, b := range c.Bins {
		out.Calibration.Bins = append(out.Calibration.Bins, binJSON{b.From, b.To, b.N, b.Stated, b.Safe})
	}
	out.Due = append(out.Due, p.Due...)
	for _, x := range p.Power {
		out.Power = append(out.Power, powerJSON{x.UTC, x.Ratio, x.Smooth})
	}
	for _, it := range p.Items {
		out.Hardest = append(out.Hardest, itemJSON{it.Rule, it.Family, it.Answers, it.Right, it.Difficulty, it.Error})
	}
	return out
}

// ProgressText tells the same in words.
func ProgressText(p *screen.Progress, s *verb.Shell) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s: ", verb.TrainingLine, p.Learner)
	if p.Attempts == 0 {
		b.WriteString("nothing is in the logbook yet.\n")
		return b.String()
	}
	fmt.Fprintf(&b, "%d attempts since %s\n\nShown so far\n", p.Attempts, p.FirstDay)
	for i := range p.Competencies {
		c := &p.Competencies[i]
		fmt.Fprintf(&b, "  %-14s%s\n", screen.DomainLabel(c.Domain, s.Words), screen.PlainText(screen.CompetencySays(c)))
	}
	if names := p.NotYet(s.Words); len(names) > 0 {
		fmt.Fprintf(&b, "  Not yet met: %s.\n", strings.Join(names, ", "))
	}
	fmt.Fprintf(&b, "\nAre you over-sure?\n  %s\n", screen.PlainText(screen.SureSays(&p.Calibration)))
	if p.Calibration.Says != mastery.SaysTooFew {
		c := &p.Calibration
		fmt.Fprintf(&b, "  Brier score %.3f = reliability %.3f - resolution %.3f + uncertainty %.3f\n", c.Brier, c.Reliability, c.Resolution, c.Uncertainty)
	}
	fmt.Fprintf(&b, "\nLeast power\n  %s\n\nDue today\n", screen.PlainText(screen.PowerSays(p.Power)))
	for _, d := range p.Due {
		fmt.Fprintf(&b, "  %s\n", d)
	}
	if len(p.Due) == 0 {
		b.WriteString("  Nothing.\n")
	}
	if p.Comebacks > 0 {
		fmt.Fprintf(&b, "  Never events to meet again in other patients: %d\n", p.Comebacks)
	}
	b.WriteString("\nThis trains and does not certify. Your supervisor, local codes, the unit's own manual and your licence decide.\n")
	return b.String()
}
