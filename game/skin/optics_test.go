package skin

import (
	"math"
	"testing"
)

// The spectral form of the model: 31 wavelengths, 400 to 700 nm.
//
// Haemoglobin: "Optical absorption of hemoglobin", Oregon Medical Laser
// Center, 1999, Portland (molar extinction, per cm per mole). Melanosome and
// baseline: "Skin optics", same place, 1998. Scattering: "Optical properties
// of biological tissues: a review", Physics in Medicine and Biology, 2013,
// Bristol. Colour matching: CIE 1931 2-degree observer; light D65.
var (
	oxyEps   = [31]float64{266232, 466840, 480360, 246072, 102580, 62816, 44480, 33209.2, 26629.2, 23684.4, 20932.8, 20035.2, 24202.4, 39956.8, 53236, 43016, 32613.2, 44496, 50104, 14400.8, 3200, 1506, 942, 610, 442, 368, 319.6, 294, 277.6, 276, 290}
	deoxyEps = [31]float64{223296, 303956, 407560, 528600, 413280, 103292, 23388.8, 16156.4, 14550, 16684, 20862, 25773.6, 31589.6, 39036.4, 46592, 53412, 53788, 45072, 37020, 28324.4, 14677.2, 9443.6, 6509.6, 5148.8, 4345.2, 3750.12, 3226.56, 2795.12, 2407.92, 2051.96, 1794.28}
	cieX     = [31]float64{.01431, .04351, .13438, .2839, .34828, .3362, .2908, .19536, .09564, .03201, .0049, .0093, .06327, .1655, .2904, .43345, .5945, .7621, .9163, 1.0263, 1.0622, 1.0026, .85445, .6424, .4479, .2835, .1649, .0874, .04677, .0227, .011359}
	cieY     = [31]float64{.000396, .00121, .004, .0116, .023, .038, .06, .09098, .13902, .20802, .323, .503, .71, .862, .954, .99495, .995, .952, .87, .757, .631, .503, .381, .265, .175, .107, .061, .032, .017, .00821, .004102}
	cieZ     = [31]float64{.06785, .2074, .6456, 1.3856, 1.74706, 1.77211, 1.6692, 1.28764, .81295, .46518, .272, .1582, .07825, .04216, .0203, .00875, .0039, .0021, .00165, .0011, .0008, .00034, .00019, .00005, .00002, 0, 0, 0, 0, 0, 0}
	d65      = [31]float64{82.75, 91.49, 93.43, 86.68, 104.86, 117.01, 117.81, 114.86, 115.92, 108.81, 109.35, 107.80, 104.79, 107.69, 104.41, 104.05, 100, 96.33, 95.79, 88.69, 90.01, 89.60, 87.70, 83.29, 83.70, 80.03, 80.21, 82.28, 78.28, 69.72, 71.61}
)

// spectral computes the colour of a whole epidermis over plain dermis by 31
// wavelengths, in double precision with the library's functions.
func spectral(melanin, blood, oxygen, deep float64) (r, g, b float64) {
	var x, y, z, white float64
	for i := range oxyEps {
		nm := 400 + 10*float64(i)
		mel := 6.6e11 * math.Pow(nm, -3.33) / 10
		base := (0.244 + 85.3*math.Exp(-(nm-154)/66.2)) / 10
		perMM := 2.303 * 150 / 64500 / 10
		whole := perMM * (oxygen*oxyEps[i] + (1-oxygen)*deoxyEps[i])
		pack := (1 - math.Exp(-whole*vesselMM)) / (whole * vesselMM)
		mus := 4.6 * (0.41*math.Pow(nm/500, -4) + 0.59*math.Pow(nm/500, -0.562))
		// Carotene and bilirubin: a weak yellow band.
		yellow := 0.25 * math.Exp(-math.Pow((nm-455)/40, 2))
		k, s := 2*(blood*whole*pack+base+yellow), 0.75*mus
		below := layer(k, s, dermisMM, backFat)
		if deep > 0 {
			// Melanin below a thin cover of dermis with little blood.
			below *= math.Exp(-deep * math.Pow(nm/550, -3.33))
			below = layer(2*(0.010*whole*pack+base), s, nestCoverMM*math.Min(1, 2.5*deep), below)
		}
		tau := 2 * (melanin*mel + base) * epidermisMM
		own := s * 0.25 * epidermisMM
		own /= 1 + own
		refl := own*math.Pow(1+tau/clumping, -clumping) +
			(1-own)*(1-own)*math.Pow(1+2*tau/clumping, -clumping)*below/(1-own*below)
		refl = 0.97 * (1 - backSurface) * refl / (1 - backSurface*refl)
		// Horn above all pigment sends a little back, more of it at the red end.
		refl = 0.98*refl + 0.0145 + 0.011*(nm-400)/300
		x, y, z = x+refl*cieX[i]*d65[i], y+refl*cieY[i]*d65[i], z+refl*cieZ[i]*d65[i]
		white += cieY[i] * d65[i]
	}
	x, y, z = x/white, y/white, z/white
	return 3.2404542*x - 1.5371385*y - 0.4985314*z, -0.969266*x + 1.8760108*y + 0.041556*z, 0.0556434*x - 0.2040259*y + 1.0572252*z
}

// layer is a Kubelka-Munk layer over a ground, in hyperbolic functions.
func layer(k, s, thickness, ground float64) float64 {
	a := 1 + k/s
	q := math.Sqrt(a*a - 1)
	sh, ch := math.Sinh(q*s*thickness), math.Cosh(q*s*thickness)
	back, through := sh/(a*sh+q*ch), q/(a*sh+q*ch)
	return back + through*through*ground/(1-ground*back)
}

