package skin

import (
	"image"
	"image/draw"
	"path/filepath"
	"testing"
)

// A sheet of treated skin for a person to look at:
//
//	go test -run TreatedSheet -sheet /some/folder -only wound_pool -px 480
func TestTreatedSheet(t *testing.T) {
	if *sheetDir == "" {
		t.Skip("no -sheet folder")
	}
	for _, c := range treatments() {
		if *sheetOnly != "" && *sheetOnly != c.name {
			continue
		}
		r, err := readRecording(c.name)
		if err != nil {
			t.Error(err)
			continue
		}
		px := *sheetPx
		v := benchView()
		v.WidthPx, v.HeightPx = px, px
		sheet := image.NewRGBA(image.Rect(0, 0, px*len(treatedTypes), px))
		for i, ty := range treatedTypes {
			at := image.Rect(i*px, 0, i*px+px, px)
			draw.Draw(sheet, at, c.drawn(r, ty, v).Picture(), image.Point{}, draw.Src)
		}
		writePNG(t, filepath.Join(*sheetDir, c.name+".png"), sheet)
	}
}
