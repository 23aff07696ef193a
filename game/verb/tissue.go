package verb

import (
	"fmt"
	"runtime"
	"strings"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring/tissue"
)

// Tissue makes one run of the tissue model from a file. The clock, for wall_s,
// comes in as an argument.
func Tissue(s *Shell, file string, now func() time.Time) int {
	data, err := cases.ReadFile(file)
	if err != nil {
		return s.Fail(err)
	}
	spec, err := tissue.ReadRun(file, data)
	if err != nil {
		return s.Fail(err)
	}
	spec.Workers = runtime.NumCPU()
	start := now()
	r, err := tissue.Run(spec)
	if err != nil {
		return s.Fail(err)
	}
	r.WallS = now().Sub(start).Seconds()
	if s.JSON {
		return s.printJSON(r)
	}
	return s.print(TissueText(spec, r))
}

// TissueText is a run's result as plain text.
func TissueText(spec *tissue.RunSpec, r *tissue.Result) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n", TrainingLine)
	fmt.Fprintf(&b, "Dial %.4g W for %.4g s: %.4g W passed the tip, %.4g J in all\n", spec.PowerW, spec.ActivationS, r.DeliveredW, r.EnergyJ)
	if z := r.Impedance; z != nil && z.First != nil && z.Last != nil {
		fmt.Fprintf(&b, "Resistance of the tissue: %.4g ohm at first, %.4g at last\n", *z.First, *z.Last)
	}
	for _, row := range []struct {
		name string
		r    *tissue.Region
	}{{"Destroyed", r.Destroyed}, {"Dried", r.Dried}, {"Charred", r.Charred}} {
		if row.r != nil {
			fmt.Fprintf(&b, "%s: %.2f mm deep, %.2f mm from the axis, %.3f mm3\n", row.name, row.r.DepthMM, row.r.RadiusMM, row.r.VolumeMM3)
		}
	}
	if r.LesionDestroyedFraction != nil {
		fmt.Fprintf(&b, "Lesion destroyed: %.1f %%\n", 100**r.LesionDestroyedFraction)
	}
	if r.DermisDepthMM != nil {
		fmt.Fprintf(&b, "Destroyed %.2f mm into the dermis\n", *r.DermisDepthMM)
	}
	for i, p := range r.Probes {
		at := spec.Probes[i]
		fmt.Fprintf(&b, "At x %g, y %g, z %g mm:", at.XMM, at.YMM, at.ZMM)
		for k, c := range p.TempC {
			fmt.Fprintf(&b, " %.2f C after %g s;", c, spec.SampleS[k])
		}
		if p.Omega != nil {
			fmt.Fprintf(&b, " damage integral %.3g", *p.Omega)
		}
		b.WriteString("\n")
	}
	e := r.Balance
	fmt.Fprintf(&b, "Heat in %.4g J: stored %.4g, steam %.4g, surface %.4g, far %.4g, blood %.4g\n", e.InJ, e.StoredJ, e.LatentJ, e.SurfaceJ, e.FarJ, e.BloodJ)
	fmt.Fprintf(&b, "%d voxels, %d steps, %.2f s\n", r.Voxels, r.Steps, r.WallS)
	b.WriteString("\nThis trains and does not certify. Your supervisor, local codes, the unit's own manual and your licence decide.\n")
	return b.String()
}
