package ui

// sameOps tells whether two display lists draw the same. Images are the same
// when their ID and Version are.
func sameOps(a, b []Op) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !sameOp(a[i], b[i]) {
			return false
		}
	}
	return true
}

func sameOp(a, b Op) bool {
	switch a := a.(type) {
	case Path:
		p, ok := b.(Path)
		if !ok || a.W != p.W || a.Color != p.Color || len(a.Segs) != len(p.Segs) {
			return false
		}
		for i := range a.Segs {
			if a.Segs[i] != p.Segs[i] {
				return false
			}
		}
		return true
	case DrawImage:
		d, ok := b.(DrawImage)
		return ok && a.ID == d.ID && a.Version == d.Version && a.Rect == d.Rect && a.Radius == d.Radius
	}
	if _, ok := b.(Path); ok {
		return false
	}
	if _, ok := b.(DrawImage); ok {
		return false
	}
	return a == b
}
