package tissue

import (
	"fmt"
	"math"

	"leastwatt/cases"
)

// maxVoxels is the most voxels of a run.
const maxVoxels = 2e7

// ReadRun reads a run file. What is wrong in it comes back as [cases.Faults],
// each with its place, the key's name and the allowed range.
func ReadRun(file string, data []byte) (*RunSpec, error) {
	tree, faults := cases.ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &cases.Sheet{File: file, Faults: faults}
	spec := readSpec(s, tree)
	if len(s.Faults) == 0 {
		spec.checkTogether(s, tree)
	}
	if len(s.Faults) > 0 {
		s.Faults.Sort()
		return nil, s.Faults
	}
	return spec, nil
}

func readSpec(s *cases.Sheet, tree *cases.Value) *RunSpec {
	spec := &RunSpec{GridMM: 0.1, SizeMM: [3]float64{12.8, 12.8, 4.8}, Output: "low", Physics: DefaultPhysics()}
	o, ok := open(s, tree, "", "grid_mm", "size_mm", "electrode", "power_w", "activation_s", "cool_s", "output",
		"path", "site", "layers", "lesion", "physics", "probes", "sample_s")
	if !ok {
		return spec
	}
	o.float(&spec.GridMM, "grid_mm", between{0.005, 1})
	spec.readSize(o)
	spec.readElectrode(o)
	o.needFloat(&spec.PowerW, "power_w", between{0, 1000})
	o.needFloat(&spec.ActivationS, "activation_s", between{0.0001, 3600})
	o.float(&spec.CoolS, "cool_s", between{0, 3600})
	o.choice(&spec.Output, "output", []string{"low", "high"})
	spec.readPath(o)
	o.choice(&spec.Site, "site", cases.Vocab.IDs("site"))
	spec.readLayers(o)
	spec.readLesion(o)
	spec.readPhysics(o)
	for i, v := range o.list("probes", 10000) {
		p, ok := open(s, v, o.item("probes", i), "x_mm", "y_mm", "z_mm")
		if !ok {
			continue
		}
		var at Probe
		p.needFloat(&at.XMM, "x_mm", between{-200, 200})
		p.needFloat(&at.YMM, "y_mm", between{-200, 200})
		p.needFloat(&at.ZMM, "z_mm", between{-50, 200})
		spec.Probes = append(spec.Probes, at)
	}
	for i, v := range o.list("sample_s", 10000) {
		var t float64
		number(s, v, &t, o.item("sample_s", i), between{0, 7200})
		spec.SampleS = append(spec.SampleS, t)
	}
	return spec
}

func (spec *RunSpec) readSize(o object) {
	v := o.get("size_mm")
	if v == nil {
		return
	}
	if v.Kind != cases.List || len(v.Items) != 3 {
		o.sheet.Errorf(v, "%q must be a list of three numbers: x, y and depth", "size_mm")
		return
	}
	for i, item := range v.Items {
		number(o.sheet, item, &spec.SizeMM[i], o.item("size_mm", i), between{0.01, 200})
	}
}

func (spec *RunSpec) readElectrode(o object) {
	v := o.need("electrode")
	if v == nil {
		return
	}
	e, ok := open(o.sheet, v, "electrode", "radius_mm", "contact", "gap_mm")
	if !ok {
		return
	}
	contact := ""
	e.needFloat(&spec.Electrode.RadiusMM, "radius_mm", between{0.01, 20})
	if e.need("contact") != nil {
		e.choice(&contact, "contact", []string{"touch", "gap"})
	}
	spec.Electrode.Gap = contact == "gap"
	if spec.Electrode.Gap {
		spec.Electrode.GapMM = 0.5
	}
	e.float(&spec.Electrode.GapMM, "gap_mm", between{0, 20})
}

