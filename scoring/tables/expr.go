package tables

import (
	"fmt"
	"strings"

	"leastwatt/cases"
)

// The language of conditions is small enough to be read aloud:
//
//	prep.agent in alcohol|chlorhexidine_alcohol and not site_hairy
//	power_w >= 1.5 and power_w <= 3
//	asked has devices|device_card          every word
//	lesion.features has any ulcerated|pearly
//	decided(specimen.send)
//
// A test on an absent fact is false, whichever way it points; so "x != y" is
// not the same as "not x = y", which is true of an open phrase. Terms are
// named conditions, kept in terms.json.

// Condition is a compiled condition.
type Condition struct {
	Text  string
	test  func(*Facts) bool
	reads []bool // by Fact
	nums  []constant
	masks []constant // words a choice or set is held against
}

// constant is a number, or a mask of words, written in a condition and the
// fact it is held against: the places where a choice changes the outcome.
type constant struct {
	fact  Fact
	value int64
}

// Holds tells whether the condition is true of the facts.
func (c *Condition) Holds(f *Facts) bool { return c.test(f) }

// readsPlan tells whether the condition reads any fact of the plan or of the
// bench.
func (c *Condition) readsPlan() bool {
	for i := firstPlanFact; i < Fact(len(defs)); i++ {
		if c.reads[i] {
			return true
		}
	}
	return false
}

// conditionError is a mistake in a condition: its offset in characters.
type conditionError struct {
	offset  int
	message string
}

func (e *conditionError) Error() string { return e.message }

type parser struct {
	text   string
	pos    int
	token  string
	at     int // offset of token
	terms  map[string]*Condition
	result *Condition
}

// Compile reads a condition; terms are those it may name.
func Compile(text string, terms map[string]*Condition) (c *Condition, err error) {
	p := &parser{text: text, terms: terms, result: &Condition{Text: text, reads: make([]bool, len(defs))}}
	defer func() {
		if r := recover(); r != nil {
			e, ok := r.(*conditionError)
			if !ok {
				panic(r)
			}
			c, err = nil, e
		}
	}()
	p.next()
	p.result.test = p.or(0)
	if p.token != "" {
		p.fail("%q is not expected here", p.token)
	}
	return p.result, nil
}

func (p *parser) fail(format string, args ...any) {
	panic(&conditionError{p.at, fmt.Sprintf(format, args...)})
}

func (p *parser) next() {
	for p.pos < len(p.text) && p.text[p.pos] == ' ' {
		p.pos++
	}
	p.at = p.pos
	if p.pos == len(p.text) {
		p.token = ""
		return
	}
	switch c := p.text[p.pos]; {
	case strings.IndexByte("()|", c) >= 0:
		p.pos++
	case strings.IndexByte("<>=!", c) >= 0:
		for p.pos++; p.pos < len(p.text) && p.text[p.pos] == '='; p.pos++ {
		}
	case isWordByte(c):
		for p.pos++; p.pos < len(p.text) && isWordByte(p.text[p.pos]); p.pos++ {
		}
	default:
		p.token = string(c)
		p.fail("%q does not belong in a condition", string(c))
	}
	p.token = p.text[p.at:p.pos]
}

func isWordByte(c byte) bool {
	return c == '_' || c == '.' || c == '-' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z'
}

// maxNesting bounds brackets and nots, so that hostile text cannot exhaust
// the stack.
const maxNesting = 40

func (p *parser) or(depth int) func(*Facts) bool {
	left := p.and(depth)
	for p.token == "or" {
		p.next()
		a, b := left, p.and(depth)
		left = func(f *Facts) bool { return a(f) || b(f) }
	}
	return left
}

func (p *parser) and(depth int) func(*Facts) bool {
	left := p.not(depth)
	for p.token == "and" {
		p.next()
		a, b := left, p.not(depth)
		left = func(f *Facts) bool { return a(f) && b(f) }
	}
	return left
}

func (p *parser) not(depth int) func(*Facts) bool {
	if depth > maxNesting {
		p.fail("the condition is nested more than %d deep", maxNesting)
	}
	if p.token == "not" {
		p.next()
		a := p.not(depth + 1)
		return func(f *Facts) bool { return !a(f) }
	}
	if p.token == "(" {
		p.next()
		a := p.or(depth + 1)
		p.expect(")")
		return a
	}
	return p.test()
}

func (p *parser) expect(token string) {
	if p.token != token {
		p.fail("%q is expected here", token)
	}
	p.next()
}

