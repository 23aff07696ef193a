package scoring

import (
	"bytes"
	"testing"

	gojson "github.com/goccy/go-json"
	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring/tables"
)

// drawPlan draws any plan that a file could hold; about a third of its
// phrases are open.
func drawPlan(t *rapid.T) *cases.Plan {
	open := func(name string) bool { return rapid.IntRange(0, 2).Draw(t, name+" open") == 0 }
	word := func(table string) string {
		if open(table) {
			return ""
		}
		return rapid.SampledFrom(cases.Vocab.IDs(table)).Draw(t, table)
	}
	words := func(table string) []string {
		if open(table) {
			return nil
		}
		return append([]string{}, rapid.SliceOfNDistinct(rapid.SampledFrom(cases.Vocab.IDs(table)), 0, 6, func(s string) string { return s }).Draw(t, table)...)
	}
	dial := func(name string, low, up, step int64) *cases.Milli {
		if open(name) {
			return nil
		}
		n := cases.Milli(rapid.Int64Range(low/step, up/step).Draw(t, name) * step)
		return &n
	}
	flag := func(name string) *bool {
		if open(name) {
			return nil
		}
		b := rapid.Bool().Draw(t, name)
		return &b
	}
	p := &cases.Plan{
		Format: cases.PlanFormat, Case: "p/c",
		Asked: words("topic"), Disposition: word("disposition"), Technique: word("technique"),
		Electrode: word("electrode"), Output: word("output"), Contact: word("contact"),
		PowerW: dial("power_w", 100, 35000, 100), ActivationS: dial("activation_s", 50, 30000, 50),
		Cycles: dial("cycles", 1000, 10000, 1000), RimMM: dial("rim_mm", 0, 20000, 500), MarginMM: dial("margin_mm", 0, 30000, 500),
		Protection: words("protection"), EvacuatorCM: dial("evacuator_cm", 0, 100000, 500), Record: words("record"),
		BloodThinner: word("blood_thinner"), Prescribe: words("prescribe"), FollowUpDays: dial("follow_up_days", 0, 730000, 1000),
		OtherCare: word("other_care"), Advice: words("advice"),
	}
	if !open("haemostasis") {
		p.Haemostasis = &cases.Haemostasis{
			Method: word("haemostasis"), Output: word("output"), Contact: word("contact"), Electrode: word("electrode"),
			PowerW: dial("h power", 100, 35000, 100), ActivationS: dial("h time", 50, 30000, 50),
		}
	}
	if !open("prep") {
		p.Prep = &cases.Prep{Agent: word("prep"), DryWaitS: dial("dry_wait_s", 0, 7200000, 1000), DryChecked: flag("dry_checked")}
	}
	if !open("specimen") {
		p.Specimen = &cases.Specimen{Send: flag("send"), Method: word("specimen_method"), Labels: flag("labels"), ResultOwner: word("result_owner")}
	}
	if !open("referral") {
		p.Referral = &cases.Referral{To: word("referral"), WithinDays: dial("within_days", 0, 365000, 1000)}
	}
	if !open("anaesthetic") {
		p.Anaesthetic = drawAnaesthetic(t, word, dial, flag)
	}
	return p
}

func drawAnaesthetic(t *rapid.T, word func(string) string, dial func(string, int64, int64, int64) *cases.Milli, flag func(string) *bool) *cases.Anaesthetic {
	a := &cases.Anaesthetic{None: flag("none")}
	if a.None != nil && *a.None {
		return a
	}
	for range rapid.IntRange(0, 3).Draw(t, "injected") {
		a.Injected = append(a.Injected, cases.Injected{
			Agent: word("agent"), Percent: dial("percent", 50, 4000, 50),
			Adrenaline: rapid.SampledFrom([]string{"", "1:100000", "1:200000", "1:80000", "1:1000"}).Draw(t, "ratio"), VolumeML: dial("volume", 0, 200000, 100),
		})
	}
	a.NeedleGauge, a.Method, a.WaitMin = dial("gauge", 18000, 34000, 1000), word("injection_method"), dial("wait", 0, 60000, 1000)
	a.Buffered, a.Warmed, a.Slow = flag("buffered"), flag("warmed"), flag("slow")
	if rapid.Bool().Draw(t, "topical") {
		a.Topical = &cases.Topical{Agent: word("topical_agent"), AmountG: dial("amount", 0, 60000, 100), AreaCM2: dial("area", 0, 600000, 1000), Minutes: dial("minutes", 0, 300000, 1000)}
	}
	return a
}

