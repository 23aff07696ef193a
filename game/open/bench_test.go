package open

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	gojson "github.com/goccy/go-json"

	"leastwatt/cases"
	"leastwatt/game/bench"
	"leastwatt/game/ui"
	"leastwatt/scoring"
	"leastwatt/scoring/logbook"
)

// A whole treatment in the real program, on a display of its own, by a real
// pointer and real keys: one of the three rounds that a plan of an earlier
// sitting holds. The debrief tells of it, the logbook keeps it, and what is
// kept replays to the same outcome.
func TestAWholeBenchCaseInTheRealWindow(t *testing.T) {
	desk, path, data := newDesktop(t), build(t), benchFolder(t)
	p := desk.start(path, data)
	p.waitFor("today's cases", holds("cases for today"))
	openTowel(p)
	h := takePlace(p)

	markAndNumb(h)
	scrape(h)
	treatByPointer(h)
	treatByKeys(h)
	loseTheFocus(h, []string{"mousedown", "1"}, []string{"mouseup", "1"})
	loseTheFocus(h, []string{"keydown", "space"}, []string{"keyup", "space"})
	bursts, totalS := h.bursts()
	finish(h, bursts, totalS)
	p.close()
	wantInLogbook(t, data, bursts)
}

// markAndNumb marks the border before the needle, gives the planned 1 mL, and
// waits until it works.
func markAndNumb(h *hand) {
	h.t.Helper()
	h.take("m", "Pen")
	h.click("a marked border", counts("border marked", 1))
	h.take("y", "Syringe")
	h.point(0.53, 0.5)
	h.click("half a millilitre", holds("0.5 mL given"))
	h.point(0.47, 0.5)
	h.click("a millilitre", holds("1 mL given"))
	for n := range 5 {
		h.pressUntil("d", "half a minute gone", counts("waited", n+1))
	}
}

// scrape takes the soft tissue with the curette and puts it in the pot.
func scrape(h *hand) {
	h.t.Helper()
	h.take("u", "Curette")
	for n, at := range [][2]float64{{0.5, 0.5}, {0.58, 0.46}, {0.42, 0.46}, {0.5, 0.57}} {
		h.point(at[0], at[1])
		words := h.click("a stroke", counts("curetted", n+1))
		if strings.Contains(words, "I can feel that.") {
			h.t.Fatalf("it is not numb after two and a half minutes:\n%s", words)
		}
	}
	h.pressUntil("t", "the pot", counts("specimen put in the pot", 1))
}

// treatByPointer holds the button for a burst and moves while it is held.
func treatByPointer(h *hand) {
	h.t.Helper()
	h.take("e", "Electrode")
	h.point(0.5, 0.5)
	if x, y := h.placeMM(); max(x, -x) > 0.2 || max(y, -y) > 0.2 {
		h.t.Fatalf("the middle of the picture is at %.1f, %.1f mm, should be at the lesion's", x, y)
	}
	_, h.heard = h.screen()
	h.desk.xdotool("mousedown", "1")
	h.during("a burst", 0.1)
	for _, fx := range []float64{0.52, 0.54, 0.56} {
		h.point(fx, 0.5)
		if words, _ := h.screen(); !running(words) {
			h.t.Fatalf("the burst ends when the pointer moves:\n%s", words)
		}
	}
	if x, _ := h.placeMM(); x < 0.4 || x > 1.6 {
		h.t.Fatalf("6 %% of the picture's width to the right is %.1f mm", x)
	}
	_, h.heard = h.screen()
	h.desk.xdotool("mouseup", "1")
	h.wants("the burst's end", func(w string) bool { return !running(w) })
	if n, _ := h.bursts(); n != 1 {
		h.t.Fatalf("one press of the button made %d bursts", n)
	}
	time.Sleep(settling)
}

// treatByKeys goes to the next untreated spot and holds the space bar, twice.
func treatByKeys(h *hand) {
	h.t.Helper()
	for range 2 {
		was := h.tool()
		h.pressUntil("n", "another spot", func(string) bool { return h.tool() != was })
		before, _ := h.bursts()
		h.desk.xdotool("keydown", "space")
		h.during("a burst", 0.2)
		_, h.heard = h.screen()
		h.desk.xdotool("keyup", "space")
		h.wants("the burst's end", func(w string) bool { return !running(w) })
		if n, _ := h.bursts(); n != before+1 {
			h.t.Fatalf("the space bar made %d bursts, should be 1", n-before)
		}
		time.Sleep(settling)
	}
}

