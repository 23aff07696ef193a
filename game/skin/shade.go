package skin

import (
	"image"
	"math"
	"sync"
)

// Light: a softbox to the upper left, about 36 degrees above the skin, and a
// dim surround. Lower and skin looks like leather, higher and its lines vanish.
var (
	lightX, lightY, lightZ = float32(-0.592), float32(-0.549), float32(0.592)
)

const (
	key       = 0.61 // share of the light on level skin that the lamp gives
	fill      = 0.15 // and the room's far side
	ambient   = 0.24 // and the rest of the room
	fillX     = -0.55
	fillY     = -0.50
	exposure  = 1.06 // one for all skin types
	softbox   = 0.20 // half its width as seen from the skin, as a slope
	reflectF0 = 0.028
)

// Shade lights the fields and returns the picture.
func (f *Fields) Shade(e Exam) *image.RGBA {
	return shade(&canvas{Fields: f, exam: e})
}

// shade turns fields into pixels: colour by the optics, light by the relief,
// light that wanders under the skin, shine, exposure.
func shade(c *canvas) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, c.w, c.h))
	c.shadeInto(img, image.Point{}, img.Rect)
	return img
}

// shadeInto shades a canvas that is the part of img from corner on, and writes
// the pixels within keep, which is a part of img as well. What lies on the
// canvas but outside keep only lends its light and shade.
func (c *canvas) shadeInto(img *image.RGBA, corner image.Point, keep image.Rectangle) {
	g := c.grid
	ar, ag, ab := c.albedo(keep.Sub(corner))
	flat := c.exam == ExamDermoscope
	var lit *lighting
	if flat {
		lit = c.evenLight()
	} else {
		lit = c.light()
	}
	table := toneTable()
	noise := uint32(mix64(c.s.Seed))
	half := float32(img.Rect.Dx()) / 2
	halfY := float32(img.Rect.Dy()) / 2
	split(keep.Dy(), func(y0, y1 int) {
		for row := keep.Min.Y + y0; row < keep.Min.Y+y1; row++ {
			out := img.Pix[row*img.Stride:]
			for col := keep.Min.X; col < keep.Max.X; col++ {
				i := (row-corner.Y)*g.w + col - corner.X
				shadeHair, hair := 1-c.HairShade[i], c.Hair[i]
				r, gr, b := ar[i]*lit.r[i]*shadeHair, ag[i]*lit.g[i]*shadeHair, ab[i]*lit.b[i]*shadeHair
				s := lit.shine[i]
				r, gr, b = r+s, gr+s, b+s
				if hair > 0 {
					e := lit.g[i] * hair
					r, gr, b = r*(1-hair)+c.HairTone[0]*e, gr*(1-hair)+c.HairTone[1]*e, b*(1-hair)+c.HairTone[2]*e
				}
				// A lens darkens toward the corners; a sensor is a little noisy.
				dx, dy := (float32(col)+0.5-half)/half, (float32(row)+0.5-halfY)/half
				k := exposure * (1 - 0.07*max(dx*dx+dy*dy-0.3, 0))
				if flat {
					k *= 1 - 0.97*smooth(0.955, 1.0, sqrt32(dx*dx+dy*dy))
				}
				h := hash2(noise, int32(col), int32(row))
				grain := (low16(h) + high16(h) - 1) * 0.009
				out[col*4] = table.at(r*k, grain)
				out[col*4+1] = table.at(gr*k, grain)
				out[col*4+2] = table.at(b*k, grain)
				out[col*4+3] = 255
			}
		}
	})
}

// albedo runs the optics over every pixel of a part.
func (c *canvas) albedo(part image.Rectangle) (r, g, b []float32) {
	r, g, b = c.plane(), c.plane(), c.plane()
	v, table := &c.Cover, plainColours()
	heat := c.Heat
	split(part.Dy(), func(y0, y1 int) {
		for row := part.Min.Y + y0; row < part.Min.Y+y1; row++ {
			for i := row*c.w + part.Min.X; i < row*c.w+part.Max.X; i++ {
				var cr, cg, cb float32
				if (heat == nil || !heat.here(i)) && c.Oxygen[i] == plainOxygen && c.Scatter[i] == 1 && c.Epidermis[i] == 1 && c.Deep[i] == 0 {
					cr, cg, cb = table.colour(c.Melanin[i], c.Blood[i])
				} else {
					cr, cg, cb = c.tissueAt(i).colour()
				}
				k := 1 - v.Share[i]
				r[i], g[i], b[i] = cr*k+v.R[i], cg*k+v.G[i], cb*k+v.B[i]
			}
		}
	})
	return r, g, b
}