func gradeBytes(t *rapid.T, c *cases.Case, p *cases.Plan, labels string) (*Grade, []byte) {
	j, err := NewJudge(tables.Builtin, c, nil, labels)
	if err != nil {
		t.Fatal(err)
	}
	g := j.Grade(p, cases.UK)
	b, err := gojson.Marshal(g)
	if err != nil {
		t.Fatal(err)
	}
	return g, b
}

// TestAnyPlanGrades: any decodable plan grades without panic, points stay in
// bounds, and what it is out of depends on the case and the decision alone.
func TestAnyPlanGrades(t *testing.T) {
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(all).Draw(t, "case")
		labels := rapid.SampledFrom(cases.Vocab.IDs("labels")).Draw(t, "labels")
		p := drawPlan(t)
		g, first := gradeBytes(t, c, p, labels)
		if _, again := gradeBytes(t, c, p, labels); !bytes.Equal(first, again) {
			t.Fatal("the same plan gave two grades")
		}
		if g.Points < 0 || g.Points > g.Of {
			t.Fatalf("%d of %d points", g.Points, g.Of)
		}
		points, of := 0, 0
		for _, d := range g.Domains {
			if d.Points < 0 || d.Points > d.Of {
				t.Fatalf("%s: %d of %d", d.Domain, d.Points, d.Of)
			}
			points, of = points+d.Points, of+d.Of
		}
		if points != g.Points || of != g.Of {
			t.Fatalf("domains give %d of %d, the grade %d of %d", points, of, g.Points, g.Of)
		}
		rank := map[string]int{"never": 3, "caution": 2, "advice": 1, "credit": 0}
		for i, f := range g.Findings {
			if i > 0 && rank[f.Kind] > rank[g.Findings[i-1].Kind] {
				t.Fatal("findings are out of order")
			}
			if f.Kind == "credit" && f.Points != f.Of || f.Kind == "advice" && f.Of != 0 || f.Kind == "never" && f.Points != 0 ||
				f.Kind == "caution" && f.Points >= f.Of && f.Of != 0 {
				t.Fatalf("%+v", f)
			}
			if f.Why == "" || f.Source == "" || f.Expected == "" || f.Choice == "" || f.Heading == "" || len(f.Phrases) == 0 {
				t.Fatalf("a finding without words: %+v", f)
			}
		}
		bare, _ := gradeBytes(t, c, &cases.Plan{Format: p.Format, Case: p.Case, Disposition: p.Disposition}, labels)
		if bare.Of != g.Of {
			t.Fatalf("of is %d for the plan and %d for its bare decision", g.Of, bare.Of)
		}
	})
}

// TestTruthIsHidden: swapping the truth changes no byte of a grade.
func TestTruthIsHidden(t *testing.T) {
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		c := *rapid.SampledFrom(all).Draw(t, "case")
		p := drawPlan(t)
		_, before := gradeBytes(t, &c, p, "cautious")
		c.Truth = cases.Truth{Diagnosis: "another", Histology: "another"}
		c.Teaching, c.Title = "another", "another"
		if _, after := gradeBytes(t, &c, p, "cautious"); !bytes.Equal(before, after) {
			t.Fatal("the truth shows in the grade")
		}
	})
}

