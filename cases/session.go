package cases

import (
	"bytes"
	"reflect"
)

// SessionFormat names the format of a session file.
const SessionFormat = "leastwatt.session/1"

// MostEvents is how many events a session may hold.
const MostEvents = 200000

// Session is one treatment on the bench: the case, the plan, and what the
// hand did, by the millisecond. It holds no outcome: replaying it gives that.
type Session struct {
	Format       string         `json:"format" jsonschema:"required"`                                  // leastwatt.session/1
	Case         string         `json:"case" jsonschema:"required"`                                    // pack-id/case-id
	Plan         *Plan          `json:"plan" jsonschema:"required"`                                    // what the trainee meant to do
	ModelVersion int            `json:"model_version" jsonschema:"required,minimum=1,maximum=1000000"` // of the tissue model that it was made with
	GridMM       Milli          `json:"grid_mm" jsonschema:"required,minimum=0.05,maximum=0.4"`        // edge of a voxel in mm
	Seed         int            `json:"seed" jsonschema:"minimum=0,maximum=1000000000"`                // of sparks and bleeding spots
	Assessed     *bool          `json:"assessed"`                                                      // true where nothing could be undone
	EndMS        *int           `json:"end_ms" jsonschema:"minimum=0,maximum=86400000"`                // when the session ended, in ms; absent means at its last event
	Events       []SessionEvent `json:"events" jsonschema:"required,maximum=200000"`                   // in the order of their ticks
}

func (*Session) knownFormat() string { return SessionFormat }

// SessionEvent is one thing the hand did at a tick. A key that is absent
// stays as it was; "act" is done once, with the tool that it needs.
type SessionEvent struct {
	Tick     int    `json:"tick" jsonschema:"required,minimum=0,maximum=86400000"`        // ms since the bench opened
	Tool     string `json:"tool" vocab:"bench_tool"`                                      // taken in the hand
	XMM      *Milli `json:"x_mm" jsonschema:"minimum=-100,maximum=100"`                   // from the middle of the lesion, in mm
	YMM      *Milli `json:"y_mm" jsonschema:"minimum=-100,maximum=100"`                   // from the middle of the lesion, in mm
	GapMM    *Milli `json:"gap_mm" jsonschema:"minimum=0,maximum=20,multipleOf=0.1"`      // from the tip to the tissue, in mm; 0 touches
	Pedal    *bool  `json:"pedal"`                                                        // true while it is down
	PowerW   *Milli `json:"power_w" jsonschema:"minimum=0.1,maximum=35,multipleOf=0.1"`   // dial setting in watts
	Tip      string `json:"electrode" vocab:"electrode"`                                  // the tip in the handpiece
	Output   string `json:"output" vocab:"output"`                                        // outlet of the unit
	Contact  string `json:"contact" vocab:"contact"`                                      // touching, or a small gap for sparks
	Act      string `json:"act" vocab:"bench_act"`                                        // done once
	RadiusMM *Milli `json:"radius_mm" jsonschema:"minimum=0.5,maximum=30,multipleOf=0.1"` // of what the act covers, in mm
	DepthMM  *Milli `json:"depth_mm" jsonschema:"minimum=-50,maximum=3,multipleOf=0.1"`   // of a cut below the skin in mm; negative is above it
	VolumeML *Milli `json:"volume_ml" jsonschema:"minimum=0.1,maximum=50,multipleOf=0.1"` // injected, in mL
	Fast     *bool  `json:"fast"`                                                         // injected fast, not slowly
	WaitS    *Milli `json:"wait_s" jsonschema:"minimum=1,maximum=7200,multipleOf=1"`      // waited, in seconds
}

// ReadSession reads a session file, or returns [Faults].
func ReadSession(file string, data []byte) (*Session, error) {
	tree, faults := ReadJSON(file, data)
	if tree == nil {
		return nil, faults
	}
	s := &Sheet{File: file, Faults: faults}
	out := &Session{}
	Decode(s, tree, out)
	checkSession(s, tree, out)
	if len(s.Faults) > 0 {
		s.Faults.Sort()
		return nil, s.Faults
	}
	return out, nil
}

func checkSession(s *Sheet, tree *Value, out *Session) {
	if v := tree.Get("format"); v != nil && out.Format != "" && out.Format != SessionFormat {
		s.Errorf(v, "\"format\" is %q; this reads %q", short(out.Format), SessionFormat)
	}
	if v := tree.Get("case"); v != nil && v.Kind == String && out.Case != "" && !caseIDForm.MatchString(out.Case) {
		s.Errorf(v, "\"case\" must be pack-id/case-id, not %q", short(out.Case))
	}
	if plan := tree.Get("plan"); plan != nil && out.Plan != nil {
		checkPlan(s, plan, out.Plan)
		if out.Plan.Case != "" && out.Case != "" && out.Plan.Case != out.Case {
			s.Errorf(plan.Get("case"), "the plan is for %q, the session for %q; they must agree", short(out.Plan.Case), short(out.Case))
		}
	}
	events, last := tree.Get("events"), 0
	for i := range out.Events {
		if s.Full() {
			return
		}
		e := &out.Events[i]
		if e.Tick < last {
			s.Errorf(events.At(i).Get("tick"), "\"events[%d].tick\" is %d, before the event above it at %d; ticks never fall", i, e.Tick, last)
		}
		last = max(last, e.Tick)
	}
	if v := tree.Get("end_ms"); v != nil && out.EndMS != nil && *out.EndMS < last {
		s.Errorf(v, "\"end_ms\" is %d, before the last event at %d", *out.EndMS, last)
	}
}

// JSON writes the session as a file, one event a line.
func (s *Session) JSON() []byte {
	head := *s
	head.Events = nil
	b := appendCanonical(nil, reflect.ValueOf(head), true)
	b = append(bytes.TrimSuffix(b, []byte("}")), `,"events":[`...)
	for i := range s.Events {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, '\n')
		b = appendCanonical(b, reflect.ValueOf(s.Events[i]), true)
	}
	return append(b, "\n]}\n"...)
}
