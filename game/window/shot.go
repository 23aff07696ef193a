package window

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"sync/atomic"

	"github.com/hajimehoshi/ebiten/v2"

	"leastwatt/game/ui"
)

// Snapshot paints a screen as a window of w by h logical pixels would show it,
// and reads the pixels back. It works only inside Run or Drive.
func Snapshot(s ui.Screen, w, h int, scale float64, dark bool, textScale float64) (*image.RGBA, error) {
	host := ui.NewHost(s)
	t := ui.Light
	if dark {
		t = ui.Dark
	}
	host.SetLook(t, textScale, false)
	host.SetSize(float64(w), float64(h))
	return SnapshotFrame(host.Frame(), scale)
}

// SnapshotFrame paints a laid out view at a device scale. It works only inside
// Run or Drive.
func SnapshotFrame(f *ui.Frame, scale float64) (*image.RGBA, error) {
	if scale <= 0 {
		return nil, fmt.Errorf("window: the device scale is %g, it must be above 0", scale)
	}
	w, h := int(math.Round(f.Size.W*scale)), int(math.Round(f.Size.H*scale))
	if w <= 0 || h <= 0 {
		return nil, fmt.Errorf("window: a picture of %d by %d pixels has no area", w, h)
	}
	img := ebiten.NewImage(w, h)
	defer img.Deallocate()
	if err := newPainter().paint(img, f, scale); err != nil {
		return nil, err
	}
	return pixels(img), nil
}

func pixels(img *ebiten.Image) *image.RGBA {
	out := image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
	img.ReadPixels(out.Pix)
	return out
}

// writeShot replaces a PNG file in one step, so that a reader never sees half.
func writeShot(path string, img image.Image) error {
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		return fmt.Errorf("window: picture of the frame: %w", err)
	}
	tmp, err := os.CreateTemp(filepath.Dir(path), ".shot-*")
	if err != nil {
		return fmt.Errorf("window: picture of the frame: %w", err)
	}
	_, werr := tmp.Write(buf.Bytes())
	cerr := tmp.Close()
	if werr == nil {
		werr = cerr
	}
	if werr == nil {
		werr = os.Rename(tmp.Name(), path)
	}
	if werr != nil {
		_ = os.Remove(tmp.Name())
		return fmt.Errorf("window: picture of the frame: %w", werr)
	}
	return nil
}

// shooter writes frames to a file in the background, because packing a picture
// takes longer than a frame may. Frames that come while one is being written
// are dropped, all but the last.
type shooter struct {
	path  string
	next  chan *image.RGBA
	ended chan struct{}
	fault atomic.Pointer[error]
}

func newShooter(path string) *shooter {
	s := &shooter{path: path, next: make(chan *image.RGBA, 1), ended: make(chan struct{})}
	go func() {
		defer close(s.ended)
		for img := range s.next {
			if err := writeShot(s.path, img); err != nil {
				s.fault.Store(&err)
			}
		}
	}()
	return s
}

func (s *shooter) shoot(img *image.RGBA) error {
	select {
	case <-s.next: // not yet taken up: older than this one
	default:
	}
	s.next <- img
	return s.err()
}

func (s *shooter) err() error {
	if e := s.fault.Load(); e != nil {
		return *e
	}
	return nil
}

// close waits for the last frame.
func (s *shooter) close() error {
	close(s.next)
	<-s.ended
	return s.err()
}
