package window

import (
	"encoding/binary"
	"image"
	"image/draw"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
	raster "golang.org/x/image/vector"

	"leastwatt/game/ui"
)

// masks keeps coverage masks of curved shapes, by shape.
type masks struct {
	kept map[string]*ebiten.Image
	used map[string]bool
	key  []byte
	vs   []ebiten.Vertex
	is   []uint16
	z    raster.Rasterizer
}

// spareMasks are kept though the last frame did not use them.
const spareMasks = 400

func (m *masks) begin() {
	if m.kept == nil {
		m.kept = map[string]*ebiten.Image{}
	}
	m.used = map[string]bool{}
}

func (m *masks) end() {
	if len(m.kept)-len(m.used) <= spareMasks {
		return
	}
	for k, img := range m.kept {
		if !m.used[k] {
			img.Deallocate()
			delete(m.kept, k)
		}
	}
}

// grid is the fineness, in parts of a device pixel, to which a shape's place is
// rounded so that equal shapes share a mask.
const grid = 8

// path gives the mask of a path and the device pixel of its corner; nil where
// nothing would be seen. W above 0 strokes it.
func (m *masks) path(segs []ui.Seg, w, scale float64) (*ebiten.Image, image.Point) {
	minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	reach := func(x, y float64) {
		minX, maxX = math.Min(minX, x), math.Max(maxX, x)
		minY, maxY = math.Min(minY, y), math.Max(maxY, y)
	}
	for _, s := range segs {
		if s.Kind == 'Z' {
			continue
		}
		reach(s.X*scale, s.Y*scale)
		if s.Kind == 'C' {
			reach(s.X1*scale, s.Y1*scale)
			reach(s.X2*scale, s.Y2*scale)
		}
	}
	if !(minX <= maxX) || !(minY <= maxY) || math.IsInf(maxX-minX, 0) || math.IsInf(maxY-minY, 0) {
		return nil, image.Point{}
	}
	edge := w*scale/2 + 1
	at := image.Pt(int(math.Floor(minX-edge)), int(math.Floor(minY-edge)))
	size := image.Pt(int(math.Ceil(maxX+edge))-at.X, int(math.Ceil(maxY+edge))-at.Y)
	if size.X <= 0 || size.Y <= 0 || size.X > 8192 || size.Y > 8192 {
		return nil, image.Point{}
	}
	local := make([]ui.Seg, len(segs))
	m.key = m.key[:0]
	put := func(v float64, origin int) float64 {
		q := math.Round((v*scale - float64(origin)) * grid)
		m.key = binary.AppendVarint(m.key, int64(q))
		return q / grid
	}
	for i, s := range segs {
		m.key = append(m.key, s.Kind)
		l := ui.Seg{Kind: s.Kind}
		if s.Kind != 'Z' {
			l.X, l.Y = put(s.X, at.X), put(s.Y, at.Y)
		}
		if s.Kind == 'C' {
			l.X1, l.Y1, l.X2, l.Y2 = put(s.X1, at.X), put(s.Y1, at.Y), put(s.X2, at.X), put(s.Y2, at.Y)
		}
		local[i] = l
	}
	m.key = append(m.key, '|')
	put(w, 0)
	return m.get(size, func() { m.cover(local, w*scale) }), at
}

// corner gives the mask of a rounded rectangle of 2n by 2n pixels, filled or
// with a rim of width w: the four corners of any larger one.
func (m *masks) corner(n int, radius, w float64) *ebiten.Image {
	m.key = append(m.key[:0], '#')
	m.key = binary.AppendVarint(m.key, int64(n))
	m.key = binary.AppendVarint(m.key, int64(math.Round(radius*grid)))
	m.key = binary.AppendVarint(m.key, int64(math.Round(w*grid)))
	all := ui.Rect{W: float64(2 * n), H: float64(2 * n)}
	return m.get(image.Pt(2*n, 2*n), func() {
		m.fill(roundedSegs(all, radius), false)
		if w > 0 {
			m.fill(roundedSegs(all.Outset(-w), math.Max(0, radius-w)), true)
		}
	})
}

