package skin

import "math"

// rng is a small seeded generator (the splitmix64 sequence). Every lesion and
// every layer makes its own from the subject's seed, so that adding one layer
// never moves another.
type rng struct{ state uint64 }

func newRNG(seed, salt uint64) *rng {
	return &rng{state: mix64(seed ^ mix64(salt))}
}

// mix64 scrambles 64 bits (the finaliser of splitmix64).
func mix64(x uint64) uint64 {
	x += 0x9E3779B97F4A7C15
	x = (x ^ x>>30) * 0xBF58476D1CE4E5B9
	x = (x ^ x>>27) * 0x94D049BB133111EB
	return x ^ x>>31
}

func (r *rng) next() uint64 {
	r.state += 0x9E3779B97F4A7C15
	x := r.state
	x = (x ^ x>>30) * 0xBF58476D1CE4E5B9
	x = (x ^ x>>27) * 0x94D049BB133111EB
	return x ^ x>>31
}

// unit gives a number in [0, 1).
func (r *rng) unit() float32 { return float32(r.next()>>40) * (1.0 / (1 << 24)) }

// between gives a number in [a, b).
func (r *rng) between(a, b float32) float32 { return a + (b-a)*r.unit() }

// normal gives a bell-shaped number, mean 0 and standard deviation 1 (the sum
// of four uniform numbers: its tails end at 3.5, which keeps outliers tame).
func (r *rng) normal() float32 {
	return (r.unit() + r.unit() + r.unit() + r.unit() - 2) * 1.7320508
}

// hash2 gives 32 scrambled bits for a lattice point.
func hash2(seed uint32, x, y int32) uint32 {
	h := uint32(x)*0x9E3779B1 ^ uint32(y)*0x85EBCA77 ^ seed
	h = (h ^ h>>15) * 0x2C1B3C6D
	h = (h ^ h>>12) * 0x297A2D39
	return h ^ h>>15
}

func low16(h uint32) float32  { return float32(h&0xffff) * (1.0 / 65536) }
func high16(h uint32) float32 { return float32(h>>16) * (1.0 / 65536) }

// gradient turns a hash into a slope vector with parts in [-1, 1).
func gradient(h uint32) (gx, gy float32) { return 2*low16(h) - 1, 2*high16(h) - 1 }

func floor32(x float32) int32 {
	i := int32(x)
	if x < float32(i) {
		i--
	}
	return i
}

func fade(t float32) float32 { return t * t * t * (t*(t*6-15) + 10) }

// noiseScale brings the gradient noise to a standard deviation near 0.4, so
// that sums of octaves mostly stay inside -1 to 1.
const noiseScale = 1.85

// noise2 is gradient noise at one point, period 1.
func noise2(seed uint32, x, y float32) float32 {
	xi, yi := floor32(x), floor32(y)
	xf, yf := x-float32(xi), y-float32(yi)
	ax, ay := gradient(hash2(seed, xi, yi))
	bx, by := gradient(hash2(seed, xi+1, yi))
	cx, cy := gradient(hash2(seed, xi, yi+1))
	dx, dy := gradient(hash2(seed, xi+1, yi+1))
	u, v := fade(xf), fade(yf)
	top := (ax*xf+ay*yf)*(1-u) + (bx*(xf-1)+by*yf)*u
	low := (cx*xf+cy*(yf-1))*(1-u) + (dx*(xf-1)+dy*(yf-1))*u
	return (top*(1-v) + low*v) * noiseScale
}

// value1 is smooth noise along a line, period 1, in [-1, 1].
func value1(seed uint32, x float32) float32 {
	i := floor32(x)
	f := x - float32(i)
	a := low16(hash2(seed, i, 77))
	b := low16(hash2(seed, i+1, 77))
	f = f * f * (3 - 2*f)
	return 2*(a+(b-a)*f) - 1
}

