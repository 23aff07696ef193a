package screen

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"leastwatt/cases"
	"leastwatt/game/ui"
	"leastwatt/scoring"
)

// Numbered is a finding with its place in the note: what a supervisor writes
// in the margin.
type Numbered struct {
	scoring.Finding
	Number  int      // from 1; 0 for a credit
	Phrases []string // the note's phrases that it marks, by ID; none when it is about what the note lacks
}

// NumberFindings gives every finding its phrases in the note. Findings that
// ask for something are numbered in the order of the grade.
func NumberFindings(g *scoring.Grade, note []Sentence) []Numbered {
	var list []Numbered
	n := 0
	for _, f := range g.Findings {
		m := Numbered{Finding: f, Phrases: placesIn(note, f.Phrases)}
		if f.Kind != "credit" {
			n++
			m.Number = n
		}
		list = append(list, m)
	}
	return list
}

// placesIn finds the phrases that rule paths mean. A path that the note does
// not show at present falls back on the phrase it belongs to: "specimen.labels"
// on "specimen.send" while nothing is sent.
func placesIn(note []Sentence, paths []string) []string {
	phrases := Phrases(note)
	var ids []string
	add := func(match func(string) bool, all bool) bool {
		found := false
		for _, p := range phrases {
			if match(pathOf(p.ID)) {
				ids = append(ids, p.ID)
				found = true
				if !all {
					break
				}
			}
		}
		return found
	}
	for _, path := range paths {
		add(func(p string) bool { return p == path }, true)
	}
	if len(ids) > 0 {
		return ids
	}
	for _, path := range paths {
		head, _, _ := strings.Cut(path, ".")
		for _, home := range append([]string{head}, homes(head)...) {
			if add(func(p string) bool { return p == home || strings.HasPrefix(p, home+".") }, false) {
				return ids
			}
		}
	}
	return nil
}

// homes are the phrases that decide whether a key has a phrase at all, the
// nearest first: the smoke tube stands in the note once protection has it.
func homes(head string) []string {
	if head == "evacuator_cm" {
		return []string{"protection", "technique", "disposition"}
	}
	return []string{"technique", "disposition"}
}

func markOf(kind string) ui.Mark {
	switch kind {
	case "never":
		return ui.MarkNever
	case "caution":
		return ui.MarkCaution
	case "advice":
		return ui.MarkAdvice
	}
	return ui.MarkCredit
}

// KindWord names a kind of finding at the head of a margin note.
func KindWord(kind string) string {
	if kind == "never" {
		return "Never"
	}
	return capital(kind)
}

// HeadingOf is "Caution: nothing was sent."
func HeadingOf(f scoring.Finding) string {
	return KindWord(f.Kind) + ": " + sentence(lowerFirst(f.Heading))
}

// lowerFirst lets a sentence go on after a colon, save for names and
// abbreviations that begin it.
func lowerFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	second, _ := utf8.DecodeRuneInString(s[n:])
	if unicode.IsUpper(second) || unicode.IsDigit(second) {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// RightOf says what would be right: "many teach" where no published source
// stands behind it.
func RightOf(f scoring.Finding) string {
	if f.Expected == "" {
		return ""
	}
	lead := "Right: "
	if f.Certainty == "common_practice" || f.Certainty == "memory" {
		lead = "Many teach: "
	}
	return lead + sentence(lowerFirst(f.Expected))
}

// SourceOf is the source and how sure it is.
func SourceOf(f scoring.Finding, words cases.Words) string {
	return sourceText(f.Source, f.Certainty, f.Local, words)
}

// SourceText is the same for a rule.
func SourceText(source, certainty string, words cases.Words) string {
	return sourceText(source, certainty, false, words)
}

// sourceText says a certainty once, where the source itself names it.
func sourceText(source, certainty string, local bool, words cases.Words) string {
	text := capital(source)
	if label := cases.Vocab.Label("certainty", certainty, words); !strings.HasPrefix(source, label) {
		text += " · " + label
	}
	if local {
		text += " · local rule"
	}
	return text
}

// CountsText is "1 never event, 2 cautions", or that there is neither.
func CountsText(g *scoring.Grade) string {
	nevers, cautions, advices, _ := g.Counts()
	var parts []string
	if nevers > 0 {
		parts = append(parts, digits(nevers, "never event"))
	}
	if cautions > 0 {
		parts = append(parts, digits(cautions, "caution"))
	}
	if len(parts) == 0 {
		parts = append(parts, "no never event, no caution")
	}
	if advices > 0 {
		parts = append(parts, piecesOfAdvice(advices))
	}
	return strings.Join(parts, ", ")
}

func piecesOfAdvice(n int) string { return digits(n, "piece") + " of advice" }

// PointsText is empty while a never event stands: no points then.
func PointsText(g *scoring.Grade) string {
	if nevers, _, _, _ := g.Counts(); nevers > 0 {
		return ""
	}
	return fmt.Sprintf("%d of %s", g.Points, digits(g.Of, "point"))
}

// CreditsText is "Eleven choices were right."
func CreditsText(n int) string {
	switch n {
	case 0:
		return "No choice was right yet."
	case 1:
		return "One choice was right."
	}
	return capital(count(n, "choice")) + " were right."
}
