package solve

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/scoring"
	"leastwatt/scoring/dose"
	"leastwatt/scoring/tables"
)

// TestEveryRule finds, for every graded row, a case and a plan that satisfy
// it and a change to that plan that breaks it, and prints the table of rules
// by the plan value that violates them. No line may be empty; rows that no
// plan value can break must be knowledge, and those are listed apart.
func TestEveryRule(t *testing.T) {
	report, err := os.Create(reportFile(t))
	if err != nil {
		t.Fatal(err)
	}
	defer report.Close()
	fmt.Fprintln(report, "RULE\tSATISFIED BY\tBROKEN BY\tAS")
	knowledge := []string{}
	bases := packs.Cases()
	for _, r := range tables.Builtin.Rows {
		if r.Knowledge {
			knowledge = append(knowledge, r.Rule)
			continue
		}
		f := findings(t, r, bases)
		fmt.Fprintf(report, "%s\t%s\t%s\t%s\n", r.Rule, f.satisfied, f.broken, f.kind)
		f.complain(t, r)
	}
	fmt.Fprintf(report, "\nTaught, never graded: %s\n", strings.Join(knowledge, ", "))
	t.Logf("%d graded rows, %d taught", len(tables.Builtin.Rows)-len(knowledge), len(knowledge))
}

// Whatever pack is read first, every row is found satisfied and broken.
func TestEveryRuleInAnyOrder(t *testing.T) {
	loaded, err := packs.Load()
	if err != nil {
		t.Fatal(err)
	}
	firsts := []int{len(loaded) - 1}
	if long() {
		for i := range loaded {
			firsts = append(firsts, i)
		}
	}
	for _, first := range firsts {
		var bases []*cases.Case
		for k := range loaded {
			p := loaded[(first+k)%len(loaded)].Pack
			for i := range p.Cases {
				bases = append(bases, &p.Cases[i])
			}
		}
		for _, r := range tables.Builtin.Rows {
			if !r.Knowledge {
				findings(t, r, bases).complain(t, r)
			}
		}
	}
}

// complain reports what was not found.
func (s shown) complain(t *testing.T, r *tables.Row) {
	if s.broken == "" && !alwaysCredit(r) {
		t.Errorf("%s: no plan value breaks it", r.Rule)
	}
	if s.satisfied == "" && !onlyHeard(r) {
		t.Errorf("%s: no plan satisfies it", r.Rule)
	}
}

// alwaysCredit are the rows that close a slot with credit: they say that
// nothing of the slot was needed.
func alwaysCredit(r *tables.Row) bool { return r.Else == "credit" }

// onlyHeard are rows that speak up when the plan does something and ask for
// nothing: leaving it undone satisfies them, silently.
func onlyHeard(r *tables.Row) bool { return r.OK == "" }

func reportFile(t *testing.T) string {
	if *keepReport {
		return "../../testdata/reports/rules.tsv"
	}
	return t.TempDir() + "/rules.tsv"
}

// shown is what was found for one row.
type shown struct{ satisfied, broken, kind string }

func findings(t *testing.T, r *tables.Row, bases []*cases.Case) shown {
	if r.Slot == "dose" && dose.Find(r.Rule) != nil {
		return doseFindings(t, r)
	}
	if r.Bench() {
		return benchFindings(t, r)
	}
	var out shown
	cs := casesFor(r, bases)
	// Single changes everywhere come first; pairs are many and seldom needed.
	findAmong(t, r, cs, 3000, false, &out)
	slices.Reverse(cs) // the changed cases, which need pairs, stand last
	findAmong(t, r, cs, 60, true, &out)
	return out
}

// findAmong looks at so many starts as tries allows. Where the decision is
// right comes first: a row may keep silent about a plan whose decision is
// wrong, and then the order of the packs would settle what is found.
func findAmong(t *testing.T, r *tables.Row, cs []*cases.Case, tries int, pairs bool, out *shown) {
	for _, acceptable := range []bool{true, false} {
		for _, c := range cs {
			if out.done(r) {
				return
			}
			j, err := scoring.NewJudge(tables.Builtin, c, nil, "cautious")
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range r.For {
				if j.Acceptable(d) != acceptable {
					continue
				}
				for _, technique := range techniquesOf(r, d) {
					if tries--; tries < 0 || out.done(r) {
						return
					}
					lookRound(j, r, start(startPlan, d, technique), pairs, out)
				}
			}
		}
	}
}

// done tells whether there is nothing left to look for.
func (s *shown) done(r *tables.Row) bool {
	return (s.satisfied != "" || onlyHeard(r)) && (s.broken != "" || alwaysCredit(r))
}

// lookRound looks one change away from a plan, or two, for a plan that
// satisfies the row and one that breaks it.
func lookRound(j *scoring.Judge, r *tables.Row, p *cases.Plan, pairs bool, out *shown) {
	var room []scoring.Mark
	look := func(p *cases.Plan) bool {
		room = j.Score(p, room).Marks
		for _, m := range room {
			switch {
			case m.Row != r:
			case m.Kind == tables.Credit && out.satisfied == "":
				out.satisfied = j.Case.ID + ": " + choice(p, r)
			case m.Kind != tables.Credit && out.broken == "":
				out.broken, out.kind = j.Case.ID+": "+choice(p, r), m.Kind.String()
			}
		}
		if out.satisfied == "" && j.RowKind(r, p) == tables.Credit {
			// A row of a decision that is wrong here earns nothing, so its
			// credit is not a finding; satisfied it is all the same.
			out.satisfied = j.Case.ID + ": " + choice(p, r)
		}
		return out.done(r)
	}
	if look(p) {
		return
	}
	for _, m := range changes(r, p) {
		next := clone(p)
		m(next)
		if look(next) {
			return
		}
		if !pairs {
			continue
		}
		for _, m2 := range changes(r, next) {
			far := clone(next)
			m2(far)
			if look(far) {
				return
			}
		}
	}
}

