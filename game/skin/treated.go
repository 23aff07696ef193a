package skin

import (
	"image"

	thermal "leastwatt/scoring/tissue"
)

// Treated is skin on the bench: the untreated fields of a patient, the fields
// as the tissue's state has changed them, and the picture. Update follows the
// tissue and shades anew only what has changed.
//
// It adds no stages with colours of their own. Every column of tissue gives
// marks (treated_marks.go): how far protein has curdled, vessels have closed,
// water has gone, carbon has formed, what was taken, what lies on top. The
// marks change the fields (treated_fields.go), and the colour follows from the
// optics on every skin type.
type Treated struct {
	canvas *canvas // its fields are the treated ones
	base   *Fields // before treatment
	low    []float32
	ground []float32 // level of the skin without lesion and lines, mm
	grain  grains
	inside matter
	depth  depths
	pic    *image.RGBA

	nx, ny  int
	gridMM  float32
	firstMM []float32 // height of every column before treatment
	columns []column
	next    []column
	even    []column
	quiet   []bool // no column near has been treated
	bleed   []Bleeder
	ink     []InkRing
	flush   flushing
	swollen float64
	subject Subject
}

// BenchView is the part of the patch that is shown.
type BenchView struct {
	WidthPx, HeightPx    int
	ShownMM              float64 // skin across WidthPx
	CentreXMM, CentreYMM float64 // of the picture, from the middle of the lesion
}

// bounded keeps a view within what can be drawn.
func (v BenchView) bounded() BenchView {
	v.WidthPx, v.HeightPx = min(max(v.WidthPx, 32), 2048), min(max(v.HeightPx, 32), 2048)
	v.ShownMM = within(v.ShownMM, 2, 60, 13)
	v.CentreXMM, v.CentreYMM = within(v.CentreXMM, -30, 30, 0), within(v.CentreYMM, -30, 30, 0)
	return v
}

// PxPerMM is the magnification, for scale bars and tools.
func (v BenchView) PxPerMM() float64 { v = v.bounded(); return float64(v.WidthPx) / v.ShownMM }

// Place turns a place on the patch, mm, into pixels of the picture.
func (v BenchView) Place(xMM, yMM float64) (xPx, yPx float64) {
	v = v.bounded()
	k := v.PxPerMM()
	return float64(v.WidthPx)/2 + (xMM-v.CentreXMM)*k, float64(v.HeightPx)/2 + (yMM-v.CentreYMM)*k
}

// NewTreated draws the untreated skin. first is the state of the patch before
// any act; heights are compared with it.
func NewTreated(s Subject, v BenchView, first *thermal.Maps) *Treated {
	t := &Treated{
		subject: s.bounded(), nx: first.NX, ny: first.NY, gridMM: float32(first.GridMM),
		firstMM: append([]float32(nil), first.HeightMM...),
		columns: make([]column, first.NX*first.NY), next: make([]column, first.NX*first.NY), quiet: make([]bool, first.NX*first.NY),
	}
	t.inside = insideOf(s.Family)
	t.depth = depthsOf(s.Site, 0)
	for k := range t.columns {
		t.columns[k].dryMM = first.HeightMM[k]
		t.columns[k].marks[markFloor] = first.HeightMM[k]
		t.columns[k].marks[markLesion] = boolMark(first.Lesion[k])
		t.quiet[k] = true
	}
	t.Show(v)
	return t
}

// Show draws another part of the patch, or the same one larger. What was done
// to the tissue stays.
func (t *Treated) Show(v BenchView) {
	v = v.bounded()
	c := benchCanvas(t.subject, v)
	ground := newFields(c.grid, c.skin)
	bare := *c
	bare.Fields = ground
	bare.bodyCurve()
	baseSkin(c)
	plainHairs(c)
	paintLesions(c)
	t.base, t.ground = c.Fields, ground.Height
	t.low = c.blur(c.Height, 0.30)
	t.grain = newGrains(c)
	c.Fields = t.base.copied()
	c.Heat = newHeat(c.grid)
	t.canvas = c
	t.pic = image.NewRGBA(image.Rect(0, 0, c.w, c.h))
	t.flush.lay(t)
	t.treat(t.pic.Rect)
	c.shadeInto(t.pic, image.Point{}, t.pic.Rect)
}

// benchCanvas is a canvas of any shape, anywhere on the patch.
func benchCanvas(s Subject, v BenchView) *canvas {
	c := newCanvas(s, View{SizePx: v.WidthPx, WidthMM: v.ShownMM})
	px := float32(v.ShownMM) / float32(v.WidthPx)
	g := grid{
		w: v.WidthPx, h: v.HeightPx, px: px,
		x0: float32(v.CentreXMM) - px*float32(v.WidthPx-1)/2, y0: float32(v.CentreYMM) - px*float32(v.HeightPx-1)/2,
	}
	c.Fields = newFields(g, c.skin)
	c.dry = true
	return c
}

// Picture is the skin as it looks now. It is drawn over by the next Update.
func (t *Treated) Picture() *image.RGBA { return t.pic }

// Fields are the fields behind the picture, for whoever measures them.
func (t *Treated) Fields() *Fields { return t.canvas.Fields }

// Update brings the picture up to the state of the tissue and returns the part
// of it that was drawn again, which is empty when nothing visible changed.
func (t *Treated) Update(m *thermal.Maps, x TreatExtra) image.Rectangle {
	if m.NX != t.nx || m.NY != t.ny {
		return image.Rectangle{}
	}
	if x.SwollenMM != t.swollen {
		t.swollen = x.SwollenMM
		t.depth = depthsOf(t.subject.Site, x.SwollenMM)
	}
	changed := t.follow(m, &x)
	changed = changed.Union(t.flush.band(t)).Union(t.bleeding(x.Bleeders)).Union(t.inking(x.Marker))
	changed = changed.Intersect(t.pic.Rect)
	if changed.Empty() {
		return changed
	}
	t.treat(changed)
	return t.reshade(changed)
}

