package cases

// patient composes who comes: age, sex and skin as the family has them, then a
// body that fits the age.
func (m *composing) patient() {
	d := m.dice("patient")
	p := &m.c.Patient
	weights := make([]int, len(m.f.Ages))
	for i, a := range m.f.Ages {
		weights[i] = a.Weight
	}
	ages := m.f.Ages[d.pick(weights)]
	age := d.between(ages.From, ages.To)
	p.AgeYears = Milli(age) * 1000
	female := 50
	if m.f.FemaleIn != nil {
		female = *m.f.FemaleIn
	}
	p.Sex = "male"
	if d.chance(female) {
		p.Sex = "female"
	}
	p.SkinType = 1 + d.pick(m.f.SkinTypes)
	height, weight := m.middle(age, p.Sex)
	if age >= 16 && d.chance(1) {
		p.Sex = "other"
	}
	m.body(d, age, height, weight)
	for _, h := range m.f.History {
		if d.chance(h.In100) {
			p.History = append(p.History, h.Illness)
		}
	}
}

// middle is the middle height, cm, and weight, kg, at an age, on a straight
// line between the rows of the growth table.
func (t *madeTables) middle(age int, sex string) (height, weight Milli) {
	rows := t.Growth
	last := len(rows) - 1
	age = min(max(age, rows[0].AgeYears), rows[last].AgeYears)
	i := 1
	for i < last && rows[i].AgeYears < age {
		i++
	}
	a, b := rows[i-1], rows[i]
	part, whole := Milli(age-a.AgeYears), Milli(b.AgeYears-a.AgeYears)
	between := func(from, to Milli) Milli { return from + (to-from)*part/whole }
	if sex == "female" {
		return between(a.FemaleHeightCM, b.FemaleHeightCM), between(a.FemaleWeightKG, b.FemaleWeightKG)
	}
	return between(a.MaleHeightCM, b.MaleHeightCM), between(a.MaleWeightKG, b.MaleWeightKG)
}

// body throws a height within 8 % of the middle, and a weight that goes with
// the square of the height and then from thin to stout.
func (m *composing) body(d *dice, age int, middleHeight, middleWeight Milli) {
	const part = 1000
	tall := Milli(d.middling(920, 1080))
	thin, stout := 800, 1350
	if age >= 18 {
		thin, stout = 680, 1450
	}
	build := Milli(d.middling(thin, stout))
	height := round(middleHeight*tall/part, 1000)
	step := Milli(1000)
	if age < 10 {
		step = 500
	}
	m.c.Patient.HeightCM = &height
	m.c.Patient.WeightKG = round(middleWeight*tall/part*tall/part*build/part, step)
}

func round(n, step Milli) Milli { return (n + step/2) / step * step }
