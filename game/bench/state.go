package bench

import (
	"leastwatt/cases"
	"leastwatt/scoring/tissue"
)

// State is what meters and pictures show. Maps belongs to the bench and holds
// until the next call; it must not be changed.
type State struct {
	ClockMS          int
	Ended            bool
	Tool             string
	XMM, YMM, GapMM  cases.Milli
	Electrode        string
	TipRadiusMM      float64
	Output, Contact  string
	Pedal            bool // the foot is down
	Live             bool // and current flows
	DialW            cases.Milli
	DeliveredW       cases.Milli
	ImpedanceOhm     int
	ImpedanceTrend   int // -1 falls, 0 keeps, 1 rises
	BurstMS, TotalMS int // of this burst, and of all that was not undone
	Bursts           int
	Cycle            int // round under way; 0 before the first burst

	Sparking   bool
	HotColumns int // columns of the surface at 99 C and more: steam rises there
	Smoking    int // of them, dry ones: smoke

	HandOn, PlateOn, PlateUnit, NozzleNear, OxygenOn, OnMetal bool
	Marked, Potted, Pressing                                  bool
	Press                                                     tissue.Spot
	InjectedML                                                cases.Milli
	Adrenaline                                                bool
	NumbInMS                                                  int // until the injection works
	Numb                                                      bool
	AlcoholWetMS                                              int // until it is dry to the eye
	WaitLeftMS                                                int
	CutMM3                                                    cases.Milli
	CanUndo                                                   bool

	Caution   string // hazard that stopped the bench, until the pedal goes down again
	CautionMS int
	Speech    string // of the patient, for some seconds
	Spots     []BleedingSpot
	Hazards   []string
	Faults    []string
	Maps      *tissue.Maps
}

// BleedingSpot is a pinpoint that bleeds or has bled.
type BleedingSpot struct {
	XMM, YMM float64
	PoolUL   float64 // shed since it was last dried
	Closed   bool
}

const speechMS = 4000

// State tells how things stand.
func (b *Bench) State() State {
	b.look()
	h, r, f := &b.hand, &b.room, &b.field
	s := State{
		ClockMS: b.clockMS, Ended: b.ended, Tool: h.tool, XMM: h.xMM, YMM: h.yMM, GapMM: h.gapMM,
		Electrode: h.tip, TipRadiusMM: tipRadiusMM(h.tip), Output: h.output, Contact: h.contact, Pedal: h.pedal, Live: h.live, DialW: h.powerW,
		TotalMS: b.burst.totalMS, Bursts: len(b.marks), Cycle: f.cycles,
		HandOn: r.handOn, PlateOn: r.plateOn, PlateUnit: b.returnsByPlate(), NozzleNear: r.nozzleNear, OxygenOn: !r.oxygenOff, OnMetal: !r.offMetal,
		Marked: r.marked, Potted: f.potted, Pressing: f.pressing, Press: f.press,
		InjectedML: cases.Milli(r.injectedUL), Adrenaline: r.injectedUL > 0 && b.adrenaline(), NumbInMS: b.numbInMS(), Numb: b.numb(),
		AlcoholWetMS: b.alcoholWetMS(), WaitLeftMS: max(0, r.waitUntilMS-b.clockMS), CutMM3: f.cutMM3,
		CanUndo: !b.o.Assessed && len(b.marks) > 0 && !b.ended,
		Caution: b.told.caution, CautionMS: b.told.cautionMS, Hazards: b.told.hazards, Faults: b.told.faults,
		Maps: &b.p.maps,
	}
	if h.live {
		t := b.p.t
		s.DeliveredW, s.ImpedanceOhm, s.Sparking, s.ImpedanceTrend = milli(t.DeliveredW()), int(t.ImpedanceOhm()+0.5), t.Sparking(), b.burst.trend
		now := b.burst.list[len(b.burst.list)-1]
		s.BurstMS = now.ToMS - now.FromMS
	}
	if b.told.speech != "" && b.clockMS-b.told.speechMS < speechMS {
		s.Speech = b.told.speech
	}
	for i := range f.spots {
		p := &f.spots[i]
		s.Spots = append(s.Spots, BleedingSpot{p.xMM, p.yMM, float64(p.nl) / 1000, p.closed})
	}
	for i, t := range b.p.maps.TempC {
		if t >= 99 {
			s.HotColumns++
			if b.p.maps.Water[i] < driedWater {
				s.Smoking++
			}
		}
	}
	return s
}

// look brings the maps up to date.
func (b *Bench) look() {
	if b.seen != b.clockMS {
		b.p.t.Snapshot(&b.p.maps)
		b.seen = b.clockMS
	}
}

// Section is a cut through the lesion along x, yMM from its middle.
func (b *Bench) Section(yMM float64) tissue.Slice { return b.p.t.Section(yMM) }

// Case and Plan are what the bench was opened with.
func (b *Bench) Case() *cases.Case { return b.c }

// Plan is what the trainee meant to do.
func (b *Bench) Plan() *cases.Plan { return b.plan }
