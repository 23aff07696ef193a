package tables

// The facts, in the order in which they are held: the case's, the plan's, then
// what the bench did.
const (
	casePatientAgeYears Fact = iota
	casePatientWeightKG
	casePatientSkinType
	casePatientINR
	casePatientGestationWeeks
	casePatientSex
	casePatientHistory
	casePatientMedicines
	casePatientAllergies
	casePatientDevices
	casePatientDeviceDistanceCM
	casePatientPregnant
	casePatientBreastfeeding
	caseSettingOxygenRunning
	caseSettingMetalTable
	caseSettingSmokeEvacuator
	caseSettingBipolarUnit
	caseSettingCauteryUnit
	caseSettingPathologyService
	caseSettingUnitReturn
	caseSettingUnitMaxW
	caseLesionFamily
	caseLesionSite
	caseLesionSide
	caseLesionWidthMM
	caseLesionHeightMM
	caseLesionDepthMM
	caseLesionCount
	caseLesionFeatures
	caseLesionReport
	caseLesionReportSays
	caseLesionReportSpecimen
	caseLesionReportDaysAgo
	caseLesionReportSamePlace
	planAsked
	planDisposition
	planTechnique
	planElectrode
	planOutput
	planContact
	planPowerW
	planActivationS
	planCycles
	planRimMM
	planMarginMM
	planHaemostasisMethod
	planHaemostasisOutput
	planHaemostasisContact
	planHaemostasisElectrode
	planHaemostasisPowerW
	planHaemostasisActivationS
	planAnaestheticNone
	planAnaestheticInjects
	planAnaestheticAgents
	planAnaestheticPercent
	planAnaestheticAdrenaline
	planAnaestheticAdrenalineUGML
	planAnaestheticVolumeML
	planAnaestheticNeedleGauge
	planAnaestheticMethod
	planAnaestheticWaitMin
	planAnaestheticBuffered
	planAnaestheticWarmed
	planAnaestheticSlow
	planAnaestheticTopicalAgent
	planAnaestheticTopicalAmountG
	planAnaestheticTopicalAreaCM2
	planAnaestheticTopicalMinutes
	planDoseRow
	planDoseShare
	planDoseShareLenient
	planDoseRefused
	planDoseAdrenalineUG
	planPrepAgent
	planPrepDryWaitS
	planPrepDryChecked
	planProtection
	planEvacuatorCM
	planRecord
	planSpecimenSend
	planSpecimenMethod
	planSpecimenLabels
	planSpecimenResultOwner
	planBloodThinner
	planPrescribe
	planFollowUpDays
	planReferralTo
	planReferralWithinDays
	planOtherCare
	planAdvice
	outcomeDestroyed
	outcomeDestroyedLow
	outcomeDestroyedHigh
	outcomeDermisFraction
	outcomeDermisFractionLow
	outcomeDermisFractionHigh
	outcomeBaseCovered
	outcomeBaseCoveredLow
	outcomeBaseCoveredHigh
	outcomeRimMM
	outcomeRimMMLow
	outcomeRimMMHigh
	outcomeSpecimenEdgeMM
	outcomeSpecimenEdgeMMLow
	outcomeSpecimenEdgeMMHigh
	outcomeDermisDepthMM
	outcomeFloorDepthMM
	outcomeCharredMM3
	outcomeEnergyJ
	outcomeBursts
	outcomeLongestBurstS
	outcomeBurstShare
	outcomeRimShortMM
	outcomeBeyondLesionMM
	outcomeContactBreaks
	outcomeOrderFault
	outcomeHazard
)

const (
	firstPlanFact    = planAsked
	firstOutcomeFact = outcomeDestroyed
)

