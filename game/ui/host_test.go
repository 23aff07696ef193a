package ui

import (
	"fmt"
	"reflect"
	"sync"
	"testing"
	"testing/fstest"
)

// recorder shows a page and keeps every message but Resize.
type recorder struct {
	page  func(*recorder) Page
	got   []any
	wants bool
	focus string
	text  string
}

func (r *recorder) WantsText() bool { return r.wants }
func (r *recorder) View() Node      { return r.page(r) }
func (r *recorder) Update(msg any) {
	switch m := msg.(type) {
	case Resize:
		return
	case Focused:
		r.focus = m.ID
	case Edited:
		r.text = m.Text
	}
	r.got = append(r.got, msg)
}

// take gives the messages since the last call.
func (r *recorder) take() []any {
	got := r.got
	r.got = nil
	return got
}

func newSample(over bool) (*Host, *recorder) {
	r := &recorder{page: func(*recorder) Page { return samplePage(over) }}
	return NewHost(r), r
}

func expect(t *testing.T, r *recorder, what string, want ...any) {
	t.Helper()
	got := r.take()
	if len(got) == 0 && len(want) == 0 {
		return
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s sent %+v, want %+v", what, got, want)
	}
}

func TestFocusFollowsTheTree(t *testing.T) {
	h, r := newSample(false)
	want := []string{
		"tabs", "ask", "record", "disposition", "power", "smoke", "kit", "margin", "prep", "wait", "sure", "grade", "bench", "quiet",
		"contact", "wear", "search", "m1", "cases", "tabs",
	}
	for _, id := range want {
		h.KeyDown(Key{Name: "Tab"})
		expect(t, r, "Tab", Focused{id})
		h.Frame()
	}
	for i := len(want) - 2; i >= 0; i-- {
		h.KeyDown(Key{Name: "Tab", Shift: true})
		expect(t, r, "Shift+Tab", Focused{want[i]})
	}
}

func TestKeysOnControls(t *testing.T) {
	for _, tc := range []struct {
		focus, key string
		want       []any
	}{
		{"power", "Up", []any{Step{"power", 1}}},
		{"power", "Down", []any{Step{"power", -1}}},
		{"power", "PageUp", []any{Step{"power", 10}}},
		{"power", "Left", []any{Focused{"disposition"}}},
		{"power", "Right", []any{Focused{"smoke"}}},
		{"power", "Enter", []any{Activate{"power"}}},
		{"power", "Escape", []any{Key{Name: "Escape"}}},
		{"power", "F1", []any{Key{Name: "F1"}}},
		{"disposition", "Down", []any{Step{"disposition", 1}}},
		{"disposition", "Up", []any{Step{"disposition", -1}}},
		{"contact", "Down", []any{Choose{"contact", 2}}}, // over the one that is off
		{"contact", "Up", nil},
		{"contact", "Enter", []any{Activate{"contact"}}},
		{"wear", "Enter", []any{Choose{"wear", 0}}},
		{"cases", "Down", []any{Choose{"cases", 1}}},
		{"cases", "Enter", []any{Activate{"cases"}}},
		{"sure", "Right", []any{Step{"sure", 1}}},
		{"sure", "PageDown", []any{Step{"sure", -10}}},
		{"sure", "Home", []any{SetFraction{"sure", 0}}},
		{"grade", "Enter", []any{Activate{"grade"}}},
		{"m1", "Enter", []any{Activate{"m1"}}},
		{"tabs", "Enter", []any{Choose{"tabs", 1}}},
		{"ask", "Enter", []any{Activate{"ask"}}},
	} {
		t.Run(tc.focus+" "+tc.key, func(t *testing.T) {
			h, r := newSample(false)
			h.SetSize(1280, 4000) // nothing to scroll in between
			h.setFocus(tc.focus)
			h.Frame()
			r.take()
			h.KeyDown(Key{Name: tc.key})
			expect(t, r, tc.key, tc.want...)
		})
	}
}

func TestTabsAndTicksHaveACursor(t *testing.T) {
	h, r := newSample(false)
	h.setFocus("tabs")
	h.Frame()
	r.take()
	h.KeyDown(Key{Name: "Left"})
	expect(t, r, "Left")
	h.Type(" ")
	expect(t, r, "Space", Choose{"tabs", 0})
	h.setFocus("wear")
	h.Frame()
	r.take()
	h.KeyDown(Key{Name: "Down"})
	h.KeyDown(Key{Name: "Down"})
	h.KeyDown(Key{Name: "Down"})
	h.Type(" ")
	expect(t, r, "Down three times and Space", Choose{"wear", 2})
}

