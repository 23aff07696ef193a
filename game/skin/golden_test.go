package skin

import (
	"flag"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden pictures")

const goldenPx = 256

// Every family on skin types 2 and 5 looks as it did when it was last judged
// by eye (signs.tsv). Some freedom is left for other processors' rounding.
func TestGoldenPictures(t *testing.T) {
	for _, s := range examples() {
		for _, skinType := range []int{2, 5} {
			s.SkinType = skinType
			got := Draw(s, DefaultView(s, goldenPx))
			path := filepath.Join("testdata", "golden", fmt.Sprintf("%s-%d.png", s.Family, skinType))
			compareGolden(t, path, got)
		}
	}
}

func readPNG(path string) (*image.RGBA, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out, nil
}

// difference gives the mean and the 99th percentile of the absolute
// differences between two pictures' bytes; pictures of two sizes differ fully.
func difference(a, b *image.RGBA) (mean, most float64) {
	if a.Rect != b.Rect {
		return 255, 255
	}
	all := make([]int, 0, len(a.Pix))
	sum := 0
	for i := range a.Pix {
		if i%4 == 3 {
			continue
		}
		d := int(a.Pix[i]) - int(b.Pix[i])
		if d < 0 {
			d = -d
		}
		all = append(all, d)
		sum += d
	}
	slices.Sort(all)
	return float64(sum) / float64(len(all)), float64(all[len(all)*99/100])
}

// compareGolden holds a picture against its file, or with -update writes it.
func compareGolden(t *testing.T, path string, got *image.RGBA) {
	t.Helper()
	if *update {
		writePNG(t, path, got)
		return
	}
	want, err := readPNG(path)
	if err != nil {
		t.Error(err)
		return
	}
	if mean, most := difference(got, want); mean > 1.5 || most > 16 {
		t.Errorf("%s: mean difference %.2f (at most 1.5), 99th percentile %.0f (at most 16)", path, mean, most)
	}
}
