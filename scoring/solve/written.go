package solve

import (
	"regexp"
	"slices"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// written is what a supervisor wrote in the place of a row: the numbers and
// the words that it holds each fact of a plan against. A named condition in it
// is not opened; the changes that the row itself asks for serve there.
type written struct {
	numbers map[string][]int64
	masks   map[string][]int64
	reads   []string
}

func (w *written) Reads(fact string) bool        { return slices.Contains(w.reads, fact) }
func (w *written) Numbers(fact string) []int64   { return w.numbers[fact] }
func (w *written) WordMasks(fact string) []int64 { return w.masks[fact] }

// comparison is one test of a value: a fact, how it is held, against what.
var comparison = regexp.MustCompile(`([a-z_.]+) ?(<=|>=|!=|<|>|=| in | has any | has ) ?([a-z0-9_.|-]+)`)

// readValue finds the comparisons in the value of a local rule. The text has
// been compiled before, so whatever it holds is a fact and fits it. A bare
// number stands for the one number of the row's own value.
func readValue(row *tables.Row, value string) *written {
	if _, err := cases.ParseMilli(value); err == nil {
		for _, c := range comparison.FindAllStringSubmatch(row.Value(), -1) {
			if _, err := cases.ParseMilli(c[3]); err == nil {
				value = c[1] + " = " + value
				break
			}
		}
	}
	w := &written{numbers: map[string][]int64{}, masks: map[string][]int64{}}
	for _, c := range comparison.FindAllStringSubmatch(value, -1) {
		fact := c[1]
		w.reads = append(w.reads, fact)
		if n, err := cases.ParseMilli(c[3]); err == nil {
			w.numbers[fact] = append(w.numbers[fact], int64(n))
		} else if table := tableOf(fact); table != "" {
			w.masks[fact] = append(w.masks[fact], maskOf(table, c[3]))
		}
	}
	for _, fact := range tables.PlanFacts() { // what is used bare: specimen.send, anaesthetic.injects
		if !w.Reads(fact) && slices.Contains(strings.FieldsFunc(value, notOfAName), fact) {
			w.reads = append(w.reads, fact)
		}
	}
	return w
}

func notOfAName(r rune) bool { return r != '_' && r != '.' && (r < 'a' || r > 'z') }

// tableOf is the vocabulary of a phrase that holds words.
func tableOf(fact string) string {
	if t, ok := texts[fact]; ok {
		return t.table
	}
	return lists[fact].table
}

// maskOf sets the bit of each word in a list like alcohol|povidone_iodine.
func maskOf(table, words string) int64 {
	var mask int64
	for _, w := range strings.Split(words, "|") {
		if i := cases.Vocab.Index(table, w); i >= 0 {
			mask |= 1 << i
		}
	}
	return mask
}

// localKit is the changes that the case's author or its pack asks for in the
// place of rows.
func localKit(set *tables.Set, c *cases.Case, local []cases.LocalRule) kit {
	k := kit{}
	add := func(rule, value string) {
		if row := set.Row(rule); row != nil && value != "" {
			groups := groupsFor(readValue(row, value))
			k[row] = append(append(k[row], groups...), together(groups)...)
		}
	}
	for _, l := range local {
		add(l.Rule, l.Value)
	}
	for _, e := range c.Expect {
		add(e.Rule, e.Value)
	}
	return k
}

// together makes changes to two phrases at once out of changes to one: a value
// that joins two tests by "and" is no nearer when only one of them is met.
func together(groups [][]move) [][]move {
	var out [][]move
	for i, a := range groups {
		for _, b := range groups[i+1:] {
			var both []move
			for _, m := range a {
				for _, n := range b {
					both = append(both, func(p *cases.Plan) { m(p); n(p) })
				}
			}
			out = append(out, both)
		}
	}
	return out
}
