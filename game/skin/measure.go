package skin

import (
	"image"
	"math"
)

// Lab is a colour by its lightness L (0 to 100), redness A and yellowness B
// (CIE 1976, light D65).
type Lab struct{ L, A, B float64 }

// MeanLab gives the mean colour of a part of a picture and, as spread, the
// standard deviation of each part over its pixels.
func MeanLab(img *image.RGBA, part image.Rectangle) (mean, spread Lab) {
	part = part.Intersect(img.Bounds())
	n := float64(part.Dx() * part.Dy())
	if n == 0 {
		return
	}
	var sum, squares Lab
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			c := LabAt(img, x, y)
			sum.L, sum.A, sum.B = sum.L+c.L, sum.A+c.A, sum.B+c.B
			squares.L, squares.A, squares.B = squares.L+c.L*c.L, squares.A+c.A*c.A, squares.B+c.B*c.B
		}
	}
	mean = Lab{sum.L / n, sum.A / n, sum.B / n}
	sd := func(sq, m float64) float64 { return math.Sqrt(math.Max(sq/n-m*m, 0)) }
	return mean, Lab{sd(squares.L, mean.L), sd(squares.A, mean.A), sd(squares.B, mean.B)}
}

// LabAt gives the colour of one pixel; outside the picture all is black.
func LabAt(img *image.RGBA, x, y int) Lab {
	if !(image.Point{X: x, Y: y}).In(img.Rect) {
		return Lab{}
	}
	p := img.Pix[img.PixOffset(x, y):]
	return labOf(decode(p[0]), decode(p[1]), decode(p[2]))
}

// decode turns an sRGB byte into linear light (IEC 61966-2-1, 1999).
func decode(b byte) float64 {
	v := float64(b) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// labOf turns linear sRGB into Lab.
func labOf(r, g, b float64) Lab {
	x := (0.4124564*r + 0.3575761*g + 0.1804375*b) / 0.95047
	y := 0.2126729*r + 0.7151522*g + 0.0721750*b
	z := (0.0193339*r + 0.1191920*g + 0.9503041*b) / 1.08883
	f := func(t float64) float64 {
		if t > 0.008856 {
			return math.Cbrt(t)
		}
		return 7.787*t + 16.0/116
	}
	return Lab{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

// ITA is the individual typology angle in degrees, the usual figure for how
// light skin is: over 55 very light, over 41 light, over 28 intermediate, over
// 10 tan, over -30 brown, else dark ("Skin colour typology and suntanning
// pathways", International Journal of Cosmetic Science, 1991).
func (c Lab) ITA() float64 { return math.Atan2(c.L-50, c.B) * 180 / math.Pi }

// ColourClass gives the typology class of an angle, 1 very light to 6 dark.
func ColourClass(ita float64) int {
	for i, limit := range []float64{55, 41, 28, 10, -30} {
		if ita > limit {
			return i + 1
		}
	}
	return 6
}
