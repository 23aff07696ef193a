package bench

import (
	"slices"
	"testing"

	"leastwatt/cases"
)

// sample is a small case that nothing is wrong with; change makes it worse.
func sample(t testing.TB, change func(*cases.Case)) (*cases.Pack, *cases.Case) {
	t.Helper()
	c := &cases.Case{
		ID: "case", Patient: cases.Patient{AgeYears: 40000, Sex: "female", WeightKG: 60000, SkinType: 2},
		Setting: cases.Setting{SmokeEvacuator: true, PathologyService: true},
		Lesion:  cases.Lesion{Family: "bcc_nodular", Site: "back", WidthMM: 3000, HeightMM: 800, DepthMM: 400},
	}
	if change != nil {
		change(c)
	}
	return &cases.Pack{ID: "test", Cases: []cases.Case{*c}}, c
}

const samplePlan = `{"disposition":"treat","technique":"curettage_desiccation","electrode":"blunt","output":"low","contact":"touch","power_w":5,"activation_s":1,"cycles":1,` + numb + `,` + safely + `}`

var coarse = Options{GridMM: 0.4, Seed: 3, Workers: 1}

// ready opens a sample with the border marked, the skin numb and the growth
// curetted, so that nothing but what a test changes can go wrong.
func ready(t testing.TB, change func(*cases.Case), plan func(*cases.Plan)) script {
	t.Helper()
	p, c := sample(t, change)
	text := planOf(t, p, c, samplePlan)
	if plan != nil {
		plan(text)
	}
	s := opened(t, p, c, text, coarse)
	s.with("pen", "mark", 0, 0, cases.SessionEvent{}, 100)
	if len(text.Anaesthetic.Injected) > 0 {
		s.with("syringe", "inject", 0, 0, cases.SessionEvent{VolumeML: m(0.2)}, 100)
		s.wait(120)
	}
	s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 100)
	return s
}

func without(list []string, id string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == id })
}

var hazardTests = []struct {
	hazard string
	change func(*cases.Case)
	plan   func(*cases.Plan)
	play   func(s script) // nil is one short burst
	fixed  func(s script) // what makes it safe
}{
	{
		"alcohol_wet",
		func(c *cases.Case) { c.Lesion.Site = "scalp" }, // in hair it is still wet when the needle has begun to work
		func(p *cases.Plan) { p.Prep = &cases.Prep{Agent: "alcohol", DryWaitS: m(0)} },
		nil, nil,
	},
	{
		"oxygen_on",
		func(c *cases.Case) { c.Setting.OxygenRunning = true },
		nil, nil, func(s script) { s.just("oxygen_off") },
	},
	{
		"device_current",
		func(c *cases.Case) { c.Patient.Devices = []cases.Device{{Kind: "pacemaker"}} },
		nil, func(s script) { s.do(cases.SessionEvent{PowerW: m(9)}); s.burst(0, 0, 50) },
		func(s script) { s.do(cases.SessionEvent{PowerW: m(5)}) },
	},
	{
		"no_smoke_evacuation",
		func(c *cases.Case) { c.Lesion.Family = "common_wart" },
		func(p *cases.Plan) { p.Protection = without(p.Protection, "smoke_evacuator") },
		nil, func(s script) { s.just("evacuator_near") },
	},
	{
		"metal_touched",
		func(c *cases.Case) { c.Setting.MetalTable = true },
		nil, nil, func(s script) { s.just("off_metal") },
	},
	{
		"specimen_late", nil,
		func(p *cases.Plan) { p.Specimen = &cases.Specimen{Send: yes(true)} },
		nil, func(s script) { s.just("specimen_to_pot") },
	},
	{
		"contact_broken", nil,
		func(p *cases.Plan) { p.Protection = without(p.Protection, "hand_contact") },
		nil, func(s script) { s.just("hand_on") },
	},
	{
		"contact_broken",
		func(c *cases.Case) { c.Setting.Unit = &cases.Unit{Return: "plate"} },
		nil, nil, func(s script) { s.just("place_plate") },
	},
	{
		"felt_pain", nil,
		func(p *cases.Plan) { p.Anaesthetic = &cases.Anaesthetic{None: yes(true)} },
		func(s script) { s.burst(0, 0, 2500) }, nil,
	},
	{
		"fat_reached",
		func(c *cases.Case) { c.Lesion.Site, c.Lesion.DepthMM, c.Lesion.WidthMM = "eyelid", 1200, 4000 },
		func(p *cases.Plan) { p.Anaesthetic = cold() },
		func(s script) {
			for range 10 {
				s.with("curette", "curette", 0, 0, cases.SessionEvent{}, 10)
			}
		}, nil,
	},
}

