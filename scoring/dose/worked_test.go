package dose

import (
	"errors"
	"math/big"
	"strings"
	"testing"
)

// worked is a maximum dose that follows from a published label by hand. The
// source names that label; the row that set the limit must cite it too.
type worked struct {
	id      string
	agent   string
	percent int64 // thousandths
	ratio   int64
	weightG int64
	age     int64 // hundredths of a year
	labels  Labels
	maxMg   int64 // micrograms
	maxML   int64 // tenths
	basis   Basis
	source  string // found in the source of a binding row
}

const adult = 4000

var workedDoses = []worked{
	// Lidocaine, US label: 4.5 mg/kg and 300 mg plain, 7 mg/kg and 500 mg with epinephrine.
	{"W1", "lidocaine", 1000, 0, 50_000, adult, US, 225_000, 225, PerKg, "Food and Drug Administration"},
	{"W2 just under the cap", "lidocaine", 1000, 0, 66_000, adult, US, 297_000, 297, PerKg, "Food and Drug Administration"},
	{"W3 capped", "lidocaine", 1000, 0, 80_000, adult, US, 300_000, 300, Cap, "Food and Drug Administration"},
	{"W6 floor of 10.6425", "lidocaine", 2000, 0, 47_300, adult, US, 212_850, 106, PerKg, "Food and Drug Administration"},
	{"W7", "lidocaine", 1000, 100_000, 60_000, adult, US, 420_000, 420, PerKg, "Food and Drug Administration"},
	{"W8", "lidocaine", 1000, 200_000, 70_000, adult, US, 490_000, 490, PerKg, "Food and Drug Administration"},
	{"W9 capped", "lidocaine", 2000, 100_000, 95_000, adult, US, 500_000, 250, Cap, "Food and Drug Administration"},
	{"0.5 % plain", "lidocaine", 500, 0, 60_000, adult, US, 270_000, 540, PerKg, "Food and Drug Administration"},
	// US label, lean child over 3 years: 1.5 to 2 mg/lb; 3.3 mg/kg is the lower end.
	{"W12 child, lower end", "lidocaine", 1000, 0, 20_000, 600, US, 66_000, 66, PerKg, "Food and Drug Administration"},
	{"W14 child with adrenaline", "lidocaine", 1000, 200_000, 20_000, 600, US, 140_000, 140, PerKg, "Food and Drug Administration"},
	// UK SmPC lidocaine 1 %: 4.5 mg/kg, 200 mg from 12 years; with adrenaline 500 mg.
	{"W4 capped", "lidocaine", 1000, 0, 80_000, adult, UK, 200_000, 200, Cap, "summary of product characteristics"},
	{"W5 15 years", "lidocaine", 1000, 0, 40_000, 1500, UK, 180_000, 180, PerKg, "summary of product characteristics"},
	{"UK with adrenaline", "lidocaine", 2000, 200_000, 80_000, adult, UK, 500_000, 250, Cap, "summary of product characteristics"},
	// British National Formulary, 1 to 12 years: 3 mg/kg plain.
	{"W11 child", "lidocaine", 1000, 0, 20_000, 600, UK, 60_000, 60, PerKg, "British National Formulary"},
	// Cautious: the smaller rate and the smaller cap.
	{"W3 and W4, cautious", "lidocaine", 1000, 0, 80_000, adult, Cautious, 200_000, 200, Cap, "summary of product characteristics"},
	{"W12 and W11, cautious", "lidocaine", 1000, 0, 20_000, 600, Cautious, 60_000, 60, PerKg, "British National Formulary"},
	{"W7, cautious: only the US label has a rate", "lidocaine", 1000, 100_000, 60_000, adult, Cautious, 420_000, 420, PerKg, "Food and Drug Administration"},
	// Mepivacaine, US label: 400 mg; 5 to 6 mg/kg for a child.
	{"W17 capped", "mepivacaine", 1000, 0, 70_000, adult, US, 400_000, 400, Cap, "mepivacaine"},
	{"W19 child", "mepivacaine", 1000, 0, 12_000, 200, US, 60_000, 60, PerKg, "mepivacaine"},
	// US dental label of mepivacaine 3 %: 3 mg/lb, 400 mg.
	{"dental 3 %", "mepivacaine", 3000, 0, 50_000, adult, US, 330_000, 110, PerKg, "mepivacaine hydrochloride injection 3 %"},
	// UK SmPC mepivacaine 3 %: its own table gives 220 mg (7.3 mL) at 50 kg, 264 mg (8.8 mL) at 60 kg, 300 mg (10.0 mL) from 70 kg.
	{"SmPC table, 50 kg", "mepivacaine", 3000, 0, 50_000, adult, UK, 220_000, 73, PerKg, "mepivacaine hydrochloride 3 %"},
	{"SmPC table, 60 kg", "mepivacaine", 3000, 0, 60_000, adult, UK, 264_000, 88, PerKg, "mepivacaine hydrochloride 3 %"},
	{"SmPC table, 70 kg", "mepivacaine", 3000, 0, 70_000, adult, UK, 300_000, 100, Cap, "mepivacaine hydrochloride 3 %"},
	{"SmPC table, child of 20 kg", "mepivacaine", 3000, 0, 20_000, 500, UK, 60_000, 20, PerKg, "mepivacaine hydrochloride 3 %"},
	// Prilocaine, US dental label: 8 mg/kg under 70 kg, 600 mg above.
	{"W20", "prilocaine", 4000, 200_000, 60_000, adult, US, 480_000, 120, PerKg, "prilocaine"},
	{"W21 capped", "prilocaine", 4000, 0, 82_000, adult, US, 600_000, 150, Cap, "prilocaine"},
	// Prilocaine 1 %, UK SmPC 2022: 400 mg; 5 mg/kg from 6 months.
	{"W22 capped", "prilocaine", 1000, 0, 75_000, adult, UK, 400_000, 400, Cap, "prilocaine"},
	{"W23 child", "prilocaine", 1000, 0, 18_000, 500, UK, 90_000, 90, PerKg, "prilocaine"},
	// Bupivacaine: US label 175 and 225 mg; UK SmPC 2 mg/kg, 150 mg.
	{"W24", "bupivacaine", 500, 0, 60_000, adult, UK, 120_000, 240, PerKg, "bupivacaine"},
	{"W25 US", "bupivacaine", 250, 0, 90_000, adult, US, 175_000, 700, Cap, "bupivacaine"},
	{"W25 UK", "bupivacaine", 250, 0, 90_000, adult, UK, 150_000, 600, Cap, "bupivacaine"},
	{"W26 US", "bupivacaine", 250, 200_000, 80_000, adult, US, 225_000, 900, Cap, "bupivacaine"},
	{"W27 child", "bupivacaine", 250, 0, 9_000, 150, UK, 18_000, 72, PerKg, "bupivacaine"},
	// Formulary for children 2018-2019: adrenaline at most 5 micrograms/kg, here 45 micrograms in 4.5 mL of 1:100,000.
	{"adrenaline bounds", "bupivacaine", 250, 100_000, 9_000, 200, UK, 11_250, 45, Adrenaline, "Formulary for Children"},
	// Ropivacaine: US label, infiltration 200 mg; formulary, field block 200 mg of 0.2 % and 225 mg of 0.75 %.
	{"W28 US", "ropivacaine", 200, 0, 70_000, adult, US, 200_000, 1000, Cap, "ropivacaine"},
	{"W28 UK", "ropivacaine", 200, 0, 70_000, adult, UK, 200_000, 1000, Cap, "ropivacaine"},
	{"UK 0.75 %", "ropivacaine", 750, 0, 80_000, adult, UK, 225_000, 300, Cap, "ropivacaine"},
	// Articaine: US label 7 mg/kg, no cap; UK SmPC 500 mg, 385 mg in a child of 55 kg.
	{"W30 US", "articaine", 4000, 100_000, 72_000, adult, US, 504_000, 126, PerKg, "articaine"},
	{"W30 UK", "articaine", 4000, 100_000, 72_000, adult, UK, 500_000, 125, Cap, "articaine"},
	{"W30 cautious", "articaine", 4000, 100_000, 72_000, adult, Cautious, 500_000, 125, Cap, "articaine"},
	{"W31 floor of 3.85", "articaine", 4000, 200_000, 22_000, 600, US, 154_000, 38, PerKg, "articaine"},
	{"child of 60 kg", "articaine", 4000, 200_000, 60_000, 1100, UK, 385_000, 96, Cap, "articaine"},
	// Chloroprocaine, US label: 11 mg/kg, 800 mg.
	{"W32 floor of 35.75", "chloroprocaine", 2000, 0, 65_000, adult, US, 715_000, 357, PerKg, "chloroprocaine"},
	{"W33 capped", "chloroprocaine", 2000, 0, 78_000, adult, US, 800_000, 400, Cap, "chloroprocaine"},
	{"UK 2 %", "chloroprocaine", 2000, 0, 65_000, adult, UK, 715_000, 357, PerKg, "chloroprocaine"},
	// Procaine, US label: 350 to 600 mg.
	{"W34", "procaine", 1000, 0, 90_000, adult, US, 600_000, 600, Cap, "procaine"},
}

