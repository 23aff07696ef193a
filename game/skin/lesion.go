package skin

// lesion is one thing on the skin: a crowd of warts is many lesions.
type lesion struct {
	x, y   float32 // centre, mm
	r      float32 // half the width, mm
	height float32 // above the skin as the case says, mm; 0 = the family's habit
	seed   uint64
	first  bool // the one the case is about
}

// painter changes the fields where a lesion lies.
type painter func(p *patch)

// family is how one family is drawn.
type family struct {
	paint painter
	reach float32  // how far the painter works, as a multiple of the radius
	extra float32  // and mm beyond that
	alone bool     // Count is not a number of separate lesions
	own   []string // features that paint draws by itself
}

// families lists every painter by the family id of the case vocabulary.
var families = map[string]family{
	"cherry_angioma":            {paint: paintCherry, reach: 1.3, extra: 0.4},
	"spider_angioma":            {paint: paintSpider, reach: 1.3, extra: 2},
	"venous_lake":               {paint: paintVenousLake, reach: 1.3, extra: 0.4},
	"facial_telangiectasia":     {paint: paintTelangiectasia, reach: 1.4, extra: 2, alone: true},
	"leg_veins":                 {paint: paintLegVeins, reach: 1.6, extra: 2, alone: true},
	"seborrhoeic_keratosis":     {paint: paintKeratosis, reach: 1.25, extra: 0.5, own: []string{"inflamed"}},
	"dermatosis_papulosa_nigra": {paint: paintPapulosa, reach: 1.3, extra: 0.4},
	"skin_tag":                  {paint: paintTag, reach: 1.6, extra: 1.2, own: []string{"inflamed", "bleeding"}},
	"common_wart":               {paint: paintCommonWart, reach: 1.3, extra: 0.4, own: []string{"inflamed"}},
	"filiform_wart":             {paint: paintFiliformWart, reach: 1.4, extra: 0.5},
	"plantar_wart":              {paint: paintPlantarWart, reach: 1.3, extra: 0.4},
	"periungual_wart":           {paint: paintPeriungualWart, reach: 1.3, extra: 0.4, own: []string{"inflamed"}},
	"genital_wart":              {paint: paintGenitalWart, reach: 1.3, extra: 0.4},
	"molluscum":                 {paint: paintMolluscum, reach: 1.3, extra: 0.4, own: []string{"inflamed"}},
	"pyogenic_granuloma":        {paint: paintGranuloma, reach: 1.4, extra: 0.6, own: []string{"bleeding", "ulcerated"}},
	"intradermal_naevus":        {paint: paintIntradermal, reach: 1.35, extra: 0.5, own: []string{"hair_bearing"}},
	"pigmented_suspicious":      {paint: paintSuspicious, reach: 1.5, extra: 0.5},
	"melanoma":                  {paint: paintMelanoma, reach: 1.6, extra: 0.5},
	"actinic_keratosis":         {paint: paintActinic, reach: 1.5, extra: 0.5},
	"scc_in_situ":               {paint: paintInSitu, reach: 1.4, extra: 0.5},
	"scc_invasive":              {paint: paintInvasive, reach: 1.6, extra: 1, own: []string{"ulcerated", "bleeding"}},
	"keratoacanthoma":           {paint: paintKeratoacanthoma, reach: 1.4, extra: 0.6},
	"bcc_superficial":           {paint: paintSuperficial, reach: 1.4, extra: 0.6},
	"bcc_nodular":               {paint: paintNodular, reach: 1.5, extra: 1, own: []string{"ulcerated", "bleeding"}},
	"bcc_infiltrative":          {paint: paintInfiltrative, reach: 1.6, extra: 1, own: []string{"ulcerated", "bleeding"}},
	"sebaceous_hyperplasia":     {paint: paintSebaceous, reach: 1.3, extra: 0.4},
	"syringoma":                 {paint: paintSyringoma, reach: 1.3, extra: 0.4},
	"milia":                     {paint: paintMilium, reach: 1.3, extra: 0.4},
	"dermatofibroma":            {paint: paintDermatofibroma, reach: 2.2, extra: 0.5},
	"keloid":                    {paint: paintKeloid, reach: 1.4, extra: 1, alone: true},
	"hypertrophic_scar":         {paint: paintHypertrophic, reach: 1.4, extra: 1, alone: true},
	"cutaneous_horn":            {paint: paintHorn, reach: 3.4, extra: 1},
	"wound_bleeding":            {paint: paintWound, reach: 2.3, extra: 2, own: []string{"bleeding", "ulcerated"}},
}

// crowds tells whether a family's Count means separate lesions.
func crowds(id string) bool { return !families[id].alone }

// paintLesions draws the lesion, and its fellows if there are several.
func paintLesions(c *canvas) {
	if c.s.Family == "" {
		return
	}
	f, known := families[c.s.Family]
	if !known {
		f = family{paint: paintPapule, reach: 1.3, extra: 0.4}
	}
	for _, l := range c.lesions(f) {
		reach := f.reach*l.r + f.extra
		if c.s.has("infected") {
			reach = max(reach, l.r+9)
		}
		if p := c.patch(l, reach); p != nil {
			f.paint(p)
			if len(c.s.Features) > 0 {
				f.signs(p)
			}
		}
	}
}

