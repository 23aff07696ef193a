package dose

import (
	"fmt"
	"math/big"
	"strconv"

	"leastwatt/cases"
)

// Question is what the command line asks: how much of one solution may the
// patient have, perhaps beside others already planned.
type Question struct {
	Patient
	Agent           string
	PercentMilli    int64
	AdrenalineRatio int64 // N of 1:N; 0: plain
	VolumeDeciML    int64 // planned; -1: none given
	With            []Injected
	Labels          Labels
}

// Answer is the dose report, in the order of its keys. Absent figures are
// null: an age not given, a rate or cap that no label states, a volume not
// planned.
type Answer struct {
	Agent       string       `json:"agent"`
	Percent     cases.Milli  `json:"percent"`
	Adrenaline  string       `json:"adrenaline"` // "plain" or "1:N"
	WeightKg    cases.Milli  `json:"weight_kg"`
	AgeYears    *cases.Milli `json:"age_years"`
	MgPerML     cases.Milli  `json:"mg_per_ml"`
	MgPerKg     *cases.Milli `json:"mg_per_kg"`
	CapMg       *cases.Milli `json:"cap_mg"`
	MaxMg       cases.Milli  `json:"max_mg"`
	MaxML       cases.Milli  `json:"max_ml"`
	VolumeML    *cases.Milli `json:"volume_ml"`
	Mg          *cases.Milli `json:"mg"`
	Over        bool         `json:"over"`
	FractionSum *Millionths  `json:"fraction_sum,omitempty"` // only beside others
	Basis       Basis        `json:"basis"`
	Labels      Labels       `json:"labels"`
	Cautions    []string     `json:"cautions"`
	Sources     []string     `json:"sources"`
	Others      []Other      `json:"others"`
	RoomML      *cases.Milli `json:"-"` // only beside others: what they leave of this solution
}

// Other is the limit by another label set, for information.
type Other struct {
	Labels Labels      `json:"labels"`
	MaxMg  cases.Milli `json:"max_mg"`
	MaxML  cases.Milli `json:"max_ml"`
}

// Millionths is a number from 0 up, in millionths.
type Millionths int64

// MarshalJSON writes the number as JSON with six decimals.
func (m Millionths) MarshalJSON() ([]byte, error) {
	return fmt.Appendf(nil, "%d.%06d", m/1_000_000, m%1_000_000), nil
}

// Report answers a question. fraction_sum is rounded up to six decimals, so
// that it passes 1 exactly when over is true. The errors are those of
// [Ceiling].
func Report(q Question) (*Answer, error) {
	limit, err := Ceiling(q.Patient, q.Agent, q.PercentMilli, q.AdrenalineRatio, q.Labels)
	if err != nil {
		return nil, err
	}
	planned := Injected{q.Agent, q.PercentMilli, q.AdrenalineRatio, max(q.VolumeDeciML, 0)}
	all, err := Evaluate(q.Patient, append([]Injected{planned}, q.With...), q.Labels)
	if err != nil {
		return nil, err
	}
	a := &Answer{
		Agent:      q.Agent,
		Percent:    cases.Milli(q.PercentMilli),
		Adrenaline: ratioText(q.AdrenalineRatio),
		WeightKg:   cases.Milli(q.WeightG),
		MgPerML:    cases.Milli(q.PercentMilli * 10),
		MgPerKg:    figure(limit.MgPerKgMicro),
		CapMg:      figure(limit.CapMicroG),
		MaxMg:      cases.Milli(limit.MaxMicroG),
		MaxML:      cases.Milli(limit.MaxDeciML * 100),
		Over:       all.Over,
		Basis:      limit.Basis,
		Labels:     q.Labels,
		Cautions:   []string{},
		Sources:    sources(all.Items),
		Others:     []Other{},
	}
	if q.AgeCentiYears >= 0 {
		a.AgeYears = pointer(cases.Milli(q.AgeCentiYears * 10))
	}
	if q.VolumeDeciML >= 0 {
		a.VolumeML = pointer(cases.Milli(q.VolumeDeciML * 100))
		a.Mg = pointer(cases.Milli(planned.DoseMicroG()))
	}
	if len(q.With) > 0 {
		a.FractionSum = pointer(Millionths(ceilTimes(all.FractionSum, 1_000_000)))
		a.RoomML = pointer(cases.Milli(room(all, limit, q) * 100))
	}
	for _, c := range all.Cautions {
		a.Cautions = append(a.Cautions, c.Text)
	}
	a.addOthers(q)
	return a, nil
}

// room is the volume in tenths of a mL that the others leave of the asked
// solution: its own largest volume, unrounded, times what is left of 1.
func room(all Result, limit Limit, q Question) int64 {
	left := new(big.Rat).Set(one)
	for _, other := range all.Items[1:] {
		left.Sub(left, other.Fraction)
	}
	b := limit.bounds
	largest := b.part(Injected{q.Agent, q.PercentMilli, q.AdrenalineRatio, 1}).rat()
	return floorTimes(left.Quo(left, largest), 1)
}

// addOthers adds the limit by the other label sets. A set that refuses has no
// limit to list, so its reason becomes a caution.
func (a *Answer) addOthers(q Question) {
	for _, l := range [3]Labels{Cautious, US, UK} {
		if l == q.Labels {
			continue
		}
		limit, err := Ceiling(q.Patient, q.Agent, q.PercentMilli, q.AdrenalineRatio, l)
		if err == nil {
			a.Others = append(a.Others, Other{l, cases.Milli(limit.MaxMicroG), cases.Milli(limit.MaxDeciML * 100)})
			continue
		}
		if refusal, ok := err.(*Refusal); ok && refusal.Row != nil && refusal.Row.Section == SectionInjected && l != Cautious {
			a.Cautions = append(a.Cautions, "Another label refuses this: "+refusal.Reason)
		}
	}
}

// sources lists the sources of every row read, each once.
func sources(items []Item) []string {
	var list []string
	for _, item := range items {
		for _, r := range item.Limit.Read {
			seen := false
			for _, s := range list {
				seen = seen || s == r.Source
			}
			if !seen {
				list = append(list, r.Source)
			}
		}
	}
	return list
}

func ratioText(ratio int64) string {
	if ratio == 0 {
		return "plain"
	}
	return "1:" + strconv.FormatInt(ratio, 10)
}

func figure(n int64) *cases.Milli {
	if n == 0 {
		return nil
	}
	return pointer(cases.Milli(n))
}

func pointer[T any](v T) *T { return &v }
