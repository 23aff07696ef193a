package tables

import "leastwatt/cases"

// FillCase sets the facts of the case: only what a careful trainee can find
// out, so that no grade depends on the hidden truth.
func (f *Facts) FillCase(c *cases.Case) {
	*f = Facts{}
	f.fillPatient(&c.Patient)
	f.fillSetting(&c.Setting)
	f.fillLesion(c)
}

func (f *Facts) fillPatient(p *cases.Patient) {
	f.setNumber(casePatientAgeYears, p.AgeYears)
	f.setNumber(casePatientWeightKG, p.WeightKG)
	f.setNumber(casePatientSkinType, cases.Milli(p.SkinType)*1000)
	f.setPointer(casePatientINR, p.INR)
	f.setPointer(casePatientGestationWeeks, p.GestationWeeks)
	f.setChoice(casePatientSex, p.Sex)
	f.setWords(casePatientHistory, some(p.History))
	f.setWords(casePatientMedicines, some(p.Medicines))
	f.setWords(casePatientAllergies, some(p.Allergies))
	kinds := []string{}
	for _, d := range p.Devices {
		kinds = append(kinds, d.Kind)
		if d.DistanceCM != nil && (!f.has[casePatientDeviceDistanceCM] || int64(*d.DistanceCM) < f.value[casePatientDeviceDistanceCM]) {
			f.setNumber(casePatientDeviceDistanceCM, *d.DistanceCM)
		}
	}
	f.setWords(casePatientDevices, kinds)
	f.setTruth(casePatientPregnant, p.Pregnant)
	f.setTruth(casePatientBreastfeeding, p.Breastfeeding)
}

func (f *Facts) fillSetting(s *cases.Setting) {
	f.setTruth(caseSettingOxygenRunning, s.OxygenRunning)
	f.setTruth(caseSettingMetalTable, s.MetalTable)
	f.setTruth(caseSettingSmokeEvacuator, s.SmokeEvacuator)
	f.setTruth(caseSettingBipolarUnit, s.BipolarUnit)
	f.setTruth(caseSettingCauteryUnit, s.CauteryUnit)
	f.setTruth(caseSettingPathologyService, s.PathologyService)
	// A low-power office unit without a return plate is what the cases have
	// unless they say otherwise.
	f.setChoice(caseSettingUnitReturn, "single_ended")
	f.setNumber(caseSettingUnitMaxW, 35000)
	if s.Unit != nil {
		if s.Unit.Return != "" {
			f.setChoice(caseSettingUnitReturn, s.Unit.Return)
		}
		f.setPointer(caseSettingUnitMaxW, s.Unit.MaxW)
	}
}

func (f *Facts) fillLesion(c *cases.Case) {
	l := &c.Lesion
	f.setChoice(caseLesionFamily, c.KnownFamily())
	f.setChoice(caseLesionSite, l.Site)
	f.setChoice(caseLesionSide, l.Side)
	f.setNumber(caseLesionWidthMM, l.WidthMM)
	f.setNumber(caseLesionHeightMM, l.HeightMM)
	f.setNumber(caseLesionDepthMM, l.DepthMM)
	f.setNumber(caseLesionCount, cases.Milli(l.Counted())*1000)
	f.setWords(caseLesionFeatures, some(l.Features))
	f.setTruth(caseLesionReport, l.Report != nil)
	if r := l.Report; r != nil {
		f.setChoice(caseLesionReportSays, r.Says)
		f.setChoice(caseLesionReportSpecimen, r.Specimen)
		f.setNumber(caseLesionReportDaysAgo, r.DaysAgo)
		f.setTruth(caseLesionReportSamePlace, r.Site == l.Site && (r.Side == "" || l.Side == "" || r.Side == l.Side))
	}
}

// some turns an absent list of a case into an empty one: a case that names
// no illness has none.
func some(words []string) []string {
	if words == nil {
		return []string{}
	}
	return words
}
