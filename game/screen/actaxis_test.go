package screen

import (
	"testing"

	"pgregory.net/rapid"

	"leastwatt/game/bench"
)

// A long wait takes no more of the strip than a short pause; bursts keep their
// length; going there and back again comes to the same moment.
func TestActAxis(t *testing.T) {
	x := newActAxis([]bench.StripPiece{
		{Step: "injected", FromMS: 1000, ToMS: 1000},
		{Step: "waited", FromMS: 2000, ToMS: 482_000},
		{Step: "treated", FromMS: 490_000, ToMS: 492_000},
		{Step: "treated", FromMS: 500_000, ToMS: 504_000},
	}, 504_000)
	if got := x.length(); got != 1000+1000+3000+3000+2000+3000+4000 {
		t.Errorf("the strip is %d long", got)
	}
	two, four := x.place(492_000)-x.place(490_000), x.place(504_000)-x.place(500_000)
	if four != 2*two {
		t.Errorf("a burst of 2 s takes %v, one of 4 s %v", two, four)
	}
	if x.place(504_000) != 1 || x.place(0) != 0 {
		t.Errorf("from %v to %v", x.place(0), x.place(504_000))
	}
}

func TestActAxisGoesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []bench.StripPiece
		at := 0
		for range rapid.IntRange(0, 12).Draw(t, "pieces") {
			from := at + rapid.IntRange(1, 60_000).Draw(t, "pause")
			at = from + rapid.IntRange(0, 5000).Draw(t, "long")
			pieces = append(pieces, bench.StripPiece{Step: rapid.SampledFrom([]string{"treated", "wiped"}).Draw(t, "step"), FromMS: from, ToMS: at})
		}
		end := at + rapid.IntRange(1, 60_000).Draw(t, "end")
		x := newActAxis(pieces, end)
		last := -1.0
		for _, ms := range []int{0, end / 3, end / 2, end} {
			f := x.place(ms)
			if f < last || f < 0 || f > 1 {
				t.Fatalf("%d ms lies at %v, after %v", ms, f, last)
			}
			last = f
		}
		for _, p := range pieces {
			if back := x.moment(x.place(p.FromMS)); back < p.FromMS-250 || back > p.FromMS+250 {
				t.Errorf("%d ms comes back as %d; a millisecond of the strip stands for 200 at most", p.FromMS, back)
			}
		}
	})
}