// An editor in the margin is worked through its phrase.
func TestEditorBelongsToItsPhrase(t *testing.T) {
	ticks := Ticks{ID: "kit.ticks", For: "kit", Items: []ChoiceItem{{Label: "gloves"}, {Label: "mask"}}}
	dial := Dial{ID: "power.dial", For: "power", Figure: "7.0", At: 0.5}
	r := &recorder{page: func(*recorder) Page {
		return Page{Body: Column{Children: []Node{
			Note{Spans: []Span{Phrase{ID: "kit", Text: "gloves", Steps: StepList}, Words{Text: " "}, Phrase{ID: "power", Text: "7 W"}}}, ticks, dial,
		}}}
	}}
	h := NewHost(r)
	h.KeyDown(Key{Name: "Tab"})
	expect(t, r, "Tab", Focused{"kit"})
	h.KeyDown(Key{Name: "Down"})
	expect(t, r, "Down")
	h.Type(" ")
	expect(t, r, "Space", Choose{"kit.ticks", 1})
	h.KeyDown(Key{Name: "Enter"})
	expect(t, r, "Enter", Activate{"kit"})
	h.KeyDown(Key{Name: "Tab"})
	expect(t, r, "Tab", Focused{"power"})
	r.wants = true
	h.Type("4")
	h.KeyDown(Key{Name: "Backspace"})
	expect(t, r, "typing", TextInput{"power", "4"}, Key{Name: "Backspace"})
	// A click on the dial's track keeps the focus on the phrase.
	hit := hitOf(t, h, "power.dial", -1)
	h.setFocus("kit")
	h.Frame()
	r.take()
	h.Press(hit.Track.X+hit.Track.W/4, hit.Track.Y+1)
	h.Move(hit.Track.X+hit.Track.W, hit.Track.Y+40)
	h.Release(hit.Track.X+hit.Track.W, hit.Track.Y+40)
	expect(t, r, "a drag", Focused{"power"}, SetFraction{"power.dial", 0.25}, SetFraction{"power.dial", 1})
}

func hitOf(t *testing.T, h *Host, id string, part int) Hit {
	t.Helper()
	for _, hit := range h.Frame().Hits {
		if hit.ID == id && hit.Part == part {
			return hit
		}
	}
	t.Fatalf("nothing answers for %q part %d", id, part)
	return Hit{}
}

func click(t *testing.T, h *Host, id string, part int) {
	t.Helper()
	r := hitOf(t, h, id, part).Rect
	h.Click(r.X+r.W/2, r.Y+r.H/2)
}

func TestClicks(t *testing.T) {
	h, r := newSample(false)
	h.SetSize(1280, 4000)
	for _, tc := range []struct {
		id   string
		part int
		want []any
	}{
		{"power", -1, []any{Focused{"power"}, Activate{"power"}}},
		{"grade", -1, []any{Focused{"grade"}, Activate{"grade"}}},
		{"contact", 2, []any{Focused{"contact"}, Choose{"contact", 2}}},
		{"wear", 1, []any{Focused{"wear"}, Choose{"wear", 1}}},
		{"tabs", 3, []any{Focused{"tabs"}, Choose{"tabs", 3}}},
		{"cases", 1, []any{Focused{"cases"}, Choose{"cases", 1}}},
		{"cases", 0, []any{Activate{"cases"}}},
		{"m1", -1, []any{Focused{"m1"}, Activate{"m1"}}},
	} {
		h.Frame()
		r.take()
		click(t, h, tc.id, tc.part)
		expect(t, r, fmt.Sprintf("a click on %s %d", tc.id, tc.part), tc.want...)
	}
	// Let go elsewhere, a button was not pressed.
	at := hitOf(t, h, "bench", -1).Rect
	r.take()
	h.Press(at.X+5, at.Y+5)
	h.Release(at.X+5, at.Y-300)
	expect(t, r, "pressing and sliding off", Focused{"bench"})
}

func TestWheel(t *testing.T) {
	h, r := newSample(false)
	p := hitOf(t, h, "power", -1).Rect
	h.Wheel(p.X+2, p.Y+10, 1)
	h.Wheel(p.X+2, p.Y+10, -2)
	expect(t, r, "the wheel on a number", Step{"power", 1}, Step{"power", -2})
	h.Wheel(p.X+2, p.Y+10, 0.4)
	h.Wheel(p.X+2, p.Y+10, 0.4)
	expect(t, r, "parts of a notch")
	h.Wheel(p.X+2, p.Y+10, 0.4)
	expect(t, r, "the rest of a notch", Step{"power", 1})
	d := hitOf(t, h, "disposition", -1).Rect
	h.Wheel(d.X+2, d.Y+10, -1)
	expect(t, r, "the wheel on a list", Step{"disposition", 1})
}

