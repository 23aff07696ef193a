package tissue

import (
	"math/rand/v2"
	"testing"
)

// TestVectorEqualsPlain holds the vector rows against the plain ones, bit for
// bit, on random numbers.
func TestVectorEqualsPlain(t *testing.T) {
	if !vector {
		t.Skip("this processor has no AVX")
	}
	r := rand.New(rand.NewPCG(1, 2))
	const row, plane, n = 42, 420, 32
	random := func() []float32 {
		s := make([]float32, 3*plane+100)
		for i := range s {
			s[i] = (r.Float32() - 0.3) * float32(r.IntN(1000))
		}
		return s
	}
	for round := range 200 {
		s := stencil{gx: random(), gy: random(), gz: random(), loss: random(), gain: random(), weight: random(), rowStep: row, planeStep: plane}
		if round%2 == 1 {
			s.gain = nil
		}
		u, a, b := random(), random(), random()
		copy(a, b)
		la, lb := lanes{}, lanes{}
		at := plane + row + 1 + r.IntN(8)
		s.marchRow(a, u, 0.37, at, n, &la)
		s.marchRowPlain(b, u, 0.37, at, n, &lb)
		if la != lb {
			t.Fatalf("round %d: lanes %v, plain %v", round, la, lb)
		}
		same(t, "march", a, b)
		s.marchAlike(t, u, at)
		s.flowRow(a, u, at, n)
		s.flowRowPlain(b, u, at, n)
		same(t, "flow", a, b)
	}
}

func same(t *testing.T, name string, a, b []float32) {
	t.Helper()
	for i := range a {
		if a[i] != b[i] {
			t.Fatalf("%s: %d is %v, plain %v", name, i, a[i], b[i])
		}
	}
}

// marchAlike holds the march of a plane all alike against the plain one.
func (s *stencil) marchAlike(t *testing.T, u []float32, at int) {
	t.Helper()
	k := layerFlow{across: 0.3, above: 0.2, below: 0.4, loss: 0.01, answer: 0.7}
	fill := func(v float32) []float32 {
		f := make([]float32, len(u))
		for i := range f {
			f[i] = v
		}
		return f
	}
	even := *s
	even.gx, even.gy, even.gz, even.loss, even.weight = fill(k.across), fill(k.across), fill(k.above), fill(k.loss), fill(k.answer)
	for i := at - 1 + s.planeStep; i < len(u); i++ {
		even.gz[i] = k.below
	}
	a, b := make([]float32, len(u)), make([]float32, len(u))
	la, lb := lanes{}, lanes{}
	plane := block{first: at, nx: 16, ny: 5, nz: 1}
	even.marchLayer(a, u, 0.37, plane, k, &la)
	even.marchLayerPlain(b, u, 0.37, plane, &lb)
	if la != lb {
		t.Fatalf("lanes of a plane all alike %v, plain %v", la, lb)
	}
	same(t, "plane all alike", a, b)
}

// forPlain runs something without the vector code.
func forPlain(run func()) {
	was := vector
	vector = false
	defer func() { vector = was }()
	run()
}