// The three bands are a fit; over the whole range of skin they may stray from
// the spectral model by 0.7 on average and 2 at most (a just visible step is
// about 1 to 2).
func TestBandsFollowTheSpectralModel(t *testing.T) {
	var sum, worst float64
	n := 0
	for _, melanin := range []float64{0.004, 0.01, 0.02, 0.04, 0.08, 0.16, 0.3, 0.5} {
		for _, blood := range []float64{0.001, 0.005, 0.015, 0.03, 0.06, 0.15, 0.3, 0.7} {
			for _, oxygen := range []float64{0.2, 0.5, 0.75, 0.97} {
				r, g, b := spectral(melanin, blood, oxygen, 0)
				want := labOf(math.Max(r, 0), math.Max(g, 0), math.Max(b, 0))
				cr, cg, cb := tissue{melanin: float32(melanin), blood: float32(blood), oxygen: float32(oxygen), scatter: 1, epidermis: 1}.colour()
				got := labOf(float64(cr), float64(cg), float64(cb))
				d := math.Sqrt(math.Pow(got.L-want.L, 2) + math.Pow(got.A-want.A, 2) + math.Pow(got.B-want.B, 2))
				sum += d
				n++
				if d > worst {
					worst = d
				}
				if d > 2 {
					t.Errorf("melanin %g blood %g oxygen %g: bands %.1f, spectrum %.1f, difference %.1f", melanin, blood, oxygen, got, want, d)
				}
			}
		}
	}
	t.Logf("mean difference %.2f, worst %.2f over %d colours", sum/float64(n), worst, n)
	if mean := sum / float64(n); mean > 0.7 {
		t.Errorf("mean difference %.2f, want at most 0.7", mean)
	}
}

// Deep pigment turns skin blue-grey by the scatter of what covers it; the
// bands must follow the spectrum there too.
func TestDeepPigmentFollowsTheSpectralModel(t *testing.T) {
	for _, melanin := range []float64{0.006, 0.03, 0.09, 0.2} {
		for _, deep := range []float64{0.2, 0.6, 1.5, 3} {
			r, g, b := spectral(melanin, 0.02, 0.72, deep)
			want := labOf(r, g, b)
			cr, cg, cb := tissue{melanin: float32(melanin), blood: 0.02, oxygen: 0.72, scatter: 1, epidermis: 1, deep: float32(deep)}.colour()
			got := labOf(float64(cr), float64(cg), float64(cb))
			if d := math.Sqrt(math.Pow(got.L-want.L, 2) + math.Pow(got.A-want.A, 2) + math.Pow(got.B-want.B, 2)); d > 2 {
				t.Errorf("melanin %g deep %g: bands %.1f, spectrum %.1f, difference %.1f", melanin, deep, got, want, d)
			}
		}
	}
}

// The table for plain skin must agree with the formula it was filled from.
func TestPlainTableAgreesWithFormula(t *testing.T) {
	table := plainColours()
	for _, melanin := range []float32{0.0013, 0.009, 0.037, 0.11, 0.31} {
		for _, blood := range []float32{0.003, 0.013, 0.027, 0.08} {
			r, g, b := table.colour(melanin, blood)
			wr, wg, wb := tissue{melanin: melanin, blood: blood, oxygen: plainOxygen, scatter: 1, epidermis: 1}.colour()
			got, want := labOf(float64(r), float64(g), float64(b)), labOf(float64(wr), float64(wg), float64(wb))
			if math.Abs(got.L-want.L) > 0.15 || math.Abs(got.A-want.A) > 0.15 || math.Abs(got.B-want.B) > 0.15 {
				t.Errorf("melanin %g blood %g: table %.2f, formula %.2f", melanin, blood, got, want)
			}
		}
	}
}

func TestFastFunctions(t *testing.T) {
	for x := float32(-20); x < 20; x += 0.037 {
		if got, want := float64(exp32(x)), math.Exp(float64(x)); math.Abs(got/want-1) > 1e-4 {
			t.Fatalf("exp32(%g) = %g, want %g", x, got, want)
		}
	}
	for x := float32(1e-4); x < 1000; x *= 1.03 {
		if got, want := float64(log32(x)), math.Log(float64(x)); math.Abs(got-want) > 2e-4 {
			t.Fatalf("log32(%g) = %g, want %g", x, got, want)
		}
	}
	for a := 0.0; a < 1; a += 0.013 {
		x, y := float32(math.Cos(2*math.Pi*a)), float32(math.Sin(2*math.Pi*a))
		if got := float64(turnOf(x, y)); math.Abs(got-a) > 2e-3 && math.Abs(got-a) < 0.99 {
			t.Fatalf("turnOf at %g gives %g", a, got)
		}
	}
}

// A flush raises redness on every skin, far less on dark skin: the same light
// blood behind more melanin. Erythema is harder to see on dark skin ("Skin
// colour in dermatology", teaching from memory); here it follows from optics.
func TestFlushIsWeakerOnDarkSkin(t *testing.T) {
	rise := func(skinType int) float64 {
		plain := plainTissue(skinType)
		flushed := plain
		flushed.blood, flushed.oxygen = 0.06, 0.85
		r0, g0, b0 := plain.colour()
		r1, g1, b1 := flushed.colour()
		return labOf(float64(r1), float64(g1), float64(b1)).A - labOf(float64(r0), float64(g0), float64(b0)).A
	}
	light, dark := rise(2), rise(6)
	if light < 6 || dark < 1 || light < 1.8*dark {
		t.Errorf("redness rises by %.1f on type 2 and %.1f on type 6", light, dark)
	}
}