func (p *parser) test() func(*Facts) bool {
	name := p.token
	if name == "decided" {
		p.next()
		p.expect("(")
		i := p.fact()
		p.expect(")")
		return func(f *Facts) bool { return f.has[i] }
	}
	if name == "always" {
		p.next()
		return func(*Facts) bool { return true }
	}
	if term, ok := p.terms[name]; ok {
		p.next()
		for i, r := range term.reads {
			p.result.reads[i] = p.result.reads[i] || r
		}
		p.result.nums = append(p.result.nums, term.nums...)
		p.result.masks = append(p.result.masks, term.masks...)
		return term.test
	}
	i := p.fact()
	switch defs[i].kind {
	case truth:
		return func(f *Facts) bool { return f.has[i] && f.value[i] != 0 }
	case set:
		return p.has(i)
	case choice:
		return p.choice(i)
	}
	return p.compare(i)
}

func (p *parser) fact() Fact {
	if i, ok := factByName[p.token]; ok {
		p.result.reads[i] = true
		p.next()
		return i
	}
	p.fail("%q is neither a fact nor a term", p.token)
	return 0
}

func (p *parser) has(i Fact) func(*Facts) bool {
	p.expect("has")
	any := p.token == "any"
	if any {
		p.next()
	}
	mask := p.words(i)
	if any {
		return func(f *Facts) bool { return f.has[i] && f.value[i]&mask != 0 }
	}
	return func(f *Facts) bool { return f.has[i] && f.value[i]&mask == mask }
}

func (p *parser) choice(i Fact) func(*Facts) bool {
	op := p.token
	switch op {
	case "in", "=", "!=":
	default:
		p.fail("in, = or != is expected after %s", defs[i].name)
	}
	p.next()
	if op == "=" {
		row := int64(p.word(i))
		if row < 64 {
			p.result.masks = append(p.result.masks, constant{i, 1 << row})
		}
		return func(f *Facts) bool { return f.has[i] && f.value[i] == row }
	}
	mask := p.words(i)
	if op == "!=" {
		return func(f *Facts) bool { return f.has[i] && mask>>uint(f.value[i])&1 == 0 }
	}
	return func(f *Facts) bool { return f.has[i] && mask>>uint(f.value[i])&1 != 0 }
}

// words reads a|b|c as a mask of the fact's vocabulary.
func (p *parser) words(i Fact) int64 {
	var mask int64
	for {
		mask |= 1 << p.word(i)
		if p.token != "|" {
			p.result.masks = append(p.result.masks, constant{i, mask})
			return mask
		}
		p.next()
	}
}

// word reads one word of the fact's vocabulary as its row.
func (p *parser) word(i Fact) int {
	row := wordIndex(defs[i].table, p.token)
	if row < 0 {
		p.fail("%q is no word of %s%s", p.token, defs[i].name, cases.Vocab.Suggest(defs[i].table, p.token))
	}
	p.next()
	return row
}

func (p *parser) compare(i Fact) func(*Facts) bool {
	op := p.token
	switch op {
	case "<", "<=", ">", ">=", "=", "!=":
	default:
		p.fail("a comparison is expected after %s", defs[i].name)
	}
	p.next()
	if j, ok := factByName[p.token]; ok && defs[j].kind == number {
		p.fact()
		return compareFacts(op, i, j)
	}
	m, err := cases.ParseMilli(p.token)
	if err != nil || p.token == "" {
		p.fail("a number is expected, not %q", p.token)
	}
	p.next()
	n := int64(m)
	p.result.nums = append(p.result.nums, constant{i, n})
	switch op {
	case "<":
		return func(f *Facts) bool { return f.has[i] && f.value[i] < n }
	case "<=":
		return func(f *Facts) bool { return f.has[i] && f.value[i] <= n }
	case ">":
		return func(f *Facts) bool { return f.has[i] && f.value[i] > n }
	case ">=":
		return func(f *Facts) bool { return f.has[i] && f.value[i] >= n }
	case "=":
		return func(f *Facts) bool { return f.has[i] && f.value[i] == n }
	}
	return func(f *Facts) bool { return f.has[i] && f.value[i] != n }
}

func compareFacts(op string, i, j Fact) func(*Facts) bool {
	holds := map[string]func(a, b int64) bool{
		"<":  func(a, b int64) bool { return a < b },
		"<=": func(a, b int64) bool { return a <= b },
		">":  func(a, b int64) bool { return a > b },
		">=": func(a, b int64) bool { return a >= b },
		"=":  func(a, b int64) bool { return a == b },
		"!=": func(a, b int64) bool { return a != b },
	}[op]
	return func(f *Facts) bool { return f.has[i] && f.has[j] && holds(f.value[i], f.value[j]) }
}

var factByName = func() map[string]Fact {
	m := map[string]Fact{}
	for i, d := range defs {
		m[d.name] = Fact(i)
	}
	return m
}()
