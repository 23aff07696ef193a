package tables

import (
	"strings"
	"testing"

	"leastwatt/cases"
)

// facts for a man of 68 with a pacemaker and a plan that has decided some
// phrases and left others open.
func sampleFacts(t testing.TB) *Facts {
	t.Helper()
	distance := cases.Milli(20000)
	c := &cases.Case{
		Patient: cases.Patient{
			AgeYears: 68000, WeightKG: 84000, Sex: "male", SkinType: 2,
			Devices: []cases.Device{{Kind: "pacemaker", DistanceCM: &distance}},
		},
		Lesion: cases.Lesion{Family: "cherry_angioma", Site: "back", WidthMM: 8000, Features: []string{"blanches", "soft"}},
	}
	power := cases.Milli(7000)
	p := &cases.Plan{
		Disposition: "treat", Technique: "electrodesiccation", PowerW: &power,
		Asked: []string{"devices", "oxygen"}, Record: []string{}, Prep: &cases.Prep{Agent: "alcohol"},
	}
	f := &Facts{}
	f.FillCase(c)
	f.FillPlan(c, p, "cautious")
	return f
}

func TestConditions(t *testing.T) {
	f := sampleFacts(t)
	terms := map[string]*Condition{}
	old, err := Compile("patient.age_years >= 65", nil)
	if err != nil {
		t.Fatal(err)
	}
	terms["old"] = old
	for _, tt := range []struct {
		text string
		want bool
	}{
		{"patient.age_years = 68", true},
		{"patient.age_years > 68", false},
		{"patient.age_years < 68.001", true},
		{"old and lesion.site = back", true},
		{"lesion.site in neck|back", true},
		{"lesion.site in neck|chest", false},
		{"lesion.site != neck", true},
		{"lesion.family = cherry_angioma", true},
		{"patient.devices has pacemaker", true},
		{"patient.devices has pacemaker|pump", false},
		{"patient.devices has any pacemaker|pump", true},
		{"asked has devices|oxygen", true},
		{"asked has any metal|oxygen", true},
		{"record has consent", false},
		{"decided(record)", true},
		{"decided(protection)", false},
		{"power_w >= 7 and power_w <= 7", true},
		{"setting.smoke_evacuator", false},
		{"not setting.smoke_evacuator", true},
		{"power_w <= setting.unit.max_w", true},
		// An open phrase fails every test, whichever way it points.
		{"activation_s < 100", false},
		{"activation_s >= 0", false},
		{"activation_s != 3", false},
		{"not activation_s < 100", true},
		{"contact != gap", false},
		{"not contact = gap", true},
		{"protection has gloves", false},
		{"prep.agent in alcohol|chlorhexidine_alcohol and not prep.dry_wait_s >= 60", true},
		{"always", true},
		// "and" binds closer than "or"; brackets change that.
		{"always or always and not always", true},
		{"(always or always) and not always", false},
	} {
		c, err := Compile(tt.text, terms)
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		if got := c.Holds(f); got != tt.want {
			t.Errorf("%s = %v, want %v", tt.text, got, tt.want)
		}
	}
}

func TestConditionMistakes(t *testing.T) {
	for _, tt := range []struct {
		text, says string
		offset     int
	}{
		{"power >= 3", `"power" is neither a fact nor a term`, 0},
		{"power_w 3", "a comparison is expected", 8},
		{"power_w >= much", "a number is expected", 11},
		{"contact = near", `"near" is no word of contact`, 10},
		{"asked devices", `"has" is expected`, 6},
		{"(always", `")" is expected`, 7},
		{"always )", `")" is not expected here`, 7},
		{"always & always", `"&" does not belong`, 7},
		{strings.Repeat("not ", 60) + "always", "nested more than", -1},
		{"", "neither a fact nor a term", 0},
	} {
		_, err := Compile(tt.text, nil)
		e, ok := err.(*conditionError)
		if !ok {
			t.Errorf("%q: error %v", tt.text, err)
			continue
		}
		if !strings.Contains(e.message, tt.says) || tt.offset >= 0 && e.offset != tt.offset {
			t.Errorf("%q: %d: %s; want %d: %s", tt.text, e.offset, e.message, tt.offset, tt.says)
		}
	}
}

// FuzzCompile holds the condition language to never panicking, and a
// condition that compiles to being evaluated without panic.
func FuzzCompile(f *testing.F) {
	for _, r := range Builtin.Rows {
		for _, text := range []string{r.If, r.Acts, r.Never, r.OK, r.Advice} {
			if text != "" {
				f.Add(text)
			}
		}
	}
	facts := sampleFacts(f)
	f.Fuzz(func(t *testing.T, text string) {
		c, err := Builtin.Compile(text)
		if err != nil {
			return
		}
		c.Holds(facts)
		again, err := Builtin.Compile(c.Text)
		if err != nil || again.Holds(facts) != c.Holds(facts) {
			t.Fatalf("%q does not read back", text)
		}
	})
}

func TestFactsFit(t *testing.T) {
	if len(defs) > maxFacts {
		t.Fatalf("%d facts, room for %d", len(defs), maxFacts)
	}
	for _, d := range defs {
		if d.kind != set && d.kind != choice {
			continue
		}
		n := len(cases.Vocab.List(d.table))
		if d.table == doseRows {
			continue // compared one by one, never as a mask
		}
		if d.table == knownFamilies {
			n = len(cases.Vocab.List("family")) + 1
		}
		if n == 0 || n > 63 {
			t.Errorf("%s: the table %q holds %d words; a mask holds 1 to 63", d.name, d.table, n)
		}
	}
}
