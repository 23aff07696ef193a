package check

import (
	"math"
	"testing"
)

// medium is a tissue of one constant kind.
type medium struct {
	kWmK    float64 // conductivity, W/(m K)
	rhoCJm3 float64 // density times specific heat, J/(m3 K)
}

// diffusivity in m2/s.
func (m medium) diffusivity() float64 { return m.kWmK / m.rhoCJm3 }

// length is the diffusion length 2 sqrt(alpha t) in m.
func (m medium) length(tS float64) float64 { return 2 * math.Sqrt(m.diffusivity()*tS) }

// ierfc is the first integral of the complementary error function, from x to
// infinity. Carslaw and Jaeger, Conduction of Heat in Solids, 2nd edition,
// Oxford 1959, appendix II.
func ierfc(x float64) float64 {
	return math.Exp(-x*x)/math.Sqrt(math.Pi) - x*math.Erfc(x)
}

// halfSpaceFluxK is the rise at depth zM after tS seconds of a steady flux
// qWm2 through the whole surface. Carslaw and Jaeger 1959, section 2.9.
func halfSpaceFluxK(m medium, qWm2, zM, tS float64) float64 {
	l := m.length(tS)
	return qWm2 * l / m.kWmK * ierfc(zM/l)
}

// discFluxAxisK is the rise on the axis at depth zM after tS seconds of a
// steady uniform flux qWm2 through a disc of radius aM, the rest of the
// surface insulated. Carslaw and Jaeger 1959, section 10.5.
func discFluxAxisK(m medium, qWm2, aM, zM, tS float64) float64 {
	l := m.length(tS)
	return qWm2 * l / m.kWmK * (ierfc(zM/l) - ierfc(math.Hypot(zM, aM)/l))
}

// discFluxK is the same at radius rM from the axis, by the Hankel integral of
// Carslaw and Jaeger 1959, section 10.5.
func discFluxK(m medium, qWm2, aM, rM, zM, tS float64) float64 {
	root := math.Sqrt(m.diffusivity() * tS)
	f := func(u float64) float64 { // u is the wave number times aM
		s := u / aM
		a := scaledErfc(-s*zM, zM/(2*root)-s*root)
		b := scaledErfc(s*zM, zM/(2*root)+s*root)
		return math.J0(s*rM) * math.J1(u) / u * (a - b)
	}
	// Near u = 0 the integrand is finite; far out it falls as u^-2 on the
	// surface, so the tail is cut where it is under 1e-5 of the whole.
	const du, last = 0.02, 4000
	n := int(last / du)
	sum := 0.0
	for i := range n {
		sum += f((float64(i)+0.5)*du) * du
	}
	return qWm2 * aM / (2 * m.kWmK) * sum
}

// scaledErfc is exp(e) erfc(x) without overflow for large x.
func scaledErfc(e, x float64) float64 {
	if x < 20 {
		return math.Exp(e) * math.Erfc(x)
	}
	return math.Exp(e-x*x) / (x * math.Sqrt(math.Pi)) * (1 - 1/(2*x*x))
}

// instantPointK is the rise at distance rM, tS seconds after qJ joules were
// set free at one point of the insulated surface of a half-space: twice the
// whole-space value. Carslaw and Jaeger 1959, section 10.2.
func instantPointK(m medium, qJ, rM, tS float64) float64 {
	d := 4 * m.diffusivity() * tS
	return 2 * qJ / (m.rhoCJm3 * math.Pow(math.Pi*d, 1.5)) * math.Exp(-rM*rM/d)
}

// instantDiscAxisK is the rise on the axis at depth zM, tS seconds after qJ
// joules were set free evenly over a disc of radius aM on the surface:
// instantPointK integrated over the disc (Carslaw and Jaeger 1959, 10.3).
func instantDiscAxisK(m medium, qJ, aM, zM, tS float64) float64 {
	d := 4 * m.diffusivity() * tS
	perAreaJ := qJ / (math.Pi * aM * aM)
	return 2 * perAreaJ / (m.rhoCJm3 * math.Sqrt(math.Pi*d)) * math.Exp(-zM*zM/d) * -math.Expm1(-aM*aM/d)
}

// steadyPointK is the rise at distance rM after pW watts have flowed for tS
// seconds into one point of the insulated surface of a half-space. Carslaw and
// Jaeger 1959, section 10.4.
func steadyPointK(m medium, pW, rM, tS float64) float64 {
	return pW / (2 * math.Pi * m.kWmK * rM) * math.Erfc(rM/m.length(tS))
}

// pennesC is the steady temperature at depth zM of a perfused slab of
// thickness dM whose bottom is at coreC, whose blood arrives at coreC and
// whose surface loses heat by hWm2K to ambientC. bloodWm3K is the perfusion
// times the blood's density and specific heat. The equation: Pennes, Journal
// of Applied Physiology 1948;1:93; its solution is elementary.
func pennesC(kWmK, bloodWm3K, dM, hWm2K, ambientC, coreC, zM float64) float64 {
	l := math.Sqrt(kWmK / bloodWm3K)
	a := hWm2K * (ambientC - coreC) / (hWm2K*math.Sinh(dM/l) + kWmK/l*math.Cosh(dM/l))
	return coreC + a*math.Sinh((dM-zM)/l)
}

// spreadingOhm is the resistance from a disc of radius aM on the insulated
// surface of a half-space to far away. Holm, Electric Contacts, 4th edition,
// Springer, Berlin 1967.
func spreadingOhm(sigmaSm, aM float64) float64 { return 1 / (4 * sigmaSm * aM) }

