package cases

// lesion composes where the lesion sits, what it is like, and what a careful
// eye takes it for.
func (m *composing) lesion() {
	d := m.dice("lesion")
	l := &m.c.Lesion
	l.Family = m.f.Family
	look, odd := m.disguise(d)
	m.place(d, look)
	m.size(d, look)
	l.Features = m.features(d, look, odd)
	l.Seed = d.between(1, 999_999_999)
}

// disguise throws a trap that the family falls into at this level, or else a
// harmless lesion that looks doubtful, or neither.
func (m *composing) disguise(d *dice) (*madeLook, *madeOdd) {
	for _, list := range [][]madeLook{m.f.Traps, m.f.Looks} {
		for i := range list {
			if l := &list[i]; m.recipe.Level >= l.FromLevel && d.chance(l.In100) {
				m.c.Lesion.LooksLike = l.Family
				m.lessons = append(m.lessons, l.Teaching)
				return l, nil
			}
		}
	}
	for i := range m.f.Odd {
		if o := &m.f.Odd[i]; m.recipe.Level >= o.FromLevel && d.chance(o.In100) {
			m.lessons = append(m.lessons, o.Teaching)
			return nil, o
		}
	}
	return nil, nil
}

func (m *composing) place(d *dice, look *madeLook) {
	l, p := &m.c.Lesion, &m.c.Patient
	weigh := func(everywhere bool) []int {
		weights := make([]int, len(m.f.Sites))
		for i, w := range m.f.Sites {
			open := p.AgeYears >= Milli(w.FromAge)*1000 && p.SkinType >= w.FromSkinType
			if open && (everywhere || contains(look.Sites, w.Site)) {
				weights[i] = w.Weight
			}
		}
		return weights
	}
	at := -1
	if look != nil && len(look.Sites) > 0 {
		at = d.pick(weigh(false))
	}
	if at < 0 {
		at = d.pick(weigh(true))
	}
	l.Site = m.f.Sites[at].Site
	l.Side = "left"
	if d.chance(50) {
		l.Side = "right"
	}
	if m.site(l.Site).Sides == "any" && d.chance(30) {
		l.Side = "midline"
	}
}

// widestMade is the widest lesion that is made on a site: well within what
// fits there.
func widestMade(site string) Milli { return SiteByID(site).MaxWidthMM * 6 / 10 }

// size throws the measures. The first two levels stay in the lower half of the
// family's widths, where a lesion is typical.
func (m *composing) size(d *dice, look *madeLook) {
	l := &m.c.Lesion
	width, height := m.f.WidthMM, m.f.HeightMM
	if look != nil && look.WidthMM != nil {
		width = look.WidthMM
	}
	if look != nil && look.HeightMM != nil {
		height = look.HeightMM
	}
	low, high := width[0], min(width[1], widestMade(l.Site))
	if m.recipe.Level <= 2 {
		high = low + (high-low)*6/10
	}
	step := Milli(100)
	if high > 6000 {
		step = 500
	}
	l.WidthMM = d.measure(low, high, step)
	l.HeightMM = d.measure(height[0], height[1], 100)
	if tall := m.f.Tall || look != nil && look.HeightMM != nil; !tall {
		l.HeightMM = min(l.HeightMM, round(l.WidthMM/2, 100))
	}
	l.DepthMM = d.measure(m.f.DepthMM[0], m.f.DepthMM[1], 100)
	if n := d.between(m.f.Count[0], m.f.Count[1]); n > 1 {
		count := Milli(n) * 1000
		l.Count = &count
	}
}

func (m *composing) features(d *dice, look *madeLook, odd *madeOdd) []string {
	l := &m.c.Lesion
	var list []string
	if look != nil && len(look.Features) > 0 {
		list = append(list, look.Features...)
	} else {
		list = append(list, m.f.Always...)
		for _, s := range m.f.Sometimes {
			if m.recipe.Level >= s.FromLevel && d.chance(s.In100) {
				list = append(list, s.Feature)
			}
		}
	}
	if odd != nil {
		list = append(without(list, odd.Without), odd.Features...)
		if contains(odd.Features, "solitary") {
			l.Count = nil
		}
	}
	if m.f.AloneIn != nil && !contains(list, "solitary") {
		alone := "multiple"
		if l.Count == nil && d.chance(*m.f.AloneIn) {
			alone = "solitary"
		}
		list = append(list, alone)
	}
	if hairy(l.Site) && m.c.Patient.AgeYears >= 14000 {
		list = append(list, "hair_bearing")
	}
	if l.Site == "lip" && contains(list, "indurated") {
		list = append(list, "reaches_vermilion")
	}
	return once(list)
}

// hairy sites bear terminal hair in everyone who is grown.
func hairy(site string) bool { return site == "scalp" || site == "eyebrow" || site == "axilla" }

// once keeps the first of equal words.
func once(list []string) []string {
	var out []string
	for _, w := range list {
		if !contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// report throws whether a specimen was read before, and what the report leaves
// open. At the hardest level it may be a report of the other side.
func (m *composing) report() {
	d := m.dice("report")
	l := &m.c.Lesion
	r := m.f.Report
	if r == nil || !d.chance(r.In100[m.recipe.Level-1]) {
		return
	}
	specimen := r.Specimens[d.below(len(r.Specimens))]
	l.Report = &Report{DaysAgo: Milli(d.between(8, 45)) * 1000, Specimen: specimen, Site: l.Site, Side: l.Side, Says: l.Family, Margins: "not stated, punch"}
	if specimen == "shave" {
		l.Report.Margins = "deep edge not seen"
		if d.chance(50) {
			l.Report.Margins = "reaches the deep edge"
		}
	}
	if m.recipe.Level == 5 && l.Side != "midline" && d.chance(12) {
		l.Report.Side = map[string]string{"left": "right", "right": "left"}[l.Side]
		m.lessons = append([]string{"The report is of the other side, so it says nothing of this spot."}, m.lessons...)
		return
	}
	l.Features = append(l.Features, "biopsied_"+specimen)
}
