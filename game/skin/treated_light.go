package skin

import "image"

// Light from and shade by what lies round a changed part: the lamp stands to
// the upper left, so that shadows come from there; light wanders and hollows
// darken over a millimetre or two.
const (
	lampSideMM = 2.6
	farSideMM  = 1.9
	spreadMM   = 0.75 // how far beyond the change its light and shade are seen
	alignPx    = 16   // so that the halved copies of blurs fall on the same pixels
)

// reshade colours and lights the changed part anew, with what it lights and
// shades beside it, and returns what was drawn.
func (t *Treated) reshade(changed image.Rectangle) image.Rectangle {
	c := t.canvas
	px := func(mm float32) int { return int(mm/c.px) + 1 }
	keep := changed.Inset(-px(spreadMM))
	keep.Max = keep.Max.Add(image.Pt(px(0.6), px(0.6))) // its shadow falls away from the lamp
	keep = keep.Intersect(t.pic.Rect)
	w := image.Rect(keep.Min.X-px(lampSideMM), keep.Min.Y-px(lampSideMM), keep.Max.X+px(farSideMM), keep.Max.Y+px(farSideMM))
	w.Min.X, w.Min.Y = max(w.Min.X, 0)&^(alignPx-1), max(w.Min.Y, 0)&^(alignPx-1)
	w.Max.X, w.Max.Y = (w.Max.X+alignPx-1)&^(alignPx-1), (w.Max.Y+alignPx-1)&^(alignPx-1)
	w = w.Intersect(t.pic.Rect)
	part := *c
	part.Fields = c.Fields.window(w)
	part.shadeInto(t.pic, w.Min, keep)
	return keep
}

// window copies a part of the fields, as far as shading reads them.
func (f *Fields) window(w image.Rectangle) *Fields {
	g := grid{w: w.Dx(), h: w.Dy(), px: f.px, x0: f.x(w.Min.X), y0: f.y(w.Min.Y)}
	cut := func(p []float32) []float32 {
		out := g.plane()
		for row := range g.h {
			i := (w.Min.Y+row)*f.w + w.Min.X
			copy(out[row*g.w:(row+1)*g.w], p[i:i+g.w])
		}
		return out
	}
	n := &Fields{
		grid: g, Height: cut(f.Height), Melanin: cut(f.Melanin), Blood: cut(f.Blood), Oxygen: cut(f.Oxygen), Scatter: cut(f.Scatter),
		Epidermis: cut(f.Epidermis), Deep: cut(f.Deep), Rough: cut(f.Rough), Gloss: cut(f.Gloss), Hair: cut(f.Hair), HairShade: cut(f.HairShade),
		HairTone: f.HairTone, Cover: Cover{Share: cut(f.Cover.Share), R: cut(f.Cover.R), G: cut(f.Cover.G), B: cut(f.Cover.B)},
	}
	if h := f.Heat; h != nil {
		n.Heat = &Heat{Cooked: cut(h.Cooked), Brown: cut(h.Brown), Char: cut(h.Char), Veil: cut(h.Veil), PoolMM: cut(h.PoolMM)}
	}
	return n
}
