package plain

import (
	"slices"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/game/screen"
)

// benchHelp is one line for each thing that can be typed on the bench.
var benchHelp = [...]string{
	`Tools: "pen", "syringe", "electrode", "cotton", "dry gauze", "wet gauze", "curette", "blade", "scissors". An act takes the tool it needs.`,
	`"mark" draws the border. "inject 0.5 slow" or "inject 0.5 fast" gives so many mL. "wait 60" lets so many seconds pass.`,
	`"move 0.3 -0.2" goes to a place in mm from the middle: first right, then down. "move left 0.5" goes on from where you are. "next" goes to the nearest untreated spot.`,
	`"power 5" sets the dial in W. "gap 0.5" lifts the tip by so many mm for sparks, "touch" puts it down. "tip ball" and "output high" change tip and outlet.`,
	`"burst 0.8" holds the pedal down for so many seconds. It ends sooner when a caution stops it.`,
	`"roll" presses with the cotton tip. "press" holds gauze on the spot until "release". "wipe" takes blood and loose crust away.`,
	`"curette" scrapes once, "curette 5" five times. "shave 0" cuts level with the skin, "shave 0.5 above" or "shave 0.2 below" beside it; "snip" likewise. "pot" puts what was taken in the pot.`,
	`"hand on", "hand off", "nozzle near", "nozzle away", "oxygen off", "off metal" and "plate" are your other hand and the room.`,
	`"look" tells how things stand, and so does an empty line. "undo" gives the tissue back as before the last burst. "restart" begins anew.`,
	`"done" ends the treatment and has it graded. "plan" leaves the bench without it.`,
	`A move takes 0.3 seconds, any other act one second. The tissue cools meanwhile.`,
}

// treating is a treatment under way in the terminal.
type treating struct {
	*player
	b        *bench.Bench
	assessed bool
	ground   []bool    // columns of the surface that the lesion held at first
	highMM   []float32 // of the surface at first
	heardMS  int       // when what the patient said last was printed, -1 before
	heard    string
	warnedMS int // when the caution printed last stopped the bench, -1 before
	warned   string
}

// treat opens the bench for the plan as it stands and works there until the
// treatment ends or is left.
func (p *player) treat() (place, error) {
	assessed := p.desk.Running()
	switch {
	case !p.s.CanTreat():
		p.say("The bench opens once the plan says to treat, or to take tissue, by a technique that is done there.")
		return toPlan, nil
	case assessed && p.s.Treatment != nil:
		p.say(`This case is treated already. "grade" hands it in.`)
		return toPlan, nil
	}
	b, err := p.s.OpenBench(p.desk.BenchSeed(p.s.Ref), assessed)
	if err != nil {
		p.sayf("The bench does not open: %v.", err)
		return toPlan, nil
	}
	t := &treating{player: p, b: b, assessed: assessed}
	t.begin()
	p.heading(`Bench. Your plan is ready. "?" lists what you can type.`)
	t.look()
	for {
		answer, err := p.ask(`Act, "look", "done" or ?`)
		if err != nil {
			return toToday, err
		}
		word, rest := command(answer)
		switch {
		case answer == "?":
			t.help()
		case is(answer, "done"):
			return t.done()
		case is(answer, "plan", "case", "today"):
			leaves, err := t.leave()
			if err != nil || leaves {
				return map[string]place{"plan": toPlan, "case": toCase, "today": toToday}[word], err
			}
		case t.act(word, rest), p.aside(word, rest):
		default:
			p.sayf("%q is nothing to do here. \"?\" lists what you can type.", answer)
		}
	}
}

// begin forgets what was printed and sees where the lesion lies.
func (t *treating) begin() {
	m := t.b.State().Maps
	t.ground, t.highMM = groundOf(t.s.Case, m), slices.Clone(m.HeightMM)
	t.heardMS, t.heard, t.warnedMS, t.warned = -1, "", -1, ""
}

func (t *treating) help() {
	for _, l := range benchHelp {
		t.indent("- ", cases.Spell(l, t.words()))
	}
	if t.assessed {
		t.say("In a self-assessment meters are hidden and nothing is undone.")
	}
}

// leave asks before a treatment is given up. In a self-assessment one that has
// begun cannot be left, or leaving would be an undo.
func (t *treating) leave() (bool, error) {
	switch {
	case len(t.b.Session().Events) == 0:
		return true, nil
	case t.assessed:
		t.say(`A treatment that has begun ends with "done" in a self-assessment.`)
		return false, nil
	}
	answer, err := t.ask(`What you did here is not kept. "yes" leaves, Enter goes on with the treatment`)
	return is(answer, "yes", "y"), err
}

// stepBudget is how much of a computation is done at a time, in voxel-steps.
const stepBudget = 20_000_000

// untilDone calls a resumable step until it is done.
func untilDone(step func(budget int) (bool, error)) error {
	for {
		if done, err := step(stepBudget); done || err != nil {
			return err
		}
	}
}

// done ends the treatment, works out how sure its figures are and goes on to
// the grade.
func (t *treating) done() (place, error) {
	treatment, step := screen.Finish(t.b)
	t.heading("The treatment has ended. Working out how sure its figures are.")
	if err := untilDone(step); err != nil {
		t.sayf("The range could not be worked out: %v.", err)
	}
	t.s.Treatment = treatment
	if t.assessed { // there is no debrief to print it
		t.printRecord()
	}
	return toDebrief, nil
}
