package skin

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// signs.tsv lists 5 to 8 visible signs per family with their sources, and
// what an eye found of them in the golden pictures of types 2 and 5.
func TestEveryFamilyHasItsSigns(t *testing.T) {
	text, err := os.ReadFile("testdata/signs.tsv")
	if err != nil {
		t.Fatal(err)
	}
	count, shown := map[string]int{}, map[string]int{}
	for n, line := range strings.Split(strings.TrimRight(string(text), "\n"), "\n") {
		cols := strings.Split(line, "\t")
		if len(cols) != 5 {
			t.Fatalf("signs.tsv:%d:1: %d fields, want 5", n+1, len(cols))
		}
		if n == 0 {
			continue
		}
		if !slices.Contains(familyIDs, cols[0]) {
			t.Errorf("signs.tsv:%d:1: unknown family %q", n+1, cols[0])
		}
		if strings.TrimSpace(cols[1]) == "" || strings.TrimSpace(cols[2]) == "" {
			t.Errorf("signs.tsv:%d:2: a sign needs its words and its source", n+1)
		}
		for i := 3; i < 5; i++ {
			switch cols[i] {
			case "yes":
				shown[cols[0]] += 2
			case "partly":
				shown[cols[0]]++
			case "no":
			default:
				t.Errorf("signs.tsv:%d:%d: %q, want yes, partly or no", n+1, i+1, cols[i])
			}
		}
		count[cols[0]]++
	}
	for _, id := range familyIDs {
		if count[id] < 5 || count[id] > 8 {
			t.Errorf("%s has %d signs, want 5 to 8", id, count[id])
		}
		// Two thirds of what could be ticked.
		if 3*shown[id] < 2*4*count[id] {
			t.Errorf("%s shows only %d of %d half ticks", id, shown[id], 4*count[id])
		}
	}
}
