package dose

import (
	"math/big"
	"math/bits"

	"leastwatt/cases"
)

// Injected is one agent and the visit's total volume of it.
type Injected struct {
	Agent           string
	PercentMilli    int64 // thousandths of a percent
	AdrenalineRatio int64 // N of 1:N; 0: plain
	VolumeDeciML    int64 // tenths of a mL
}

// DoseMicroG is the agent given, in micrograms.
func (in Injected) DoseMicroG() int64 { return in.VolumeDeciML * in.PercentMilli }

// adrenalineNanoG is the adrenaline given, in nanograms, rounded up: 1:N holds
// 1 g in N mL, which is 10^8/N nanograms in a tenth of a mL.
func (in Injected) adrenalineNanoG() int64 {
	if in.AdrenalineRatio == 0 {
		return 0
	}
	return (in.VolumeDeciML*100_000_000 + in.AdrenalineRatio - 1) / in.AdrenalineRatio
}

// Share is how much of the allowed dose a plan uses.
type Share struct {
	Over             bool  // the sum of fractions is more than 1, exactly
	Permille         int64 // the sum in thousandths, rounded up
	Binding          *Row  // what bounds the agent with the largest part; nil when nothing is given
	BindingItem      int   // its place in the list
	AdrenalineMicroG int64 // rounded up
	AgeAssumedAdult  bool
}

// Fraction is [Evaluate] for a grader: the same verdict without the rest, and
// without allocating unless it fails or the sum is within a billionth of a
// whole thousandth.
func Fraction(p Patient, list []Injected, l Labels) (Share, error) {
	var parts [maxInjected]part
	share, n, err := weigh(p, list, l, &parts)
	if err != nil {
		return Share{}, err
	}
	low, high := int64(0), int64(0)
	for _, f := range parts[:n] {
		low += f.billionths
		high += f.billionths
		if f.inexact {
			high++
		}
	}
	const whole, thousandth = 1_000_000_000, 1_000_000
	// The true sum is low, or strictly between low and high. Both ends give the
	// same answers almost always; if not, count exactly.
	if ceilDiv(low, thousandth) == ceilDiv(high, thousandth) && (low > whole) == (high > whole) {
		share.Permille, share.Over = ceilDiv(high, thousandth), high > whole
		return share, nil
	}
	sum := exactSum(parts[:n])
	share.Permille = ceilTimes(sum, 1000)
	share.Over = sum.Cmp(one) > 0
	return share, nil
}

// Result is what a list of injections means for one patient.
type Result struct {
	Items            []Item
	FractionSum      *big.Rat // exact
	Over             bool     // FractionSum > 1
	AdrenalineMicroG int64    // rounded up
	Binding          []*Row   // what bounds the agent with the largest part
	Cautions         []Caution
	AgeAssumedAdult  bool
}

// Item is one injection with its own limit.
type Item struct {
	Injected
	Limit    Limit
	Fraction *big.Rat // of its own limit, exact
}

// Evaluate weighs a list of injections together: each is divided by its own
// limit and the parts are added, because the harm of local anaesthetics adds
// up. The errors are those of [Ceiling].
func Evaluate(p Patient, list []Injected, l Labels) (Result, error) {
	var parts [maxInjected]part
	share, n, err := weigh(p, list, l, &parts)
	if err != nil {
		return Result{}, err
	}
	res := Result{AdrenalineMicroG: share.AdrenalineMicroG, AgeAssumedAdult: share.AgeAssumedAdult}
	for i, in := range list {
		limit, err := Ceiling(p, in.Agent, in.PercentMilli, in.AdrenalineRatio, l)
		if err != nil {
			return Result{}, err
		}
		res.Items = append(res.Items, Item{in, limit, parts[i].rat()})
	}
	if n > 0 {
		res.Binding = res.Items[share.BindingItem].Limit.Rows
	}
	res.FractionSum = exactSum(parts[:n])
	res.Over = res.FractionSum.Cmp(one) > 0
	res.Cautions = cautions(p, res.Items, res.AdrenalineMicroG, adrenalineNanoG(list))
	return res, nil
}

var one = big.NewRat(1, 1)