// cell is the answer of a search among scattered points, one per unit square.
type cell struct {
	near float32 // distance to the nearest point
	edge float32 // distance to the line halfway to the second nearest
	id   uint32  // scrambled bits of the nearest point's square
}

// cells looks up a pattern of scattered points, one per unit square. It keeps
// the nine points around the last square, since neighbouring pixels mostly
// share them; every worker therefore has its own.
type cells struct {
	seed   uint32
	jitter float32 // 0 gives a square lattice, 1 the full disorder
	xi, yi int32
	known  bool
	px, py [9]float32 // places of the points, from the square's corner
	id     [9]uint32
}

func cellsOf(seed uint32, jitter float32) cells { return cells{seed: seed, jitter: jitter} }

func (c *cells) gather(xi, yi int32) {
	c.xi, c.yi, c.known = xi, yi, true
	off := (1 - c.jitter) * 0.5
	k := 0
	for dy := int32(-1); dy <= 1; dy++ {
		for dx := int32(-1); dx <= 1; dx++ {
			h := hash2(c.seed, xi+dx, yi+dy)
			c.px[k] = float32(dx) + off + c.jitter*low16(h)
			c.py[k] = float32(dy) + off + c.jitter*high16(h)
			c.id[k] = h
			k++
		}
	}
}

// at finds the nearest point to x, y and the line halfway to the second.
func (c *cells) at(x, y float32) cell {
	xi, yi := floor32(x), floor32(y)
	if !c.known || xi != c.xi || yi != c.yi {
		c.gather(xi, yi)
	}
	xf, yf := x-float32(xi), y-float32(yi)
	best, second := float32(99), float32(99)
	first, other := 0, 0
	for k := range c.px {
		dx, dy := c.px[k]-xf, c.py[k]-yf
		d := dx*dx + dy*dy
		if d < best {
			second, other = best, first
			best, first = d, k
		} else if d < second {
			second, other = d, k
		}
	}
	gx, gy := c.px[first]-c.px[other], c.py[first]-c.py[other]
	gap := sqrt32(gx*gx+gy*gy) + 1e-6
	return cell{near: sqrt32(best), edge: (second - best) / (2 * gap), id: c.id[first] * 0x9E3779B1}
}

// addNoise adds one octave of gradient noise to a plane on the grid. Along a
// row inside one lattice square the noise is two straight lines blended by the
// fade curve, so a pixel costs a handful of multiplications.
func (g grid) addNoise(dst []float32, seed uint32, periodX, periodY, amp float32) {
	// What is finer than about two pixels would only flicker.
	finest := min(periodX, periodY) / g.px
	amp *= noiseScale * smooth(1.6, 3.2, finest)
	if amp == 0 {
		return
	}
	ox, oy := low16(hash2(seed, 3, 9)), high16(hash2(seed, 3, 9))
	step := g.px / periodX
	start := g.x0/periodX + ox
	// What depends on the column alone is worked out once.
	first := floor32(start)
	ts, us := make([]float32, g.w), make([]float32, g.w)
	ends := []int{} // column where each lattice square ends
	for x := range g.w {
		t := start + float32(x)*step
		i := floor32(t)
		for len(ends) < int(i-first) {
			ends = append(ends, x)
		}
		ts[x] = t - float32(i)
		us[x] = fade(ts[x])
	}
	ends = append(ends, g.w)
	g.rows(func(y0, y1 int) {
		upper, lower := make([][2]float32, len(ends)+1), make([][2]float32, len(ends)+1)
		have := int32(math.MinInt32)
		for y := y0; y < y1; y++ {
			fy := (g.y0+float32(y)*g.px)/periodY + oy
			yi := floor32(fy)
			if yi != have {
				latticeRow(upper, seed, first, yi)
				latticeRow(lower, seed, first, yi+1)
				have = yi
			}
			yf := fy - float32(yi)
			v := fade(yf)
			row := dst[y*g.w : y*g.w+g.w]
			x := 0
			for n, end := range ends {
				a, b, c, d := upper[n], upper[n+1], lower[n], lower[n+1]
				l1 := (a[0] + (c[0]-a[0])*v) * amp
				l0 := (a[1]*yf + (c[1]*(yf-1)-a[1]*yf)*v) * amp
				r1 := (b[0] + (d[0]-b[0])*v) * amp
				r0 := (b[1]*yf+(d[1]*(yf-1)-b[1]*yf)*v)*amp - r1
				for ; x < end; x++ {
					t := ts[x]
					left := l0 + l1*t
					row[x] += left + (r0+r1*t-left)*us[x]
				}
			}
		}
	})
}