func TestWorkedDoses(t *testing.T) {
	for _, w := range workedDoses {
		t.Run(w.id, func(t *testing.T) {
			got, err := Ceiling(Patient{WeightG: w.weightG, AgeCentiYears: w.age}, w.agent, w.percent, w.ratio, w.labels)
			if err != nil {
				t.Fatal(err)
			}
			if got.MaxMicroG != w.maxMg || got.MaxDeciML != w.maxML || got.Basis != w.basis {
				t.Errorf("got %d ug, %d tenths of a mL by %s; want %d, %d by %s", got.MaxMicroG, got.MaxDeciML, got.Basis, w.maxMg, w.maxML, w.basis)
			}
			if len(got.Rows) == 0 || !strings.Contains(got.Rows[0].Source, w.source) {
				t.Errorf("the binding rows are %v; want one that cites %q", got.Rows, w.source)
			}
		})
	}
}

func TestRefusals(t *testing.T) {
	tests := []struct {
		id      string
		agent   string
		percent int64
		ratio   int64
		weightG int64
		age     int64
		labels  Labels
		rule    string // the row that refuses; "" when the labels are silent
	}{
		{"prilocaine at 5 months, UK SmPC 2022", "prilocaine", 1000, 0, 7_000, 42, UK, "dose-uk-prilocaine-under-6-months"},
		{"refused by one is refused", "prilocaine", 1000, 0, 7_000, 42, Cautious, "dose-uk-prilocaine-under-6-months"},
		{"articaine at 3 years, US label", "articaine", 4000, 100_000, 15_000, 300, US, "dose-us-articaine-under-4"},
		{"articaine at 3 years, UK SmPC", "articaine", 4000, 100_000, 15_000, 399, UK, "dose-uk-articaine-under-4"},
		{"bupivacaine at 11 years, US label", "bupivacaine", 250, 0, 35_000, 1199, US, "dose-us-bupivacaine-under-12"},
		{"W27 by both", "bupivacaine", 250, 0, 9_000, 150, Cautious, "dose-us-bupivacaine-under-12"},
		{"W19 at 2 %, by age", "mepivacaine", 2000, 0, 15_000, 299, US, "dose-us-mepivacaine-strong-under-3-years"},
		{"30 pounds, by weight", "mepivacaine", 2000, 0, 13_607, 400, US, "dose-us-mepivacaine-strong-under-30-lb"},
		{"mepivacaine 3 % at 3 years, UK SmPC", "mepivacaine", 3000, 0, 15_000, 300, UK, "dose-uk-mepivacaine-under-4-years"},
		{"ropivacaine at 17 years, US label", "ropivacaine", 200, 0, 60_000, 1700, US, "dose-us-ropivacaine-under-18"},
		{"chloroprocaine at 17 years, UK SmPC 2020", "chloroprocaine", 2000, 0, 60_000, 1799, UK, "dose-uk-chloroprocaine-under-18"},
		{"stock adrenaline", "lidocaine", 1000, 1000, 70_000, adult, Cautious, "dose-adrenaline-strength"},
		{"adrenaline too thin to count", "lidocaine", 1000, 1_000_000, 70_000, adult, US, "dose-adrenaline-strength"},
		{"a cap alone at 3.8 kg without an age", "ropivacaine", 200, 0, 3_800, -1, Cautious, "dose-cap-needs-age"},
		{"articaine comes with adrenaline only", "articaine", 4000, 0, 70_000, adult, Cautious, ""},
		{"procaine is not in the UK rows", "procaine", 1000, 0, 70_000, adult, UK, ""},
		{"lidocaine 4 % is not for injection into skin", "lidocaine", 4000, 0, 70_000, adult, Cautious, ""},
		{"lidocaine at 2 years, US label silent", "lidocaine", 1000, 0, 12_000, 250, US, ""},
		{"lidocaine at 6 months, silent on both", "lidocaine", 500, 0, 7_000, 50, Cautious, ""},
		{"lidocaine with adrenaline at 6 years, UK silent", "lidocaine", 1000, 200_000, 20_000, 600, UK, ""},
	}
	for _, test := range tests {
		t.Run(test.id, func(t *testing.T) {
			p := Patient{WeightG: test.weightG, AgeCentiYears: test.age}
			_, err := Ceiling(p, test.agent, test.percent, test.ratio, test.labels)
			var refusal *Refusal
			if !errors.As(err, &refusal) {
				t.Fatalf("got %v, want a refusal", err)
			}
			rule := ""
			if refusal.Row != nil {
				rule = refusal.Row.Rule
			}
			if rule != test.rule || refusal.Reason == "" {
				t.Errorf("refused by %q (%s), want %q", rule, refusal.Reason, test.rule)
			}
			if _, err := Fraction(p, []Injected{{test.agent, test.percent, test.ratio, 1}}, test.labels); !errors.As(err, &refusal) {
				t.Errorf("Fraction gave %v, want the refusal", err)
			}
		})
	}
}

