package sitting

import (
	"leastwatt/cases"
	"leastwatt/game/verb"
)

// WindowOptions are the window's flags. Say and Shot serve screen readers and
// tests.
type WindowOptions struct {
	Data   string  `json:"data" help:"Keep settings and drafts in this folder." placeholder:"DIR"`
	Say    string  `json:"say" help:"Write each screen in words to this file, for screen readers." placeholder:"FILE"`
	Shot   string  `json:"shot" help:"Write a picture of each screen to this file." placeholder:"FILE.png"`
	Width  int     `json:"width" help:"Width of the window." default:"1280"`
	Height int     `json:"height" help:"Height of the window." default:"800"`
	Scale  float64 `json:"scale" help:"Pixels for each point; 0 asks the display." default:"0"`
}

// Call is what the program tells the window program of Linux, as JSON.
type Call struct {
	Packs  []string      `json:"packs"`
	Labels string        `json:"labels"`
	Words  cases.Words   `json:"words"`
	Window WindowOptions `json:"window"`
}

// CallOf makes the call that stands for a shell and the window's flags.
func CallOf(s *verb.Shell, o WindowOptions) Call {
	return Call{Packs: s.Packs, Labels: s.Labels, Words: s.Words, Window: o}
}

// Shell is the other end of [CallOf], on the process's own streams.
func (c Call) Shell() *verb.Shell {
	s := verb.Stdio()
	s.Packs, s.Labels, s.Words = c.Packs, c.Labels, c.Words
	return s
}
