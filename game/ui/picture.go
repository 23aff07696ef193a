package ui

import (
	"math"
	"strconv"
)

func (n Picture) kind() string { return "Picture" }

// size is the size of the image itself in a place of width w.
func (n Picture) size(w float64) (pw, ph float64) {
	if n.Image == nil {
		return 0, 0
	}
	b := n.Image.Bounds()
	if b.Dx() <= 0 || b.Dy() <= 0 {
		return 0, 0
	}
	ratio := float64(b.Dy()) / float64(b.Dx())
	if n.MaxW > 0 {
		w = math.Min(w, n.MaxW)
	}
	if n.MaxH > 0 {
		w = math.Min(w, n.MaxH/ratio)
	}
	return w, w * ratio
}

func (n Picture) caption(c *canvas) float64 {
	if n.ScaleMM <= 0 && !n.Drawn {
		return 0
	}
	return c.role(Small).line + 8
}

func (n Picture) widths(*canvas) (float64, float64) {
	w := n.MaxW
	if w == 0 && n.Image != nil {
		w = float64(n.Image.Bounds().Dx())
	}
	pw, _ := n.size(w)
	return math.Min(48, pw), pw
}

func (n Picture) heights(c *canvas, w float64) (float64, float64) {
	_, h := n.size(w)
	h += n.caption(c)
	return h, h
}

func (n Picture) place(c *canvas, r Rect) {
	w, h := n.size(r.W)
	if w <= 0 || h <= 0 {
		return
	}
	at := Rect{r.X, r.Y, w, h}
	c.add(DrawImage{ID: n.ID, Version: n.Version, Image: n.Image, Rect: at, Radius: 3})
	s := c.role(Small)
	row := Rect{r.X, r.Y + h + 8, w, s.line}
	if n.caption(c) > 0 {
		if n.Drawn {
			c.textIn(s, row, End, "drawn")
		}
		if n.ScaleMM > 0 {
			n.scaleBar(c, s, row, w)
		}
	}
}

// scaleBar draws a bar of a round length, at most 2/5 of the picture.
func (n Picture) scaleBar(c *canvas, s style, row Rect, w float64) {
	mm := roundLength(n.ScaleMM * 0.4)
	px := w * mm / n.ScaleMM
	mid := math.Round(row.Y + row.H/2)
	c.fill(Rect{row.X, mid - 1, px, 2}, 0, Ink)
	c.fill(Rect{row.X, mid - 5, 2, 10}, 0, Ink)
	c.fill(Rect{row.X + px - 2, mid - 5, 2, 10}, 0, Ink)
	c.text(s, row.X+px+8, row.Y+s.baseline(row.H), Qty(strconv.FormatFloat(mm, 'g', -1, 64), "mm"))
}

// roundLength is the largest of 1, 2, 5 times a power of ten not above mm.
func roundLength(mm float64) float64 {
	best := 0.1
	for p := 0.1; p <= 1000; p *= 10 {
		for _, k := range []float64{1, 2, 5} {
			if v := math.Round(k*p*10) / 10; v <= mm+1e-9 {
				best = v
			}
		}
	}
	return best
}

func (n Picture) access() []Access {
	a := Access{Role: "picture", ID: n.ID, Name: n.Alt}
	if n.Drawn {
		a.State = append(a.State, "drawn")
	}
	if n.ScaleMM > 0 {
		a.Value = Qty(strconv.FormatFloat(math.Round(n.ScaleMM*10)/10, 'f', -1, 64), "mm") + " wide"
	}
	return []Access{a}
}
