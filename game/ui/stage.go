package ui

import (
	"image"
	"image/color"
	"math"
	"strconv"
)

// Stage is a live picture that is worked on: the pointer's place on it, the
// button, the wheel and every key go to the screen. Places are parts of its
// width and height, 0 to 1, from the upper left corner.
//
// Move sends Pointed, the button PointerDown and PointerUp, the wheel Step.
// While the Stage has the focus no key but Tab is taken by the kit.
type Stage struct {
	ID      string
	Version int // raise it when the pixels change
	Image   image.Image
	Alt     string
	MaxW    float64
	MaxH    float64
	ScaleMM float64 // width of what is shown, mm: draws a scale bar on the picture; 0 none
	Shapes  []Shape // drawn over the picture, in order
}

// Shape is a line or an area over a Stage.
type Shape struct {
	Points []Point // parts of the Stage's width and height
	Color  color.RGBA
	WidthW float64 // of the line, as a part of the Stage's width; 0 fills
}

// ShapeDisc is a filled disc of radius r, a part of the Stage's width; aspect
// is the Stage's width over its height.
func ShapeDisc(x, y, r, aspect float64, col color.RGBA) Shape {
	const n = 28
	pts := make([]Point, n)
	for i := range pts {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		pts[i] = Point{x + r*c, y + r*s*aspect}
	}
	return Shape{Points: pts, Color: col}
}

func (n Stage) kind() string { return "Stage" }

func (n Stage) size(w float64) (pw, ph float64) {
	return Picture{Image: n.Image, MaxW: n.MaxW, MaxH: n.MaxH}.size(w)
}

func (n Stage) widths(*canvas) (float64, float64) {
	w := n.MaxW
	if w == 0 && n.Image != nil {
		w = float64(n.Image.Bounds().Dx())
	}
	pw, _ := n.size(w)
	return math.Min(240, pw), pw
}

func (n Stage) heights(_ *canvas, w float64) (float64, float64) {
	_, h := n.size(w)
	return h, h
}

func (n Stage) place(c *canvas, r Rect) {
	w, h := n.size(r.W)
	if w <= 0 || h <= 0 {
		return
	}
	at := Rect{r.X, r.Y, w, h}
	c.add(DrawImage{ID: n.ID, Version: n.Version, Image: n.Image, Rect: at, Live: true})
	c.clipped(at, func() {
		for _, s := range n.Shapes {
			c.shape(s, at)
		}
		if n.ScaleMM > 0 {
			n.scaleBar(c, at)
		}
	})
	if c.focused(n.ID) {
		c.ring(at, corner)
	}
	c.hitTrack(n.ID, -1, at, at)
	c.stop(n.ID, at, n, true)
}

// shape places a shape on the picture.
func (c *canvas) shape(s Shape, at Rect) {
	segs := make([]Seg, 0, len(s.Points)+1)
	kind := byte('M')
	for _, p := range s.Points {
		segs = append(segs, Seg{Kind: kind, X: at.X + p.X*at.W, Y: at.Y + p.Y*at.H})
		kind = 'L'
	}
	if s.WidthW == 0 {
		segs = append(segs, Seg{Kind: 'Z'})
	}
	c.add(Path{Segs: segs, W: s.WidthW * at.W, Color: s.Color})
}

// scaleBar draws a bar of a round length on the picture, on a dark ground that
// keeps it in sight on any skin.
func (n Stage) scaleBar(c *canvas, at Rect) {
	mm := roundLength(n.ScaleMM * 0.25)
	px := at.W * mm / n.ScaleMM
	s := c.role(Small)
	text := Qty(strconv.FormatFloat(mm, 'g', -1, 64), "mm")
	white, ground := color.RGBA{255, 255, 255, 255}, color.RGBA{0, 0, 0, 120}
	box := Rect{at.X + 16, at.Y + at.H - 16 - s.line - 8, px + s.width(text) + 32, s.line + 8}
	c.add(FillRect{box, corner, ground})
	mid := math.Round(box.Y + box.H/2)
	for _, bar := range []Rect{{box.X + 12, mid - 1, px, 2}, {box.X + 12, mid - 5, 2, 10}, {box.X + 10 + px, mid - 5, 2, 10}} {
		c.add(FillRect{bar, 0, white})
	}
	s.color = white
	c.text(s, box.X+20+px, box.Y+4+s.baseline(s.line), text)
}

func (n Stage) access() []Access {
	return []Access{{Role: "picture", ID: n.ID, Name: n.Alt, State: []string{"drawn"}}}
}

// stagePoint gives the place of a point as parts of the Stage, kept inside it.
func stagePoint(track Rect, x, y float64) (fx, fy float64) {
	return within(x, track.X, track.X+track.W), within(y, track.Y, track.Y+track.H)
}
