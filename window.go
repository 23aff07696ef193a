package main

import (
	"io"

	"leastwatt/game/verb"
)

type windowVerb struct{}

func drill(s *verb.Shell, in io.Reader) int { return 0 }
func openWindow(s *verb.Shell, in io.Reader, w *windowVerb) int { return 0 }