// lighting is what reaches each pixel: light of three colours, and the shine.
type lighting struct{ r, g, b, shine []float32 }

// evenLight is the lit ring of a polarised dermoscope: no shadow, no shine,
// only deep pits stay darker.
func (c *canvas) evenLight() *lighting {
	e := c.filled(1)
	low := c.blur(c.Height, 0.35)
	for i := range e {
		e[i] = clamp(1-0.5*max(low[i]-c.Height[i], 0), 0.6, 1) * 1.03
	}
	return &lighting{r: e, g: e, b: e, shine: c.plane()}
}

// light computes the light of the lamp with shadows, the light from around,
// its wandering under the skin, and the shine.
func (c *canvas) light() *lighting {
	g := c.grid
	shadow := c.shadows()
	e, shine := g.plane(), g.plane()
	inv := 0.5 / g.px
	h := c.Height
	g.rows(func(y0, y1 int) {
		for row := y0; row < y1; row++ {
			up, down := max(row-1, 0)*g.w, min(row+1, g.h-1)*g.w
			for col := range g.w {
				i := row*g.w + col
				left, right := max(col-1, 0), min(col+1, g.w-1)
				gx := (h[row*g.w+right] - h[row*g.w+left]) * inv
				gy := (h[down+col] - h[up+col]) * inv
				nz := 1 / sqrt32(1+gx*gx+gy*gy)
				nl := (-gx*lightX - gy*lightY + lightZ) * nz
				wrapped := max((nl+0.2)/1.2, 0) * (1.2 / 0.792)
				// The room's far wall returns some light to the shaded side.
				bounce := max(gx*fillX+gy*fillY+1, 0) * nz
				e[i] = wrapped*shadow[i]*key + bounce*fill + ambient*(0.55+0.45*nz)
				shine[i] = c.shineAt(i, -gx*nz, -gy*nz, nz, max(nl, 0)*shadow[i])
			}
		}
	})
	return c.wander(e, shine)
}

// shineAt is the mirror part of the light: a broad sheen of rough skin and the
// soft image of the lamp on smooth, wet or taut surfaces.
func (c *canvas) shineAt(i int, nx, ny, nz, nl float32) float32 {
	gloss := c.Gloss[i]
	if gloss < 0.01 || nl <= 0 {
		return 0
	}
	m := clamp(c.Rough[i], 0.08, 0.8)
	// Half vector between lamp and eye (straight above).
	const hx, hy, hz = -0.3318, -0.3077, 0.8922
	nh := max(nx*hx+ny*hy+nz*hz, 0)
	a2 := m * m * 0.5
	den := nh*nh*(a2-1) + 1
	sheen := a2 / (3.1416 * den * den) * nl / (4 * max(nz, 0.6) * lightZ) * reflectF0
	// Mirror the eye in the surface and see where it meets the softbox.
	rx, ry, rz := 2*nz*nx, 2*nz*ny, 2*nz*nz-1
	toward := rx*lightX + ry*lightY + rz*lightZ
	if toward > 0.3 {
		u := (rx*0.680 - ry*0.733) / toward
		v := (rx*0.434 + ry*0.402 + rz*0.806) / toward
		blur := 0.025 + m*m*2.2
		half := float32(softbox)
		w := smooth(half+blur, half-blur, abs32(u)) * smooth(half+blur, half-blur, abs32(v))
		if w > 0 {
			k := half / (half + blur)
			sheen += w * 0.44 * k * k
		}
	}
	return sheen * gloss * 1.5
}

// wander lets light spread under the skin: red farther than green and blue.
// Pits and the feet of lumps get less light, more so in blue, applied after
// the spreading or every lump would wear an orange rim.
func (c *canvas) wander(e, shine []float32) *lighting {
	g := c.grid
	er, eg, eb := g.blur(e, 0.40), g.blur(e, 0.22), g.blur(e, 0.15)
	pits := c.cavities()
	r, gr, b := g.plane(), g.plane(), g.plane()
	g.rows(func(y0, y1 int) {
		for i := y0 * g.w; i < y1*g.w; i++ {
			// Light does not wander inside dead cover.
			k := 0.62 * (1 - 0.7*c.Cover.Share[i])
			a := pits[i]
			ra := sqrt32(a)
			r[i] = lerp(e[i], er[i], k) * ra
			gr[i] = lerp(e[i], eg[i], k) * ra * sqrt32(ra)
			b[i] = lerp(e[i], eb[i], k) * ra * (0.3*ra + 0.7*sqrt32(ra))
			shine[i] *= ra
		}
	})
	return &lighting{r: r, g: gr, b: b, shine: shine}
}

