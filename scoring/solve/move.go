package solve

import (
	"sort"
	"strings"

	"leastwatt/cases"
	"leastwatt/scoring/tables"
)

// move is one change to a plan.
type move func(*cases.Plan)

// asker is what may ask for a value: a row of the tables, or what a
// supervisor wrote in its place.
type asker interface {
	Reads(fact string) bool
	Numbers(fact string) []int64   // thousandths
	WordMasks(fact string) []int64 // bits by the row of the vocabulary
}

var _ asker = (*tables.Row)(nil)

// moves lists the changes to one plan fact that a row could ask for.
func moves(r asker, fact string) []move {
	if l, ok := lists[fact]; ok {
		return setMoves(r, fact, l.table, l.field)
	}
	if text := textField(fact); text != nil {
		return choiceMoves(r, fact, text)
	}
	if dial, ok := dials[fact]; ok {
		return dialMoves(r, fact, dial)
	}
	if flag := flagField(fact); flag != nil {
		return []move{
			func(p *cases.Plan) { b := true; *flag(p) = &b },
			func(p *cases.Plan) { b := false; *flag(p) = &b },
		}
	}
	if fact == "specimen.send" {
		return sendMoves
	}
	if wholeAnaesthetic(fact) {
		return anaestheticMoves(r)
	}
	return nil
}

// list is one field of a plan that holds words of a vocabulary.
type list struct {
	table string
	field func(*cases.Plan) *[]string
}

var lists = map[string]list{
	"asked":      {"topic", func(p *cases.Plan) *[]string { return &p.Asked }},
	"protection": {"protection", func(p *cases.Plan) *[]string { return &p.Protection }},
	"record":     {"record", func(p *cases.Plan) *[]string { return &p.Record }},
	"prescribe":  {"prescribe", func(p *cases.Plan) *[]string { return &p.Prescribe }},
	"advice":     {"advice", func(p *cases.Plan) *[]string { return &p.Advice }},
}

// wholeAnaesthetic tells whether a fact belongs to what is injected as a
// whole: half of it decides nothing, so it is changed as a whole.
func wholeAnaesthetic(fact string) bool {
	switch fact {
	case "anaesthetic.none", "anaesthetic.injects", "anaesthetic.agents", "anaesthetic.percent", "anaesthetic.adrenaline",
		"anaesthetic.adrenaline_ug_ml", "anaesthetic.volume_ml":
		return true
	}
	return strings.HasPrefix(fact, "dose.")
}

// setMoves adds and drops each group of words the row looks for, and each
// word of it by itself.
func setMoves(r asker, fact, table string, field func(*cases.Plan) *[]string) []move {
	var out []move
	ids := cases.Vocab.IDs(table)
	for _, mask := range r.WordMasks(fact) {
		var group []string
		for i, id := range ids {
			if mask>>i&1 != 0 {
				group = append(group, id)
			}
		}
		out = append(out, func(p *cases.Plan) { *field(p) = with(*field(p), group...) })
		out = append(out, func(p *cases.Plan) { *field(p) = without(*field(p), group...) })
		if len(group) > 1 {
			for _, id := range group {
				out = append(out, func(p *cases.Plan) { *field(p) = with(*field(p), id) })
			}
		}
	}
	return append(out, func(p *cases.Plan) {
		if *field(p) == nil {
			*field(p) = []string{}
		}
	})
}

func with(list []string, words ...string) []string {
	out := append([]string{}, list...)
	for _, w := range words {
		if !has(out, w) {
			out = append(out, w)
		}
	}
	return out
}

func without(list []string, words ...string) []string {
	out := []string{}
	for _, w := range list {
		if !has(words, w) {
			out = append(out, w)
		}
	}
	return out
}

func has(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}

// text is one field of a plan that holds a word of a vocabulary.
type text struct {
	table string
	field func(*cases.Plan) *string
}

func textField(fact string) *text {
	if t, ok := texts[fact]; ok {
		return &t
	}
	return nil
}

