// The window as a program of its own, for Linux. Ebitengine looks for a
// display before any main function runs and ends the program when there is
// none; the verbs and the plain mode must work without one, so there they live
// in a program that does not hold Ebitengine, and that starts this one. Its
// only argument is the call as JSON.
package main

import (
	"fmt"
	"os"

	gojson "github.com/goccy/go-json"

	"leastwatt/cases"
	"leastwatt/game/open"
	"leastwatt/game/verb"
)

func main() {
	var call struct {
		Packs   []string     `json:"packs"`
		Labels  string       `json:"labels"`
		Words   cases.Words  `json:"words"`
		Options open.Options `json:"options"`
	}
	if len(os.Args) != 2 || gojson.Unmarshal([]byte(os.Args[1]), &call) != nil {
		fmt.Fprintln(os.Stderr, "leastwatt-window: start leastwatt instead; it starts this program")
		os.Exit(verb.Usage)
	}
	s := verb.Stdio()
	s.Packs, s.Labels, s.Words = call.Packs, call.Labels, call.Words
	os.Exit(open.Window(s, call.Options))
}
