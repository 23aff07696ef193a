package dose

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"leastwatt/cases"
)

func TestTableIsWhole(t *testing.T) {
	// Every injected agent of the vocabulary has a limit in some label, and the
	// table knows no agent that a plan cannot name.
	have := map[string]bool{}
	for _, r := range Rows() {
		if r.Kind == KindCeiling {
			have[r.Agent] = true
		}
		if Find(r.Rule) != r {
			t.Errorf("Find(%q) is another row", r.Rule)
		}
		if r.Applies() == "" {
			t.Errorf("%s: Applies is empty", r.Rule)
		}
		if r.Value() == "" && r.Section != SectionGeneral {
			t.Errorf("%s: Value is empty", r.Rule)
		}
	}
	for _, id := range cases.Vocab.IDs("agent") {
		if !have[id] {
			t.Errorf("%s has no limit", id)
		}
	}
	if Find("dose-no-such-row") != nil {
		t.Error("Find invents a row")
	}
	if n := len(Rows()); n < 60 {
		t.Errorf("the table has %d rows", n)
	}
}

func TestRowWords(t *testing.T) {
	for rule, want := range map[string][2]string{
		"dose-us-lidocaine-plain-adult":           {"US label, lidocaine, plain, from 10 years, up to 2 %", "4.5 mg/kg, at most 300 mg"},
		"dose-uk-prilocaine-under-6-months":       {"UK label, prilocaine, under 0.5 years", "refused"},
		"dose-us-mepivacaine-strong-under-30-lb":  {"US label, mepivacaine, under 13.608 kg, over 1.999 %", "refused"},
		"dose-uk-bupivacaine-adrenaline-child":    {"UK label, bupivacaine, with adrenaline, from 1 years, under 12 years, up to 0.25 %", "2 mg/kg, at most 150 mg, adrenaline 5 micrograms/kg"},
		"dose-us-cream-1-to-6-years":              {"US label, lidocaine prilocaine cream, from 1 years, over 10 kg", "at most 10 g, on 100 cm2, at most 240 min"},
		"dose-adrenaline-heart":                   {"adrenaline with heart disease", "at most 40 micrograms"},
		"dose-adrenaline-strength":                {"every local anaesthetic", "1:50,000 to 1:400,000"},
		"dose-us-chloroprocaine-adrenaline-adult": {"US label, chloroprocaine, with adrenaline, from 16 years, up to 3 %", "14 mg/kg, at most 1000 mg"},
	} {
		r := Find(rule)
		if r == nil {
			t.Errorf("%s is missing", rule)
			continue
		}
		if r.Applies() != want[0] || r.Value() != want[1] {
			t.Errorf("%s: %q, %q; want %q, %q", rule, r.Applies(), r.Value(), want[0], want[1])
		}
	}
}

