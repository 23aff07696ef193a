package bench

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leastwatt/cases"
	"leastwatt/scoring"
)

var update = flag.Bool("update", false, "write the sessions and their outcomes anew")

const sessions = "../../testdata/sessions"

// A fixture is a whole treatment by a steady hand.
type fixture struct {
	name, pack, id string
	gridMM         float64
	plan           string
	play           func(s script)
}

const numb = `"anaesthetic":{"injected":[{"agent":"lidocaine","percent":1,"adrenaline":"1:200000","volume_ml":1}]}`

const safely = `"prep":{"agent":"chlorhexidine_aqueous","dry_wait_s":60,"dry_checked":true},"protection":["gloves","hand_contact","smoke_evacuator","eye_protection"],"evacuator_cm":3`

var fixtures = []fixture{
	{
		"cherry-desiccated", "first-list", "wedding", 0.2,
		`{"disposition":"treat","technique":"electrodesiccation","electrode":"fine","output":"low","contact":"touch","power_w":2,"activation_s":1,"cycles":1,` + numb + `,` + safely + `}`,
		func(s script) {
			s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.2)}, 1000)
			s.wait(120)
			for _, p := range [][2]float64{{0, 0}, {0.7, 0}, {0.35, 0.6}, {-0.35, 0.6}, {-0.7, 0}, {-0.35, -0.6}, {0.35, -0.6}, {1.2, 0.3}, {0.8, 1}, {0, 1.3}, {-0.8, 1}, {-1.2, 0.3}, {-1.1, -0.6}, {-0.4, -1.2}, {0.4, -1.2}, {1.1, -0.6}} {
				s.burst(p[0], p[1], 900)
			}
			s.just("stop")
		},
	},
	{
		"keratosis-gap", "first-list", "mirror", 0.2,
		`{"disposition":"treat","technique":"electrofulguration","electrode":"fine","output":"high","contact":"gap","power_w":4,"activation_s":3,"cycles":2,` + numb + `,` + safely + `}`,
		func(s script) {
			s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 500)
			s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(1)}, 1000)
			s.wait(120)
			s.do(cases.SessionEvent{GapMM: m(0.2)})
			for range 2 {
				s.sweep(1.2, 0.4, 3)
				s.with("gauze_wet", "wipe", 0, 0, cases.SessionEvent{RadiusMM: m(3)}, 500)
			}
			s.just("stop")
		},
	},
	{
		"naevus-shaved", "first-list", "glasses", 0.4,
		`{"disposition":"treat","technique":"shave_desiccation","electrode":"ball","output":"low","contact":"touch","power_w":6,"activation_s":1,"cycles":1,"record":["border_marked"],"specimen":{"send":true,"method":"shave"},` + numb + `,` + safely + `}`,
		func(s script) {
			s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 500)
			s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.5)}, 1000)
			s.wait(120)
			s.with("blade", "shave", 0, 0, cases.SessionEvent{DepthMM: m(0)}, 500)
			s.just("specimen_to_pot")
			s.Advance(2000)
			s.with("gauze_dry", "wipe", 0, 0, cases.SessionEvent{RadiusMM: m(5)}, 300)
			s.sweep(2.8, 1, 5)
			s.just("stop")
		},
	},
	{
		"carcinoma-three-cycles", "first-list", "towel", 0.4,
		`{"disposition":"treat","technique":"curettage_desiccation","electrode":"ball","output":"low","contact":"touch","power_w":10,"activation_s":2,"cycles":3,"rim_mm":3,"record":["border_marked"],` + numb + `,` + safely + `}`,
		func(s script) {
			s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 500)
			s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(1)}, 1000)
			s.wait(120)
			for range 3 {
				for k := range 12 {
					angle := [4][2]float64{{0, 0}, {1.4, 1}, {-1.4, 1}, {0, -1.7}}[k%4]
					s.with("curette", "curette", angle[0], angle[1], cases.SessionEvent{RadiusMM: m(2.5)}, 200)
				}
				s.with("gauze_dry", "wipe", 0, 0, cases.SessionEvent{RadiusMM: m(7)}, 300)
				s.sweep(4.5, 1.2, 5)
			}
			s.just("stop")
		},
	},
	{
		"granuloma-pool", "hazards", "painted-egg", 0.4, granulomaPlan, func(s script) { granuloma(s, false) },
	},
	{
		"granuloma-dry", "hazards", "painted-egg", 0.4, granulomaPlan, func(s script) { granuloma(s, true) },
	},
}

