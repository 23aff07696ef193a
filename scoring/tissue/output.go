package tissue

import (
	_ "embed"

	"leastwatt/cases"
)

//go:embed outputs.json
var outputsJSON []byte

// Output is one output of the electrosurgical unit: a source of voltage
// behind a resistance, whose current comes back through the capacitance of
// the patient's body to earth. It gives bursts, so that its peak voltage is
// far above its effective one.
type Output struct {
	ID            string
	MaxDialW      float64
	MatchedOhm    float64
	OpenPeakV     float64 // open circuit, at the dial's end
	ReturnPF      float64 // capacitance of the body to earth, pF
	FrequencyKHz  float64
	ArcV          float64 // burning voltage of a spark
	ArcFootShare  float64 // of a spark's heat that enters the tissue at its foot
	ArcCrustShare float64 // of a spark's heat that enters the crust it passes
	Source        string
}

var outputs = mustTable("outputs.json", outputsJSON, readOutputs)

// mustTable reads a built-in table; a fault in one is a fault of the program.
func mustTable[T any](file string, data []byte, read func(string, []byte) (T, error)) T {
	t, err := read(file, data)
	if err != nil {
		panic(err)
	}
	return t
}

func readOutputs(file string, data []byte) ([]Output, error) {
	s, rows := openTable(file, data, "outputs")
	var out []Output
	for i, v := range rows {
		o, ok := open(s, v, tableRow("outputs", i), "id", "max_dial_w", "matched_ohm", "open_peak_v", "return_pf", "frequency_khz", "arc_v", "arc_foot_share", "arc_crust_share", "source")
		if !ok {
			continue
		}
		var u Output
		o.needText(&u.ID, "id")
		o.needText(&u.Source, "source")
		o.needFloat(&u.MaxDialW, "max_dial_w", between{1, 500})
		o.needFloat(&u.MatchedOhm, "matched_ohm", between{10, 100000})
		o.needFloat(&u.OpenPeakV, "open_peak_v", between{10, 20000})
		o.needFloat(&u.ReturnPF, "return_pf", between{1, 1e6})
		o.needFloat(&u.FrequencyKHz, "frequency_khz", between{100, 5000})
		o.needFloat(&u.ArcV, "arc_v", between{10, 1000})
		o.needFloat(&u.ArcFootShare, "arc_foot_share", between{0, 1})
		o.needFloat(&u.ArcCrustShare, "arc_crust_share", between{0, 1})
		out = append(out, u)
	}
	if len(s.Faults) > 0 {
		return nil, s.Faults
	}
	return out, nil
}

// openTable reads a data file of this package: a note, and rows under one key.
func openTable(file string, data []byte, key string) (*cases.Sheet, []*cases.Value) {
	tree, faults := cases.ReadJSON(file, data)
	s := &cases.Sheet{File: file, Faults: faults}
	if tree == nil {
		return s, nil
	}
	o, ok := open(s, tree, "", "note", key)
	if !ok || o.need(key) == nil {
		return s, nil
	}
	return s, o.list(key, 1000)
}

func outputByID(id string) Output {
	for _, o := range outputs {
		if o.ID == id {
			return o
		}
	}
	return outputs[0]
}

// volts are the burst's effective voltage, its peak, and the share of the
// time that bursts last, for a dial setting. The dial is what a matched load
// would get: V^2/(4 R).
func (o Output) volts(dialW float64) (burstV, peakV, duty float64) {
	peakV = o.OpenPeakV * sqrt(min(dialW/o.MaxDialW, 1))
	burstV = peakV / sqrt(2)
	if burstV == 0 {
		return 0, 0, 0
	}
	return burstV, peakV, min(1, 4*o.MatchedOhm*dialW/square(burstV))
}

// returnOhm is the reactance of the way back.
func (o Output) returnOhm() float64 {
	return 1 / (2 * pi * o.FrequencyKHz * 1e3 * o.ReturnPF * 1e-12)
}

// drive gives the power that enters a tissue of that resistance, and what an
// arc of voltage arcV in row with it burns (0 for none). The arc is in phase
// with the current.
func (o Output) drive(dialW, tissueOhm, arcV float64) (tissueW, arcW float64) {
	burstV, _, duty := o.volts(dialW)
	r, x := o.MatchedOhm+tissueOhm, o.returnOhm()
	if burstV <= arcV {
		return 0, 0
	}
	// (I r + arcV)^2 + (I x)^2 = burstV^2, for I.
	a, half, c := square(r)+square(x), float64(r*arcV), square(burstV)-square(arcV)
	amps := (sqrt(square(half)+float64(a*c)) - half) / a
	return duty * square(amps) * tissueOhm, duty * amps * arcV
}

// tipPeakV is the peak voltage between tip and tissue while that resistance
// loads the unit.
func (o Output) tipPeakV(dialW, tissueOhm float64) float64 {
	_, peakV, _ := o.volts(dialW)
	return peakV * tissueOhm / sqrt(square(o.MatchedOhm+tissueOhm)+square(o.returnOhm()))
}
