package skin

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed sites.tsv
var sitesTSV string

// pattern is the kind of surface a site has.
type pattern string

const (
	patternLines  pattern = "lines"  // families of crossing lines, nearly everywhere
	patternRidges pattern = "ridges" // palm and sole
	patternLip    pattern = "lip"    // furrows of the vermilion
	patternFolds  pattern = "folds"  // loose genital skin
	patternNail   pattern = "nail"   // fold beside a nail plate
)

// site is one row of sites.tsv.
type site struct {
	id        string
	pattern   pattern
	spacingMM float32 // between primary lines
	depthMM   float32 // of primary lines
	pores     float32 // openings seen per cm²
	poreMM    float32 // width of an opening
	hairs     float32 // drawn per cm²
	hair      string  // none, fine, body, scalp, brow or lash
	blood     float32 // times plain skin's blood
	melanin   float32 // times plain skin's melanin
	shine     float32 // oiliness: times plain skin's gloss
	sun       float32 // sun exposure, 0 to 1: freckles, spots and lines with age
	radiusMM  float32 // of the body part, for the fall of light
}

var siteTable = sync.OnceValue(func() map[string]site {
	rows, err := parseSites("sites.tsv", sitesTSV)
	if err != nil {
		panic(err) // the table is part of the program and tested
	}
	return rows
})

// siteOf finds a site's row; an unknown site is drawn as forearm.
func siteOf(id string) site {
	t := siteTable()
	if s, ok := t[id]; ok {
		return s
	}
	return t["forearm"]
}

// parseSites reads the table: a heading line, then one tab-separated row per
// site. Errors name file, line and column (the column counts fields).
func parseSites(file, text string) (map[string]site, error) {
	rows := map[string]site{}
	for n, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if n == 0 || strings.HasPrefix(line, "#") {
			continue
		}
		cols := strings.Split(line, "\t")
		if len(cols) != 14 {
			return nil, fmt.Errorf("%s:%d:1: %d fields, a site has 14", file, n+1, len(cols))
		}
		s := site{id: cols[0], pattern: pattern(cols[1]), hair: cols[7]}
		numbers := []struct {
			at  int
			to  *float32
			max float64
		}{
			{2, &s.spacingMM, 5},
			{3, &s.depthMM, 1},
			{4, &s.pores, 500},
			{5, &s.poreMM, 1},
			{6, &s.hairs, 500},
			{8, &s.blood, 10},
			{9, &s.melanin, 3},
			{10, &s.shine, 3},
			{11, &s.sun, 1},
			{12, &s.radiusMM, 500},
		}
		for _, c := range numbers {
			v, err := strconv.ParseFloat(cols[c.at], 32)
			if err != nil || !(v >= 0 && v <= c.max) {
				return nil, fmt.Errorf("%s:%d:%d: %q is not a number from 0 to %g", file, n+1, c.at+1, cols[c.at], c.max)
			}
			*c.to = float32(v)
		}
		if s.spacingMM < 0.2 {
			return nil, fmt.Errorf("%s:%d:3: line spacing %g mm is under 0.2 mm", file, n+1, s.spacingMM)
		}
		if s.radiusMM < 4 {
			return nil, fmt.Errorf("%s:%d:13: radius %g mm is under 4 mm", file, n+1, s.radiusMM)
		}
		switch s.pattern {
		case patternLines, patternRidges, patternLip, patternFolds, patternNail:
		default:
			return nil, fmt.Errorf("%s:%d:2: unknown pattern %q", file, n+1, cols[1])
		}
		switch s.hair {
		case "none", "fine", "body", "scalp", "brow", "lash":
		default:
			return nil, fmt.Errorf("%s:%d:8: unknown hair %q", file, n+1, cols[7])
		}
		if _, twice := rows[s.id]; twice {
			return nil, fmt.Errorf("%s:%d:1: site %q stands twice", file, n+1, s.id)
		}
		rows[s.id] = s
	}
	return rows, nil
}
