// Package skin draws skin and what grows on it, without photographs.
//
// A picture is made in two steps. The first fills Fields: for every pixel the
// height of the surface in millimetres, the melanin, the blood and its oxygen,
// how much the dermis scatters, how whole the epidermis is, pigment that lies
// deep, dead cover such as horn and crust, and how the surface shines. The
// second step, shade, computes the colour from those figures by a published
// model of light in skin, lights the relief from the upper left, lets light
// wander under the surface, and adds the shine.
//
// A lesion therefore never paints a colour on living skin. It changes fields
// (more blood here, less epidermis there, a dome, a furrow), and its colour
// follows on every skin type at one exposure. Only dead matter has colours of
// its own: horn, crust, pus, blood that has left its vessels.
//
// The way through the files:
//
//	subject.go    who is drawn and how it is looked at
//	draw.go       the steps in order
//	canvas.go     what all layers share; seeds per layer
//	fields.go     the fields, and cover
//	site.go       the sites, from sites.tsv
//	relief.go     lines, pores, uneven colour, sun marks; patterns.go for palm,
//	              lip and nail; hair.go
//	lesion.go     the table of families, placing, outlines; features.go
//	cherry.go ... one file per family or close kin
//	vessels.go, scale.go, pigment.go   what several families share
//	examine.go    glass, pinch; lens and dermoscope are in the view and shade
//	optics.go     fields to colour; shade.go: light; grid.go, noise.go: tools
//	treated.go    skin under treatment: follows the tissue, draws what changed
//	treated_marks.go    columns of tissue to marks that can be blended
//	treated_fields.go   marks to fields; treated_matter.go: what a cut lays bare
//	treated_optics.go   blood that heat turned, browning, carbon, free blood
//	treated_on_skin.go  the flare, beads of blood, ink; treated_extra.go: what
//	                    the bench adds; treated_wisps.go: steam, smoke, sparks
//	treated_light.go    shading of a part
//	measure.go    colour measurement, for tests and for whoever wants to know
//
// All noise and all places are computed in millimetres from the seed, so a
// closer view shows the same skin larger, and any number of processors gives
// the same bytes. testdata/signs.tsv lists the signs each family must show,
// with sources, and whether its golden pictures show them; treated-signs.tsv does
// the same for treated skin.
package skin
