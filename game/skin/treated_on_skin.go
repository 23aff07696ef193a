package skin

import (
	"image"
	"slices"
)

// flushing is the red flare round injured skin, on a coarse grid of its own: it
// spreads over several millimetres and changes slowly.
type flushing struct {
	n, m  int // cells across and down
	x0    float32
	y0    float32
	now   []float32
	drawn []float32
}

const (
	flushCellMM  = 0.4
	flushBeyond  = 6 // mm past the patch
	flushStep    = 0.07
	flushAtOnce  = 5 // rows of cells drawn anew in one update, so that none takes long
	flushNearMM  = 0.9
	flushFarMM   = 2.4
	injuredLeast = 0.25
)

// follow works out the flare from the injured columns and its strength.
func (f *flushing) follow(t *Treated, strength float32) {
	if f.now == nil {
		side := func(n int) int { return int((float32(n)*t.gridMM + 2*flushBeyond) / flushCellMM) }
		f.n, f.m = side(t.nx), side(t.ny)
		f.x0, f.y0 = -flushCellMM*float32(f.n-1)/2, -flushCellMM*float32(f.m-1)/2
		f.now, f.drawn = make([]float32, f.n*f.m), make([]float32, f.n*f.m)
	}
	clear(f.now)
	if strength <= 0 {
		return
	}
	per := t.gridMM * t.gridMM / (flushCellMM * flushCellMM)
	for y := range t.ny {
		for x := range t.nx {
			m := &t.next[y*t.nx+x].marks
			hurt := max(m[markWhite], m[markShut], smooth(0.05, 0.2, m[markTaken]))
			if hurt < injuredLeast {
				continue
			}
			i := int((t.placeMM(float32(x), t.nx)-f.x0)/flushCellMM + 0.5)
			j := int((t.placeMM(float32(y), t.ny)-f.y0)/flushCellMM + 0.5)
			f.now[j*f.n+i] += hurt * per
		}
	}
	g := grid{w: f.n, h: f.m, px: flushCellMM}
	near, far := g.blur(f.now, flushNearMM), g.blur(f.now, flushFarMM)
	for i := range f.now {
		f.now[i] = strength * (0.75*smooth(0.01, 0.42, near[i]) + 0.55*smooth(0.005, 0.30, far[i]))
	}
}

// lay takes the flare as it is now.
func (f *flushing) lay(t *Treated) {
	if f.now == nil {
		f.follow(t, 0)
	}
	copy(f.drawn, f.now)
}

// band takes a few rows of cells whose flare has changed, and returns them as
// pixels.
func (f *flushing) band(t *Treated) image.Rectangle {
	first := -1
	most := float32(flushStep)
	for j := range f.m {
		for i := range f.n {
			if d := abs32(f.now[j*f.n+i] - f.drawn[j*f.n+i]); d > most {
				most, first = d, j
			}
		}
	}
	if first < 0 {
		return image.Rectangle{}
	}
	j0, j1 := max(first-flushAtOnce/2, 0), min(first+flushAtOnce/2+1, f.m)
	i0, i1 := f.n, 0
	for j := j0; j < j1; j++ {
		for i := range f.n {
			if k := j*f.n + i; f.now[k] != f.drawn[k] {
				f.drawn[k] = f.now[k]
				i0, i1 = min(i0, i), max(i1, i)
			}
		}
	}
	g := t.canvas.grid
	px := func(cells int, from, origin float32) int {
		return int(floor32((from + flushCellMM*float32(cells) - origin) / g.px))
	}
	return image.Rect(px(i0-1, f.x0, g.x0), px(j0-1, f.y0, g.y0), px(i1+1, f.x0, g.x0)+1, px(j1, f.y0, g.y0)+1)
}

// at reads the drawn flare at a place, mm.
func (f *flushing) at(x, y float32) float32 {
	u, v := (x-f.x0)/flushCellMM, (y-f.y0)/flushCellMM
	i, j := int(u), int(v)
	if u < 0 || v < 0 || i >= f.n-1 || j >= f.m-1 {
		return 0
	}
	a, b := u-float32(i), v-float32(j)
	k := j*f.n + i
	return lerp(lerp(f.drawn[k], f.drawn[k+1], a), lerp(f.drawn[k+f.n], f.drawn[k+f.n+1], a), b)
}

