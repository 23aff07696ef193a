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

// missed is a figure of the trade that the model does not meet, with what it
// gives instead and why. The test fails when the figure moves away from it
// either way, so that the row is looked at again.
type missed struct {
	setup      string
	depthMM    float64 // to which the dermis is destroyed at the trade's dial
	withinMM   float64
	whyNotLess string
}

var missedDepths = []missed{{
	setup: "curetted-base", depthMM: 1.6, withinMM: 0.15,
	whyNotLess: "the path gives about 1.2 J to each square millimetre in four seconds; heating skin by 25 K takes 0.1 J a cubic millimetre and drying it 1.9, so 1 mm of dermis cannot hold it. A third of the dial passes 1 mm too. The site, not a constant, is what the trade would change: see curetted-base-trunk",
}}

// TestTradeFigures runs each customary setting at a third, once and four times
// its dial. Judged: at the trade's dial 95 % of the lesion is destroyed; the
// depth never falls as the dial rises; at the trade's dial it stays within the
// dermis, or is what missedDepths says. Printed only: the least dial P*, the
// ratios, and a finer ladder of dials. Of the setups that last seconds the
// ordinary test makes one run or none; the rest waits for LEASTWATT_LONG.
func TestTradeFigures(t *testing.T) {
	third := []float64{1.0 / 3, 1, 4}
	for _, c := range []struct {
		name  string
		times []float64 // in the ordinary test
	}{
		{"pressed-vessel", third},
		{"skin-tag", third},
		{"cherry-angioma", []float64{1}},
		{"curetted-base", []float64{1}},
		{"curetted-base-trunk", nil},
		{"keratosis", nil},
	} {
		times := c.times
		if long() {
			times = third
		}
		if times == nil {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			s := readSetup(t, c.name)
			var depths []float64
			for _, times := range times {
				a := s.at(t, s.TradeW*times)
				depths = append(depths, value(a.DermisDepth))
				t.Logf("%-14s %5.2f W: %3.0f %% of the lesion destroyed, dermis to %.2f mm, %.3g J", c.name, s.TradeW*times, 100*value(a.LesionShare), value(a.DermisDepth), a.EnergyJ)
				if times == 1 {
					s.judge(t, c.name, a)
				}
			}
			for i := 1; i < len(depths); i++ {
				if !(depths[i] >= depths[i-1]) {
					t.Errorf("the depth falls as the dial rises: %v mm at a third, once and four times %g W", depths, s.TradeW)
				}
			}
			if long() {
				t.Logf("%-14s depth at a third, once and four times: %.2f mm; ratios %.2f and %.2f", c.name, depths, depths[0]/depths[1], depths[2]/depths[1])
				s.ladder(t, c.name)
			}
		})
	}
}

// judge looks at the run with the trade's dial.
func (s setup) judge(t *testing.T, name string, a answer) {
	t.Helper()
	if !(value(a.LesionShare) >= enoughDestroyed) {
		t.Errorf("at the trade's %g W only %.1f %% of the lesion is destroyed", s.TradeW, 100*value(a.LesionShare))
	}
	depth := value(a.DermisDepth)
	for _, m := range missedDepths {
		if m.setup != name {
			continue
		}
		t.Logf("%-14s MISSED: at %g W the dermis is destroyed to %.2f mm of %g: %s", name, s.TradeW, depth, s.DermisMM, m.whyNotLess)
		if !(math.Abs(depth-m.depthMM) <= m.withinMM) {
			t.Errorf("at %g W the dermis is destroyed to %.2f mm; the row of what is missed says %.2f within %.2f: look at it again", s.TradeW, depth, m.depthMM, m.withinMM)
		}
		return
	}
	if !(depth < s.DermisMM) {
		t.Errorf("at the trade's %g W the dermis is destroyed to %g mm; it is %g mm thick", s.TradeW, depth, s.DermisMM)
	}
}

// ladder prints P* and the depths of a finer row of dials.
func (s setup) ladder(t *testing.T, name string) {
	t.Helper()
	least := leastW(4*s.TradeW, func(w float64) bool { return value(s.at(t, w).LesionShare) >= enoughDestroyed })
	t.Logf("%-14s P* = %.2f W, %.2f of the trade's %g W", name, least, least/s.TradeW, s.TradeW)
	var depths []float64
	for _, times := range []float64{0.25, 0.5, 0.75, 1.5, 2, 3} {
		depths = append(depths, value(s.at(t, s.TradeW*times).DermisDepth))
	}
	t.Logf("%-14s depth at 0.25, 0.5, 0.75, 1.5, 2 and 3 times: %.2f mm", name, depths)
}

// TestThinCrust: the crust under a fine tip is thinner than a voxel when arcs
// first cross it. The vessel at the trade's dial takes as much energy on a grid
// of 0.1 mm as on one of 0.05, within a tenth, and is destroyed on both.
func TestThinCrust(t *testing.T) {
	s := readSetup(t, "pressed-vessel")
	coarse := s.at(t, s.TradeW)
	s.Run["grid_mm"] = 0.05
	fine := s.at(t, s.TradeW)
	t.Logf("0.1 mm: %.3g J, dermis to %.2f mm; 0.05 mm: %.3g J, dermis to %.2f mm", coarse.EnergyJ, value(coarse.DermisDepth), fine.EnergyJ, value(fine.DermisDepth))
	if math.Abs(coarse.EnergyJ/fine.EnergyJ-1) > 0.1 || value(coarse.LesionShare) < enoughDestroyed || value(fine.LesionShare) < enoughDestroyed {
		t.Errorf("0.1 mm: %.3g J and %.0f %% of the vessel; 0.05 mm: %.3g J and %.0f %%; want the same energy within a tenth, and the vessel destroyed", coarse.EnergyJ, 100*value(coarse.LesionShare), fine.EnergyJ, 100*value(fine.LesionShare))
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
