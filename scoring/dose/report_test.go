package dose

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-json"

	"leastwatt/cases"
)

func reportJSON(t *testing.T, q Question) string {
	t.Helper()
	a, err := Report(q)
	if err != nil {
		t.Fatal(err)
	}
	out, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestReportJSON(t *testing.T) {
	usSource := Find("dose-us-lidocaine-plain-adult").Source
	ukSource := Find("dose-uk-lidocaine-plain-adult").Source
	for _, test := range []struct {
		name string
		q    Question
		want string
	}{
		{
			"alone, by the US label",
			Question{Patient{WeightG: 47_300, AgeCentiYears: 4550}, "lidocaine", 2000, 0, 110, nil, US},
			`{"agent":"lidocaine","percent":2,"adrenaline":"plain","weight_kg":47.3,"age_years":45.5,"mg_per_ml":20,"mg_per_kg":4.5,"cap_mg":300,` +
				`"max_mg":212.85,"max_ml":10.6,"volume_ml":11,"mg":220,"over":true,"basis":"per_kg","labels":"us","cautions":[],"sources":["` + usSource + `"],` +
				`"others":[{"labels":"cautious","max_mg":200,"max_ml":10},{"labels":"uk","max_mg":200,"max_ml":10}]}`,
		},
		{
			"no age, no volume",
			Question{Patient{WeightG: 80_000, AgeCentiYears: -1}, "lidocaine", 1000, 0, -1, nil, Cautious},
			`{"agent":"lidocaine","percent":1,"adrenaline":"plain","weight_kg":80,"age_years":null,"mg_per_ml":10,"mg_per_kg":4.5,"cap_mg":200,` +
				`"max_mg":200,"max_ml":20,"volume_ml":null,"mg":null,"over":false,"basis":"cap","labels":"cautious","cautions":["You gave no age, so adult figures are used."],` +
				`"sources":["` + usSource + `","` + ukSource + `"],"others":[{"labels":"us","max_mg":300,"max_ml":30},{"labels":"uk","max_mg":200,"max_ml":20}]}`,
		},
		{
			"beside another, the UK SmPCs: 100/200 + 50/140, and the room of bupivacaine is 70 mg",
			Question{Patient{WeightG: 70_000, AgeCentiYears: 4000}, "bupivacaine", 250, 0, 200, []Injected{{"lidocaine", 1000, 0, 100}}, UK},
			`"over":false,"fraction_sum":0.857143,"basis":"per_kg"`,
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := reportJSON(t, test.q); got != test.want && !strings.Contains(got, test.want) {
				t.Errorf("got  %s\nwant %s", got, test.want)
			}
		})
	}
}

// X1: after 10 mL of lidocaine 1 %, half of the UK limit, bupivacaine 0.25 %
// has room for half of its 140 mg: 28.0 mL.
func TestRoom(t *testing.T) {
	q := Question{Patient{WeightG: 70_000, AgeCentiYears: adult}, "bupivacaine", 250, 0, 200, []Injected{{"lidocaine", 1000, 0, 100}}, UK}
	for _, tt := range []struct {
		besideDeciML int64
		want         cases.Milli
		over         bool
	}{{100, 28_000, false}, {250, 0, true}} { // 250 mg of 200: nothing is left
		q.With[0].VolumeDeciML = tt.besideDeciML
		a, err := Report(q)
		if err != nil || a.RoomML == nil || *a.RoomML != tt.want || a.Over != tt.over {
			t.Errorf("beside %d tenths of a mL: %+v, %v; want room for %s mL", tt.besideDeciML, a, err, tt.want)
		}
	}
}

// fraction_sum passes 1 exactly when over is true, however close it is.
func TestFractionSumNeverHidesOver(t *testing.T) {
	q := Question{Patient{WeightG: 66_666, AgeCentiYears: adult}, "lidocaine", 1000, 0, 200, []Injected{{"lidocaine", 1000, 0, 100}}, US}
	if got := reportJSON(t, q); !strings.Contains(got, `"over":true,"fraction_sum":1.000011`) {
		t.Errorf("got %s", got)
	}
	q.WeightG = 66_667
	if got := reportJSON(t, q); !strings.Contains(got, `"over":false,"fraction_sum":1.000000`) {
		t.Errorf("got %s", got)
	}
}

