package screen

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"leastwatt/cases"
)

// listAnd writes a list as a sentence does: a, b and c.
func listAnd(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

var numberWords = [...]string{
	"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
	"eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
}

// count writes a number of things: "no cases", "one case", "two cases",
// "21 cases". The noun's plural ends in s.
func count(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return numberWord(n) + " " + noun
}

func numberWord(n int) string {
	if n >= 0 && n < len(numberWords) {
		return numberWords[n]
	}
	return fmt.Sprint(n)
}

// digits writes a number of things with a figure: "1 caution", "2 cautions".
func digits(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

// capital begins a text with a capital letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// sentence gives a text that ends in one full stop.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}

// person is how the patient is called in a row: "Man, 68", "Girl, 7".
func person(p *cases.Patient) string {
	child := p.AgeYears < 16000
	noun := "Person"
	switch {
	case p.Sex == "female" && child:
		noun = "Girl"
	case p.Sex == "female":
		noun = "Woman"
	case p.Sex == "male" && child:
		noun = "Boy"
	case p.Sex == "male":
		noun = "Man"
	case child:
		noun = "Child"
	}
	return noun + ", " + ageText(p.AgeYears)
}

// ageText is the age in whole years, in months under two.
func ageText(years cases.Milli) string {
	if years < 2000 {
		months := int(years * 12 / 1000)
		return digits(months, "month")
	}
	return fmt.Sprint(int64(years) / 1000)
}

// pronoun is the patient as a sentence's object.
func pronoun(p *cases.Patient) string {
	switch p.Sex {
	case "female":
		return "her"
	case "male":
		return "him"
	}
	return "them"
}

// place is the site with its side.
func place(l *cases.Lesion, words cases.Words) string { return cases.Place(l.Site, l.Side, words) }

// thinSpace stands between a figure and its unit and never breaks.
const thinSpace = "\u202f"

// quantity writes a figure with its unit.
func quantity(m cases.Milli, unit string) string { return m.String() + thinSpace + unit }
