package skin

// Heat is what a treatment has made of the tissue, pixel by pixel. Like the
// other fields it holds causes, not colours: haemoglobin that has turned,
// protein that has browned, carbon, air in the horny layer, blood on top.
type Heat struct {
	Cooked []float32 // share of the haemoglobin that heat turned to methaemoglobin
	Brown  []float32 // protein browned by dry heat, optical units
	Char   []float32 // carbon, 0 none to 1 black
	Veil   []float32 // clefts of air and curdled protein in the outermost layer, 0 to 1
	PoolMM []float32 // depth of blood that lies on the surface
}

func newHeat(g grid) *Heat {
	return &Heat{Cooked: g.plane(), Brown: g.plane(), Char: g.plane(), Veil: g.plane(), PoolMM: g.plane()}
}

// here tells whether heat or blood has changed the colour of pixel i.
func (h *Heat) here(i int) bool {
	return h.Cooked[i] != 0 || h.Brown[i] != 0 || h.Char[i] != 0 || h.Veil[i] != 0 || h.PoolMM[i] != 0
}

func (h *Heat) at(i int) burn {
	return burn{
		cooked: clamp(h.Cooked[i], 0, 1), brown: clamp(h.Brown[i], 0, 6), char: clamp(h.Char[i], 0, 1.5),
		veil: clamp(h.Veil[i], 0, 1.5), poolMM: clamp(h.PoolMM[i], 0, 3),
	}
}

// clear forgets pixel i.
func (h *Heat) clear(i int) {
	h.Cooked[i], h.Brown[i], h.Char[i], h.Veil[i], h.PoolMM[i] = 0, 0, 0, 0, 0
}

// burn is the part of tissue that heat and bleeding change.
type burn struct{ cooked, brown, char, veil, poolMM float32 }

// burnt holds one band's coefficients of changed matter, per mm where no other
// unit is named.
type burnt struct {
	met   float32 // absorption of whole blood whose haemoglobin is methaemoglobin
	brown float32 // of protein browned by one unit
	veil  float32 // share that a full veil of air clefts adds to the outermost layer's scatter
	free  float32 // absorption of whole blood that lies free, not packed in vessels
	clot  float32 // the same once heat has turned it
	blood float32 // reduced scattering of whole blood
}

// Methaemoglobin: extinction about 3 at 600 to 650 nm, 6.5 at 500 to 570 nm
// and 10 to 15 at 430 to 470 nm, per mM of haem and cm ("Visible and near
// infrared absorption spectra of human and animal haemoglobin", VSP, Utrecht
// 2000: from memory), carried to the three bands by the ratio that the oxygenated
// form has there. It absorbs red seven times as much as fresh blood, and green
// less: hence brown. Browning absorbs blue most, as the melanoidins of roasted
// food do, and carbon everything alike: engineering choices, judged by eye. Reduced
// scattering of whole blood is 1 to 2 per mm ("Optical properties of biological
// tissues: a review", Physics in Medicine and Biology, 2013: from memory). Free
// blood absorbs as its band's mean does ("Optical absorption of hemoglobin",
// Oregon Medical Laser Center, 1999, Portland), not as vessels do, which shade
// themselves.
var (
	bakedRed   = burnt{met: 4.6, brown: 0.24, veil: 0.50, free: 1.5, clot: 4.7, blood: 1.25}
	bakedGreen = burnt{met: 6.6, brown: 0.80, veil: 0.47, free: 17, clot: 13, blood: 1.15}
	bakedBlue  = burnt{met: 24, brown: 2.1, veil: 0.43, free: 27, clot: 27, blood: 1.10}
)

const (
	carbonPerMM = 26  // absorption of charred tissue
	curdled     = 2.6 // blood that has curdled scatters so many times as much more
)

// absorbs is what browned protein and carbon add to the absorption, per mm.
func (t *tissue) absorbs(b *band) float32 {
	if t.brown == 0 && t.char == 0 {
		return 0
	}
	return t.brown*b.brown + t.char*carbonPerMM
}

// pool lays blood over a ground that reflects share r: a thin film reddens
// what is beneath, a tenth of a millimetre hides it.
func (t *tissue) pool(b *band, r float32) float32 {
	whole := lerp(b.free, b.clot, t.cooked)
	return layerOver(2*whole+2*t.absorbs(b), 0.75*b.burnt.blood*(1+curdled*t.cooked), t.poolMM, r)
}
