package skin

// vesselLayer collects the strength of vessels before they become blood. Each
// vessel writes the larger of its own and what is there: crossings must not
// grow darker.
type vesselLayer struct {
	p *patch
	f []float32
	r *rng
	// steps counts those of all walks: in a huge lesion branches of branches
	// would grow without end.
	steps int
}

func (p *patch) vessels(salt uint64) *vesselLayer {
	return &vesselLayer{p: p, f: p.plane(), r: p.rng(salt)}
}

// walk is how a branching vessel grows.
type walk struct {
	x, y, angle float32
	width       float32 // mm at its start
	length      float32 // mm
	curl        float32 // restlessness of its direction
	branch      float32 // how often it divides
	pull        float32 // how strongly it bends to the lesion's middle
	taper       float32 // share of its width lost on the way
	depth       int     // divisions still allowed
	inside      func(x, y float32) bool
}

const (
	walkStep   = 0.06   // mm
	walksSteps = 60_000 // of one layer, 3.6 m of vessels
)

// grow draws one vessel and its branches by a random walk whose curvature, not
// direction, is random: that keeps the curves round.
func (v *vesselLayer) grow(w walk) {
	curve, wave := float32(0), v.r.between(0, 6)
	for s := float32(0); s < w.length; s += walkStep {
		curve = 0.86*curve + v.r.normal()*w.curl*0.22
		w.angle += curve * walkStep * 3
		if w.pull != 0 {
			home := turnOf(-w.x, -w.y)*6.2831853 - w.angle + 0.4
			w.angle += w.pull * sin32(home) * walkStep
		}
		nx, ny := w.x+cos32(w.angle)*walkStep, w.y+sin32(w.angle)*walkStep
		if w.inside != nil && !w.inside(nx, ny) {
			return
		}
		width := w.width * (1 - w.taper*s/w.length) * (1 + 0.14*sin32(wave+s*4))
		v.line(w.x, w.y, nx, ny, width, 1)
		w.x, w.y = nx, ny
		if v.steps++; v.steps > walksSteps {
			return
		}
		if w.depth > 0 && v.r.unit() < w.branch*walkStep && w.width > 0.016 {
			child := w
			child.depth--
			side := float32(1)
			if v.r.unit() < 0.5 {
				side = -1
			}
			child.angle += side * v.r.between(0.4, 1.1)
			child.width *= v.r.between(0.45, 0.78)
			child.length *= v.r.between(0.35, 0.7)
			v.grow(child)
		}
	}
}

// line draws a straight piece.
func (v *vesselLayer) line(x0, y0, x1, y1, width, k float32) {
	dx, dy := x1-x0, y1-y0
	n := int(sqrt32(dx*dx+dy*dy)/max(0.35*width, 0.7*v.p.px)) + 1
	for i := range n {
		t := (float32(i) + 0.5) / float32(n)
		v.p.dab(v.f, x0+dx*t, y0+dy*t, width, k)
	}
}

// arc draws a bent piece: comma and hairpin vessels, coils.
func (v *vesselLayer) arc(x, y, radius, from, sweep, width float32) {
	n := max(int(abs32(sweep)*radius/0.04), 4)
	for i := range n {
		a0, a1 := from+sweep*float32(i)/float32(n), from+sweep*float32(i+1)/float32(n)
		t := float32(i) / float32(n)
		w := width * (1 - 0.45*t)
		v.line(x+radius*cos32(a0), y+radius*sin32(a0), x+radius*cos32(a1), y+radius*sin32(a1), w, 1)
	}
}

// coil draws a knot of a few turns (a glomerular vessel).
func (v *vesselLayer) coil(x, y, radius, width float32) {
	a := v.r.between(0, 6.28)
	const n = 26
	px, py := x+radius*0.15, y
	for i := 1; i <= n; i++ {
		t := float32(i) / n
		b := a + 13*t
		rad := radius * (0.15 + 0.85*t) * (1 + 0.2*v.r.normal()*0.5)
		nx, ny := x+rad*cos32(b), y+rad*sin32(b)
		v.line(px, py, nx, ny, width, 1)
		px, py = nx, ny
	}
}

// vesselLook is how vessels appear.
type vesselLook struct {
	blood, oxygen float32 // of the spot right over the vessel
	epidermis     float32 // share of the epidermis' veil that is left over it
	haze          float32 // light blood around it
	dim           float32 // 0 all in focus, 1 many run deep and blurred
	stay          float32 // share of the blood that a glass cannot drive out
	deep          float32 // dark pigment units: vessels far down look blue-grey
	soft          float32 // blur of the whole layer, mm
}

// apply turns the collected vessels into blood under a mask (nil = anywhere).
func (v *vesselLayer) apply(m []float32, look vesselLook) {
	p, c := v.p, v.p.c
	sharp := v.f
	if look.soft > 0 {
		sharp = p.blur(v.f, look.soft)
	}
	blurred, haze := p.blur(v.f, 0.07+look.soft), p.blur(v.f, 0.20+look.soft)
	focus := p.noise(4242, 1.2, 2)
	p.each(func(k, i int, _, _ float32) {
		if haze[k] < 1e-4 {
			return
		}
		share := float32(1)
		if m != nil {
			share = m[k]
		}
		near := clamp(1-look.dim*(0.35-0.7*focus[k]), 0.15, 1)
		s := min((sharp[k]*near+blurred[k]*(1-near)*0.9)*share, 1)
		mix(c.Blood, i, max(look.blood, c.Blood[i]), s)
		mix(c.Oxygen, i, look.oxygen, s)
		c.Blood[i] += look.haze * haze[k] * share
		c.Epidermis[i] *= 1 - (1-look.epidermis)*s
		c.Deep[i] += look.deep * s
		mix(c.Stay, i, look.stay, s)
		c.Height[i] += 0.010 * s
	})
}