// latticeRow fills the slopes of one row of the noise's lattice.
func latticeRow(dst [][2]float32, seed uint32, first, y int32) {
	for i := range dst {
		dst[i][0], dst[i][1] = gradient(hash2(seed, first+int32(i), y))
	}
}

// fbm fills a new plane with octaves of noise, each half the period of the one
// before and gain times as strong; the sum is scaled to keep its spread.
func (g grid) fbm(seed uint64, period float32, octaves int, gain float32) []float32 {
	return g.fbmXY(seed, period, period, octaves, gain)
}

// fbmXY is fbm with different periods along x and y: fibres, folds, streaks.
func (g grid) fbmXY(seed uint64, periodX, periodY float32, octaves int, gain float32) []float32 {
	dst := make([]float32, g.w*g.h)
	amp, total := float32(1), float32(0)
	for range octaves {
		total += amp * amp
		amp *= gain
	}
	amp = 1 / sqrt32(total)
	for o := range octaves {
		g.addNoise(dst, uint32(mix64(seed+uint64(o)*0x51ED)), periodX, periodY, amp)
		periodX, periodY, amp = periodX/2, periodY/2, amp*gain
	}
	return dst
}

func sqrt32(x float32) float32 { return float32(math.Sqrt(float64(x))) }

func abs32(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}

// clamp keeps x between lo and hi.
func clamp(x, lo, hi float32) float32 { return min(max(x, lo), hi) }

// lerp goes from a to b as k goes from 0 to 1.
func lerp(a, b, k float32) float32 { return a + (b-a)*k }

// smooth rises from 0 at a to 1 at b with level ends; a may exceed b.
func smooth(a, b, x float32) float32 {
	t := (x - a) / (b - a)
	if t <= 0 {
		return 0
	}
	if t >= 1 {
		return 1
	}
	return t * t * (3 - 2*t)
}

// bell is close to exp(-x²), and exactly 0 from |x| = 2 on.
func bell(x float32) float32 {
	t := 1 - x*x*0.25
	if t <= 0 {
		return 0
	}
	t *= t
	return t * t
}

// exp32 is e to the x within 1 part in 10,000, by a power of two and a
// polynomial; below -80 it is 0.
func exp32(x float32) float32 {
	if x < -80 {
		return 0
	}
	if x > 80 {
		x = 80
	}
	t := x * 1.442695
	i := floor32(t)
	f := t - float32(i)
	p := 1 + f*(0.6931472+f*(0.2402265+f*(0.0555036+f*(0.0096181+f*0.0013398))))
	return p * math.Float32frombits(uint32(i+127)<<23)
}

// log32 is the natural logarithm of a positive x, within 1e-4.
func log32(x float32) float32 {
	b := math.Float32bits(x)
	e := float32(int32(b>>23) - 127)
	m := math.Float32frombits(b&0x7fffff | 0x3f800000)
	// ln(m) for m in 1 to 2 through s = (m-1)/(m+1).
	s := (m - 1) / (m + 1)
	q := s * s
	return e*0.6931472 + 2*s*(1+q*(0.3333333+q*(0.2+q*(0.1428571+q*0.1111111))))
}

func sin32(x float32) float32 { return float32(math.Sin(float64(x))) }
func cos32(x float32) float32 { return float32(math.Cos(float64(x))) }