// part is one injection as a fraction of its limit.
type part struct {
	num, den   uint64
	billionths int64 // rounded down
	inexact    bool  // something was rounded away
}

func newPart(num, den uint64) part {
	hi, lo := bits.Mul64(num, 1_000_000_000)
	q, rest := bits.Div64(hi, lo, den)
	return part{num, den, int64(q), rest != 0}
}

func (f part) rat() *big.Rat {
	return new(big.Rat).SetFrac(new(big.Int).SetUint64(f.num), new(big.Int).SetUint64(f.den))
}

// more tells whether f is larger than g, exactly.
func (f part) more(g part) bool {
	fHi, fLo := bits.Mul64(f.num, g.den)
	gHi, gLo := bits.Mul64(g.num, f.den)
	return fHi > gHi || fHi == gHi && fLo > gLo
}

// weigh fills parts with one fraction per injection and returns what
// both callers need, and the number of parts.
func weigh(p Patient, list []Injected, l Labels, parts *[maxInjected]part) (Share, int, error) {
	t := loaded()
	if err := checkPatient(p, l); err != nil {
		return Share{}, 0, err
	}
	if len(list) > maxInjected {
		return Share{}, 0, inputErrorf("%d injections are listed; at most %d are read", len(list), maxInjected)
	}
	share := Share{AgeAssumedAdult: p.AgeCentiYears < 0}
	for i, in := range list {
		if in.VolumeDeciML < 0 || in.VolumeDeciML > maxVolumeDeciML {
			return Share{}, 0, inputErrorf("the volume is %s mL; it must be from 0 to 10000", cases.Milli(in.VolumeDeciML*100))
		}
		b, err := t.bound(p, in.Agent, in.PercentMilli, in.AdrenalineRatio, l)
		if err != nil {
			return Share{}, 0, err
		}
		parts[i] = b.part(in)
		if i == 0 || parts[i].more(parts[share.BindingItem]) {
			share.BindingItem = i
			_, basis := b.maxMicroG(in.PercentMilli, in.AdrenalineRatio)
			share.Binding = b.bindingRow(basis)
		}
	}
	share.AdrenalineMicroG = ceilDiv(adrenalineNanoG(list), 1000)
	return share, len(list), nil
}

// part is the injection's part of the mg limit, or of the label's adrenaline
// limit if that is the larger part.
func (b *bounds) part(in Injected) part {
	f := newPart(uint64(in.DoseMicroG()*1000), uint64(b.mgNano))
	if b.adrenalineRow == nil {
		return f
	}
	g := newPart(uint64(in.VolumeDeciML*100_000_000_000), uint64(in.AdrenalineRatio*b.adrenalineNanoPerKg*b.weightG))
	if g.more(f) {
		return g
	}
	return f
}

// bindingRow is the first row of binding, without allocating.
func (b *bounds) bindingRow(basis Basis) *Row {
	switch basis {
	case Adrenaline:
		return b.adrenalineRow
	case Cap:
		return b.capRow
	}
	return b.rateRow
}

// adrenalineNanoG is the adrenaline of a whole list, in nanograms.
func adrenalineNanoG(list []Injected) int64 {
	var sum int64
	for _, in := range list {
		sum += in.adrenalineNanoG()
	}
	return sum
}

func exactSum(parts []part) *big.Rat {
	sum := new(big.Rat)
	for _, f := range parts {
		sum.Add(sum, f.rat())
	}
	return sum
}

func ceilDiv(n, unit int64) int64 { return (n + unit - 1) / unit }

// ceilTimes is q times n, rounded up. q is not negative.
func ceilTimes(q *big.Rat, n int64) int64 {
	product := new(big.Rat).Mul(q, big.NewRat(n, 1))
	whole, rest := new(big.Int).QuoRem(product.Num(), product.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		return whole.Int64() + 1
	}
	return whole.Int64()
}

// floorTimes is q times n, rounded down, and 0 when q is negative.
func floorTimes(q *big.Rat, n int64) int64 {
	if q.Sign() <= 0 {
		return 0
	}
	product := new(big.Rat).Mul(q, big.NewRat(n, 1))
	return new(big.Int).Quo(product.Num(), product.Denom()).Int64()
}
