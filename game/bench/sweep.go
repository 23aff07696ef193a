package bench

import (
	"leastwatt/cases"
	"leastwatt/scoring"
)

// Sweep works out how far the outcome depends on constants that are known
// badly: the same acts on the same patch, with each row of the stated sweep in
// turn (bench.json). Step as a [Curve].
type Sweep struct {
	ops  []op
	spec patchSpec
	got  []scoring.Outcome
	at   int
	run  *opRun
}

// Sweep prepares the sweep for what was done so far.
func (b *Bench) Sweep() *Sweep {
	return &Sweep{ops: append([]op(nil), b.ops...), spec: b.p.spec, got: []scoring.Outcome{b.p.outcome()}}
}

// Step works for a budget of voxel-steps and tells whether the sweep is done.
func (s *Sweep) Step(budget int) (done bool, err error) {
	for budget > 0 && s.at < len(rows.Sweep) {
		if s.run == nil {
			row, spec := rows.Sweep[s.at], s.spec
			spec.o.Damage = row.Damage
			if row.OtherFlow {
				spec.o.Adrenaline = !spec.o.Adrenaline
			}
			if s.run, err = newOpRun(spec, s.ops, 0); err != nil {
				return false, err
			}
		}
		if budget = s.run.step(budget); s.run.done() {
			s.got = append(s.got, s.run.p.outcome())
			s.run = nil
			s.at++
		}
	}
	return s.at == len(rows.Sweep), nil
}

// Range is the least and the greatest of each figure over what the sweep has
// worked out, the outcome itself among them.
func (s *Sweep) Range() *scoring.OutcomeRange {
	span := func(of func(*scoring.Outcome) cases.Milli) [2]cases.Milli {
		r := [2]cases.Milli{of(&s.got[0]), of(&s.got[0])}
		for i := range s.got {
			v := of(&s.got[i])
			r[0], r[1] = min(r[0], v), max(r[1], v)
		}
		return r
	}
	return &scoring.OutcomeRange{
		LesionDestroyedFraction: span(func(o *scoring.Outcome) cases.Milli { return o.LesionDestroyedFraction }),
		DermisFraction:          span(func(o *scoring.Outcome) cases.Milli { return o.DermisFraction }),
		BaseCoveredFraction:     span(func(o *scoring.Outcome) cases.Milli { return o.BaseCoveredFraction }),
		RimMM:                   span(func(o *scoring.Outcome) cases.Milli { return o.RimMM }),
		SpecimenEdgeMM:          span(func(o *scoring.Outcome) cases.Milli { return o.SpecimenEdgeMM }),
	}
}
