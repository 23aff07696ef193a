package skin

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
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
			if *update {
				writePNG(t, path, got)
				continue
			}
			want, err := readPNG(path)
			if err != nil {
				t.Error(err)
				continue
			}
			if mean, most := difference(got, want); mean > 1.5 || most > 16 {
				t.Errorf("%s: mean difference %.2f (at most 1.5), 99th percentile %.0f (at most 16)", path, mean, most)
			}
		}
	}
}

// treated-signs.tsv lists 5 to 8 visible signs of every treated state with
// their sources, and what an eye found of them in the pictures of types 2, 4
// and 6.
func TestEveryTreatmentHasItsSigns(t *testing.T) {
	text, err := os.ReadFile("testdata/treated-signs.tsv")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range treatments() {
		names = append(names, c.name)
	}
	count, shown := map[string]int{}, map[string]int{}
	for n, line := range strings.Split(strings.TrimRight(string(text), "\n"), "\n") {
		cols := strings.Split(line, "\t")
		if len(cols) != 6 {
			t.Fatalf("treated-signs.tsv:%d:1: %d fields, want 6", n+1, len(cols))
		}
		if n == 0 {
			continue
		}
		if !slices.Contains(names, cols[0]) {
			t.Errorf("treated-signs.tsv:%d:1: unknown state %q", n+1, cols[0])
		}
		if strings.TrimSpace(cols[1]) == "" || strings.TrimSpace(cols[2]) == "" {
			t.Errorf("treated-signs.tsv:%d:2: a sign needs its words and its source", n+1)
		}
		for i := 3; i < 6; i++ {
			switch cols[i] {
			case "yes":
				shown[cols[0]] += 2
			case "partly":
				shown[cols[0]]++
			case "no":
			default:
				t.Errorf("treated-signs.tsv:%d:%d: %q, want yes, partly or no", n+1, i+1, cols[i])
			}
		}
		count[cols[0]]++
	}
	for _, id := range names {
		if count[id] < 5 || count[id] > 8 {
			t.Errorf("%s has %d signs, want 5 to 8", id, count[id])
		}
		if 3*shown[id] < 2*6*count[id] { // two thirds of what could be ticked
			t.Errorf("%s shows only %d of %d half ticks", id, shown[id], 6*count[id])
		}
	}
}