// loseTheFocus gives the keyboard to another window while the pedal is held:
// the current ends, and does not come back by itself.
func loseTheFocus(h *hand, down, up []string) {
	h.t.Helper()
	before, _ := h.bursts()
	_, h.heard = h.screen()
	h.desk.xdotool(down...)
	h.during("a burst", 0.1)
	_, h.heard = h.screen()
	giveBack := h.desk.anotherWindow(h.window())
	h.wants("no current without the keyboard", func(w string) bool { return !running(w) })
	_, totalS := h.bursts()
	giveBack()
	time.Sleep(2 * settling)
	h.desk.xdotool(up...)
	time.Sleep(4 * settling)
	words, _ := h.screen()
	if after, afterS := h.bursts(); running(words) || after != before+1 || afterS != totalS {
		h.t.Fatalf("one burst of %.1f s in all became %d of %.1f s without the pedal:\n%s", totalS, after-before, afterS, words)
	}
}

// finish ends the treatment and reads its debrief.
func finish(h *hand, bursts int, totalS float64) {
	h.t.Helper()
	told := func(w string) bool { return strings.Contains(w, "Done on the bench") }
	h.pressUntil("Control_L+Return", "the end", func(w string) bool { return strings.Contains(w, "The treatment has ended") || told(w) })
	words, _ := h.screen()
	found := told(words)
	if !found {
		words, found = h.within(time.Minute, "the debrief", told)
	}
	if !found {
		h.t.Fatalf("the treatment is not graded within a minute; the program said last:\n%s", words)
	}
	words = plainSpaces(words)
	for _, want := range []string{
		"# Debrief", "Border marked.", "Anaesthetic injected: 1 mL.", "Waited: 150 s.", "Curetted: 4 times.", "Specimen put in the pot.",
		fmt.Sprintf("Treated with current: round 1, %d bursts at 5 W, the longest ", bursts), "Further rounds: 2 not done.",
		fmt.Sprintf("%d bursts, the longest ", bursts),
	} {
		if !strings.Contains(words, want) {
			h.t.Errorf("the debrief does not tell %q:\n%s", want, words)
		}
	}
	m := regexp.MustCompile(`Treated with current: .*, ([\d.]+) s in all`).FindStringSubmatch(words)
	if m == nil {
		h.t.Fatalf("the debrief does not tell the time of the bursts:\n%s", words)
	}
	if s, err := strconv.ParseFloat(m[1], 64); err != nil || max(s-totalS, totalS-s) > 0.06 {
		h.t.Errorf("the debrief tells of %s s of current, the meter of %.1f s", m[1], totalS)
	}
}

