package open

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"leastwatt/cases"
	"leastwatt/game/keep"
	"leastwatt/scoring/logbook"
)

// answers are what the run decides, phrase by phrase: the lines of a list, or a
// number as it is typed and as it then reads. The alcohol is left five seconds
// to dry, which is what the debrief must find.
var answers = map[string][]string{
	"disposition":                       {"Treat"},
	"technique":                         {"Curettage and desiccation"},
	"electrode":                         {"Fine"},
	"output":                            {"Low"},
	"contact":                           {"Touching"},
	"power_w":                           {"5.0", "5.0 W"},
	"activation_s":                      {"1", "1.0 s"},
	"cycles":                            {"3", "3 cycles"},
	"rim_mm":                            {"2", "2 mm"},
	"record":                            {"Consent", "Site confirmed", "Border marked", "Specimen labelled"},
	"anaesthetic":                       {"An injection"},
	"anaesthetic.injected.0.agent":      {"Lidocaine"},
	"anaesthetic.injected.0.percent":    {"1", "1 %"},
	"anaesthetic.injected.0.adrenaline": {"1 : 200 000"},
	"anaesthetic.injected.0.volume_ml":  {"1,5", "1.5 mL"},
	"anaesthetic.slow":                  {"Slowly"},
	"anaesthetic.needle_gauge":          {"30", "30 gauge needle"},
	"anaesthetic.wait_min":              {"7", "7 min"},
	"prep.agent":                        {"Alcohol"},
	"prep.dry_wait_s":                   {"5", "5 s"},
	"protection":                        {"Gloves", "Respirator", "Eye protection", "Smoke evacuator", "Hand on the patient", "Sterile sleeve", "New electrode", "Patient lying down", "Time out"},
	"evacuator_cm":                      {"5", "5 cm"},
	"specimen.send":                     {"Sent"},
	"specimen.method":                   {"Curettings"},
	"specimen.labels":                   {"Site and side"},
	"specimen.result_owner":             {"Me"},
	"prescribe":                         {"Petrolatum"},
	"follow_up_days":                    {"42", "6 weeks"},
	"advice":                            {"Keeping it clean", "The crust", "Sun protection", "The mark", "That it may come back", "When and how the result", "Signs of infection", "Pressing if it bleeds", "How many weeks"},
}

// What those answers must make: the plan as it is kept, but for what was asked.
const kept = `{"format":"leastwatt.plan/1","case":"first-list/towel","asked":["feel","blood_thinners","biopsy_report"],
"disposition":"treat","technique":"curettage_desiccation","electrode":"fine","output":"low","contact":"touch",
"power_w":5,"activation_s":1,"cycles":3,"rim_mm":2,
"anaesthetic":{"injected":[{"agent":"lidocaine","percent":1,"adrenaline":"1:200000","volume_ml":1.5}],"needle_gauge":30,"wait_min":7,"slow":true},
"prep":{"agent":"alcohol","dry_wait_s":5},
"protection":["gloves","respirator","eye_protection","smoke_evacuator","hand_contact","sterile_sleeve","disposable_electrode","patient_lying","time_out"],
"evacuator_cm":5,"record":["consent","site_confirmed","border_marked","specimen_labelled"],
"specimen":{"send":true,"method":"curettings","labels":true,"result_owner":"me"},"prescribe":["petrolatum"],"follow_up_days":42,
"advice":["keep_clean_and_moist","crust_will_fall","sun_protection","mark_may_stay","may_come_back","result_when_and_how","infection_signs","press_if_bleeds","weeks_to_heal"]}`

// A whole case in the real program, on a display of its own, by keys alone: it
// is opened, asked about, planned, graded, mended in the debrief and left; the
// program is closed and opened again, and nothing is lost.
func TestAWholeCaseInTheRealWindow(t *testing.T) {
	desk, path, data := newDesktop(t), build(t), t.TempDir()
	p := desk.start(path, data)
	p.waitFor("the first case", holds("Asking never costs.")) // a first start
	p.press("t", "cases for today")
	openTowel(p)
	askAndExamine(p)
	writePlan(p)
	wantKept(t, data, kept)
	readDebrief(p)
	nextCaseAndUndo(p, data)
	p.press("comma", "# Settings")
	p.press("Tab", "-- focus: set dark")
	p.press("Down", "- Dark: Light ink on black, for a dim room. (chosen)")
	p.close()
	wantLogged(t, data, kept)

	again := desk.start(path, data)
	again.waitFor("today's cases", holds("cases for today"))
	again.press("comma", "- Dark: Light ink on black, for a dim room. (chosen)")
	again.press("Escape", "cases for today")
	openTowel(again)
	again.press("alt+2", "What I will do: [not decided]") // it is graded and in the logbook: the next time begins afresh
	again.press("Escape", "Each underlined phrase is a choice")
	again.press("p", "What was shown so far")
	again.press("a", "as they were graded")
	again.waitFor("the attempt as it was", holds("Unsafe"))
	again.close()
}

