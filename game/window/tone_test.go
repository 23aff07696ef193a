package window

import (
	"math"
	"testing"
)

func samples(b []byte) []float64 {
	v := make([]float64, len(b)/2)
	for i := range v {
		v[i] = float64(int16(uint16(b[2*i])|uint16(b[2*i+1])<<8)) / 32767
	}
	return v
}

// The tone has the frequency asked for, begins and ends without a click, and
// is silent when there is none.
func TestTone(t *testing.T) {
	var s sine
	read := func(n int) []float64 {
		b := make([]byte, 2*n)
		if got, err := s.Read(b); got != len(b) || err != nil {
			t.Fatal(got, err)
		}
		return samples(b)
	}
	for _, v := range read(1000) {
		if v != 0 {
			t.Fatal("it sounds before the pedal is down")
		}
	}
	s.hz.Store(600)
	v := read(sampleRate / 2)
	ups, largest := 0, 0.0
	for i := 1; i < len(v); i++ {
		if v[i-1] < 0 && v[i] >= 0 {
			ups++
		}
		largest = math.Max(largest, math.Abs(v[i]-v[i-1]))
	}
	if ups < 298 || ups > 301 {
		t.Errorf("%d waves in half a second, want 300", ups)
	}
	if most := loudness * 2 * math.Pi * 600 / sampleRate * 1.1; largest > most {
		t.Errorf("a jump of %.3f, want at most %.3f", largest, most)
	}
	s.hz.Store(0)
	end := read(sampleRate / 10)
	for _, x := range end[sampleRate/50:] {
		if x != 0 {
			t.Fatal("it sounds on after 20 ms")
		}
	}
}
