package check

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"leastwatt/scoring/tissue"
)

// The types below are the run file and its answer as the written contract
// names them. They are not the model's own types on purpose: a key that the
// model renames or drops fails here.
type (
	runFile struct {
		GridMM      float64       `json:"grid_mm,omitempty"`
		SizeMM      []float64     `json:"size_mm,omitempty"`
		Electrode   electrodeFile `json:"electrode"`
		PowerW      float64       `json:"power_w"`
		ActivationS float64       `json:"activation_s"`
		CoolS       float64       `json:"cool_s,omitempty"`
		Output      string        `json:"output,omitempty"`
		Path        []pathFile    `json:"path,omitempty"`
		Site        string        `json:"site,omitempty"`
		Layers      []layerFile   `json:"layers,omitempty"`
		Lesion      *lesionFile   `json:"lesion,omitempty"`
		Physics     *physicsFile  `json:"physics,omitempty"`
		Probes      []probeFile   `json:"probes,omitempty"`
		SampleS     []float64     `json:"sample_s,omitempty"`
	}
	electrodeFile struct {
		RadiusMM float64 `json:"radius_mm"`
		Contact  string  `json:"contact"`
		GapMM    float64 `json:"gap_mm,omitempty"`
	}
	pathFile struct {
		TS    float64  `json:"t_s"`
		XMM   float64  `json:"x_mm"`
		YMM   float64  `json:"y_mm"`
		On    *bool    `json:"on,omitempty"`
		GapMM *float64 `json:"gap_mm,omitempty"`
	}
	layerFile struct {
		Name        string  `json:"name"`
		Kind        string  `json:"kind,omitempty"`
		ThicknessMM float64 `json:"thickness_mm"`
		KWmK        float64 `json:"k_w_mk"`
		RhoKgM3     float64 `json:"rho_kg_m3"`
		CJKgK       float64 `json:"c_j_kgk"`
		SigmaSm     float64 `json:"sigma_s_m"`
		Water       float64 `json:"water_fraction"`
		Perfusion1S float64 `json:"perfusion_1_s"`
	}
	lesionFile struct {
		Family   string  `json:"family"`
		WidthMM  float64 `json:"width_mm"`
		HeightMM float64 `json:"height_mm"`
		DepthMM  float64 `json:"depth_mm"`
	}
	physicsFile struct {
		Vaporise           bool    `json:"vaporise"`
		Damage             string  `json:"damage"`
		Source             string  `json:"source"`
		SigmaOfTemperature bool    `json:"sigma_of_temperature"`
		GeneratorLimits    bool    `json:"generator_limits"`
		SurfaceHWm2K       float64 `json:"surface_h_w_m2k"`
		AmbientC           float64 `json:"ambient_c"`
		CoreC              float64 `json:"core_c"`
		BloodRhoCJm3K      float64 `json:"blood_rho_c_j_m3k"`
	}
	probeFile struct {
		XMM float64 `json:"x_mm"`
		YMM float64 `json:"y_mm"`
		ZMM float64 `json:"z_mm"`
	}
	answer struct {
		EnergyJ    float64  `json:"energy_j"`
		DeliveredW *float64 `json:"delivered_w"`
		Impedance  *struct {
			First, Last *float64
		} `json:"impedance_ohm"`
		Probes []struct {
			TempC []float64 `json:"temp_c"`
			Omega *float64  `json:"omega"`
		} `json:"probes"`
		Destroyed   *extent       `json:"destroyed"`
		Dried       *extent       `json:"dried"`
		Charred     *extent       `json:"charred"`
		LesionShare *float64      `json:"lesion_destroyed_fraction"`
		DermisDepth *float64      `json:"dermis_depth_mm"`
		Balance     energyAccount `json:"balance"`
	}
	extent struct {
		DepthMM   float64 `json:"depth_mm"`
		RadiusMM  float64 `json:"radius_mm"`
		VolumeMM3 float64 `json:"volume_mm3"`
	}
	energyAccount struct {
		InJ      float64 `json:"in_j"`
		StoredJ  float64 `json:"stored_j"`
		LatentJ  float64 `json:"latent_j"`
		SurfaceJ float64 `json:"surface_j"`
		FarJ     float64 `json:"far_j"`
		BloodJ   float64 `json:"blood_j"`
	}
)

// plain is physics with everything switched off: a linear problem that starts
// at one temperature of 37 C and loses nothing by its surface.
func plain() *physicsFile {
	return &physicsFile{Damage: "none", Source: "potential", AmbientC: 37, CoreC: 37, BloodRhoCJm3K: 3.8e6}
}

// even is a half-space of one material.
func even(m medium, sigmaSm float64) []layerFile {
	return []layerFile{{Name: "even", ThicknessMM: 100, KWmK: m.kWmK, RhoKgM3: 1000, CJKgK: m.rhoCJm3 / 1000, SigmaSm: sigmaSm}}
}

// sheetSm is the conductivity of the sheet of sheeted, S/m.
const sheetSm = 1e-5

// sheeted is a half-space of one material whose topmost voxels hardly conduct
// electricity. The current crosses them evenly, so the electrode's whole heat
// is set free in that one sheet of voxels under it: on a grid, that is an even
// flux through a disc of the surface.
func sheeted(m medium, gridMM float64) []layerFile {
	l := even(m, 1)
	sheet := l[0]
	sheet.Name, sheet.ThicknessMM, sheet.SigmaSm = "sheet", gridMM, sheetSm
	return append([]layerFile{sheet}, l...)
}

// solve writes the run as JSON, has it read and run, and reads the answer.
func solve(t testing.TB, f runFile) answer {
	t.Helper()
	data, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	return solveJSON(t, data)
}

func solveJSON(t testing.TB, data []byte) answer {
	t.Helper()
	spec, err := tissue.ReadRun("run.json", data)
	if err != nil {
		t.Fatalf("the run is refused: %v\n%s", err, data)
	}
	result, err := tissue.Run(spec)
	if err != nil {
		t.Fatalf("the run failed: %v\n%s", err, data)
	}
	out, err := json.Marshal(result)
	if err != nil {
		t.Fatal(err)
	}
	var a answer
	if err := json.Unmarshal(out, &a); err != nil {
		t.Fatalf("the answer does not hold the keys of the contract: %v\n%s", err, out)
	}
	return a
}

// long tells whether the long runs are wanted.
func long() bool { return os.Getenv("LEASTWATT_LONG") != "" }

// grids are the spacings of a convergence test: each half of the one before.
func grids(mm ...float64) []float64 {
	if long() {
		return append(mm, mm[len(mm)-1]/2)
	}
	return mm
}

// orders are the orders of convergence between neighbouring grids.
func orders(errs []float64) []float64 {
	var o []float64
	for i := 1; i < len(errs); i++ {
		o = append(o, math.Log2(math.Abs(errs[i-1]/errs[i])))
	}
	return o
}

// norm is the root mean square of the differences, over the largest wanted.
func norm(got, want []float64) float64 {
	sum, top := 0.0, 0.0
	for i := range got {
		sum += (got[i] - want[i]) * (got[i] - want[i])
		top = math.Max(top, math.Abs(want[i]))
	}
	return math.Sqrt(sum/float64(len(got))) / top
}
