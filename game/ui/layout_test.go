package ui

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

const slack = 0.51 // px, for rounding

// checkFrame tells what is wrong with a layout: siblings that overlap, children
// outside their parent, text outside what is shown.
func checkFrame(f *Frame) error {
	for i, p := range f.Placed {
		if p.Rect.W < -slack || p.Rect.H < -slack || math.IsNaN(p.Rect.X+p.Rect.Y+p.Rect.W+p.Rect.H) {
			return fmt.Errorf("%s %q has the size %v", p.Kind, p.ID, p.Rect)
		}
		if p.Parent >= 0 {
			if err := inside(p, f.Placed[p.Parent]); err != nil {
				return err
			}
		}
		for _, q := range f.Placed[:i] {
			if q.Parent == p.Parent && q.Layer == p.Layer && !underneath(f, p, q) {
				if o := p.Rect.Outset(-slack).Intersect(q.Rect.Outset(-slack)); !o.Empty() {
					return fmt.Errorf("%s %q %v overlaps %s %q %v", p.Kind, p.ID, p.Rect, q.Kind, q.ID, q.Rect)
				}
			}
		}
	}
	return nil
}

// underneath: the body of a page and the content of a scroll run on under the
// lines above and below them, clipped.
func underneath(f *Frame, p, q Placed) bool {
	return p.Parent >= 0 && (f.Placed[p.Parent].Kind == "Page" || f.Placed[p.Parent].Kind == "Scroll")
}

func inside(p, parent Placed) error {
	if parent.Rect.W < 16 || parent.Rect.W < 120 && parent.Kind != "Column" && parent.Kind != "Row" {
		return nil // narrower than its padding, or than a sign and a letter at the largest text size
	}
	in := parent.Rect.Outset(slack)
	if p.Rect.X < in.X || p.Rect.X+p.Rect.W > in.X+in.W {
		return fmt.Errorf("%s %q %v sticks out sideways of %s %q %v", p.Kind, p.ID, p.Rect, parent.Kind, parent.ID, parent.Rect)
	}
	if parent.Kind == "Scroll" || parent.Kind == "Page" {
		return nil
	}
	if p.Rect.Y < in.Y || p.Rect.Y+p.Rect.H > in.Y+in.H {
		return fmt.Errorf("%s %q %v sticks out of %s %q %v", p.Kind, p.ID, p.Rect, parent.Kind, parent.ID, parent.Rect)
	}
	return nil
}

// textShown checks that no text is cut off sideways.
func textShown(f *Frame) error {
	clip := Rect{0, 0, f.Size.W, f.Size.H}
	for _, op := range f.Ops {
		switch op := op.(type) {
		case Clip:
			clip = op.Rect
		case TextRun:
			if clip.Empty() {
				continue
			}
			if op.X < clip.X-slack || op.X+op.W > clip.X+clip.W+slack {
				return fmt.Errorf("%q from %.1f to %.1f is cut off at %.1f to %.1f", op.Text, op.X, op.X+op.W, clip.X, clip.X+clip.W)
			}
		}
	}
	return nil
}

func TestEveryWindowFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := Size{float64(rapid.IntRange(960, 2600).Draw(t, "w")), float64(rapid.IntRange(640, 1600).Draw(t, "h"))}
		st := State{
			TextScale: rapid.SampledFrom([]float64{1, 1.1, 1.25, 1.5, 1.75, 2}).Draw(t, "scale"), Touch: rapid.Bool().Draw(t, "touch"), FocusOn: true,
			Focus:  rapid.SampledFrom([]string{"", "power", "kit", "search", "cases", "wear"}).Draw(t, "focus"),
			Scroll: map[string]float64{PageScroll: float64(rapid.IntRange(0, 2000).Draw(t, "scroll"))},
		}
		f := Layout(samplePage(rapid.Bool().Draw(t, "over")), size, st)
		if err := checkFrame(f); err != nil {
			t.Fatal(err)
		}
		if err := textShown(f); err != nil {
			t.Fatal(err)
		}
	})
}