func (spec *RunSpec) readPath(o object) {
	for i, v := range o.list("path", 200000) {
		p, ok := open(o.sheet, v, o.item("path", i), "t_s", "x_mm", "y_mm", "on", "gap_mm")
		if !ok {
			continue
		}
		at, on := PathPoint{GapMM: spec.Electrode.GapMM}, true
		p.needFloat(&at.TS, "t_s", between{0, 3600})
		p.needFloat(&at.XMM, "x_mm", between{-200, 200})
		p.needFloat(&at.YMM, "y_mm", between{-200, 200})
		p.bool(&on, "on")
		p.float(&at.GapMM, "gap_mm", between{0, 20})
		at.Off = !on
		spec.Path = append(spec.Path, at)
	}
}

func (spec *RunSpec) readLayers(o object) {
	site, layers := o.v.Get("site"), o.v.Get("layers")
	switch {
	case site == nil && layers == nil:
		o.sheet.Errorf(o.v, "the key %q or %q is missing", "site", "layers")
	case site != nil && layers != nil:
		o.sheet.Errorf(layers, "%q and %q stand side by side; keep one", "site", "layers")
	case layers != nil && layers.Kind == cases.List && len(layers.Items) == 0:
		o.sheet.Errorf(layers, "%q may not be empty", "layers")
	}
	for i, v := range o.list("layers", 64) {
		l, ok := open(o.sheet, v, o.item("layers", i), "name", "kind", "thickness_mm", "k_w_mk", "rho_kg_m3", "c_j_kgk", "sigma_s_m", "water_fraction", "perfusion_1_s")
		if !ok {
			continue
		}
		var layer Layer
		if l.need("name") != nil {
			l.text(&layer.Name, "name")
		}
		l.needFloat(&layer.ThicknessMM, "thickness_mm", between{0.0001, 1000})
		layer.readMatter(l)
		spec.Layers = append(spec.Layers, layer)
	}
}

// readMatter reads what a layer is made of.
func (out *Layer) readMatter(l object) {
	kind := Other.String()
	l.choice(&kind, "kind", kindIDs)
	for i, id := range kindIDs {
		if id == kind {
			out.Kind = Kind(i)
		}
	}
	l.needFloat(&out.KWmK, "k_w_mk", between{0.001, 500})
	l.needFloat(&out.RhoKgM3, "rho_kg_m3", between{1, 25000})
	l.needFloat(&out.CJKgK, "c_j_kgk", between{10, 20000})
	l.needFloat(&out.SigmaSm, "sigma_s_m", between{1e-9, 1e6})
	l.needFloat(&out.WaterFraction, "water_fraction", between{0, 1})
	l.needFloat(&out.Perfusion1S, "perfusion_1_s", between{0, 10})
}

func (spec *RunSpec) readLesion(o object) {
	v := o.get("lesion")
	if v == nil {
		return
	}
	l, ok := open(o.sheet, v, "lesion", "family", "width_mm", "height_mm", "depth_mm")
	if !ok {
		return
	}
	spec.Lesion = &LesionSpec{}
	if l.need("family") != nil {
		l.choice(&spec.Lesion.Family, "family", cases.Vocab.IDs("family"))
	}
	l.needFloat(&spec.Lesion.WidthMM, "width_mm", between{0.1, 200})
	l.needFloat(&spec.Lesion.HeightMM, "height_mm", between{0, 50})
	l.needFloat(&spec.Lesion.DepthMM, "depth_mm", between{0, 30})
}

func (spec *RunSpec) readPhysics(o object) {
	v := o.get("physics")
	if v == nil {
		return
	}
	p, ok := open(o.sheet, v, "physics", "vaporise", "damage", "source", "sigma_of_temperature", "generator_limits",
		"surface_h_w_m2k", "ambient_c", "core_c", "blood_rho_c_j_m3k")
	if !ok {
		return
	}
	ph, source := &spec.Physics, "potential"
	p.bool(&ph.Vaporise, "vaporise")
	p.choice(&ph.Damage, "damage", append(DamageIDs(), "none"))
	p.choice(&source, "source", []string{"potential", "hemisphere"})
	ph.Hemisphere = source == "hemisphere"
	p.bool(&ph.SigmaOfTemperature, "sigma_of_temperature")
	p.bool(&ph.GeneratorLimits, "generator_limits")
	p.float(&ph.SurfaceHWm2K, "surface_h_w_m2k", between{0, 1e7})
	p.float(&ph.AmbientC, "ambient_c", between{-50, 100})
	p.float(&ph.CoreC, "core_c", between{-50, 100})
	p.float(&ph.BloodRhoCJm3K, "blood_rho_c_j_m3k", between{0, 1e8})
}

