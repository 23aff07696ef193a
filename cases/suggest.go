package cases

import (
	"fmt"
	"sort"
)

// DidYouMean offers the nearest of words when it is close enough to be what
// the writer meant, else nothing.
func DidYouMean(wrong string, words []string) string {
	if len(wrong) > maxMeant {
		return ""
	}
	sort.Strings(words)
	best, bestDistance := "", len(wrong)/3+2
	for _, w := range words {
		if d := editDistance(wrong, w); d < bestDistance {
			best, bestDistance = w, d
		}
	}
	if best == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", best)
}

// maxMeant is the longest word that can be a slip of the pen.
const maxMeant = 130

// editDistance counts the letters to add, drop or change between a and b. A
// very long word is no slip of the pen, so it counts as far away.
func editDistance(a, b string) int {
	if len(a) > maxMeant || len(b) > maxMeant {
		return maxMeant
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := diagonal
			if a[i-1] != b[j-1] {
				cost = 1 + min(diagonal, row[j], row[j-1])
			}
			diagonal, row[j] = row[j], cost
		}
	}
	return row[len(b)]
}
