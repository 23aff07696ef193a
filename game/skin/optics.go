package skin

import "sync"

// Skin colour by layers of light transport, in three bands.
//
// The dermis is a Kubelka-Munk layer 1.8 mm thick that holds blood; under it
// fat sends 45 % back. The epidermis above it is a filter of melanin with a
// little scatter of its own; 45 % of the light that comes up is turned back at
// the surface. Spectra behind the numbers: melanosome and baseline absorption
// (Oregon Medical Laser Center, "Skin optics", 1998, Portland), haemoglobin
// (the same centre, "Optical absorption of hemoglobin", 1999), scattering
// ("Optical properties of biological tissues: a review", Physics in Medicine
// and Biology, 2013, Bristol), vessels as packages of blood ("Therapeutic
// response during pulsed laser treatment of port-wine stains", Lasers in
// Medical Science, 1995), coupling of the layers ("Developing a predictive
// model of human skin colouring", SPIE, 1996). The bands are effective ones
// fitted to 31 wavelengths; optics_test.go computes those and compares.

// band holds one band's coefficients, per mm.
type band struct {
	melanosome float32 // absorption of pure melanosome
	epidermis  float32 // absorption of epidermis without melanin
	oxy, deoxy float32 // absorption of whole blood, 150 g/L
	dermis     float32 // absorption of bloodless dermis
	scatter    float32 // reduced scattering
	nestA      float32 // absorption of the thin cover over a deep nest
	nestS      float32 // its scattering times 0.75
	nestExp    float32 // extinction by one unit of deep pigment
	floor      float32 // sent back by horn above all pigment, a little warm
	burnt              // what heat adds
}

var bands = [3]band{
	{29.575, 0.04025, 0.6759, 5.4877, 0.04105, 4.1250, 0.0005, 2.088, 0.621, 0.02293, bakedRed},
	{48.748, 0.03206, 9.1871, 9.4634, 0.00658, 2.0693, 0.1104, 3.030, 1.038, 0.02213, bakedGreen},
	{93.917, 0.11410, 22.7513, 18.7000, 0.27094, 4.6605, 0.0747, 4.134, 1.981, 0.01741, bakedBlue},
}

// bandToLinear turns the three reflectances into linear sRGB (D65).
var bandToLinear = [3][3]float32{
	{0.90097, 0.09941, -0.00038},
	{0.00943, 0.80911, 0.18146},
	{-0.00130, -0.12254, 1.12384},
}

const (
	dermisMM    = 1.8
	epidermisMM = 0.07
	vesselMM    = 0.02 // width of the packages that hold the blood
	nestCoverMM = 0.13 // depth of deep pigment
	backFat     = 0.45 // share sent back by fat
	backSurface = 0.45 // share turned back inside at the surface
	clumping    = 1.8  // spread of the melanin path: clumped pigment shades less
)

// tissue is what the optics need to know of one spot.
type tissue struct {
	melanin   float32 // volume fraction of melanosomes in the epidermis
	blood     float32 // volume fraction of blood in the dermis
	oxygen    float32 // oxygen saturation of that blood, 0 to 1
	scatter   float32 // scattering as a multiple of plain skin's
	epidermis float32 // epidermis present, 1 whole, 0 stripped
	deep      float32 // pigment below the epidermis, optical units
	burn              // what heat has made of it; nothing on living skin
}

// colour gives the diffuse reflectance in linear sRGB, 0 to 1.
func (t tissue) colour() (r, g, b float32) {
	var v [3]float32
	for i := range bands {
		v[i] = bands[i].reflect(t)
	}
	m := &bandToLinear
	r = m[0][0]*v[0] + m[0][1]*v[1] + m[0][2]*v[2]
	g = m[1][0]*v[0] + m[1][1]*v[1] + m[1][2]*v[2]
	b = m[2][0]*v[0] + m[2][1]*v[1] + m[2][2]*v[2]
	return clamp(r, 0.003, 1), clamp(g, 0.003, 1), clamp(b, 0.003, 1)
}