const granulomaPlan = `{"disposition":"treat","technique":"shave_desiccation","electrode":"ball","output":"low","contact":"touch","power_w":10,"activation_s":2,"cycles":1,"record":["border_marked"],"specimen":{"send":true,"method":"shave"},` + numb + `,` + safely + `}`

// granuloma shaves a bleeding nodule and coagulates the base, after drying it
// or in its pool of blood.
func granuloma(s script, dry bool) {
	s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 500)
	s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.5)}, 1000)
	s.wait(120)
	s.with("blade", "shave", 0, 0, cases.SessionEvent{DepthMM: m(0)}, 500)
	s.just("specimen_to_pot")
	s.Advance(15000)
	for _, p := range [][2]float64{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		if dry {
			s.with("cotton", "roll", p[0], p[1], cases.SessionEvent{RadiusMM: m(3)}, 300)
			s.just("release")
		}
		s.burst(p[0], p[1], 1500)
	}
	s.just("stop")
}

func (f fixture) read(t testing.TB) (*cases.Pack, *cases.Case, *cases.Plan) {
	t.Helper()
	p, c := builtIn(t, f.pack, f.id)
	return p, c, planOf(t, p, c, f.plan)
}

// planOf reads a plan for a case; format and case are put in.
func planOf(t testing.TB, p *cases.Pack, c *cases.Case, text string) *cases.Plan {
	t.Helper()
	plan, err := cases.ReadPlan("plan", []byte(`{"format":"leastwatt.plan/1","case":"`+p.ID+`/`+c.ID+`",`+text[1:]))
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// TestSessions: the committed sessions replay to their committed outcomes, and
// the file a replay writes is the file it came from. After a change of the
// model or of the bench run
//
//	go test ./game/bench -run TestSessions -update
func TestSessions(t *testing.T) {
	for _, f := range fixtures {
		t.Run(f.name, func(t *testing.T) {
			p, c, plan := f.read(t)
			if testing.Short() && (f.name == "carcinoma-three-cycles" || f.name == "cherry-desiccated") {
				t.Skip("a long session: not in short mode")
			}
			file, result := filepath.Join(sessions, f.name+".json"), filepath.Join(sessions, f.name+".outcome.json")
			if *update {
				s := opened(t, p, c, plan, Options{GridMM: f.gridMM, Seed: 7, Workers: 1})
				f.play(s)
				save(t, file, s.Session().JSON())
				save(t, result, outcomeJSON(t, s.Outcome()))
			}
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			session, err := cases.ReadSession(file, data)
			if err != nil {
				t.Fatal(err)
			}
			b, err := Replay(p, c, session, Options{Workers: 1})
			if err != nil {
				t.Fatal(err)
			}
			if again := b.Session().JSON(); !bytes.Equal(again, data) {
				t.Errorf("the replay writes another file:\n%s", cmp.Diff(string(data), string(again)))
			}
			want, err := os.ReadFile(result)
			if err != nil {
				t.Fatal(err)
			}
			if got := outcomeJSON(t, b.Outcome()); !bytes.Equal(got, want) {
				t.Errorf("another outcome:\n%s", cmp.Diff(string(want), string(got)))
			}
		})
	}
}

func save(t *testing.T, file string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

func outcomeJSON(t *testing.T, o scoring.Outcome) []byte {
	t.Helper()
	data, err := json.MarshalIndent(o, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	return append(data, '\n')
}
