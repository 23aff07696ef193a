package solve

import (
	_ "embed"

	"leastwatt/cases"
)

//go:embed start.json
var startJSON []byte

// startPlan is where every search begins: an ordinary careful plan.
var startPlan = func() *cases.Plan {
	p, err := cases.ReadPlan("scoring/solve/start.json", startJSON)
	if err != nil {
		panic(err)
	}
	return p
}()

// start gives the first plan for a decision and technique: an earlier plan
// with only the keys that the decision uses.
func start(from *cases.Plan, disposition, technique string) *cases.Plan {
	p := clone(from)
	p.Disposition, p.Technique = disposition, technique
	switch disposition {
	case "refer":
		return &cases.Plan{
			Format: p.Format, Disposition: disposition, Asked: p.Asked, Record: p.Record, FollowUpDays: p.FollowUpDays,
			Referral: &cases.Referral{To: "dermatology", WithinDays: milli(28)}, Advice: []string{"return_if_changed"},
		}
	case "leave":
		return &cases.Plan{
			Format: p.Format, Disposition: disposition, Asked: p.Asked, FollowUpDays: p.FollowUpDays,
			OtherCare: "none", Advice: []string{"return_if_changed"},
		}
	case "biopsy_first":
		p.Specimen = &cases.Specimen{Send: yes(), Method: "punch", Labels: yes(), ResultOwner: "me"}
		p.Electrode, p.Output, p.Contact, p.PowerW, p.ActivationS, p.Cycles, p.RimMM = "", "", "", nil, nil, nil, nil
		return p
	}
	setElectrode(p, technique)
	return p
}

// setElectrode gives a technique the tool without which it is nothing.
func setElectrode(p *cases.Plan, technique string) {
	p.Electrode, p.Output, p.Contact = startPlan.Electrode, startPlan.Output, startPlan.Contact
	if p.PowerW == nil {
		p.PowerW = startPlan.PowerW
	}
	switch technique {
	case "bipolar_coagulation":
		p.Electrode, p.Output, p.Contact = "forceps", "", ""
	case "heat_cautery":
		p.Electrode, p.Output, p.Contact, p.PowerW = "cautery_tip", "", "", nil
	case "electrofulguration":
		p.Contact = "gap"
	}
}

func milli(n int) *cases.Milli {
	m := cases.Milli(n) * 1000
	return &m
}

func yes() *bool {
	b := true
	return &b
}

// clone copies a plan so that a move on the copy leaves the first alone. Moves
// put new lists and numbers in the place of old ones and never write into
// them, so the lists are shared.
func clone(p *cases.Plan) *cases.Plan {
	c := *p
	if p.Haemostasis != nil {
		h := *p.Haemostasis
		c.Haemostasis = &h
	}
	if p.Anaesthetic != nil {
		a := *p.Anaesthetic
		if a.Topical != nil {
			t := *a.Topical
			a.Topical = &t
		}
		c.Anaesthetic = &a
	}
	if p.Prep != nil {
		r := *p.Prep
		c.Prep = &r
	}
	if p.Specimen != nil {
		s := *p.Specimen
		c.Specimen = &s
	}
	if p.Referral != nil {
		r := *p.Referral
		c.Referral = &r
	}
	return &c
}