// bleeding takes over the bleeding points and returns the pixels they change.
func (t *Treated) bleeding(now []Bleeder) image.Rectangle {
	if slices.Equal(now, t.bleed) {
		return image.Rectangle{}
	}
	var r image.Rectangle
	changed := func(list, other []Bleeder) {
		for _, b := range list {
			if !slices.Contains(other, b) {
				r = r.Union(t.round(float32(b.XMM), float32(b.YMM), beadReach*float32(b.RadiusMM)))
			}
		}
	}
	changed(now, t.bleed)
	changed(t.bleed, now)
	t.bleed = slices.Clone(now)
	return r
}

// round is a circle's rectangle in pixels.
func (t *Treated) round(x, y, radius float32) image.Rectangle {
	g := t.canvas.grid
	x0, y0 := (x-radius-g.x0)/g.px, (y-radius-g.y0)/g.px
	d := int(2*radius/g.px) + 3
	return image.Rect(int(floor32(x0)), int(floor32(y0)), int(floor32(x0))+d, int(floor32(y0))+d)
}

const beadReach = 1.2 // its edge wanders so far

// beads fills the plane of blood beads within r: caps of spheres that flow
// into one another where they touch.
func (t *Treated) beads(r image.Rectangle) {
	c, bead := t.canvas, t.grain.bead
	for row := r.Min.Y; row < r.Max.Y; row++ {
		clear(bead[row*c.w+r.Min.X : row*c.w+r.Max.X])
	}
	for _, b := range t.bleed {
		R := float32(b.RadiusMM)
		if R <= 0 {
			continue
		}
		in := t.round(float32(b.XMM), float32(b.YMM), beadReach*R).Intersect(r)
		for row := in.Min.Y; row < in.Max.Y; row++ {
			for col := in.Min.X; col < in.Max.X; col++ {
				i := row*c.w + col
				dx, dy := c.x(col)-float32(b.XMM), c.y(row)-float32(b.YMM)
				d := sqrt32(dx*dx+dy*dy) / R * (1 + 0.10*t.grain.mottle[i])
				if d < 1 {
					p := 0.75 * R * sqrt32(1-d*d)
					bead[i] = sqrt32(bead[i]*bead[i] + p*p)
				}
			}
		}
	}
}

// inking takes over the drawn rings and returns the pixels they change.
func (t *Treated) inking(now []InkRing) image.Rectangle {
	if slices.Equal(now, t.ink) {
		return image.Rectangle{}
	}
	var r image.Rectangle
	for _, ring := range slices.Concat(now, t.ink) {
		r = r.Union(t.round(float32(ring.XMM), float32(ring.YMM), float32(ring.RadiusMM)+1))
	}
	t.ink = slices.Clone(now)
	return r
}

// gentian is the ink of skin markers: a violet dye (from memory: crystal
// violet absorbs about 590 nm), linear sRGB, by eye.
var gentian = rgb{0.075, 0.030, 0.200}

// inkAt lays the marker's lines at pixel i; the ink keeps off the floors of the
// skin's lines and fades at the edge of the stroke.
func (t *Treated) inkAt(i int, x, y float32) {
	for _, ring := range t.ink {
		dx, dy := x-float32(ring.XMM), y-float32(ring.YMM)
		d := abs32(sqrt32(dx*dx+dy*dy) - float32(ring.RadiusMM) + 0.05*t.grain.mottle[i])
		if d > 0.5 {
			continue
		}
		k := smooth(0.30, 0.17, d+0.04*t.grain.fine[i])
		skip := smooth(0.02, 0.07, t.low[i]-t.base.Height[i])
		t.canvas.cover(i, k*clamp(0.55-0.35*skip+0.15*t.grain.fine[i]+0.15*t.grain.mottle[i], 0.1, 0.8), gentian)
	}
}
