package skin

import (
	"image"
	"math"
	"testing"
)

// The classes by individual typology angle: "Skin colour typology and
// suntanning pathways", International Journal of Cosmetic Science, 1991.
func TestColourClassOfEveryType(t *testing.T) {
	for skinType := 1; skinType <= 6; skinType++ {
		r, g, b := plainTissue(skinType).colour()
		formula := labOf(float64(r), float64(g), float64(b))
		s := Subject{SkinType: skinType, AgeYears: 35, Site: "upper_arm", Seed: 11}
		img := Draw(s, View{SizePx: 256, WidthMM: 16})
		drawn, spread := MeanLab(img, img.Bounds())
		t.Logf("type %d: formula L %.1f a %.1f b %.1f ITA %.0f; drawn L %.1f a %.1f b %.1f ITA %.0f; spread L %.2f a %.2f b %.2f",
			skinType, formula.L, formula.A, formula.B, formula.ITA(), drawn.L, drawn.A, drawn.B, drawn.ITA(), spread.L, spread.A, spread.B)
		if got := ColourClass(formula.ITA()); got != skinType {
			t.Errorf("type %d: formula is class %d (%.1f degrees)", skinType, got, formula.ITA())
		}
		if got := ColourClass(drawn.ITA()); got != skinType {
			t.Errorf("type %d: drawn skin is class %d (%.1f degrees)", skinType, got, drawn.ITA())
		}
		if spread.L < 1.5 || spread.L > 4 {
			t.Errorf("type %d: lightness spread %.2f, plain skin has 1.5 to 4", skinType, spread.L)
		}
	}
}

func centre(img *image.RGBA, share float64) image.Rectangle {
	n := float64(img.Bounds().Dx())
	a, b := int(math.Round(n*(1-share)/2)), int(math.Round(n*(1+share)/2))
	return image.Rect(a, a, b, b)
}
