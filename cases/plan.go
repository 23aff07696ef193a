package cases

import "reflect"

// PlanFormat names the format of a plan file.
const PlanFormat = "leastwatt.plan/1"

// Plan is what the trainee will do, one field a phrase of the note. A nil
// pointer, a nil list or an empty text is an open phrase.
type Plan struct {
	Format       string       `json:"format" jsonschema:"required"`                                      // leastwatt.plan/1
	Case         string       `json:"case" jsonschema:"required"`                                        // pack-id/case-id
	Asked        []string     `json:"asked" vocab:"topic"`                                               // topics asked and examinations made
	Disposition  string       `json:"disposition" vocab:"disposition"`                                   // the decision
	Technique    string       `json:"technique" vocab:"technique"`                                       // how the lesion is destroyed or taken
	Electrode    string       `json:"electrode" vocab:"electrode"`                                       // of the destroying part
	Output       string       `json:"output" vocab:"output"`                                             // of the destroying part
	Contact      string       `json:"contact" vocab:"contact"`                                           // touching, or a small gap for sparks
	PowerW       *Milli       `json:"power_w" jsonschema:"minimum=0.1,maximum=35,multipleOf=0.1"`        // dial setting in watts
	ActivationS  *Milli       `json:"activation_s" jsonschema:"minimum=0.05,maximum=30,multipleOf=0.05"` // longest unbroken pedal time in seconds
	Cycles       *Milli       `json:"cycles" jsonschema:"minimum=1,maximum=10,multipleOf=1"`             // rounds of the whole sequence
	RimMM        *Milli       `json:"rim_mm" jsonschema:"minimum=0,maximum=20,multipleOf=0.5"`           // treated beyond the visible or curetted edge
	MarginMM     *Milli       `json:"margin_mm" jsonschema:"minimum=0,maximum=50,multipleOf=0.1"`        // excision only
	Haemostasis  *Haemostasis `json:"haemostasis"`                                                       // absent means pressure
	Anaesthetic  *Anaesthetic `json:"anaesthetic"`                                                       // an empty object decides nothing
	Prep         *Prep        `json:"prep"`                                                              // how the skin is cleaned
	Protection   []string     `json:"protection" vocab:"protection"`                                     // empty means none
	EvacuatorCM  *Milli       `json:"evacuator_cm" jsonschema:"minimum=0,maximum=200,multipleOf=0.1"`    // from the smoke evacuator to the spark, in cm
	Record       []string     `json:"record" vocab:"record"`                                             // what is noted or marked before
	Specimen     *Specimen    `json:"specimen"`                                                          // what goes to the pathologist
	BloodThinner string       `json:"blood_thinner" vocab:"blood_thinner"`                               // what is done about a blood thinner
	Prescribe    []string     `json:"prescribe" vocab:"prescribe"`                                       // empty means nothing
	FollowUpDays *Milli       `json:"follow_up_days" jsonschema:"minimum=0,maximum=730,multipleOf=1"`    // days until the patient is seen again
	Referral     *Referral    `json:"referral"`
	OtherCare    string       `json:"other_care" vocab:"other_care"`               // when the lesion is left
	Advice       []string     `json:"advice" vocab:"advice"`                       // what the patient is told
	Confidence   *Milli       `json:"confidence" jsonschema:"minimum=0,maximum=1"` // chance that the verdict will be safe
}

func (*Plan) knownFormat() string { return PlanFormat }

// Haemostasis is how bleeding is stopped; absent means pressure. Current used
// here has its own fields, apart from the destroying part's.
type Haemostasis struct {
	Method      string `json:"method" vocab:"haemostasis"`
	Output      string `json:"output" vocab:"output"`
	Contact     string `json:"contact" vocab:"contact"`
	Electrode   string `json:"electrode" vocab:"electrode"`
	PowerW      *Milli `json:"power_w" jsonschema:"minimum=0.1,maximum=35,multipleOf=0.1"`        // dial setting in watts
	ActivationS *Milli `json:"activation_s" jsonschema:"minimum=0.05,maximum=30,multipleOf=0.05"` // longest unbroken pedal time in seconds
}

// Anaesthetic is None, or what is injected and how, or a surface agent, or
// both of the latter.
type Anaesthetic struct {
	None        *bool      `json:"none"`                                          // true means no anaesthetic
	Injected    []Injected `json:"injected" single:"true" jsonschema:"maximum=8"` // one object stands for a list of one
	NeedleGauge *Milli     `json:"needle_gauge" jsonschema:"minimum=18,maximum=34,multipleOf=1"`
	Method      string     `json:"method" vocab:"injection_method"`
	WaitMin     *Milli     `json:"wait_min" jsonschema:"minimum=0,maximum=120,multipleOf=1"` // minutes from injection to the first cut
	Buffered    *bool      `json:"buffered"`                                                 // with bicarbonate
	Warmed      *bool      `json:"warmed"`                                                   // to body heat
	Slow        *bool      `json:"slow"`                                                     // injected slowly
	Topical     *Topical   `json:"topical"`
}

