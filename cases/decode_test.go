package cases

import (
	"strings"
	"testing"
)

// badSample is a file with the mark before the place that the message names.
type badSample struct{ name, text, words string }

const head = planHead + ","

var badPlans = []badSample{
	{"slip in a key", head + "\n «\"powerw\": 1}", `unknown key "powerw"; did you mean "power_w"? (this reads the format leastwatt.plan/1)`},
	{"key of another case", head + `«"Technique": "curettage"}`, `unknown key "Technique"; did you mean "technique"?`},
	{"key without a neighbour", head + `«"zzzzzzzzzzzz": 1}`, `unknown key "zzzzzzzzzzzz" (this reads`},
	{"unknown key inside", head + `"prep":{"agent":"alcohol",«"dry_wait":1}}`, `unknown key "prep.dry_wait"; did you mean "dry_wait_s"? (this reads the format leastwatt.plan/1)`},
	{"unknown key in a list", head + `"anaesthetic":{"injected":[{},{«"volume":1}]}}`, `unknown key "anaesthetic.injected[1].volume"`},
	{"very long key", head + `«"` + strings.Repeat("k", 5000) + `":1}`, strings.Repeat("k", 80) + "…"},
	{"format missing", `«{"case":"sample/ladder"}`, `the key "format" is missing`},
	{"case missing", `«{"format":"leastwatt.plan/1"}`, `the key "case" is missing`},
	{"null", head + `"technique":«null}`, `"technique" may not be null; leave the key out`},
	{"null inside", head + `"prep":{"agent":«null}}`, `"prep.agent" may not be null`},
	{"null in a list", head + `"asked":["devices",«null]}`, `"asked[1]" must be text, not null`},
	{"number for text", head + `"technique":«1}`, `"technique" must be text, not a number`},
	{"text for a number", head + `"power_w":«"7"}`, `"power_w" must be a number, not text`},
	{"bool for a number", head + `"power_w":«true}`, `"power_w" must be a number, not true or false`},
	{"text for a bool", head + `"anaesthetic":{"none":«"true"}}`, `"anaesthetic.none" must be true or false, not text`},
	{"list for an object", head + `"prep":«[]}`, `"prep" must be an object, not a list`},
	{"text for a list", head + `"asked":«"devices"}`, `"asked" must be a list, not text`},
	{"object for a list", head + `"asked":«{}}`, `"asked" must be a list, not an object`},
	{"a list for the file", "«[]", "the file must be an object, not a list"},
	{"word with a neighbour", head + `"technique":«"curetage"}`, `unknown technique "curetage" in "technique"; did you mean "curettage"?`},
	{"word of a short table", head + `"contact":«"zzzzzzzz"}`, `it may be one of [touch gap]`},
	{"word in capitals", head + `"disposition":«"Treat"}`, `unknown`},
	{"empty word", head + `"technique":«""}`, `unknown technique ""`},
	{"label instead of the id", head + `"technique":«"curettage and desiccation"}`, `unknown technique "curettage and desiccation"`},
	{"word of another table", head + `"asked":["devices",«"gloves"]}`, `unknown topic "gloves" in "asked[1]"`},
	{"agent of another table", head + `"anaesthetic":{"topical":{"agent":«"lidocaine"}}}`, `unknown surface agent "lidocaine"`},
	{"twice in a list", head + `"asked":["devices","kit",«"devices"]}`, `"devices" stands twice in "asked"; keep one`},
	{"too little", head + `"power_w":«0}`, `"power_w" is 0; it must be from 0.1 to 35; the nearest is 0.1`},
	{"negative", head + `"power_w":«-7}`, `"power_w" is -7; it must be from 0.1 to 35; the nearest is 0.1`},
	{"minus zero", head + `"power_w":«-0}`, `"power_w" is -0; it must be from 0.1 to 35; the nearest is 0.1`},
	{"too much", head + `"power_w":«35.1}`, `"power_w" is 35.1; it must be from 0.1 to 35; the nearest is 35`},
	{"beyond numbers", head + `"power_w":«1e999}`, `"power_w" is 1e999; it must be from 0.1 to 35; the nearest is 35`},
	{"beyond numbers, negative", head + `"power_w":«-1e999}`, `the nearest is 0.1`},
	{"beyond and fine", head + `"activation_s":«-10000000000.55555}`, `the nearest is 0.05`},
	{"off step", head + `"power_w":«7.15}`, `"power_w" is 7.15; it goes in steps of 0.1; it must be from 0.1 to 35; the nearest is 7.2`},
	{"off step, finer than kept", head + `"power_w":«7.1000001}`, `it goes in steps of 0.1; it must be from 0.1 to 35; the nearest is 7.1`},
	{"off step of time", head + `"activation_s":«0.07}`, `it goes in steps of 0.05; it must be from 0.05 to 30; the nearest is 0.05`},
	{"off step of the rim", head + `"rim_mm":«0.3}`, `it goes in steps of 0.5; it must be from 0 to 20; the nearest is 0.5`},
	{"half a cycle", head + `"cycles":«2.5}`, `it goes in steps of 1; it must be from 1 to 10; the nearest is 3`},
	{"eleven cycles", head + `"cycles":«11}`, `it must be from 1 to 10; the nearest is 10`},
	{"too fine for thousandths", head + `"confidence":«0.12345}`, `it goes in steps of 0.001; it must be from 0 to 1; the nearest is 0.123`},
	{"confidence in percent", head + `"confidence":«85}`, `it must be from 0 to 1; the nearest is 1`},
	{"follow-up", head + `"follow_up_days":«731}`, `it must be from 0 to 730; the nearest is 730`},
	{"volume off step", head + `"anaesthetic":{"injected":[{"volume_ml":«2.55}]}}`, `"anaesthetic.injected[0].volume_ml" is 2.55; it goes in steps of 0.1`},
	{"very long number", head + `"power_w":«` + strings.Repeat("9", 5000) + `}`, "…; it must be from 0.1 to 35; the nearest is 35"},
	{"too many agents", head + `"anaesthetic":{"injected":«[{},{},{},{},{},{},{},{},{}]}}`, `"anaesthetic.injected" holds 9 entries; at most 8 are read`},
}

