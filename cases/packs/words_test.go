package packs

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"leastwatt/cases"
)

// Tables a trainee chooses from: each word needs a line that explains it.
var chosen = []string{
	"disposition", "technique", "electrode", "output", "contact", "haemostasis", "agent", "topical_agent", "injection_method",
	"prep", "protection", "record", "specimen_method", "result_owner", "blood_thinner", "prescribe", "referral", "other_care", "advice", "topic",
}

func TestEveryChoiceIsExplained(t *testing.T) {
	for _, table := range chosen {
		for _, w := range cases.Vocab.List(table) {
			n := len(strings.Fields(w.Line))
			switch {
			case n == 0:
				t.Errorf("%s %s: no line", table, w.ID)
			case n > 14:
				t.Errorf("%s %s: %d words in %q; at most 14", table, w.ID, n, w.Line)
			case !strings.HasSuffix(w.Line, "."):
				t.Errorf("%s %s: %q ends without a full stop", table, w.ID, w.Line)
			}
		}
	}
}

func TestLabels(t *testing.T) {
	for _, table := range cases.Vocab.Tables {
		label := map[string]string{}
		for _, w := range table.Words {
			for _, s := range []string{w.UK, w.US} {
				if strings.ContainsAny(s, "_.;!\"") || strings.TrimSpace(s) != s {
					t.Errorf("%s %s: label %q", table.ID, w.ID, s)
				}
			}
			if other, twice := label[w.UK]; twice {
				t.Errorf("%s: %s and %s are both called %q", table.ID, w.ID, other, w.UK)
			}
			label[w.UK] = w.ID
			if cases.Spell(w.UK, cases.US) != w.UK && w.US == "" {
				t.Errorf("%s %s: %q is spelled otherwise in American", table.ID, w.ID, w.UK)
			}
			if w.US == w.UK {
				t.Errorf("%s %s: the American label says nothing new", table.ID, w.ID)
			}
		}
	}
}

// prose lists the texts of a case that a person reads.
func prose(c *cases.Case) map[string]string {
	texts := map[string]string{"presenting": c.Presenting, "teaching": c.Teaching}
	for topic, words := range c.Ask {
		texts["ask."+topic] = words
	}
	return texts
}

var sentenceEnd = regexp.MustCompile(`[.?!]+(?:\s+|$)`)

func TestSentencesAreShort(t *testing.T) {
	for id, c := range everyCase(t) {
		for where, text := range prose(c) {
			if strings.ContainsAny(text, "!_") {
				t.Errorf("%s %s: %q", id, where, text)
			}
			for _, s := range sentenceEnd.Split(text, -1) {
				if n := len(strings.Fields(s)); n > 20 {
					t.Errorf("%s %s: %d words in %q", id, where, n, s)
				}
			}
		}
		if n := len([]rune(c.Presenting)); n > 60 {
			t.Errorf("%s: the presenting words have %d letters; the day's list shows 60", id, n)
		}
		if n := len(sentenceEnd.FindAllString(c.Teaching, -1)); n < 2 || n > 4 {
			t.Errorf("%s: the teaching has %d sentences", id, n)
		}
	}
}

// The grade is Flesch-Kincaid's (Kincaid and others, Derivation of new
// readability formulas, Research Branch Report 8-75, 1975): 0.39 words a
// sentence + 11.8 syllables a word - 15.59.
func TestReadingGrade(t *testing.T) {
	worst, at := 0.0, ""
	for id, c := range everyCase(t) {
		speech := ""
		for _, topic := range cases.Vocab.IDs("topic") {
			speech += " " + c.Ask[topic]
		}
		for where, text := range map[string]string{"teaching": c.Teaching, "ask": speech} {
			g := grade(text)
			if g > 9 {
				t.Errorf("%s %s: reading grade %.1f", id, where, g)
			}
			if g > worst {
				worst, at = g, id+" "+where
			}
		}
	}
	t.Logf("hardest: %s, grade %.1f", at, worst)
	if g := grade("The utilisation of electrodesiccation necessitates comprehensive preparation, including documentation of contraindications."); g < 12 {
		t.Errorf("the tool grades a hard sentence %.1f", g)
	}
}

func grade(text string) float64 {
	sentences, words, syllables := 0, 0, 0
	for _, s := range sentenceEnd.Split(text, -1) {
		fields := strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' })
		if len(fields) == 0 {
			continue
		}
		sentences++
		for _, w := range fields {
			words++
			syllables += syllablesOf(strings.ToLower(w))
		}
	}
	if words == 0 {
		return 0
	}
	return 0.39*float64(words)/float64(sentences) + 11.8*float64(syllables)/float64(words) - 15.59
}

// syllablesOf counts groups of vowels, less a silent e at the end.
func syllablesOf(word string) int {
	n, was := 0, false
	for _, r := range word {
		is := strings.ContainsRune("aeiouy", r)
		if is && !was {
			n++
		}
		was = is
	}
	if strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") && n > 1 {
		n--
	}
	return max(n, 1)
}

// What stands on the day's list or names a case gives nothing away.
func TestNothingIsGivenAway(t *testing.T) {
	var telling []string
	for _, table := range []string{"family", "device", "technique"} {
		for _, w := range cases.Vocab.List(table) {
			if w.UK != "milia" {
				telling = append(telling, w.UK)
			}
		}
	}
	telling = append(telling, "carcinoma", "cancer", "tumour", "melanoma", "wart", "naevus", "keratosis", "angioma", "milia", "keloid",
		"biopsy", "inr", "pregnan", "warfarin", "oxygen", "alcohol", "allerg", "transplant", "tube", "box", "baby", "tablet", "faint", "lesion", "papule", "nodule")
	for id, c := range everyCase(t) {
		for where, text := range map[string]string{"presenting": c.Presenting, "id": c.ID} {
			for _, word := range telling {
				if strings.Contains(strings.ToLower(text), word) {
					t.Errorf("%s: %s %q says %q", id, where, text, word)
				}
			}
		}
		for _, word := range []string{"carcinoma", "cancer", "melanoma", "wart", "naevus", "keratosis", "angioma", "keloid"} {
			if strings.Contains(strings.ToLower(c.Title), word) {
				t.Errorf("%s: title %q says %q", id, c.Title, word)
			}
		}
	}
}
