package tissue

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestExponential holds our exp and log against the standard library's.
func TestExponential(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		x := rapid.Float64Range(-690, 690).Draw(r, "x")
		if got, want := exp(x), math.Exp(x); math.Abs(got-want) > 4e-15*want {
			r.Fatalf("exp(%v) is %v, want %v", x, got, want)
		}
		y := rapid.Float64Range(1e-300, 1e300).Draw(r, "y")
		if got, want := log(y), math.Log(y); math.Abs(got-want) > 4e-15*max(1, math.Abs(want)) {
			r.Fatalf("log(%v) is %v, want %v", y, got, want)
		}
	})
	if exp(0) != 1 || exp(-1000) != 0 || log(1) != 0 {
		t.Errorf("exp(0) %v, exp(-1000) %v, log(1) %v; want 1, 0, 0", exp(0), exp(-1000), log(1))
	}
}
