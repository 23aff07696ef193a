package screen

import (
	"bytes"
	"image"
	"testing"

	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

// A picture is drawn beside the loop, announced once, and the same as one
// drawn at once.
func TestPicturesAreDrawnInTheBackground(t *testing.T) {
	_, c := caseOf(t, "first-list/wedding")
	told := make(chan any, 8)
	far, near := newGallery(func(msg any) { told <- msg }), newGallery(nil)
	key := pictureKey{"first-list/wedding", skin.ExamPressed, 64}
	far.want(key, subjectOf(c))
	far.want(key, subjectOf(c))
	near.want(key, subjectOf(c))
	if _, ok := (<-told).(pictureReady); !ok {
		t.Fatal("another message came")
	}
	a, b := far.have(key), near.have(key)
	if a == nil || b == nil || !bytes.Equal(a.Pix, b.Pix) {
		t.Error("the two pictures differ")
	}
	if a.Rect != image.Rect(0, 0, 64, 64) {
		t.Errorf("it measures %v", a.Rect)
	}
}

func TestTheGalleryKeepsNoMoreThanItMay(t *testing.T) {
	g := newGallery(nil)
	for i := range keptLarge + 5 {
		g.keep(pictureKey{px: lesionPx, ref: string(rune('a' + i))}, image.NewRGBA(image.Rect(0, 0, 1, 1)))
		g.keep(pictureKey{px: thumbPx, ref: string(rune('a' + i))}, image.NewRGBA(image.Rect(0, 0, 1, 1)))
	}
	large, small := 0, 0
	for k := range g.ready {
		if k.px > thumbPx {
			large++
		} else {
			small++
		}
	}
	if large != keptLarge || small != keptLarge+5 || len(g.order) != len(g.ready) {
		t.Errorf("%d large and %d small pictures, %d in order", large, small, len(g.order))
	}
	if g.have(pictureKey{px: lesionPx, ref: "a"}) != nil || g.have(pictureKey{px: lesionPx, ref: "f"}) == nil {
		t.Error("the oldest did not go first")
	}
}

// Until a picture is there, plain skin of that patient stands for it.
func TestPlainSkinStandsForAPicture(t *testing.T) {
	a := newApp(t, quiet(config()))
	_, c := caseOf(t, "first-list/wedding")
	p := a.picture("first-list/wedding", c, skin.ExamNone, lesionPx)
	if p.Version != 0 || p.Image == nil {
		t.Errorf("version %d, image %v", p.Version, p.Image)
	}
	light, dark := tone(1).At(0, 0), tone(6).At(0, 0)
	lr, _, _, _ := light.RGBA()
	dr, _, _, _ := dark.RGBA()
	if lr <= dr {
		t.Error("skin type 1 is no lighter than type 6")
	}
}

// Every examination that changes the picture can be looked at again, and none
// before it was made.
func TestLooksFollowExaminations(t *testing.T) {
	a := newApp(t, quiet(config()))
	a.openCase("first-list/wedding")
	h := ui.NewHost(a)
	if len(a.looks()) != 1 {
		t.Fatalf("before any examination there are %v", a.looks())
	}
	a.Update(ui.Choose{ID: "examine", Index: 2})
	if a.look.exam != skin.ExamPressed {
		t.Error("pressing does not change the picture")
	}
	keys(h, "v")
	if a.look.exam != skin.ExamNone {
		t.Error("V does not lead back to bare skin")
	}
	a.Update(ui.Activate{ID: "look press_glass"})
	a.Update(ui.Activate{ID: "look magnify"})
	if a.look.exam != skin.ExamPressed {
		t.Error("an examination that was not made changes the picture")
	}
	keys(h, "ctrl+z")
	if h.Frame(); a.look.exam != skin.ExamNone {
		t.Error("undo leaves the picture pressed")
	}
}