func TestReadPlanMessages(t *testing.T) {
	for _, test := range badPlans {
		t.Run(test.name, func(t *testing.T) {
			text, line, column := unmark(t, test.text)
			plan, err := ReadPlan("plan.json", []byte(text))
			faults, ok := err.(Faults)
			if plan != nil || !ok {
				t.Fatalf("read: %v, %v", plan, err)
			}
			wantFault(t, faults, line, column, test.words)
			if len(faults[0].Message) > 300 {
				t.Errorf("the message has %d bytes", len(faults[0].Message))
			}
		})
	}
}

// Every fault of a file is told at once, in the order of the file.
func TestEveryFaultIsTold(t *testing.T) {
	_, err := ReadPlan("p.json", []byte("{\"case\": \"x\",\n \"power_w\": 99, \"rim_mm\": -1,\n \"asked\": [\"devices\", \"devices\", 3],\n \"power_w\": 1, \"no\": 0}"))
	want := `p.json:1:1: the key "format" is missing
p.json:1:10: "case" must be pack-id/case-id, not "x"
p.json:2:13: "power_w" is 99; it must be from 0.1 to 35; the nearest is 35
p.json:2:27: "rim_mm" is -1; it must be from 0 to 20; the nearest is 0
p.json:3:23: "devices" stands twice in "asked"; keep one
p.json:3:34: "asked[2]" must be text, not a number
p.json:4:2: the key "power_w" stands twice; keep one
p.json:4:16: unknown key "no" (this reads the format leastwatt.plan/1)`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestDidYouMean(t *testing.T) {
	words := []string{"technique", "topic", "power_w", "rim_mm"}
	for wrong, want := range map[string]string{
		"tecnique": `; did you mean "technique"?`, "rim": "", "power-w": `; did you mean "power_w"?`, "": "", "elephantine": "",
		strings.Repeat("technique", 9000): "",
	} {
		if got := DidYouMean(wrong, words); got != want {
			t.Errorf("%.20q: %q, want %q", wrong, got, want)
		}
	}
}

func TestVocabularyFile(t *testing.T) {
	for _, test := range []struct{ text, words string }{
		{`{"tables":[{"id":"a","title":"a","words":[]},{"id":«"a","title":"a","words":[]}]}`, `the table "a" stands twice`},
		{`{"tables":[{"id":"a","title":"a","words":[{"id":"x","uk":"x"},{"id":«"x","uk":"y"}]}]}`, `the word "x" stands twice in "a"`},
		{`{"tables":[{"id":«"A b","title":"a","words":[]}]}`, `must be an id`},
		{`{"tables":[{"id":"a","title":"a","words":[«{"id":"x"}]}]}`, `the key "tables[0].words[0].uk" is missing`},
	} {
		text, line, column := unmark(t, test.text)
		_, err := ReadVocabulary("v.json", []byte(text))
		faults, _ := err.(Faults)
		wantFault(t, faults, line, column, test.words)
	}
	if _, err := ReadVocabulary("v.json", vocabularyJSON); err != nil {
		t.Error(err)
	}
}

// The vocabulary holds at least the words that packs and plans were promised.
func TestVocabularyHoldsThePromisedWords(t *testing.T) {
	for table, words := range map[string]string{
		"family": "cherry_angioma spider_angioma venous_lake facial_telangiectasia leg_veins seborrhoeic_keratosis dermatosis_papulosa_nigra skin_tag common_wart filiform_wart plantar_wart periungual_wart genital_wart molluscum pyogenic_granuloma " +
			"intradermal_naevus pigmented_suspicious melanoma actinic_keratosis scc_in_situ scc_invasive keratoacanthoma bcc_superficial bcc_nodular bcc_infiltrative sebaceous_hyperplasia syringoma milia dermatofibroma keloid hypertrophic_scar cutaneous_horn wound_bleeding",
		"site": "scalp forehead temple eyebrow eyelid inner_canthus nose nasolabial_fold cheek preauricular postauricular ear lip chin jaw neck chest breast shoulder back abdomen axilla upper_arm elbow forearm wrist hand_back palm finger nail_fold " +
			"groin genital perianal buttock thigh knee shin calf ankle foot_back sole toe",
		"side":        "left right midline",
		"sex":         "female male other",
		"disposition": "treat biopsy_first refer leave",
		"technique": "electrodesiccation electrofulguration electrocoagulation curettage_desiccation shave_desiccation shave_excision snip_excision punch_biopsy fusiform_excision curettage bipolar_coagulation heat_cautery " +
			"cryotherapy topical_treatment keratolytic intralesional_steroid nick_and_express light_or_laser",
		"electrode":        "fine blunt ball forceps cautery_tip",
		"output":           "low high",
		"contact":          "touch gap",
		"haemostasis":      "pressure electrocoagulation chemical suture",
		"injection_method": "wheal ring block",
		"result_owner":     "me colleague patient",
		"blood_thinner":    "continue check_inr ask_prescriber stop",
		"return":           "single_ended plate",
		"labels":           "cautious us uk",
		"words":            "uk us",
		"kind":             "never caution advice credit",
		"referral":         "dermatology surgery device_clinic vascular paediatrics emergency other",
		"other_care":       "none wait_and_see keratolytic freezing topical compression",
		"specimen_method":  "shave saucerisation punch incision excision curettings snip none",
		"prep":             "none soap_water alcohol chlorhexidine_alcohol chlorhexidine_aqueous povidone_iodine",
		"protection":       "gloves mask respirator eye_protection patient_eye_shield smoke_evacuator hand_contact plate_placed sterile_sleeve disposable_electrode patient_off_metal jewellery_off oxygen_off wet_cloths_removed helper_holds patient_lying pulse_watch time_out",
		"record":           "consent site_confirmed border_marked site_photograph specimen_labelled",
		"prescribe":        "antibiotic ointment_antibiotic petrolatum pain_relief",
		"topic": "devices device_card blood_thinners allergies pregnancy keloids viral_infection past_biopsy biopsy_report change symptoms healing immune oxygen metal expectations illnesses medicines kit hold_still who_decides faints " +
			"feel pinch press_glass scrape magnify dermoscope feel_nodes look_elsewhere",
		"device":        "pacemaker defibrillator loop_recorder deep_brain_stimulator spinal_stimulator neurostimulator cochlear_implant pump",
		"history":       "keloid hiv hepatitis_b hepatitis_c diabetes poor_circulation raynaud immune_suppressed bleeding_tendency liver_disease kidney_disease heart_disease unstable_heart_disease prosthetic_valve joint_replacement epilepsy methaemoglobinaemia dementia past_basal_cell past_melanoma",
		"medicine":      "warfarin direct_anticoagulant aspirin clopidogrel two_antiplatelets heparin nonselective_beta_blocker beta_blocker tricyclic maoi steroid",
		"allergy":       "lidocaine amide ester paraben sulphite latex plaster chlorhexidine iodine",
		"agent":         "lidocaine mepivacaine prilocaine bupivacaine ropivacaine articaine procaine chloroprocaine",
		"topical_agent": "lidocaine_prilocaine_cream tetracaine_gel cold",
		"feature": "irregular_pigment asymmetric many_colours recent_change bleeding ulcerated pearly branching_vessels indurated tender_base stuck_on horn_plugs warty umbilicated on_a_stalk soft firm dimples_when_pinched blanches inflamed infected recurrent " +
			"biopsied_shave biopsied_punch perilesional_scar reaches_vermilion hair_bearing unusually_large well_defined ill_defined irradiated solitary multiple failed_first_line",
		"domain":    "decision tissue technique power anaesthesia site patient room bench aftercare",
		"advice":    "keep_clean_and_moist crust_will_fall sun_protection mark_may_stay colour_may_change may_come_back result_when_and_how infection_signs return_if_changed press_if_bleeds weeks_to_heal ointment_not_antibiotic bring_device_card",
		"certainty": "agreed sources_differ one_source common_practice memory model", "source_kind": "published common_practice memory model",
	} {
		for _, word := range strings.Fields(words) {
			if !Vocab.Has(table, word) {
				t.Errorf("the table %q lacks %q", table, word)
			}
		}
	}
}
