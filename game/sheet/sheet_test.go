package sheet

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring"
	"leastwatt/scoring/assess"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// aRun is a run of the usual blueprint: most cases with full marks, one with a
// careless plan, the last ones as asked for.
func aRun(t testing.TB, unanswered int, watchedBy string) (*assess.Run, *assess.Result) {
	t.Helper()
	b := assess.Usual()
	codes, err := b.Draw(tables.Builtin, 11)
	if err != nil {
		t.Fatal(err)
	}
	const began = 1_795_000_000_000
	steps := []assess.Step{{
		Format: assess.StepFormat, Run: "r", Step: assess.Begin, UTC: began,
		Start: b.NewStart(11, codes, "", tables.Builtin.Version, "cautious", "uk", watchedBy),
	}}
	for i, code := range codes[:len(codes)-unanswered] {
		c, err := cases.MadeCase(code)
		if err != nil {
			t.Fatal(err)
		}
		j, err := scoring.NewJudge(tables.Builtin, c, nil, "cautious")
		if err != nil {
			t.Fatal(err)
		}
		p := solve.Solve(j, "made/"+code).Plan
		if i == 2 {
			p = &cases.Plan{Format: cases.PlanFormat, Case: "made/" + code, Disposition: "treat", Technique: "electrodesiccation"}
		}
		steps = append(steps, assess.Step{
			Format: assess.StepFormat, Run: "r", Step: assess.Answer, UTC: began + int64(i+1)*180_000,
			Given: &assess.Given{At: i, Plan: p, Grade: j.Grade(p, cases.UK)},
		})
	}
	end := assess.Done
	if unanswered > 0 {
		end = assess.TimeUp
	}
	steps = append(steps, assess.Step{Format: assess.StepFormat, Run: "r", Step: assess.End, UTC: began + 3_000_000, Ending: end})
	run, err := assess.Fold(steps)
	if err != nil {
		t.Fatal(err)
	}
	return run, assess.Judge(run)
}

// The sheet holds what a supervisor needs to make the run again, why each
// caution was given, and what the run does not say.
func TestSheetText(t *testing.T) {
	run, res := aRun(t, 0, "")
	text := Make(tables.Builtin, run, res, cases.UK, time.UTC).Text()
	for _, want := range append([]string{"Seed     11", "Labels   cautious", "95 % credibility", Unwatched, Statement, "Trainee:", "Supervisor:"}, run.Start.Codes...) {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	for _, c := range res.Cases {
		for _, f := range c.Cautions {
			if !strings.Contains(text, f.Why) || !strings.Contains(text, f.Source) {
				t.Errorf("%s: the sheet does not say why or whose word it is", f.Rule)
			}
		}
	}
	watched, wres := aRun(t, 0, "a supervisor")
	if text := Make(tables.Builtin, watched, wres, cases.UK, time.UTC).Text(); strings.Contains(text, Unwatched) {
		t.Error("a watched run is called unwatched")
	}
	short, sres := aRun(t, 2, "")
	if text := Make(tables.Builtin, short, sres, cases.UK, time.UTC).Text(); !strings.Contains(text, "the time was up after 10 of 12 cases") {
		t.Error("the sheet does not tell that the time was up")
	}
}

// The same run gives the same file, which is a PDF of more than one page. With
// LEASTWATT_SHEET set it is kept there, to be looked at.
func TestPDF(t *testing.T) {
	run, res := aRun(t, 0, "")
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if err := Make(tables.Builtin, run, res, cases.UK, time.UTC).PDF(w); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("the same run gives two files")
	}
	if !bytes.HasPrefix(a.Bytes(), []byte("%PDF-1.")) || !bytes.Contains(a.Bytes(), []byte("%%EOF")) || bytes.Count(a.Bytes(), []byte("/Type /Page\n")) < 2 {
		t.Errorf("no whole PDF of two pages: %d bytes", a.Len())
	}
	if name := os.Getenv("LEASTWATT_SHEET"); name != "" {
		if err := os.WriteFile(name, a.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
