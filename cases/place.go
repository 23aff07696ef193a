package cases

import "strings"

// Place names a site with its side as one says it: the left cheek is a left
// cheek, but the left of the back is "left side of the back".
func Place(site, side string, words Words) string {
	label := Vocab.Label("site", site, words)
	if side != "left" && side != "right" {
		return label
	}
	side = Vocab.Label("side", side, words)
	switch site {
	case "scalp", "forehead", "nose", "lip", "chin", "neck", "chest", "back", "abdomen", "genital", "perianal":
		return side + " side of the " + label
	}
	if i := strings.LastIndex(label, " the "); i >= 0 { // the back of the left hand
		return label[:i] + " the " + side + label[i+4:]
	}
	return side + " " + label
}
