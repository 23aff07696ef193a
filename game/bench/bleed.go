package bench

import "leastwatt/scoring/tissue"

// spot is a pinpoint that bleeds: a small vessel that a cut has opened.
type spot struct {
	xMM, yMM  float64
	heightMM  float64 // of the floor it lies in
	openMS    int     // when it was opened
	nl        int     // shed since it was last wiped, nanolitres
	level     int     // how far its pool has spread
	pressedMS int
	closed    bool
}

const (
	bleedMS    = 200 // how often blood is reckoned
	cellMM     = 0.5 // one vessel at most in a square of this edge
	mostLevel  = 8
	clotMS     = 120000 // the flow halves by then: an engineering choice
	pressShut  = 60000  // pressure closes a pinpoint: an engineering choice; ooze from a wound asks for 10 minutes and more
	adrFullMS  = 300000 // adrenaline in full effect by then: American Family Physician 2014, table of local anaesthetics
	levelMM    = 0.2    // the film that a pool adds at each level
	firstTenth = 4      // tenths of a mm, radius of the first level
)

func (b *Bench) bleeds() *bleedingRow {
	family := b.c.Lesion.Family
	if r := find(rows.Bleeding, func(r *bleedingRow) bool { return r.Family == family }); r != nil {
		return r
	}
	return find(rows.Bleeding, func(r *bleedingRow) bool { return r.Family == "other" })
}

// openWound lays the vessels of a wound that bleeds as it comes.
func (b *Bench) openWound() {
	half := b.c.Lesion.WidthMM.Float() / 2
	for i := range b.p.dryMM {
		x, y := b.p.place(i)
		if float64(x*x)+float64(y*y) <= float64(half*half) {
			b.openAt(i, x, y)
		}
	}
}

// bleedFromCut opens vessels where the last cut left live tissue under the
// epidermis, or live lesion.
func (b *Bench) bleedFromCut() {
	under := -b.p.overDermisMM()
	m := &b.p.maps
	for _, i := range b.p.fresh {
		if m.Omega[i] < 1 && (m.Lesion[i] || float64(m.HeightMM[i]) < under) {
			x, y := b.p.place(i)
			b.openAt(i, x, y)
		}
	}
}

// openAt opens the vessel of the column's square, if the square has one and
// the column lies in its middle.
func (b *Bench) openAt(column int, x, y float64) {
	cx, cy := cellOf(x), cellOf(y)
	if b.p.column(float64((float64(cx)+0.5)*cellMM), float64((float64(cy)+0.5)*cellMM)) != column {
		return
	}
	if int(scramble(b.o.Seed, cx, cy)%400) >= b.bleeds().SpotsPerCM2 { // 400 squares in a square centimetre
		return
	}
	s := spot{xMM: x, yMM: y, heightMM: float64(b.p.dryMM[column]), openMS: b.clockMS}
	for i := range b.field.spots {
		if o := &b.field.spots[i]; o.xMM == x && o.yMM == y {
			*o = s
			return
		}
	}
	b.field.spots = append(b.field.spots, s)
}

func cellOf(mm float64) int {
	n := int(mm / cellMM)
	if mm < 0 {
		n--
	}
	return n
}

// scramble mixes a seed and a square into a number, as splitmix64 does.
func scramble(seed, x, y int) uint64 {
	z := uint64(seed)*0x9e3779b97f4a7c15 + uint64(int64(x))*0xbf58476d1ce4e5b9 + uint64(int64(y))*0x94d049bb133111eb
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// flowNL is what a spot sheds in one turn, nanolitres.
func (b *Bench) flowNL(s *spot) int {
	nl := int(b.bleeds().UlPerMin) * bleedMS / 60000
	nl = nl * clotMS / (clotMS + b.clockMS - s.openMS)
	if b.room.injectedUL > 0 && b.adrenaline() {
		// From half at once to a fifth in full effect: from memory.
		nl = nl * (10 - 6*min(b.clockMS-b.room.injectedMS, adrFullMS)/adrFullMS) / 20
	}
	for _, m := range b.c.Patient.Medicines {
		switch m {
		case "warfarin", "direct_anticoagulant", "two_antiplatelets", "heparin":
			return nl * 3 / 2 // from memory
		}
	}
	return nl
}

// bleed is one turn of all spots.
func (b *Bench) bleed() {
	f := &b.field
	for i := range f.spots {
		s := &f.spots[i]
		if s.closed {
			continue
		}
		if b.field.pressing && within(s, f.press) {
			if s.pressedMS += bleedMS; s.pressedMS >= pressShut {
				s.closed = true
			}
			continue
		}
		nl := b.flowNL(s)
		s.nl += nl
		f.shedNL += nl
		for s.level < mostLevel && s.nl >= levelNL(s.level) {
			b.apply(op{kind: opFlood, spot: tissue.Spot{XMM: s.xMM, YMM: s.yMM, RadiusMM: float64(firstTenth+2*s.level) / 10}, mm: levelMM})
			s.level++
		}
	}
	if b.hand.live {
		b.sealSpots(false)
	}
}

// levelNL is how much blood must have been shed for a pool's next level, nl:
// all films up to it.
func levelNL(level int) int {
	nl := 0
	for l := range level + 1 {
		r := firstTenth + 2*l
		nl += 6283 * r * r / 1000 // pi r^2 times 0.2 mm
	}
	return nl
}

func within(s *spot, p tissue.Spot) bool {
	dx, dy := s.xMM-p.XMM, s.yMM-p.YMM
	return float64(dx*dx)+float64(dy*dy) <= float64(p.RadiusMM*p.RadiusMM)
}

// dried empties the pools that a wipe or a cotton tip has taken up.
func (b *Bench) dried(p tissue.Spot) {
	for i := range b.field.spots {
		if s := &b.field.spots[i]; within(s, p) {
			s.nl, s.level = 0, 0
		}
	}
}

// sealSpots closes vessels that heat has closed. Under blood the floor itself
// must be dead, which is looked up in a slice at the end of a burst.
func (b *Bench) sealSpots(deep bool) {
	f := &b.field
	open := false
	for i := range f.spots {
		open = open || !f.spots[i].closed
	}
	if !open {
		return
	}
	b.look()
	m := &b.p.maps
	for i := range f.spots {
		s := &f.spots[i]
		column := b.p.column(s.xMM, s.yMM)
		if s.closed || column < 0 {
			continue
		}
		switch {
		case !m.Wet[column]:
			s.closed = m.Omega[column] >= 1
		case deep:
			cut := b.p.t.Section(s.yMM)
			z, x := row(&cut, s.heightMM), column%m.NX
			if z >= 0 && z < cut.NZ {
				k := z*cut.NX + x
				s.closed = cut.Solid[k] && cut.Omega[k] >= 1
			}
		}
	}
}
