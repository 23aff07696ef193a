package cases

import (
	"errors"
	"math/big"
	"strconv"
	"strings"
)

// Milli is a number in thousandths of its unit: a Milli of watts counts
// milliwatts. It is read from decimal text and never passes through a float.
type Milli int64

// ErrFine says that a number has more than three decimals.
var ErrFine = errors.New("at most three decimals are kept")

var errHuge = errors.New("the number is too large")

// ParseMilli reads a JSON number exactly. It fails with [ErrFine] when the
// number is not a whole count of thousandths, and when it is over a billion.
func ParseMilli(text string) (Milli, error) {
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		// An exponent of a few digits is all that a value here can need; a
		// longer one would only make big.Rat work for nothing.
		if e, err := strconv.Atoi(text[i+1:]); err != nil || e > 12 || e < -12 {
			return 0, errHuge
		}
	}
	if len(text) > 40 {
		return 0, ErrFine
	}
	q, ok := new(big.Rat).SetString(text)
	if !ok {
		return 0, errors.New("this is not a number")
	}
	q.Mul(q, big.NewRat(1000, 1))
	if !q.IsInt() {
		return 0, ErrFine
	}
	if n := q.Num(); n.IsInt64() && n.Int64() <= 1e12 && n.Int64() >= -1e12 {
		return Milli(n.Int64()), nil
	}
	return 0, errHuge
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
	n = (n + unit/2) / unit
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
