package sitting

import (
	"io"

	"leastwatt/game/plain"
	"leastwatt/game/verb"
	"leastwatt/scoring"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/logbook"
)

// runJSON is one self-assessment as assess prints it with --json: enough for a
// supervisor to make the run again.
type runJSON struct {
	Run       string           `json:"run"`
	Title     string           `json:"title"`
	Seed      uint64           `json:"seed,string"`
	Tables    string           `json:"tables"`
	Labels    string           `json:"labels"`
	WatchedBy string           `json:"watched_by"`
	BeganMS   int64            `json:"began_utc_ms"`
	ElapsedMS int64            `json:"elapsed_ms"`
	AwayMS    int64            `json:"away_ms"`
	SetBack   bool             `json:"clock_set_back"`
	Ending    string           `json:"ending"` // "" while it is under way
	Passed    bool             `json:"passed"`
	Nevers    int              `json:"never_events"`
	LeftOut   int              `json:"items_without_published_source"`
	Domains   []domainJSON     `json:"domains"`
	Cases     []assessCaseJSON `json:"cases"`
}

type domainJSON struct {
	Domain  string  `json:"domain"`
	Right   int     `json:"right"`
	Items   int     `json:"items"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Least   float64 `json:"standard"`
	Judged  bool    `json:"judged"`
	Reached bool    `json:"reached"`
}

type assessCaseJSON struct {
	Code     string            `json:"code"`
	Verdict  string            `json:"verdict"` // "" when it was not handed in
	Cautions []scoring.Finding `json:"cautions"`
}

// Assess takes a self-assessment in the terminal, or goes on with the one under
// way. With --json it prints every run in the logbook instead.
func Assess(s *verb.Shell, in io.Reader, data, learner string, w World) int {
	desk, cfg, err := openDesk(s, data, learner, !s.JSON, w)
	if err != nil {
		return s.Fail(err)
	}
	defer cfg.Close()
	if !s.JSON {
		if err := plain.RunAssess(in, s.Out, desk); err != nil {
			return s.Fail(err)
		}
		return verb.Done
	}
	return s.PrintJSON(runsOf(cfg.Record.Book, desk.Settings.Learner))
}

// runsOf reads every run of a learner from the logbook, oldest first.
func runsOf(book *logbook.Book, learner string) []runJSON {
	out := []runJSON{}
	steps := map[string][]assess.Step{}
	var order []string
	for _, st := range stepsOf(book, learner) {
		if steps[st.Run] == nil {
			order = append(order, st.Run)
		}
		steps[st.Run] = append(steps[st.Run], st)
	}
	for _, id := range order {
		if run, err := assess.Fold(steps[id]); err == nil {
			out = append(out, runAsJSON(run))
		}
	}
	return out
}

func runAsJSON(run *assess.Run) runJSON {
	res := assess.Judge(run)
	st := run.Start
	out := runJSON{
		Run: run.ID, Title: st.Title, Seed: st.Seed, Tables: st.Tables, Labels: st.Labels, WatchedBy: st.WatchedBy,
		BeganMS: run.BeganMS, ElapsedMS: run.ElapsedMS(run.EndedMS), SetBack: run.SetBack, Ending: run.Ending,
		Passed: res.Passed, Nevers: res.Nevers, LeftOut: res.LeftOut,
	}
	for _, g := range run.Away {
		out.AwayMS += g.ToMS - g.FromMS
	}
	for _, d := range res.Domains {
		out.Domains = append(out.Domains, domainJSON{d.Domain, d.Right, d.Items, d.Low, d.High, d.Least.Float(), d.Judged, d.Reached})
	}
	for _, c := range res.Cases {
		cautions := c.Cautions
		if cautions == nil {
			cautions = []scoring.Finding{}
		}
		out.Cases = append(out.Cases, assessCaseJSON{c.Code, c.Verdict, cautions})
	}
	return out
}
