package check

import (
	"math"
	"testing"
)

// line is a fine explicit finite-volume solution of one dimension, either
// along a depth or along the radius of a half-space in which all depends on
// the distance from one surface point alone. It marches enthalpy, so that a
// drying front needs no tracking. It shares nothing with the model.
type line struct {
	radial bool
	drM    float64
	n      int
	wet    medium
	dry    medium  // beyond boiling; used only with latentJm3 > 0
	boilC  float64 // where water leaves
	latJm3 float64 // heat to take all water away; 0 = nothing boils
	firstC float64
	bloodW float64 // perfusion times blood heat, W/(m3 K), to firstC

	wallC    float64 // temperature of the near end when wallHeld
	wallHeld bool
	sourceW  func(inM, outM float64) float64 // W/m3, mean over a shell; may be nil

	enthalpy, tempC, areaM2, volM3 []float64 // areaM2[i] is the inner face of i
}

// start lays the cells and sets them to firstC. The volumes are those of a
// hemispherical shell, or of a column of 1 m2.
func (l *line) start() {
	l.enthalpy, l.tempC = make([]float64, l.n), make([]float64, l.n)
	l.areaM2, l.volM3 = make([]float64, l.n+1), make([]float64, l.n)
	for i := range l.n + 1 {
		l.areaM2[i] = 1
		if l.radial {
			r := float64(i) * l.drM
			l.areaM2[i] = 2 * math.Pi * r * r
		}
	}
	for i := range l.n {
		in, out := float64(i)*l.drM, float64(i+1)*l.drM
		l.volM3[i] = l.drM
		if l.radial {
			l.volM3[i] = 2 * math.Pi / 3 * (out*out*out - in*in*in)
		}
		l.tempC[i] = l.firstC
	}
}

// run marches to tS. The far end is held at firstC.
func (l *line) run(tS float64) {
	alpha := l.wet.diffusivity()
	if l.latJm3 > 0 {
		alpha = math.Max(alpha, l.dry.diffusivity())
	}
	dt := 0.4 * l.drM * l.drM / (2 * alpha)
	if l.radial {
		dt /= 2 // the innermost cell has twice the exchange
	}
	steps := int(math.Ceil(tS / dt))
	dt = tS / float64(steps)
	source := make([]float64, l.n)
	for i := range l.n {
		if l.sourceW != nil {
			source[i] = l.sourceW(float64(i)*l.drM, float64(i+1)*l.drM)
		}
	}
	flow := make([]float64, l.n+1)
	for range steps {
		for i := 1; i < l.n; i++ {
			flow[i] = l.areaM2[i] * (l.tempC[i-1] - l.tempC[i]) / (l.drM / 2 * (1/l.k(i-1) + 1/l.k(i)))
		}
		flow[0] = 0
		if l.wallHeld {
			flow[0] = l.areaM2[0] * (l.wallC - l.tempC[0]) * l.k(0) / (l.drM / 2)
		}
		flow[l.n] = l.areaM2[l.n] * (l.tempC[l.n-1] - l.firstC) * l.k(l.n-1) / (l.drM / 2)
		for i := range l.n {
			gain := (flow[i]-flow[i+1])/l.volM3[i] + source[i] - l.bloodW*(l.tempC[i]-l.firstC)
			l.enthalpy[i] += dt * gain
			l.tempC[i] = l.temperature(l.enthalpy[i])
		}
	}
}

// wetness is the share of the water still in cell i.
func (l *line) wetness(i int) float64 {
	if l.latJm3 == 0 {
		return 1
	}
	over := l.enthalpy[i] - l.wet.rhoCJm3*(l.boilC-l.firstC)
	return math.Min(1, math.Max(0, 1-over/l.latJm3))
}

func (l *line) k(i int) float64 {
	if l.latJm3 == 0 {
		return l.wet.kWmK
	}
	w := l.wetness(i)
	return w*l.wet.kWmK + (1-w)*l.dry.kWmK
}

func (l *line) temperature(h float64) float64 {
	toBoil := l.wet.rhoCJm3 * (l.boilC - l.firstC)
	switch {
	case l.latJm3 == 0 || h < toBoil:
		return l.firstC + h/l.wet.rhoCJm3
	case h < toBoil+l.latJm3:
		return l.boilC
	}
	return l.boilC + (h-toBoil-l.latJm3)/l.dry.rhoCJm3
}

