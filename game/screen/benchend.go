package screen

import (
	"image"

	"leastwatt/game/bench"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

// benchReckoned tells that the range of the model's figures is worked out.
type benchReckoned struct {
	ref string
	t   *Treatment
	err error
}

// workBudget is how much of a computation is done before looking up, in
// voxel-steps: a tenth of a second or so.
const workBudget = 20_000_000

// inBackground calls step until it is done, then posts what finish makes of it.
// Without a way to post, it does so at once.
func (a *App) inBackground(step func(budget int) (bool, error), finish func(error) any) {
	work := func() any {
		for {
			done, err := step(workBudget)
			if done || err != nil {
				return finish(err)
			}
		}
	}
	if a.Post == nil {
		a.Update(work())
		return
	}
	go func() { a.Post(work()) }()
}

// finishBench ends the treatment and works out how sure its figures are.
func (a *App) finishBench() {
	w := &a.work
	if w.bench == nil || w.working != "" {
		return
	}
	a.pedal(false)
	t, step := Finish(w.bench)
	w.working = "Working out how sure these figures are …"
	ref := w.ref
	a.inBackground(step, func(err error) any { return benchReckoned{ref, t, err} })
}

// updateWorking lets one leave while the range is being worked out.
func (a *App) updateWorking(msg any) {
	if k, ok := msg.(ui.Key); ok && k.Name == "Escape" {
		a.goTo(atPlan)
	}
}

// reckoned takes the finished treatment and grades it.
func (a *App) reckoned(m benchReckoned) {
	w := &a.work
	if w.ref != m.ref || w.working == "" {
		return // another case was opened meanwhile
	}
	w.working = ""
	if m.err != nil {
		a.toast = "The range could not be worked out: " + sentence(m.err.Error())
	}
	s := a.sessions[m.ref]
	if s == nil {
		return
	}
	s.Treatment = m.t
	if a.session != s {
		return
	}
	if a.Running() {
		a.handIn()
		return
	}
	a.gradeNow()
}

// reviewPlay is the look back at a treatment.
type reviewPlay struct {
	of       *Treatment
	player   *bench.Player
	at       int // ms on show
	wanted   int
	playing  bool // towards wanted, in the background
	curve    *bench.Curve
	curveRun bool

	section   *image.RGBA // the cut through the lesion, nil until it is drawn
	sectionMM float64     // width that it shows
}

// scrubbed tells that the replay has come to a moment.
type scrubbed struct {
	of  *Treatment
	at  int
	err error
}

// curvePoint tells that one more power is worked out.
type curvePoint struct {
	of    *Treatment
	curve *bench.Curve // a copy, no longer written to
	done  bool
	err   error
}

func (a *App) enterReview() {
	t := a.session.Treatment
	a.focus = "bench acts"
	if a.review.of == t {
		return
	}
	a.review = reviewPlay{of: t, at: t.EndMS(), wanted: t.EndMS()}
	a.work.view = a.benchView(0)
	a.showMoment(t.bench)
	a.startCurve()
}

// showMoment draws the skin as a bench has it.
func (a *App) showMoment(b *bench.Bench) {
	w := &a.work
	version := w.version + 1
	first, err := a.session.OpenBench(0, false)
	if err != nil {
		a.toast = capital(sentence(err.Error()))
		return
	}
	*w = benchPlay{bench: b, ref: a.session.Ref, view: w.view, version: version, hot: -1}
	w.skin = skin.NewTreated(subjectOf(a.session.Case), w.view, first.State().Maps)
	if bursts := b.Bursts(); len(bursts) > 0 {
		w.hot = bursts[0].FromMS
	}
	a.follow()
	w.version++
}

// startCurve works out "same hand, other powers" in the background, one power
// after another.
func (a *App) startCurve() {
	r := &a.review
	if r.curveRun {
		return
	}
	r.curveRun = true
	of, curve := r.of, r.of.Curve()
	if a.Post == nil {
		_, err := curve.Step(1 << 62)
		a.Update(curvePoint{of, curve, true, err})
		return
	}
	go func() {
		known := 0
		for {
			done, err := curve.Step(workBudget)
			n := 0
			for _, p := range curve.Points {
				if p.Done {
					n++
				}
			}
			if n > known || done || err != nil {
				known = n
				shown := &bench.Curve{Points: append([]bench.CurvePoint(nil), curve.Points...)}
				a.Post(curvePoint{of, shown, done, err})
			}
			if done || err != nil {
				return
			}
		}
	}()
}

// scrubTo shows another moment of the treatment; the newest wish wins.
func (a *App) scrubTo(ms int) {
	r := &a.review
	r.wanted = min(max(ms, 0), r.of.EndMS())
	if r.playing || r.wanted == r.at {
		return
	}
	if r.player == nil {
		p, err := bench.NewPlayer(a.session.Pack, a.session.Case, r.of.File, bench.Options{Workers: 2})
		if err != nil {
			a.toast = capital(sentence(err.Error()))
			return
		}
		r.player = p
	}
	r.playing = true
	of, player, to := r.of, r.player, r.wanted
	play := func() any { return scrubbed{of, to, player.To(to)} }
	if a.Post == nil {
		a.Update(play())
		return
	}
	go func() { a.Post(play()) }()
}

func (a *App) cameTo(m scrubbed) {
	r := &a.review
	if r.of != m.of {
		return
	}
	r.playing = false
	if m.err != nil {
		a.toast = capital(sentence(m.err.Error()))
		return
	}
	r.at = m.at
	if a.at == atBench {
		a.showMoment(r.player.Bench)
	}
	if r.wanted != r.at {
		a.scrubTo(r.wanted)
	}
}

func (a *App) curveCame(m curvePoint) {
	if a.review.of != m.of {
		return
	}
	a.review.curve = m.curve
	if m.err != nil {
		a.toast = "The curve could not be worked out: " + sentence(m.err.Error())
	}
}

// updateReview looks back: the strip chooses the moment.
func (a *App) updateReview(msg any) {
	r := &a.review
	end := r.of.EndMS()
	switch msg := msg.(type) {
	case ui.SetFraction:
		if msg.ID == "bench acts" {
			a.scrubTo(newActAxis(r.of.Strip, end).moment(msg.F))
		}
	case ui.Step:
		if msg.ID == "bench acts" {
			a.scrubTo(a.nextMoment(msg.By))
		}
	case ui.Activate:
		switch msg.ID {
		case "bench again":
			a.againOnBench()
		case "to debrief":
			a.altKey("4")
		}
	case ui.Key:
		switch msg.Name {
		case "Escape":
			a.altKey("4")
		case "Home":
			a.scrubTo(0)
		case "End":
			a.scrubTo(end)
		}
	}
}

// nextMoment is the beginning or end of the act before or after the one shown.
func (a *App) nextMoment(by int) int {
	r := &a.review
	best := 0
	if by > 0 {
		best = r.of.EndMS()
	}
	for _, s := range r.of.Strip {
		for _, ms := range []int{s.FromMS, s.ToMS} {
			if by > 0 && ms > r.wanted && ms < best || by < 0 && ms < r.wanted && ms > best {
				best = ms
			}
		}
	}
	return best
}

// againOnBench treats once more. The first grade stays what it was.
func (a *App) againOnBench() {
	a.session.Treatment = nil
	a.review = reviewPlay{}
	a.work = benchPlay{}
	a.enterBench()
}
