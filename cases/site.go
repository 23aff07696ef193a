package cases

import _ "embed"

//go:embed sites.json
var sitesJSON []byte

// Site is a place on the body: how wide a lesion can be there and where the
// body outline shows it.
type Site struct {
	ID         string `json:"id" jsonschema:"required" vocab:"site"`
	MaxWidthMM Milli  `json:"max_width_mm" jsonschema:"required,minimum=1,maximum=500"`
	View       string `json:"view" jsonschema:"required"`                  // "front" or "back"
	X          Milli  `json:"x" jsonschema:"required,minimum=0,maximum=1"` // patient's left side, share of the outline's width
	Y          Milli  `json:"y" jsonschema:"required,minimum=0,maximum=1"` // share of the outline's height from the top
}

type siteTable struct {
	Note  string `json:"note" jsonschema:"required"`
	Sites []Site `json:"sites" jsonschema:"required"`
}

var sites []Site // by row of the site vocabulary

func readSites(file string, data []byte) ([]Site, error) {
	tree, faults := ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &Sheet{File: file, Faults: faults}
	var t siteTable
	Decode(s, tree, &t)
	bySite := make([]Site, len(Vocab.List("site")))
	for i, site := range t.Sites {
		row := Vocab.Index("site", site.ID)
		switch {
		case row < 0: // reported by Decode
		case bySite[row].ID != "":
			s.Errorf(tree.At("sites", i), "the site %q stands twice", site.ID)
		default:
			bySite[row] = site
		}
	}
	for _, id := range Vocab.IDs("site") {
		if bySite[Vocab.Index("site", id)].ID == "" {
			s.Errorf(tree.At("sites"), "the site %q has no row", id)
		}
	}
	if len(s.Faults) > 0 {
		return nil, s.Faults
	}
	return bySite, nil
}

// SiteByID returns the site's row, or an empty one when there is none.
func SiteByID(id string) Site {
	if i := Vocab.Index("site", id); i >= 0 {
		return sites[i]
	}
	return Site{}
}
