package solve

import (
	"math/rand/v2"
	"slices"

	"leastwatt/cases"
)

// habit is one way of answering every case. What a habit is not about stays as
// in the ordinary careful plan that every search begins from.
type habit struct {
	name, is string
	plan     func(c *cases.Case, solved *cases.Plan, r *rand.Rand) *cases.Plan
}

const (
	guided     = "guided"
	timid      = "timid"
	everything = "ticks everything"
	sameAlways = "always 5 W"
	dicePlan   = "random"
	prescribes = "ticks, and prescribes" // printed, not ranked
)

var habits = []habit{
	{guided, "follows the tables: the solver's plan", func(_ *cases.Case, solved *cases.Plan, _ *rand.Rand) *cases.Plan { return solved }},
	{timid, "asks all, refers what could be doubtful soon and the rest at leisure, or leaves it; treats only what bleeds", timidPlan},
	{everything, "treats all by shaving and heat, and ticks every topic, protection, record and advice there is", everythingPlan},
	{sameAlways, "touches all with 5 W for a second, sends nothing", samePlan},
	{dicePlan, "throws dice for every phrase", randomPlan},
	{prescribes, "ticks everything, and prescribes everything too: not a superfluous tick but an act, and never right without infection", prescribingPlan},
}

func timidPlan(c *cases.Case, _ *cases.Plan, r *rand.Rand) *cases.Plan {
	known := c.KnownFamily()
	p := &cases.Plan{Format: cases.PlanFormat, Case: "habit/timid", Asked: cases.Vocab.IDs("topic")}
	if c.Patient.HasThinner() {
		p.BloodThinner = "continue"
	}
	p.Advice = []string{"return_if_changed"}
	if len(c.Patient.Devices) > 0 {
		p.Advice = append(p.Advice, "bring_device_card")
	}
	doubtful := known == cases.DoubtfulGrowth || known == "pigmented_suspicious" || c.Lesion.Report != nil ||
		slices.ContainsFunc(c.Lesion.Features, func(f string) bool {
			return slices.Contains([]string{"irregular_pigment", "many_colours", "asymmetric", "recent_change", "pearly", "ulcerated", "indurated", "tender_base", "bleeding"}, f)
		})
	switch {
	case known == "wound_bleeding":
		p = clone(startPlan)
		p.Asked = cases.Vocab.IDs("topic")
		p.Disposition, p.Technique = "treat", "electrocoagulation"
		p.Protection = cases.Vocab.IDs("protection")
	case doubtful:
		p.Disposition, p.Referral, p.FollowUpDays = "refer", &cases.Referral{To: "dermatology", WithinDays: milli(14)}, milli(28)
		p.Record = []string{"consent", "site_confirmed", "site_photograph"}
	case r.IntN(2) == 0:
		p.Disposition, p.Referral, p.FollowUpDays = "refer", &cases.Referral{To: "dermatology", WithinDays: milli(90)}, milli(28)
		p.Record = []string{"consent", "site_confirmed", "site_photograph"}
	default:
		p.Disposition, p.OtherCare, p.FollowUpDays = "leave", "wait_and_see", milli(28)
	}
	return p
}

func everythingPlan(*cases.Case, *cases.Plan, *rand.Rand) *cases.Plan {
	p := clone(startPlan)
	p.Disposition, p.Technique = "treat", "shave_desiccation"
	p.Asked = cases.Vocab.IDs("topic")
	p.Protection = cases.Vocab.IDs("protection")
	p.Record = cases.Vocab.IDs("record")
	p.Advice = cases.Vocab.IDs("advice")
	p.Anaesthetic.Buffered, p.Anaesthetic.Warmed = yes(), yes()
	p.Specimen = &cases.Specimen{Send: yes(), Method: "shave", Labels: yes(), ResultOwner: "me"}
	p.BloodThinner = "check_inr"
	return p
}

func prescribingPlan(c *cases.Case, solved *cases.Plan, r *rand.Rand) *cases.Plan {
	p := everythingPlan(c, solved, r)
	p.Prescribe = cases.Vocab.IDs("prescribe")
	return p
}

func samePlan(*cases.Case, *cases.Plan, *rand.Rand) *cases.Plan {
	p := clone(startPlan)
	p.Disposition, p.Technique = "treat", "electrodesiccation"
	p.PowerW, p.ActivationS = milli(5), milli(1)
	no := false
	p.Specimen = &cases.Specimen{Send: &no, Method: "none"}
	return p
}

// randomPlan throws for every phrase that the thrown decision uses, over the
// whole of its vocabulary or range.
func randomPlan(_ *cases.Case, _ *cases.Plan, r *rand.Rand) *cases.Plan {
	one := func(table string) string {
		ids := cases.Vocab.IDs(table)
		return ids[r.IntN(len(ids))]
	}
	some := func(table string) []string {
		list := []string{}
		for _, id := range cases.Vocab.IDs(table) {
			if r.IntN(2) == 0 {
				list = append(list, id)
			}
		}
		return list
	}
	number := func(low, high, step int) *cases.Milli {
		m := cases.Milli(low + step*r.IntN((high-low)/step+1))
		return &m
	}
	flag := func() *bool { b := r.IntN(2) == 0; return &b }
	p := &cases.Plan{
		Format: cases.PlanFormat, Case: "habit/random",
		Asked: some("topic"), Disposition: one("disposition"), Technique: one("technique"), Electrode: one("electrode"), Output: one("output"), Contact: one("contact"),
		PowerW: number(100, 35000, 100), ActivationS: number(50, 5000, 50), Cycles: number(1000, 5000, 1000), RimMM: number(0, 6000, 500), MarginMM: number(0, 10000, 100),
		Haemostasis: &cases.Haemostasis{Method: one("haemostasis"), Output: one("output"), Contact: one("contact"), Electrode: one("electrode"), PowerW: number(100, 35000, 100), ActivationS: number(50, 5000, 50)},
		Prep:        &cases.Prep{Agent: one("prep"), DryWaitS: number(0, 300_000, 1000), DryChecked: flag()},
		Protection:  some("protection"), EvacuatorCM: number(0, 50000, 100), Record: some("record"),
		Specimen:     &cases.Specimen{Send: flag(), Method: one("specimen_method"), Labels: flag(), ResultOwner: one("result_owner")},
		BloodThinner: one("blood_thinner"), Prescribe: some("prescribe"), FollowUpDays: number(0, 180_000, 1000),
		Referral: &cases.Referral{To: one("referral"), WithinDays: number(0, 180_000, 1000)}, OtherCare: one("other_care"), Advice: some("advice"),
	}
	p.Anaesthetic = &cases.Anaesthetic{
		Injected:    []cases.Injected{{Agent: one("agent"), Percent: number(500, 4000, 500), VolumeML: number(100, 20_000, 100)}},
		NeedleGauge: number(18_000, 34_000, 1000), Method: one("injection_method"), WaitMin: number(0, 20_000, 1000), Buffered: flag(), Warmed: flag(), Slow: flag(),
	}
	if r.IntN(2) == 0 {
		p.Anaesthetic.Injected[0].Adrenaline = "1:200000"
	}
	return p
}
