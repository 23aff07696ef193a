package packs

import (
	"embed"
	"io/fs"
)

//go:embed */pack.json
var files embed.FS

// names lists the built-in packs in the order a newcomer should meet them.
var names = []string{"first-list", "face-and-neck", "trunk-and-limbs", "hands-and-folds", "look-alikes", "children-and-elders", "not-today", "hazards"}

// FS holds one folder per built-in pack, each with its pack.json.
func FS() fs.FS { return files }

// Names lists the folders of [FS], in the order a newcomer should meet them.
func Names() []string { return append([]string(nil), names...) }
