package tissue

// material is what a voxel is made of, in SI units.
type material struct {
	name   string
	kind   Kind
	lesion bool
	solid  bool

	kWmK, kDryWmK           float64
	rhoCJm3K, rhoCDryJm3K   float64
	latentJm3               float64 // to boil all of its water away
	sigmaSm                 float64 // at 37 C, wet
	perfusion1S             float64
	strength                float64 // 1 is sound dermis; a curette takes what is weak
	rate                    *rateTable
	latentJ, wetJK, dryJK   float32 // of one voxel
	conductWmK, conductDry  float32
	sigma32, perfusionBlood float32
}

const (
	boilC         = 100.0
	latentJkg     = 2.257e6 // of water at 100 C: Kaye and Laby, Tables of Physical and Chemical Constants, 16th edition, Longman 1995
	waterCJkgK    = 4200.0  // Cooper and Trezek, Journal of Heat Transfer 1971;93:449 (water, and dry protein below)
	dryCJkgK      = 1090.0
	dryKWmK       = 0.2  // dried, unshrunk skin: from memory, a bracket of 0.1 to 0.2
	leastDryShare = 0.07 // of the wet heat capacity is left at least, which is blood's share: a dried voxel of salt water alone would force steps of 60 microseconds
	sigmaPerK     = 0.02
	sigmaFromC    = 37.0
	sigmaDryShare = 1e-4 // what is left of the conductivity without water; from memory, radiofrequency models use 1e-2 to 1e-4
)

// material of a layer. What is left when the water has gone keeps its volume:
// the density and the heat of the water are taken off.
func (l Layer) material() material {
	w := l.WaterFraction
	m := material{
		name: l.Name, kind: l.Kind, solid: true, strength: 1,
		kWmK: l.KWmK, kDryWmK: min(dryKWmK, l.KWmK),
		rhoCJm3K:    l.RhoKgM3 * l.CJKgK,
		rhoCDryJm3K: l.RhoKgM3 * max(l.CJKgK-float64(waterCJkgK*w), float64(dryCJkgK*(1-w))),
		latentJm3:   l.RhoKgM3 * w * latentJkg,
		sigmaSm:     l.SigmaSm, perfusion1S: l.Perfusion1S,
	}
	m.rhoCDryJm3K = min(max(m.rhoCDryJm3K, leastDryShare*m.rhoCJm3K), m.rhoCJm3K)
	if w == 0 {
		m.kDryWmK = m.kWmK
	}
	return m
}

// stack is the layers of the skin as depths.
type stack struct {
	layers []material
	toM    []float64 // where each layer ends; the last has no end
}

func newStack(layers []Layer) stack {
	var s stack
	z := 0.0
	for _, l := range layers {
		z += float64(l.ThicknessMM * 1e-3)
		s.layers = append(s.layers, l.material())
		s.toM = append(s.toM, z)
	}
	s.toM[len(s.toM)-1] = 1e9
	return s
}

// between is the material of a slice of the stack from one depth to another.
// Heat and current mostly cross a thin layer, so resistances add; stores add
// by volume. Its kind is that of the largest share.
func (s stack) between(fromM, toM float64) material {
	var mix material
	largest, z := 0.0, fromM
	for i, m := range s.layers {
		end := min(s.toM[i], toM)
		if i < len(s.layers)-1 && end-z < 1e-6*(toM-fromM) {
			continue
		}
		share := (end - z) / (toM - fromM)
		if share > 1-1e-5 {
			return m
		}
		z = end
		if share > largest {
			largest, mix.kind, mix.name, mix.strength = share, m.kind, m.name, m.strength
		}
		mix.kWmK += share / m.kWmK
		mix.kDryWmK += share / m.kDryWmK
		mix.sigmaSm += share / m.sigmaSm
		mix.rhoCJm3K += float64(share * m.rhoCJm3K)
		mix.rhoCDryJm3K += float64(share * m.rhoCDryJm3K)
		mix.latentJm3 += float64(share * m.latentJm3)
		mix.perfusion1S += float64(share * m.perfusion1S)
		if end >= toM {
			break
		}
	}
	mix.solid = true
	mix.kWmK, mix.kDryWmK, mix.sigmaSm = 1/mix.kWmK, 1/mix.kDryWmK, 1/mix.sigmaSm
	return mix
}

// prepare works out the figures of one voxel of edge hM.
func (m *material) prepare(hM, bloodRhoCJm3K float64) {
	v := float64(hM * hM * hM)
	m.latentJ, m.wetJK, m.dryJK = float32(m.latentJm3*v), float32(m.rhoCJm3K*v), float32(m.rhoCDryJm3K*v)
	m.conductWmK, m.conductDry = float32(m.kWmK), float32(m.kDryWmK)
	m.sigma32 = float32(m.sigmaSm)
	m.perfusionBlood = float32(m.perfusion1S * bloodRhoCJm3K * v)
}

// conducts is the heat conductivity with a share of the first water left.
func (m *material) conducts(water float32) float32 {
	return float32(m.conductDry + float32(float32(m.conductWmK-m.conductDry)*water))
}

// holds is a voxel's heat capacity in J/K with a share of its water left.
func (m *material) holds(water float32) float32 {
	return float32(m.dryJK + float32(float32(m.wetJK-m.dryJK)*water))
}
