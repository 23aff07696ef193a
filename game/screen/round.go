package screen

import (
	"strconv"

	"leastwatt/cases"
)

// RoundSeconds is the time for one picture of a short round.
const RoundSeconds = 60

// Round is a short round: look-alikes one after another, each with the
// patient's words and card, and two things to decide: what to do, and whether
// tissue is sent. Nothing can be asked, so nothing else is graded.
type Round struct {
	Items []Glance
	At    int  // the picture in hand; len(Items) once the round is over
	Timed bool // RoundSeconds for each picture
}

// Glance is one picture of a round and what was decided at it.
type Glance struct {
	entry
	Disposition string // "" not decided
	Send        *bool  // tissue to the pathologist; asked only of treat
	Lens        bool   // looked at through a lens
	LeftS       int    // seconds left
	TimeUp      bool   // the time was over before all was decided
}

// Now is the picture in hand, nil when the round is over.
func (r *Round) Now() *Glance {
	if r.Over() {
		return nil
	}
	return &r.Items[r.At]
}

// Over tells whether every picture was decided or its time used up.
func (r *Round) Over() bool { return r.At >= len(r.Items) }

// Decide takes a decision on the picture in hand. Treating asks one thing
// more: whether tissue is sent. A biopsy is sent by its nature, and the other
// decisions take no tissue.
func (r *Round) Decide(disposition string) {
	g := r.Now()
	if g == nil || g.Disposition != "" || !cases.Vocab.Has("disposition", disposition) {
		return
	}
	g.Disposition = disposition
	if !g.AsksTissue() {
		r.At++
	}
}

// Send decides about the tissue of a lesion that is treated.
func (r *Round) Send(send bool) {
	if g := r.Now(); g != nil && g.AsksTissue() && g.Send == nil {
		g.Send = &send
		r.At++
	}
}

// Skip leaves the picture in hand as it is: what is open stays not decided.
func (r *Round) Skip() {
	if !r.Over() {
		r.At++
	}
}

// Tick takes a second from the picture in hand. When none is left, the next
// picture comes and what is open stays not decided.
func (r *Round) Tick() {
	g := r.Now()
	if g == nil || !r.Timed {
		return
	}
	if g.LeftS--; g.LeftS <= 0 {
		g.LeftS, g.TimeUp = 0, true
		r.At++
	}
}

// Undo takes the last decision back, and goes to its picture. A picture whose
// time is over stays as it was, and so does a round that is over: by then each
// picture has been named.
func (r *Round) Undo() bool {
	if r.Over() {
		return false
	}
	if g := r.Now(); g.Disposition != "" {
		g.Disposition = ""
		return true
	}
	if r.At == 0 || r.Items[r.At-1].TimeUp {
		return false
	}
	r.At--
	g := r.Now()
	if g.Send != nil {
		g.Send = nil
		return true
	}
	g.Disposition = ""
	return true
}

// AsksTissue tells whether the decision leaves open if tissue is sent.
func (g *Glance) AsksTissue() bool { return g.Disposition == "treat" }

// Decided tells whether all that was asked is decided.
func (g *Glance) Decided() bool {
	return g.Disposition != "" && (!g.AsksTissue() || g.Send != nil)
}

// plan is what was decided, as a plan with those phrases and no other.
func (g *Glance) plan() *cases.Plan {
	p := &cases.Plan{Format: cases.PlanFormat, Case: g.ref, Disposition: g.Disposition}
	if g.AsksTissue() && g.Send != nil {
		p.Specimen = &cases.Specimen{Send: g.Send}
	}
	return p
}

// Choice says what was decided: "treat, tissue sent".
func (g *Glance) Choice(words cases.Words) string {
	if g.Disposition == "" {
		return "not decided"
	}
	text := cases.Vocab.Label("disposition", g.Disposition, words)
	switch {
	case !g.AsksTissue():
	case g.Send == nil:
		text += ", tissue not decided"
	case *g.Send:
		text += ", tissue sent"
	default:
		text += ", nothing sent"
	}
	return text
}

// Case is the picture's case.
func (g *Glance) Case() *cases.Case { return g.c }

// Ref is the case's name, pack-id/case-id.
func (g *Glance) Ref() string { return g.ref }

// Touch is how the lesion feels, which no picture shows.
func (g *Glance) Touch(words cases.Words) string {
	return cases.AnswerFor(g.c, "feel", words).Text
}

// Closer is what a lens shows, in words.
func (g *Glance) Closer(words cases.Words) string {
	return cases.AnswerFor(g.c, "magnify", words).Text
}

// Place says which picture is in hand: "picture 3 of 10".
func (r *Round) Place() string {
	return "picture " + strconv.Itoa(min(r.At+1, len(r.Items))) + " of " + strconv.Itoa(len(r.Items))
}