// TestHazards: each hazard stops the bench with its caution, goes into the
// outcome once, and does not come up where it has been put right or was never
// there.
func TestHazards(t *testing.T) {
	for _, h := range hazardTests {
		t.Run(h.hazard, func(t *testing.T) {
			t.Parallel()
			play := h.play
			if play == nil {
				play = func(s script) { s.burst(0, 0, 50) }
			}
			s := ready(t, h.change, h.plan)
			play(s)
			if got := s.Outcome().Hazards; !slices.Equal(got, []string{h.hazard}) {
				t.Errorf("hazards are %q, want %q alone", got, h.hazard)
			}
			if got := s.State().Caution; got != h.hazard {
				t.Errorf("the caution is %q, want %q", got, h.hazard)
			}
			if s.State().Live {
				t.Error("current flows after the stop")
			}
			play(s)
			if got := s.Outcome().Hazards; len(got) != 1 {
				t.Errorf("done twice, hazards are %q, want one", got)
			}
			if h.fixed == nil {
				return
			}
			safe := ready(t, h.change, h.plan)
			h.fixed(safe)
			safe.burst(0, 0, 50)
			if got := safe.Outcome(); len(got.Hazards) != 0 || got.Bursts != 1 {
				t.Errorf("put right, %d bursts with hazards %q; want one burst and none", got.Bursts, got.Hazards)
			}
		})
	}
	safe := ready(t, nil, nil)
	safe.burst(0, 0, 200)
	if o := safe.Outcome(); len(o.Hazards)+len(o.OrderFaults) != 0 || o.Bursts != 1 {
		t.Errorf("a careful hand met hazards %q, faults %q in %d bursts", o.Hazards, o.OrderFaults, o.Bursts)
	}
}

// TestAlcoholDries: alcohol is wet for a minute on skin and three in hair, and
// stops the current each time until then.
func TestAlcoholDries(t *testing.T) {
	for _, c := range []struct {
		site    string
		agent   string
		waitedS float64
		wet     bool
	}{
		{"back", "alcohol", 59, true},
		{"back", "alcohol", 60, false},
		{"scalp", "chlorhexidine_alcohol", 179, true},
		{"scalp", "chlorhexidine_alcohol", 180, false},
		{"back", "povidone_iodine", 0, false},
	} {
		p, k := sample(t, func(k *cases.Case) { k.Lesion.Site = c.site })
		plan := planOf(t, p, k, samplePlan)
		plan.Prep = &cases.Prep{Agent: c.agent, DryWaitS: m(c.waitedS)}
		s := opened(t, p, k, plan, coarse)
		for range 2 {
			s.burst(0, 0, 10)
			if got := s.State().Caution == "alcohol_wet"; got != c.wet {
				t.Errorf("%s on the %s after %v s: wet is %v, want %v", c.agent, c.site, c.waitedS, got, c.wet)
			}
		}
	}
}

// TestHandLifted: with a single-ended unit, lifting the other hand breaks the
// contact; with a plate it does not matter.
func TestHandLifted(t *testing.T) {
	for _, plate := range []bool{false, true} {
		s := ready(t, func(c *cases.Case) {
			if plate {
				c.Setting.Unit = &cases.Unit{Return: "plate"}
			}
		}, func(p *cases.Plan) { p.Protection = append(p.Protection, "plate_placed") })
		s.do(cases.SessionEvent{Tool: "electrode", XMM: m(0), YMM: m(0)})
		s.do(cases.SessionEvent{Pedal: yes(true)})
		s.Advance(40)
		s.just("hand_off")
		broken := 1
		if plate {
			broken = 0
		}
		if o := s.Outcome(); o.ContactBreaks != broken || len(o.Hazards) != broken {
			t.Errorf("plate %v: %d breaks, hazards %q; want %d", plate, o.ContactBreaks, o.Hazards, broken)
		}
	}
}