// follow takes over the marks of all columns and returns the pixels whose
// fields they change.
func (t *Treated) follow(m *thermal.Maps, x *TreatExtra) image.Rectangle {
	split(t.ny, func(y0, y1 int) {
		for k := y0 * t.nx; k < y1*t.nx; k++ {
			t.next[k] = t.look(m, x, k)
		}
	})
	t.soften()
	t.flush.follow(t, x.Flush)
	var touched box
	for y := range t.ny {
		for i := range t.nx {
			k := y*t.nx + i
			if t.next[k].marks.unlike(&t.columns[k].marks) {
				touched.add(i, y)
				t.columns[k] = t.next[k]
			} else { // small changes must add up before they count
				was := t.columns[k].marks
				t.columns[k] = t.next[k]
				t.columns[k].marks = was
			}
		}
	}
	if touched.none() {
		return image.Rectangle{}
	}
	t.findQuiet(touched)
	const reach = 2 // the bell's half width, and the wandering of edges, in columns
	return t.pixels(float32(touched.x0-reach), float32(touched.y0-reach), float32(touched.x1+reach), float32(touched.y1+reach))
}

// soften takes means over five by five columns of what a voxel's edge would
// show in: the outline of what was taken and its floor, whose steps would be
// terraces, and the shore of blood. Browning reaches a little beyond carbon.
func (t *Treated) soften() {
	const reach = 2
	t.even = append(t.even[:0], t.next...)
	var work box
	for k := range t.even {
		if !t.even[k].marks.idle() {
			work.add(k%t.nx, k/t.nx)
		}
	}
	for y := max(work.y0-reach, reach); y <= min(work.y1+reach, t.ny-reach-1) && !work.none(); y++ {
		for x := max(work.x0-reach, reach); x <= min(work.x1+reach, t.nx-reach-1); x++ {
			k := y*t.nx + x
			m := &t.next[k].marks
			var floor, taken, n, char, pool, cooked float32
			for dy := -reach; dy <= reach; dy++ {
				for dx := -reach; dx <= reach; dx++ {
					o := &t.even[k+dy*t.nx+dx].marks
					char += o[markChar] * max(1-float32(dx*dx+dy*dy)*(1.0/6), 0)
					pool += o[markPool]
					cooked += o[markPool] * o[markCooked]
					if o[markTaken] > 0 {
						floor, taken, n = floor+o[markFloor], taken+o[markTaken], n+1
					}
				}
			}
			m[markCut] = n / 25
			if n > 8 {
				m[markFloor], m[markTaken] = floor/n, taken/n
			}
			if pool > 0 {
				m[markPool], m[markCooked] = pool/25, cooked/pool
			}
			m[markBrown] = max(m[markBrown], 0.8*smooth(0, 2, char)*m[markWhite])
		}
	}
}

// pixels turns a rectangle of columns into one of pixels.
func (t *Treated) pixels(u0, v0, u1, v1 float32) image.Rectangle {
	g := t.canvas.grid
	col := func(u float32) int { return int(floor32((t.placeMM(u, t.nx) - g.x0) / g.px)) }
	row := func(v float32) int { return int(floor32((t.placeMM(v, t.ny) - g.y0) / g.px)) }
	return image.Rect(col(u0), row(v0), col(u1)+2, row(v1)+2)
}

// placeMM is the middle of a column, mm from the middle of the patch.
func (t *Treated) placeMM(u float32, n int) float32 { return (u + 0.5 - float32(n)/2) * t.gridMM }

// columnAt counts columns from the corner of the patch.
func (t *Treated) columnAt(mm float32, n int) float32 { return mm/t.gridMM + float32(n)/2 - 0.5 }

// findQuiet marks the columns with nothing treated beside them.
func (t *Treated) findQuiet(b box) {
	for y := max(b.y0-2, 1); y <= min(b.y1+2, t.ny-2); y++ {
		for x := max(b.x0-2, 1); x <= min(b.x1+2, t.nx-2); x++ {
			k := y*t.nx + x
			quiet := true
			for dy := -t.nx; dy <= t.nx; dy += t.nx {
				for dx := -1; dx <= 1; dx++ {
					quiet = quiet && t.columns[k+dy+dx].marks.idle()
				}
			}
			t.quiet[k] = quiet
		}
	}
}

// box is a growing rectangle of columns.
type box struct {
	x0, y0, x1, y1 int
	some           bool
}

func (b *box) add(x, y int) {
	if !b.some {
		*b = box{x, y, x, y, true}
		return
	}
	b.x0, b.y0, b.x1, b.y1 = min(b.x0, x), min(b.y0, y), max(b.x1, x), max(b.y1, y)
}

func (b *box) none() bool { return !b.some }

// copied is a copy that shares what a treatment never changes.
func (f *Fields) copied() *Fields {
	n := *f
	dup := func(p []float32) []float32 { return append([]float32(nil), p...) }
	n.Height, n.Melanin, n.Blood, n.Oxygen = dup(f.Height), dup(f.Melanin), dup(f.Blood), dup(f.Oxygen)
	n.Scatter, n.Epidermis, n.Deep, n.Rough = dup(f.Scatter), dup(f.Epidermis), dup(f.Deep), dup(f.Rough)
	n.Gloss, n.Stay, n.Hair, n.HairShade = dup(f.Gloss), dup(f.Stay), dup(f.Hair), dup(f.HairShade)
	n.Cover = Cover{Share: dup(f.Cover.Share), R: dup(f.Cover.R), G: dup(f.Cover.G), B: dup(f.Cover.B)}
	return &n
}
