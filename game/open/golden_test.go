package open

import (
	"os"
	"path/filepath"
	"testing"
)

// shot is a golden picture: a page in one look, kept in full or in half size.
type shot struct {
	page string
	look look
	path string
	half bool
}

// pictures is the folder of the README's pictures. They are golden pictures
// like the others, so what the README shows is what the program shows.
var pictures = filepath.Join("..", "..", "testdata", "pictures")

const mostBytes = 400_000 // of one picture in the README

var inReadme = map[string]string{
	"today": "today", "case-asked": "case", "case-skin5": "case-skin5",
	"plan": "plan", "plan-dark": "plan-dark", "debrief-unsafe": "debrief", "bench-burst": "bench", "progress": "progress",
}

// others are the looks beside the usual one, for the pages that have most on
// them.
var others = []struct {
	name string
	look look
}{
	{"dark", look{1280, 800, 1, true, 100}},
	{"text200", look{1280, 800, 1, false, 200}},
	{"scale2", look{1280, 800, 2, false, 100}},
	{"wide", look{1920, 1080, 1, false, 100}},
	{"small", look{960, 640, 1, false, 100}},
}

func shots() []shot {
	var list []shot
	add := func(page, name string, l look, half bool) {
		if in, ok := inReadme[name]; ok {
			list = append(list, shot{page, l, filepath.Join(pictures, in+".png"), false})
			return
		}
		list = append(list, shot{page, l, filepath.Join("testdata", "golden", name+".png"), half})
	}
	for _, p := range pages {
		add(p.name, p.name, usual, false)
	}
	for _, o := range others {
		for _, p := range []string{"today", "case-examined", "plan", "debrief-unsafe", "settings", "bench", "progress"} {
			add(p, p+"-"+o.name, o.look, true)
		}
	}
	return list
}

func TestEveryScreenLooksAsBefore(t *testing.T) {
	for _, s := range shots() {
		name := filepath.Base(filepath.Dir(s.path)) + "-" + filepath.Base(s.path)
		t.Run(name, func(t *testing.T) {
			got, err := pageNamed(t, s.page).shown(t, s.look).picture()
			if err != nil {
				t.Fatal(err)
			}
			if *keepIn != "" {
				writePNG(t, filepath.Join(*keepIn, name), got)
			}
			if s.half {
				got = halved(got)
			}
			compareGolden(t, s.path, got)
			info, err := os.Stat(s.path)
			if err != nil {
				t.Fatal(err)
			}
			if info.Size() > mostBytes {
				t.Errorf("%s takes %d bytes, more than %d", s.path, info.Size(), mostBytes)
			}
		})
	}
}