// Each change to the table must be found, at its line and column.
func TestLoaderFindsFaults(t *testing.T) {
	const lid = `"rule": "dose-us-lidocaine-plain-adult", "kind": "ceiling", "agent": "lidocaine", "adrenaline": "plain", "labels": "us", "age_from_years": 10, "percent_to": 2, "mg_per_kg": 4.5, "cap_mg": 300`
	swap := func(old, new string) string { return strings.Replace(lid, old, new, 1) }
	for _, test := range []struct{ name, old, new, want string }{
		{"unknown key", lid, swap("cap_mg", "cap_gm"), `unknown key "injected[0].cap_gm"`},
		{"key of another section", lid, lid + `, "max_g": 5`, `the key "max_g" has no meaning in the section "injected"`},
		{"doubled key", lid, lid + `, "labels": "uk"`, `the key "labels" stands twice`},
		{"no source", `"source": "US Food`, `"sauce": "US Food`, `the key "injected[0].source" is missing`},
		{"empty source", `"source": "US Food and Drug Administration, Silver Spring: product label, lidocaine hydrochloride injection, with and without epinephrine, copy of 2026"`, `"source": " "`, `"injected[0].source" may not be empty`},
		{"rate out of range", lid, swap("4.5", "450"), `"injected[0].mg_per_kg" is 450; it must be from 0.1 to 60`},
		{"negative cap", lid, swap("300", "-300"), `"injected[0].cap_mg" is -300; it must be from 1 to 5000`},
		{"text for a number", lid, swap("300", `"300"`), `"injected[0].cap_mg" must be a number`},
		{"no figure", lid, swap(`, "mg_per_kg": 4.5, "cap_mg": 300`, ""), `"dose-us-lidocaine-plain-adult" is a ceiling without a figure; give mg_per_kg or cap_mg`},
		{"no strength", lid, swap(`"percent_to": 2, `, ""), `needs percent_to`},
		{"figure in a refusal", lid, swap(`"kind": "ceiling"`, `"kind": "refusal"`), `"dose-us-lidocaine-plain-adult" refuses, so it may not give a figure`},
		{"unknown kind", lid, swap(`"kind": "ceiling"`, `"kind": "floor"`), `"kind" is "floor"; it must be one of ceiling, refusal`},
		{"unknown agent", lid, swap(`"agent": "lidocaine"`, `"agent": "lignocaine"`), `unknown agent "lignocaine"; it must be one of lidocaine, `},
		{"unknown label", lid, swap(`"labels": "us"`, `"labels": "eu"`), `"labels" is "eu"; it must be one of us, uk`},
		{"doubled rule", lid, swap("dose-us-lidocaine-plain-adult", "dose-us-lidocaine-plain-child"), `the rule "dose-us-lidocaine-plain-child" stands twice`},
		{"bad id", lid, swap("dose-us-lidocaine-plain-adult", "Dose US"), `must be an id`},
		{"overlap", lid, swap(`"age_from_years": 10`, `"age_from_years": 9.99`), `"dose-us-lidocaine-plain-child" overlaps "dose-us-lidocaine-plain-adult"`},
		{"age ends before it starts", lid, swap(`"age_from_years": 10`, `"age_from_years": 10, "age_below_years": 10`), `ends at 10 years, which is not after its start at 10`},
		{"percent ends before it starts", lid, swap(`"percent_to": 2`, `"percent_over": 2, "percent_to": 2`), `ends at 2 %, which is not above its start at 2`},
		{"ceiling by weight", lid, swap(`"percent_to": 2`, `"weight_below_kg": 20, "percent_to": 2`), `only a refusal may go by weight`},
		{"adrenaline limit of a plain solution", lid, lid + `, "adrenaline_microg_per_kg": 5`, `limits adrenaline but is not for a solution with it`},
		{"memory as published", `"source_kind": "memory", "certainty": "memory"`, `"source_kind": "published", "certainty": "memory"`, `must both be memory, or neither`},
		{"format", "leastwatt.ceilings/1", "leastwatt.ceilings/2", `the format is "leastwatt.ceilings/2"; this reads "leastwatt.ceilings/1"`},
		{"lost reminder", `"rule": "dose-sum-of-fractions"`, `"rule": "dose-sum"`, `the section "general" lacks the row "dose-sum-of-fractions"`},
		{"reminder without its figure", `, "ratio_from": 50000, "ratio_to": 400000`, ``, `the row "dose-adrenaline-strength" lacks its figure`},
		{"topical order", `"age_from_years": 7, "weight_over_kg": 20`, `"age_from_years": 1, "weight_over_kg": 20`, `"dose-us-cream-7-to-12-years" must start at a higher age`},
		{"minutes", `"minutes_from": 30, "minutes_to": 45`, `"minutes_from": 50, "minutes_to": 45`, `ends at 45 minutes, before its start at 50`},
		{"cut short", "\n  \"topical\"", "", `expected`},
	} {
		t.Run(test.name, func(t *testing.T) {
			changed := bytes.Replace(ceilingsJSON, []byte(test.old), []byte(test.new), 1)
			if bytes.Equal(changed, ceilingsJSON) {
				t.Fatal("the change does not touch the table")
			}
			_, err := readTable("ceilings.json", changed)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Fatalf("got %v, want %q", err, test.want)
			}
			for _, line := range strings.Split(err.Error(), "\n") {
				if !regexp.MustCompile(`^ceilings\.json:[1-9]\d*:[1-9]\d*: `).MatchString(line) {
					t.Errorf("%q does not name file, line and column", line)
				}
			}
		})
	}
}

// The place is the right one, not just some place.
func TestFaultPlace(t *testing.T) {
	changed := bytes.Replace(ceilingsJSON, []byte(`"cap_mg": 300`), []byte(`"cap_mg": 0.5`), 1)
	before, _, _ := bytes.Cut(changed, []byte(`0.5`))
	line := 1 + bytes.Count(before, []byte("\n"))
	column := len(before) - bytes.LastIndexByte(before, '\n')
	_, err := readTable("ceilings.json", changed)
	if want := fmt.Sprintf("ceilings.json:%d:%d: ", line, column); err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("got %v, want it at %s", err, want)
	}
}

func FuzzReadTable(f *testing.F) {
	f.Add(ceilingsJSON)
	f.Add([]byte(`{"format":"leastwatt.ceilings/1","injected":[],"topical":[],"adrenaline":[],"general":[]}`))
	f.Add([]byte(`{"injected":[{"rule":"a","kind":"ceiling","mg_per_kg":1e9}],"general":7}`))
	f.Add([]byte(`{`))
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := readTable("f.json", data)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "f.json:") {
				t.Fatalf("%q names no place", err)
			}
			return
		}
		// What was accepted must be able to answer without panic.
		for agent := range table.agents {
			for _, p := range []Patient{{WeightG: minWeightG, AgeCentiYears: 0}, {WeightG: maxWeightG, AgeCentiYears: -1}} {
				b, err := table.bound(p, agent, 1000, 100_000, Cautious)
				if err == nil {
					b.maxMicroG(1000, 100_000)
					b.part(Injected{agent, 1000, 100_000, maxVolumeDeciML})
				}
			}
		}
	})
}
