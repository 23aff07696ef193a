package window

import (
	"flag"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"leastwatt/game/ui"
)

var (
	update = flag.Bool("update", false, "rewrite the golden pictures")
	keep   = flag.String("keep", "", "folder that gets every picture that was painted")
)

func TestMain(m *testing.M) {
	if os.Getenv(childVar) != "" {
		os.Exit(runChild())
	}
	os.Exit(Drive(m.Run))
}

// shots are the pictures that are compared. Pixels are checked in two themes,
// at two device scales and two text sizes, without storing every combination.
var shots = []struct {
	name      string
	page      func() ui.Page
	w, h      int
	scale     float64
	dark      bool
	textScale float64
}{
	{"plan-light", planPage, 1280, 800, 1, false, 1},
	{"plan-dark", planPage, 1280, 800, 1, true, 1},
	{"plan-wide", planPage, 1920, 1080, 1, false, 1},
	{"plan-text200", planPage, 1280, 800, 1, false, 2},
	{"plan-small", planPage, 960, 640, 1, false, 1},
	{"plan-scale2", planPage, 1280, 800, 2, false, 1},
	{"debrief-light", debriefPage, 1280, 800, 1, false, 1},
	{"debrief-dark", debriefPage, 1280, 800, 1, true, 1},
	{"debrief-text150", debriefPage, 1280, 800, 1, false, 1.5},
	{"today-light", todayPage, 1280, 800, 1, false, 1},
	{"today-dark", todayPage, 1280, 800, 1, true, 1},
	{"today-text200", todayPage, 960, 640, 1, false, 2},
	{"controls-light", controlsPage, 1280, 800, 1, false, 1},
	{"controls-dark-scale2", controlsPage, 1280, 800, 2, true, 1},
	{"overlay-light", overlayPage, 1280, 800, 1, false, 1},
	{"toast-light", toastPage, 1280, 800, 1, false, 1},
}

func TestGalleryLooksAsBefore(t *testing.T) {
	for _, s := range shots {
		t.Run(s.name, func(t *testing.T) {
			got, err := Snapshot(still{s.page()}, s.w, s.h, s.scale, s.dark, s.textScale)
			if err != nil {
				t.Fatal(err)
			}
			if *keep != "" {
				writePNG(t, filepath.Join(*keep, s.name+".png"), got)
			}
			path := filepath.Join("testdata", s.name+".png")
			if *update {
				writePNG(t, path, got)
				return
			}
			if err := compare(path, got); err != nil {
				t.Error(err)
			}
		})
	}
}

func writePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := writeShot(path, img); err != nil {
		t.Fatal(err)
	}
}

// compare allows what differs between graphics drivers: the shade of edges.
// A shifted word or a missing line changes many pixels by much.
func compare(path string, got *image.RGBA) error {
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("no golden picture (make it with -update, then look at it): %w", err)
	}
	defer f.Close()
	decoded, err := png.Decode(f)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if decoded.Bounds() != got.Bounds() {
		return fmt.Errorf("%s is %v, now %v", path, decoded.Bounds().Size(), got.Bounds().Size())
	}
	want := image.NewRGBA(got.Bounds())
	draw.Draw(want, want.Bounds(), decoded, image.Point{}, draw.Src)
	sum, far := 0, 0
	for i := range want.Pix {
		d := int(want.Pix[i]) - int(got.Pix[i])
		if d < 0 {
			d = -d
		}
		sum += d
		if d > 48 {
			far++
		}
	}
	const meanLimit, farLimit = 0.15, 0.0005
	n := float64(len(want.Pix))
	if mean, share := float64(sum)/n, float64(far)/n; mean > meanLimit || share > farLimit {
		return fmt.Errorf("%s: mean difference %.3f (limit %.3f), %.4f %% of samples far off (limit %.4f %%)", path, mean, meanLimit, 100*share, 100*farLimit)
	}
	return nil
}