// A silent label takes the other's figure, and the edge of a refusal is sharp.
func TestEdges(t *testing.T) {
	for _, test := range []struct {
		id      string
		agent   string
		percent int64
		ratio   int64
		weightG int64
		age     int64
		labels  Labels
		maxML   int64
	}{
		{"a cap alone at 30 kg without an age", "ropivacaine", 200, 0, 30_000, -1, Cautious, 1000},
		{"a cap and the other label's rate at 20 kg without an age", "lidocaine", 1000, 200_000, 20_000, -1, Cautious, 140},
		{"prilocaine at 6 months", "prilocaine", 1000, 0, 8_000, 50, UK, 40},
		{"articaine at 4 years", "articaine", 4000, 200_000, 16_000, 400, Cautious, 28},
		{"mepivacaine 2 % at 30 pounds and 3 years", "mepivacaine", 2000, 0, 13_608, 300, US, 34},
		{"mepivacaine 1.999 % under 30 pounds", "mepivacaine", 1999, 0, 10_000, 200, US, 25},
		{"procaine, only the US label", "procaine", 1000, 0, 90_000, adult, Cautious, 600},
		{"lidocaine at 2 years, only the UK formulary", "lidocaine", 1000, 0, 12_000, 250, Cautious, 36},
		{"ropivacaine 0.75 %, only the UK formulary", "ropivacaine", 750, 0, 80_000, adult, Cautious, 300},
		{"lidocaine the day before 12 years", "lidocaine", 1000, 0, 60_000, 1199, UK, 180},
		{"lidocaine at 12 years", "lidocaine", 1000, 0, 60_000, 1200, UK, 200},
	} {
		t.Run(test.id, func(t *testing.T) {
			got, err := Ceiling(Patient{WeightG: test.weightG, AgeCentiYears: test.age}, test.agent, test.percent, test.ratio, test.labels)
			if err != nil {
				t.Fatal(err)
			}
			if got.MaxDeciML != test.maxML {
				t.Errorf("got %d tenths of a mL, want %d", got.MaxDeciML, test.maxML)
			}
		})
	}
}