// Once the wheel scrolls, it does not change a phrase that glides under it.
func TestScrollingChangesNoPhrase(t *testing.T) {
	var rows []Node
	for i := range 60 {
		rows = append(rows, Text{Text: "above"}, Note{Spans: []Span{Phrase{ID: fmt.Sprint("p", i), Text: "a phrase that is long enough to lie under the pointer"}}})
	}
	r := &recorder{page: func(*recorder) Page { return Page{Body: Column{Children: rows}} }}
	h := NewHost(r)
	for y := 100.0; y < 200; y++ { // a place with nothing under it
		if _, ok := h.Frame().At(60, y); !ok {
			h.Move(60, y)
			for range 10 {
				h.Wheel(60, y, -1)
			}
			expect(t, r, "scrolling over phrases")
			if got := h.st.Scroll[PageScroll]; got != 10*wheelStep {
				t.Errorf("ten notches scrolled by %v, want %v", got, 10*wheelStep)
			}
			return
		}
	}
	t.Fatal("phrases lie so close that no place is free for the pointer")
}

func TestFocusComesIntoSight(t *testing.T) {
	h, _ := newSample(false)
	for _, scale := range []float64{1, 2} {
		h.SetLook(Light, scale, false)
		h.SetSize(960, 640)
		for range 25 {
			h.KeyDown(Key{Name: "Tab"})
			f := h.Frame()
			s := f.Stop(h.Focus())
			for in := s.Scroll; in != ""; {
				a := areaOf(f, in)
				if s.Rect.Y < a.View.Y-1 || s.Rect.H < a.View.H && s.Rect.Y+s.Rect.H > a.View.Y+a.View.H+1 {
					t.Errorf("at text size %v %q at %v is out of sight of %q %v", scale, s.ID, s.Rect, a.ID, a.View)
				}
				in = a.In
			}
		}
	}
}

func TestOverlayTakesTheKeyboard(t *testing.T) {
	open := false
	r := &recorder{}
	r.page = func(*recorder) Page { return samplePage(open) }
	h := NewHost(r)
	h.setFocus("power")
	h.Frame()
	open = true
	h.Tell(struct{}{})
	h.Frame()
	if h.Focus() != "close" {
		t.Errorf("with a dialog open the focus is on %q, want close", h.Focus())
	}
	h.KeyDown(Key{Name: "Tab"})
	if h.Focus() != "close" {
		t.Errorf("Tab left the dialog for %q", h.Focus())
	}
	open = false
	h.Tell(struct{}{})
	h.Frame()
	if h.Focus() != "power" {
		t.Errorf("after the dialog the focus is on %q, want power", h.Focus())
	}
}

func TestPageAsksForTheFocus(t *testing.T) {
	ask := "power"
	r := &recorder{}
	r.page = func(*recorder) Page {
		p := samplePage(false)
		p.Focus = ask
		return p
	}
	h := NewHost(r)
	h.Frame()
	expect(t, r, "the first view", Focused{"power"})
	h.KeyDown(Key{Name: "Tab"})
	expect(t, r, "Tab, though the page still names power", Focused{"smoke"})
	ask = "prep"
	h.Tell(struct{}{})
	h.Frame()
	if h.Focus() != "prep" {
		t.Errorf("the page asked for prep, the focus is on %q", h.Focus())
	}
}

// Nothing is drawn anew while nothing changes.
func TestVersionRisesOnlyWithTheDrawing(t *testing.T) {
	h, r := newSample(false)
	h.Frame()
	v := h.Version()
	h.Move(3, 3)
	h.Move(4, 700)
	h.KeyUp("a")
	h.Frame()
	if h.Version() != v {
		t.Error("moving over plain ground and an unknown key drew the page anew")
	}
	if h.Pending() {
		t.Error("after Frame something is pending")
	}
	p := hitOf(t, h, "grade", -1).Rect
	h.Move(p.X+3, p.Y+3)
	h.Frame()
	if h.Version() == v {
		t.Error("a button under the pointer looks as before")
	}
	h.Post("hello")
	if !h.Pending() {
		t.Error("a posted message is not pending")
	}
	r.take()
	h.Frame()
	expect(t, r, "Post", "hello")
}

func TestPostFromManyGoroutines(t *testing.T) {
	h, r := newSample(false)
	var woken sync.WaitGroup
	woken.Add(50)
	h.OnPost(woken.Done)
	for i := range 50 {
		go h.Post(i)
	}
	woken.Wait()
	h.Frame()
	if n := len(r.take()); n != 50 {
		t.Errorf("%d of 50 posted messages arrived", n)
	}
}

func TestDropBlurAndUnknownKeys(t *testing.T) {
	h, r := newSample(false)
	files := fstest.MapFS{"pack.json": {Data: []byte("{}")}}
	h.Drop("pack.json", files)
	h.Blur()
	h.Regain()
	h.KeyDown(Key{Name: "z", Ctrl: true})
	h.Type("é?")
	h.KeyUp("Space")
	expect(t, r, "drop, blur and keys", Drop{"pack.json", files}, FocusLost{}, FocusGained{}, Key{Name: "z", Ctrl: true}, Key{Name: "é"}, Key{Name: "?"}, KeyUp{"Space"})
}
