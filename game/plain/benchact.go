package plain

import (
	"fmt"
	"strconv"
	"strings"

	"leastwatt/cases"
)

// How long the hand takes, ms: engineering choices. Without them tissue would
// not cool between two bursts that are typed one after the other.
const (
	actMS  = 1000
	moveMS = 300
)

// fixedAct is what a phrase without a figure does.
type fixedAct struct {
	event cases.SessionEvent
	says  string
}

// fixedActs are acts without a figure, by what is typed.
var fixedActs = map[string]fixedAct{
	"mark":        {cases.SessionEvent{Tool: "pen", Act: "mark"}, "The border is marked."},
	"roll":        {cases.SessionEvent{Tool: "cotton", Act: "roll"}, `The cotton tip presses here until "release".`},
	"release":     {cases.SessionEvent{Act: "release"}, "You let go."},
	"touch":       {cases.SessionEvent{Contact: "touch", GapMM: new(cases.Milli)}, "The tip is down."},
	"pot":         {cases.SessionEvent{Act: "specimen_to_pot"}, "What was taken is in the pot."},
	"hand on":     {cases.SessionEvent{Act: "hand_on"}, "Your other hand is on the patient."},
	"hand off":    {cases.SessionEvent{Act: "hand_off"}, "Your other hand is off the patient."},
	"nozzle near": {cases.SessionEvent{Act: "evacuator_near"}, "The smoke nozzle is near the tip."},
	"nozzle away": {cases.SessionEvent{Act: "evacuator_away"}, "The smoke nozzle is away."},
	"oxygen off":  {cases.SessionEvent{Act: "oxygen_off"}, "The oxygen is off."},
	"off metal":   {cases.SessionEvent{Act: "off_metal"}, "The patient touches no metal."},
	"plate":       {cases.SessionEvent{Act: "place_plate"}, "The return plate is on the skin."},
}

// toolWords name the tools that are taken by a word alone. The curette's word
// scrapes as well.
var toolWords = map[string]string{
	"electrode": "electrode", "cotton": "cotton", "cotton tip": "cotton", "gauze": "gauze_dry", "dry gauze": "gauze_dry", "gauze dry": "gauze_dry",
	"wet gauze": "gauze_wet", "gauze wet": "gauze_wet", "blade": "blade", "scissors": "scissors", "syringe": "syringe", "pen": "pen",
}

// act does what was typed, or says why not. It tells whether it knows the
// words.
func (t *treating) act(word, rest string) bool {
	phrase := strings.ToLower(strings.TrimSpace(word + " " + rest))
	if a, ok := fixedActs[phrase]; ok {
		t.do(a.event, actMS, a.says)
		return true
	}
	if id, ok := toolWords[phrase]; ok {
		w := cases.Vocab.Word("bench_tool", id)
		t.do(cases.SessionEvent{Tool: id}, actMS, "In your hand: "+w.Label(t.words())+". "+w.Line)
		return true
	}
	var err error
	args := strings.Fields(strings.ToLower(rest))
	switch word {
	case "", "look":
		t.look()
	case "next":
		t.next()
	case "undo", "u":
		t.undoBurst()
	case "restart":
		t.restart()
	case "move":
		err = t.move(args)
	case "inject":
		err = t.inject(args)
	case "wait":
		err = t.wait(args)
	case "power":
		err = t.power(args)
	case "gap":
		err = t.gap(args)
	case "tip", "output":
		err = t.outlet(word, rest)
	case "burst":
		err = t.burst(args)
	case "press", "wipe":
		t.dab(word)
	case "curette":
		err = t.curette(args)
	case "shave":
		err = t.cut("blade", "shave", args)
	case "snip":
		err = t.cut("scissors", "snip", args)
	default:
		return false
	}
	if err != nil {
		t.say(capital(err.Error()) + ".")
	}
	return true
}