// cavities tells how open each spot is to the surround, 1 open to 0.35 deep,
// by comparing the surface with its own smoothed copies.
func (c *canvas) cavities() []float32 {
	a := c.filled(1)
	for _, step := range []struct{ sigma, k float32 }{{0.08, 2.4}, {0.35, 1.1}, {1.2, 0.45}} {
		low := c.blur(c.Height, step.sigma)
		for i := range a {
			if d := low[i] - c.Height[i]; d > 0 {
				a[i] *= max(1-step.k*d, 0.35)
			}
		}
	}
	for i := range a {
		a[i] = max(a[i], 0.42)
	}
	return a
}

// shadows carries the height of the shade away from the lamp, row by row, for
// six points of the softbox; their mean has soft edges that widen with
// distance, as real shadows do.
func (c *canvas) shadows() []float32 {
	corners := [6][3]float32{
		{lightX - 0.10, lightY + 0.02, lightZ - 0.12},
		{lightX + 0.02, lightY - 0.10, lightZ - 0.07},
		{lightX - 0.06, lightY + 0.07, lightZ - 0.02},
		{lightX + 0.07, lightY - 0.05, lightZ + 0.03},
		{lightX - 0.02, lightY + 0.08, lightZ + 0.08},
		{lightX + 0.08, lightY, lightZ + 0.14},
	}
	var parts [6][]float32
	var wg sync.WaitGroup
	for k, l := range corners {
		run := func() { parts[k] = c.shadowFrom(l[0], l[1], l[2]) }
		wg.Go(run)
	}
	wg.Wait()
	out := parts[0]
	c.rows(func(y0, y1 int) {
		for i := y0 * c.w; i < y1*c.w; i++ {
			out[i] = (out[i] + parts[1][i] + parts[2][i] + parts[3][i] + parts[4][i] + parts[5][i]) * (1.0 / 6)
		}
	})
	return out
}

// shadowFrom gives 1 in the light of one point and 0 in full shade.
func (c *canvas) shadowFrom(lx, ly, lz float32) []float32 {
	w, h := c.w, c.h
	out := c.plane()
	shift := lx / ly // columns toward the lamp per row up
	drop := lz / sqrt32(lx*lx+ly*ly) * sqrt32(1+shift*shift) * c.px
	soft := 1 / (0.06 + 1.2*c.px)
	prev, cur := make([]float32, w), make([]float32, w)
	copy(prev, c.Height[:w])
	whole := int(shift)
	part := shift - float32(whole)
	for y := range h {
		row := c.Height[y*w : y*w+w]
		for x := range w {
			s := row[x]
			if y > 0 {
				if a := x - whole - 1; a >= 0 {
					s = prev[a] + (prev[a+1]-prev[a])*(1-part) - drop
				}
			}
			over := s - row[x]
			out[y*w+x] = 1 - smooth(0, 1, over*soft)
			cur[x] = max(s, row[x])
		}
		prev, cur = cur, prev
	}
	return out
}

// tones maps linear light to sRGB bytes through a table over its square root,
// with a gentle shoulder above 0.72 so that shine does not clip.
type tones struct{ v [4097]float32 }

var toneTable = sync.OnceValue(func() *tones {
	t := &tones{}
	for i := range t.v {
		x := float64(i) / 4096 * 1.5
		x *= x
		if x > 0.72 {
			x = 0.72 + 0.28*(1-math.Exp(-(x-0.72)/0.28))
		}
		if x <= 0.0031308 {
			x *= 12.92
		} else {
			x = 1.055*math.Pow(x, 1/2.4) - 0.055
		}
		t.v[i] = float32(x * 255)
	}
	return t
})

func (t *tones) at(x, grain float32) byte {
	s := sqrt32(max(x, 0))
	s += grain
	i := int(clamp(s*(4096/1.5), 0, 4096))
	return byte(clamp(t.v[i]+0.5, 0, 255))
}
