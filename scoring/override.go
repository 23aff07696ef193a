package scoring

import (
	"fmt"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// override is what a supervisor put in the place of a row: by a local rule of
// the pack, or by this author's judgement on one case.
type override struct {
	value  *tables.Condition // in place of the row's ok; nil keeps it
	text   string
	kind   *tables.Kind // in place of the row's kind of fault; nil keeps it
	reason string
	source string
}

// readOverrides compiles the local rules and the case's expectations, the
// latter last, so that a case may differ from its pack.
func readOverrides(set *tables.Set, c *cases.Case, local []cases.LocalRule) (map[string]*override, error) {
	if len(local) == 0 && len(c.Expect) == 0 {
		return nil, nil
	}
	m := map[string]*override{}
	for _, l := range local {
		o, err := newOverride(set, l.Rule, l.Value, "")
		if err != nil {
			return nil, err
		}
		o.reason, o.source = l.Reason, l.Source
		if o.source == "" {
			o.source = "local practice"
		}
		m[l.Rule] = o
	}
	for _, e := range c.Expect {
		o, err := newOverride(set, e.Rule, e.Value, e.Kind)
		if err != nil {
			return nil, err
		}
		o.reason, o.source = e.Reason, "this author's judgement"
		m[e.Rule] = o
	}
	return m, nil
}

// CheckOverride says what is wrong with a local rule or an expectation, or
// returns nil.
func CheckOverride(set *tables.Set, rule, value, kind string) error {
	_, err := newOverride(set, rule, value, kind)
	return err
}

func newOverride(set *tables.Set, rule, value, kind string) (*override, error) {
	row := set.Row(rule)
	if row == nil {
		return nil, fmt.Errorf("unknown rule %q%s", rule, set.Suggest(rule))
	}
	if row.Knowledge {
		return nil, fmt.Errorf("the rule %q is taught, never graded; it cannot be overridden", rule)
	}
	o := &override{}
	if kind != "" {
		k, _ := tables.ParseKind(kind)
		o.kind = &k
	}
	if value == "" {
		if kind == "" {
			return nil, fmt.Errorf("the rule %q is named without a value or a kind", rule)
		}
		return o, nil
	}
	text, err := fullValue(row, value)
	if err != nil {
		return nil, err
	}
	if o.value, err = set.Compile(text); err != nil {
		return nil, fmt.Errorf("the value %q of rule %q cannot be read: %v; it is written like %q", value, rule, err, row.Value())
	}
	o.text = text
	return o, nil
}

// fullValue lets a supervisor write a bare number where the row's own value
// holds exactly one.
func fullValue(row *tables.Row, value string) (string, error) {
	if _, err := cases.ParseMilli(value); err != nil {
		return value, nil
	}
	words := strings.Fields(row.Value())
	at := -1
	for i, w := range words {
		if _, err := cases.ParseMilli(w); err != nil {
			continue
		}
		if at >= 0 {
			return "", fmt.Errorf("the value of rule %q holds more than one number; write it out like %q", row.Rule, row.Value())
		}
		at = i
	}
	if at < 0 {
		return "", fmt.Errorf("the value of rule %q holds no number; it is written like %q", row.Rule, row.Value())
	}
	words[at] = value
	return strings.Join(words, " "), nil
}

// judge gives a row's kind, with what the supervisor put in its place. A
// local rule may tighten anything; it may loosen a never event no further
// than to a caution.
func (j *Judge) judge(r *tables.Row) tables.Kind {
	base := r.Judge(&j.facts)
	o := j.overrides[r.Rule]
	if o == nil {
		return base
	}
	if o.value != nil {
		if o.value.Holds(&j.facts) {
			if base == tables.Never {
				return tables.Caution
			}
			return tables.Credit
		}
		base = max(base, tables.Caution)
	}
	if o.kind == nil || base == tables.Credit {
		return base
	}
	if base == tables.Never {
		return max(*o.kind, tables.Caution)
	}
	return *o.kind
}

// isLocal tells whether an override changed the row's kind.
func (j *Judge) isLocal(r *tables.Row, kind tables.Kind) bool {
	return j.overrides[r.Rule] != nil && r.Judge(&j.facts) != kind
}
