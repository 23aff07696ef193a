package packs

import (
	"io/fs"

	"leastwatt/cases"
)

// Load reads every built-in pack, in order. The error is [cases.Faults] when
// one is invalid, which a test keeps from happening.
func Load() ([]*cases.Loaded, error) {
	var loaded []*cases.Loaded
	for _, name := range Names() {
		sub, err := fs.Sub(FS(), name)
		if err != nil {
			return nil, err
		}
		l, err := cases.LoadPackFS(sub, "cases/packs/"+name)
		if err != nil {
			return nil, err
		}
		if l.Pack == nil {
			return nil, l.Faults
		}
		loaded = append(loaded, l)
	}
	return loaded, nil
}

// Cases lists the cases of every built-in pack, in order.
func Cases() []*cases.Case {
	loaded, err := Load()
	if err != nil {
		panic(err) // the packs are part of the program; a test reads them too
	}
	var all []*cases.Case
	for _, l := range loaded {
		for i := range l.Pack.Cases {
			all = append(all, &l.Pack.Cases[i])
		}
	}
	return all
}
