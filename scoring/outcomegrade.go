package scoring

import (
	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// BenchLimit is the figure that the rows of the case hold an outcome fact
// against, such as outcome.destroyed; ok is false where none does, or where it
// is held against more than one.
func (j *Judge) BenchLimit(fact string) (limit cases.Milli, ok bool) {
	for _, r := range j.benchRows {
		if r.Measures == fact {
			return r.Limit()
		}
	}
	return 0, false
}

// measured is the outcome as the rows read it, beside what the plan set out
// to do with the hand.
func (o *Outcome) measured(p *cases.Plan) *tables.Measured {
	m := &tables.Measured{
		Destroyed: sure(o.LesionDestroyedFraction), DermisFraction: sure(o.DermisFraction), BaseCovered: sure(o.BaseCoveredFraction),
		RimMM: sure(o.RimMM), SpecimenEdgeMM: sure(o.SpecimenEdgeMM),
		DermisDepthMM: o.DermisDepthMM, FloorDepthMM: o.FloorDepthMM, CharredMM3: o.CharredMM3, EnergyJ: o.EnergyJ,
		LongestBurstS: o.LongestBurstS, Bursts: o.Bursts, ContactBreaks: o.ContactBreaks, OrderFaults: o.OrderFaults, Hazards: o.Hazards,
		PlannedBurstS: plannedBurst(p), PlannedRimMM: p.RimMM,
	}
	if r := o.Range; r != nil {
		spread(&m.Destroyed, r.LesionDestroyedFraction)
		spread(&m.DermisFraction, r.DermisFraction)
		spread(&m.BaseCovered, r.BaseCoveredFraction)
		spread(&m.RimMM, r.RimMM)
		spread(&m.SpecimenEdgeMM, r.SpecimenEdgeMM)
	}
	return m
}

func sure(at cases.Milli) tables.Spread { return tables.Spread{At: at, Low: at, High: at} }

func spread(s *tables.Spread, ends [2]cases.Milli) { s.Low, s.High = ends[0], ends[1] }

// plannedBurst is the longest touch that the plan allows: of the destroying
// part, or of the current that stops bleeding where that is longer.
func plannedBurst(p *cases.Plan) *cases.Milli {
	longest := p.ActivationS
	if h := p.Haemostasis; h != nil && h.Method == "electrocoagulation" && h.ActivationS != nil && (longest == nil || *h.ActivationS > *longest) {
		longest = h.ActivationS
	}
	return longest
}

// complete is the outcome with empty lists in the place of absent ones.
func (o *Outcome) complete() *Outcome {
	whole := *o
	if whole.OrderFaults == nil {
		whole.OrderFaults = []string{}
	}
	if whole.Hazards == nil {
		whole.Hazards = []string{}
	}
	return &whole
}

// insideRange follows a figure whose limit the model's range holds.
const insideRange = "The limit lies inside the model's range, so this is advice."

// tellBench puts what the bench showed in the place of a choice and before the
// row's reason. Advice that only the model's range gives says so.
func (j *Judge) tellBench(f *Finding, m Mark, words cases.Words) {
	r := m.Row
	if !r.ActedOn(&j.facts) {
		f.Choice = "did not happen"
		return
	}
	var local *tables.Condition
	if m.Local {
		local = j.overrides[r.Rule].value
	}
	why := r.Why
	if m.Kind == tables.Advice && j.onlyByRange(r) {
		why = insideRange + " " + why
		f.Certainty = "model"
		f.Source += "; the range is the model's own"
	}
	if told := r.Told(&j.facts, local); told != "" {
		why = told + " " + why
	}
	f.Choice = cases.Spell(r.Found(&j.facts, words), words)
	f.Why = cases.Spell(why, words)
}

// onlyByRange tells whether the row would be judged otherwise if the model
// were sure of its figures.
func (j *Judge) onlyByRange(r *tables.Row) bool {
	uncertain := j.facts
	defer func() { j.facts = uncertain }()
	j.facts = *uncertain.Narrowed()
	return j.judge(r) != tables.Advice
}
