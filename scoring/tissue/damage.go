package tissue

// An Arrhenius set says how fast heat kills: the damage integral Omega grows
// by A exp(-Ea/(R T)) a second, T in kelvin. At Omega = 1 the share e^-1 is
// left alive, and the tissue counts as destroyed. B below is Ea/R in K.
//
// Sets disagree, because each was fitted to its own experiment; none was
// fitted above about 60 C except the collagen set. At the temperatures of a
// treated spot every burn set says "at once", which is all that is asked.
type arrhenius struct {
	perS  float64 // A, 1/s
	bK    float64 // Ea/R, K
	fromC float64 // lowest temperature of this branch
}

// DamageSet is a published pair of constants, or two branches of temperature,
// for the epidermis and for what lies deeper.
type DamageSet struct {
	ID        string
	Source    string
	epidermis []arrhenius
	deeper    []arrhenius
}

var damageSets = []DamageSet{
	{
		ID: "henriques", Source: "Henriques, Archives of Pathology 1947;43:489; with Ea/R of 75,000 K as first printed (150 kcal/mol over R of 2 cal/(mol K))",
		epidermis: []arrhenius{{3.1e98, 75000, 0}},
	},
	{
		ID: "henriques_si", Source: "Henriques, Archives of Pathology 1947;43:489, in the customary SI quotation of 6.28e5 J/mol (Jiang and others, Burns 2002;28:713), about five times slower",
		epidermis: []arrhenius{{3.1e98, 6.28e5 / gasJmolK, 0}},
	},
	{
		ID: "weaver_stoll", Source: "Weaver and Stoll, Aerospace Medicine 1969;40:24; two branches meeting at 50 C",
		epidermis: []arrhenius{{2.185e124, 93534.9, 0}, {1.823e51, 39109.8, 50}},
	},
	{
		ID: "takata", Source: "Takata, Aerospace Medicine 1974;45:634; two branches meeting at 50 C",
		epidermis: []arrhenius{{4.32e64, 50000, 0}, {9.39e104, 80000, 50}},
	},
	{
		ID: "mehta_wong", Source: "Mehta and Wong, Measurement of Flammability and Burn Potential of Fabrics, MIT Fuels Research Laboratory, Cambridge 1973",
		epidermis: []arrhenius{{1.43e72, 55000, 0}},
		deeper:    []arrhenius{{2.86e69, 55000, 0}},
	},
	{
		ID: "collagen", Source: "Maitland and Walsh, Lasers in Surgery and Medicine 1997;20:310: loss of birefringence of rat tail tendon, A of e^130 1/s and 3.724e5 J/mol",
		epidermis: []arrhenius{{2.8713e56, 3.724e5 / gasJmolK, 0}},
	},
}

// stasis is the set that stops the flow in small vessels: Brown and others,
// Journal of Surgical Research 1992 (from memory).
var stasis = []arrhenius{{1.98e106, 6.67e5 / gasJmolK, 0}}

const (
	gasJmolK = 8.3145
	kelvin   = 273.15
)

// DamageIDs lists the ids of the sets.
func DamageIDs() []string {
	ids := make([]string, len(damageSets))
	for i, s := range damageSets {
		ids[i] = s.ID
	}
	return ids
}

// DamageByID returns the set, or nil when there is none of that id.
func DamageByID(id string) *DamageSet {
	for i := range damageSets {
		if damageSets[i].ID == id {
			return &damageSets[i]
		}
	}
	return nil
}

// RatePerS is the growth of Omega a second at tempC in a layer of that kind,
// with no ceiling.
func (d *DamageSet) RatePerS(kind Kind, tempC float64) float64 {
	return rateOf(d.branches(kind), tempC)
}

func (d *DamageSet) branches(kind Kind) []arrhenius {
	if d.deeper != nil && kind != Epidermis && kind != Horny {
		return d.deeper
	}
	return d.epidermis
}

func rateOf(branches []arrhenius, tempC float64) float64 {
	b := branches[0]
	for _, next := range branches[1:] {
		if tempC >= next.fromC {
			b = next
		}
	}
	return exp(log(b.perS) - b.bK/(tempC+kelvin))
}

// rateTable holds a set's rate at steps of temperature, so that marching
// needs no exp. It is straight between steps: with the steepest set the error
// is under 1e-3 of the rate.
type rateTable [rateSteps + 2]float32

const (
	rateFromC   = 40.0 // below it no set destroys within an hour
	ratePerK    = 16
	rateToC     = 110.0 // above it the rate is at its ceiling or near it
	rateSteps   = (rateToC - rateFromC) * ratePerK
	ratePerSMax = 1e4 // no faster: a step of the march is about 1 ms
	omegaMax    = 1e5 // third degree is 1e4 (Henriques 1947); more says nothing
)

func newRateTable(branches []arrhenius) *rateTable {
	t := new(rateTable)
	for i := range t {
		t[i] = float32(min(rateOf(branches, rateFromC+float64(i)/ratePerK), ratePerSMax))
	}
	return t
}

// at is the rate at tempC, which must be at least rateFromC.
func (t *rateTable) at(tempC float32) float32 {
	if tempC >= rateToC {
		return t[rateSteps]
	}
	x := float32(tempC-rateFromC) * ratePerK
	i := int(x)
	f := float32(x - float32(i))
	return float32(t[i] + float32(f*float32(t[i+1]-t[i])))
}