func choice(p *cases.Plan, r *tables.Row) string {
	var parts []string
	for _, path := range r.Phrases {
		parts = append(parts, path+" = "+strings.ReplaceAll(cases.PhraseText(p, path, cases.UK), "\u202f", " "))
	}
	return p.Disposition + ", " + strings.Join(parts, ", ")
}

// changes are the solver's moves on every fact that the row reads, and
// opening the phrases it marks.
func changes(r *tables.Row, p *cases.Plan) []move {
	var out []move
	for _, fact := range tables.PlanFacts() {
		if r.Reads(fact) && fact != "disposition" && fact != "technique" {
			out = append(out, moves(r, fact)...)
		}
	}
	for _, fact := range tables.PlanFacts() {
		if d, ok := dials[fact]; ok && r.Reads(fact) {
			out = append(out, func(p *cases.Plan) { n := cases.Milli(d.low); *d.field(p) = &n })
			out = append(out, func(p *cases.Plan) { n := cases.Milli(d.up); *d.field(p) = &n })
		}
	}
	if r.Reads("anaesthetic.adrenaline_ug_ml") || r.Reads("anaesthetic.adrenaline") {
		out = append(out, func(p *cases.Plan) { inject(p, "lidocaine", "1:50000", 1000) })
		out = append(out, func(p *cases.Plan) { inject(p, "lidocaine", "1:50000", 30000) })
	}
	if r.Reads("anaesthetic.percent") {
		for _, percent := range []cases.Milli{500, 2000, 4000} {
			out = append(out, func(p *cases.Plan) { inject(p, "lidocaine", "", 1000); p.Anaesthetic.Injected[0].Percent = &percent })
		}
	}
	if r.Reads("anaesthetic.topical.agent") {
		out = append(out, func(p *cases.Plan) {
			inject(p, "lidocaine", "", 30000)
			p.Anaesthetic.Topical = &cases.Topical{Agent: "lidocaine_prilocaine_cream", Minutes: milli(45)}
		})
	}
	if r.Reads("anaesthetic.agents") {
		for _, agent := range cases.Vocab.IDs("agent") {
			out = append(out, func(p *cases.Plan) { inject(p, agent, "", 1000) })
			out = append(out, func(p *cases.Plan) {
				inject(p, "lidocaine", "", 1000)
				second := p.Anaesthetic.Injected[0]
				second.Agent = agent
				p.Anaesthetic.Injected = append(p.Anaesthetic.Injected, second)
			})
		}
	}
	for _, path := range r.Phrases {
		switch head, _, _ := strings.Cut(path, "."); head {
		case "asked":
			out = append(out, func(p *cases.Plan) { p.Asked = nil })
		case "anaesthetic":
			out = append(out, func(p *cases.Plan) { p.Anaesthetic = nil })
		case "prep":
			out = append(out, func(p *cases.Plan) { p.Prep = nil })
		case "specimen":
			out = append(out, func(p *cases.Plan) { p.Specimen = nil })
		case "referral":
			out = append(out, func(p *cases.Plan) { p.Referral = nil })
		}
	}
	return out
}

// techniquesOf are the techniques worth trying for a row and a decision.
func techniquesOf(r *tables.Row, disposition string) []string {
	if disposition == "refer" || disposition == "leave" {
		return []string{""}
	}
	if r.Reads("technique") {
		return append(cases.Vocab.IDs("technique"), "")
	}
	return []string{"curettage_desiccation", "shave_excision", "electrodesiccation", "punch_biopsy"}
}

// doseFindings gives a row of the dose table a patient and a solution of its
// own, once a little and once far too much.
func doseFindings(t *testing.T, r *tables.Row) shown {
	d := dose.Find(r.Rule)
	var out shown
	for _, weight := range []cases.Milli{70000, 30000, 16000, 8000, 3500} {
		for _, age := range []cases.Milli{40000, 15000, 12500, 8000, 5000, 3500, 2000, 700, 300, 100} {
			for _, percent := range []cases.Milli{200, 250, 500, 750, 1000, 2000, 3000, 4000} {
				for _, ratio := range []string{"", "1:200000"} {
					for _, volume := range []cases.Milli{100, 200000} {
						c := &cases.Case{ID: fmt.Sprintf("%s years, %s kg", age, weight), Patient: cases.Patient{AgeYears: age, WeightKG: weight, Sex: "male", SkinType: 2}, Lesion: cases.Lesion{Family: "cherry_angioma", Site: "back", WidthMM: 3000}}
						j, err := scoring.NewJudge(tables.Builtin, c, nil, string(d.Labels))
						if err != nil {
							t.Fatal(err)
						}
						p := start(startPlan, "treat", "electrodesiccation")
						p.Anaesthetic.Injected = []cases.Injected{{Agent: d.Agent, Percent: &percent, Adrenaline: ratio, VolumeML: &volume}}
						for _, m := range j.Score(p, nil).Marks {
							if m.Row != r {
								continue
							}
							text := fmt.Sprintf("%s: %s mL of %s %% %s", c.ID, volume, percent, ratio)
							if m.Kind == tables.Credit && out.satisfied == "" {
								out.satisfied = text
							}
							if m.Kind != tables.Credit && out.broken == "" {
								out.broken, out.kind = text, m.Kind.String()
							}
						}
						if out.broken != "" && (out.satisfied != "" || d.Kind == dose.KindRefusal) {
							return out
						}
					}
				}
			}
		}
	}
	return out
}