// hemisphereSteadyK is the steady rise at rM from a source P a/(2 pi r^4)
// outside the radius aM that gives no heat inwards: two integrations of the
// radial equation (Carslaw and Jaeger 1959, section 9.2 for the operator).
func hemisphereSteadyK(kWmK, pW, aM, rM float64) float64 {
	x := aM / rM
	return pW / (2 * math.Pi * aM * kWmK) * (x - x*x/2)
}

// stefanLambda is the root of the one-phase front: l exp(l^2) erf(l) =
// ste/sqrt(pi). The front stands at 2 l sqrt(alpha t). Carslaw and Jaeger
// 1959, section 11.2.
func stefanLambda(ste float64) float64 {
	lo, hi := 0.0, 5.0
	for range 200 {
		l := (lo + hi) / 2
		if l*math.Exp(l*l)*math.Erf(l) < ste/math.Sqrt(math.Pi) {
			lo = l
		} else {
			hi = l
		}
	}
	return lo
}

// localFrontM is the radius of the drying front of the source P a/(2 pi r^4)
// when no heat is conducted: each place dries when the source has given it
// dryingJm3. It follows from the source alone.
func localFrontM(pW, aM, dryingJm3, tS float64) float64 {
	return math.Pow(pW*aM*tS/(2*math.Pi*dryingJm3), 0.25)
}

// skin holds the constants that the worked numbers below use.
var skin = medium{kWmK: 0.37, rhoCJm3: 3.761e6}

// TestClosedForms holds the forms against worked numbers and against each
// other in limits where two of them must agree.
func TestClosedForms(t *testing.T) {
	const q, a = 5.09296e5, 0.25e-3 // 0.1 W over a disc of 0.25 mm
	tests := []struct {
		name      string
		got, want float64
		within    float64 // relative
	}{
		{"surface flux: (2q/k) sqrt(alpha t/pi)", halfSpaceFluxK(skin, 1e5, 0, 1), 2e5 / 0.37 * math.Sqrt(skin.diffusivity()/math.Pi), 1e-12},
		{"surface flux at 0.5 mm", halfSpaceFluxK(skin, 1e5, 0.5e-3, 1), 15.6, 0.01},
		{"wide disc equals whole surface", discFluxAxisK(skin, 1e5, 1, 0.2e-3, 1), halfSpaceFluxK(skin, 1e5, 0.2e-3, 1), 1e-12},
		{"disc, steady centre q a/k", discFluxAxisK(skin, q, a, 0, 1e8), q * a / 0.37, 1e-3},
		{"disc, centre after 1 s", discFluxAxisK(skin, q, a, 0, 1), 269, 0.01},
		{"disc on the axis by the integral", discFluxK(skin, q, a, 0, 0.1e-3, 0.5), discFluxAxisK(skin, q, a, 0.1e-3, 0.5), 1e-4},
		{"disc, steady edge 2 q a/(pi k)", discFluxK(skin, q, a, a, 0, 1e6), 2 * q * a / (math.Pi * 0.37), 3e-3},
		{"a small disc is a point", discFluxAxisK(skin, 1/(math.Pi*1e-12), 1e-6, 1e-3, 1), steadyPointK(skin, 1, 1e-3, 1), 1e-5},
		{"point, 1 W, 1 mm, 1 s", steadyPointK(skin, 1, 1e-3, 1), 10.4, 0.02},
		{"point, 1 J, 1 mm, at its peak", instantPointK(skin, 1, 1e-3, 1e-6/6/skin.diffusivity()), 2 * 0.0736 / (3.761e6 * 1e-9), 0.01},
		{"a small sudden disc is a point", instantDiscAxisK(skin, 1, 1e-6, 1e-3, 1), instantPointK(skin, 1, 1e-3, 1), 1e-5},
		{"sudden discs add up to a flux", sumOfDiscs(a, 0.1e-3, 0.5), discFluxAxisK(skin, 1/(math.Pi*a*a), a, 0.1e-3, 0.5), 1e-4},
		{"perfused slab, deep", pennesC(0.37, 7441, 0.1, 1e9, 100, 34, 2e-3) - 34, 66 * math.Exp(-2e-3/math.Sqrt(0.37/7441)), 1e-3},
		{"disc of 0.25 mm on dermis", spreadingOhm(0.3, a), 3333, 1e-3},
		{"hemisphere source at its radius: sigma V^2/(2k)", hemisphereSteadyK(0.5, 2*math.Pi*0.3*a*14*14, a, a), 58.8, 1e-3},
		{"front of small Stefan number", stefanLambda(0.0369), 0.135, 0.01},
		{"a front of the source alone", localFrontM(2*math.Pi, 1, 1, 16), 2, 1e-12},
	}
	for _, c := range tests {
		if math.Abs(c.got-c.want) > c.within*math.Abs(c.want) {
			t.Errorf("%s: %g, want %g within %g of it", c.name, c.got, c.want, c.within)
		}
	}
}

// sumOfDiscs is a flux of 1 W over a disc as a row of sudden discs.
func sumOfDiscs(aM, zM, tS float64) float64 {
	const n = 200000
	sum := 0.0
	for i := range n {
		ago := (float64(i) + 0.5) / n * tS
		sum += instantDiscAxisK(skin, tS/n, aM, zM, ago)
	}
	return sum
}