// Injected is one agent and the visit's total volume of it.
type Injected struct {
	Agent      string `json:"agent" vocab:"agent"`
	Percent    *Milli `json:"percent" jsonschema:"minimum=0.05,maximum=10"`                // strength in percent
	Adrenaline string `json:"adrenaline"`                                                  // like 1:200000; absent means plain
	VolumeML   *Milli `json:"volume_ml" jsonschema:"minimum=0,maximum=200,multipleOf=0.1"` // the visit's total in mL
}

// Topical is a surface agent.
type Topical struct {
	Agent   string `json:"agent" vocab:"topical_agent"`
	AmountG *Milli `json:"amount_g" jsonschema:"minimum=0,maximum=60,multipleOf=0.1"`  // grams
	AreaCM2 *Milli `json:"area_cm2" jsonschema:"minimum=0,maximum=600,multipleOf=0.1"` // covered skin in square cm
	Minutes *Milli `json:"minutes" jsonschema:"minimum=0,maximum=300,multipleOf=1"`    // minutes on the skin
}

// Prep is how the skin is cleaned and how its drying is made sure.
type Prep struct {
	Agent      string `json:"agent" vocab:"prep"`
	DryWaitS   *Milli `json:"dry_wait_s" jsonschema:"minimum=0,maximum=7200,multipleOf=1"` // seconds of drying before any current
	DryChecked *bool  `json:"dry_checked"`                                                 // looked and felt that it is dry
}

// Specimen is what goes to the pathologist.
type Specimen struct {
	Send        *bool  `json:"send"`                              // whether tissue is sent
	Method      string `json:"method" vocab:"specimen_method"`    // how it is taken
	Labels      *bool  `json:"labels"`                            // every pot carries site and side
	ResultOwner string `json:"result_owner" vocab:"result_owner"` // who follows up the result
}

// Referral is to whom, and how soon.
type Referral struct {
	To         string `json:"to" vocab:"referral"`
	WithinDays *Milli `json:"within_days" jsonschema:"minimum=0,maximum=365,multipleOf=1"` // days
}

// ReadPlan reads a plan file, or returns [Faults].
func ReadPlan(file string, data []byte) (*Plan, error) {
	tree, faults := ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &Sheet{File: file, Faults: faults}
	p := &Plan{}
	Decode(s, tree, p)
	checkPlan(s, tree, p)
	if len(s.Faults) > 0 {
		s.Faults.Sort()
		return nil, s.Faults
	}
	return p, nil
}

func checkPlan(s *Sheet, tree *Value, p *Plan) {
	if v := tree.Get("format"); v != nil && p.Format != "" && p.Format != PlanFormat {
		s.Errorf(v, "\"format\" is %q; this reads %q", short(p.Format), PlanFormat)
	}
	if v := tree.Get("case"); v != nil && v.Kind == String && p.Case != "" && !caseIDForm.MatchString(p.Case) {
		s.Errorf(v, "\"case\" must be pack-id/case-id, not %q", short(p.Case))
	}
	a := p.Anaesthetic
	if a == nil {
		return
	}
	injected := tree.Get("anaesthetic").Get("injected")
	for i, in := range a.Injected {
		v := injected.At(i).Get("adrenaline") // At stays put where one object stands for a list of one
		if v == nil || v.Kind != String {
			continue
		}
		if _, err := ParseRatio(in.Adrenaline); err != nil {
			s.Errorf(v, "\"anaesthetic.injected[%d].adrenaline\" is %q; %v", i, short(in.Adrenaline), err)
		}
	}
	if a.None != nil && *a.None && (len(a.Injected) > 0 || a.Topical != nil) {
		s.Errorf(tree.At("anaesthetic", "none"), "\"anaesthetic.none\" is true, yet an agent stands beside it; keep one")
	}
}

// DecidedKeys lists the keys of a plan that are decided, less format, case,
// disposition and confidence, which no decision ignores.
func DecidedKeys(p *Plan) []string {
	var keys []string
	v := reflect.ValueOf(p).Elem()
	for i, key := range planKeys {
		if key != "" && !isOpen(v.Field(i)) {
			keys = append(keys, key)
		}
	}
	return keys
}

// planKeys is the key of each field of a plan that a decision may ignore.
var planKeys = func() []string {
	t := reflect.TypeFor[Plan]()
	keys := make([]string, t.NumField())
	for i := range keys {
		switch key := keyOf(t.Field(i)); key {
		case "format", "case", "disposition", "confidence":
		default:
			keys[i] = key
		}
	}
	return keys
}()
