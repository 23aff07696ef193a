package window

import "github.com/hajimehoshi/ebiten/v2"

// pace lets the loop sleep between events while the user rests, and run at the
// monitor's rate while keys or the pointer are in use.
//
// Asleep, a key that goes down and up while the loop is busy painting would go
// unseen, because only its state is looked at; at the monitor's rate the library
// holds such a key until it was seen. The first event of all finds the loop idle
// and is never missed, and from then on it is awake.
type pace struct {
	started bool
	asleep  bool
	quiet   int // frames since anything happened
}

// restAfter is how many quiet frames pass before the loop sleeps: about half a
// second.
const restAfter = 30

func (p *pace) set(busy bool) {
	p.quiet++
	if busy || !p.started {
		p.quiet, p.started = 0, true
	}
	asleep := p.quiet > restAfter
	if asleep == p.asleep {
		return
	}
	p.asleep = asleep
	if asleep {
		sleepBetweenEvents()
	} else {
		runAtMonitorRate()
	}
}

// sleepBetweenEvents makes the loop wait for input: an idle window then costs
// nothing. The call is marked deprecated in favour of skipping the drawing, but
// that still wakes the processor at every refresh of the monitor; a page that
// rarely changes needs the waiting.
func sleepBetweenEvents() {
	//lint:ignore SA1019 skipping the drawing alone does not let the processor sleep
	ebiten.SetFPSMode(ebiten.FPSModeVsyncOffMinimum)
}

func runAtMonitorRate() {
	//lint:ignore SA1019 the way back from sleepBetweenEvents
	ebiten.SetFPSMode(ebiten.FPSModeVsyncOn)
}

// wake runs a sleeping loop once; any goroutine may call it.
func wake() {
	//lint:ignore SA1019 belongs to sleepBetweenEvents
	ebiten.ScheduleFrame()
}
