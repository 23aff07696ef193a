package cases

import (
	"strings"
	"testing"
)

// Each row of the tables is checked at its place: one change to the committed
// file, and the words that answer it.
func TestMadeTableFaults(t *testing.T) {
	good := string(madeJSON)
	for _, bad := range []struct{ old, wrong, says string }{
		{`"version": 1`, `"version": 2`, `"version" is 2; this program composes version 1`},
		{`"width_mm": [0.8, 2]`, `"width_mm": [2, 0.8]`, `"width_mm" must be two numbers, the lower first`},
		{`"width_mm": [2, 8], "height_mm": [0.4, 1.5]`, `"width_mm": [15, 16], "height_mm": [0.4, 1.5]`, `at most 10.8 is made on the nail_fold`},
		{`"family": "milia", "number": 28`, `"family": "milia", "number": 27`, "the number 27 stands twice"},
		{`"family": "milia"`, `"family": "milium"`, `"milium"`},
		{`["firm", "well_defined", "multiple"]`, `["firm", "soft", "well_defined", "multiple"]`, "the features hold both soft and firm"},
		{`{"site": "nose", "sides": "any"`, `{"site": "nose", "sides": "pair"`, `"where" needs {side} for a pair`},
		{`"medicines": ["warfarin"], "inr": [2, 3.4]`, `"inr": [2, 3.4]`, `"inr" is given without warfarin`},
		{`"ages": [17, 44]`, `"ages": [7, 44]`, "ages within 12 and 50"},
		{`"pregnant": true, "weeks": [6, 38]`, `"pregnant": true`, `"pregnant" and "weeks" go together`},
		{`"when": "recurrent"`, `"when": "bleeding"`, `does not bring out "bleeding"`},
		{`"They took it off once before. It has recurred."`, `"They took it off once before."`, "does not tell of recurrent"},
		{`"areas": ["scalp"]`, `"areas": ["skull"]`, `no site lies in the area "skull"`},
		{`"one": "Will it go away?"`, `"one": "` + strings.Repeat("Will it? ", 8) + `"`, "at most 60 are shown"},
		{`"levels": [`, `"levels": [], "note": "x", "levels2": [`, ""},
		{`"skin_types": [0, 1, 2, 3, 4, 4]`, `"skin_types": [0, 1, 2, 3, 4]`, "six weights"},
	} {
		if strings.Count(good, bad.old) < 1 {
			t.Errorf("the tables no longer hold %q", bad.old)
			continue
		}
		_, err := readMade("made.json", []byte(strings.Replace(good, bad.old, bad.wrong, 1)))
		if err == nil || !strings.Contains(err.Error(), bad.says) {
			t.Errorf("%q for %q: %v; want %q", bad.wrong, bad.old, err, bad.says)
			continue
		}
		for _, f := range err.(Faults) {
			if f.File != "made.json" || f.Line < 1 || f.Column < 1 {
				t.Errorf("a fault without its place: %+v", f)
			}
		}
	}
}
