package dose

import (
	"regexp"
	"strings"
	"testing"
)

// What a user reads: sentences of at most 20 words, a reading grade of at most
// 9 by the Flesch-Kincaid formula (Kincaid and others, Research Branch Report
// 8-75, Naval Technical Training Command, 1975, Millington), no exclamation
// mark, no product name. Names of drugs count as words of two syllables: the
// reader knows them.
func TestWordsForUsers(t *testing.T) {
	for _, r := range Rows() {
		if n := len(sentences(r.Says)); n != 1 {
			t.Errorf("%s: says has %d sentences", r.Rule, n)
		}
		if n := len(sentences(r.Why)); n < 2 || n > 3 {
			t.Errorf("%s: why has %d sentences", r.Rule, n)
		}
		text := r.Says + " " + r.Why + " " + strings.Join(r.Notes, " ")
		for _, s := range sentences(text) {
			if n := len(words(s)); n > 20 {
				t.Errorf("%s: %d words in %q", r.Rule, n, s)
			}
		}
		if grade := readingGrade(text); grade > 9 {
			t.Errorf("%s: reading grade %.1f: %q", r.Rule, grade, text)
		}
		if strings.ContainsAny(text+r.Source, "!®™") {
			t.Errorf("%s: an exclamation mark or a trade mark", r.Rule)
		}
	}
}

var (
	wordForm = regexp.MustCompile(`[\pL\d][\pL\d.,:'/]*`)
	vowels   = regexp.MustCompile(`[aeiouy]+`)
	drug     = regexp.MustCompile(`(?i)caine|adrenaline|anaesthetic|methaemoglobin|sulphonamides`)
)

// sentences splits at full stops only for counting; a colon starts a new
// clause and not a new sentence.
func sentences(text string) []string {
	var list []string
	for _, s := range regexp.MustCompile(`[.?]\s+|[.?]$`).Split(text, -1) {
		if strings.TrimSpace(s) != "" {
			list = append(list, s)
		}
	}
	return list
}

func words(text string) []string { return wordForm.FindAllString(text, -1) }

func readingGrade(text string) float64 {
	count, syllables := 0, 0
	for _, w := range words(text) {
		count++
		w = strings.ToLower(strings.Trim(w, ".,:'"))
		switch n := len(vowels.FindAllString(w, -1)); {
		case drug.MatchString(w):
			syllables += 2
		case n > 1 && strings.HasSuffix(w, "e") && !strings.HasSuffix(w, "le"):
			syllables += n - 1
		default:
			syllables += max(n, 1)
		}
	}
	return 0.39*float64(count)/float64(len(sentences(text))) + 11.8*float64(syllables)/float64(count) - 15.59
}