// get gives the mask under m.key, covering it first if it is new.
func (m *masks) get(size image.Point, cover func()) *ebiten.Image {
	if img, ok := m.kept[string(m.key)]; ok {
		m.used[string(m.key)] = true
		return img
	}
	k := string(m.key)
	m.z.Reset(size.X, size.Y)
	m.z.DrawOp = draw.Src
	cover()
	alpha := image.NewAlpha(image.Rectangle{Max: size})
	m.z.Draw(alpha, alpha.Bounds(), image.Opaque, image.Point{})
	pix := make([]byte, 4*len(alpha.Pix))
	for i, a := range alpha.Pix {
		pix[4*i], pix[4*i+1], pix[4*i+2], pix[4*i+3] = a, a, a, a
	}
	img := ebiten.NewImage(size.X, size.Y)
	img.WritePixels(pix)
	m.kept[k], m.used[k] = img, true
	return img
}

func (m *masks) cover(segs []ui.Seg, w float64) {
	if w > 0 {
		m.stroke(segs, w)
		return
	}
	m.fill(segs, false)
}

// fill adds the inside of a path; hole turns it round, which takes it off what
// is there.
func (m *masks) fill(segs []ui.Seg, hole bool) {
	if hole {
		segs = reversed(segs)
	}
	open := false
	for _, s := range segs {
		switch s.Kind {
		case 'M':
			if open {
				m.z.ClosePath()
			}
			m.z.MoveTo(float32(s.X), float32(s.Y))
			open = true
		case 'L':
			m.z.LineTo(float32(s.X), float32(s.Y))
		case 'C':
			m.z.CubeTo(float32(s.X1), float32(s.Y1), float32(s.X2), float32(s.Y2), float32(s.X), float32(s.Y))
		case 'Z':
			m.z.ClosePath()
			open = false
		}
	}
	if open {
		m.z.ClosePath()
	}
}

// reversed is a single closed path run backwards.
func reversed(segs []ui.Seg) []ui.Seg {
	var pts []ui.Seg
	for _, s := range segs {
		if s.Kind != 'Z' {
			pts = append(pts, s)
		}
	}
	last := len(pts) - 1
	out := []ui.Seg{{Kind: 'M', X: pts[last].X, Y: pts[last].Y}}
	for i := last; i > 0; i-- {
		s := pts[i]
		to := pts[i-1]
		out = append(out, ui.Seg{Kind: s.Kind, X1: s.X2, Y1: s.Y2, X2: s.X1, Y2: s.Y1, X: to.X, Y: to.Y})
	}
	return append(out, ui.Seg{Kind: 'Z'})
}

// stroke adds a line of width w along a path. The line's outline comes as
// triangles; turned the same way round, their coverage adds up to the whole.
func (m *masks) stroke(segs []ui.Seg, w float64) {
	var p vector.Path
	for _, s := range segs {
		switch s.Kind {
		case 'M':
			p.MoveTo(float32(s.X), float32(s.Y))
		case 'L':
			p.LineTo(float32(s.X), float32(s.Y))
		case 'C':
			p.CubicTo(float32(s.X1), float32(s.Y1), float32(s.X2), float32(s.Y2), float32(s.X), float32(s.Y))
		case 'Z':
			p.Close()
		}
	}
	m.vs, m.is = p.AppendVerticesAndIndicesForStroke(m.vs[:0], m.is[:0], &vector.StrokeOptions{
		Width: float32(w), LineJoin: vector.LineJoinRound, LineCap: vector.LineCapRound,
	})
	for i := 0; i+2 < len(m.is); i += 3 {
		a, b, c := m.vs[m.is[i]], m.vs[m.is[i+1]], m.vs[m.is[i+2]]
		if (b.DstX-a.DstX)*(c.DstY-a.DstY)-(b.DstY-a.DstY)*(c.DstX-a.DstX) < 0 {
			b, c = c, b
		}
		m.z.MoveTo(a.DstX, a.DstY)
		m.z.LineTo(b.DstX, b.DstY)
		m.z.LineTo(c.DstX, c.DstY)
		m.z.ClosePath()
	}
}
