package check

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// setup is one file of testdata/trade: a customary setting of the trade, which
// has no source. The run lacks its power.
type setup struct {
	Setup    string         `json:"setup"`
	Source   string         `json:"source"`
	Note     string         `json:"note"`
	TradeW   float64        `json:"trade_w"`
	DermisMM float64        `json:"dermis_mm"`
	Run      map[string]any `json:"run"`
}

func readSetup(t *testing.T, name string) setup {
	t.Helper()
	file := filepath.Join("../../../testdata/trade", name+".json")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var s setup
	if err := json.Unmarshal(data, &s); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	if s.Source != "common practice, no source" || s.TradeW <= 0 || s.DermisMM <= 0 || s.Run == nil {
		t.Fatalf("%s: a setup needs trade_w, dermis_mm, a run and the words that it has no source", file)
	}
	return s
}

// at runs the setup with the dial at powerW.
func (s setup) at(t *testing.T, powerW float64) answer {
	t.Helper()
	s.Run["power_w"] = powerW
	data, err := json.Marshal(s.Run)
	if err != nil {
		t.Fatal(err)
	}
	return solveJSON(t, data)
}

func value(p *float64) float64 {
	if p == nil {
		return math.NaN()
	}
	return *p
}

// leastW finds by halving the least dial at which enough holds, to 10 %, up to
// topW; +Inf when topW is not enough.
func leastW(topW float64, enough func(w float64) bool) float64 {
	if !enough(topW) {
		return math.Inf(1)
	}
	lo, hi := 0.0, topW
	for hi-lo > 0.1*hi && hi > 0.1 {
		mid := (lo + hi) / 2
		if lo > 0 {
			mid = math.Sqrt(lo * hi)
		}
		if enough(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

const enoughDestroyed = 0.95

// TestTradeFigures runs each customary setting at a third, once and four times
// its dial. Judged: at the trade's dial 95 % of the lesion is destroyed; the
// depth never falls as the dial rises; at the trade's dial it stays within the
// dermis. Printed only: the least dial P* and the ratios. The setups that last
// seconds, and P*, wait for LEASTWATT_LONG.
func TestTradeFigures(t *testing.T) {
	names := []string{"pressed-vessel", "skin-tag"}
	if long() {
		names = append(names, "cherry-angioma", "keratosis", "curetted-base")
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			s := readSetup(t, name)
			var depths []float64
			for _, times := range []float64{1.0 / 3, 1, 4} {
				a := s.at(t, s.TradeW*times)
				depths = append(depths, value(a.DermisDepth))
				t.Logf("%-14s %5.2f W: %3.0f %% of the lesion destroyed, dermis to %.2f mm, %.3g J", name, s.TradeW*times, 100*value(a.LesionShare), value(a.DermisDepth), a.EnergyJ)
				if times != 1 {
					continue
				}
				if !(value(a.LesionShare) >= enoughDestroyed) {
					t.Errorf("at the trade's %g W only %.0f %% of the lesion is destroyed", s.TradeW, 100*value(a.LesionShare))
				}
				if !(value(a.DermisDepth) < s.DermisMM) {
					t.Errorf("at the trade's %g W the dermis is destroyed to %g mm; it is %g mm thick", s.TradeW, value(a.DermisDepth), s.DermisMM)
				}
			}
			t.Logf("%-14s depth at a third, once and four times: %.2f mm; ratios %.2f and %.2f", name, depths, depths[0]/depths[1], depths[2]/depths[1])
			for i := 1; i < len(depths); i++ {
				if !(depths[i] >= depths[i-1]) {
					t.Errorf("the depth falls as the dial rises: %v mm at a third, once and four times %g W", depths, s.TradeW)
				}
			}
			if long() {
				least := leastW(4*s.TradeW, func(w float64) bool { return value(s.at(t, w).LesionShare) >= enoughDestroyed })
				t.Logf("%-14s P* = %.2f W, %.2f of the trade's %g W", name, least, least/s.TradeW, s.TradeW)
			}
		})
	}
}

// TestGapIsShallower sends as much energy through a gap and by touch into the
// same place for the same time: sparks land round the tip, so their damage must
// lie shallower.
func TestGapIsShallower(t *testing.T) {
	run := func(contact string, powerW float64) answer {
		f := runFile{
			GridMM: 0.1, SizeMM: []float64{6.4, 6.4, 2.4}, Electrode: electrodeFile{RadiusMM: 0.25, Contact: contact},
			PowerW: powerW, ActivationS: 0.3, CoolS: 0.5, Site: "back", Output: "low",
		}
		if contact == "gap" { // sparks want the output of high voltage, held near
			f.Electrode.GapMM, f.Output = 0.2, "high"
		}
		return solve(t, f)
	}
	gap := run("gap", 6)
	if gap.EnergyJ <= 0 {
		t.Fatal("no energy crosses a gap of 0.2 mm at 6 W on the high output")
	}
	lo, hi := 0.0, 35.0 // the touch dial that gives the same energy
	var touch answer
	for range 12 {
		mid := (lo + hi) / 2
		touch = run("touch", mid)
		if math.Abs(touch.EnergyJ/gap.EnergyJ-1) < 0.02 {
			break
		}
		if touch.EnergyJ < gap.EnergyJ {
			lo = mid
		} else {
			hi = mid
		}
	}
	t.Logf("gap: %.3g J, dermis to %.2f mm; touch: %.3g J, dermis to %.2f mm", gap.EnergyJ, value(gap.DermisDepth), touch.EnergyJ, value(touch.DermisDepth))
	if math.Abs(touch.EnergyJ/gap.EnergyJ-1) > 0.05 {
		t.Fatalf("no touch dial gives the energy of the gap, %.3g J; the nearest gives %.3g J", gap.EnergyJ, touch.EnergyJ)
	}
	if !(value(gap.DermisDepth) < value(touch.DermisDepth)) {
		t.Errorf("at equal energy the gap destroys the dermis to %.2f mm and touch to %.2f mm; the gap must be shallower", value(gap.DermisDepth), value(touch.DermisDepth))
	}
}

// TestBloodPool covers a curetted base with half a millimetre of blood: the
// dial that destroys the dermis to 0.2 mm must at least double, or no dial to
// 35 W may do it.
func TestBloodPool(t *testing.T) {
	s := readSetup(t, "curetted-base")
	delete(s.Run, "lesion")
	delete(s.Run, "path")
	s.Run["activation_s"], s.Run["cool_s"], s.Run["size_mm"] = 0.3, 0.5, []float64{6.4, 6.4, 2.4}
	bare := s.Run["layers"].([]any)
	least := func(layers []any) float64 {
		s.Run["layers"] = layers
		return leastW(35, func(w float64) bool { return value(s.at(t, w).DermisDepth) >= 0.2 })
	}
	// Blood: density and specific heat of 1050 kg/m3 and 3617 J/(kg K), 0.52
	// W/(m K) (IT'IS Foundation tissue database); 0.75 S/m at 500 kHz (Gabriel,
	// Lau and Gabriel, Physics in Medicine and Biology 1996;41:2271).
	blood := map[string]any{"name": "blood", "thickness_mm": 0.5, "k_w_mk": 0.52, "rho_kg_m3": 1050, "c_j_kgk": 3617, "sigma_s_m": 0.75, "water_fraction": 0.8, "perfusion_1_s": 0}
	pooled := append([]any{blood}, bare...)
	dry := least(bare)
	s.Run["layers"] = pooled
	depth := value(s.at(t, 2*dry).DermisDepth)
	t.Logf("a dry base is destroyed to 0.2 mm from %.2f W; under 0.5 mm of blood twice that reaches %.2f mm", dry, depth)
	if !(depth < 0.2) {
		t.Errorf("under 0.5 mm of blood %.2f W, twice what a dry base needs, destroys the dermis to %.2f mm; want less than 0.2", 2*dry, depth)
	}
	if long() {
		t.Logf("under blood the least dial is %.2f W", least(pooled))
	}
}
