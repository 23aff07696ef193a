// The window as a program of its own, for Linux. Ebitengine looks for a
// display before any main function runs and ends the program when there is
// none; the verbs and the plain mode must work without one, so there they live
// in a program that does not hold Ebitengine, and that starts this one. Its
// only argument is a [sitting.Call] as JSON.
package main

import (
	"fmt"
	"os"

	gojson "github.com/goccy/go-json"

	"leastwatt/game/open"
	"leastwatt/game/sitting"
	"leastwatt/game/verb"
)

func main() {
	var call sitting.Call
	if len(os.Args) != 2 || gojson.Unmarshal([]byte(os.Args[1]), &call) != nil {
		fmt.Fprintln(os.Stderr, "leastwatt-window: start leastwatt instead; it starts this program")
		os.Exit(verb.Usage)
	}
	os.Exit(open.Window(call.Shell(), call.Window))
}