// at is the temperature at distance xM, straight between centres.
func (l *line) at(xM float64) float64 {
	p := xM/l.drM - 0.5
	if p <= 0 {
		return l.tempC[0]
	}
	i := int(p)
	f := p - float64(i)
	return l.tempC[i]*(1-f) + l.tempC[i+1]*f
}

// frontM is where the water left falls under a half, to a part of a cell.
func (l *line) frontM() float64 {
	x := 0.0
	for i := range l.n {
		x += (1 - l.wetness(i)) * l.drM
	}
	return x
}

// inverseFourth is the mean over a shell of P a/(2 pi r^4) outside aM.
func inverseFourth(pW, aM float64) func(inM, outM float64) float64 {
	return func(in, out float64) float64 {
		lo := math.Max(in, aM)
		if out <= lo {
			return 0
		}
		watts := pW * aM * (1/lo - 1/out)
		return watts / (2 * math.Pi / 3 * (out*out*out - in*in*in))
	}
}

// TestRadialSolution holds the fine line against closed forms.
func TestRadialSolution(t *testing.T) {
	t.Run("point source", func(t *testing.T) {
		const p, tS = 0.1, 0.5
		l := line{radial: true, drM: 10e-6, n: 600, wet: skin, firstC: 34}
		l.sourceW = func(in, out float64) float64 {
			if in > 0 {
				return 0
			}
			return p / (2 * math.Pi / 3 * out * out * out)
		}
		l.start()
		l.run(tS)
		for _, mm := range []float64{0.1, 0.3, 1} {
			got, want := l.at(mm*1e-3)-34, steadyPointK(skin, p, mm*1e-3, tS)
			if math.Abs(got-want) > 0.005*want {
				t.Errorf("%g mm: rise %g K, the closed form gives %g", mm, got, want)
			}
		}
	})
	t.Run("source falling with the fourth power", func(t *testing.T) {
		// The closed form is for a steady state with no way inwards; within
		// the radius the line has tissue, whose temperature is then even.
		const p, a, k = 0.05, 0.1e-3, 0.5
		m := medium{kWmK: k, rhoCJm3: 1e5} // light, so that it settles
		l := line{radial: true, drM: 10e-6, n: 200, wet: m, firstC: 37, sourceW: inverseFourth(p, a)}
		l.start()
		l.run(0.6)
		// The far end, held at 2 mm, takes away what it would be there.
		far := hemisphereSteadyK(k, p, a, 2e-3)
		for _, mm := range []float64{0.1, 0.2, 0.4} {
			got, want := l.at(mm*1e-3)-37, hemisphereSteadyK(k, p, a, mm*1e-3)-far
			if math.Abs(got-want) > 0.01*want {
				t.Errorf("%g mm: rise %g K, the closed form gives %g", mm, got, want)
			}
		}
	})
	t.Run("perfusion", func(t *testing.T) {
		const wall, blood = 100.0, 1e6
		l := line{drM: 10e-6, n: 600, wet: skin, firstC: 34, bloodW: blood, wallHeld: true, wallC: wall}
		l.start()
		l.run(20)
		for _, mm := range []float64{0.1, 0.5, 1} {
			got, want := l.at(mm*1e-3)-34, (wall-34)*math.Exp(-mm*1e-3/math.Sqrt(skin.kWmK/blood))
			if math.Abs(got-want) > 0.005*want {
				t.Errorf("%g mm: rise %g K, the closed form gives %g", mm, got, want)
			}
		}
	})
	t.Run("drying front", func(t *testing.T) {
		// Tissue at 100 C, dry layer 0.2 W/(m K), surface at 300 C.
		dry := medium{kWmK: 0.2, rhoCJm3: 6e5}
		const lat, tS = 1.63e9, 1.0
		l := line{drM: 5e-6, n: 120, wet: skin, dry: dry, boilC: 100, latJm3: lat, firstC: 100, wallHeld: true, wallC: 300}
		l.start()
		l.run(tS)
		want := stefanLambda(dry.rhoCJm3*200/lat) * dry.length(tS)
		if math.Abs(l.frontM()-want) > 0.02*want {
			t.Errorf("the front stands at %g m, the closed form gives %g", l.frontM(), want)
		}
	})
}
