package window

import (
	"image"
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"leastwatt/game/ui"
)

// shapes draws rectangles and paths. Straight edges go to whole device pixels
// and are plain fills. Curved ones are covered exactly by a rasteriser on the
// processor, kept as masks and tinted when drawn: edges are then the same on
// every graphics card, and a screen repaints at the cost of its pictures.
type shapes struct {
	white *ebiten.Image
	masks masks
}

func (s *shapes) begin() { s.masks.begin() }
func (s *shapes) end()   { s.masks.end() }

func (s *shapes) pixel() *ebiten.Image {
	if s.white == nil {
		whole := ebiten.NewImage(3, 3)
		whole.Fill(color.White)
		// The middle of a white patch, so that no filter reaches past it.
		s.white = whole.SubImage(whole.Bounds().Inset(1)).(*ebiten.Image)
	}
	return s.white
}

// block fills whole device pixels.
func (s *shapes) block(dst *ebiten.Image, r image.Rectangle, c color.RGBA) {
	r = r.Intersect(dst.Bounds())
	if r.Empty() {
		return
	}
	var d ebiten.DrawImageOptions
	d.GeoM.Scale(float64(r.Dx()), float64(r.Dy()))
	d.GeoM.Translate(float64(r.Min.X), float64(r.Min.Y))
	d.ColorScale.ScaleWithColor(c)
	dst.DrawImage(s.pixel(), &d)
}

// stamp draws a part of a mask with its corner at a device pixel.
func (s *shapes) stamp(dst, mask *ebiten.Image, at image.Point, c color.RGBA) {
	var d ebiten.DrawImageOptions
	d.GeoM.Translate(float64(at.X), float64(at.Y))
	d.ColorScale.ScaleWithColor(c)
	dst.DrawImage(mask, &d)
}

func (s *shapes) fillRect(dst *ebiten.Image, op ui.FillRect, scale float64) {
	r := deviceRect(op.Rect, scale)
	if r.Dx() == 0 && op.Rect.W > 0 {
		r.Max.X++ // a hairline never vanishes
	}
	if r.Dy() == 0 && op.Rect.H > 0 {
		r.Max.Y++
	}
	if op.Radius <= 0 {
		s.block(dst, r, op.Color)
		return
	}
	if small(op.Rect, scale) {
		s.path(dst, ui.Path{Segs: roundedSegs(op.Rect, op.Radius), Color: op.Color}, scale)
		return
	}
	n := int(math.Ceil(op.Radius * scale))
	s.slices(dst, r, n, s.masks.corner(n, op.Radius*scale, 0), op.Color, true)
}

func (s *shapes) strokeRect(dst *ebiten.Image, op ui.StrokeRect, scale float64) {
	if small(op.Rect, scale) {
		s.path(dst, ui.Path{Segs: roundedSegs(op.Rect, op.Radius), W: op.W, Color: op.Color}, scale)
		return
	}
	w := int(math.Max(1, math.Round(op.W*scale)))
	r := deviceRect(op.Rect.Outset(op.W/2), scale)
	radius := 0.0
	if op.Radius > 0 {
		radius = (op.Radius + op.W/2) * scale
	}
	n := max(w, int(math.Ceil(radius)))
	s.slices(dst, r, n, s.masks.corner(n, radius, float64(w)), op.Color, false)
	s.block(dst, image.Rect(r.Min.X+n, r.Min.Y, r.Max.X-n, r.Min.Y+w), op.Color)
	s.block(dst, image.Rect(r.Min.X+n, r.Max.Y-w, r.Max.X-n, r.Max.Y), op.Color)
	s.block(dst, image.Rect(r.Min.X, r.Min.Y+n, r.Min.X+w, r.Max.Y-n), op.Color)
	s.block(dst, image.Rect(r.Max.X-w, r.Min.Y+n, r.Max.X, r.Max.Y-n), op.Color)
}

// small tells whether a rounded rectangle is drawn as one mask: knobs, dots and
// bars, whose place must not be rounded to whole pixels.
func small(r ui.Rect, scale float64) bool {
	return math.Min(r.W, r.H)*scale <= 48 && r.W*r.H*scale*scale <= 64*64
}

// slices draws the four corners of a large rounded rectangle, n pixels each,
// from a mask of all four side by side, and fills between them if asked to.
func (s *shapes) slices(dst *ebiten.Image, r image.Rectangle, n int, corners *ebiten.Image, c color.RGBA, fill bool) {
	n = min(n, r.Dx()/2, r.Dy()/2)
	b := corners.Bounds()
	part := func(x, y int) *ebiten.Image {
		return corners.SubImage(image.Rect(x, y, x+n, y+n)).(*ebiten.Image)
	}
	s.stamp(dst, part(b.Min.X, b.Min.Y), r.Min, c)
	s.stamp(dst, part(b.Max.X-n, b.Min.Y), image.Pt(r.Max.X-n, r.Min.Y), c)
	s.stamp(dst, part(b.Min.X, b.Max.Y-n), image.Pt(r.Min.X, r.Max.Y-n), c)
	s.stamp(dst, part(b.Max.X-n, b.Max.Y-n), image.Pt(r.Max.X-n, r.Max.Y-n), c)
	if fill {
		s.block(dst, image.Rect(r.Min.X+n, r.Min.Y, r.Max.X-n, r.Min.Y+n), c)
		s.block(dst, image.Rect(r.Min.X, r.Min.Y+n, r.Max.X, r.Max.Y-n), c)
		s.block(dst, image.Rect(r.Min.X+n, r.Max.Y-n, r.Max.X-n, r.Max.Y), c)
	}
}

func (s *shapes) path(dst *ebiten.Image, op ui.Path, scale float64) {
	mask, at := s.masks.path(op.Segs, op.W, scale)
	if mask != nil {
		s.stamp(dst, mask, at, op.Color)
	}
}

// roundedSegs is a rectangle with round corners as a path.
func roundedSegs(r ui.Rect, radius float64) []ui.Seg {
	rad := math.Min(radius, math.Min(r.W, r.H)/2)
	const k = 1 - 0.5523 // a quarter circle by a cubic curve
	x0, y0, x1, y1 := r.X, r.Y, r.X+r.W, r.Y+r.H
	line := func(x, y float64) ui.Seg { return ui.Seg{Kind: 'L', X: x, Y: y} }
	curve := func(ax, ay, bx, by, x, y float64) ui.Seg {
		return ui.Seg{Kind: 'C', X1: ax, Y1: ay, X2: bx, Y2: by, X: x, Y: y}
	}
	return []ui.Seg{
		{Kind: 'M', X: x0 + rad, Y: y0},
		line(x1-rad, y0), curve(x1-k*rad, y0, x1, y0+k*rad, x1, y0+rad),
		line(x1, y1-rad), curve(x1, y1-k*rad, x1-k*rad, y1, x1-rad, y1),
		line(x0+rad, y1), curve(x0+k*rad, y1, x0, y1-k*rad, x0, y1-rad),
		line(x0, y0+rad), curve(x0, y0+k*rad, x0+k*rad, y0, x0+rad, y0),
		{Kind: 'Z'},
	}
}