// wantLogged checks that the logbook holds one attempt, with the plan as it was
// when it was first graded.
func wantLogged(t *testing.T, data, plan string) {
	t.Helper()
	book, report, err := logbook.OpenFolder(data)
	if err != nil || !report.Clean() {
		t.Fatalf("the logbook: %v %s", err, report.Text())
	}
	defer book.Close()
	entries, err := book.All()
	if err != nil || len(entries) != 1 || entries[0].Attempt == nil {
		t.Fatalf("the logbook holds %d entries: %v", len(entries), err)
	}
	e, err := book.Whole(entries[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	want, err := cases.ReadPlan("want", []byte(plan))
	if err != nil {
		t.Fatal(err)
	}
	got, err := cases.ReadPlan("logbook", e.Attempt.Plan)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("the plan in the logbook:\n%s", diff)
	}
	if e.Attempt.Verdict != "unsafe" {
		t.Errorf("the verdict in the logbook is %q", e.Attempt.Verdict)
	}
}

// openTowel goes through the list of every case to the one of this run. The
// order of a day's cases depends on the day, and on a busy machine an arrow may
// be held for long enough to repeat.
func openTowel(p *program) {
	p.t.Helper()
	p.press("a", "# Every case")
	rested := false // a repeat of the last arrow may still be under way
	for range 120 {
		words, _ := p.screen()
		rows := listRows(words)
		at := slices.IndexFunc(rows, func(row string) bool { return strings.HasSuffix(row, " (chosen)") })
		to := slices.IndexFunc(rows, func(row string) bool { return strings.Contains(row, "“It bleeds a little on the towel.”") })
		if at < 0 || to < 0 {
			p.t.Fatalf("the list lacks the case, or a row that is chosen:\n%s", words)
		}
		if at == to && !rested {
			time.Sleep(400 * time.Millisecond)
			rested = true
			continue
		}
		rested = false
		if at == to {
			p.press("Return", "# “It bleeds a little on the towel.”")
			return
		}
		key := "Down"
		if at > to {
			key = "Up"
		}
		p.pressUntil(key, "another row", func(w string) bool {
			now := listRows(w)
			return len(now) == len(rows) && !slices.Equal(now, rows)
		})
	}
	p.t.Fatal("the arrows do not lead to the case")
}

func listRows(words string) []string {
	var rows []string
	for line := range strings.Lines(words) {
		if strings.HasPrefix(line, "  - ") {
			rows = append(rows, strings.TrimSpace(line))
		}
	}
	return rows
}

func askAndExamine(p *program) {
	p.t.Helper()
	p.press("Return", "A firm, pearly rim round a scab.")
	p.press("Tab", "-- focus: ask ")
	p.tap("Down")
	p.tap("Down")
	p.press("space", "“Nothing to thin the blood. A water tablet is all I take.”")
	for range 6 {
		p.tap("Down")
	}
	p.press("Return", "Shave, upper back, left: nodular basal cell carcinoma.")
}

// writePlan goes through the note with Tab and decides each phrase it has an
// answer for.
func writePlan(p *program) {
	p.t.Helper()
	p.press("alt+2", "-- focus: disposition phrase")
	left := make(map[string]bool, len(answers))
	for id := range answers {
		left[id] = true
	}
	for range 150 { // round more than once, should a held Tab repeat
		id := p.focus()
		if len(left) == 0 {
			return
		}
		if left[id] {
			decide(p, id, answers[id])
			delete(left, id)
		}
		was := p.focus()
		p.pressUntil("Tab", "another focus", func(string) bool { return p.focus() != was })
	}
	words, _ := p.screen()
	p.t.Fatalf("Tab did not lead to %v; the note:\n%s", left, words)
}

func decide(p *program, id string, answer []string) {
	p.t.Helper()
	words, _ := p.screen()
	if answer[0][0] >= '0' && answer[0][0] <= '9' && !strings.Contains(words, "- "+answer[0]+"\n") {
		typeNumber(p, answer[0], answer[1])
		return
	}
	lines := editorLines(words)
	at := 0
	for _, want := range answer {
		i := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, want) })
		if i < 0 {
			p.t.Fatalf("the editor of %s has no line %q: %q", id, want, lines)
		}
		taken := regexp.MustCompile(`(?m)^  - ` + regexp.QuoteMeta(lines[i]) + ` \((chosen|ticked)\)$`)
		key := strconv.Itoa(i + 1)
		if i >= 9 { // only the first nine have a digit
			for ; at < i; at++ {
				p.tap("Down")
			}
			key = "space"
		}
		p.pressUntil(key, fmt.Sprintf("%q taken", want), taken.MatchString)
	}
}

