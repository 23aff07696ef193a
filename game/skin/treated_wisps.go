package skin

// Wisp is one puff of steam or smoke over the patch: a soft round of light
// grey, drawn over the picture.
type Wisp struct {
	XMM, YMM, RadiusMM float32
	Alpha              float32 // 0 to 1
	Grey               float32 // 1 white steam, less for smoke
}

// Spark is one thread of an arc, from the tip to the tissue.
type Spark struct {
	Points  [sparkPoints][2]float32 // mm
	WidthMM float32
	Alpha   float32
}

const (
	sparkPoints = 7
	wispLifeMS  = 900
	wispEveryMS = 45
	sparkLastMS = 16 // one arc is gone in a millisecond; the eye holds it longer
)

// Wisps gives the puffs over a place that boils or smokes. strength, 0 to 1,
// is how hard; smoke, 0 to 1, how much of it is smoke and not steam. They
// depend on seed and tick alone, so that a session shows the same ones again.
// The list is empty when strength is 0.
func Wisps(dst []Wisp, seed uint64, tickMS int, xMM, yMM, strength, smoke float32) []Wisp {
	dst = dst[:0]
	if strength <= 0 {
		return dst
	}
	newest := tickMS / wispEveryMS
	for n := max(newest-wispLifeMS/wispEveryMS, 0); n <= newest; n++ {
		r := rng{state: mix64(seed ^ mix64(uint64(n)))}
		if r.unit() > 0.25+0.75*strength {
			continue
		}
		age := float32(tickMS-n*wispEveryMS) / wispLifeMS
		if age >= 1 {
			continue
		}
		// Rising toward the eye it grows, drifts up the picture and thins.
		sway := 0.25 * float32(sin32(5*age+6.28*r.unit()))
		side, size := r.between(-0.5, 0.5), r.between(0.8, 1.3)
		dst = append(dst, Wisp{
			XMM: xMM + age*(0.5*side+sway), YMM: yMM - 2.4*age*size,
			RadiusMM: (0.10 + 0.75*age) * size,
			Alpha:    0.22 * strength * smooth(0, 0.12, age) * (1 - age) * (1 - age),
			Grey:     lerp(0.96, 0.72, smoke) + 0.04*(r.unit()-0.5),
		})
	}
	return dst
}

// Sparks gives the arcs from a tip held above the tissue, at a moment. xMM, yMM
// is the tip, reachMM how far from it they may land. They depend on seed and
// tick alone.
func Sparks(dst []Spark, seed uint64, tickMS int, xMM, yMM, reachMM float32) []Spark {
	dst = dst[:0]
	if reachMM <= 0 {
		return dst
	}
	r := rng{state: mix64(seed ^ mix64(uint64(tickMS/sparkLastMS)+0x51A7))}
	for range 2 + int(3*r.unit()) {
		a, d := 6.2831853*r.unit(), reachMM*sqrt32(r.unit())
		s := Spark{WidthMM: r.between(0.02, 0.05), Alpha: r.between(0.55, 1)}
		ex, ey := d*cos32(a), d*sin32(a)
		for k := range s.Points {
			u := float32(k) / (sparkPoints - 1)
			bend := 0.16 * reachMM * u * (1 - u) * 4
			s.Points[k] = [2]float32{xMM + ex*u + bend*r.normal()*0.5, yMM + ey*u + bend*r.normal()*0.5}
		}
		dst = append(dst, s)
	}
	return dst
}

// Boiling finds where the tissue boils or smokes now: the middle of the
// columns that are at 98 C and above, mm; how hard, 0 to 1; and how much of it
// is dry enough to smoke. ok is false when none does.
func (t *Treated) Boiling(tempC, water []float32) (xMM, yMM, strength, smoke float32, ok bool) {
	var sum, sx, sy, dry float32
	for k, c := range tempC {
		if c < 98 || k >= len(t.columns) || k >= len(water) {
			continue
		}
		w := smooth(98, 112, c) + 0.3
		sum += w
		sx += w * t.placeMM(float32(k%t.nx), t.nx)
		sy += w * t.placeMM(float32(k/t.nx), t.ny)
		dry += w * smooth(0.3, 0.05, water[k]) * smooth(130, 200, c)
	}
	if sum == 0 {
		return 0, 0, 0, 0, false
	}
	area := sum * t.gridMM * t.gridMM
	return sx / sum, sy / sum, clamp(0.3+area/0.8, 0, 1), dry / sum, true
}
