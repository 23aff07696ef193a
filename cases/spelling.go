package cases

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// britishToAmerican lists the stems that prose of this program spells in two
// ways. Texts are written in British spelling; Spell changes them for a
// reader of American words. Where two stems begin at the same letter the one
// that stands first is taken, so words that only hold a stem by chance, and
// are spelled alike, stand at the top.
var britishToAmerican = [][2]string{
	{"organism", "organism"},
	{"plastered", "plastered"},
	{"plasterer", "plasterer"},
	{"plastering", "plastering"},
	{"programmed", "programmed"},
	{"programmer", "programmer"},
	{"centred", "centered"},
	{"phaeochromocytoma", "pheochromocytoma"},
	{"anaesthe", "anesthe"},
	{"anaemi", "anemi"},
	{"haemo", "hemo"},
	{"haema", "hema"},
	{"naevus", "nevus"},
	{"naevi", "nevi"},
	{"seborrhoe", "seborrhe"},
	{"colour", "color"},
	{"tumour", "tumor"},
	{"odour", "odor"},
	{"favour", "favor"},
	{"labour", "labor"},
	{"behaviour", "behavior"},
	{"paediatri", "pediatri"},
	{"oedema", "edema"},
	{"oestrogen", "estrogen"},
	{"fibre", "fiber"},
	{"centre", "center"},
	{"litre", "liter"},
	{"millimetre", "millimeter"},
	{"sulphite", "sulfite"},
	{"sulphonamide", "sulfonamide"},
	{"jewellery", "jewelry"},
	{"labelled", "labeled"},
	{"labelling", "labeling"},
	{"grey", "gray"},
	{"saucerisation", "saucerization"},
	{"sterilis", "steriliz"},
	{"organis", "organiz"},
	{"recognis", "recogniz"},
	{"minimis", "minimiz"},
	{"ischaemi", "ischemi"},
	{"licence", "license"},
	{"mould", "mold"},
	{"plaster", "bandage"},
	{"judgement", "judgment"},
	{"ageing", "aging"},
	{"catalogue", "catalog"},
	{"adrenaline", "epinephrine"},
	{"methaemoglobin", "methemoglobin"},
	{"leucocyt", "leukocyt"},
	{"diarrhoea", "diarrhea"},
	{"cauteris", "cauteriz"},
	{"localis", "localiz"},
	{"practis", "practic"},
	{"aluminium", "aluminum"},
	{"ampoule", "ampule"},
	{"aemia", "emia"},
	{"analyse", "analyze"},
	{"analysing", "analyzing"},
	{"defence", "defense"},
	{"faeces", "feces"},
	{"gynaecolog", "gynecolog"},
	{"harbour", "harbor"},
	{"humour", "humor"},
	{"manoeuvre", "maneuver"},
	{"metre", "meter"},
	{"naevoid", "nevoid"},
	{"neighbour", "neighbor"},
	{"oesophag", "esophag"},
	{"orthopaedic", "orthopedic"},
	{"programme", "program"},
	{"pyjama", "pajama"},
	{"rumour", "rumor"},
	{"sulphate", "sulfate"},
	{"sulphur", "sulfur"},
	{"theatre", "theater"},
	{"vapour", "vapor"},
}

var spellAmerican = func() *strings.Replacer {
	var pairs []string
	for _, p := range britishToAmerican {
		pairs = append(pairs, p[0], p[1], capital(p[0]), capital(p[1]))
	}
	return strings.NewReplacer(pairs...)
}()

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// Spell gives a text of this program in the wanted spelling.
func Spell(text string, words Words) string {
	if words != US {
		return text
	}
	return spellAmerican.Replace(text)
}
