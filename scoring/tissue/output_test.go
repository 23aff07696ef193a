package tissue

import (
	"math"
	"testing"
)

// TestMatchedLoad holds the load curve against P(R) = U^2 R/(R_i + R)^2, worked
// for 35 W and 1 kilo-ohm, with the way back taken out.
func TestMatchedLoad(t *testing.T) {
	o := outputByID("low")
	o.MatchedOhm, o.OpenPeakV, o.ReturnPF = 1000, 3000, 1e6
	for _, c := range []struct{ ohm, wantW float64 }{
		{100, 11.6}, {300, 24.9}, {500, 31.1}, {1000, 35}, {2000, 31.1}, {5000, 19.4}, {10000, 11.6},
	} {
		got, arc := o.drive(35, c.ohm, 0)
		if math.Abs(got-c.wantW) > 0.005*c.wantW || arc != 0 {
			t.Errorf("%v ohm: %.4g W and %v W of arc, want %v and none", c.ohm, got, arc, c.wantW)
		}
	}
}

// TestReturn is the reactance of 150 pF at half a megahertz: 2.1 kilo-ohm.
func TestReturn(t *testing.T) {
	if got := outputByID("low").returnOhm(); math.Abs(got-2122) > 1 {
		t.Errorf("the way back is %.5g ohm, want 2122", got)
	}
}

// TestStrike holds the spark's law against values of the fit for even plates
// (850 V at 0.1 mm, 2571 V at 0.5 mm, 4345 V at 1 mm) and looks at its sense.
func TestStrike(t *testing.T) {
	for _, c := range []struct{ gapMM, plateV float64 }{{0.1, 850}, {0.5, 2571}, {1, 4345}} {
		if got := strikeV(c.gapMM*1e-3, roomC); math.Abs(got-needleShare*c.plateV) > 0.01*got {
			t.Errorf("%v mm strikes at %.4g V, want %.4g", c.gapMM, got, needleShare*c.plateV)
		}
	}
	if strikeV(1e-6, roomC) != leastPeakV {
		t.Errorf("a gap of a micrometre strikes at %v V, want the least, %v", strikeV(1e-6, roomC), float64(leastPeakV))
	}
	if arcStrikesV(1e-6, 100) != leastArcV {
		t.Errorf("a crust of a micrometre is bridged at %v V, want the least, %v", arcStrikesV(1e-6, 100), float64(leastArcV))
	}
	if strikeV(1e-3, 1000) >= strikeV(1e-3, roomC) {
		t.Error("hot gas must strike at a lower voltage than cold gas")
	}
}
