package screen

import (
	"fmt"
	"image"
	"image/color"
	"sync"

	"leastwatt/cases"
	"leastwatt/game/skin"
	"leastwatt/game/ui"
)

const (
	thumbPx   = 144  // a thumbnail is shown at 64 px, sharp up to a text size of 200 %
	lesionPx  = 720  // the lesion on the case screen
	widePx    = 960  // the same in a large window
	keptLarge = 12   // large pictures kept
	keptThumb = 2000 // thumbnails kept
)

// pictureKey names one picture: a case, how it is looked at, and how large.
type pictureKey struct {
	ref  string
	exam skin.Exam
	px   int
}

// pictureReady tells that a picture was drawn in the background.
type pictureReady struct{}

// gallery draws pictures of skin in the background, one at a time, and keeps
// them. Posting only wakes the screen: a picture that was ready before anyone
// listened is not lost.
type gallery struct {
	post func(any)

	mu      sync.Mutex // guards what follows
	ready   map[pictureKey]*image.RGBA
	order   []pictureKey // of ready, oldest first
	waiting []job
	busy    bool
}

type job struct {
	key     pictureKey
	subject skin.Subject
}

func newGallery(post func(any)) *gallery {
	return &gallery{post: post, ready: map[pictureKey]*image.RGBA{}}
}

// want asks for a picture. Without a way to post it, it is drawn at once.
func (g *gallery) want(key pictureKey, s skin.Subject) {
	if g.have(key) != nil {
		return
	}
	if g.post == nil {
		g.keep(key, drawn(key, s))
		return
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	for _, j := range g.waiting {
		if j.key == key {
			return
		}
	}
	g.waiting = append(g.waiting, job{key, s})
	if !g.busy {
		g.busy = true
		go g.work()
	}
}

func (g *gallery) work() {
	for {
		g.mu.Lock()
		if len(g.waiting) == 0 {
			g.busy = false
			g.mu.Unlock()
			return
		}
		j := g.next()
		g.mu.Unlock()
		g.keep(j.key, drawn(j.key, j.subject))
		g.post(pictureReady{})
	}
}

// next takes the large picture wanted last, else the thumbnail wanted first.
func (g *gallery) next() job {
	at := 0
	for i, j := range g.waiting {
		if j.key.px > thumbPx {
			at = i
		}
	}
	j := g.waiting[at]
	g.waiting = append(g.waiting[:at:at], g.waiting[at+1:]...)
	return j
}

func drawn(key pictureKey, s skin.Subject) *image.RGBA {
	v := skin.DefaultView(s, key.px)
	v.Exam = key.exam
	return skin.Draw(s, v)
}

// keep stores a picture and drops the oldest of its size when there are many.
func (g *gallery) keep(key pictureKey, img *image.RGBA) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.ready[key] == nil {
		g.order = append(g.order, key)
	}
	g.ready[key] = img
	most := keptThumb
	if key.px > thumbPx {
		most = keptLarge
	}
	n := 0
	for i := len(g.order) - 1; i >= 0; i-- {
		if (g.order[i].px > thumbPx) != (key.px > thumbPx) {
			continue
		}
		if n++; n > most {
			delete(g.ready, g.order[i])
			g.order = append(g.order[:i:i], g.order[i+1:]...)
		}
	}
}

// have is a picture that is drawn, nil when it is not.
func (g *gallery) have(key pictureKey) *image.RGBA {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.ready[key]
}

// subjectOf is what the picture of a case shows.
func subjectOf(c *cases.Case) skin.Subject {
	return skin.Subject{
		SkinType: c.Patient.SkinType, AgeYears: c.Patient.AgeYears.Float(), Site: c.Lesion.Site,
		Family: c.Lesion.Family, WidthMM: c.Lesion.WidthMM.Float(), HeightMM: c.Lesion.HeightMM.Float(),
		Count: c.Lesion.Counted(), Features: c.Lesion.Features, Seed: uint64(c.Lesion.Seed),
	}
}

// picture shows the lesion of a case, or plain skin of that patient's tone
// until it is drawn.
func (a *App) picture(ref string, c *cases.Case, exam skin.Exam, px int) ui.Picture {
	key := pictureKey{ref, exam, px}
	subject := subjectOf(c)
	view := skin.DefaultView(subject, px)
	view.Exam = exam
	p := ui.Picture{
		ID: fmt.Sprintf("picture/%s/%d/%d", ref, exam, px), Version: 1,
		Alt: lesionAlt(c, exam, a.words()), ScaleMM: view.ShownMM(), Drawn: true,
	}
	if img := a.gallery.have(key); img != nil {
		p.Image = img
		return p
	}
	p.Version = 0
	p.Image = tone(c.Patient.SkinType)
	return p
}

// lesionAlt says what a picture shows, without naming what it is.
func lesionAlt(c *cases.Case, exam skin.Exam, words cases.Words) string {
	how := map[skin.Exam]string{
		skin.ExamPressed: ", pressed with glass", skin.ExamPinched: ", pinched",
		skin.ExamMagnified: ", through a lens", skin.ExamDermoscope: ", through a dermoscope",
	}[exam]
	return fmt.Sprintf("Drawn picture of the lesion%s: %s wide, on skin type %d, %s", how,
		quantity(c.Lesion.WidthMM, "mm"), c.Patient.SkinType, place(&c.Lesion, words))
}

var tones struct {
	sync.Once
	image [7]*image.RGBA
}

// tone is one plain colour: the mean of a small piece of bare skin.
func tone(skinType int) image.Image {
	tones.Do(func() {
		for t := 1; t <= 6; t++ {
			bare := skin.Draw(skin.Subject{SkinType: t, AgeYears: 40, Site: "forearm"}, skin.View{SizePx: 24, WidthMM: 12})
			img := image.NewRGBA(image.Rect(0, 0, 8, 8))
			mean := meanColor(bare)
			for i := range 64 {
				img.SetRGBA(i%8, i/8, mean)
			}
			tones.image[t] = img
		}
	})
	return tones.image[min(max(skinType, 1), 6)]
}

func meanColor(img *image.RGBA) color.RGBA {
	var sum [3]int
	n := 0
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			p := img.RGBAAt(x, y)
			sum[0], sum[1], sum[2] = sum[0]+int(p.R), sum[1]+int(p.G), sum[2]+int(p.B)
			n++
		}
	}
	return color.RGBA{uint8(sum[0] / n), uint8(sum[1] / n), uint8(sum[2] / n), 255}
}