var defs = []factDef{
	casePatientAgeYears:           {name: "patient.age_years", kind: number},
	casePatientWeightKG:           {name: "patient.weight_kg", kind: number},
	casePatientSkinType:           {name: "patient.skin_type", kind: number},
	casePatientINR:                {name: "patient.inr", kind: number},
	casePatientGestationWeeks:     {name: "patient.gestation_weeks", kind: number},
	casePatientSex:                {name: "patient.sex", kind: choice, table: "sex"},
	casePatientHistory:            {name: "patient.history", kind: set, table: "history"},
	casePatientMedicines:          {name: "patient.medicines", kind: set, table: "medicine"},
	casePatientAllergies:          {name: "patient.allergies", kind: set, table: "allergy"},
	casePatientDevices:            {name: "patient.devices", kind: set, table: "device"},
	casePatientDeviceDistanceCM:   {name: "patient.device_distance_cm", kind: number},
	casePatientPregnant:           {name: "patient.pregnant", kind: truth},
	casePatientBreastfeeding:      {name: "patient.breastfeeding", kind: truth},
	caseSettingOxygenRunning:      {name: "setting.oxygen_running", kind: truth},
	caseSettingMetalTable:         {name: "setting.metal_table", kind: truth},
	caseSettingSmokeEvacuator:     {name: "setting.smoke_evacuator", kind: truth},
	caseSettingBipolarUnit:        {name: "setting.bipolar_unit", kind: truth},
	caseSettingCauteryUnit:        {name: "setting.cautery_unit", kind: truth},
	caseSettingPathologyService:   {name: "setting.pathology_service", kind: truth},
	caseSettingUnitReturn:         {name: "setting.unit.return", kind: choice, table: "return"},
	caseSettingUnitMaxW:           {name: "setting.unit.max_w", kind: number},
	caseLesionFamily:              {name: "lesion.family", kind: choice, table: knownFamilies},
	caseLesionSite:                {name: "lesion.site", kind: choice, table: "site"},
	caseLesionSide:                {name: "lesion.side", kind: choice, table: "side"},
	caseLesionWidthMM:             {name: "lesion.width_mm", kind: number},
	caseLesionHeightMM:            {name: "lesion.height_mm", kind: number},
	caseLesionDepthMM:             {name: "lesion.depth_mm", kind: number},
	caseLesionCount:               {name: "lesion.count", kind: number},
	caseLesionFeatures:            {name: "lesion.features", kind: set, table: "feature"},
	caseLesionReport:              {name: "lesion.report", kind: truth},
	caseLesionReportSays:          {name: "lesion.report.says", kind: choice, table: "family"},
	caseLesionReportSpecimen:      {name: "lesion.report.specimen", kind: choice, table: "specimen_method"},
	caseLesionReportDaysAgo:       {name: "lesion.report.days_ago", kind: number},
	caseLesionReportSamePlace:     {name: "lesion.report.same_place", kind: truth},
	planAsked:                     {name: "asked", kind: set, table: "topic", plan: true, phrase: "asked"},
	planDisposition:               {name: "disposition", kind: choice, table: "disposition", plan: true, phrase: "disposition"},
	planTechnique:                 {name: "technique", kind: choice, table: "technique", plan: true, phrase: "technique"},
	planElectrode:                 {name: "electrode", kind: choice, table: "electrode", plan: true, phrase: "electrode"},
	planOutput:                    {name: "output", kind: choice, table: "output", plan: true, phrase: "output"},
	planContact:                   {name: "contact", kind: choice, table: "contact", plan: true, phrase: "contact"},
	planPowerW:                    {name: "power_w", kind: number, plan: true, phrase: "power_w"},
	planActivationS:               {name: "activation_s", kind: number, plan: true, phrase: "activation_s"},
	planCycles:                    {name: "cycles", kind: number, plan: true, phrase: "cycles"},
	planRimMM:                     {name: "rim_mm", kind: number, plan: true, phrase: "rim_mm"},
	planMarginMM:                  {name: "margin_mm", kind: number, plan: true, phrase: "margin_mm"},
	planHaemostasisMethod:         {name: "haemostasis.method", kind: choice, table: "haemostasis", plan: true, phrase: "haemostasis.method"},
	planHaemostasisOutput:         {name: "haemostasis.output", kind: choice, table: "output", plan: true, phrase: "haemostasis.output"},
	planHaemostasisContact:        {name: "haemostasis.contact", kind: choice, table: "contact", plan: true, phrase: "haemostasis.contact"},
	planHaemostasisElectrode:      {name: "haemostasis.electrode", kind: choice, table: "electrode", plan: true, phrase: "haemostasis.electrode"},
	planHaemostasisPowerW:         {name: "haemostasis.power_w", kind: number, plan: true, phrase: "haemostasis.power_w"},
	planHaemostasisActivationS:    {name: "haemostasis.activation_s", kind: number, plan: true, phrase: "haemostasis.activation_s"},
	planAnaestheticNone:           {name: "anaesthetic.none", kind: truth, plan: true, phrase: "anaesthetic"},
	planAnaestheticInjects:        {name: "anaesthetic.injects", kind: truth, plan: true, phrase: "anaesthetic"},
	planAnaestheticAgents:         {name: "anaesthetic.agents", kind: set, table: "agent", plan: true, phrase: "anaesthetic.injected.agent"},
	planAnaestheticPercent:        {name: "anaesthetic.percent", kind: number, plan: true, phrase: "anaesthetic.injected.percent"},
	planAnaestheticAdrenaline:     {name: "anaesthetic.adrenaline", kind: truth, plan: true, phrase: "anaesthetic.injected.adrenaline"},
	planAnaestheticAdrenalineUGML: {name: "anaesthetic.adrenaline_ug_ml", kind: number, plan: true, phrase: "anaesthetic.injected.adrenaline"},
	planAnaestheticVolumeML:       {name: "anaesthetic.volume_ml", kind: number, plan: true, phrase: "anaesthetic.injected.volume_ml"},
	planAnaestheticNeedleGauge:    {name: "anaesthetic.needle_gauge", kind: number, plan: true, phrase: "anaesthetic.needle_gauge"},
	planAnaestheticMethod:         {name: "anaesthetic.method", kind: choice, table: "injection_method", plan: true, phrase: "anaesthetic.method"},
	planAnaestheticWaitMin:        {name: "anaesthetic.wait_min", kind: number, plan: true, phrase: "anaesthetic.wait_min"},
	planAnaestheticBuffered:       {name: "anaesthetic.buffered", kind: truth, plan: true, phrase: "anaesthetic.buffered"},
	planAnaestheticWarmed:         {name: "anaesthetic.warmed", kind: truth, plan: true, phrase: "anaesthetic.warmed"},
	planAnaestheticSlow:           {name: "anaesthetic.slow", kind: truth, plan: true, phrase: "anaesthetic.slow"},
	planAnaestheticTopicalAgent:   {name: "anaesthetic.topical.agent", kind: choice, table: "topical_agent", plan: true, phrase: "anaesthetic.topical.agent"},
	planAnaestheticTopicalAmountG: {name: "anaesthetic.topical.amount_g", kind: number, plan: true, phrase: "anaesthetic.topical.amount_g"},
	planAnaestheticTopicalAreaCM2: {name: "anaesthetic.topical.area_cm2", kind: number, plan: true, phrase: "anaesthetic.topical.area_cm2"},
	planAnaestheticTopicalMinutes: {name: "anaesthetic.topical.minutes", kind: number, plan: true, phrase: "anaesthetic.topical.minutes"},
	planDoseRow:                   {name: "dose.row", kind: choice, table: doseRows, plan: true, phrase: "anaesthetic.injected.volume_ml"},
	planDoseShare:                 {name: "dose.share", kind: number, plan: true, phrase: "anaesthetic.injected.volume_ml"},
	planDoseShareLenient:          {name: "dose.share_lenient", kind: number, plan: true, phrase: "anaesthetic.injected.volume_ml"},
	planDoseRefused:               {name: "dose.refused", kind: truth, plan: true, phrase: "anaesthetic.injected.agent"},
	planDoseAdrenalineUG:          {name: "dose.adrenaline_ug", kind: number, plan: true, phrase: "anaesthetic.injected.adrenaline"},
	planPrepAgent:                 {name: "prep.agent", kind: choice, table: "prep", plan: true, phrase: "prep.agent"},
	planPrepDryWaitS:              {name: "prep.dry_wait_s", kind: number, plan: true, phrase: "prep.dry_wait_s"},
	planPrepDryChecked:            {name: "prep.dry_checked", kind: truth, plan: true, phrase: "prep.dry_checked"},
	planProtection:                {name: "protection", kind: set, table: "protection", plan: true, phrase: "protection"},
	planEvacuatorCM:               {name: "evacuator_cm", kind: number, plan: true, phrase: "evacuator_cm"},
	planRecord:                    {name: "record", kind: set, table: "record", plan: true, phrase: "record"},
	planSpecimenSend:              {name: "specimen.send", kind: truth, plan: true, phrase: "specimen.send"},
	planSpecimenMethod:            {name: "specimen.method", kind: choice, table: "specimen_method", plan: true, phrase: "specimen.method"},
	planSpecimenLabels:            {name: "specimen.labels", kind: truth, plan: true, phrase: "specimen.labels"},
	planSpecimenResultOwner:       {name: "specimen.result_owner", kind: choice, table: "result_owner", plan: true, phrase: "specimen.result_owner"},
	planBloodThinner:              {name: "blood_thinner", kind: choice, table: "blood_thinner", plan: true, phrase: "blood_thinner"},
	planPrescribe:                 {name: "prescribe", kind: set, table: "prescribe", plan: true, phrase: "prescribe"},
	planFollowUpDays:              {name: "follow_up_days", kind: number, plan: true, phrase: "follow_up_days"},
	planReferralTo:                {name: "referral.to", kind: choice, table: "referral", plan: true, phrase: "referral.to"},
	planReferralWithinDays:        {name: "referral.within_days", kind: number, plan: true, phrase: "referral.within_days"},
	planOtherCare:                 {name: "other_care", kind: choice, table: "other_care", plan: true, phrase: "other_care"},
	planAdvice:                    {name: "advice", kind: set, table: "advice", plan: true, phrase: "advice"},
	outcomeDestroyed:              {name: "outcome.destroyed", kind: number},
	outcomeDestroyedLow:           {name: "outcome.destroyed.low", kind: number},
	outcomeDestroyedHigh:          {name: "outcome.destroyed.high", kind: number},
	outcomeDermisFraction:         {name: "outcome.dermis_fraction", kind: number},
	outcomeDermisFractionLow:      {name: "outcome.dermis_fraction.low", kind: number},
	outcomeDermisFractionHigh:     {name: "outcome.dermis_fraction.high", kind: number},
	outcomeBaseCovered:            {name: "outcome.base_covered", kind: number},
	outcomeBaseCoveredLow:         {name: "outcome.base_covered.low", kind: number},
	outcomeBaseCoveredHigh:        {name: "outcome.base_covered.high", kind: number},
	outcomeRimMM:                  {name: "outcome.rim_mm", kind: number},
	outcomeRimMMLow:               {name: "outcome.rim_mm.low", kind: number},
	outcomeRimMMHigh:              {name: "outcome.rim_mm.high", kind: number},
	outcomeSpecimenEdgeMM:         {name: "outcome.specimen_edge_mm", kind: number},
	outcomeSpecimenEdgeMMLow:      {name: "outcome.specimen_edge_mm.low", kind: number},
	outcomeSpecimenEdgeMMHigh:     {name: "outcome.specimen_edge_mm.high", kind: number},
	outcomeDermisDepthMM:          {name: "outcome.dermis_depth_mm", kind: number},
	outcomeFloorDepthMM:           {name: "outcome.floor_depth_mm", kind: number},
	outcomeCharredMM3:             {name: "outcome.charred_mm3", kind: number},
	outcomeEnergyJ:                {name: "outcome.energy_j", kind: number},
	outcomeBursts:                 {name: "outcome.bursts", kind: number},
	outcomeLongestBurstS:          {name: "outcome.longest_burst_s", kind: number},
	outcomeBurstShare:             {name: "outcome.burst_share", kind: number},
	outcomeRimShortMM:             {name: "outcome.rim_short_mm", kind: number},
	outcomeBeyondLesionMM:         {name: "outcome.beyond_lesion_mm", kind: number},
	outcomeContactBreaks:          {name: "outcome.contact_breaks", kind: number},
	outcomeOrderFault:             {name: "outcome.order_fault", kind: set, table: "order_fault"},
	outcomeHazard:                 {name: "outcome.hazard", kind: set, table: "bench_hazard"},
}