// The sums of fractions follow the additive rule of the American Academy of
// Pediatrics (Pediatrics 2019;143(6):e20191000) over label limits.
func TestSumOfFractions(t *testing.T) {
	lid := func(ratio, ml int64) Injected { return Injected{"lidocaine", 1000, ratio, ml * 10} }
	bup := func(percent, ml int64) Injected { return Injected{"bupivacaine", percent, 0, ml * 10} }
	for _, test := range []struct {
		id      string
		weightG int64
		labels  Labels
		list    []Injected
		sum     *big.Rat
		over    bool
	}{
		// X5: US 150/300 + 75/175; the UK label has 200 and 150 mg.
		{"X5 US", 80_000, US, []Injected{lid(0, 15), bup(500, 15)}, big.NewRat(13, 14), false},
		{"X5 UK", 80_000, UK, []Injected{lid(0, 15), bup(500, 15)}, big.NewRat(5, 4), true},
		// X2 at 60 kg, cautious: 200/420 + 75/120, over though each alone passes.
		{"X2", 60_000, Cautious, []Injected{lid(100_000, 20), bup(500, 15)}, big.NewRat(185, 168), true},
		// X1 at 70 kg by the UK SmPC: 100/200 + 50/140.
		{"X1 UK", 70_000, UK, []Injected{lid(0, 10), bup(250, 20)}, big.NewRat(6, 7), false},
		// X6 at 60 kg: 50/200 + 100/400 by UK SmPC.
		{"X6", 60_000, UK, []Injected{lid(0, 5), {"prilocaine", 1000, 0, 100}}, big.NewRat(1, 2), false},
		{"exactly 1 is not over", 80_000, US, []Injected{lid(0, 15), {"bupivacaine", 250, 0, 350}}, big.NewRat(1, 1), false},
		{"0.1 mL more is over", 80_000, US, []Injected{lid(0, 15), {"bupivacaine", 250, 0, 351}}, big.NewRat(701, 700), true},
		{"nothing", 80_000, US, nil, new(big.Rat), false},
	} {
		t.Run(test.id, func(t *testing.T) {
			p := Patient{WeightG: test.weightG, AgeCentiYears: adult}
			got, err := Evaluate(p, test.list, test.labels)
			if err != nil {
				t.Fatal(err)
			}
			if got.FractionSum.Cmp(test.sum) != 0 || got.Over != test.over {
				t.Errorf("got %s, over %v; want %s, %v", got.FractionSum.RatString(), got.Over, test.sum.RatString(), test.over)
			}
			share, err := Fraction(p, test.list, test.labels)
			if err != nil {
				t.Fatal(err)
			}
			if share.Over != test.over || share.Permille != ceilTimes(test.sum, 1000) {
				t.Errorf("Fraction gave %d permille, over %v; want %d, %v", share.Permille, share.Over, ceilTimes(test.sum, 1000), test.over)
			}
		})
	}
}

