package tissue

import (
	"strings"
	"testing"

	"leastwatt/cases"
)

// TestTablesAreWhole: every site and every family has one row, every id that
// the program itself uses exists, and dermis lies on every site.
func TestTablesAreWhole(t *testing.T) {
	for _, site := range cases.Vocab.IDs("site") {
		layers, err := SiteLayers(site)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, l := range layers {
			if l.ThicknessMM <= 0 {
				t.Errorf("%s: %s is %v mm thick", site, l.Name, l.ThicknessMM)
			}
		}
	}
	if len(siteRows) != len(cases.Vocab.IDs("site")) {
		t.Errorf("sites.json has %d rows, the vocabulary %d sites", len(siteRows), len(cases.Vocab.IDs("site")))
	}
	for _, family := range cases.Vocab.IDs("family") {
		if _, ok := lesionByFamily(family); !ok {
			t.Errorf("lesions.json lacks the family %q", family)
		}
	}
	if len(lesionRows) != len(cases.Vocab.IDs("family")) {
		t.Errorf("lesions.json has %d rows, the vocabulary %d families", len(lesionRows), len(cases.Vocab.IDs("family")))
	}
	for _, id := range []string{"blood", "saline", "fibrous", "horny", "epidermis", "papillary", "reticular", "fat", "deep"} {
		if _, err := materialByID(id); err != nil {
			t.Error(err)
		}
	}
}

// TestTableFaults: a fault of a table names file, line and column.
func TestTableFaults(t *testing.T) {
	bad := strings.Replace(string(outputsJSON), `"matched_ohm": 1000`, `"matched_ohm": -1`, 1)
	_, err := readOutputs("outputs.json", []byte(bad))
	if err == nil || !strings.Contains(err.Error(), `outputs.json:5:53: "outputs[0].matched_ohm" is -1; it must be from 10 to 100000`) {
		t.Errorf("it says %v", err)
	}
}