var texts = map[string]text{
	"electrode":                 {"electrode", func(p *cases.Plan) *string { return &p.Electrode }},
	"output":                    {"output", func(p *cases.Plan) *string { return &p.Output }},
	"contact":                   {"contact", func(p *cases.Plan) *string { return &p.Contact }},
	"haemostasis.method":        {"haemostasis", func(p *cases.Plan) *string { return &bleeding(p).Method }},
	"haemostasis.output":        {"output", func(p *cases.Plan) *string { return &bleeding(p).Output }},
	"haemostasis.contact":       {"contact", func(p *cases.Plan) *string { return &bleeding(p).Contact }},
	"haemostasis.electrode":     {"electrode", func(p *cases.Plan) *string { return &bleeding(p).Electrode }},
	"anaesthetic.method":        {"injection_method", func(p *cases.Plan) *string { return &numbing(p).Method }},
	"prep.agent":                {"prep", func(p *cases.Plan) *string { return &prepping(p).Agent }},
	"specimen.method":           {"specimen_method", func(p *cases.Plan) *string { return &specimen(p).Method }},
	"specimen.result_owner":     {"result_owner", func(p *cases.Plan) *string { return &specimen(p).ResultOwner }},
	"blood_thinner":             {"blood_thinner", func(p *cases.Plan) *string { return &p.BloodThinner }},
	"referral.to":               {"referral", func(p *cases.Plan) *string { return &referral(p).To }},
	"other_care":                {"other_care", func(p *cases.Plan) *string { return &p.OtherCare }},
	"anaesthetic.topical.agent": {"topical_agent", func(p *cases.Plan) *string { return &topical(p).Agent }},
}

func bleeding(p *cases.Plan) *cases.Haemostasis {
	if p.Haemostasis == nil {
		p.Haemostasis = &cases.Haemostasis{}
	}
	return p.Haemostasis
}

func numbing(p *cases.Plan) *cases.Anaesthetic {
	if p.Anaesthetic == nil {
		p.Anaesthetic = &cases.Anaesthetic{}
	}
	return p.Anaesthetic
}

// topical makes the anaesthetic a surface agent alone: the solver has no use
// for a cream and a needle at once.
func topical(p *cases.Plan) *cases.Topical {
	a := numbing(p)
	if a.Topical == nil {
		*a = cases.Anaesthetic{}
		a.Topical = &cases.Topical{AmountG: milli(2), AreaCM2: milli(10), Minutes: milli(60)}
	}
	return a.Topical
}

func prepping(p *cases.Plan) *cases.Prep {
	if p.Prep == nil {
		p.Prep = &cases.Prep{}
	}
	return p.Prep
}

func specimen(p *cases.Plan) *cases.Specimen {
	if p.Specimen == nil {
		p.Specimen = &cases.Specimen{}
	}
	return p.Specimen
}

func referral(p *cases.Plan) *cases.Referral {
	if p.Referral == nil {
		p.Referral = &cases.Referral{}
	}
	return p.Referral
}

// choiceMoves sets each word the row looks for, then every other, then none.
func choiceMoves(r asker, fact string, t *text) []move {
	ids := cases.Vocab.IDs(t.table)
	var order []string
	for _, mask := range r.WordMasks(fact) {
		for i, id := range ids {
			if mask>>i&1 != 0 && !has(order, id) {
				order = append(order, id)
			}
		}
	}
	order = append(with(order, ids...), "")
	out := make([]move, len(order))
	for i, id := range order {
		out[i] = func(p *cases.Plan) { *t.field(p) = id }
	}
	return out
}

// sendMoves decide whether tissue is sent, with what then must be known.
var sendMoves = func() []move {
	out := []move{func(p *cases.Plan) {
		no := false
		p.Specimen = &cases.Specimen{Send: &no, Method: "none"}
	}}
	for _, method := range []string{"curettings", "shave", "saucerisation", "punch", "excision", "snip", "incision"} {
		out = append(out, func(p *cases.Plan) {
			p.Specimen = &cases.Specimen{Send: yes(), Method: method, Labels: yes(), ResultOwner: "me"}
			p.Record = with(p.Record, "specimen_labelled")
			p.Advice = with(p.Advice, "result_when_and_how")
		})
	}
	return out
}()

// dial is one number of a plan: its field, step and range in thousandths.
type dial struct {
	field         func(*cases.Plan) **cases.Milli
	step, low, up int64
}

var dials = map[string]dial{
	"power_w":                      {func(p *cases.Plan) **cases.Milli { return &p.PowerW }, 100, 100, 35000},
	"activation_s":                 {func(p *cases.Plan) **cases.Milli { return &p.ActivationS }, 50, 50, 30000},
	"cycles":                       {func(p *cases.Plan) **cases.Milli { return &p.Cycles }, 1000, 1000, 10000},
	"rim_mm":                       {func(p *cases.Plan) **cases.Milli { return &p.RimMM }, 500, 0, 20000},
	"margin_mm":                    {func(p *cases.Plan) **cases.Milli { return &p.MarginMM }, 1000, 0, 50000},
	"haemostasis.power_w":          {func(p *cases.Plan) **cases.Milli { return &bleeding(p).PowerW }, 100, 100, 35000},
	"haemostasis.activation_s":     {func(p *cases.Plan) **cases.Milli { return &bleeding(p).ActivationS }, 50, 50, 30000},
	"anaesthetic.needle_gauge":     {func(p *cases.Plan) **cases.Milli { return &numbing(p).NeedleGauge }, 1000, 18000, 34000},
	"anaesthetic.wait_min":         {func(p *cases.Plan) **cases.Milli { return &numbing(p).WaitMin }, 1000, 0, 120000},
	"anaesthetic.topical.amount_g": {func(p *cases.Plan) **cases.Milli { return &topical(p).AmountG }, 100, 0, 60000},
	"anaesthetic.topical.area_cm2": {func(p *cases.Plan) **cases.Milli { return &topical(p).AreaCM2 }, 1000, 0, 600000},
	"anaesthetic.topical.minutes":  {func(p *cases.Plan) **cases.Milli { return &topical(p).Minutes }, 1000, 0, 300000},
	"prep.dry_wait_s":              {func(p *cases.Plan) **cases.Milli { return &prepping(p).DryWaitS }, 1000, 0, 7200000},
	"evacuator_cm":                 {func(p *cases.Plan) **cases.Milli { return &p.EvacuatorCM }, 500, 0, 200000},
	"follow_up_days":               {func(p *cases.Plan) **cases.Milli { return &p.FollowUpDays }, 1000, 0, 730000},
	"referral.within_days":         {func(p *cases.Plan) **cases.Milli { return &referral(p).WithinDays }, 1000, 0, 365000},
}

