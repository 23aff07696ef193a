package tables

import "leastwatt/cases"

// usedKeys says which plan keys each decision uses; a decision not yet taken
// uses them all. The others are ignored and listed in the grade.
var usedKeys = map[string][]string{
	"treat": {
		"asked", "technique", "electrode", "output", "contact", "power_w", "activation_s", "cycles", "rim_mm", "margin_mm", "haemostasis",
		"anaesthetic", "prep", "protection", "evacuator_cm", "record", "specimen", "blood_thinner", "prescribe", "follow_up_days", "referral", "advice",
	},
	"biopsy_first": {
		"asked", "technique", "margin_mm", "anaesthetic", "prep", "protection", "evacuator_cm", "record", "specimen",
		"haemostasis", "blood_thinner", "prescribe", "follow_up_days", "referral", "advice",
	},
	"refer": {"asked", "referral", "record", "blood_thinner", "advice", "follow_up_days"},
	"leave": {"asked", "advice", "follow_up_days", "other_care", "blood_thinner"},
}

// Uses tells whether a decision uses a plan key.
func Uses(disposition, key string) bool {
	keys, ok := usedSet[disposition]
	return !ok || keys[key]
}

var usedSet = func() map[string]map[string]bool {
	m := map[string]map[string]bool{}
	for d, keys := range usedKeys {
		m[d] = map[string]bool{}
		for _, k := range keys {
			m[d][k] = true
		}
	}
	return m
}()

// UsedKeys lists the plan keys that a decision uses, in the order of a plan.
func UsedKeys(disposition string) []string { return usedKeys[disposition] }

// FillPlan sets the facts of the plan and keeps those of the case. The dose
// is reckoned for the patient by the label set.
func (f *Facts) FillPlan(c *cases.Case, p *cases.Plan, labels string) {
	f.clearPlan()
	used, decided := usedSet[p.Disposition]
	uses := func(key string) bool { return !decided || used[key] }
	if uses("asked") {
		f.setWords(planAsked, p.Asked)
	}
	f.setChoice(planDisposition, p.Disposition)
	if uses("technique") {
		f.setChoice(planTechnique, p.Technique)
	}
	if uses("electrode") {
		f.fillCurrent(p)
	}
	if uses("margin_mm") {
		f.setPointer(planMarginMM, p.MarginMM)
	}
	if uses("haemostasis") {
		f.fillHaemostasis(p.Haemostasis)
	}
	if uses("anaesthetic") {
		f.fillAnaesthetic(p.Anaesthetic)
		f.fillDose(c, p.Anaesthetic, labels)
	}
	if uses("prep") {
		f.fillRoom(p)
	}
	if uses("specimen") {
		f.fillSpecimen(p.Specimen)
	}
	f.fillAfter(p, uses)
}

func (f *Facts) fillCurrent(p *cases.Plan) {
	f.setChoice(planElectrode, p.Electrode)
	f.setChoice(planOutput, p.Output)
	f.setChoice(planContact, p.Contact)
	f.setPointer(planPowerW, p.PowerW)
	f.setPointer(planActivationS, p.ActivationS)
	f.setPointer(planCycles, p.Cycles)
	f.setPointer(planRimMM, p.RimMM)
}

// fillHaemostasis: no word on bleeding means pressure.
func (f *Facts) fillHaemostasis(h *cases.Haemostasis) {
	if h == nil || h.Method == "" {
		f.setChoice(planHaemostasisMethod, "pressure")
		return
	}
	f.setChoice(planHaemostasisMethod, h.Method)
	f.setChoice(planHaemostasisOutput, h.Output)
	f.setChoice(planHaemostasisContact, h.Contact)
	f.setChoice(planHaemostasisElectrode, h.Electrode)
	f.setPointer(planHaemostasisPowerW, h.PowerW)
	f.setPointer(planHaemostasisActivationS, h.ActivationS)
}

