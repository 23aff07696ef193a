package cases

import (
	"errors"
	"regexp"
	"strconv"
	"strings"
)

// Milli is a number in thousandths of its unit: a Milli of watts counts
// milliwatts. It is read from decimal text and never passes through a float.
type Milli int64

// ErrFine says that a number has more than three decimals.
var ErrFine = errors.New("at most three decimals are kept")

var (
	errHuge      = errors.New("the number is too large")
	errNotNumber = errors.New("this is not a number")
)

// maxMilli bounds what is read: a billion of any unit.
const maxMilli = Milli(1e12)

var numberForm = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?$`)

// ParseMilli reads a number written as in JSON, exactly. It fails with
// [ErrFine] when the number is not a whole count of thousandths and when it
// is over a billion; what it returns beside these errors is the nearest
// thousandth, or the billion, for use in a message.
func ParseMilli(text string) (Milli, error) {
	parts := numberForm.FindStringSubmatch(text)
	if parts == nil {
		return 0, errNotNumber
	}
	mantissa := strings.TrimPrefix(text[:len(text)-len(parts[3])], "-")
	whole, fraction, _ := strings.Cut(mantissa, ".")
	// The number is 0.digits times ten to the power of point.
	digits, point := whole+fraction, len(whole)
	for strings.HasPrefix(digits, "0") {
		digits, point = digits[1:], point-1
	}
	digits = strings.TrimRight(digits, "0")
	if digits == "" {
		return 0, nil
	}
	n, err := thousandths(digits, point+exponent(parts[3]))
	if text[0] == '-' {
		n = -n
	}
	return n, err
}

// exponent reads "e5"; one that no value of a case could need counts as the
// nearest that is out of reach all the same, whatever the digits before it.
func exponent(text string) int {
	if text == "" {
		return 0
	}
	const beyond = 2 * MaxFileBytes
	e, err := strconv.Atoi(strings.TrimPrefix(text[1:], "+"))
	switch {
	case text[1] == '-' && (err != nil || e < -beyond):
		return -beyond
	case err != nil || e > beyond:
		return beyond
	}
	return e
}

// thousandths gives 0.digits times ten to the power of point, in thousandths.
func thousandths(digits string, point int) (Milli, error) {
	kept := point + 3 // digits before the end of the thousandths
	switch {
	case kept > 13:
		return maxMilli, errHuge
	case kept < 0:
		return 0, ErrFine
	}
	var n Milli
	for i := range kept {
		n *= 10
		if i < len(digits) {
			n += Milli(digits[i] - '0')
		}
	}
	switch {
	case n > maxMilli, n == maxMilli && kept < len(digits):
		return maxMilli, errHuge
	case kept >= len(digits):
		return n, nil
	}
	if digits[kept] >= '5' {
		n++
	}
	return n, ErrFine
}

// String writes the number with as few decimals as it needs.
func (m Milli) String() string {
	sign, n := "", int64(m)
	if n < 0 {
		sign, n = "-", -n
	}
	s := strconv.FormatInt(n/1000, 10)
	if f := n % 1000; f != 0 {
		s += "." + strings.TrimRight(strconv.FormatInt(1000+f, 10)[1:], "0")
	}
	return sign + s
}

// Fixed writes the number with exactly the given decimals (0 to 3), rounding
// half away from zero.
func (m Milli) Fixed(decimals int) string {
	unit := int64(1)
	for i := decimals; i < 3; i++ {
		unit *= 10
	}
	sign, n := "", int64(m)
	if n < 0 {
		sign, n = "-", -n
	}
	if n = (n + unit/2) / unit; n == 0 {
		sign = ""
	}
	scale := 1000 / unit
	s := strconv.FormatInt(n/scale, 10)
	if decimals > 0 {
		s += "." + strconv.FormatInt(scale+n%scale, 10)[1:]
	}
	return sign + s
}

// MarshalJSON writes the number as JSON.
func (m Milli) MarshalJSON() ([]byte, error) { return []byte(m.String()), nil }

// Float is the number as a float64, for drawing only.
func (m Milli) Float() float64 { return float64(m) / 1000 }

// UnmarshalJSON reads what MarshalJSON wrote. Files that people write are read
// by the placed reader instead.
func (m *Milli) UnmarshalJSON(b []byte) error {
	v, err := ParseMilli(string(b))
	if err != nil {
		return err
	}
	*m = v
	return nil
}
