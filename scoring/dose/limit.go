package dose

import (
	"fmt"
	"math/bits"
	"strings"

	"leastwatt/cases"
)

// Patient is what the arithmetic needs to know of a patient.
type Patient struct {
	WeightG       int64 // grams, 500 to 400,000
	AgeCentiYears int64 // hundredths of a year, 0 to 12,000; -1: not given, counts as adult
	HeartDisease  bool
	LiverDisease  bool
	Frail         bool
}

// Bounds of the inputs, so that no product below can overflow.
const (
	minWeightG       = 500
	maxWeightG       = 400_000
	maxAgeCentiYears = 12_000
	maxPercentMilli  = 20_000  // 20 %
	maxVolumeDeciML  = 100_000 // 10 L
	maxInjected      = 16

	adultCentiYears = 3_000 // an age that every label calls adult
	oldCentiYears   = 7_000 // our own choice: labels say "elderly" and give no age
	infantLimit     = 50    // 6 months
)

// Limit is the most that one label set allows one patient of one agent.
type Limit struct {
	MgPerKgMicro int64 // micrograms per kg; 0: no label figure
	CapMicroG    int64 // micrograms; 0: no label figure
	MaxMicroG    int64 // micrograms, rounded down
	MaxDeciML    int64 // tenths of a mL of this solution, rounded down
	Basis        Basis
	Rows         []*Row // the rows that set MaxMicroG
	Read         []*Row // the rows whose figures are in the limit

	AgeAssumedAdult bool

	bounds bounds
}

// Basis tells what set the limit.
type Basis string

// The bases.
const (
	PerKg      Basis = "per_kg"     // the rate times the weight
	Cap        Basis = "cap"        // the cap, whatever the weight
	Adrenaline Basis = "adrenaline" // a label's own limit on adrenaline
)

// Refusal says that a label set allows no dose at all. Row is the row that
// rules it out, or nil when no label gives a figure.
type Refusal struct {
	Agent  string
	Labels Labels
	Reason string
	Row    *Row
}

// Error gives the reason.
func (r *Refusal) Error() string { return r.Reason }

// InputError says which input is impossible and what would be possible.
type InputError struct{ Message string }

// Error gives the message.
func (e *InputError) Error() string { return e.Message }

func inputErrorf(format string, args ...any) error {
	return &InputError{fmt.Sprintf(format, args...)}
}

// Ceiling returns the most of one solution that a label set allows a patient.
// percentMilli is in thousandths of a percent (1 % is 1000); ratio is N of
// adrenaline 1:N, or 0 for plain. The error is a *[Refusal] when the labels
// rule it out or are silent, and an *[InputError] when an input is impossible.
//
// The limit is the smaller of rate times weight and cap, as product labels
// word it ("should not exceed 4.5 mg/kg, and in general not 300 mg").
func Ceiling(p Patient, agent string, percentMilli, ratio int64, l Labels) (Limit, error) {
	t := loaded()
	if err := checkPatient(p, l); err != nil {
		return Limit{}, err
	}
	b, err := t.bound(p, agent, percentMilli, ratio, l)
	if err != nil {
		return Limit{}, err
	}
	limit := Limit{
		MgPerKgMicro:    b.rateMicro,
		CapMicroG:       b.capMicro,
		MaxDeciML:       b.maxDeciML(percentMilli, ratio),
		AgeAssumedAdult: p.AgeCentiYears < 0,
		bounds:          b,
	}
	limit.MaxMicroG, limit.Basis = b.maxMicroG(percentMilli, ratio)
	limit.Rows = b.binding(limit.Basis)
	for _, r := range []*Row{b.rateRow, b.capRow, b.adrenalineRow} {
		limit.Read = appendRow(limit.Read, r)
	}
	return limit, nil
}

// bounds are the figures that hold for one patient and solution.
type bounds struct {
	rateMicro, capMicro       int64 // as in Limit
	adrenalineNanoPerKg       int64
	weightG                   int64
	rateRow, capRow           *Row
	adrenalineRow             *Row
	noteRows                  [2]*Row // the matching row of us and of uk, where read
	rateNano, capNano, mgNano int64   // rate times weight; cap; the smaller that exists
}

// bound finds the figures. It allocates only when it fails.
func (t *table) bound(p Patient, agent string, percentMilli, ratio int64, l Labels) (bounds, error) {
	rows := t.agents[agent]
	if rows == nil {
		return bounds{}, t.unknownAgent(agent)
	}
	if percentMilli < 1 || percentMilli > maxPercentMilli {
		return bounds{}, inputErrorf("the strength is %s %%; it must be over 0 and at most 20 %%", cases.Milli(percentMilli))
	}
	use := 0
	if ratio != 0 {
		use = 1
		if ratio < int64(t.strength.RatioFrom) || ratio > int64(t.strength.RatioTo) {
			return bounds{}, &Refusal{agent, l, fmt.Sprintf("Adrenaline 1:%d is not for the skin. %s", ratio, t.strength.Says), t.strength}
		}
	}
	b := bounds{weightG: p.WeightG}
	for set, name := range [2]Labels{US, UK} {
		if l != Cautious && l != name {
			continue
		}
		if r := match(rows.refusals[set][use], p, percentMilli); r != nil {
			return bounds{}, &Refusal{agent, l, r.Says, r}
		}
		r := match(rows.ceilings[set][use], p, percentMilli)
		if r == nil {
			continue
		}
		b.noteRows[set] = r
		take(&b.rateMicro, &b.rateRow, r.MgPerKg, r)
		take(&b.capMicro, &b.capRow, r.CapMg, r)
		take(&b.adrenalineNanoPerKg, &b.adrenalineRow, r.AdrenalineMicrogPerKg, r)
	}
	if b.rateRow == nil && b.capRow == nil {
		return bounds{}, &Refusal{agent, l, silence(p, agent, percentMilli, ratio, l), nil}
	}
	if b.rateRow == nil && p.AgeCentiYears < 0 && p.WeightG < int64(t.capNeedsAge.WeightBelowKg) {
		return bounds{}, &Refusal{agent, l, t.capNeedsAge.Says, t.capNeedsAge}
	}
	b.rateNano = b.rateMicro * p.WeightG
	b.capNano = b.capMicro * 1000
	b.mgNano = b.rateNano
	if b.rateRow == nil || b.capRow != nil && b.capNano < b.rateNano {
		b.mgNano = b.capNano
	}
	return b, nil
}