// checkTogether looks at what single keys cannot show.
func (spec *RunSpec) checkTogether(s *cases.Sheet, tree *cases.Value) {
	half := [2]float64{spec.SizeMM[0] / 2, spec.SizeMM[1] / 2}
	for i, size := range spec.SizeMM {
		if size < spec.GridMM*1.5 {
			s.Errorf(tree.At("size_mm", i), "\"size_mm[%d]\" is %v; it must hold at least two voxels of grid_mm %v", i, size, spec.GridMM)
		}
	}
	if n := spec.voxelCount(); n > maxVoxels {
		s.Errorf(tree.At("size_mm"), "\"size_mm\" and \"grid_mm\" make %.0f voxels; at most %.0f are allowed: take a larger grid or a smaller patch", n, float64(maxVoxels))
	}
	outside := func(at *cases.Value, name string, x, y float64) {
		if math.Abs(x) > half[0] || math.Abs(y) > half[1] {
			s.Errorf(at, "%q stands outside the patch: x_mm must be from %v to %v and y_mm from %v to %v", name, -half[0], half[0], -half[1], half[1])
		}
	}
	for i, p := range spec.Path {
		at, name := tree.At("path", i), fmt.Sprintf("path[%d]", i)
		outside(at, name, p.XMM, p.YMM)
		if i > 0 && p.TS <= spec.Path[i-1].TS {
			s.Errorf(at.At("t_s"), "\"%s.t_s\" is %v; it must be above the point before, %v", name, p.TS, spec.Path[i-1].TS)
		}
	}
	top := 0.0
	if spec.Lesion != nil {
		top = -spec.Lesion.HeightMM
		if spec.Lesion.WidthMM > math.Min(spec.SizeMM[0], spec.SizeMM[1]) {
			s.Errorf(tree.At("lesion", "width_mm"), "\"lesion.width_mm\" is %v; it must be at most the patch, %v", spec.Lesion.WidthMM, math.Min(spec.SizeMM[0], spec.SizeMM[1]))
		}
		if spec.Lesion.HeightMM == 0 && spec.Lesion.DepthMM == 0 {
			s.Errorf(tree.At("lesion"), "\"lesion\" has neither height_mm nor depth_mm; one must be above 0")
		}
	}
	for i, p := range spec.Probes {
		at, name := tree.At("probes", i), fmt.Sprintf("probes[%d]", i)
		outside(at, name, p.XMM, p.YMM)
		if p.ZMM < top || p.ZMM > spec.SizeMM[2] {
			s.Errorf(at.At("z_mm"), "\"%s.z_mm\" is %v; it must be from %v to %v", name, p.ZMM, top, spec.SizeMM[2])
		}
	}
	for i, t := range spec.SampleS {
		if end := spec.ActivationS + spec.CoolS; t > end {
			s.Errorf(tree.At("sample_s", i), "\"sample_s[%d]\" is %v; the run ends at %v (activation_s and cool_s)", i, t, end)
		}
	}
}

// voxelCount is how many voxels the run would have.
func (spec *RunSpec) voxelCount() float64 {
	n := 1.0
	for i, size := range spec.SizeMM {
		if i == 2 && spec.Lesion != nil {
			size += max(spec.Lesion.HeightMM, spec.RoomMM)
		}
		n *= math.Ceil(size/spec.GridMM - 0.01)
	}
	return n
}