// TestFewerHazardsNeverHurt: deleting one hazard with the plan fixed adds no
// never event and no caution in patient, room or anaesthesia.
func TestFewerHazardsNeverHurt(t *testing.T) {
	all := packs.Cases()
	rapid.Check(t, func(t *rapid.T) {
		c := *rapid.SampledFrom(all).Draw(t, "case")
		addHazards(t, &c)
		p := drawPlan(t)
		before := faults(t, &c, p)
		what := dropHazard(t, &c)
		for rule, kind := range faults(t, &c, p) {
			if kind > before[rule] {
				t.Fatalf("without %s the plan is told more by %s: %s, before %s", what, rule, kind, before[rule])
			}
		}
	})
}

// faults are the cautions and never events in the three domains, by rule.
func faults(t *rapid.T, c *cases.Case, p *cases.Plan) map[string]tables.Kind {
	j, err := NewJudge(tables.Builtin, c, nil, "cautious")
	if err != nil {
		t.Fatal(err)
	}
	m := map[string]tables.Kind{}
	for _, mark := range j.Score(p, nil).Marks {
		switch mark.Row.Domain {
		case "patient", "room", "anaesthesia":
			if mark.Kind >= tables.Caution {
				m[mark.Row.Rule] = mark.Kind
			}
		}
	}
	return m
}

func addHazards(t *rapid.T, c *cases.Case) {
	pick := func(table string) []string {
		return rapid.SliceOfNDistinct(rapid.SampledFrom(cases.Vocab.IDs(table)), 1, 3, func(s string) string { return s }).Draw(t, table)
	}
	distance := cases.Milli(rapid.Int64Range(0, 60).Draw(t, "distance") * 1000)
	c.Patient.Devices = []cases.Device{{Kind: rapid.SampledFrom(cases.Vocab.IDs("device")).Draw(t, "device"), DistanceCM: &distance}}
	c.Patient.History, c.Patient.Medicines, c.Patient.Allergies = pick("history"), pick("medicine"), pick("allergy")
	c.Setting.OxygenRunning, c.Setting.MetalTable = true, true
	c.Patient.Pregnant = c.Patient.Sex == "female"
}

func dropHazard(t *rapid.T, c *cases.Case) string {
	p := &c.Patient
	drop := func(list []string) ([]string, string) {
		i := rapid.IntRange(0, len(list)-1).Draw(t, "which")
		return append(append([]string{}, list[:i]...), list[i+1:]...), list[i]
	}
	var what string
	switch rapid.IntRange(0, 6).Draw(t, "hazard") {
	case 0:
		what, p.Devices = p.Devices[0].Kind, nil
	case 1:
		p.History, what = drop(p.History)
	case 2:
		p.Medicines, what = drop(p.Medicines)
	case 3:
		p.Allergies, what = drop(p.Allergies)
	case 4:
		c.Setting.OxygenRunning, what = false, "oxygen"
	case 5:
		c.Setting.MetalTable, what = false, "metal"
	case 6:
		p.Pregnant, p.GestationWeeks, what = false, nil, "pregnancy"
	}
	return what
}

func BenchmarkGrade(b *testing.B) {
	c := packs.Cases()[0]
	j, err := NewJudge(tables.Builtin, c, nil, "cautious")
	if err != nil {
		b.Fatal(err)
	}
	two, one := cases.Milli(2000), cases.Milli(1000)
	p := &cases.Plan{
		Format: cases.PlanFormat, Case: "p/c", Asked: []string{"devices", "blood_thinners"}, Disposition: "treat",
		Technique: "electrodesiccation", Electrode: "fine", Output: "low", Contact: "touch", PowerW: &two, ActivationS: &one,
		Anaesthetic: &cases.Anaesthetic{Injected: []cases.Injected{{Agent: "lidocaine", Percent: &one, VolumeML: &one}}},
		Prep:        &cases.Prep{Agent: "alcohol"}, Protection: []string{"gloves"}, Record: []string{"consent"}, Advice: []string{},
	}
	b.Run("judged", func(b *testing.B) {
		b.ReportAllocs()
		room := make([]Mark, 0, 128)
		for b.Loop() {
			room = j.Score(p, room).Marks
		}
	})
	b.Run("in words", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			j.Grade(p, cases.UK)
		}
	})
}
