package window

import (
	"bytes"
	"fmt"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
	"golang.org/x/text/language"

	"leastwatt/game/ui"
)

type faceKey struct {
	font    ui.FontID
	size    float64
	tabular bool
}

// glyphs draws text runs.
type glyphs struct {
	sources map[ui.FontID]*text.GoTextFaceSource
	faces   map[faceKey]*text.GoTextFace
	buf     []text.Glyph
}

func (g *glyphs) face(k faceKey) (*text.GoTextFace, error) {
	if f, ok := g.faces[k]; ok {
		return f, nil
	}
	if g.faces == nil {
		g.sources, g.faces = map[ui.FontID]*text.GoTextFaceSource{}, map[faceKey]*text.GoTextFace{}
	}
	src, ok := g.sources[k.font]
	if !ok {
		var err error
		src, err = text.NewGoTextFaceSource(bytes.NewReader(ui.FontData(k.font)))
		if err != nil {
			return nil, fmt.Errorf("window: font %d: %w", k.font, err)
		}
		g.sources[k.font] = src
	}
	f := &text.GoTextFace{Source: src, Size: k.size, Language: language.English}
	if k.tabular {
		f.SetFeature(text.MustParseTag("tnum"), 1)
	}
	g.faces[k] = f
	return f, nil
}

// run draws one run. The pen and the baseline go to whole device pixels; inside
// the run glyphs keep their fractions.
func (g *glyphs) run(dst *ebiten.Image, r ui.TextRun, scale float64) error {
	f, err := g.face(faceKey{r.Font, r.Size * scale, r.Tabular})
	if err != nil {
		return err
	}
	x := math.Round(r.X * scale)
	// The face puts its baseline at its ascent, rounded down.
	y := math.Round(r.Y*scale) - math.Floor(f.Metrics().HAscent)
	g.buf = text.AppendGlyphs(g.buf[:0], r.Text, f, nil)
	var op ebiten.DrawImageOptions
	op.ColorScale.ScaleWithColor(r.Color)
	for _, gl := range g.buf {
		if gl.Image == nil {
			continue
		}
		op.GeoM.Reset()
		op.GeoM.Translate(x+gl.X, y+gl.Y)
		dst.DrawImage(gl.Image, &op)
	}
	return nil
}
