package tissue

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestDamageTimes holds each set against its own constants worked by hand: the
// time to Omega = 1 at a steady temperature.
func TestDamageTimes(t *testing.T) {
	for _, c := range []struct {
		set   string
		kind  Kind
		tempC float64
		wantS float64
	}{
		{"henriques", Epidermis, 44, 1.63e4},
		{"henriques", Epidermis, 60, 0.190},
		{"henriques_si", Epidermis, 44, 8.68e4},
		{"weaver_stoll", Epidermis, 47, 350},
		{"weaver_stoll", Epidermis, 55, 3.16},
		{"takata", Reticular, 48, 955},
		{"takata", Reticular, 60, 0.207},
		{"mehta_wong", Epidermis, 50, 57.7},
		{"mehta_wong", Reticular, 50, 2.89e4},
		{"collagen", Reticular, 65, 11.5},
		{"collagen", Reticular, 70, 1.68},
	} {
		got := 1 / DamageByID(c.set).RatePerS(c.kind, c.tempC)
		if math.Abs(got-c.wantS) > 0.02*c.wantS {
			t.Errorf("%s, %v at %v C: %.4g s, want %.4g", c.set, c.kind, c.tempC, got, c.wantS)
		}
	}
}

// TestRateTable holds the table of a set against the set: within 0.1 % from
// 44 C up to the ceiling.
func TestRateTable(t *testing.T) {
	for _, id := range DamageIDs() {
		set := DamageByID(id)
		table := newRateTable(set.branches(Reticular))
		rapid.Check(t, func(r *rapid.T) {
			c := rapid.Float64Range(rateFromC, rateToC).Draw(r, "c")
			want := min(set.RatePerS(Reticular, c), ratePerSMax)
			near := math.Abs(c-50) < 0.1 || want > 0.9*ratePerSMax // a branch or the ceiling lies between two steps
			if got := float64(table.at(float32(c))); math.Abs(got-want) > 1e-3*want && !near {
				r.Fatalf("%s at %v C: %v, want %v", id, c, got, want)
			}
		})
	}
}