func (f *Facts) fillAnaesthetic(a *cases.Anaesthetic) {
	if a == nil {
		return
	}
	f.setTruthPointer(planAnaestheticNone, a.None)
	if len(a.Injected) > 0 {
		f.fillInjected(a.Injected)
		f.setPointer(planAnaestheticNeedleGauge, a.NeedleGauge)
		f.setChoice(planAnaestheticMethod, a.Method)
		f.setPointer(planAnaestheticWaitMin, a.WaitMin)
		f.setTruthPointer(planAnaestheticBuffered, a.Buffered)
		f.setTruthPointer(planAnaestheticWarmed, a.Warmed)
		f.setTruthPointer(planAnaestheticSlow, a.Slow)
	}
	if t := a.Topical; t != nil {
		f.setChoice(planAnaestheticTopicalAgent, t.Agent)
		f.setPointer(planAnaestheticTopicalAmountG, t.AmountG)
		f.setPointer(planAnaestheticTopicalAreaCM2, t.AreaCM2)
		f.setPointer(planAnaestheticTopicalMinutes, t.Minutes)
	}
}

func (f *Facts) fillInjected(list []cases.Injected) {
	f.setTruth(planAnaestheticInjects, true)
	var agents []string
	var volume, percent cases.Milli
	var strongest int64 // adrenaline, micrograms per mL in thousandths
	complete := true
	for _, in := range list {
		if in.Agent != "" {
			agents = append(agents, in.Agent)
		}
		if in.Percent != nil {
			percent = max(percent, *in.Percent)
		}
		if n, err := cases.ParseRatio(in.Adrenaline); err == nil {
			strongest = max(strongest, 1_000_000*1000/n)
		}
		if in.VolumeML == nil {
			complete = false
			continue
		}
		volume += *in.VolumeML
	}
	f.setWords(planAnaestheticAgents, agents)
	if percent > 0 {
		f.setNumber(planAnaestheticPercent, percent)
	}
	if complete {
		f.setNumber(planAnaestheticVolumeML, volume)
	}
	f.setTruth(planAnaestheticAdrenaline, strongest > 0)
	f.setNumber(planAnaestheticAdrenalineUGML, cases.Milli(strongest))
}

func (f *Facts) fillRoom(p *cases.Plan) {
	if p.Prep != nil {
		f.setChoice(planPrepAgent, p.Prep.Agent)
		f.setPointer(planPrepDryWaitS, p.Prep.DryWaitS)
		f.setTruthPointer(planPrepDryChecked, p.Prep.DryChecked)
	}
	f.setWords(planProtection, p.Protection)
	f.setPointer(planEvacuatorCM, p.EvacuatorCM)
}

func (f *Facts) fillSpecimen(s *cases.Specimen) {
	if s == nil {
		return
	}
	f.setTruthPointer(planSpecimenSend, s.Send)
	f.setChoice(planSpecimenMethod, s.Method)
	f.setTruthPointer(planSpecimenLabels, s.Labels)
	f.setChoice(planSpecimenResultOwner, s.ResultOwner)
}

func (f *Facts) fillAfter(p *cases.Plan, uses func(string) bool) {
	if uses("record") {
		f.setWords(planRecord, p.Record)
	}
	if uses("blood_thinner") {
		f.setChoice(planBloodThinner, p.BloodThinner)
	}
	if uses("prescribe") {
		f.setWords(planPrescribe, p.Prescribe)
	}
	if uses("follow_up_days") {
		f.setPointer(planFollowUpDays, p.FollowUpDays)
	}
	if uses("referral") && p.Referral != nil {
		f.setChoice(planReferralTo, p.Referral.To)
		f.setPointer(planReferralWithinDays, p.Referral.WithinDays)
	}
	if uses("other_care") {
		f.setChoice(planOtherCare, p.OtherCare)
	}
	f.setWords(planAdvice, p.Advice)
}
