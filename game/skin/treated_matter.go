package skin

import thermal "leastwatt/scoring/tissue"

// matter is what a cut through a lesion shows, before heat. Its melanin is a
// share of what the lesion's own drawing has there, so that a brown growth is
// brownish inside and a skin-coloured one is not.
type matter struct {
	melaninShare, blood, oxygen, scatter, rough, gloss float32
	held                                               float32 // share of the blood that curdles in place and is not squeezed out
	shrinks                                            float32 // share of its height that it loses on drying
	horny                                              float32 // dry and horny: steam lifts it in white flakes
}

// insides lists the cut faces by family; others are like soft. Engineering
// choices, from memory of textbooks of dermatologic
// surgery.
var insides = map[string]matter{
	"cherry_angioma":            vascular,
	"spider_angioma":            vascular,
	"venous_lake":               vascular,
	"pyogenic_granuloma":        vascular,
	"facial_telangiectasia":     vascular,
	"leg_veins":                 vascular,
	"wound_bleeding":            {melaninShare: 0, blood: 0.09, oxygen: 0.88, scatter: 1.25, rough: 0.20, gloss: 1.5, held: 0.35, shrinks: 0.3},
	"seborrhoeic_keratosis":     keratotic,
	"dermatosis_papulosa_nigra": keratotic,
	"common_wart":               keratotic,
	"filiform_wart":             keratotic,
	"plantar_wart":              keratotic,
	"periungual_wart":           keratotic,
	"genital_wart":              keratotic,
	"molluscum":                 keratotic,
	"actinic_keratosis":         keratotic,
	"scc_in_situ":               keratotic,
	"keratoacanthoma":           keratotic,
	"cutaneous_horn":            {melaninShare: 0.4, blood: 0.004, oxygen: 0.7, scatter: 1.4, rough: 0.42, gloss: 0.7, shrinks: 0.1, horny: 1},
	"milia":                     {melaninShare: 0.1, blood: 0.004, oxygen: 0.7, scatter: 2.4, rough: 0.35, gloss: 0.9, shrinks: 0.2, horny: 0.7},
	"syringoma":                 fibrous,
	"dermatofibroma":            fibrous,
	"keloid":                    fibrous,
	"hypertrophic_scar":         fibrous,
	"skin_tag":                  fibrous,
}

var (
	vascular  = matter{melaninShare: 0.03, blood: 0.34, oxygen: 0.86, scatter: 0.9, rough: 0.17, gloss: 1.7, held: 0.8, shrinks: 0.55}
	keratotic = matter{melaninShare: 0.5, blood: 0.025, oxygen: 0.75, scatter: 1.15, rough: 0.34, gloss: 0.9, held: 0.15, shrinks: 0.25, horny: 0.8}
	fibrous   = matter{melaninShare: 0.02, blood: 0.016, oxygen: 0.85, scatter: 1.75, rough: 0.24, gloss: 1.2, held: 0.1, shrinks: 0.3}
	soft      = matter{melaninShare: 0.05, blood: 0.040, oxygen: 0.84, scatter: 1.05, rough: 0.20, gloss: 1.5, held: 0.15, shrinks: 0.4}
)

func insideOf(family string) matter {
	if m, ok := insides[family]; ok {
		return m
	}
	return soft
}

// depths are where the layers of the site begin, mm below the level of the skin.
type depths struct{ papillary, reticular, fat float32 }

func depthsOf(site string, swollenMM float64) depths {
	r, err := thermal.SiteByID(site)
	if err != nil {
		r = thermal.SiteRow{EpidermisUM: 60, PapillaryMM: 0.2, DermisMM: 1.3}
	}
	d := depths{papillary: float32(r.HornyUM+r.EpidermisUM) * 1e-3}
	d.reticular = d.papillary + float32(r.PapillaryMM)
	d.fat = d.papillary + float32(r.DermisMM+max(swollenMM, 0))
	return d
}

// Cut skin, layer by layer. The papillary dermis is pink with loops of vessels,
// the reticular white and coarsely woven, fat yellow and in lobules (from
// memory: textbooks of skin surgery, on judging the depth of a curetted floor).
var (
	papillaryFloor = matter{blood: 0.075, oxygen: 0.90, scatter: 1.30, rough: 0.24, gloss: 1.2, held: 0.15, shrinks: 0.2}
	reticularFloor = matter{blood: 0.036, oxygen: 0.90, scatter: 1.45, rough: 0.25, gloss: 1.1, held: 0.10, shrinks: 0.2}
	fatFloor       = matter{blood: 0.012, oxygen: 0.85, scatter: 1.60, rough: 0.18, gloss: 1.7, held: 0.05, shrinks: 0.1}
)

func (m matter) mix(o matter, k float32) matter {
	return matter{
		melaninShare: lerp(m.melaninShare, o.melaninShare, k), blood: lerp(m.blood, o.blood, k), oxygen: lerp(m.oxygen, o.oxygen, k),
		scatter: lerp(m.scatter, o.scatter, k), rough: lerp(m.rough, o.rough, k), gloss: lerp(m.gloss, o.gloss, k),
		held: lerp(m.held, o.held, k), shrinks: lerp(m.shrinks, o.shrinks, k), horny: lerp(m.horny, o.horny, k),
	}
}
