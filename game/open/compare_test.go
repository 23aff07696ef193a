package open

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// What may differ from a golden picture: the shade of edges, which graphics
// drivers round each in its own way, and the golden picture's palette. Both are
// small and everywhere. Both pictures are softened first, and then measured
// three ways: as a whole, by the worst thousandth of their pixels, and by the
// worst tile, which sees a single digit that changed.
const (
	meanLimit  = 0.8
	worstLimit = 20
	tileLimit  = 6.0
	tilePx     = 16
)

type difference struct {
	mean   float64
	worst  int     // that 99.9 % of the pixels do not exceed
	tile   float64 // the mean of the worst tile
	tileAt image.Point
}

func (d difference) err() error {
	if d.mean <= meanLimit && d.worst <= worstLimit && d.tile <= tileLimit {
		return nil
	}
	return fmt.Errorf("mean difference %.2f (limit %.2f), the worst thousandth above %d (limit %d), the worst tile %.1f at %v (limit %.1f)",
		d.mean, meanLimit, d.worst, worstLimit, d.tile, d.tileAt, tileLimit)
}

// differ measures two pictures of one size.
func differ(a, b *image.RGBA) difference {
	w, h := a.Rect.Dx(), a.Rect.Dy()
	a, b = softened(a), softened(b)
	per := make([]int, w*h) // of each pixel, its worst channel
	sum := 0
	tiles := make([]int, ((w+tilePx-1)/tilePx)*((h+tilePx-1)/tilePx))
	across := (w + tilePx - 1) / tilePx
	for i := range per {
		for k := range 3 {
			per[i] = max(per[i], apart(a.Pix[4*i+k], b.Pix[4*i+k]))
		}
		sum += per[i]
		tiles[(i/w/tilePx)*across+i%w/tilePx] += per[i]
	}
	d := difference{mean: float64(sum) / float64(len(per))}
	for i, n := range tiles {
		at := image.Pt(i%across*tilePx, i/across*tilePx)
		area := min(tilePx, w-at.X) * min(tilePx, h-at.Y)
		if m := float64(n) / float64(area); m > d.tile {
			d.tile, d.tileAt = m, at
		}
	}
	slices.Sort(per)
	d.worst = per[len(per)-1-len(per)/1000]
	return d
}

func apart(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }

// softened is the mean of each pixel and its eight neighbours.
func softened(img *image.RGBA) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	out := image.NewRGBA(img.Rect)
	for y := range h {
		for x := range w {
			var sum [3]int
			n := 0
			for v := max(0, y-1); v <= min(h-1, y+1); v++ {
				for u := max(0, x-1); u <= min(w-1, x+1); u++ {
					p := img.Pix[4*(v*w+u):]
					sum[0], sum[1], sum[2] = sum[0]+int(p[0]), sum[1]+int(p[1]), sum[2]+int(p[2])
					n++
				}
			}
			p := out.Pix[4*(y*w+x):]
			p[0], p[1], p[2], p[3] = uint8(sum[0]/n), uint8(sum[1]/n), uint8(sum[2]/n), 255
		}
	}
	return out
}

// halved takes every four pixels together.
func halved(img *image.RGBA) *image.RGBA {
	w, h := img.Rect.Dx()/2, img.Rect.Dy()/2
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			at := img.PixOffset(2*x, 2*y)
			for k := range 4 {
				s := int(img.Pix[at+k]) + int(img.Pix[at+4+k]) + int(img.Pix[at+img.Stride+k]) + int(img.Pix[at+img.Stride+4+k])
				out.Pix[4*(y*w+x)+k] = uint8((s + 2) / 4)
			}
		}
	}
	return out
}

// compareGolden holds a picture against its file, or with -update writes it.
func compareGolden(t *testing.T, path string, got *image.RGBA) {
	t.Helper()
	if *update {
		writePNG(t, path, paletted(got))
		return
	}
	want, err := readPNG(path)
	if err != nil {
		t.Fatalf("no golden picture (make it with -update, then look at it): %v", err)
	}
	if want.Rect != got.Rect {
		t.Fatalf("%s is %v, now %v", path, want.Rect.Size(), got.Rect.Size())
	}
	got = kept256(got) // in the same number of colours as the file
	if err := differ(want, got).err(); err != nil {
		t.Errorf("%s: %v", path, err)
	}
}

// kept256 is a picture as its file would keep it.
func kept256(img *image.RGBA) *image.RGBA {
	few := paletted(img)
	out := image.NewRGBA(img.Rect)
	draw.Draw(out, out.Rect, few, few.Bounds().Min, draw.Src)
	return out
}

func readPNG(path string) (*image.RGBA, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out, nil
}

func writePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// The comparison must see what a person would: one digit that changed, a page
// that moved by a pixel. It must not see another rounding of edges.
func TestComparisonSeesOneDigit(t *testing.T) {
	v := pageNamed(t, "plan").shown(t, usual)
	before, err := v.picture()
	if err != nil {
		t.Fatal(err)
	}
	v.keys("Up", "Down") // there and back: the same picture
	again, err := v.picture()
	if err != nil {
		t.Fatal(err)
	}
	if err := differ(before, again).err(); err != nil {
		t.Errorf("the same page differs: %v", err)
	}
	v.keys("Tab", "2", "Enter", "shift+Tab") // another number of seconds
	v.wants("[2.0 s]")
	changed, err := v.picture()
	if err != nil {
		t.Fatal(err)
	}
	if differ(before, changed).err() == nil {
		t.Error("a digit that changed goes unseen")
	}
	moved := image.NewRGBA(before.Rect)
	draw.Draw(moved, moved.Rect, before, image.Pt(0, 1), draw.Src)
	if differ(before, moved).err() == nil {
		t.Error("a page that moved by a pixel goes unseen")
	}
	rounded := image.NewRGBA(before.Rect)
	for i, p := range before.Pix {
		rounded.Pix[i] = uint8(min(max(int(p)+i*7919>>4%3-1, 0), 255))
	}
	if err := differ(before, rounded).err(); err != nil {
		t.Errorf("another rounding is seen: %v", err)
	}
}
