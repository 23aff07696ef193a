package ui

import (
	"image"
	"image/color"
	"math"
)

// Rect is a rectangle in logical pixels.
type Rect struct{ X, Y, W, H float64 }

// Has tells whether the point lies in the rectangle.
func (r Rect) Has(x, y float64) bool { return x >= r.X && x < r.X+r.W && y >= r.Y && y < r.Y+r.H }

// Outset grows the rectangle by d on every side (shrinks for negative d).
func (r Rect) Outset(d float64) Rect { return Rect{r.X - d, r.Y - d, r.W + 2*d, r.H + 2*d} }

// Inset takes padding off.
func (r Rect) Inset(p Pad) Rect {
	return Rect{r.X + p.Left, r.Y + p.Top, math.Max(0, r.W-p.Left-p.Right), math.Max(0, r.H-p.Top-p.Bottom)}
}

// Intersect is the common part; its W or H is 0 where there is none.
func (r Rect) Intersect(o Rect) Rect {
	x0, y0 := math.Max(r.X, o.X), math.Max(r.Y, o.Y)
	x1, y1 := math.Min(r.X+r.W, o.X+o.W), math.Min(r.Y+r.H, o.Y+o.H)
	return Rect{x0, y0, math.Max(0, x1-x0), math.Max(0, y1-y0)}
}

// Empty tells whether the rectangle has no area.
func (r Rect) Empty() bool { return r.W <= 0 || r.H <= 0 }

// Op is one thing to draw. A display list is drawn in order; every position is
// absolute, so a painter has nothing left to decide but pixels.
type Op interface{ op() }

// FillRect fills a rectangle. With Radius 0 a painter puts its edges on whole
// device pixels, so that hairlines are crisp.
type FillRect struct {
	Rect   Rect
	Radius float64
	Color  color.RGBA
}

// StrokeRect draws an outline of width W whose middle runs along the edge.
type StrokeRect struct {
	Rect   Rect
	Radius float64
	W      float64
	Color  color.RGBA
}

// TextRun is one line of text in one style. X is the pen's start and Y the
// baseline.
type TextRun struct {
	Font    FontID
	Size    float64
	Tabular bool
	X, Y    float64
	W       float64 // its measured advance
	Text    string
	Color   color.RGBA
}

// Seg is a piece of a Path. Kind 'M' moves to and 'L' draws to X, Y; 'C' draws
// a cubic curve with control points X1, Y1 and X2, Y2; 'Z' closes.
type Seg struct {
	Kind           byte
	X1, Y1, X2, Y2 float64
	X, Y           float64
}

// Path is filled when W is 0, else stroked with width W and round joins.
type Path struct {
	Segs  []Seg
	W     float64
	Color color.RGBA
}

// DrawImage draws an image scaled into Rect. ID and Version name its pixels for
// a texture cache.
type DrawImage struct {
	ID      string
	Version int
	Image   image.Image
	Rect    Rect
	Radius  float64
	Live    bool // it changes often: scaled by the painter's quickest means
}

// Clip limits what follows to Rect, until the next Clip. It is not a stack:
// the layout has already intersected nested ones.
type Clip struct{ Rect Rect }

func (FillRect) op()   {}
func (StrokeRect) op() {}
func (TextRun) op()    {}
func (Path) op()       {}
func (DrawImage) op()  {}
func (Clip) op()       {}
