package tissue

import (
	_ "embed"
	"fmt"

	"leastwatt/cases"
)

//go:embed materials.json
var materialsJSON []byte

//go:embed sites.json
var sitesJSON []byte

// MaterialRow is one row of the table of materials.
type MaterialRow struct {
	Layer
	Strength float64 // 1 is sound dermis
	Source   string
}

// SiteRow is how thick the layers are at a site.
type SiteRow struct {
	Site        string
	HornyUM     float64
	EpidermisUM float64
	PapillaryMM float64
	DermisMM    float64 // papillary and reticular together
	FatMM       float64
	Source      string
}

var (
	materialRows = mustTable("materials.json", materialsJSON, readMaterials)
	siteRows     = mustTable("sites.json", sitesJSON, readSites)
)

func readMaterials(file string, data []byte) ([]MaterialRow, error) {
	s, rows := openTable(file, data, "materials")
	var out []MaterialRow
	for i, v := range rows {
		o, ok := open(s, v, tableRow("materials", i), "id", "kind", "k_w_mk", "rho_kg_m3", "c_j_kgk", "sigma_s_m", "water_fraction", "perfusion_1_s", "strength", "source")
		if !ok {
			continue
		}
		var m MaterialRow
		m.readMatter(o)
		o.needText(&m.Name, "id")
		o.needText(&m.Source, "source")
		o.needFloat(&m.Strength, "strength", between{0, 10})
		out = append(out, m)
	}
	if len(s.Faults) > 0 {
		return nil, s.Faults
	}
	return out, nil
}

func readSites(file string, data []byte) ([]SiteRow, error) {
	s, rows := openTable(file, data, "sites")
	var out []SiteRow
	for i, v := range rows {
		o, ok := open(s, v, tableRow("sites", i), "site", "horny_um", "epidermis_um", "papillary_mm", "dermis_mm", "fat_mm", "source")
		if !ok {
			continue
		}
		var r SiteRow
		if o.need("site") != nil {
			o.choice(&r.Site, "site", cases.Vocab.IDs("site"))
		}
		o.needFloat(&r.HornyUM, "horny_um", between{1, 2000})
		o.needFloat(&r.EpidermisUM, "epidermis_um", between{10, 500})
		o.needFloat(&r.PapillaryMM, "papillary_mm", between{0.05, 0.5})
		o.needFloat(&r.DermisMM, "dermis_mm", between{0.3, 6})
		o.needFloat(&r.FatMM, "fat_mm", between{0.1, 50})
		o.needText(&r.Source, "source")
		out = append(out, r)
	}
	if len(s.Faults) > 0 {
		return nil, s.Faults
	}
	return out, nil
}

// materialByID returns a row of the table of materials.
func materialByID(id string) (MaterialRow, error) {
	for _, m := range materialRows {
		if m.Name == id {
			return m, nil
		}
	}
	return MaterialRow{}, fmt.Errorf("materials.json has no material %q", id)
}

// SiteByID returns the thicknesses at a site.
func SiteByID(site string) (SiteRow, error) {
	for _, r := range siteRows {
		if r.Site == site {
			return r, nil
		}
	}
	return SiteRow{}, fmt.Errorf("sites.json has no site %q%s", site, cases.Vocab.Suggest("site", site))
}

// SiteLayers are the layers of the skin at a site, down to deep tissue.
func SiteLayers(site string) ([]Layer, error) {
	r, err := SiteByID(site)
	if err != nil {
		return nil, err
	}
	var layers []Layer
	for _, l := range []struct {
		id string
		mm float64
	}{
		{"horny", r.HornyUM * 1e-3},
		{"epidermis", r.EpidermisUM * 1e-3},
		{"papillary", r.PapillaryMM},
		{"reticular", r.DermisMM - r.PapillaryMM},
		{"fat", r.FatMM},
		{"deep", 1000},
	} {
		m, err := materialByID(l.id)
		if err != nil {
			return nil, err
		}
		m.ThicknessMM = l.mm
		layers = append(layers, m.Layer)
	}
	return layers, nil
}

// materialOf is a material of the table, ready to be laid.
func materialOf(id string) material {
	row, err := materialByID(id)
	if err != nil {
		panic(err) // ids of the program itself; a test reads them all
	}
	m := row.material()
	m.strength = row.Strength
	return m
}

// addMaterial lets a material be laid later in the run.
func (b *body) addMaterial(id string) {
	b.mats = append(b.mats, materialOf(id))
	b.extra[id] = uint8(len(b.mats) - 1)
}
