package screen

import (
	"leastwatt/cases"
	"leastwatt/game/ui"
)

// benchTool is a tool with its key.
type benchTool struct{ id, key string }

// benchTools are in the order of a treatment.
var benchTools = []benchTool{
	{"pen", "M"},
	{"syringe", "Y"},
	{"electrode", "E"},
	{"cotton", "C"},
	{"gauze_dry", "G"},
	{"gauze_wet", "W"},
	{"curette", "U"},
	{"blade", "B"},
	{"scissors", "X"},
}

// benchKey is the keyboard on the bench: every case can be done with it alone.
func (a *App) benchKey(k ui.Key) {
	w := &a.work
	if k.Ctrl {
		switch k.Name {
		case "z":
			a.undoBurst()
		case "Enter":
			a.finishBench()
		}
		return
	}
	if k.Alt {
		return
	}
	for _, t := range benchTools {
		if k.Name == lower(t.key) {
			a.takeTool(t.id)
			return
		}
	}
	far := cases.Milli(100)
	if k.Shift {
		far = 1000
	}
	s := &w.state
	switch k.Name {
	case "Left":
		a.goAlong(s.XMM-far, s.YMM)
	case "Right":
		a.goAlong(s.XMM+far, s.YMM)
	case "Up":
		a.goAlong(s.XMM, s.YMM-far)
	case "Down":
		a.goAlong(s.XMM, s.YMM+far)
	case "n":
		if x, y, ok := w.bench.NextSpot(); ok {
			a.goAlong(x, y)
		} else {
			a.toast = "No spot is left untreated."
		}
	case "Space":
		if s.Tool == "electrode" {
			w.bySpace = true
			a.pedal(true)
		} else if !w.bySpace {
			w.bySpace = true
			a.useTool()
		}
	case "Enter":
		a.useTool()
	case "r":
		a.do(cases.SessionEvent{Act: "release"})
	case "q":
		a.lift(1)
	case "z":
		a.lift(-1)
	case "[":
		a.turn(-1)
	case "]":
		a.turn(1)
	case "{", "PageDown":
		a.turn(-10)
	case "}", "PageUp":
		a.turn(10)
	case "+", "=":
		a.zoom(1 / 1.25)
	case "-":
		a.zoom(1.25)
	case "0":
		a.zoom(0)
	case "p":
		a.pauseBench()
	case "Escape":
		a.pedal(false)
	default:
		a.benchActivate(benchActKeys[k.Name])
	}
}

// benchActKeys are keys of what the other hand and the room do.
var benchActKeys = map[string]string{
	"h": "act hand", "v": "act nozzle", "t": "act pot", "d": "act dry", "o": "act oxygen", "l": "act metal", "a": "act plate", "f": "act fast", "k": "act depth up", "j": "act depth down",
}

func lower(key string) string { return string(key[0] | 0x20) }

func (a *App) takeTool(id string) {
	a.pedal(false)
	if a.work.state.Pressing {
		a.do(cases.SessionEvent{Act: "release"})
	}
	a.do(cases.SessionEvent{Tool: id})
	a.focus = stageID
}

func (a *App) benchChoose(id string, index int) {
	if id == "bench tools" && index >= 0 && index < len(benchTools) {
		a.takeTool(benchTools[index].id)
	}
}

// dryWait is how long one look at drying prep takes.
const dryWait = cases.Milli(30_000)

func (a *App) benchActivate(id string) {
	w := &a.work
	s := &w.state
	toggle := func(on bool, off, back string) {
		act := off
		if !on {
			act = back
		}
		a.do(cases.SessionEvent{Act: act})
	}
	switch id {
	case "act hand":
		toggle(s.HandOn, "hand_off", "hand_on")
	case "act nozzle":
		toggle(s.NozzleNear, "evacuator_away", "evacuator_near")
	case "act pot":
		a.do(cases.SessionEvent{Act: "specimen_to_pot"})
	case "act dry":
		wait := dryWait
		if a.do(cases.SessionEvent{Act: "wait", WaitS: &wait}) {
			w.bench.Advance(int(wait)) // nothing happens meanwhile that the hand could mind
		}
	case "act oxygen":
		a.do(cases.SessionEvent{Act: "oxygen_off"})
	case "act metal":
		a.do(cases.SessionEvent{Act: "off_metal"})
	case "act plate":
		a.do(cases.SessionEvent{Act: "place_plate"})
	case "act fast":
		w.fast = !w.fast
	case "act depth up":
		w.depthMM = max(w.depthMM-100, -5000)
	case "act depth down":
		w.depthMM = min(w.depthMM+100, 2000)
	case "bench undo":
		a.undoBurst()
	case "bench restart":
		a.restartBench()
	case "bench pause":
		a.pauseBench()
	case "bench finish":
		a.finishBench()
	}
}

func (a *App) undoBurst() {
	if err := a.work.bench.Undo(); err != nil {
		a.toast = capital(sentence(err.Error()))
		return
	}
	a.toast = "The tissue is as it was before the last burst. The burst stays on record."
}

func (a *App) restartBench() {
	if a.Running() {
		a.toast = "Nothing can be begun again in a self-assessment."
		return
	}
	a.work = benchPlay{}
	a.enterBench()
}

func (a *App) pauseBench() {
	a.pedal(false)
	a.work.paused = !a.work.paused
}

// goAlong moves the tool by key and lets the picture follow when it leaves the
// middle of what is in sight.
func (a *App) goAlong(x, y cases.Milli) {
	a.moveTo(x, y)
	w := &a.work
	v := w.view
	px, py := v.Place(x.Float(), y.Float())
	fx, fy := px/float64(v.WidthPx), py/float64(v.HeightPx)
	if fx > 0.06 && fx < 0.94 && fy > 0.06 && fy < 0.94 {
		return
	}
	w.view.CentreXMM, w.view.CentreYMM = x.Float(), y.Float()
	w.skin.Show(w.view)
	w.version++
}

// zoom shows more or less of the skin, about the tip; 0 shows it as at first.
func (a *App) zoom(by float64) {
	w := &a.work
	shown := w.view.ShownMM * by
	if by != 0 {
		shown = min(40, max(4, shown))
	}
	w.view = a.benchView(shown)
	if by != 0 {
		w.view.CentreXMM, w.view.CentreYMM = w.state.XMM.Float(), w.state.YMM.Float()
	}
	w.skin.Show(w.view)
	w.version++
}
