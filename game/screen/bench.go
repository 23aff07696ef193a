package screen

import (
	"math"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

// benchPlay is the treatment under way in the window.
type benchPlay struct {
	bench   *bench.Bench
	ref     string // of the case
	skin    *skin.Treated
	view    skin.BenchView
	state   bench.State
	version int // of the picture
	paused  bool
	fast    bool        // the syringe is pressed fast
	depthMM cases.Milli // of blade and scissors, below the skin
	hot     int         // ms at which the first burst began, -1 before
	sparks  []skin.Spark
	wisps   []skin.Wisp
	working string // what is being worked out after the end, "" when nothing
	bySpace bool   // the pedal is held by the space bar
}

// stageID is the live picture.
const stageID = "bench stage"

// enterBench opens the bench, or comes back to it; after the end it is a
// replay.
func (a *App) enterBench() {
	a.focus = stageID
	if a.session.Treatment != nil {
		a.enterReview()
		return
	}
	if a.work.bench != nil && a.work.ref == a.session.Ref && samePlan(a.work.bench.Plan(), a.session.Plan) {
		return
	}
	if w := &a.work; a.Running() && w.bench != nil && w.ref == a.session.Ref && len(w.bench.Session().Events) > 0 {
		a.session.Change("", func(p *cases.Plan) { *p = *clonePlan(w.bench.Plan()) })
		a.toast = "What is begun on the bench stays, and so does its plan."
		return
	}
	b, err := a.session.OpenBench(a.BenchSeed(a.session.Ref), a.Running())
	if err != nil {
		a.at = atPlan
		a.enterPlan()
		a.toast = capital(sentence(err.Error()))
		return
	}
	a.work = benchPlay{bench: b, ref: a.session.Ref, hot: -1}
	a.work.state = b.State()
	a.work.view = a.benchView(0)
	a.work.skin = skin.NewTreated(subjectOf(a.session.Case), a.work.view, a.work.state.Maps)
	a.work.depthMM = -min(500, a.session.Case.Lesion.HeightMM/2)
	a.work.version++
	a.follow()
}

// benchView is the part of the skin in sight: the lesion and its surroundings
// at first. shownMM 0 chooses.
func (a *App) benchView(shownMM float64) skin.BenchView {
	w, h := a.stageSize()
	if shownMM == 0 {
		shownMM = min(24, max(9, a.session.Case.Lesion.WidthMM.Float()*1.9))
	}
	return skin.BenchView{WidthPx: w, HeightPx: h, ShownMM: shownMM}
}

// resizeBench fits the picture to a window of another size.
func (a *App) resizeBench() {
	w := &a.work
	if w.bench == nil || w.skin == nil {
		return
	}
	was := w.view
	w.view = a.benchView(was.ShownMM)
	w.view.CentreXMM, w.view.CentreYMM = was.CentreXMM, was.CentreYMM
	if w.view != was {
		w.skin.Show(w.view)
		w.version++
		a.follow()
	}
}

// stageSize is the picture's size in its own pixels.
func (a *App) stageSize() (w, h int) {
	wide := a.w - 64 - (200+248)*a.scale - 48
	if a.narrow() {
		wide = a.w - 64
	}
	high := a.h - (56+40+100)*a.scale - 100
	w = int(min(max(wide, 320), 960))
	return w, int(min(max(high, 240), float64(w)*0.78))
}

// Live tells whether time goes by: on the bench, until it is paused or ends.
func (a *App) Live() bool {
	w := &a.work
	return a.at == atBench && w.bench != nil && !a.help && !w.paused && !w.state.Ended && a.session != nil && a.session.Treatment == nil
}

// ToneHz is the tone while current flows: lower when the tip touches than when
// sparks jump.
func (a *App) ToneHz() int {
	switch s := &a.work.state; {
	case a.at != atBench || !s.Live || a.work.bench == nil:
		return 0
	case s.Contact == "gap":
		return 700
	}
	return 540
}

// updateBench is the hand. It gets every message while the bench is in sight.
func (a *App) updateBench(msg any) {
	if a.session.Treatment != nil {
		a.updateReview(msg)
		return
	}
	if a.work.working != "" {
		a.updateWorking(msg)
		return
	}
	w := &a.work
	switch msg := msg.(type) {
	case ui.Elapsed:
		w.bench.Advance(msg.MS)
	case ui.FocusLost:
		a.pedal(false)
	case ui.Pointed:
		a.aim(msg.X, msg.Y)
	case ui.PointerDown:
		a.aim(msg.X, msg.Y)
		if w.state.Tool == "electrode" {
			a.pedal(true)
		} else {
			a.useTool()
		}
	case ui.PointerUp:
		if w.state.Tool == "electrode" {
			a.pedal(false)
		} else if w.state.Pressing {
			a.do(cases.SessionEvent{Act: "release"})
		}
	case ui.Step:
		if msg.ID == stageID {
			a.lift(msg.By)
		}
	case ui.KeyUp:
		if msg.Name == "Space" && w.bySpace {
			w.bySpace = false
			a.pedal(false)
		}
	case ui.Key:
		a.benchKey(msg)
	case ui.Choose:
		a.benchChoose(msg.ID, msg.Index)
	case ui.Activate:
		a.benchActivate(msg.ID)
	}
	a.follow()
}

// do hands an event to the bench; what it refuses is told.
func (a *App) do(e cases.SessionEvent) bool {
	if err := a.work.bench.Do(e); err != nil {
		a.toast = capital(sentence(err.Error()))
		return false
	}
	return true
}

func (a *App) pedal(down bool) {
	w := &a.work
	if w.bench == nil || w.state.Ended || down == w.state.Pedal {
		return
	}
	if down && w.paused {
		a.toast = "The bench is paused. Press P to go on."
		return
	}
	if a.do(cases.SessionEvent{Pedal: &down}) && down && w.hot < 0 {
		w.hot = w.state.ClockMS
	}
}

// aim moves the tool to a place on the picture, in tenths of a millimetre.
func (a *App) aim(fx, fy float64) {
	v := a.work.view
	x := v.CentreXMM + (fx-0.5)*v.ShownMM
	y := v.CentreYMM + (fy-0.5)*v.ShownMM*float64(v.HeightPx)/float64(v.WidthPx)
	a.moveTo(tenthMM(x), tenthMM(y))
}

func tenthMM(mm float64) cases.Milli { return cases.Milli(math.Round(mm*10)) * 100 }

func (a *App) moveTo(x, y cases.Milli) {
	const edge = 20_000
	x, y = min(max(x, -edge), edge), min(max(y, -edge), edge)
	if x != a.work.state.XMM || y != a.work.state.YMM {
		a.do(cases.SessionEvent{XMM: &x, YMM: &y})
	}
}

// lift raises the tip by tenths of a millimetre; down to 0 it touches.
func (a *App) lift(by int) {
	gap := min(max(a.work.state.GapMM+cases.Milli(by)*100, 0), 5000)
	if gap != a.work.state.GapMM {
		a.do(cases.SessionEvent{GapMM: &gap})
	}
}

// turn changes the dial by whole steps of the unit.
func (a *App) turn(steps int) {
	step, most := cases.Milli(100), cases.Milli(35_000)
	if u := a.session.Case.Setting.Unit; u != nil {
		if u.StepW != nil {
			step = *u.StepW
		}
		if u.MaxW != nil {
			most = *u.MaxW
		}
	}
	power := min(max(a.work.state.DialW+cases.Milli(steps)*step, step), most/step*step)
	a.do(cases.SessionEvent{PowerW: &power})
}

// useTool does what the tool in hand is for, where it stands.
func (a *App) useTool() {
	w := &a.work
	e := cases.SessionEvent{Act: bench.ActOf(w.state.Tool)}
	switch e.Act {
	case "":
		return
	case "shave", "snip":
		depth := w.depthMM
		e.DepthMM = &depth
	case "inject":
		half := cases.Milli(500)
		e.VolumeML, e.Fast = &half, &w.fast
	}
	a.do(e)
}

// follow takes over the state and draws what has changed.
func (a *App) follow() {
	w := &a.work
	if w.bench == nil {
		return
	}
	w.state = w.bench.State()
	s := &w.state
	if !w.skin.Update(s.Maps, a.treatExtra()).Empty() {
		w.version++
	}
	w.sparks, w.wisps = w.sparks[:0], w.wisps[:0]
	if s.Sparking {
		w.sparks = skin.Sparks(w.sparks, uint64(len(s.Hazards)+1), s.ClockMS, float32(s.XMM.Float()), float32(s.YMM.Float()), float32(0.3+s.GapMM.Float()))
	}
	if x, y, strength, smoke, ok := w.skin.Boiling(s.Maps.TempC, s.Maps.Water); ok {
		w.wisps = skin.Wisps(w.wisps, 1, s.ClockMS, x, y, strength, smoke)
	}
}

// treatExtra is what the picture needs and the tissue's maps do not hold.
func (a *App) treatExtra() skin.TreatExtra {
	s, l := &a.work.state, &a.session.Case.Lesion
	var x skin.TreatExtra
	for _, p := range s.Spots {
		if !p.Closed {
			x.Bleeders = append(x.Bleeders, skin.Bleeder{XMM: p.XMM, YMM: p.YMM, RadiusMM: 0.12})
		}
	}
	if s.Marked {
		x.Marker = []skin.InkRing{{RadiusMM: l.WidthMM.Float()/2 + 1}}
	}
	if a.work.hot >= 0 {
		x.Flush = skin.FlushStrength(s.ClockMS - a.work.hot)
	}
	if s.Pressing || s.Adrenaline {
		x.Blanch = a.blanched()
	}
	return x
}

// blanched is how far vessels are emptied: under cotton or gauze wholly, by
// adrenaline for the most part.
func (a *App) blanched() []float32 {
	s := &a.work.state
	m := s.Maps
	plane := make([]float32, m.NX*m.NY)
	base := float32(0)
	if s.Adrenaline && s.Numb {
		base = 0.6
	}
	for k := range plane {
		x := (float64(k%m.NX) + 0.5 - float64(m.NX)/2) * m.GridMM
		y := (float64(k/m.NX) + 0.5 - float64(m.NY)/2) * m.GridMM
		plane[k] = base
		if s.Pressing && math.Hypot(x-s.Press.XMM, y-s.Press.YMM) <= s.Press.RadiusMM {
			plane[k] = 1
		}
	}
	return plane
}
