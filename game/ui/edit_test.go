package ui

import (
	"testing"

	"pgregory.net/rapid"
)

func newField() (*Host, *recorder) {
	r := &recorder{}
	r.page = func(r *recorder) Page {
		return Page{Body: Column{Children: []Node{Field{ID: "f", Name: "Search", Text: r.text}, Button{ID: "b", Label: "Go"}}}}
	}
	h := NewHost(r)
	h.KeyDown(Key{Name: "Tab"})
	r.take()
	return h, r
}

func TestEditingAField(t *testing.T) {
	h, r := newField()
	clip := ""
	h.Copy, h.Paste = func(s string) { clip = s }, func() string { return clip }
	key := func(name string, mods ...string) {
		k := Key{Name: name}
		for _, m := range mods {
			k.Ctrl, k.Shift = k.Ctrl || m == "ctrl", k.Shift || m == "shift"
		}
		h.KeyDown(k)
		h.Frame()
	}
	for _, step := range []struct {
		what string
		do   func()
		want string
	}{
		{"typing", func() {
			for _, c := range "wet alcohol" {
				h.Type(string(c))
				h.Frame()
			}
		}, "wet alcohol"},
		{"backspace", func() { key("Backspace") }, "wet alcoho"},
		{"home and delete", func() { key("Home"); key("Delete") }, "et alcoho"},
		{"typing at the caret", func() { h.Type("W") }, "Wet alcoho"},
		{"word right and typing", func() { key("Right", "ctrl"); h.Type("ter") }, "Wetter alcoho"},
		{"select to the end and replace", func() { key("End", "shift"); h.Type("!") }, "Wetter!"},
		{"select all, cut", func() { key("a", "ctrl"); key("x", "ctrl") }, ""},
		{"paste twice", func() { key("v", "ctrl"); key("v", "ctrl") }, "Wetter!Wetter!"},
		{"word back", func() { key("Backspace", "ctrl") }, ""},
		{"line ends become spaces", func() { clip = "a\nb\x00c"; key("v", "ctrl") }, "a bc"},
	} {
		step.do()
		h.Frame()
		if r.text != step.want {
			t.Fatalf("%s gave %q, want %q", step.what, r.text, step.want)
		}
	}
	r.take()
	h.KeyDown(Key{Name: "Enter"})
	h.KeyDown(Key{Name: "Escape"})
	h.KeyDown(Key{Name: "z", Ctrl: true})
	expect(t, r, "keys that edit nothing", Activate{"f"}, Key{Name: "Escape"}, Key{Name: "z", Ctrl: true})
}

// The caret goes where the pointer is: a click in the middle of a letter's left
// half puts it in front of that letter.
func TestPointerSetsTheCaret(t *testing.T) {
	h, r := newField()
	r.text = "minimum"
	h.Tell(struct{}{})
	hit := hitOf(t, h, "f", -1)
	s := style{font: Sans, size: 15}
	for i, want := range []string{"Xminimum", "mXinimum", "miXnimum"} {
		r.text = "minimum"
		h.Tell(struct{}{})
		x := hit.Track.X + s.width("minimum"[:i]) + 1
		h.Click(x, hit.Rect.Y+hit.Rect.H/2)
		h.Type("X")
		if r.text != want {
			t.Errorf("a click before letter %d and typing gave %q, want %q", i, r.text, want)
		}
	}
}

// Any row of editing keys leaves the caret inside the text and never panics,
// also when the screen changes the text itself.
func TestCaretStaysInside(t *testing.T) {
	names := []string{"Left", "Right", "Home", "End", "Backspace", "Delete"}
	rapid.Check(t, func(t *rapid.T) {
		h, r := newField()
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				h.Type(rapid.SampledFrom([]string{"a", " ", "é", "w w"}).Draw(t, "text"))
			case 1:
				r.text = rapid.SampledFrom([]string{"", "x", "longer text"}).Draw(t, "other")
				h.Tell(struct{}{})
			default:
				h.KeyDown(Key{Name: rapid.SampledFrom(names).Draw(t, "key"), Ctrl: rapid.Bool().Draw(t, "ctrl"), Shift: rapid.Bool().Draw(t, "shift")})
			}
			h.Frame()
			if n := len([]rune(r.text)); h.st.Caret < 0 || h.st.Caret > n || h.st.Anchor < 0 || h.st.Anchor > n {
				t.Fatalf("the caret is at %d and %d in a text of %d", h.st.Caret, h.st.Anchor, n)
			}
		}
	})
}
