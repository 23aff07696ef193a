package skin

// Hairs: down on most skin, dark terminal hairs on the scalp and brow. They
// stand over everything else and throw a soft shadow toward the lower right.

// hairKind is how the hairs of a site grow.
type hairKind struct {
	minMM, maxMM float32 // length
	widthMM      float32 // at the root
	spread       float32 // disorder of direction, radians
	cover        float32 // how opaque
	dark         float32 // 0 pale down, 1 full terminal colour
}

var hairKinds = map[string]hairKind{
	"fine":  {0.6, 1.8, 0.018, 0.5, 0.45, 0.25},
	"body":  {1.5, 5, 0.030, 0.45, 0.7, 0.75},
	"brow":  {4, 8, 0.065, 0.30, 0.9, 1},
	"scalp": {9, 22, 0.070, 0.22, 0.9, 1},
	"lash":  {5, 9, 0.07, 0.2, 0.9, 1},
}

// plainHairs grows the hairs of the site.
func plainHairs(c *canvas) {
	kind, ok := hairKinds[c.site.hair]
	if !ok {
		return
	}
	c.HairTone = c.hairTone(kind.dark)
	count := c.site.hairs
	if c.site.hair == "body" {
		count *= lerp(0.25, 1, smooth(10, 18, c.age))
		kind.dark = lerp(0.3, kind.dark, smooth(10, 20, c.age))
	}
	// The scalp is parted for the look: few roots near the lesion.
	bare := float32(0)
	if c.site.hair == "scalp" || c.site.hair == "brow" {
		bare = float32(c.s.WidthMM) * 0.55
	}
	count *= 1 - 0.6*smooth(50, 85, c.age)
	flow := uint32(c.seed("hair flow"))
	comb := c.rng("comb").between(0.5, 1.3)
	if c.site.hair == "scalp" {
		comb = c.rng("comb").between(2.6, 3.6)
	}
	c.scatter(c.seed("hairs"), count, kind.maxMM, func(x, y float32, r *rng) {
		length := r.between(kind.minMM, kind.maxMM)
		turn, bend, width, keep := comb+kind.spread*r.normal(), 0.35*r.normal(), kind.widthMM*r.between(0.5, 1), r.unit()
		turn += 0.5 * noise2(flow, x/9, y/9)
		if c.site.hair == "scalp" {
			// Combed away to both sides of the parting.
			if y > 0.4*x {
				turn += 3.1416 + 1.0
			}
		}
		if keep < 0.25 || x*x+y*y < bare*bare {
			return
		}
		c.strand(x, y, turn, bend, length, width, kind.cover)
	})
}

// hairTone picks the colour: darker on darker skin, grey with age.
func (c *canvas) hairTone(dark float32) [3]float32 {
	pale := rgb{0.40, 0.27, 0.15}
	deep := rgb{0.060, 0.036, 0.022}.mix(rgb{0.012, 0.010, 0.009}, smooth(-0.1, 0.8, c.dark))
	grey := rgb{0.22, 0.205, 0.19}
	tone := pale.mix(deep, max(dark, smooth(0.2, 1, c.dark)))
	return tone.mix(grey, smooth(50, 85, c.age)*0.7)
}

// strand draws one hair from its root: a curved line that thins to its tip.
func (c *canvas) strand(x, y, angle, bend, length, width, cover float32) {
	step := c.px * 0.8
	n := int(length / step)
	if n < 3 || n > 6000 {
		return
	}
	shadowX, shadowY := float32(0.10), float32(0.09)
	// The hair bends evenly: each step turns its direction by the same bit.
	dx, dy := cos32(angle)*step, sin32(angle)*step
	turnC, turnS := cos32(2*bend/float32(n)), sin32(2*bend/float32(n))
	for k := range n {
		t := float32(k) / float32(n)
		dx, dy = dx*turnC-dy*turnS, dx*turnS+dy*turnC
		x += dx
		y += dy
		w := width * (1 - t*t)
		c.dab(c.Hair, x, y, w, cover*(1-0.5*t))
		lift := 0.4 + 2*t
		if k%3 != 0 {
			continue // the shadow is soft: a third of the spots do
		}
		c.dab(c.HairShade, x+shadowX*lift, y+shadowY*lift, w*2.2, 0.22*(1-t))
	}
}

// dab lays one soft spot of diameter w mm into a plane, keeping the stronger
// value. A spot thinner than a pixel is weakened instead of widened.
func (g grid) dab(dst []float32, x, y, w, k float32) {
	r := w / 2
	if least := 0.62 * g.px; r < least {
		k *= r / least
		r = least
	}
	fx, fy := (x-g.x0)/g.px, (y-g.y0)/g.px
	reach := 1.5*r/g.px + 1
	if fx < -reach || fy < -reach || fx > float32(g.w)+reach || fy > float32(g.h)+reach {
		return
	}
	x0, x1 := max(int(fx-reach+1), 0), min(int(fx+reach), g.w-1)
	y0, y1 := max(int(fy-reach+1), 0), min(int(fy+reach), g.h-1)
	for j := y0; j <= y1; j++ {
		dy := float32(j) - fy
		for i := x0; i <= x1; i++ {
			dx := float32(i) - fx
			d := sqrt32(dx*dx+dy*dy) * g.px / r
			if v := k * (1 - smooth(0.45, 1.5, d)); v > dst[j*g.w+i] {
				dst[j*g.w+i] = v
			}
		}
	}
}
