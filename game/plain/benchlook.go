package plain

import (
	"fmt"
	"math"
	"strings"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/scoring/tissue"
)

// look tells how things stand: hand, unit, room, tissue.
func (t *treating) look() {
	s := t.b.State()
	c := t.s.Case
	t.say("The clock says " + clockText(s.ClockMS) + ".")
	t.sayf("The lesion is %s mm wide about the place 0, 0, and stands %s mm high. You are at %s.", c.Lesion.WidthMM, c.Lesion.HeightMM, placeText(s.XMM, s.YMM))
	tool := "In your hand: " + cases.Vocab.Label("bench_tool", s.Tool, t.words())
	if s.Pressing {
		tool += ", pressing"
	}
	t.say(tool + ".")
	t.sayf("The unit: %s tip, %s output, %s, dial at %s W.", s.Electrode, s.Output, tipText(&s), s.DialW)
	if !t.assessed && s.Bursts > 0 {
		t.sayf("%s, %.1f s in all.", counted(s.Bursts, "burst"), float64(s.TotalMS)/1000)
	}
	t.roomLine(&s)
	t.surfaceLine()
	if !t.assessed && (s.Bursts > 0 || s.CutMM3 > 0) {
		t.figuresLine()
	}
	t.bleedLine()
}

// roomLine is what the other hand and the room do, and what can be seen of
// prep and anaesthetic.
func (t *treating) roomLine(s *bench.State) {
	var says []string
	add := func(here bool, text string) {
		if here {
			says = append(says, text)
		}
	}
	add(s.HandOn, "Your other hand is on the patient.")
	add(!s.HandOn, "Your other hand is off the patient.")
	add(s.PlateUnit && s.PlateOn, "The return plate is on the skin.")
	add(s.PlateUnit && !s.PlateOn, "The return plate is not on the skin.")
	add(t.s.Case.Setting.SmokeEvacuator && s.NozzleNear, "The smoke nozzle is near.")
	add(t.s.Case.Setting.SmokeEvacuator && !s.NozzleNear, "The smoke nozzle is away.")
	add(s.OxygenOn, "Oxygen is flowing.")
	add(s.OnMetal, "The patient touches metal.")
	add(s.AlcoholWetMS > 0, "The prep still glistens.")
	add(s.Marked, "The border is marked.")
	add(s.InjectedML > 0, s.InjectedML.String()+" mL is injected.")
	add(s.Adrenaline && s.Numb, "The skin is blanched.")
	add(s.CutMM3 > 0 && !s.Potted, "What was taken is not in the pot.")
	add(s.Potted, "The specimen is in the pot.")
	t.say(strings.Join(says, " "))
}

// groundOf marks the columns of the surface that the lesion holds. One that
// lies under the skin has none there; its outline stands for it.
func groundOf(c *cases.Case, m *tissue.Maps) []bool {
	ground, any := make([]bool, len(m.Lesion)), false
	for k, is := range m.Lesion {
		ground[k], any = is, any || is
	}
	if any {
		return ground
	}
	half := c.Lesion.WidthMM.Float() / 2
	wide := half
	switch c.Lesion.Family {
	case "facial_telangiectasia", "leg_veins": // a line along x
		wide = 0.5
	}
	for k := range ground {
		x := (float64(k%m.NX) + 0.5 - float64(m.NX)/2) * m.GridMM
		y := (float64(k/m.NX) + 0.5 - float64(m.NY)/2) * m.GridMM
		ground[k] = math.Hypot(x, y) <= half && math.Abs(y) <= wide
	}
	return ground
}

// driedWater is the share of the first water under which tissue looks dry.
const driedWater = 0.1

// rawMM is how far live tissue must lie under the first surface to look cut.
const rawMM = 0.15

// surfaceLine tells what the place of the lesion looks like now.
func (t *treating) surfaceLine() {
	m := t.b.State().Maps
	var blood, char, dry, pale, raw, live, all int
	for k, here := range t.ground {
		if !here {
			continue
		}
		all++
		switch {
		case m.Wet[k]:
			blood++
		case m.Charred[k]:
			char++
		case m.Water[k] < driedWater:
			dry++
		case m.Omega[k] >= 1:
			pale++
		case m.HeightMM[k] < t.highMM[k]-rawMM:
			raw++
		default:
			live++
		}
	}
	var says []string
	for _, x := range [...]struct {
		n    int
		says string
	}{{live, "untouched"}, {raw, "raw"}, {pale, "pale"}, {dry, "dry and brown"}, {char, "charred"}, {blood, "under blood"}} {
		if x.n > 0 {
			says = append(says, shareText(x.n, all)+" "+x.says)
		}
	}
	t.say("To the eye, where the lesion lay: " + strings.Join(says, ", ") + ".")
}

// shareText is a share in words.
func shareText(n, of int) string {
	switch {
	case n == of:
		return "all"
	case n*10 >= of*9:
		return "nearly all"
	case n*10 >= of*6:
		return "most"
	case n*10 >= of*4:
		return "about half"
	case n*10 >= of:
		return "some"
	}
	return "a little"
}

// bleedLine tells of bleeding points, when there are any.
func (t *treating) bleedLine() {
	open, pool := 0, 0.0
	spots := t.b.State().Spots
	for _, p := range spots {
		pool += p.PoolUL
		if !p.Closed {
			open++
		}
	}
	switch {
	case len(spots) == 0:
	case open == 0:
		t.say("Nothing bleeds now.")
	default:
		t.sayf("Bleeding points: %d. About %.0f µL of blood lies there.", open, math.Ceil(pool))
	}
}

// hear prints what the patient says and what has stopped the bench, once each.
func (t *treating) hear() {
	s := t.b.State()
	t.listen(&s)
	if s.Caution != "" && (s.Caution != t.warned || s.CautionMS != t.warnedMS) {
		t.warned, t.warnedMS = s.Caution, s.CautionMS
		w := cases.Vocab.Word("bench_hazard", s.Caution)
		t.say("Stopped: " + w.Label(t.words()) + ". " + cases.Spell(w.Line, t.words()))
	}
}

// saidMS is how long the same words of the patient are not printed again.
const saidMS = 4000

func (t *treating) listen(s *bench.State) {
	if s.Speech == "" || s.Speech == t.heard && t.heardMS >= 0 && s.ClockMS-t.heardMS < saidMS {
		return
	}
	t.heard, t.heardMS = s.Speech, s.ClockMS
	t.say("The patient: “" + s.Speech + "”")
}

func placeText(x, y cases.Milli) string { return x.Fixed(1) + ", " + y.Fixed(1) + " mm" }

func tipText(s *bench.State) string {
	if s.GapMM == 0 {
		return "touching"
	}
	return s.GapMM.String() + " mm above the skin"
}

func clockText(ms int) string {
	if s := ms / 1000; s >= 60 {
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	}
	return fmt.Sprintf("%.1f s", float64(ms)/1000)
}

func counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return counted(n, "time")
}