// reflect gives the reflectance of the whole stack in one band.
func (b *band) reflect(t tissue) float32 {
	blood := t.oxygen*b.oxy + (1-t.oxygen)*b.deoxy
	if t.cooked > 0 {
		blood = lerp(blood, b.met, t.cooked)
	}
	// (1-exp(-x))/x for packaged blood; x stays under 0.5.
	x := blood * vesselMM
	packaged := blood * (1 - x*(0.5-x*(1.0/6-x*(1.0/24))))
	dead := t.absorbs(b)
	below := layerOver(2*(t.blood*packaged+b.dermis+dead), 0.75*t.scatter*b.scatter, dermisMM, backFat)
	if t.deep > 1e-3 {
		cover := 2 * (0.010*packaged + b.nestA)
		// A trace of pigment lies higher and has less skin over it.
		depth := nestCoverMM * min(1, 2.5*t.deep)
		below = layerOver(cover, b.nestS, depth, below*exp32(-t.deep*b.nestExp))
	}
	tau := 2 * (t.melanin*b.melanosome + b.epidermis + dead) * epidermisMM
	own := 0.75 * b.scatter * 0.25 * epidermisMM * t.epidermis
	if t.veil > 0 {
		own += t.veil * b.veil
	}
	own /= 1 + own
	once := exp32(-clumping * log32(1+tau/clumping))
	twice := exp32(-clumping * log32(1+2*tau/clumping))
	r := own*once + (1-own)*(1-own)*twice*below/(1-own*below)
	if t.poolMM > 0 {
		r = t.pool(b, r)
	}
	r = 0.97 * (1 - backSurface) * r / (1 - backSurface*r)
	if t.char > 0 || t.poolMM > 0 { // under carbon and blood no horn shines white
		return 0.98*r + b.floor*min(1, 0.35+0.65*t.epidermis)*(1-0.7*min(t.char, 1))*(1-0.85*smooth(0, 0.06, t.poolMM))
	}
	return 0.98*r + b.floor*min(1, 0.35+0.65*t.epidermis)
}

// layerOver is a Kubelka-Munk layer of absorption k and scatter s per mm over
// a ground that reflects share ground.
func layerOver(k, s, thicknessMM, ground float32) float32 {
	a := 1 + k/s
	q := sqrt32(a*a - 1)
	e := exp32(-2 * q * s * thicknessMM)
	den := 1 / (a*(1-e) + q*(1+e))
	r := (1 - e) * den
	if e < 1e-5 {
		return r
	}
	return r + 4*q*q*e*den*den*ground/(1-ground*r)
}

// plainTable holds the colour of whole, unmarked skin by melanin and blood, the
// one case that most pixels are.
type plainTable struct {
	v [tableN + 1][tableN + 1][3]float32
}

const (
	tableN      = 48
	plainOxygen = 0.76
)

// The table is even in the logarithm of both fractions, over these ends.
var (
	melaninLo, melaninHi = log32(0.001), log32(0.9)
	bloodLo, bloodHi     = log32(0.0008), log32(0.4)
)

var plainColours = sync.OnceValue(func() *plainTable {
	t := &plainTable{}
	for i := range t.v {
		for j := range t.v[i] {
			s := tissue{
				melanin: exp32(lerp(melaninLo, melaninHi, float32(i)/tableN)),
				blood:   exp32(lerp(bloodLo, bloodHi, float32(j)/tableN)),
				oxygen:  plainOxygen, scatter: 1, epidermis: 1,
			}
			t.v[i][j][0], t.v[i][j][1], t.v[i][j][2] = s.colour()
		}
	}
	return t
})

// colour looks up unmarked skin.
func (t *plainTable) colour(melanin, blood float32) (r, g, b float32) {
	x := clamp((log32(max(melanin, 1e-4))-melaninLo)*(tableN/(melaninHi-melaninLo)), 0, tableN-0.001)
	y := clamp((log32(max(blood, 1e-4))-bloodLo)*(tableN/(bloodHi-bloodLo)), 0, tableN-0.001)
	i, j := int(x), int(y)
	u, v := x-float32(i), y-float32(j)
	a, c := &t.v[i][j], &t.v[i][j+1]
	d, e := &t.v[i+1][j], &t.v[i+1][j+1]
	p, q, s, w := (1-u)*(1-v), (1-u)*v, u*(1-v), u*v
	return a[0]*p + c[0]*q + d[0]*s + e[0]*w, a[1]*p + c[1]*q + d[1]*s + e[1]*w, a[2]*p + c[2]*q + d[2]*s + e[2]*w
}

// plainTissue is unmarked skin of a type, 1 to 6. The melanin fractions were
// set so that the rendered skin falls in the colour class of the type by its
// individual typology angle ("Skin colour typology and suntanning pathways",
// International Journal of Cosmetic Science, 1991).
func plainTissue(skinType int) tissue {
	melanin := [...]float32{0.0012, 0.0096, 0.0185, 0.036, 0.086, 0.215}
	t := tissue{melanin: melanin[skinType-1], oxygen: plainOxygen, scatter: 1, epidermis: 1}
	// Measured redness stays near 10 to 12 as skin darkens, which takes more
	// blood under more melanin.
	t.blood = [...]float32{0.0115, 0.016, 0.017, 0.019, 0.022, 0.025}[skinType-1]
	return t
}
