package skin

import "image"

// Draw makes the picture of a subject under an examination. The same subject
// and view give the same bytes for any number of processors.
func Draw(s Subject, v View) *image.RGBA {
	return shade(paint(s, v))
}

// paint fills the fields: skin, then the lesion, then hairs, then what the
// examination does to them.
func paint(s Subject, v View) *canvas {
	s, v = s.bounded(), v.bounded()
	c := newCanvas(s, v)
	baseSkin(c)
	plainHairs(c)
	paintLesions(c)
	examine(c)
	return c
}

// DrawFields makes the fields without colouring them, for whoever changes them
// further (a treatment) before Shade.
func DrawFields(s Subject, v View) *Fields { return paint(s, v).Fields }
