package cases

// room composes what stands in it, before any hazard.
func (m *composing) room() {
	d := m.dice("room")
	m.c.Setting = Setting{SmokeEvacuator: true, PathologyService: true, BipolarUnit: d.chance(55), CauteryUnit: d.chance(70)}
}

// hazards throws as many as the level holds, no two of one group. None shows
// until it is asked about.
func (m *composing) hazards() {
	d := m.dice("hazards")
	n := m.Levels[m.recipe.Level-1].Hazards
	taken := map[string]bool{}
	for range d.between(n[0], n[1]) {
		weights := make([]int, len(m.Hazards))
		for i := range m.Hazards {
			if h := &m.Hazards[i]; !taken[h.Group] && m.fits(h) {
				weights[i] = h.Weight
			}
		}
		at := d.pick(weights)
		if at < 0 {
			return
		}
		taken[m.Hazards[at].Group] = true
		m.add(d, &m.Hazards[at])
	}
}

// fits tells whether the patient can have the hazard.
func (m *composing) fits(h *madeHazard) bool {
	p := &m.c.Patient
	switch {
	case m.recipe.Level < h.FromLevel,
		p.AgeYears < Milli(h.Ages[0])*1000, p.AgeYears > Milli(h.Ages[1])*1000,
		h.Sex != "" && h.Sex != p.Sex,
		h.SkinTypes != nil && (p.SkinType < h.SkinTypes[0] || p.SkinType > h.SkinTypes[1]),
		contains(h.NotFamilies, m.f.Family):
		return false
	}
	for _, pair := range contrary {
		for k := range pair {
			if contains(h.Features, pair[k]) && contains(m.c.Lesion.Features, pair[1-k]) {
				return false
			}
		}
	}
	return true
}

func (m *composing) add(d *dice, h *madeHazard) {
	p, s := &m.c.Patient, &m.c.Setting
	p.History = once(append(p.History, h.History...))
	p.Medicines = once(append(p.Medicines, h.Medicines...))
	p.Allergies = once(append(p.Allergies, h.Allergies...))
	m.c.Lesion.Features = once(append(m.c.Lesion.Features, h.Features...))
	if h.Device != nil {
		p.Devices = append(p.Devices, m.device(d, h.Device))
	}
	if h.INR != nil {
		inr := d.measure(h.INR[0], h.INR[1], 100)
		p.INR = &inr
	}
	if h.Pregnant {
		weeks := Milli(d.between(h.Weeks[0], h.Weeks[1])) * 1000
		p.Pregnant, p.GestationWeeks = true, &weeks
	}
	p.Breastfeeding = p.Breastfeeding || h.Breastfeeding
	s.OxygenRunning = s.OxygenRunning || h.Oxygen
	s.MetalTable = s.MetalTable || h.Metal
	s.SmokeEvacuator = s.SmokeEvacuator && !h.NoEvacuator
	s.PathologyService = s.PathologyService && !h.NoPathology
	if h.Unit != nil {
		u := *h.Unit
		s.Unit = &u
	}
	m.lessons = append(m.lessons, h.Teaching)
}

// device lays the device in its site and measures how far the lesion is.
func (m *composing) device(d *dice, kind *madeDevice) Device {
	far := Milli(d.between(3, 12)) * 1000
	if l := &m.c.Lesion; l.Site != kind.Site {
		far = min(max(bodyDistance(*m.c.Patient.HeightCM, l.Site, l.Side, kind.Site), 3000), 150_000) // what a pack may say
	}
	return Device{Kind: kind.Kind, Site: kind.Site, DistanceCM: &far}
}

// outlineWidth is how wide the body outline is against its height, in
// thousandths.
const outlineWidth = 650

// What lies between the front of a trunk and its back, and half of a head;
// rough, from memory.
const (
	trunkDepthCM = 18
	headDepthCM  = 9
	headEnds     = Milli(150) // on the outline, from the top
)

// bodyDistance is about how far apart, in whole cm, two sites lie on a body of
// that height, measured on the body outline; the second site lies on the
// patient's left.
func bodyDistance(heightCM Milli, site, side, other string) Milli {
	a, b := SiteByID(site), SiteByID(other)
	x := a.X
	switch side {
	case "right":
		x = 1000 - x
	case "midline":
		x = 500
	}
	across := int64(x-b.X) * outlineWidth * int64(heightCM) / 1_000_000 // thousandths of a cm
	along := int64(a.Y-b.Y) * int64(heightCM) / 1000
	through := int64(0)
	switch {
	case a.View != b.View && a.Y < headEnds && b.Y < headEnds:
		through = headDepthCM * 1000
	case a.View != b.View:
		through = trunkDepthCM * 1000
	}
	return round(Milli(root(across*across+along*along+through*through)), 1000)
}

// root is the whole square root, by Newton's method.
func root(n int64) int64 {
	if n < 2 {
		return n
	}
	x := n
	for y := (x + 1) / 2; y < x; y = (x + n/x) / 2 {
		x = y
	}
	return x
}
