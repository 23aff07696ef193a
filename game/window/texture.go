package window

import (
	"image"
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"golang.org/x/image/draw"

	"leastwatt/game/ui"
)

type textureKey struct {
	id            string
	version, w, h int
	radius        float64
}

// textures keeps the pictures of the last frames, each scaled to the device
// pixels it is shown in: scaling once on the processor is sharper than the
// graphics card's filter and the same everywhere.
type textures struct {
	kept map[textureKey]*ebiten.Image
	used map[textureKey]bool
	live map[string]int // version of each live picture that the card holds
}

func (t *textures) begin() {
	if t.kept == nil {
		t.kept, t.live = map[textureKey]*ebiten.Image{}, map[string]int{}
	}
	t.used = map[textureKey]bool{}
}

// sparePictures are kept though the last frame did not show them, so that going
// back and forth between two screens scales nothing anew.
const sparePictures = 24

func (t *textures) end() {
	if len(t.kept)-len(t.used) <= sparePictures {
		return
	}
	for k, img := range t.kept {
		if !t.used[k] {
			img.Deallocate()
			delete(t.kept, k)
		}
	}
}

func (t *textures) draw(dst *ebiten.Image, op ui.DrawImage, scale float64) {
	r := deviceRect(op.Rect, scale)
	if r.Empty() || op.Image == nil {
		return
	}
	if op.Live {
		t.drawLive(dst, op, r)
		return
	}
	k := textureKey{op.ID, op.Version, r.Dx(), r.Dy(), op.Radius * scale}
	img, ok := t.kept[k]
	if !ok {
		img = ebiten.NewImage(r.Dx(), r.Dy())
		img.WritePixels(scaled(op.Image, r.Dx(), r.Dy(), op.Radius*scale).Pix)
		t.kept[k] = img
	}
	t.used[k] = true
	var d ebiten.DrawImageOptions
	d.GeoM.Translate(float64(r.Min.X), float64(r.Min.Y))
	dst.DrawImage(img, &d)
}

// drawLive draws a picture that changes often: its own pixels go to the card
// whenever they are new, and the card scales them.
func (t *textures) drawLive(dst *ebiten.Image, op ui.DrawImage, r image.Rectangle) {
	src, ok := op.Image.(*image.RGBA)
	if !ok {
		b := op.Image.Bounds()
		src = image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
		draw.Copy(src, image.Point{}, op.Image, b, draw.Src, nil)
	}
	b := src.Bounds()
	k := textureKey{id: op.ID, w: b.Dx(), h: b.Dy()}
	img := t.kept[k]
	fresh := img == nil
	if fresh {
		img = ebiten.NewImage(b.Dx(), b.Dy())
		t.kept[k] = img
	}
	if fresh || t.live[op.ID] != op.Version {
		img.WritePixels(src.Pix)
		t.live[op.ID] = op.Version
	}
	t.used[k] = true
	var d ebiten.DrawImageOptions
	d.Filter = ebiten.FilterLinear
	d.GeoM.Scale(float64(r.Dx())/float64(b.Dx()), float64(r.Dy())/float64(b.Dy()))
	d.GeoM.Translate(float64(r.Min.X), float64(r.Min.Y))
	dst.DrawImage(img, &d)
}

// scaled gives an image at a size, with rounded corners.
func scaled(src image.Image, w, h int, radius float64) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.CatmullRom.Scale(out, out.Bounds(), src, src.Bounds(), draw.Src, nil)
	n := int(math.Ceil(radius))
	for y := range min(n, h) {
		for x := range min(n, w) {
			// How much of the pixel lies inside the corner's circle.
			d := math.Hypot(radius-(float64(x)+0.5), radius-(float64(y)+0.5))
			a := math.Max(0, math.Min(1, radius-d+0.5))
			if a == 1 {
				continue
			}
			for _, p := range [][2]int{{x, y}, {w - 1 - x, y}, {x, h - 1 - y}, {w - 1 - x, h - 1 - y}} {
				c := out.RGBAAt(p[0], p[1])
				f := func(v uint8) uint8 { return uint8(math.Round(float64(v) * a)) }
				out.SetRGBA(p[0], p[1], color.RGBA{f(c.R), f(c.G), f(c.B), f(c.A)})
			}
		}
	}
	return out
}
