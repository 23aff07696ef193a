package cases

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseMilli(t *testing.T) {
	for text, want := range map[string]Milli{
		"0": 0, "-0": 0, "0.000": 0, "0e999999999999999999999": 0, "-0.0e-5": 0,
		"7": 7000, "7.1": 7100, "-7.125": -7125, "0.05": 50, "0.001": 1,
		"1e3": 1000000, "1E+3": 1000000, "25e-1": 2500, "0.5e1": 5000, "1000e-6": 1,
		"1000000000": 1e12, "-1000000000": -1e12, "1e9": 1e12,
		"1.000000000000000000000000000000000000000000000000": 1000,
		"0.000000000000000000000000000000000000000001e42":    1000,
		"100000000000000000000000000000000000000000000e-44":  1000,
	} {
		if got, err := ParseMilli(text); err != nil || got != want {
			t.Errorf("%s reads as %d thousandths, %v; want %d", text, got, err, want)
		}
	}
}

func TestParseMilliRefuses(t *testing.T) {
	for _, test := range []struct {
		text string
		near Milli
		err  error
	}{
		{"0.0001", 0, ErrFine},
		{"0.0005", 1, ErrFine},
		{"-0.0005", -1, ErrFine},
		{"7.1234", 7123, ErrFine},
		{"7.9996", 8000, ErrFine},
		{"1e-4", 0, ErrFine},
		{"1e-999999999", 0, ErrFine},
		{"1e-99999999999999999999", 0, ErrFine},
		{"999999999.9999", 1e12, ErrFine},
		{"1000000000.001", 1e12, errHuge},
		{"1000000000.0001", 1e12, errHuge},
		{"-1e10", -1e12, errHuge},
		{"1e999", 1e12, errHuge},
		{"-1e99999999999999999999", -1e12, errHuge},
		{"123456789012345678901234567890", 1e12, errHuge},
		{"", 0, errNotNumber},
		{"-", 0, errNotNumber},
		{"+1", 0, errNotNumber},
		{".5", 0, errNotNumber},
		{"5.", 0, errNotNumber},
		{"007", 0, errNotNumber},
		{"NaN", 0, errNotNumber},
		{"Inf", 0, errNotNumber},
		{"1/2", 0, errNotNumber},
		{"0x10", 0, errNotNumber},
		{"1_0", 0, errNotNumber},
		{"1e", 0, errNotNumber},
		{"1e1.5", 0, errNotNumber},
		{" 1", 0, errNotNumber},
		{"1,5", 0, errNotNumber},
		{"٣", 0, errNotNumber},
	} {
		if got, err := ParseMilli(test.text); !errors.Is(err, test.err) || got != test.near {
			t.Errorf("%s gives %d, %v; want %d, %v", test.text, got, err, test.near, test.err)
		}
	}
}

// A number of sixteen million digits must not take a fraction of a minute.
func TestParseMilliLong(t *testing.T) {
	if n, err := ParseMilli("0." + strings.Repeat("0", 1<<23) + "1"); n != 0 || !errors.Is(err, ErrFine) {
		t.Error(n, err)
	}
	if n, err := ParseMilli(strings.Repeat("9", 1<<23)); n != maxMilli || !errors.Is(err, errHuge) {
		t.Error(n, err)
	}
}

// Exact arithmetic on fractions is the outside check.
func TestParseMilliAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?(0|[1-9][0-9]{0,14})(\.[0-9]{1,14})?([eE][+-]?[0-9]{1,2})?`).Draw(t, "text")
		q, ok := new(big.Rat).SetString(text)
		if !ok {
			t.Fatalf("not a number: %q", text)
		}
		q.Mul(q, big.NewRat(1000, 1))
		bound := big.NewRat(int64(maxMilli), 1)
		n, err := ParseMilli(text)
		switch over := new(big.Rat).Abs(q).Cmp(bound) > 0; {
		case over && !errors.Is(err, errHuge):
			t.Fatalf("%s is over the bound: %d, %v", text, n, err)
		case over:
		case q.IsInt() && (err != nil || q.Num().Int64() != int64(n)):
			t.Fatalf("%s is %s thousandths, not %d, %v", text, q, n, err)
		case !q.IsInt() && !errors.Is(err, ErrFine):
			t.Fatalf("%s is too fine: %d, %v", text, n, err)
		}
		off := new(big.Rat).Sub(q, big.NewRat(int64(n), 1))
		if err == ErrFine && off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
			t.Fatalf("%s: the nearest is not %d", text, n)
		}
	})
}

func TestMilliRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Milli(rapid.Int64Range(-1e12, 1e12).Draw(t, "m"))
		back, err := ParseMilli(m.String())
		if err != nil || back != m {
			t.Fatalf("%d is written %s and read as %d, %v", m, m, back, err)
		}
		if json, err := m.MarshalJSON(); err != nil || string(json) != m.String() {
			t.Fatalf("as JSON %s, %v", json, err)
		}
	})
}

func TestMilliWritten(t *testing.T) {
	for _, test := range []struct {
		m                    Milli
		text, zero, one, two string
	}{
		{0, "0", "0", "0.0", "0.00"},
		{1, "0.001", "0", "0.0", "0.00"},
		{50, "0.05", "0", "0.1", "0.05"},
		{-50, "-0.05", "0", "-0.1", "-0.05"},
		{7100, "7.1", "7", "7.1", "7.10"},
		{999950, "999.95", "1000", "1000.0", "999.95"},
		{-1500, "-1.5", "-2", "-1.5", "-1.50"},
		{1000000, "1000", "1000", "1000.0", "1000.00"},
	} {
		if got := test.m.String(); got != test.text {
			t.Errorf("%d is written %q", test.m, got)
		}
		for decimals, want := range []string{test.zero, test.one, test.two} {
			if got := test.m.Fixed(decimals); got != want {
				t.Errorf("%d with %d decimals is %q, not %q", test.m, decimals, got, want)
			}
		}
	}
}