// lesions places the main lesion in the middle and its fellows around it.
func (c *canvas) lesions(f family) []lesion {
	r := float32(c.s.WidthMM) / 2
	h := min(float32(c.s.HeightMM), 5*r+0.5)
	main := lesion{r: r, height: h, seed: c.seed("lesion"), first: true}
	out := []lesion{main}
	count := min(c.s.Count, 150)
	if f.alone || count == 1 {
		return out
	}
	rnd := c.rng("crowd")
	field := min(2.0*r*sqrt32(float32(count))+1.5, 45)
	for tries := 0; len(out) < count && tries < 40*count; tries++ {
		x, y := rnd.between(-field, field), rnd.between(-field, field)
		k := rnd.between(0.45, 0.95)
		n := lesion{x: x, y: y, r: max(r*k, min(r, 0.4)), height: h * k, seed: mix64(main.seed + uint64(tries) + 1)}
		if x*x+y*y > field*field || touches(out, n) {
			continue
		}
		out = append(out, n)
	}
	return out
}

func touches(all []lesion, n lesion) bool {
	for _, o := range all {
		dx, dy, gap := o.x-n.x, o.y-n.y, (o.r+n.r)*1.15+0.2
		if dx*dx+dy*dy < gap*gap {
			return true
		}
	}
	return false
}

// patch is the part of the canvas around one lesion; its grid has its origin
// in the lesion's middle.
type patch struct {
	grid
	c        *canvas
	l        lesion
	col, row int // where the patch begins on the canvas
}

// patch cuts the square within reach mm of a lesion's middle, or nil if that
// lies outside the picture.
func (c *canvas) patch(l lesion, reach float32) *patch {
	x0, x1 := c.span(l.x, reach, c.x0, c.w)
	y0, y1 := c.span(l.y, reach, c.y0, c.h)
	if x1-x0 < 2 || y1-y0 < 2 {
		return nil
	}
	g := grid{w: x1 - x0, h: y1 - y0, px: c.px, x0: c.x(x0) - l.x, y0: c.y(y0) - l.y}
	return &patch{grid: g, c: c, l: l, col: x0, row: y0}
}

// each visits every pixel: k is its place in the patch's planes, i in the
// canvas's, x and y its distance from the lesion's middle in mm.
func (p *patch) each(fn func(k, i int, x, y float32)) {
	p.rows(func(y0, y1 int) {
		for row := y0; row < y1; row++ {
			y := p.y(row)
			i := (p.row+row)*p.c.w + p.col
			for col := range p.w {
				fn(row*p.w+col, i+col, p.x(col), y)
			}
		}
	})
}

// eachCell visits every pixel where q is under limit with its place in a pattern
// of scattered points; place turns a pixel into a point of the pattern.
func (p *patch) eachCell(seed uint32, jitter, limit float32, q []float32, place func(k int, x, y float32) (u, v float32), fn func(k int, cl cell)) {
	p.rows(func(y0, y1 int) {
		find := cellsOf(seed, jitter)
		for row := y0; row < y1; row++ {
			for col := range p.w {
				if k := row*p.w + col; q[k] <= limit {
					fn(k, find.at(place(k, p.x(col), p.y(row))))
				}
			}
		}
	})
}

func (p *patch) has(feature string) bool { return p.c.s.has(feature) }

func (p *patch) rng(salt uint64) *rng { return newRNG(p.l.seed, salt) }

// noise is fbm seeded by the lesion.
func (p *patch) noise(salt uint64, period float32, octaves int) []float32 {
	return p.fbm(mix64(p.l.seed^mix64(salt)), period, octaves, 0.5)
}

// raised gives the lesion's height: the case's, or the family's habit.
func (p *patch) raised(habit float32) float32 {
	if p.l.height > 0 {
		return p.l.height
	}
	return habit
}

// outline is a closed wavy line around the lesion.
type outline struct {
	r      float32 // mean radius, mm
	wave   float32 // how far the line strays, as a share of the radius
	ripple float32 // bumps of a millimetre or so, as a share of the radius
	lobes  float32 // about how many waves: 0.9 few, 2 many
	aspect float32 // length over breadth
	turn   float32 // of the long axis, radians
	x, y   float32 // centre off the lesion's middle, mm
}

// blob gives every pixel its distance from the outline's centre as a share of
// the way to the outline: under 1 inside, 1 on the line. The plane itself is
// bent, not the radius: a wavy radius would rib every slope from the middle out.
func (p *patch) blob(salt uint64, o outline) []float32 {
	period := 1.7 * o.r / max(o.lobes, 0.5)
	bendX, bendY := p.noise(salt+300, period, 2), p.noise(salt+600, period, 2)
	var rip []float32
	if o.ripple > 0 {
		rip = p.noise(salt+900, max(0.25*o.r, 0.4), 3)
	}
	q := p.plane()
	aspect := max(o.aspect, 1)
	long := 1 / (o.r * sqrt32(aspect))
	short := long * aspect
	ca, sa := cos32(o.turn), sin32(o.turn)
	bend := 1.7 * o.wave * o.r
	p.each(func(k, _ int, x, y float32) {
		x, y = x-o.x+bend*bendX[k], y-o.y+bend*bendY[k]
		u, v := (x*ca+y*sa)*long, (y*ca-x*sa)*short
		d := sqrt32(u*u + v*v)
		if rip != nil {
			d /= 1 + o.ripple*rip[k]
		}
		q[k] = d
	})
	return q
}