// wantInLogbook reads the attempt that was kept and plays its session again.
func wantInLogbook(t *testing.T, data string, bursts int) {
	t.Helper()
	book, report, err := logbook.OpenFolder(data)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if text := report.Text(); text != "" {
		t.Errorf("the logbook is not whole: %s", text)
	}
	all, err := book.All()
	if err != nil || len(all) != 1 {
		t.Fatalf("the logbook holds %d entries (%v), should be 1", len(all), err)
	}
	e, err := book.Whole(all[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	a := e.Attempt
	if e.Kind != logbook.KindAttempt || a == nil || a.Case != towel || a.Bench != "done" {
		t.Fatalf("the entry is %+v, should be an attempt at %s with the bench done", e, towel)
	}
	var kept scoring.Outcome
	if err := gojson.Unmarshal(a.Outcome, &kept); err != nil {
		t.Fatal(err)
	}
	if kept.Bursts != bursts || kept.Range == nil || kept.EnergyJ <= 0 || kept.LesionDestroyedFraction <= 0 {
		t.Errorf("the outcome that is kept is %s; it should hold %d bursts, a range, energy and what is destroyed", a.Outcome, bursts)
	}
	session, err := cases.ReadSession("session", a.Session)
	if err != nil {
		t.Fatalf("the session that is kept: %v\n%s", err, a.Session)
	}
	if n := movesUnderCurrent(session); n < 3 {
		t.Errorf("the session holds %d moves with the pedal down, should be 3 at least", n)
	}
	pack, c := builtinCase(t, towel)
	again, err := bench.Replay(pack, c, session, bench.Options{Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	kept.Range = nil // worked out beside the treatment, not by it
	want, got := outcomeJSON(t, kept), outcomeJSON(t, again.Outcome())
	if !bytes.Equal(want, got) {
		t.Errorf("the session replays to\n%s, the logbook holds\n%s", got, want)
	}
}

func outcomeJSON(t *testing.T, o scoring.Outcome) []byte {
	t.Helper()
	text, err := gojson.Marshal(&o)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func movesUnderCurrent(s *cases.Session) (n int) {
	pedal := false
	for _, e := range s.Events {
		if e.Pedal != nil {
			pedal = *e.Pedal
		}
		if pedal && e.XMM != nil {
			n++
		}
	}
	return n
}

// hand works the pointer on the picture of the bench.
type hand struct {
	*program
	stage ui.Rect // on the display, px
}

// takePlace opens the bench and finds its picture on the display.
func takePlace(p *program) *hand {
	p.t.Helper()
	p.press("alt+3", "-- focus: "+stageID)
	h := &hand{p, openedBench(p.t).Frame().Stop(stageID).Rect}
	text := p.desk.xdotool("getwindowgeometry", "--shell", p.window())
	var x, y, w, hi int
	for line := range strings.Lines(text) {
		for name, to := range map[string]*int{"X": &x, "Y": &y, "WIDTH": &w, "HEIGHT": &hi} {
			if v, ok := strings.CutPrefix(strings.TrimSpace(line), name+"="); ok {
				*to, _ = strconv.Atoi(v)
			}
		}
	}
	if w != usual.w || hi != usual.h {
		p.t.Fatalf("the window is %d by %d, should be %d by %d:\n%s", w, hi, usual.w, usual.h, text)
	}
	h.stage.X, h.stage.Y = h.stage.X+float64(x), h.stage.Y+float64(y)
	return h
}

// window is the number of the program's window on the display.
func (p *program) window() string { return p.desk.xdotool("search", "--name", "^Leastwatt$") }

// take takes a tool by its key.
func (h *hand) take(key, name string) {
	h.t.Helper()
	h.pressUntil(key, name+" in hand", func(w string) bool { return strings.Contains(w, "work. "+name+" at ") })
}

// point moves the pointer to a place of the picture, in parts of its width and
// height, and waits until the tool has followed.
func (h *hand) point(fx, fy float64) {
	h.t.Helper()
	was := h.tool()
	_, h.heard = h.screen()
	px := func(v float64) string { return strconv.Itoa(int(v + 0.5)) }
	h.desk.xdotool("mousemove", px(h.stage.X+fx*h.stage.W), px(h.stage.Y+fy*h.stage.H))
	h.wants("the tool at another place than "+was, func(string) bool { return h.tool() != was })
}

// click holds the button down until the screen will do.
func (h *hand) click(what string, ok func(words string) bool) (words string) {
	h.t.Helper()
	_, h.heard = h.screen()
	h.desk.xdotool("mousedown", "1")
	words = h.wants(what, ok)
	h.desk.xdotool("mouseup", "1")
	time.Sleep(settling)
	return words
}

// wants waits until the program has said something new that will do.
func (h *hand) wants(what string, ok func(words string) bool) string {
	h.t.Helper()
	words, found := h.within(patience, what, func(w string) bool { return ok(plainSpaces(w)) })
	if !found {
		h.t.Fatalf("the program never said %s; it said last:\n%s", what, words)
	}
	return plainSpaces(words)
}

// during waits until current has flowed for so many seconds of the bench.
func (h *hand) during(what string, leastS float64) {
	h.t.Helper()
	h.wants(what, func(w string) bool { return running(w) && figure(h.t, w, burstTime) >= leastS })
}

var (
	toolAt    = regexp.MustCompile(`work\. .* at (-?[\d.]+), (-?[\d.]+)\smm, `)
	burstTime = regexp.MustCompile(`# This burst\n([\d.]+) s\n`)
	inAll     = regexp.MustCompile(`\n(\d+) bursts?, ([\d.]+) s in all\n`)
)

// tool is the tool in hand and its place in words.
func (h *hand) tool() string {
	words, _ := h.screen()
	return toolAt.FindString(plainSpaces(words))
}

// placeMM is where the tool stands.
func (h *hand) placeMM() (x, y float64) {
	h.t.Helper()
	m := toolAt.FindStringSubmatch(h.tool())
	if m == nil {
		h.t.Fatalf("the tool has no place: %q", h.tool())
	}
	return number(h.t, m[1]), number(h.t, m[2])
}

// bursts are how many there were and how long they took, by the meter.
func (h *hand) bursts() (n int, totalS float64) {
	h.t.Helper()
	words, _ := h.screen()
	m := inAll.FindStringSubmatch(plainSpaces(words))
	if m == nil {
		h.t.Fatalf("the meters do not count bursts:\n%s", words)
	}
	return int(number(h.t, m[1])), number(h.t, m[2])
}

// running tells whether current flows: only then is there a resistance.
func running(words string) bool { return !strings.Contains(words, "# Resistance\n–\n") }

func figure(t testing.TB, words string, of *regexp.Regexp) float64 {
	t.Helper()
	m := of.FindStringSubmatch(words)
	if m == nil {
		t.Fatalf("the screen lacks %v:\n%s", of, words)
	}
	return number(t, m[1])
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// counts finds a line of the strip of acts so many times.
func counts(line string, n int) func(string) bool {
	return func(words string) bool {
		found := 0
		for l := range strings.Lines(words) {
			if strings.TrimSpace(l) == line {
				found++
			}
		}
		return found == n
	}
}

// plainSpaces puts plain spaces where figures stand off their units.
func plainSpaces(words string) string { return strings.ReplaceAll(words, "\u202f", " ") }