// dialMoves sets the dial at, just under and just over each number that the
// row holds it against, and opens it.
func dialMoves(r asker, fact string, d dial) []move {
	var at []int64
	for _, n := range r.Numbers(fact) {
		n -= n % d.step
		for _, v := range []int64{n, n - d.step, n + d.step} {
			if v >= d.low && v <= d.up && !hasNumber(at, v) {
				at = append(at, v)
			}
		}
	}
	out := make([]move, 0, len(at)+1)
	for _, v := range at {
		out = append(out, func(p *cases.Plan) { m := cases.Milli(v); *d.field(p) = &m })
	}
	return append(out, func(p *cases.Plan) { *d.field(p) = nil })
}

func hasNumber(list []int64, n int64) bool {
	for _, v := range list {
		if v == n {
			return true
		}
	}
	return false
}

func flagField(fact string) func(*cases.Plan) **bool {
	switch fact {
	case "anaesthetic.buffered":
		return func(p *cases.Plan) **bool { return &numbing(p).Buffered }
	case "anaesthetic.warmed":
		return func(p *cases.Plan) **bool { return &numbing(p).Warmed }
	case "anaesthetic.slow":
		return func(p *cases.Plan) **bool { return &numbing(p).Slow }
	case "prep.dry_checked":
		return func(p *cases.Plan) **bool { return &prepping(p).DryChecked }
	case "specimen.labels":
		return func(p *cases.Plan) **bool { return &specimen(p).Labels }
	}
	return nil
}

// anaestheticMoves are whole anaesthetics: half of one decides nothing.
func anaestheticMoves(r asker) []move {
	out := []move{func(p *cases.Plan) { p.Anaesthetic = &cases.Anaesthetic{None: yes()} }}
	volumes := []int64{300, 500, 1000, 2000, 3000, 5000, 8000, 12000, 20000}
	for _, n := range r.Numbers("anaesthetic.volume_ml") {
		n -= n % 100
		volumes = append(volumes, n, n-100, n+100)
	}
	sort.Slice(volumes, func(i, j int) bool { return volumes[i] < volumes[j] })
	for _, agent := range []string{"lidocaine", "mepivacaine", "prilocaine", "procaine", "chloroprocaine"} {
		for _, ratio := range []string{"1:200000", ""} {
			for i, v := range volumes {
				if v < 100 || i > 0 && v == volumes[i-1] {
					continue
				}
				out = append(out, func(p *cases.Plan) { inject(p, agent, ratio, v) })
			}
		}
	}
	for _, agent := range cases.Vocab.IDs("topical_agent") {
		out = append(out, func(p *cases.Plan) {
			p.Anaesthetic = &cases.Anaesthetic{Topical: &cases.Topical{Agent: agent, AmountG: milli(2), AreaCM2: milli(10), Minutes: milli(60)}}
		})
	}
	return out
}

func inject(p *cases.Plan, agent, ratio string, volume int64) {
	percent, v := cases.Milli(1000), cases.Milli(volume)
	old := p.Anaesthetic
	a := &cases.Anaesthetic{
		Injected:    []cases.Injected{{Agent: agent, Percent: &percent, Adrenaline: ratio, VolumeML: &v}},
		NeedleGauge: milli(30), WaitMin: milli(5), Slow: yes(), Method: "wheal",
	}
	if old != nil && len(old.Injected) > 0 {
		a.NeedleGauge, a.WaitMin, a.Slow, a.Buffered, a.Warmed, a.Method = old.NeedleGauge, old.WaitMin, old.Slow, old.Buffered, old.Warmed, old.Method
	}
	p.Anaesthetic = a
}