// do hands an event to the bench and lets the time pass that the hand needs.
// Taking another tool lets go of cotton or gauze.
func (t *treating) do(e cases.SessionEvent, ms int, says string) bool {
	s := t.b.State()
	if s.Pressing && e.Tool != "" && e.Tool != s.Tool {
		_ = t.b.Do(cases.SessionEvent{Act: "release"}) // only an ended bench refuses it
	}
	if err := t.b.Do(e); err != nil {
		t.say(cases.Spell(capital(err.Error()), t.words()) + ".")
		return false
	}
	t.say(cases.Spell(says, t.words()))
	t.hear()
	t.b.Advance(ms)
	t.hear()
	return true
}

// figure reads a number in its range. What follows it may be its unit.
func figure(args []string, what, unit string, least, most, step cases.Milli) (cases.Milli, error) {
	can := fmt.Errorf("%s can be %v to %v %s, by %v", what, least, most, unit, step)
	if len(args) == 0 {
		return 0, can
	}
	v, err := cases.ParseMilli(strings.TrimPrefix(args[0], "+"))
	if err != nil || v < least || v > most || v%step != 0 {
		return 0, can
	}
	return v, nil
}

// Ranges of figures are those of a session file.
const (
	farMM    = cases.Milli(20_000) // from the middle of the lesion
	finestMM = cases.Milli(100)
)

func (t *treating) move(args []string) error {
	s := t.b.State()
	x, y := s.XMM, s.YMM
	way := map[string][2]cases.Milli{"left": {-1, 0}, "right": {1, 0}, "up": {0, -1}, "down": {0, 1}}
	if len(args) > 0 {
		if by, ok := way[args[0]]; ok {
			far, err := figure(args[1:], "a move", "mm", finestMM, farMM, finestMM)
			if err != nil {
				return err
			}
			t.moveTo(x+by[0]*far, y+by[1]*far)
			return nil
		}
	}
	x, err := figure(args, "a place", "mm", -farMM, farMM, finestMM)
	if err != nil {
		return err
	}
	if y, err = figure(args[1:], "a place needs two figures, right and down; each", "mm", -farMM, farMM, finestMM); err != nil {
		return err
	}
	t.moveTo(x, y)
	return nil
}

func (t *treating) moveTo(x, y cases.Milli) {
	x, y = min(max(x, -farMM), farMM), min(max(y, -farMM), farMM)
	t.do(cases.SessionEvent{XMM: &x, YMM: &y}, moveMS, "You are at "+placeText(x, y)+".")
}

func (t *treating) next() {
	x, y, ok := t.b.NextSpot()
	if !ok {
		t.say("No spot is left untreated.")
		return
	}
	t.moveTo(x, y)
}

func (t *treating) inject(args []string) error {
	ml, err := figure(args, "an injection", "mL", 100, 50_000, 100)
	if err != nil {
		return err
	}
	fast := strings.Contains(" "+strings.Join(args[1:], " ")+" ", " fast ")
	how := map[bool]string{true: "fast", false: "slowly"}[fast]
	t.do(cases.SessionEvent{Tool: "syringe", Act: "inject", VolumeML: &ml, Fast: &fast}, actMS, ml.String()+" mL goes in "+how+".")
	return nil
}

// longestWaitS bounds one wait: warm tissue is reckoned all the while. It can
// be asked for again.
const longestWaitS = cases.Milli(600_000)

func (t *treating) wait(args []string) error {
	s, err := figure(args, "a wait", "s", 1000, longestWaitS, 1000)
	if err != nil {
		return err
	}
	t.do(cases.SessionEvent{Act: "wait", WaitS: &s}, int(s), s.String()+" s pass.")
	t.bleedLine()
	return nil
}

func (t *treating) power(args []string) error {
	w, err := figure(args, "the dial", "W", 100, 35_000, 100)
	if err != nil {
		return err
	}
	t.do(cases.SessionEvent{PowerW: &w}, actMS, "The dial stands at "+w.String()+" W.")
	return nil
}

func (t *treating) gap(args []string) error {
	gap, err := figure(args, "a gap", "mm", finestMM, 5000, finestMM)
	if err != nil {
		return fmt.Errorf(`%w; "touch" puts the tip down`, err)
	}
	t.do(cases.SessionEvent{Contact: "gap", GapMM: &gap}, actMS, "The tip is "+gap.String()+" mm above the skin.")
	return nil
}