// X4: a child of 20 kg by the UK figures, 20/60 + 5/40.
func TestSumInChild(t *testing.T) {
	got, err := Evaluate(Patient{WeightG: 20_000, AgeCentiYears: 600}, []Injected{
		{"lidocaine", 1000, 0, 20}, {"bupivacaine", 250, 0, 20},
	}, UK)
	if err != nil {
		t.Fatal(err)
	}
	if want := big.NewRat(11, 24); got.FractionSum.Cmp(want) != 0 || got.Over {
		t.Errorf("got %s, over %v; want %s", got.FractionSum.RatString(), got.Over, want.RatString())
	}
}

// X3: a 1:1 premix of lidocaine 1 % and bupivacaine 0.5 % with adrenaline at
// 70 kg; with the cautious limits of 490 and 140 mg the most is 35.6 mL.
func TestPremix(t *testing.T) {
	p := Patient{WeightG: 70_000, AgeCentiYears: adult}
	premix := func(deci int64) []Injected {
		return []Injected{{"lidocaine", 500, 200_000, deci}, {"bupivacaine", 250, 200_000, deci}}
	}
	for deci, over := range map[int64]bool{356: false, 357: true} {
		got, err := Fraction(p, premix(deci), Cautious)
		if err != nil {
			t.Fatal(err)
		}
		if got.Over != over {
			t.Errorf("%d tenths of a mL: over is %v, want %v", deci, got.Over, over)
		}
	}
}

func TestInputErrors(t *testing.T) {
	ok := Patient{WeightG: 70_000, AgeCentiYears: adult}
	for _, test := range []struct {
		p       Patient
		agent   string
		percent int64
		labels  Labels
		want    string
	}{
		{Patient{WeightG: 0, AgeCentiYears: adult}, "lidocaine", 1000, US, "the weight is 0 kg; it must be from 0.5 to 400"},
		{Patient{WeightG: -1, AgeCentiYears: adult}, "lidocaine", 1000, US, "the weight is -0.001 kg"},
		{Patient{WeightG: 700_000, AgeCentiYears: adult}, "lidocaine", 1000, US, "the weight is 700 kg"},
		{Patient{WeightG: 70_000, AgeCentiYears: -2}, "lidocaine", 1000, US, "the age is -0.02 years"},
		{Patient{WeightG: 70_000, AgeCentiYears: 12_001}, "lidocaine", 1000, US, "the age is 120.01 years"},
		{ok, "lidocaine", 0, US, "the strength is 0 %"},
		{ok, "lidocaine", 20_001, US, "the strength is 20.001 %"},
		{ok, "cocaine", 1000, US, `the agent "cocaine" is unknown; it must be one of lidocaine, `},
		{ok, "tetracaine_gel", 4000, US, "put on the skin and not injected"},
		{ok, "lidocaine", 1000, "eu", `the label set is "eu"; it must be cautious, us or uk`},
	} {
		_, err := Ceiling(test.p, test.agent, test.percent, 0, test.labels)
		var input *InputError
		if !errors.As(err, &input) || !strings.Contains(err.Error(), test.want) {
			t.Errorf("got %v, want an input error with %q", err, test.want)
		}
	}
	for volume, want := range map[int64]string{-1: "the volume is -0.1 mL", 100_001: "the volume is 10000.1 mL"} {
		if _, err := Fraction(ok, []Injected{{"lidocaine", 1000, 0, volume}}, US); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
	if _, err := Fraction(ok, make([]Injected, 17), US); err == nil || !strings.Contains(err.Error(), "at most 16") {
		t.Errorf("17 injections gave %v", err)
	}
}
