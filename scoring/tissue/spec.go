package tissue

// RunSpec is one run of the model as a file states it, every default filled
// in. Lengths are in mm, times in s, temperatures in degrees Celsius.
type RunSpec struct {
	GridMM      float64
	SizeMM      [3]float64 // x, y, and the depth below the skin's level
	Electrode   Electrode
	PowerW      float64 // the dial: what the unit gives into its matched load
	ActivationS float64
	CoolS       float64
	Output      string // low or high
	Path        []PathPoint
	Site        string // empty when Layers are given
	Layers      []Layer
	Lesion      *LesionSpec
	Physics     Physics
	Probes      []Probe
	SampleS     []float64
	Seed        uint64   // of the sparks; no key of a file sets it
	FaintKs     float64  // heat that warms by less a second is left out far from the tip; 0 takes 0.001
	RoomMM      float64  // free height above the skin; 0 takes the lesion's
	Extra       []string // materials that may be laid on later: blood, saline
	Workers     int      // 0 or 1 is one worker; any number gives the same bits
}

// Electrode is the tip: a flat disc that stands on the tissue or hangs
// GapMM above it.
type Electrode struct {
	RadiusMM float64
	Gap      bool
	GapMM    float64
}

// PathPoint is where the tip is at TS after the pedal went down. Between two
// points it moves straight at constant speed. Off lifts the pedal until the
// next point.
type PathPoint struct {
	TS, XMM, YMM float64
	Off          bool
	GapMM        float64
}

// Layer is one layer of the skin; the last reaches to the bottom.
type Layer struct {
	Name          string
	Kind          Kind
	ThicknessMM   float64
	KWmK          float64 // heat conductivity, W/(m K)
	RhoKgM3       float64
	CJKgK         float64
	SigmaSm       float64 // electric conductivity at 37 C, S/m
	WaterFraction float64 // by mass
	Perfusion1S   float64 // volume of blood per volume of tissue and second
}

// LesionSpec is a lesion in and on the middle of the patch.
type LesionSpec struct {
	Family                     string
	WidthMM, HeightMM, DepthMM float64
}

// Physics switches parts of the model and sets its surroundings.
type Physics struct {
	Vaporise           bool
	Damage             string // id of a damage set, or none
	Hemisphere         bool   // source by formula in place of the potential
	SigmaOfTemperature bool
	GeneratorLimits    bool
	SurfaceHWm2K       float64
	AmbientC, CoreC    float64
	BloodRhoCJm3K      float64
}

// Probe is a place whose temperature is asked, mm; z grows inward from the
// level of the surrounding skin.
type Probe struct{ XMM, YMM, ZMM float64 }

// Kind tells which layer of skin a material belongs to.
type Kind uint8

// The kinds of layer.
const (
	Other Kind = iota
	Horny
	Epidermis
	Papillary
	Reticular
	Fat
)

var kindIDs = []string{"other", "horny", "epidermis", "papillary", "reticular", "fat"}

// String is the id of the kind in files.
func (k Kind) String() string { return kindIDs[k] }

func (k Kind) dermis() bool { return k == Papillary || k == Reticular }

// DefaultPhysics is the physics of a run that switches nothing.
func DefaultPhysics() Physics {
	return Physics{
		Vaporise: true, Damage: "henriques", SigmaOfTemperature: true, GeneratorLimits: true,
		SurfaceHWm2K: 10, AmbientC: 22, CoreC: 37, BloodRhoCJm3K: 3.8e6,
	}
}
