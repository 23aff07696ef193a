package cases

import (
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func mustPlan(t *testing.T, text string) *Plan {
	t.Helper()
	p, err := ReadPlan("plan.json", []byte(text))
	if err != nil {
		t.Fatalf("%s\n%v", text, err)
	}
	return p
}

const planHead = `{"format":"leastwatt.plan/1","case":"sample/ladder"`

// Open, none and an empty list are three different things.
func TestOpenIsNotNone(t *testing.T) {
	open := mustPlan(t, planHead+"}")
	if v := reflect.ValueOf(open).Elem(); v.NumField() != 27 {
		t.Errorf("a plan has %d keys; the format names 27", v.NumField())
	}
	if keys := DecidedKeys(open); keys != nil {
		t.Errorf("an open plan has decided %v", keys)
	}
	for key, value := range map[string]string{"asked": "[]", "protection": "[]", "record": "[]", "prescribe": "[]", "advice": "[]", "power_w": "7", "anaesthetic": "{}", "specimen": "{}", "prep": "{}", "technique": `"curettage"`} {
		p := mustPlan(t, planHead+`,"`+key+`":`+value+"}")
		if diff := cmp.Diff([]string{key}, DecidedKeys(p)); diff != "" {
			t.Errorf("%s: %s", key, diff)
		}
	}
	open = mustPlan(t, planHead+`,"prep":{"agent":"none"},"anaesthetic":{"none":false},"specimen":{"send":false,"method":"none"}}`)
	if open.Prep.Agent != "none" || open.Prep.DryWaitS != nil || *open.Anaesthetic.None || open.Anaesthetic.Injected != nil || *open.Specimen.Send || open.Specimen.Labels != nil {
		t.Errorf("decided and open are confused: %+v", open)
	}
	if p := mustPlan(t, planHead+`,"anaesthetic":{"injected":[]}}`); p.Anaesthetic.Injected == nil {
		t.Error("an empty list of injections reads as open")
	}
}

func TestNumbersAreKeptInTheirStep(t *testing.T) {
	p := mustPlan(t, samplePlan)
	for name, test := range map[string]struct {
		got  *Milli
		want Milli
	}{
		"power_w": {p.PowerW, 7100}, "activation_s": {p.ActivationS, 350}, "cycles": {p.Cycles, 3000}, "rim_mm": {p.RimMM, 4500},
		"volume_ml": {p.Anaesthetic.Injected[0].VolumeML, 2500}, "confidence": {p.Confidence, 850}, "dry_wait_s": {p.Prep.DryWaitS, 180000},
	} {
		if test.got == nil || *test.got != test.want {
			t.Errorf("%s is %v, want %v", name, test.got, test.want)
		}
	}
	for text, want := range map[string]Milli{"7.10": 7100, "71e-1": 7100, "0.71E1": 7100, "35": 35000, "0.1": 100, "35.000000": 35000} {
		if p := mustPlan(t, planHead+`,"power_w":`+text+"}"); *p.PowerW != want {
			t.Errorf("%s reads as %s", text, p.PowerW)
		}
	}
}

func TestOneInjectionStandsForAList(t *testing.T) {
	one := mustPlan(t, planHead+`,"anaesthetic":{"injected":{"agent":"lidocaine","percent":1,"volume_ml":2}}}`)
	list := mustPlan(t, planHead+`,"anaesthetic":{"injected":[{"agent":"lidocaine","percent":1,"volume_ml":2}]}}`)
	if diff := cmp.Diff(list, one); diff != "" {
		t.Error(diff)
	}
}

func ratio(text string) string {
	return planHead + `,"anaesthetic":{"injected":[{"adrenaline":"1:1000"},{"adrenaline":«` + text + `}]}}`
}

const badRatio = `it must be written like "1:200000", from 1:1000 to 1:1000000, or left out for plain`

var badPlanRules = []badSample{
	{"other format", `{"format":«"leastwatt.plan/2","case":"a/b"}`, `"format" is "leastwatt.plan/2"; this reads "leastwatt.plan/1"`},
	{"a pack", `{"format":«"leastwatt.pack/1","case":"a/b"}`, `this reads "leastwatt.plan/1"`},
	{"empty format", `{"format":«"","case":"a/b"}`, `"format"`},
	{"no slash", `{"format":"leastwatt.plan/1","case":«"ladder"}`, `"case" must be pack-id/case-id, not "ladder"`},
	{"two slashes", `{"format":"leastwatt.plan/1","case":«"a/b/c"}`, `must be pack-id/case-id`},
	{"capital pack", `{"format":"leastwatt.plan/1","case":«"A/b"}`, `must be pack-id/case-id`},
	{"space", `{"format":"leastwatt.plan/1","case":«"a/b c"}`, `must be pack-id/case-id`},
	{"climbing", `{"format":"leastwatt.plan/1","case":«"../b"}`, `must be pack-id/case-id`},
	{"empty case", `{"format":"leastwatt.plan/1","case":«""}`, `"case" may not be empty`},
	{"blank case", `{"format":"leastwatt.plan/1","case":«" "}`, `"case" may not be empty`},
	{"ratio: no colon", ratio(`"200000"`), badRatio},
	{"ratio: letters", ratio(`"1:many"`), badRatio},
	{"ratio: spaces", ratio(`"1 : 200000"`), badRatio},
	{"ratio: grouped", ratio(`"1:200,000"`), badRatio},
	{"ratio: plain", ratio(`"plain"`), badRatio},
	{"ratio: empty", ratio(`""`), badRatio},
	{"ratio: none", ratio(`"1:"`), badRatio},
	{"ratio: zero", ratio(`"1:0"`), badRatio},
	{"ratio: leading zero", ratio(`"1:0200000"`), badRatio},
	{"ratio: two", ratio(`"2:200000"`), badRatio},
	{"ratio: plus", ratio(`"1:+200000"`), badRatio},
	{"ratio: negative", ratio(`"1:-200000"`), badRatio},
	{"ratio: strong", ratio(`"1:999"`), badRatio},
	{"ratio: weak", ratio(`"1:1000001"`), badRatio},
	{"ratio: huge", ratio(`"1:99999999999999999999"`), badRatio},
	{"ratio: as a number", ratio("200000"), `must be text, not a number`},
	{"ratio in a single object", planHead + `,"anaesthetic":{"injected":{"adrenaline":«"x"}}}`, `"anaesthetic.injected[0].adrenaline" is "x"`},
	{"none beside an injection", planHead + `,"anaesthetic":{"none":«true,"injected":{"agent":"lidocaine"}}}`, `"anaesthetic.none" is true, yet an agent stands beside it`},
	{"none beside a cream", planHead + `,"anaesthetic":{"topical":{},"none":«true}}`, `an agent stands beside it`},
}

func TestPlanRules(t *testing.T) {
	for _, test := range badPlanRules {
		t.Run(test.name, func(t *testing.T) {
			text, line, column := unmark(t, test.text)
			_, err := ReadPlan("plan.json", []byte(text))
			faults, _ := err.(Faults)
			wantFault(t, faults, line, column, test.words)
		})
	}
	for _, good := range []string{`"1:1000"`, `"1:80000"`, `"1:200000"`, `"1:1000000"`} {
		mustPlan(t, strings.Replace(ratio(good), mark, "", 1))
	}
	for _, good := range []string{"a/b", "0/0", "made/ABC_def-9", "a_b-c/d"} {
		mustPlan(t, `{"format":"leastwatt.plan/1","case":"`+good+`"}`)
	}
	mustPlan(t, planHead+`,"anaesthetic":{"none":true,"injected":[]}}`)
}

func TestParseRatio(t *testing.T) {
	if n, err := ParseRatio("1:80000"); n != 80000 || err != nil {
		t.Error(n, err)
	}
}
