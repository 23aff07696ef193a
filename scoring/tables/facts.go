package tables

import (
	"leastwatt/cases"
)

// factKind says how a fact is held in [Facts] and which tests it takes.
type factKind uint8

const (
	number factKind = iota // thousandths of its unit: <, <=, >, >=, =, !=
	choice                 // a row of a vocabulary: =, !=, in
	set                    // a bit per row of a vocabulary: has
	truth                  // true or false, used bare
)

// factDef is one thing a rule may read. Its name is the path in a pack or a
// plan, so that a row reads like the files it judges.
type factDef struct {
	name   string
	kind   factKind
	table  string // vocabulary of a choice or set
	plan   bool   // a fact of the plan rather than of the case
	phrase string // the plan path marked in the note
}

// Fact numbers a fact within [Facts].
type Fact int

// maxFacts bounds the number of facts; a test holds the registry under it.
const maxFacts = 128

// Facts is everything the rules may know of one case, one plan and, where it
// was treated on the bench, the outcome. An open phrase and an unknown case
// fact are absent: every test on them is false.
type Facts struct {
	value [maxFacts]int64
	has   [maxFacts]bool
	dose  doseFacts // the last injections reckoned, for this case
}

func (f *Facts) setNumber(i Fact, m cases.Milli) { f.value[i], f.has[i] = int64(m), true }

func (f *Facts) setPointer(i Fact, m *cases.Milli) {
	if m != nil {
		f.setNumber(i, *m)
	}
}

func (f *Facts) setTruth(i Fact, b bool) {
	f.has[i] = true
	if b {
		f.value[i] = 1
	}
}

func (f *Facts) setTruthPointer(i Fact, b *bool) {
	if b != nil {
		f.setTruth(i, *b)
	}
}

func (f *Facts) setChoice(i Fact, word string) {
	if row, ok := factWords[i][word]; ok {
		f.value[i], f.has[i] = int64(row), true
	}
}

// setWords stores a list; nil, an open phrase, stays absent.
func (f *Facts) setWords(i Fact, words []string) {
	if words == nil {
		return
	}
	var bits int64
	for _, w := range words {
		if row, ok := factWords[i][w]; ok {
			bits |= 1 << row
		}
	}
	f.value[i], f.has[i] = bits, true
}

// clearPlan forgets the facts of the plan and of the bench and keeps those of
// the case.
func (f *Facts) clearPlan() {
	for i := firstPlanFact; i < Fact(len(defs)); i++ {
		f.value[i], f.has[i] = 0, false
	}
}

// knownFamilies is the vocabulary of lesion.family: every family and the
// doubtful growth that a family known only from tissue counts as.
const knownFamilies = "known_family"

func wordIndex(table, word string) int {
	switch table {
	case knownFamilies:
		if word == cases.DoubtfulGrowth {
			return len(cases.Vocab.List("family"))
		}
		return cases.Vocab.Index("family", word)
	case doseRows:
		return doseRowIndex(word)
	}
	return cases.Vocab.Index(table, word)
}

// factWords is the row of each word a fact may hold, by fact: the grader looks
// words up often enough to want one step in the place of two.
var factWords = func() []map[string]int {
	byFact := make([]map[string]int, len(defs))
	for i, d := range defs {
		if d.kind != set && d.kind != choice {
			continue
		}
		words := cases.Vocab.IDs(d.table)
		switch d.table {
		case knownFamilies:
			words = append(cases.Vocab.IDs("family"), cases.DoubtfulGrowth)
		case doseRows:
			words = doseRuleIDs()
		}
		byFact[i] = map[string]int{}
		for _, w := range words {
			byFact[i][w] = wordIndex(d.table, w)
		}
	}
	return byFact
}()
