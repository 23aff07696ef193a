package tissue

import (
	"strings"
	"testing"
)

const least = `{"electrode":{"radius_mm":0.25,"contact":"touch"},"power_w":5,"activation_s":1,"site":"cheek"}`

// TestReadDefaults reads the shortest run and looks at every default.
func TestReadDefaults(t *testing.T) {
	s, err := ReadRun("run.json", []byte(least))
	if err != nil {
		t.Fatal(err)
	}
	if s.GridMM != 0.1 || s.SizeMM != [3]float64{12.8, 12.8, 4.8} || s.CoolS != 0 || s.Output != "low" || s.Electrode.GapMM != 0 {
		t.Errorf("defaults are %+v", s)
	}
	if s.Physics != DefaultPhysics() {
		t.Errorf("physics is %+v, want %+v", s.Physics, DefaultPhysics())
	}
	gap, err := ReadRun("run.json", []byte(strings.Replace(least, "touch", "gap", 1)))
	if err != nil || gap.Electrode.GapMM != 0.5 {
		t.Errorf("a gap is %+v by default (%v), want 0.5 mm", gap, err)
	}
}

// TestReadRefuses holds what is refused, its place and its words.
func TestReadRefuses(t *testing.T) {
	layer := `{"name":"a","thickness_mm":1,"k_w_mk":0.4,"rho_kg_m3":1100,"c_j_kgk":3400,"sigma_s_m":0.3,"water_fraction":0.65,"perfusion_1_s":0}`
	for name, c := range map[string]struct{ from, to, want string }{
		"negative power":   {`"power_w":5`, `"power_w":-5`, `run.json:1:61: "power_w" is -5; it must be from 0 to 1000`},
		"missing":          {`"power_w":5,`, ``, `the key "power_w" is missing`},
		"unknown key":      {`"power_w":5`, `"power_w":5,"powr":1`, `unknown key "powr"`},
		"twice":            {`"power_w":5`, `"power_w":5,"power_w":6`, `power_w`},
		"not a number":     {`"power_w":5`, `"power_w":"5"`, `"power_w" must be a number, not text`},
		"null":             {`"power_w":5`, `"power_w":null`, `"power_w" may not be null`},
		"unknown site":     {`"cheek"`, `"chek"`, `"site" is "chek"; it must be one of`},
		"both":             {`"site":"cheek"`, `"site":"cheek","layers":[` + layer + `]`, `"site" and "layers" stand side by side`},
		"neither":          {`,"site":"cheek"`, ``, `the key "site" or "layers" is missing`},
		"no layers":        {`"site":"cheek"`, `"layers":[]`, `"layers" may not be empty`},
		"huge":             {`"power_w":5`, `"power_w":5,"grid_mm":0.01,"size_mm":[40,40,10]`, `voxels; at most 20000000 are allowed`},
		"path outside":     {`"power_w":5`, `"power_w":5,"path":[{"t_s":0,"x_mm":7,"y_mm":0}]`, `"path[0]" stands outside the patch`},
		"path not rising":  {`"power_w":5`, `"power_w":5,"path":[{"t_s":1,"x_mm":0,"y_mm":0},{"t_s":1,"x_mm":1,"y_mm":0}]`, `must be above the point before`},
		"sample past end":  {`"power_w":5`, `"power_w":5,"sample_s":[1.5]`, `the run ends at 1`},
		"probe outside":    {`"power_w":5`, `"power_w":5,"probes":[{"x_mm":0,"y_mm":0,"z_mm":5}]`, `"probes[0].z_mm" is 5; it must be from 0 to 4.8`},
		"unknown damage":   {`"power_w":5`, `"power_w":5,"physics":{"damage":"henrique"}`, `"physics.damage" is "henrique"; it must be one of`},
		"unknown family":   {`"power_w":5`, `"power_w":5,"lesion":{"family":"wart","width_mm":1,"height_mm":1,"depth_mm":0}`, `"lesion.family" is "wart"`},
		"lesion too wide":  {`"power_w":5`, `"power_w":5,"lesion":{"family":"skin_tag","width_mm":20,"height_mm":1,"depth_mm":0}`, `it must be at most the patch, 12.8`},
		"lesion is no one": {`"power_w":5`, `"power_w":5,"lesion":{"family":"skin_tag","width_mm":2,"height_mm":0,"depth_mm":0}`, `neither height_mm nor depth_mm`},
		"contact":          {`"touch"`, `"press"`, `"electrode.contact" is "press"; it must be one of touch, gap`},
		"truncated":        {`"site":"cheek"}`, ``, `run.json:1:`},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(least, c.from, c.to, 1)
			if text == least {
				t.Fatal("the text to replace was not found")
			}
			_, err := ReadRun("run.json", []byte(text))
			if err == nil {
				t.Fatal("it was read without a fault")
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("it says:\n%v\nwant:\n%s", err, c.want)
			}
		})
	}
}

// FuzzReadRun looks for a panic: any bytes are read or refused.
func FuzzReadRun(f *testing.F) {
	f.Add([]byte(least))
	f.Add([]byte(`{"electrode":null,"layers":[{}],"path":[1],"size_mm":[1,2]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		spec, err := ReadRun("run.json", data)
		if (spec == nil) == (err == nil) {
			t.Fatalf("spec %v and error %v", spec, err)
		}
	})
}
