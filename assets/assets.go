// Package assets holds the files that travel inside the program: fonts now,
// sounds and shaders when there are any. Nothing is read from disk at run
// time, so that the program is one file and starts without a search path.
//
// Two families are embedded, in the weights that are drawn and no others:
// Literata for what is said or written (the note, titles, big figures) and
// Inter for what is operated (controls, labels, small print). Both are under
// the SIL Open Font License 1.1; the licence texts stand beside the font files
// and are embedded too, because the licence asks that they travel together.
package assets

import _ "embed"

// Fonts as TrueType files. The slices are shared and must not be written to.
var (
	//go:embed fonts/Inter_400Regular.ttf
	InterRegular []byte
	//go:embed fonts/Inter_600SemiBold.ttf
	InterSemiBold []byte
	//go:embed fonts/Literata_400Regular.ttf
	LiterataRegular []byte
	//go:embed fonts/Literata_400Regular_Italic.ttf
	LiterataItalic []byte
	//go:embed fonts/Literata_600SemiBold.ttf
	LiterataSemiBold []byte
)

// Licence texts of the fonts, as a settings or about page shows them.
var (
	//go:embed fonts/OFL-Inter.txt
	InterLicence string
	//go:embed fonts/OFL-Literata.txt
	LiterataLicence string
)
