package screen

import (
	"fmt"
	"math"
	"reflect"
	"strings"

	"leastwatt/cases"
)

// Number is the value of a number editor; ok is false while it is open.
func (e *Editor) Number() (n cases.Milli, ok bool) { return numberAt(e.plan, e.ID) }

// Figure is the value as the dial shows it, "" while open.
func (e *Editor) Figure() string {
	n, ok := e.Number()
	if !ok {
		return ""
	}
	return e.row.figure(n)
}

// Unit is the unit beside the figure: "1 cycle", "2 cycles".
func (e *Editor) Unit() string {
	if n, ok := e.Number(); ok {
		return e.row.unitOf(n)
	}
	return e.row.Unit
}

// unitOf is the unit of a number: a whole word stands in the singular after 1.
func (r *phraseRow) unitOf(n cases.Milli) string {
	if n == 1000 && (r.Unit == "cycles" || r.Unit == "days") {
		return strings.TrimSuffix(r.Unit, "s")
	}
	return r.Unit
}

// unitTyped is the unit behind a number that is being typed.
func (r *phraseRow) unitTyped(text string) string {
	if text == "1" {
		return r.unitOf(1000)
	}
	return r.Unit
}

// Range says what may be typed: "0.1 to 35 W, by 0.1".
func (e *Editor) Range() string {
	text := fmt.Sprintf("%s to %s", e.row.least, quantity(e.row.most, e.row.Unit))
	if e.row.grain > 1 && e.row.grain != 1000 {
		text += ", by " + e.row.grain.String()
	}
	if e.row.grain == 1000 {
		text += ", whole numbers"
	}
	return text
}

// ArrowSays is what one arrow adds: "0.1", or "" where it goes by stops.
func (e *Editor) ArrowSays() string {
	if len(e.row.stops) > 0 {
		return ""
	}
	return e.row.arrow.String()
}

// Set gives the number a value. The error says what would be right.
func (e *Editor) Set(n cases.Milli) error {
	if n < e.row.least || n > e.row.most || n%e.row.grain != 0 {
		return fmt.Errorf("%s", e.Range())
	}
	slot(e.plan, e.ID, true).Set(reflect.ValueOf(&n))
	return nil
}

// Type reads a number as it was typed: a comma or a point, and perhaps the
// unit behind it. The error says what would be right.
func (e *Editor) Type(text string) error {
	text = strings.TrimSpace(text)
	for _, unit := range []string{e.row.Unit, e.row.unitOf(1000)} {
		text = strings.TrimSpace(strings.TrimSuffix(text, unit))
	}
	text = strings.TrimPrefix(strings.Replace(text, ",", ".", 1), "+")
	if strings.HasPrefix(text, ".") {
		text = "0" + text
	}
	text = strings.TrimSuffix(text, ".")
	n, err := cases.ParseMilli(text)
	if err != nil || strings.ContainsAny(text, "eE/_") {
		return fmt.Errorf("%s", e.Range())
	}
	return e.Set(n)
}

// TypePercent reads a share as per cent: "90" is 0.9.
func (e *Editor) TypePercent(text string) error {
	n, err := cases.ParseMilli(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")))
	if err != nil || n < 0 || n > 100_000 {
		return fmt.Errorf("0 to 100 %%")
	}
	return e.Set(n / 100)
}

// stepNumber goes by arrows, or from stop to stop.
func (e *Editor) stepNumber(by int) {
	n, ok := e.Number()
	switch {
	case !ok && e.ID == "confidence":
		n = 500 // neither sure nor unsure
	case !ok && len(e.row.stops) > 0:
		n = e.row.stops[0]
	case !ok:
		n = e.row.least
	case len(e.row.stops) > 0:
		n = e.stop(n, by)
	default:
		n = e.aligned(n, by)
	}
	_ = e.Set(min(max(n, e.row.least), e.row.most)) // always inside
}

// aligned moves to whole multiples of the arrow's step.
func (e *Editor) aligned(n cases.Milli, by int) cases.Milli {
	step := e.row.arrow
	switch off := n % step; {
	case off != 0 && by < 0:
		n += step - off
	case off != 0 && by > 0:
		n -= off
	}
	return n + cases.Milli(by)*step
}

// stop goes by stops; a value between two stops goes to the next one.
func (e *Editor) stop(n cases.Milli, by int) cases.Milli {
	stops := e.row.stops
	for ; by > 0; by-- {
		for _, s := range stops {
			if s > n {
				n = s
				break
			}
		}
	}
	for ; by < 0; by++ {
		for i := len(stops) - 1; i >= 0; i-- {
			if stops[i] < n {
				n = stops[i]
				break
			}
		}
	}
	return n
}

// At01 is where the value stands on the dial, 0 to 1; -1 while open.
func (e *Editor) At01() float64 {
	n, ok := e.Number()
	if !ok {
		return -1
	}
	return e.row.along(n)
}

// along maps a value to the dial. A curved dial goes by the square root, so
// that small values, which matter most, have more room.
func (r *phraseRow) along(n cases.Milli) float64 {
	f := float64(n-r.start()) / float64(r.most-r.start())
	f = math.Min(math.Max(f, 0), 1)
	if r.Curved {
		return math.Sqrt(f)
	}
	return f
}

// start is the left end of the dial: zero, or the least value where that is
// far from zero.
func (r *phraseRow) start() cases.Milli {
	if r.least*10 < r.most {
		return 0
	}
	return r.least
}

// SetFraction takes the value at a place on the dial, on its grid.
func (e *Editor) SetFraction(f float64) {
	r := e.row
	f = math.Min(math.Max(f, 0), 1)
	if r.Curved {
		f *= f
	}
	n := float64(r.start()) + f*float64(r.most-r.start())
	grid := r.arrow
	if len(r.stops) > 0 {
		grid = max(r.grain, 10)
	}
	v := cases.Milli(math.Round(n/float64(grid))) * grid
	_ = e.Set(min(max(v, r.least), r.most)) // always inside
}
