//go:build !linux

package main

import (
	"io"

	"leastwatt/game/open"
	"leastwatt/game/sitting"
	"leastwatt/game/verb"
)

type windowVerb = sitting.WindowOptions

// openWindow opens the window in this process: there always is a display.
func openWindow(s *verb.Shell, _ io.Reader, o *windowVerb) int { return open.Window(s, *o) }