// turnOf gives the direction of a vector as a share of a full turn, 0 to 1.
func turnOf(x, y float32) float32 {
	ax, ay := abs32(x), abs32(y)
	lo, hi := min(ax, ay), max(ax, ay)
	if hi == 0 {
		return 0
	}
	t := lo / hi
	s := t * t
	a := ((-0.0464965*s+0.1593142)*s-0.3276228)*s*t + t
	if ay > ax {
		a = 1.5707963 - a
	}
	if x < 0 {
		a = 3.1415927 - a
	}
	if y < 0 {
		a = 6.2831853 - a
	}
	return a * (1 / 6.2831853)
}

// mask turns a blob into a cover of 1 inside and 0 outside with the given ends
// of its soft edge.
func mask(q []float32, from, to float32) []float32 {
	m := make([]float32, len(q))
	for i, v := range q {
		m[i] = smooth(to, from, v)
	}
	return m
}

// flatten removes the skin's own relief under a mask, as a growth that pushes
// up from below or sits on top does; share 1 leaves none. Hairs go with it.
func (p *patch) flatten(m []float32, share float32) {
	c := p.c
	old := p.cut(c.Height)
	low := p.blur(old, 0.5)
	p.each(func(k, i int, _, _ float32) {
		s := share * m[k]
		c.Height[i] = lerp(old[k], low[k], s)
		c.Hair[i] *= 1 - s
		c.HairShade[i] *= 1 - s
	})
}

// cut copies the patch out of a plane of the canvas.
func (p *patch) cut(plane []float32) []float32 {
	out := p.plane()
	for row := range p.h {
		i := (p.row+row)*p.c.w + p.col
		copy(out[row*p.w:row*p.w+p.w], plane[i:i+p.w])
	}
	return out
}

// mix moves plane[i] toward v by share k.
func mix(plane []float32, i int, v, k float32) { plane[i] += (v - plane[i]) * k }

// body is what a lesion's tissue is made of.
type body struct {
	melanin, blood, oxygen, scatter, epidermis, rough, gloss, stay float32
}

// fill moves the tissue at pixel i toward b by share k.
func (f *Fields) fill(i int, k float32, b body) {
	mix(f.Melanin, i, b.melanin, k)
	mix(f.Blood, i, b.blood, k)
	mix(f.Oxygen, i, b.oxygen, k)
	mix(f.Scatter, i, b.scatter, k)
	mix(f.Epidermis, i, b.epidermis, k)
	mix(f.Rough, i, b.rough, k)
	mix(f.Gloss, i, b.gloss, k)
	mix(f.Stay, i, b.stay, k)
}

// spot is a point in a lesion with a size, mm.
type spot struct{ x, y, r float32 }

// spots places up to n spots inside the blob at least gap mm apart, sizes
// between the two radii.
func (p *patch) spots(salt uint64, n int, gap, inner, rMin, rMax float32) []spot {
	r := p.rng(salt)
	var out []spot
	for tries := 0; len(out) < n && tries < 30*n+30; tries++ {
		a, d := r.between(0, 6.2831853), p.l.r*inner*sqrt32(r.unit())
		s := spot{d * cos32(a), d * sin32(a), r.between(rMin, rMax)}
		free := true
		for _, o := range out {
			if dx, dy := o.x-s.x, o.y-s.y; dx*dx+dy*dy < gap*gap {
				free = false
				break
			}
		}
		if free {
			out = append(out, s)
		}
	}
	return out
}

// at visits the canvas pixels within radius mm of a point of the lesion.
func (p *patch) at(x, y, radius float32, fn func(i int, dx, dy, d float32)) {
	p.c.disc(p.l.x+x, p.l.y+y, radius, fn)
}

// paintPapule is the drawing of an unknown family: a plain skin-coloured lump.
func paintPapule(p *patch) {
	c := p.c
	q := p.blob(1, outline{r: p.l.r, wave: 0.06, lobes: 0.9})
	in := mask(q, 0.85, 1.05)
	p.flatten(in, 0.6)
	h := p.raised(0.25 * p.l.r)
	p.each(func(k, i int, _, _ float32) {
		c.Height[i] += h * dome(q[k])
		c.Blood[i] *= 1 + 0.3*in[k]
	})
}

// dome is the profile of a round lump, 1 in the middle and 0 from q = 1 on.
func dome(q float32) float32 {
	if q >= 1 {
		return 0
	}
	return sqrt32(1 - q*q*sqrt32(q))
}
