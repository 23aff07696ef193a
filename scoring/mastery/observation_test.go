package mastery

import "testing"

func TestMarks(t *testing.T) {
	rule := func(kind string, of int) RuleResult { return RuleResult{"rule", "room", kind, of, of} }
	for _, row := range []struct {
		name  string
		rules []RuleResult
		want  mark
	}{
		{"nothing", nil, unasked},
		{"advice alone", []RuleResult{rule(kindAdvice, 0)}, unasked},
		{"credit without points", []RuleResult{rule(kindCredit, 0)}, unasked},
		{"credit", []RuleResult{rule(kindCredit, 2)}, clean},
		{"credit and advice", []RuleResult{rule(kindCredit, 2), rule(kindAdvice, 0)}, right},
		{"caution, then credit", []RuleResult{rule(kindCaution, 2), rule(kindCredit, 2)}, wrong},
		{"credit, then a never event without points", []RuleResult{rule(kindCredit, 2), rule(kindNever, 0)}, wrong},
		{"another domain", []RuleResult{{"rule", "site", kindNever, 0, 2}}, unasked},
		{"no domain of ours", []RuleResult{{"rule", "garden", kindNever, 0, 2}}, unasked},
	} {
		o := Observation{Rules: row.rules}
		if got := o.marks()[domainIndex("room")]; got != row.want {
			t.Errorf("%s: %d, want %d", row.name, got, row.want)
		}
	}
}

// Every chance in thousandths comes back as it was, whatever a float does.
func TestStatedChances(t *testing.T) {
	for milli := range 1001 {
		c := float64(milli) / 1000
		o := Observation{Confidence: &c}
		if got, ok := o.stated(); !ok || got != milli {
			t.Errorf("%g: %d thousandths", c, got)
		}
	}
	almost := 0.9996
	if got, _ := (&Observation{Confidence: &almost}).stated(); got != 1000 {
		t.Errorf("%g: %d thousandths, want the nearest", almost, got)
	}
}
