package window

import (
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"leastwatt/game/ui"
)

// painter draws display lists at a device scale and keeps what is costly to
// make: font faces and textures. One painter serves one device scale at a time;
// another scale only makes new faces.
type painter struct {
	glyphs   glyphs
	shapes   shapes
	textures textures
}

func newPainter() *painter { return &painter{} }

// paint draws a frame on a target whose pixels are device pixels. The first op
// of every frame fills the whole window.
func (p *painter) paint(dst *ebiten.Image, f *ui.Frame, scale float64) error {
	p.textures.begin()
	p.shapes.begin()
	to := dst
	for _, op := range f.Ops {
		switch op := op.(type) {
		case ui.Clip:
			r := deviceRect(op.Rect, scale)
			to = dst.SubImage(r).(*ebiten.Image)
		case ui.FillRect:
			p.shapes.fillRect(to, op, scale)
		case ui.StrokeRect:
			p.shapes.strokeRect(to, op, scale)
		case ui.Path:
			p.shapes.path(to, op, scale)
		case ui.TextRun:
			if err := p.glyphs.run(to, op, scale); err != nil {
				return err
			}
		case ui.DrawImage:
			p.textures.draw(to, op, scale)
		}
	}
	p.textures.end()
	p.shapes.end()
	return nil
}

// deviceRect puts a rectangle on whole device pixels. Edges that coincide in
// logical pixels coincide in device pixels.
func deviceRect(r ui.Rect, scale float64) image.Rectangle {
	edge := func(v float64) int { return int(math.Round(v * scale)) }
	return image.Rect(edge(r.X), edge(r.Y), edge(r.X+r.W), edge(r.Y+r.H))
}
