package cases

import (
	"strings"
	"testing"
)

// mark stands in a sample right before the place that a message must name.
const mark = "«"

// unmark takes the mark out of a sample and returns its line and column, both
// from 1, columns in characters.
func unmark(t *testing.T, text string) (clean string, line, column int) {
	t.Helper()
	before, after, ok := strings.Cut(text, mark)
	if !ok || strings.Contains(after, mark) {
		t.Fatalf("the sample must hold the mark once: %.80q", text)
	}
	line = 1 + strings.Count(before, "\n")
	column = 1 + len([]rune(before[strings.LastIndex(before, "\n")+1:]))
	return before + after, line, column
}

// wantFault fails unless exactly one fault stands at the place and its message
// holds the words.
func wantFault(t *testing.T, faults Faults, line, column int, words string) {
	t.Helper()
	if len(faults) != 1 {
		t.Fatalf("%d faults instead of one: %v", len(faults), faults)
	}
	f := faults[0]
	if f.Line != line || f.Column != column {
		t.Errorf("the fault stands at %d:%d, not %d:%d: %s", f.Line, f.Column, line, column, f.Message)
	}
	if !strings.Contains(f.Message, words) {
		t.Errorf("the message is %q; it lacks %q", f.Message, words)
	}
}

// samplePack is a pack without a fault or a warning.
const samplePack = `{
  "format": "leastwatt.pack/1",
  "id": "sample",
  "version": 3,
  "title": "Harrow Fell samples",
  "author": "the teaching clinic",
  "language": "en",
  "licence": "CC0-1.0",
  "cases": [
    {
      "id": "ladder",
      "title": "A red spot on the chest",
      "level": 1,
      "patient": {"age_years": 44.5, "sex": "female", "weight_kg": 70, "skin_type": 2},
      "setting": {"metal_table": true},
      "presenting": "It bled when I caught it.",
      "ask": {"metal": "The couch has a steel rail."},
      "lesion": {"family": "cherry_angioma", "site": "chest", "width_mm": 3, "height_mm": 1, "depth_mm": 1, "seed": 7},
      "truth": {"diagnosis": "cherry angioma"},
      "teaching": "A small dome of vessels."
    }
  ]
}
`

// replaced is the sample pack with one piece replaced.
func replaced(old, new string) string {
	if strings.Count(samplePack, old) != 1 {
		panic("the sample pack must hold once: " + old)
	}
	return strings.Replace(samplePack, old, new, 1)
}

// samplePlan decides every phrase.
const samplePlan = `{"format":"leastwatt.plan/1","case":"sample/ladder","asked":["devices","magnify"],"disposition":"treat","technique":"curettage_desiccation",` +
	`"electrode":"fine","output":"low","contact":"touch","power_w":7.1,"activation_s":0.35,"cycles":3,"rim_mm":4.5,"margin_mm":2.1,` +
	`"haemostasis":{"method":"electrocoagulation","output":"high","contact":"gap","electrode":"ball","power_w":12,"activation_s":0.5},` +
	`"anaesthetic":{"none":false,"injected":[{"agent":"lidocaine","percent":1,"adrenaline":"1:200000","volume_ml":2.5}],"needle_gauge":30,"method":"wheal","wait_min":5,"buffered":true,"warmed":false,"slow":true,` +
	`"topical":{"agent":"cold","amount_g":1.5,"area_cm2":10,"minutes":2}},` +
	`"prep":{"agent":"alcohol","dry_wait_s":180,"dry_checked":true},"protection":["gloves","mask"],"evacuator_cm":2,"record":["consent"],` +
	`"specimen":{"send":true,"method":"curettings","labels":true,"result_owner":"me"},"blood_thinner":"continue","prescribe":["petrolatum"],"follow_up_days":14,` +
	`"referral":{"to":"dermatology","within_days":30},"other_care":"none","advice":["sun_protection"],"confidence":0.85}`
