package skin

import (
	"fmt"
	"path/filepath"
	"testing"
)

// Treated skin on types 2, 4 and 6 looks as it did when it was last judged by
// eye (treated-signs.tsv).
func TestTreatedGoldenPictures(t *testing.T) {
	for _, c := range treatments() {
		r, err := readRecording(c.name)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, skinType := range treatedTypes {
			got := c.drawn(r, skinType, benchView()).Picture()
			path := filepath.Join("testdata", "treated", fmt.Sprintf("%s-%d.png", c.name, skinType))
			compareGolden(t, path, got)
		}
	}
}

// treated-signs.tsv lists 5 to 8 visible signs of every treated state with
// their sources, and what an eye found of them in the pictures of types 2, 4
// and 6.
func TestEveryTreatmentHasItsSigns(t *testing.T) {
	var names []string
	for _, c := range treatments() {
		names = append(names, c.name)
	}
	count, shown := readSigns(t, "treated-signs.tsv", names, 3)
	for _, id := range names {
		if count[id] < 5 || count[id] > 8 {
			t.Errorf("%s has %d signs, want 5 to 8", id, count[id])
		}
		if 3*shown[id] < 2*6*count[id] { // two thirds of what could be ticked
			t.Errorf("%s shows only %d of %d half ticks", id, shown[id], 6*count[id])
		}
	}
}
