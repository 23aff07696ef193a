package open

import (
	"cmp"
	"image"
	"image/color"
	"slices"
)

// A golden picture is kept with a palette of 256 colours, which is a third of
// the file. The plain colours of the screen stay exact; text edges and skin
// share the rest by median cut.

const exactColors = 64

type counted struct {
	c color.RGBA
	n int
}

// paletted reduces a picture to 256 colours. The same picture gives the same
// bytes.
func paletted(img *image.RGBA) *image.Paletted {
	hist := histogram(img)
	slices.SortFunc(hist, func(a, b counted) int { return cmp.Or(cmp.Compare(b.n, a.n), compareColor(a.c, b.c)) })
	k := min(exactColors, len(hist))
	index := map[color.RGBA]uint8{}
	var palette color.Palette
	for _, h := range hist[:k] {
		index[h.c] = uint8(len(palette))
		palette = append(palette, h.c)
	}
	for _, box := range medianCut(hist[k:], 256-k) {
		for _, h := range box {
			index[h.c] = uint8(len(palette))
		}
		palette = append(palette, meanOf(box))
	}
	out := image.NewPaletted(img.Rect, palette)
	for i := range out.Pix {
		out.Pix[i] = index[color.RGBA{img.Pix[4*i], img.Pix[4*i+1], img.Pix[4*i+2], 255}]
	}
	return out
}

func histogram(img *image.RGBA) []counted {
	count := map[color.RGBA]int{}
	for i := 0; i < len(img.Pix); i += 4 {
		count[color.RGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], 255}]++
	}
	list := make([]counted, 0, len(count))
	for c, n := range count {
		list = append(list, counted{c, n})
	}
	return list
}

// medianCut splits colours into at most n boxes: always the widest, of two
// alike the one with more pixels, at the middle of its pixels. Width counts for
// more than pixels, or a small spot of another colour would lose it.
func medianCut(list []counted, n int) [][]counted {
	if len(list) == 0 {
		return nil
	}
	boxes := [][]counted{list}
	for len(boxes) < n {
		worst, most := -1, 0
		for i, b := range boxes {
			if _, side := widest(b); side*side*side*pixelsOf(b) > most {
				worst, most = i, side*side*side*pixelsOf(b)
			}
		}
		if worst < 0 {
			break
		}
		a, b := split(boxes[worst])
		boxes[worst] = a
		boxes = append(boxes, b)
	}
	return boxes
}

func split(box []counted) (a, b []counted) {
	axis, _ := widest(box)
	slices.SortFunc(box, func(x, y counted) int {
		return cmp.Or(cmp.Compare(part(x.c, axis), part(y.c, axis)), compareColor(x.c, y.c))
	})
	half, sum := pixelsOf(box)/2, 0
	for i := range box[:len(box)-1] {
		if sum += box[i].n; sum >= half {
			return box[: i+1 : i+1], box[i+1:]
		}
	}
	at := len(box) - 1
	return box[:at:at], box[at:]
}

func widest(box []counted) (axis, side int) {
	for k := range 3 {
		lo, hi := 255, 0
		for _, h := range box {
			v := part(h.c, k)
			lo, hi = min(lo, v), max(hi, v)
		}
		if hi-lo > side {
			axis, side = k, hi-lo
		}
	}
	return axis, side
}

func part(c color.RGBA, axis int) int { return int([3]uint8{c.R, c.G, c.B}[axis]) }

func compareColor(a, b color.RGBA) int {
	return cmp.Or(cmp.Compare(a.R, b.R), cmp.Compare(a.G, b.G), cmp.Compare(a.B, b.B))
}

func pixelsOf(box []counted) int {
	n := 0
	for _, h := range box {
		n += h.n
	}
	return n
}

func meanOf(box []counted) color.RGBA {
	var sum [3]int
	n := pixelsOf(box)
	for _, h := range box {
		for k := range 3 {
			sum[k] += part(h.c, k) * h.n
		}
	}
	return color.RGBA{uint8((sum[0] + n/2) / n), uint8((sum[1] + n/2) / n), uint8((sum[2] + n/2) / n), 255}
}
