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
	count, shown := readSigns(t, "signs.tsv", familyIDs, 2)
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

// readSigns reads a list of signs: what it is of, the sign, its source, and so
// many ticks. It counts the signs and the half ticks of each.
func readSigns(t *testing.T, file string, known []string, ticks int) (count, shown map[string]int) {
	t.Helper()
	text, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	count, shown = map[string]int{}, map[string]int{}
	for n, line := range strings.Split(strings.TrimRight(string(text), "\n"), "\n") {
		cols := strings.Split(line, "\t")
		if len(cols) != 3+ticks {
			t.Fatalf("%s:%d:1: %d fields, want %d", file, n+1, len(cols), 3+ticks)
		}
		if n == 0 {
			continue
		}
		if !slices.Contains(known, cols[0]) {
			t.Errorf("%s:%d:1: unknown %q", file, n+1, cols[0])
		}
		if strings.TrimSpace(cols[1]) == "" || strings.TrimSpace(cols[2]) == "" {
			t.Errorf("%s:%d:2: a sign needs its words and its source", file, n+1)
		}
		for i, tick := range cols[3:] {
			switch tick {
			case "yes":
				shown[cols[0]] += 2
			case "partly":
				shown[cols[0]]++
			case "no":
			default:
				t.Errorf("%s:%d:%d: %q, want yes, partly or no", file, n+1, i+4, tick)
			}
		}
		count[cols[0]]++
	}
	return count, shown
}
