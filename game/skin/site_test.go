package skin

import (
	"strings"
	"testing"
)

func TestSiteTableErrorsNameThePlace(t *testing.T) {
	head := "site\tpattern\n"
	good := "chest\tlines\t.85\t.05\t15\t.12\t8\tbody\t1.15\t1.0\t1.0\t.5\t130\tjudged by eye, no source"
	for _, c := range []struct{ row, want string }{
		{good + "\textra", "x.tsv:2:1: 15 fields, a site has 14"},
		{strings.Replace(good, ".85", "wide", 1), `x.tsv:2:3: "wide" is not a number from 0 to 5`},
		{strings.Replace(good, ".85", "-1", 1), `x.tsv:2:3: "-1" is not a number from 0 to 5`},
		{strings.Replace(good, ".85", "NaN", 1), `x.tsv:2:3: "NaN" is not a number from 0 to 5`},
		{strings.Replace(good, ".85", ".1", 1), "x.tsv:2:3: line spacing 0.1 mm is under 0.2 mm"},
		{strings.Replace(good, "lines", "squares", 1), `x.tsv:2:2: unknown pattern "squares"`},
		{strings.Replace(good, "body", "fur", 1), `x.tsv:2:8: unknown hair "fur"`},
		{strings.Replace(good, "130", "1", 1), "x.tsv:2:13: radius 1 mm is under 4 mm"},
		{good + "\n" + good, `x.tsv:3:1: site "chest" stands twice`},
	} {
		_, err := parseSites("x.tsv", head+c.row)
		if err == nil || err.Error() != c.want {
			t.Errorf("row %q: error %v, want %s", c.row, err, c.want)
		}
	}
	if rows, err := parseSites("x.tsv", head+good); err != nil || rows["chest"].pores != 15 {
		t.Errorf("a good row: %v, %v", rows, err)
	}
}

func FuzzSites(f *testing.F) {
	f.Add(sitesTSV)
	f.Add("site\nchest\tlines\t1")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := parseSites("fuzz.tsv", text)
		if err != nil && !strings.HasPrefix(err.Error(), "fuzz.tsv:") {
			t.Errorf("error without a place: %v", err)
		}
		for id, s := range rows {
			if !(s.spacingMM >= 0.2 && s.radiusMM >= 4) {
				t.Errorf("site %q: %+v", id, s)
			}
		}
	})
}
