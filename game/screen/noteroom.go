package screen

import "slices"

// room: the skin, and what protects everyone.
func (w *noteWriter) room() {
	w.verb("I will clean the skin with ", "I cleaned the skin with ")
	w.phrase("prep.agent")
	if agent := textAt(w.p, "prep.agent"); agent != "none" {
		w.verb(", let it dry for ", ", let it dry for ")
		w.phrase("prep.dry_wait_s")
		w.say(", and ")
		w.phrase("prep.dry_checked")
	}
	w.stop()
	w.verb("I will work with ", "I worked with ")
	w.phrase("protection")
	_, set := numberAt(w.p, "evacuator_cm")
	if set || slices.Contains(w.p.Protection, "smoke_evacuator") {
		w.measured(", the smoke tube", ", the smoke tube at a distance", "evacuator_cm", " away")
	}
	w.stop()
}

// tissue: whether anything goes to the pathologist, and who follows it up.
func (w *noteWriter) tissue() {
	w.say("Tissue: ")
	w.phrase("specimen.send")
	if on, decided := flagAt(w.p, "specimen.send"); decided && on {
		w.measured(" as", ", taken in a way", "specimen.method", "")
		w.say(", with ")
		w.phrase("specimen.labels")
		w.say("; ")
		w.phrase("specimen.result_owner")
		w.say(" will see to the result")
	}
	w.stop()
}

// bloodThinner shows only where it is a question: once the patient has told of
// one, where the technique cuts, or when it was decided.
func (w *noteWriter) bloodThinner() {
	told := w.c.Patient.HasThinner() && slices.Contains(w.p.Asked, "blood_thinners")
	if w.p.BloodThinner == "" && !told && !(w.acts() && cuts(w.p.Technique)) {
		return
	}
	w.say("Blood thinner: ")
	w.phrase("blood_thinner")
	w.stop()
}

func (w *noteWriter) acts() bool {
	return w.p.Disposition == "treat" || w.p.Disposition == "biopsy_first"
}

func (w *noteWriter) otherCare() {
	w.say("Meanwhile I suggest ")
	w.phrase("other_care")
	w.stop()
}

// afterwards: prescription, referral, and the parting.
func (w *noteWriter) afterwards() {
	w.verb("I will prescribe ", "I prescribed ")
	w.phrase("prescribe")
	if textAt(w.p, "referral.to") == "" {
		w.verb(" and refer to ", " and referred to ")
		w.phrase("referral.to")
	} else {
		w.verb(" and refer ", " and referred ")
		w.say(w.them() + " to ")
		w.phrase("referral.to")
		w.within()
	}
	w.stop()
	w.parting()
}

// parting: when they meet again, and what the patient is told.
func (w *noteWriter) parting() {
	days, ok := numberAt(w.p, "follow_up_days")
	them := w.them()
	switch {
	case ok && days == 0:
		w.say("I will see " + them + " again ")
	case ok:
		w.say("I will see " + them + " in ")
	default:
		w.say("I will see " + them + " again: ")
	}
	w.phrase("follow_up_days")
	w.stop()
	if w.open("advice") {
		w.verb("What I will tell "+them+": ", "What I told "+them+": ")
	} else {
		w.verb("I will tell "+them+" about ", "I told "+them+" about ")
	}
	w.phrase("advice")
	w.stop()
}

func (w *noteWriter) them() string { return pronoun(&w.c.Patient) }