func TestReportNamesTheOtherRefusal(t *testing.T) {
	a, err := Report(Question{Patient{WeightG: 9_000, AgeCentiYears: 150}, "bupivacaine", 250, 0, 10, nil, UK})
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Others) != 0 || !slices.Contains(a.Cautions, "Another label refuses this: The US label does not advise bupivacaine under 12 years.") {
		t.Errorf("others %v, cautions %q", a.Others, a.Cautions)
	}
	var refusal *Refusal
	if _, err := Report(Question{Patient{WeightG: 9_000, AgeCentiYears: 150}, "bupivacaine", 250, 0, 10, nil, US}); !errors.As(err, &refusal) {
		t.Errorf("got %v, want a refusal", err)
	}
	if _, err := Report(Question{Patient{WeightG: 70_000, AgeCentiYears: adult}, "lidocaine", 1000, 0, 10, []Injected{{"articaine", 4000, 0, 10}}, US}); !errors.As(err, &refusal) {
		t.Errorf("a refused second agent gave %v", err)
	}
}

func TestCautions(t *testing.T) {
	lid := func(ratio, deci int64) Injected { return Injected{"lidocaine", 1000, ratio, deci} }
	for _, test := range []struct {
		name   string
		p      Patient
		list   []Injected
		labels Labels
		rules  []string
	}{
		{"a plain case has none", Patient{WeightG: 70_000, AgeCentiYears: 4000}, []Injected{lid(0, 50)}, Cautious, nil},
		{"no age", Patient{WeightG: 70_000, AgeCentiYears: -1}, []Injected{lid(0, 50)}, Cautious, []string{"dose-age-not-given"}},
		{"no age and light", Patient{WeightG: 39_999, AgeCentiYears: -1}, []Injected{lid(0, 50)}, Cautious, []string{"dose-age-not-given", "dose-light-without-age"}},
		{"70 years", Patient{WeightG: 70_000, AgeCentiYears: 7000}, []Injected{lid(0, 50)}, Cautious, []string{"dose-reduce-no-figure"}},
		{"69.99 years", Patient{WeightG: 70_000, AgeCentiYears: 6999}, []Injected{lid(0, 50)}, Cautious, nil},
		{"liver", Patient{WeightG: 70_000, AgeCentiYears: 4000, LiverDisease: true}, []Injected{lid(0, 50)}, Cautious, []string{"dose-reduce-no-figure"}},
		{"frail", Patient{WeightG: 70_000, AgeCentiYears: 4000, Frail: true}, []Injected{lid(0, 50)}, Cautious, []string{"dose-reduce-no-figure"}},
		{"a baby", Patient{WeightG: 6_000, AgeCentiYears: 40}, []Injected{{"mepivacaine", 1000, 0, 10}}, US, []string{"dose-infant-under-6-months", "dose-us-mepivacaine-plain-child"}},
		{"a cap alone in a light adult", Patient{WeightG: 42_000, AgeCentiYears: 4000}, []Injected{lid(200_000, 50)}, UK, []string{"dose-light-without-rate"}},
		{"a child's range", Patient{WeightG: 20_000, AgeCentiYears: 600}, []Injected{lid(0, 10)}, US, []string{"dose-us-lidocaine-plain-child"}},
		{"adrenaline 200 is not over", Patient{WeightG: 70_000, AgeCentiYears: 4000}, []Injected{lid(100_000, 200)}, Cautious, nil},
		{"adrenaline 201", Patient{WeightG: 70_000, AgeCentiYears: 4000}, []Injected{lid(100_000, 201)}, Cautious, []string{"dose-adrenaline-healthy"}},
		{"adrenaline 40 with heart disease", Patient{WeightG: 70_000, AgeCentiYears: 4000, HeartDisease: true}, []Injected{lid(100_000, 40)}, Cautious, nil},
		{"adrenaline 40.5 with heart disease", Patient{WeightG: 70_000, AgeCentiYears: 4000, HeartDisease: true}, []Injected{lid(200_000, 81)}, Cautious, []string{"dose-adrenaline-heart"}},
		{"one agent twice is no mixture", Patient{WeightG: 70_000, AgeCentiYears: 4000}, []Injected{lid(0, 50), lid(200_000, 50)}, Cautious, nil},
		{"two agents", Patient{WeightG: 70_000, AgeCentiYears: 4000}, []Injected{lid(0, 50), {"bupivacaine", 250, 0, 50}}, Cautious, []string{"dose-sum-of-fractions", "dose-mixing-not-advised"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, err := Evaluate(test.p, test.list, test.labels)
			if err != nil {
				t.Fatal(err)
			}
			var rules []string
			for _, c := range got.Cautions {
				rules = append(rules, c.Rule)
			}
			if !slices.Equal(rules, test.rules) {
				t.Errorf("got %v, want %v", rules, test.rules)
			}
		})
	}
}