// editorLines are the lines of the open editor, the last list on the screen.
func editorLines(words string) []string {
	var list []string
	for line := range strings.Lines(words) {
		if item, ok := strings.CutPrefix(line, "  - "); ok {
			item = strings.TrimSuffix(strings.TrimSuffix(strings.TrimSpace(item), " (chosen)"), " (ticked)")
			list = append(list, item)
		} else if !strings.HasPrefix(line, " ") && strings.HasPrefix(line, "- ") {
			list = nil
		}
	}
	return list
}

func typeNumber(p *program, digits, reads string) {
	p.t.Helper()
	for i, c := range digits {
		name := map[rune]string{'.': "period", ',': "comma"}[c]
		if name == "" {
			name = string(c)
		}
		p.press(name, "["+digits[:i+1])
	}
	p.pressUntil("Return", reads, func(w string) bool { return strings.Contains(focusLine(w), reads) })
}

func focusLine(words string) string { return words[strings.LastIndex(words, "-- focus: "):] }

// readDebrief grades the plan, goes to what was found, mends it there, and sees
// the verdict and the marks move.
func readDebrief(p *program) {
	p.t.Helper()
	first := p.press("Control_L+Return", "# Unsafe")
	if !strings.Contains(first, "1 never event") || !strings.Contains(first, "# What it was") {
		p.t.Fatalf("the debrief lacks its count or what the lesion was:\n%s", first)
	}
	if !strings.HasPrefix(focusLine(first), "-- focus: finding 1 ") || !strings.Contains(focusLine(first), "alcohol prep was not surely dry") {
		p.t.Fatalf("the debrief begins on %s", focusLine(first))
	}
	p.press("n", "-- focus: finding 2 ")
	for !strings.HasPrefix(p.focus(), "finding 1 ") {
		was := p.focus()
		p.pressUntil("n", "another finding", func(string) bool { return p.focus() != was })
	}
	p.press("Return", "-- focus: prep.dry_wait_s phrase")
	p.press("Shift_L+Tab", "-- focus: prep.agent phrase")
	p.press("Return", "- Aqueous chlorhexidine:")
	mended := p.press("5", "[aqueous chlorhexidine")
	if strings.Contains(mended, "# Unsafe") || !strings.Contains(mended, "At first: unsafe") || strings.Contains(mended, "alcohol prep was not surely dry") {
		p.t.Fatalf("the marks did not move:\n%s", mended)
	}
	p.press("ctrl+z", "# Unsafe")
	p.press("ctrl+y", "At first: unsafe")
	p.pressUntil("Escape", "the editor closed", func(w string) bool { return !strings.Contains(w, "Povidone iodine:") })
	p.press("n", "-- focus: finding 1 ")
}

// nextCaseAndUndo goes on to another case, asks there, and takes that back.
func nextCaseAndUndo(p *program, data string) {
	p.t.Helper()
	for range 60 {
		if strings.HasPrefix(p.focus(), "next case") {
			break
		}
		was := p.focus()
		p.pressUntil("Tab", "another focus", func(string) bool { return p.focus() != was })
	}
	words := p.press("Return", "Asking never costs.")
	if strings.Contains(words, "on the towel") {
		p.t.Fatalf("the next case is the same:\n%s", words)
	}
	p.pressUntil("Return", "an answer", func(w string) bool { return !strings.Contains(w, "Asking never costs.") })
	if n := len(drafts(p.t, data)); n != 1 {
		p.t.Errorf("%d drafts are kept, should be 1", n)
	}
	p.press("ctrl+z", "Asking never costs.")
}

// wantKept compares the draft that lies in the folder now.
func wantKept(t *testing.T, data, want string) {
	t.Helper()
	plan, err := cases.ReadPlan("want", []byte(want))
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(data, "drafts", "first-list--towel.json")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	got, err := cases.ReadPlan(name, text)
	if err != nil {
		t.Fatalf("the draft is no valid plan: %v", err)
	}
	if diff := cmp.Diff(plan, got); diff != "" {
		t.Fatalf("the draft that is kept: %s", diff)
	}
}

func drafts(t testing.TB, data string) map[string]*cases.Plan {
	t.Helper()
	folder, err := keep.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return folder.Drafts()
}