// outlet changes the tip, or the outlet of the unit.
func (t *treating) outlet(word, rest string) error {
	group, e := "electrode", cases.SessionEvent{Tip: strings.ToLower(rest)}
	if word == "output" {
		group, e = "output", cases.SessionEvent{Output: strings.ToLower(rest)}
	}
	if !cases.Vocab.Has(group, e.Tip+e.Output) {
		return fmt.Errorf(`type "tip" with "fine", "blunt" or "ball", "output" with "low" or "high"`)
	}
	t.do(e, actMS, capital(word)+": "+cases.Vocab.Label(group, e.Tip+e.Output, t.words())+".")
	return nil
}

// dab presses or wipes with what is in the hand if it serves, else with dry
// gauze.
func (t *treating) dab(word string) {
	e := cases.SessionEvent{Act: word, Tool: "gauze_dry"}
	switch tool := t.b.State().Tool; tool {
	case "cotton", "gauze_wet":
		e.Tool = tool
	}
	with := cases.Vocab.Label("bench_tool", e.Tool, t.words())
	says := map[string]string{"press": "You press with the " + with + ` until "release".`, "wipe": "You wipe with the " + with + "."}[word]
	if t.do(e, actMS, says) && word == "wipe" {
		t.surfaceLine()
		t.bleedLine()
	}
}

// mostStrokes is how often one line scrapes at most.
const mostStrokes = 20

func (t *treating) curette(args []string) error {
	n := 1
	if len(args) > 0 {
		var err error
		if n, err = strconv.Atoi(args[0]); err != nil || n < 1 || n > mostStrokes {
			return fmt.Errorf("strokes can be 1 to %d", mostStrokes)
		}
	}
	before := t.b.State().CutMM3
	for i := range n {
		if err := t.b.Do(cases.SessionEvent{Tool: "curette", Act: "curette"}); err != nil {
			return err
		}
		t.b.Advance(actMS)
		if s := t.b.State(); s.Caution != "" && s.CautionMS != t.warnedMS {
			n = i + 1
			break
		}
	}
	t.sayf("The curette scrapes %s.", times(n))
	t.taken(before)
	return nil
}

// cut shaves or snips at a level: 0, "0.5 above" or "0.2 below" the skin.
func (t *treating) cut(tool, act string, args []string) error {
	depth, err := figure(args, "the blade's level", "mm", -10_000, 3000, finestMM)
	switch {
	case err != nil:
		return fmt.Errorf(`%w; type %q, or "%s 0.5 above"`, err, act+" 0", act)
	case len(args) > 1 && args[len(args)-1] == "above":
		depth = -max(depth, -depth)
	case depth > 0 && (len(args) < 2 || args[len(args)-1] != "below"):
		return fmt.Errorf(`say which way: "%s %v above" or "%s %v below"`, act, depth, act, depth)
	}
	before := t.b.State().CutMM3
	level := "level with the skin"
	switch {
	case depth < 0:
		level = (-depth).String() + " mm above the skin"
	case depth > 0:
		level = depth.String() + " mm below the skin"
	}
	if t.do(cases.SessionEvent{Tool: tool, Act: act, DepthMM: &depth}, actMS, "You cut "+level+".") {
		t.taken(before)
	}
	return nil
}

// taken tells what a cut took and left.
func (t *treating) taken(before cases.Milli) {
	if cut := t.b.State().CutMM3 - before; cut > 0 {
		t.sayf("It takes %s mm³.", cut.Fixed(1))
	} else {
		t.say("It takes nothing here.")
	}
	t.surfaceLine()
	t.bleedLine()
	t.hear()
}

func (t *treating) undoBurst() {
	if err := t.b.Undo(); err != nil {
		t.say(capital(err.Error()) + ".")
		return
	}
	t.say("The tissue is as it was before the last burst. The burst stays on record.")
	t.surfaceLine()
}

func (t *treating) restart() {
	if err := t.b.Restart(); err != nil {
		t.say("Nothing can be begun again in a self-assessment.")
		return
	}
	t.begin()
	t.say("The treatment begins anew.")
	t.look()
}
