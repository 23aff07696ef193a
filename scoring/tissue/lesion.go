package tissue

import (
	_ "embed"

	"leastwatt/cases"
)

//go:embed lesions.json
var lesionsJSON []byte

// LesionRow is the form and the matter of a family of lesions.
type LesionRow struct {
	Family     string
	Shape      string // dome, plaque, stalk, horn or vessel
	Material   string
	Covered    bool // horny layer and epidermis lie over it
	StalkShare float64
	VesselMM   float64
	Source     string
}

var lesionRows = mustTable("lesions.json", lesionsJSON, readLesions)

func readLesions(file string, data []byte) ([]LesionRow, error) {
	s, rows := openTable(file, data, "lesions")
	var materials []string
	for _, m := range materialRows {
		materials = append(materials, m.Name)
	}
	var out []LesionRow
	for i, v := range rows {
		o, ok := open(s, v, tableRow("lesions", i), "family", "shape", "material", "covered", "stalk_share", "vessel_mm", "source")
		if !ok {
			continue
		}
		r := LesionRow{StalkShare: 0.5, VesselMM: 0.3}
		if o.need("family") != nil && o.need("shape") != nil && o.need("material") != nil {
			o.choice(&r.Family, "family", cases.Vocab.IDs("family"))
			o.choice(&r.Shape, "shape", []string{"dome", "plaque", "stalk", "horn", "vessel"})
			o.choice(&r.Material, "material", materials)
		}
		o.bool(&r.Covered, "covered")
		o.float(&r.StalkShare, "stalk_share", between{0.1, 1})
		o.float(&r.VesselMM, "vessel_mm", between{0.05, 5})
		o.needText(&r.Source, "source")
		out = append(out, r)
	}
	if len(s.Faults) > 0 {
		return nil, s.Faults
	}
	return out, nil
}

func lesionByFamily(family string) (LesionRow, bool) {
	for _, r := range lesionRows {
		if r.Family == family {
			return r, true
		}
	}
	return LesionRow{}, false
}

// layLesion replaces skin and air by the lesion's matter. A lesion covered by
// skin has the site's horny layer and epidermis in its uppermost voxels.
func (b *body) layLesion(l LesionSpec, layers stack) {
	row, ok := lesionByFamily(l.Family)
	if !ok {
		return
	}
	// A stalk is never so thin that it slips between the voxels.
	row.StalkShare = max(row.StalkShare, min(1, 1.6*b.hM*1e3/l.WidthMM))
	m := materialOf(row.Material)
	m.lesion = true
	b.mats = append(b.mats, m)
	inner := uint8(len(b.mats) - 1)
	cover := inner
	if row.Covered {
		c := coverOf(layers, m).between(0, b.hM)
		c.lesion, c.strength = true, m.strength
		b.mats = append(b.mats, c)
		cover = uint8(len(b.mats) - 1)
	}
	for z := range b.nz {
		for y := range b.ny {
			for x := range b.nx {
				cx, cy, cz := b.centreM(x, y, z)
				if !row.holds(l, cx*1e3, cy*1e3, cz*1e3) {
					continue
				}
				i := b.at(x, y, z)
				b.mat[i] = inner
				if z == 0 || !b.mats[b.mat[i-b.plane]].solid {
					b.mat[i] = cover
				}
				b.mark[i] |= markLesion
			}
		}
	}
}

// coverOf is the outermost skin over endless lesion.
func coverOf(layers stack, lesion material) stack {
	var s stack
	for i, m := range layers.layers {
		if m.kind != Horny && m.kind != Epidermis {
			break
		}
		s.layers, s.toM = append(s.layers, m), append(s.toM, layers.toM[i])
	}
	s.layers, s.toM = append(s.layers, lesion), append(s.toM, 1e9)
	return s
}

// holds tells whether a place, in mm, is lesion.
func (r LesionRow) holds(l LesionSpec, x, y, z float64) bool {
	half := l.WidthMM / 2
	across2 := (square(x) + square(y)) / square(half) // 1 on the edge
	switch r.Shape {
	case "vessel":
		d := min(r.VesselMM, max(l.DepthMM, l.HeightMM))
		return x >= -half && x <= half && square(y)+square(z-(l.DepthMM-d/2)) <= square(d/2)
	case "horn":
		if z < 0 {
			return l.HeightMM > 0 && sqrt(across2) <= 1+float64(z/l.HeightMM*0.9)
		}
	case "stalk":
		if z < 0 {
			return r.onStalk(l, across2, -z)
		}
		return l.DepthMM > 0 && across2 <= square(r.StalkShare) && z <= l.DepthMM
	}
	reach := l.DepthMM
	if z < 0 {
		reach = l.HeightMM
	}
	if reach <= 0 {
		return false
	}
	deep2 := square(z / reach)
	if r.Shape == "plaque" { // the fourth power makes it flat
		return float64(across2*across2)+float64(deep2*deep2) <= 1
	}
	return across2+deep2 <= 1
}

// onStalk is a ball on a stalk a quarter as high as the whole.
func (r LesionRow) onStalk(l LesionSpec, across2, up float64) bool {
	if l.HeightMM <= 0 || up > l.HeightMM {
		return false
	}
	stalk := l.HeightMM / 4
	if up <= stalk*1.5 && across2 <= square(r.StalkShare) {
		return true
	}
	ball := (l.HeightMM - stalk) / 2
	return up >= stalk && across2+square((up-stalk-ball)/ball) <= 1
}
