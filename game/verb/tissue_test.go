package verb

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func runTissue(t *testing.T, asJSON bool, text string) (code int, out, errs string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "run.json")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	var o, e bytes.Buffer
	s := &Shell{Out: &o, Err: &e, JSON: asJSON}
	code = Tissue(s, file, func() time.Time { return time.Unix(0, 0) })
	return code, o.String(), e.String()
}

const smallRun = `{"grid_mm":0.2,"size_mm":[3.2,3.2,2],"electrode":{"radius_mm":0.4,"contact":"touch"},"power_w":5,"activation_s":0.1,"cool_s":0.1,
"site":"cheek","lesion":{"family":"cherry_angioma","width_mm":1.5,"height_mm":0.6,"depth_mm":0.4},"probes":[{"x_mm":0,"y_mm":0,"z_mm":0.3}],"sample_s":[0,0.1,0.2]}`

// TestTissue makes one run and looks at its value, as JSON and as text.
func TestTissue(t *testing.T) {
	code, out, errs := runTissue(t, true, smallRun)
	if code != 0 || errs != "" {
		t.Fatalf("code %d, errors %q", code, errs)
	}
	var r map[string]any
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"energy_j", "delivered_w", "impedance_ohm", "probes", "destroyed", "dried", "charred", "lesion_destroyed_fraction", "dermis_depth_mm", "balance", "voxels", "steps", "wall_s"} {
		if _, ok := r[key]; !ok {
			t.Errorf("the value lacks %q", key)
		}
	}
	if e := r["energy_j"].(float64); e <= 0 || e > 0.5 {
		t.Errorf("energy_j is %v, want above 0 and at most 5 W times 0.1 s", e)
	}
	probe := r["probes"].([]any)[0].(map[string]any)["temp_c"].([]any)
	if first, hot := probe[0].(float64), probe[1].(float64); first > 37 || hot <= first {
		t.Errorf("the probe goes from %v to %v C", first, hot)
	}
	if code, out, _ := runTissue(t, false, smallRun); code != 0 || !strings.HasPrefix(out, TrainingLine) {
		t.Errorf("as text: code %d, it begins %.60q", code, out)
	}
}

// TestTissueSwitchedOff: what is switched off is null.
func TestTissueSwitchedOff(t *testing.T) {
	code, out, _ := runTissue(t, true, `{"grid_mm":0.2,"size_mm":[2,2,1],"electrode":{"radius_mm":0.4,"contact":"touch"},"power_w":1,"activation_s":0.02,"physics":{"vaporise":false,"damage":"none","source":"hemisphere"},
"layers":[{"name":"a","thickness_mm":1,"k_w_mk":0.4,"rho_kg_m3":1100,"c_j_kgk":3400,"sigma_s_m":0.3,"water_fraction":0.65,"perfusion_1_s":0}]}`)
	if code != 0 {
		t.Fatalf("code %d: %s", code, out)
	}
	for _, key := range []string{"impedance_ohm", "destroyed", "dried", "charred", "lesion_destroyed_fraction", "dermis_depth_mm"} {
		if !strings.Contains(out, `"`+key+`": null`) && !strings.Contains(out, `"`+key+`":null`) {
			t.Errorf("%q is not null in %s", key, out)
		}
	}
}

// TestTissueRefuses: a fault stands on the error stream with its place, and as
// JSON on the other; a missing file is bad usage.
func TestTissueRefuses(t *testing.T) {
	code, out, errs := runTissue(t, true, strings.Replace(smallRun, `"power_w":5`, `"power_w":-5`, 1))
	if code != 1 || !strings.Contains(errs, `run.json:1:`) || !strings.Contains(errs, `"power_w" is -5; it must be from 0 to 1000`) || !strings.Contains(out, `"errors"`) {
		t.Errorf("code %d, out %q, errors %q", code, out, errs)
	}
	var o, e bytes.Buffer
	s := &Shell{Out: &o, Err: &e, JSON: true}
	if code := Tissue(s, filepath.Join(t.TempDir(), "none.json"), time.Now); code != 2 || o.Len() != 0 {
		t.Errorf("a missing file: code %d, out %q", code, o.String())
	}
}
