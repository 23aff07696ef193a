package skin

// Fields is the state of a square of skin, one number per pixel and property,
// row by row. Drawing goes in two steps: fields first (baseSkin, then the
// lesion), colour last (shade). Whoever changes a field changes the picture in
// a way that is right on every skin type, since the colour is computed.
type Fields struct {
	grid
	Height    []float32 // surface, mm above the skin's mean level
	Melanin   []float32 // volume fraction of melanosomes in the epidermis
	Blood     []float32 // volume fraction of blood in the dermis
	Oxygen    []float32 // oxygen saturation of the blood, 0 to 1
	Scatter   []float32 // dermal scattering, 1 = plain skin
	Epidermis []float32 // 1 whole, 0 stripped
	Deep      []float32 // pigment or dark vessels seen through dermis, optical units
	Rough     []float32 // width of the shine, 0.12 wet to 0.55 dry
	Gloss     []float32 // strength of the shine, 1 = plain skin
	Stay      []float32 // share of the blood that a pressing glass cannot drive out
	Cover     Cover     // dead matter that hides the skin: horn, crust, blood, char
	Hair      []float32 // share hidden by hairs
	HairShade []float32 // share of light hairs take from the skin beneath
	HairTone  [3]float32
	Heat      *Heat // what a treatment has done to it; nil on untreated skin
}

// Cover is opaque or half-opaque matter on the skin with a colour of its own
// (linear sRGB reflectance, multiplied by Share).
type Cover struct {
	Share   []float32
	R, G, B []float32
}

// rgb is a linear sRGB reflectance.
type rgb [3]float32

// Colours of dead matter, linear sRGB. Engineering choices, judged by eye.
var (
	hornSilver = rgb{0.64, 0.53, 0.41}
	hornYellow = rgb{0.52, 0.305, 0.135}
	hornBrown  = rgb{0.27, 0.140, 0.062}
	hornDark   = rgb{0.090, 0.050, 0.027}
	hornGrey   = rgb{0.48, 0.355, 0.25}
	milkWhite  = rgb{0.74, 0.68, 0.56}
	sebum      = rgb{0.66, 0.49, 0.29}
	crustRed   = rgb{0.125, 0.040, 0.020}
	crustHoney = rgb{0.50, 0.29, 0.085}
	pusCream   = rgb{0.72, 0.66, 0.38}
	bloodFresh = rgb{0.175, 0.010, 0.010}
	bloodDry   = rgb{0.060, 0.012, 0.009}
)

func (c rgb) mix(d rgb, k float32) rgb {
	return rgb{lerp(c[0], d[0], k), lerp(c[1], d[1], k), lerp(c[2], d[2], k)}
}

func (c rgb) times(k float32) rgb { return rgb{c[0] * k, c[1] * k, c[2] * k} }

// plainStay is the share of plain skin's blood that stays under a glass.
const plainStay = 0.42

func newFields(g grid, t tissue) *Fields {
	return &Fields{
		grid:      g,
		Height:    g.plane(),
		Melanin:   g.filled(t.melanin),
		Blood:     g.filled(t.blood),
		Oxygen:    g.filled(t.oxygen),
		Scatter:   g.filled(t.scatter),
		Epidermis: g.filled(t.epidermis),
		Deep:      g.plane(),
		Rough:     g.filled(0.42),
		Gloss:     g.filled(1),
		Stay:      g.filled(plainStay),
		Cover:     Cover{Share: g.plane(), R: g.plane(), G: g.plane(), B: g.plane()},
		Hair:      g.plane(),
		HairShade: g.plane(),
	}
}

// cover lays matter of a colour over pixel i, hiding share k of what was there.
func (f *Fields) cover(i int, k float32, c rgb) {
	if k <= 0 {
		return
	}
	k = min(k, 1)
	v := &f.Cover
	v.Share[i] = v.Share[i]*(1-k) + k
	v.R[i] = v.R[i]*(1-k) + k*c[0]
	v.G[i] = v.G[i]*(1-k) + k*c[1]
	v.B[i] = v.B[i]*(1-k) + k*c[2]
}

// uncover takes share k of the matter off pixel i.
func (f *Fields) uncover(i int, k float32) {
	v := &f.Cover
	v.Share[i] *= 1 - k
	v.R[i] *= 1 - k
	v.G[i] *= 1 - k
	v.B[i] *= 1 - k
}

// tissueAt collects what the optics read at pixel i, within bounds that keep
// the formulas finite.
func (f *Fields) tissueAt(i int) tissue {
	t := tissue{
		melanin:   clamp(f.Melanin[i], 0, 0.9),
		blood:     clamp(f.Blood[i], 0.0005, 1),
		oxygen:    clamp(f.Oxygen[i], 0, 1),
		scatter:   clamp(f.Scatter[i], 0.15, 5),
		epidermis: clamp(f.Epidermis[i], 0, 1.2),
		deep:      clamp(f.Deep[i], 0, 5),
	}
	if f.Heat != nil {
		t.burn = f.Heat.at(i)
	}
	return t
}