// take keeps the smaller of two figures; 0 is no figure.
func take(into *int64, row **Row, figure cases.Milli, r *Row) {
	if figure > 0 && (*row == nil || int64(figure) < *into) {
		*into, *row = int64(figure), r
	}
}

// match returns the first row that holds for the patient and the strength.
func match(rows []*Row, p Patient, percentMilli int64) *Row {
	age := cases.Milli(p.age() * 10)
	percent := cases.Milli(percentMilli)
	for _, r := range rows {
		if age >= r.AgeFromYears && below(age, r.AgeBelowYears) &&
			below(cases.Milli(p.WeightG), r.WeightBelowKg) &&
			percent > r.PercentOver && (r.PercentTo == 0 || percent <= r.PercentTo) {
			return r
		}
	}
	return nil
}

// age is the age in hundredths of a year, an adult's when it is not given.
func (p Patient) age() int64 {
	if p.AgeCentiYears < 0 {
		return adultCentiYears
	}
	return p.AgeCentiYears
}

// maxDeciML is the largest volume, in tenths of a mL, within every bound.
// A tenth of a mL holds percentMilli micrograms of the agent, and 10^8/ratio
// nanograms of adrenaline.
func (b *bounds) maxDeciML(percentMilli, ratio int64) int64 {
	volume := b.mgNano / (percentMilli * 1000)
	if b.adrenalineRow != nil {
		volume = min(volume, b.adrenalineNanoPerKg*b.weightG*ratio/100_000_000_000)
	}
	return volume
}

// maxMicroG is the limit in micrograms of the agent, rounded down, and what
// set it.
func (b *bounds) maxMicroG(percentMilli, ratio int64) (int64, Basis) {
	basis := Cap
	if b.rateRow != nil && b.mgNano == b.rateNano {
		basis = PerKg
	}
	most := b.mgNano / 1000
	if b.adrenalineRow != nil {
		hi, lo := bits.Mul64(uint64(b.adrenalineNanoPerKg*b.weightG*ratio), uint64(percentMilli))
		byAdrenaline, _ := bits.Div64(hi, lo, 100_000_000_000)
		if int64(byAdrenaline) < most {
			return int64(byAdrenaline), Adrenaline
		}
	}
	return most, basis
}

// binding returns the rows that set the limit: two when rate and cap meet.
func (b *bounds) binding(basis Basis) []*Row {
	switch {
	case basis == Adrenaline:
		return []*Row{b.adrenalineRow}
	case basis == Cap:
		return []*Row{b.capRow}
	case b.capRow != nil && b.capRow != b.rateRow && b.capNano == b.rateNano:
		return []*Row{b.rateRow, b.capRow}
	}
	return []*Row{b.rateRow}
}

// appendRow adds a row that is not nil and not yet there.
func appendRow(rows []*Row, r *Row) []*Row {
	if r == nil {
		return rows
	}
	for _, have := range rows {
		if have == r {
			return rows
		}
	}
	return append(rows, r)
}

func checkPatient(p Patient, l Labels) error {
	switch {
	case !l.Known():
		return inputErrorf("the label set is %q; it must be cautious, us or uk", l)
	case p.WeightG < minWeightG || p.WeightG > maxWeightG:
		return inputErrorf("the weight is %s kg; it must be from 0.5 to 400", cases.Milli(p.WeightG))
	case p.AgeCentiYears < -1 || p.AgeCentiYears > maxAgeCentiYears:
		return inputErrorf("the age is %s years; it must be from 0 to 120", cases.Milli(p.AgeCentiYears*10))
	}
	return nil
}

func (t *table) unknownAgent(agent string) error {
	if t.creams[agent] != nil {
		return inputErrorf("%s is put on the skin and not injected", spoken(agent))
	}
	return inputErrorf("the agent %q is unknown; it must be one of %s", agent, strings.Join(cases.Vocab.IDs("agent"), ", "))
}

// silence words why no label in the table gives a figure.
func silence(p Patient, agent string, percentMilli, ratio int64, l Labels) string {
	set := "No label in this table gives"
	if l != Cautious {
		set = "No " + strings.ToUpper(string(l)) + " label in this table gives"
	}
	with := "plain"
	if ratio != 0 {
		with = "with adrenaline"
	}
	age := "in an adult"
	if p.AgeCentiYears >= 0 {
		age = "at " + cases.Milli(p.AgeCentiYears*10).String() + " years"
	}
	return fmt.Sprintf("%s a limit for %s %s %%, %s, %s.", set, spoken(agent), cases.Milli(percentMilli), with, age)
}

// spoken is an agent's id as a sentence names it.
func spoken(agent string) string {
	for _, table := range [2]string{"agent", "topical_agent"} {
		if cases.Vocab.Has(table, agent) {
			return cases.Vocab.Label(table, agent, cases.UK)
		}
	}
	return agent
}