// The customary adrenaline ceilings are reminders: they lower nothing.
func TestAdrenalineCustomLowersNothing(t *testing.T) {
	p := Patient{WeightG: 70_000, AgeCentiYears: adult}
	well, err := Ceiling(p, "lidocaine", 1000, 100_000, Cautious)
	if err != nil {
		t.Fatal(err)
	}
	p.HeartDisease = true
	ill, err := Ceiling(p, "lidocaine", 1000, 100_000, Cautious)
	if err != nil {
		t.Fatal(err)
	}
	if well.MaxDeciML != 490 || ill.MaxDeciML != 490 {
		t.Errorf("got %d and %d tenths of a mL, want 490 both times", well.MaxDeciML, ill.MaxDeciML)
	}
}

func TestAdrenalineSum(t *testing.T) {
	// 1:80,000 holds 12.5 micrograms in a mL: 1.7 mL hold 21.25, shown as 22.
	got, err := Fraction(Patient{WeightG: 70_000, AgeCentiYears: adult}, []Injected{{"lidocaine", 2000, 80_000, 17}}, UK)
	if err != nil {
		t.Fatal(err)
	}
	if got.AdrenalineMicroG != 22 {
		t.Errorf("got %d micrograms, want 22", got.AdrenalineMicroG)
	}
}

func TestTopical(t *testing.T) {
	const cream, gel = "lidocaine_prilocaine_cream", "tetracaine_gel"
	for _, test := range []struct {
		id      string
		agent   string
		weightG int64
		age     int64
		labels  Labels
		want    [4]int64 // thousandths of a g, cm2, minutes from, to
	}{
		// US label of the cream, its table by age and weight.
		{"W39: 5 months, 4.2 kg takes the row of the weight", cream, 4_200, 42, US, [4]int64{1000, 10, 0, 60}},
		{"W40: 14 months, 9 kg takes the row of the weight", cream, 9_000, 117, US, [4]int64{2000, 20, 0, 240}},
		{"5 months, 7 kg", cream, 7_000, 42, US, [4]int64{2000, 20, 0, 240}},
		{"exactly 5 kg is not over 5 kg", cream, 5_000, 42, US, [4]int64{1000, 10, 0, 60}},
		{"3 years, 14 kg", cream, 14_000, 300, US, [4]int64{10_000, 100, 0, 240}},
		{"9 years, 30 kg", cream, 30_000, 900, US, [4]int64{20_000, 200, 0, 240}},
		{"an adult, no US limit", cream, 70_000, adult, US, [4]int64{0, 0, 60, 0}},
		// UK leaflet of the cream, its table by age.
		{"1 month", cream, 4_000, 8, UK, [4]int64{1000, 10, 60, 60}},
		{"14 months", cream, 9_000, 117, UK, [4]int64{10_000, 100, 60, 300}},
		{"11 years", cream, 35_000, 1199, UK, [4]int64{20_000, 200, 60, 300}},
		{"12 years", cream, 35_000, 1200, UK, [4]int64{60_000, 600, 60, 300}},
		{"14 months, cautious", cream, 9_000, 117, Cautious, [4]int64{2000, 20, 60, 240}},
		{"an adult, cautious: only the UK label has a limit", cream, 70_000, -1, Cautious, [4]int64{60_000, 600, 60, 300}},
		// UK SmPC of the gel.
		{"gel at 2 years", gel, 12_000, 200, UK, [4]int64{1000, 30, 30, 45}},
		{"gel at 5 years, cautious", gel, 18_000, 500, Cautious, [4]int64{5000, 150, 30, 45}},
	} {
		t.Run(test.id, func(t *testing.T) {
			got, err := Topical(Patient{WeightG: test.weightG, AgeCentiYears: test.age}, test.agent, test.labels)
			if err != nil {
				t.Fatal(err)
			}
			if have := [4]int64{got.MaxMilliG, got.MaxAreaCM2, got.MinutesFrom, got.MinutesTo}; have != test.want {
				t.Errorf("got %v by %v, want %v", have, got.Rows, test.want)
			}
			if got.AgeAssumedAdult != (test.age < 0) {
				t.Errorf("AgeAssumedAdult is %v", got.AgeAssumedAdult)
			}
		})
	}
	var refusal *Refusal
	if _, err := Topical(Patient{WeightG: 4_000, AgeCentiYears: 5}, gel, Cautious); !errors.As(err, &refusal) || refusal.Row == nil {
		t.Errorf("the gel at 3 weeks gave %v, want its refusal", err)
	}
	if _, err := Topical(Patient{WeightG: 70_000, AgeCentiYears: adult}, gel, US); !errors.As(err, &refusal) || refusal.Row != nil {
		t.Errorf("the gel by the US labels gave %v, want silence", err)
	}
	var input *InputError
	if _, err := Topical(Patient{WeightG: 70_000, AgeCentiYears: adult}, "lidocaine", US); !errors.As(err, &input) {
		t.Errorf("an injected agent on the skin gave %v", err)
	}
}
