package verb

import (
	"errors"
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/dose"
)

// DoseFlags are the flags of the dose verb, as they were typed.
type DoseFlags struct {
	Agent, Percent, Adrenaline, WeightKG, AgeYears, VolumeML string
	With                                                     []string
}

// Dose reckons the most of an agent that a patient may have.
func Dose(s *Shell, f DoseFlags) int {
	q, err := f.question(s.Labels)
	if err != nil {
		return s.usage(err)
	}
	a, err := dose.Report(q)
	var refusal *dose.Refusal
	if errors.As(err, &refusal) {
		return s.invalid(cases.Faults{{File: "dose", Line: 1, Column: 1, Message: refusal.Reason}})
	}
	if err != nil {
		return s.usage(err)
	}
	if s.JSON {
		return s.printJSON(a)
	}
	return s.print(doseText(a))
}

func (f DoseFlags) question(labels string) (dose.Question, error) {
	if labels == "" {
		labels = string(dose.Cautious)
	}
	q := dose.Question{Agent: f.Agent, Labels: dose.Labels(labels), VolumeDeciML: -1}
	q.AgeCentiYears = -1
	if !cases.Vocab.Has("agent", f.Agent) {
		return q, fmt.Errorf("--agent: unknown agent %q%s", f.Agent, cases.Vocab.Suggest("agent", f.Agent))
	}
	percent, err := flagNumber("--percent", f.Percent, 1, 20000)
	if err != nil {
		return q, err
	}
	q.PercentMilli = int64(percent)
	if q.AdrenalineRatio, err = flagRatio("--adrenaline", f.Adrenaline); err != nil {
		return q, err
	}
	weight, err := flagNumber("--weight-kg", f.WeightKG, 500, 400000)
	if err != nil {
		return q, err
	}
	q.WeightG = int64(weight)
	if f.AgeYears != "" {
		age, err := flagNumber("--age-years", f.AgeYears, 0, 120000)
		if err != nil {
			return q, err
		}
		q.AgeCentiYears = int64(age / 10)
	}
	if f.VolumeML != "" {
		if q.VolumeDeciML, err = flagVolume("--volume-ml", f.VolumeML); err != nil {
			return q, err
		}
	}
	for _, w := range f.With {
		in, err := parseWith(w)
		if err != nil {
			return q, err
		}
		q.With = append(q.With, in)
	}
	return q, nil
}

// parseWith reads AGENT:PERCENT:1:N|plain:ML.
func parseWith(text string) (dose.Injected, error) {
	var in dose.Injected
	wrong := func(why string) error {
		return fmt.Errorf("--with %q: %s; write it like lidocaine:1:1:200000:5 or bupivacaine:0.5:plain:10", text, why)
	}
	parts := strings.Split(text, ":")
	ratio := ""
	switch {
	case len(parts) == 5 && parts[2] == "1":
		ratio = "1:" + parts[3]
	case len(parts) == 4 && parts[2] == "plain":
	default:
		return in, wrong("it does not name agent, percent, adrenaline and volume")
	}
	if in.Agent = parts[0]; !cases.Vocab.Has("agent", in.Agent) {
		return in, wrong(fmt.Sprintf("unknown agent %q%s", in.Agent, cases.Vocab.Suggest("agent", in.Agent)))
	}
	percent, err := flagNumber("its percent", parts[1], 1, 20000)
	if err != nil {
		return in, wrong(err.Error())
	}
	in.PercentMilli = int64(percent)
	if in.AdrenalineRatio, err = flagRatio("its adrenaline", ratio); err != nil {
		return in, wrong(err.Error())
	}
	if in.VolumeDeciML, err = flagVolume("its volume", parts[len(parts)-1]); err != nil {
		return in, wrong(err.Error())
	}
	return in, nil
}

func flagNumber(name, text string, low, up cases.Milli) (cases.Milli, error) {
	n, err := cases.ParseMilli(text)
	if errors.Is(err, cases.ErrFine) {
		return 0, fmt.Errorf("%s is %q; at most three decimals are read", name, text)
	}
	if err != nil || n < low || n > up {
		return 0, fmt.Errorf("%s is %q; it must be a number from %s to %s", name, text, low, up)
	}
	return n, nil
}

func flagVolume(name, text string) (int64, error) {
	n, err := flagNumber(name, text, 0, 1000000)
	if err != nil {
		return 0, err
	}
	if n%100 != 0 {
		return 0, fmt.Errorf("%s is %q; it goes in steps of 0.1", name, text)
	}
	return int64(n / 100), nil
}

func flagRatio(name, text string) (int64, error) {
	if text == "" || text == "plain" {
		return 0, nil
	}
	n, err := cases.ParseRatio(text)
	if err != nil {
		return 0, fmt.Errorf("%s is %q; %v", name, text, err)
	}
	return n, nil
}

func doseText(a *dose.Answer) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s %s %% %s, %s kg, %s labels\n", TrainingLine, a.Agent, a.Percent, a.Adrenaline, a.WeightKg, a.Labels)
	fmt.Fprintf(&b, "At most %s mg, %s mL (%s)\n", a.MaxMg, a.MaxML.Fixed(1), strings.ReplaceAll(string(a.Basis), "_", " "))
	if a.VolumeML != nil {
		verdict := "within the limit"
		if a.Over {
			verdict = "OVER the limit"
		}
		fmt.Fprintf(&b, "Planned: %s mL, %s mg: %s\n", a.VolumeML.Fixed(1), a.Mg, verdict)
	}
	if a.RoomML != nil {
		fmt.Fprintf(&b, "The others leave room for %s mL\n", a.RoomML.Fixed(1))
	}
	for _, o := range a.Others {
		fmt.Fprintf(&b, "%s labels: %s mg, %s mL\n", o.Labels, o.MaxMg, o.MaxML.Fixed(1))
	}
	for _, c := range a.Cautions {
		fmt.Fprintf(&b, "Caution: %s\n", c)
	}
	for _, c := range a.Sources {
		fmt.Fprintf(&b, "Source: %s\n", c)
	}
	return b.String()
}