// anyNode draws a random tree.
func anyNode(t *rapid.T, depth int) Node {
	text := func() string {
		return rapid.SampledFrom([]string{"", "touching", "the least power that does the job", "a/very/long/path/that/has/no/space/in/it/pack.json:41:9", "7.0\u2009W for 2.0\u2009s"}).Draw(t, "text")
	}
	kind := rapid.IntRange(0, 11).Draw(t, "kind")
	if depth == 0 && kind < 5 {
		kind += 5
	}
	kids := func() []Node {
		var out []Node
		for range rapid.IntRange(0, 4).Draw(t, "count") {
			out = append(out, anyNode(t, depth-1))
		}
		return out
	}
	align := func() Align { return Align(rapid.IntRange(0, 4).Draw(t, "align")) }
	switch kind {
	case 0:
		return Column{Children: kids(), Gap: 8, Pad: PadAll(4), Align: align()}
	case 1:
		return Row{Children: kids(), Gap: 8, Pad: PadXY(6, 2), Align: align(), Wrap: rapid.Bool().Draw(t, "wrap"), LineGap: 4}
	case 2:
		return Sheet{Child: anyNode(t, depth-1), Pad: PadAll(16)}
	case 3:
		return Box{Child: anyNode(t, depth-1), Grow: float64(rapid.IntRange(0, 2).Draw(t, "grow")), Width: float64(rapid.SampledFrom([]int{0, 0, 120}).Draw(t, "width")), Align: align(), MaxW: float64(rapid.SampledFrom([]int{0, 90}).Draw(t, "max"))}
	case 4:
		return Scroll{ID: "s", Child: anyNode(t, depth-1)}
	case 5:
		return Text{Text: text(), Role: Role(rapid.IntRange(0, int(Unit)).Draw(t, "role")), NoWrap: rapid.Bool().Draw(t, "nowrap")}
	case 6:
		return Note{Role: NoteRole, Spans: []Span{Words{Text: text() + " "}, Phrase{ID: "p", Text: text(), Number: rapid.IntRange(0, 3).Draw(t, "n"), Aside: text()}, Words{Text: ". "}, Cap{"Tab"}}}
	case 7:
		return Button{ID: "b", Label: text(), Hint: rapid.SampledFrom([]string{"", "K"}).Draw(t, "hint")}
	case 8:
		return Spacer{}
	case 9:
		return Ticks{ID: "t", Columns: 2, Items: []ChoiceItem{{Label: text(), Says: text()}, {Label: text(), Hint: "T"}}}
	case 10:
		return MarginMark{ID: "m", Mark: MarkCaution, Heading: text(), Text: text(), Source: text()}
	}
	return Rule{}
}

func TestNothingOverlapsInAnyTree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNode(t, 3)
		w := float64(rapid.IntRange(200, 1400).Draw(t, "w"))
		st := State{TextScale: rapid.SampledFrom([]float64{1, 1.5, 2}).Draw(t, "scale")}
		// As high as the tree needs, which is what a page gives its body.
		c := &canvas{theme: Light, scale: st.TextScale, st: st, frame: &Frame{}, parent: -1}
		_, h := n.heights(c, w)
		if err := checkFrame(Layout(n, Size{w, math.Max(1, h)}, st)); err != nil {
			t.Fatal(err)
		}
	})
}

// The height asked for at a width is the height that is used: a column of two
// notes has the second begin where the first ends.
func TestTextHeightGrowsWithNarrowWidth(t *testing.T) {
	n := Text{Text: "Start low and step up until it works; you can change it at the bench."}
	c := &canvas{theme: Light, scale: 1, frame: &Frame{}}
	_, wide := n.heights(c, 700)
	_, narrow := n.heights(c, 200)
	if wide != 24 || narrow != 72 {
		t.Errorf("heights at 700 and 200 px are %v and %v, want 24 and 72", wide, narrow)
	}
}

func TestSplitPutsTheMarginBelow(t *testing.T) {
	split := Split{Left: Text{Text: "left"}, Main: Text{Text: "main"}, Margin: Text{Text: "margin"}, LeftW: 232, MarginW: 292}
	where := func(size Size, scale float64) (left, main, margin Rect) {
		f := Layout(Page{Body: split}, size, State{TextScale: scale})
		for _, op := range f.Ops {
			if run, ok := op.(TextRun); ok {
				r := Rect{run.X, run.Y, run.W, 1}
				switch run.Text {
				case "left":
					left = r
				case "main":
					main = r
				case "margin":
					margin = r
				}
			}
		}
		return
	}
	for _, tc := range []struct {
		name              string
		size              Size
		scale             float64
		leftUp, marginLow bool
	}{
		{"three columns", Size{1280, 800}, 1, false, false},
		{"narrow window", Size{960, 640}, 1, false, true},
		{"large text", Size{1280, 800}, 2, true, true},
		{"large text, wide window", Size{2600, 1600}, 2, false, false},
	} {
		l, m, g := where(tc.size, tc.scale)
		if (l.Y < m.Y) != tc.leftUp || (g.Y > m.Y) != tc.marginLow {
			t.Errorf("%s: left at %v, main at %v, margin at %v", tc.name, l, m, g)
		}
	}
}

func BenchmarkLayoutOfAPage(b *testing.B) {
	p := samplePage(false)
	for b.Loop() {
		Layout(p, Size{1280, 800}, State{TextScale: 1})
	}
}
