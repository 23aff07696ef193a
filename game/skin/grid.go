package skin

import (
	"runtime"
	"sync"
)

// grid places a rectangle of pixels on the skin, in millimetres. The middle of
// the picture is 0, 0; x runs right and y runs down.
type grid struct {
	w, h int
	px   float32 // width of a pixel, mm
	x0   float32 // x of the first column's centre, mm
	y0   float32 // y of the first row's centre, mm
}

// rows runs fn over bands of rows, on as many workers as the program may use.
// Every row is computed from its inputs alone, so the result is the same for
// any number of workers.
func (g grid) rows(fn func(y0, y1 int)) { split(g.h, fn) }

func split(n int, fn func(from, to int)) {
	workers := min(runtime.GOMAXPROCS(0), (n+15)/16)
	if workers <= 1 {
		fn(0, n)
		return
	}
	var wg sync.WaitGroup
	for i := range workers {
		from, to := i*n/workers, (i+1)*n/workers
		wg.Go(func() { fn(from, to) })
	}
	wg.Wait()
}

// plane makes an empty plane of the grid's size.
func (g grid) plane() []float32 { return make([]float32, g.w*g.h) }

// filled makes a plane that holds v everywhere.
func (g grid) filled(v float32) []float32 {
	p := g.plane()
	for i := range p {
		p[i] = v
	}
	return p
}

// x and y give the place of a column or row, mm.
func (g grid) x(col int) float32 { return g.x0 + float32(col)*g.px }
func (g grid) y(row int) float32 { return g.y0 + float32(row)*g.px }

// places fills the coordinates of a row's pixels, mm.
func (g grid) places(xs, ys []float32, row int) {
	for col := range g.w {
		xs[col], ys[col] = g.x(col), g.y(row)
	}
}

// blur returns src smoothed with a bell of the given width (standard
// deviation, mm). The border is continued outward. Wide bells are computed on
// a smaller copy, which no eye can tell apart.
func (g grid) blur(src []float32, sigma float32) []float32 {
	s := sigma / g.px
	if s < 0.35 {
		return append([]float32(nil), src...)
	}
	if s > 2.4 && g.w >= 64 && g.h >= 64 {
		half, hg := g.halve(src)
		return hg.blurDouble(half, sigma, g)
	}
	dst := g.plane()
	tmp := borrow(len(src))
	defer giveBack(tmp)
	length := sqrt32(6*s*s + 1)
	boxRows(tmp, src, g.w, g.h, length)
	boxRows(dst, tmp, g.w, g.h, length)
	boxColumns(tmp, dst, g.w, g.h, length)
	boxColumns(dst, tmp, g.w, g.h, length)
	return dst
}

// spare holds planes between uses, so that drawing makes less work for the
// collector; whoever borrows one writes every number in it before reading.
var spare sync.Pool

func borrow(n int) []float32 {
	if p, ok := spare.Get().(*[]float32); ok && cap(*p) >= n {
		return (*p)[:n]
	}
	return make([]float32, n)
}

func giveBack(p []float32) { spare.Put(&p) }

func (g grid) halve(src []float32) ([]float32, grid) {
	hg := grid{w: (g.w + 1) / 2, h: (g.h + 1) / 2, px: g.px * 2, x0: g.x0 + g.px/2, y0: g.y0 + g.px/2}
	dst := hg.plane()
	hg.rows(func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			a := src[2*y*g.w:]
			b := src[min(2*y+1, g.h-1)*g.w:]
			for x := range hg.w {
				x1 := min(2*x+1, g.w-1)
				dst[y*hg.w+x] = (a[2*x] + a[x1] + b[2*x] + b[x1]) * 0.25
			}
		}
	})
	return dst, hg
}

// blurDouble blurs a halved plane and brings it back to the size of full.
func (g grid) blurDouble(src []float32, sigma float32, full grid) []float32 {
	small := g.blur(src, sigma)
	dst := full.plane()
	full.rows(func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			ya, yb, fy := halfPlace(y, g.h)
			a, b := small[ya*g.w:ya*g.w+g.w], small[yb*g.w:yb*g.w+g.w]
			for x := range full.w {
				xa, xb, fx := halfPlace(x, g.w)
				top := a[xa] + (a[xb]-a[xa])*fx
				low := b[xa] + (b[xb]-b[xa])*fx
				dst[y*full.w+x] = top + (low-top)*fy
			}
		}
	})
	return dst
}

// halfPlace finds where a full-size index lies between two half-size ones.
func halfPlace(i, n int) (a, b int, f float32) {
	if i&1 == 0 {
		a, f = i/2-1, 0.75
	} else {
		a, f = i/2, 0.25
	}
	b = a + 1
	return max(a, 0), min(b, n-1), f
}

// boxRows averages along rows over a window of the given length in pixels
// (any real number of at least 1).
func boxRows(dst, src []float32, w, h int, length float32) {
	r := int((length - 1) / 2)
	part := (length - 1 - 2*float32(r)) / 2
	inv := 1 / length
	split(h, func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			s, d := src[y*w:y*w+w], dst[y*w:y*w+w]
			at := func(i int) float32 { return s[min(max(i, 0), w-1)] }
			sum := float32(0)
			for i := -r; i <= r; i++ {
				sum += at(i)
			}
			for x := range w {
				if x-r-1 >= 0 && x+r+1 < w {
					d[x] = (sum + part*(s[x-r-1]+s[x+r+1])) * inv
					sum += s[x+r+1] - s[x-r]
					continue
				}
				d[x] = (sum + part*(at(x-r-1)+at(x+r+1))) * inv
				sum += at(x+r+1) - at(x-r)
			}
		}
	})
}

// boxColumns does the same along columns, row by row so that memory is read in
// order.
func boxColumns(dst, src []float32, w, h int, length float32) {
	r := int((length - 1) / 2)
	part := (length - 1 - 2*float32(r)) / 2
	inv := 1 / length
	split(w, func(x0, x1 int) {
		row := func(i int) []float32 {
			i = min(max(i, 0), h-1)
			return src[i*w+x0 : i*w+x1]
		}
		sum := make([]float32, x1-x0)
		for i := -r; i <= r; i++ {
			for x, v := range row(i) {
				sum[x] += v
			}
		}
		for y := range h {
			before, after, old := row(y-r-1), row(y+r+1), row(y-r)
			d := dst[y*w+x0 : y*w+x1]
			for x := range d {
				d[x] = (sum[x] + part*(before[x]+after[x])) * inv
				sum[x] += after[x] - old[x]
			}
		}
	})
}
